//! What is to be made, with nothing left open: a plan resolved against layouts, steps and blends.

use std::sync::OnceLock;

use super::code::Code;
use super::plan::{FocusNames, KeyPlace, Plan, PlanSheet, StepName};
use crate::bank::Bank;
use crate::fill::Hand;
use crate::layout::{Language, LanguageError, Layout, Library, LibraryError, Print, Translated, drawable};
use crate::nearest::nearest;
use crate::page::Paper;
use crate::seed::{Rules, Seed};
use crate::sequence::{Sequence, StepError};
use crate::sheet::ENGLISH;
use crate::sounds::{Blend, Notation, Side};

/// Everything that sheets are made from.
#[derive(Debug)]
pub struct Materials {
    /// The words.
    pub bank: Bank,
    /// The teaching sequence.
    pub sequence: Sequence,
    /// The layouts.
    pub library: Library,
    steps: OnceLock<Vec<Option<u16>>>,
}

impl Materials {
    /// Materials of these parts.
    #[must_use]
    pub const fn new(bank: Bank, sequence: Sequence, library: Library) -> Self {
        Self { bank, sequence, library, steps: OnceLock::new() }
    }

    /// For each word of the bank, the step from which it can be decoded, if any; worked out once for all packets.
    #[must_use]
    pub fn steps(&self) -> &[Option<u16>] {
        self.steps.get_or_init(|| self.sequence.steps_of(&self.bank))
    }
}

/// One sheet to make.
#[derive(Clone, Debug)]
pub struct SheetRequest {
    /// The layout.
    pub layout: Layout,
    /// The child's step, from 1.
    pub step: u16,
    /// The blends to practise; `None` when they are to be the newest that are taught at the step.
    pub focus: Option<Vec<&'static Blend>>,
    /// How many items, when it is not the layout's own number.
    pub count: Option<usize>,
    /// The heading.
    pub title: String,
    /// The language of its texts, a BCP 47 tag.
    pub language: String,
    /// Its texts in that language.
    pub texts: Translated,
    /// What it practises, in the words and the language in which a note to the family says it.
    pub practises: String,
    /// Which sheet of its layout it is in the packet, from 1.
    pub nth: usize,
}

/// A packet to make.
#[derive(Clone, Debug)]
pub struct PacketRequest {
    /// Its title.
    pub title: String,
    /// The paper.
    pub paper: Paper,
    /// Where the key goes.
    pub key: KeyPlace,
    /// The seed.
    pub seed: Seed,
    /// The version of the rules of choosing.
    pub rules: Rules,
    /// For whom, as typed.
    pub child: Option<String>,
    /// The letter of the set, when equal sets go by letters.
    pub set: Option<String>,
    /// The code by which the packet is found again.
    pub code: Option<Code>,
    /// Which of several equal sets it is, words that come first, words to spare.
    pub hand: Hand,
    /// What is printed at the foot of each page where it is not what it was.
    pub mark: Option<String>,
    /// The step and focus that its set is dealt for.
    pub cohort: String,
    /// Words that the child can read whatever the step.
    pub extra: Vec<String>,
    /// Words that are not for the child, with their forms.
    pub leave_out: Vec<String>,
    /// How sounds are written.
    pub notation: Notation,
    /// What is asked of the print.
    pub print: Print,
    /// The sheets.
    pub sheets: Vec<SheetRequest>,
}

/// Why a plan can't be resolved.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RequestError {
    /// A layout is unknown or damaged.
    #[error(transparent)]
    Layout(#[from] LibraryError),
    /// A step is unknown.
    #[error(transparent)]
    Step(#[from] StepError),
    /// A blend is unknown.
    #[error("there is no blend `{name}`\nhelp: {hint}")]
    Blend {
        /// The name.
        name: String,
        /// The nearest one, and where to see all.
        hint: String,
    },
    /// A language has not all that is to be printed.
    #[error(transparent)]
    Language(#[from] LanguageError),
    /// A text can't be used.
    #[error("{what} {why}\nhelp: {hint}")]
    Text {
        /// Which text.
        what: String,
        /// What is wrong with it.
        why: String,
        /// What to do.
        hint: String,
    },
}

impl PacketRequest {
    /// Resolves a plan. `seed` is used when the plan has none.
    ///
    /// # Errors
    /// When a layout, a step or a blend is unknown, or a text can't be printed.
    pub fn new(plan: &Plan, materials: &Materials, seed: Seed) -> Result<Self, RequestError> {
        let language = match &plan.language {
            Some(tag) => materials.library.language(tag)?,
            None => None,
        };
        let mut sheets: Vec<SheetRequest> = Vec::with_capacity(plan.sheets.len());
        for sheet in &plan.sheets {
            let layout = &materials.library.get(&sheet.layout)?.layout;
            let nth = sheets.iter().filter(|other| other.layout.name == layout.name).count() + 1;
            sheets.push(resolve(plan, sheet, layout, nth, &materials.sequence, language)?);
        }
        if let (Some(language), Some(sheet)) = (language, sheets.first())
            && sheets.iter().all(|sheet| sheet.language == ENGLISH)
        {
            return Err(language.missing(&format!("layouts.{}", sheet.layout.name)).into());
        }
        for title in std::iter::once(&plan.title).chain(sheets.iter().map(|sheet| &sheet.title)) {
            check_title(title)?;
        }
        Ok(Self {
            title: plan.title.clone(),
            paper: plan.paper.unwrap_or_default(),
            key: plan.key.unwrap_or_default(),
            seed: plan.seed.clone().unwrap_or(seed),
            rules: Rules::CURRENT,
            child: plan.child.clone().map(|child| child.trim().to_owned()).filter(|child| !child.is_empty()),
            set: None,
            code: None,
            hand: Hand::default(),
            mark: None,
            cohort: String::new(),
            extra: Vec::new(),
            leave_out: Vec::new(),
            notation: plan.notation.unwrap_or_default(),
            print: Print { band: plan.band, large: plan.large_print, left_hand: plan.left_hand },
            sheets,
        })
    }

    /// The name as it can be printed, or `None` when there is none or the font can't draw it: then the line is left to write on.
    #[must_use]
    pub fn printed_child(&self) -> Option<&str> {
        self.child.as_deref().and_then(drawable).filter(|child| child.chars().count() <= MOST_NAME)
    }
}

/// The longest name that is printed, in characters.
const MOST_NAME: usize = 40;

fn check_title(title: &str) -> Result<(), RequestError> {
    let error = |why: &str, hint: &str| RequestError::Text {
        what: "the title".to_owned(),
        why: why.to_owned(),
        hint: hint.to_owned(),
    };
    if title.trim().is_empty() {
        return Err(error("is empty", "give a short title"));
    }
    if title.chars().count() > 120 {
        return Err(error("is longer than 120 characters", "give a shorter one"));
    }
    drawable(title).map(|_| ()).ok_or_else(|| error("has characters that the font can't draw", "write it without them"))
}

fn resolve(
    plan: &Plan,
    sheet: &PlanSheet,
    layout: &Layout,
    nth: usize,
    sequence: &Sequence,
    language: Option<&Language>,
) -> Result<SheetRequest, RequestError> {
    let translated = language.map(|language| language.translated(layout)).transpose()?.flatten();
    let practises = language.map_or_else(|| Ok(layout.skill.clone()), |language| language.skill(&layout.name))?;
    let stated = sheet.step.as_ref().or(plan.step.as_ref());
    let step = match stated.map(|StepName(name)| name.as_str()).or(layout.step.as_deref()) {
        Some(name) => sequence.step(name)?.number,
        None => sequence.steps().last().map_or(1, |step| step.number),
    };
    let focus = match sheet.focus.as_ref().or(plan.focus.as_ref()) {
        Some(FocusNames(names)) => Some(blends(names)?),
        // A step that was asked for has its own newest blends; else the layout's example is as good as any.
        None if stated.is_some() => None,
        None => Some(blends(&layout.focus)?),
    };
    Ok(SheetRequest {
        layout: layout.clone(),
        step,
        focus,
        count: sheet.count,
        title: sheet.title.as_ref().or(translated.as_ref().map(|texts| &texts.title)).unwrap_or(&layout.title).clone(),
        language: language.filter(|_| translated.is_some()).map_or(ENGLISH, |language| &language.language).to_owned(),
        texts: translated.unwrap_or_else(|| Translated::english(layout)),
        practises,
        nth,
    })
}

/// The blends of names such as `bl`, `bl-` or `-nd`. A name without a hyphen that an initial and a final blend share (`st`)
/// is the initial one; a sheet about endings takes the final one of the same sounds.
fn blends(names: &[String]) -> Result<Vec<&'static Blend>, RequestError> {
    names.iter().map(|name| Ok(blends_named(name)?[0])).collect()
}

/// The blends that a name such as `bl`, `bl-` or `-nd` can mean, initial before final; at least one.
///
/// # Errors
/// When there is none; the message names the nearest.
pub fn blends_named(name: &str) -> Result<Vec<&'static Blend>, RequestError> {
    let (plain, side) = match (name.strip_suffix('-'), name.strip_prefix('-')) {
        (Some(plain), _) => (plain, Some(Side::Onset)),
        (None, Some(plain)) => (plain, Some(Side::Coda)),
        (None, None) => (name, None),
    };
    let mut found = Blend::named(plain);
    found.retain(|blend| side.is_none_or(|side| side == blend.side));
    if found.is_empty() {
        let all = "`sheafling list blends` shows all";
        let near = nearest(plain, Blend::names());
        let hint = near.map_or_else(|| all.to_owned(), |near| format!("did you mean `{near}`? {all}"));
        return Err(RequestError::Blend { name: name.to_owned(), hint });
    }
    Ok(found)
}
