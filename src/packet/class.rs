//! A packet for each child of a group, or for each of several lettered sets.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::code::Code;
use super::group::{Child, file_names};
use super::plan::{FocusNames, Plan, StepName};
use super::request::{Materials, PacketRequest, RequestError, blends_named};
use super::sets::{Place, places};
use crate::fill::{Hand, Seat};
use crate::seed::{Rules, Seed};
use crate::sounds::Blend;

/// One packet of a run, as the manifest keeps it: all that is its own, beside the plan and the seed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Member {
    /// The child; none for a lettered set, and for a packet that is for nobody by name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub child: Option<Child>,
    /// The letter of the set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub letter: Option<String>,
    /// Which of the equal sets of its cohort it has, from 1; none for a packet by itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub set: Option<usize>,
    /// The step and focus that its set is dealt for.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub cohort: String,
    /// How many of a hundred items may be words that come first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wanted: Option<usize>,
    /// Words of earlier packets, used only where there are not enough others.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub spare: Vec<String>,
    /// The name of its file, without an ending.
    pub file: String,
    /// The code at the foot of its pages.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<Code>,
}

impl Member {
    /// Whom messages name.
    #[must_use]
    pub fn label(&self) -> String {
        match (&self.child, &self.letter) {
            (Some(child), _) => child.name.clone(),
            (None, Some(letter)) => format!("set {letter}"),
            (None, None) => self.file.clone(),
        }
    }
}

/// For whom packets are made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Deal {
    /// One packet, for nobody else beside.
    #[default]
    Alone,
    /// Equal sets with words of their own.
    Different,
    /// The same words for all, in other orders.
    Same,
}

/// The members of a group, in the order of the file; those who are away are left out, and their sets kept for them. `before`
/// are the places of an earlier run, by the children's names.
///
/// # Errors
/// When a step or a blend is unknown.
pub fn of_children(
    children: &[Child],
    plan: &Plan,
    materials: &Materials,
    before: &BTreeMap<String, Place>,
) -> Result<Vec<Member>, RequestError> {
    let mut cohorts = BTreeMap::new();
    for child in children {
        let key = (
            child.step.as_ref().or(plan.step.as_ref()).cloned(),
            child.focus.as_ref().or(plan.focus.as_ref()).cloned(),
        );
        let step = match &key.0 {
            Some(StepName(name)) => {
                let step = materials.sequence.step(name)?;
                format!("step {} ({})", step.number, step.name)
            }
            None => "every step".to_owned(),
        };
        let focus = match key.1 {
            Some(focus) => in_one_order(&focus)?,
            None => "the newest blends".to_owned(),
        };
        cohorts.insert(child.name.clone(), format!("{step}, {focus}"));
    }
    let cohort = |child: &Child| cohorts.get(&child.name).cloned().unwrap_or_default();
    let places = places(children, cohort, before);
    let files = file_names(children.iter().map(|child| child.name.as_str()));
    let member = |((child, place), file): ((&Child, Place), String)| Member {
        child: Some(child.clone()),
        set: Some(place.set + 1),
        cohort: place.cohort,
        file,
        ..Member::default()
    };
    let members = children.iter().zip(places).zip(files).map(member);
    Ok(members.filter(|member| member.child.as_ref().is_none_or(|child| !child.away)).collect())
}

/// Blends in the order of their list, however they are written: `cl bl` and `bl- cl-` are one focus.
fn in_one_order(focus: &FocusNames) -> Result<String, RequestError> {
    let blends: Result<BTreeSet<&'static Blend>, RequestError> =
        focus.0.iter().map(|name| Ok(blends_named(name)?[0])).collect();
    Ok(blends?.into_iter().map(ToString::to_string).collect::<Vec<_>>().join(" "))
}

/// The members of lettered sets.
///
/// # Errors
/// When two have the same letter, or one can't be printed.
pub fn of_letters(letters: &[String], plan: &Plan) -> Result<Vec<Member>, RequestError> {
    let error = |what: String, why: &str| RequestError::Text {
        what,
        why: why.to_owned(),
        hint: "write letters or short names, as in --sets A,B,C".to_owned(),
    };
    if letters.is_empty() {
        return Err(error("the list of sets".to_owned(), "is empty"));
    }
    let mut seen = BTreeSet::new();
    for letter in letters {
        if letter.trim().is_empty() || letter.chars().count() > 20 || crate::layout::drawable(letter).is_none() {
            return Err(error(format!("the set `{letter}`"), "can't be printed at the foot of a page"));
        }
        if !seen.insert(letter.trim().to_lowercase()) {
            return Err(error(format!("the set `{letter}`"), "is there twice"));
        }
    }
    let names: Vec<String> = letters.iter().map(|letter| format!("set {letter}")).collect();
    let focus = plan.focus.as_ref().map_or_else(|| "the newest blends".to_owned(), |focus| focus.0.join(" "));
    let step = plan.step.as_ref().map_or_else(|| "every step".to_owned(), |step| format!("step {}", step.0));
    let member = |((at, letter), file): ((usize, &String), String)| Member {
        letter: Some(letter.trim().to_owned()),
        set: Some(at + 1),
        cohort: format!("{step}, {focus}"),
        file,
        ..Member::default()
    };
    Ok(letters.iter().enumerate().zip(file_names(names.iter().map(String::as_str))).map(member).collect())
}

/// What is to be made for one member, with its code.
///
/// # Errors
/// When a layout, a step or a blend is unknown.
pub fn request(
    member: &Member,
    plan: &Plan,
    deal: Deal,
    seed: &Seed,
    rules: Rules,
    materials: &Materials,
) -> Result<PacketRequest, RequestError> {
    let mut own = plan.clone();
    let mut leave_out = Vec::new();
    let mut hand = Hand { spare: member.spare.clone(), ..Hand::default() };
    hand.wanted = member.wanted.unwrap_or(hand.wanted);
    let mut extra = Vec::new();
    if let Some(child) = &member.child {
        if let Some(step) = &child.step {
            // What a sheet of the plan states is for those who have come so far.
            let number = materials.sequence.step(&step.0)?.number;
            for sheet in &mut own.sheets {
                if let Some(stated) = &sheet.step
                    && materials.sequence.step(&stated.0)?.number > number
                {
                    sheet.step = None;
                }
            }
            own.step = Some(step.clone());
        }
        own.focus = child.focus.clone().or(own.focus);
        own.child = Some(child.name.clone());
        own.large_print |= child.large_print;
        own.left_hand |= child.left_hand;
        extra.clone_from(&child.words);
        hand.wants.clone_from(&child.words);
        leave_out = with_forms(&child.leave_out, materials);
    }
    hand.seat = match (deal, member.set) {
        (Deal::Different, Some(set)) => Seat::Set(set - 1),
        (Deal::Same, Some(set)) => Seat::Same(set - 1),
        _ => Seat::Alone,
    };
    let mut request = PacketRequest::new(&own, materials, seed.clone())?;
    request.seed = seed.clone();
    request.rules = rules;
    request.set.clone_from(&member.letter);
    request.hand = hand;
    request.extra = extra;
    request.cohort.clone_from(&member.cohort);
    request.leave_out = leave_out;
    Ok(request)
}

/// Words with the forms of each: *witch*, *witches*.
fn with_forms(words: &[String], materials: &Materials) -> Vec<String> {
    let is_form = |base: &String| words.contains(base);
    let forms =
        materials.bank.words().iter().filter(|word| word.flags.form.as_ref().is_some_and(|(base, _)| is_form(base)));
    words.iter().cloned().chain(forms.map(|word| word.spelling.clone())).collect()
}
