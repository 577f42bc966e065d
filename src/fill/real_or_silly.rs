//! Words and nonsense words, mixed, to be read and told apart.

use serde::Deserialize;

use super::focus::{self, BadFocus};
use super::words::{self, Words};
use super::{FillError, Filled, Problem, Request, Span, WordsFocus};
use crate::bank::{Band, Silly, SillyMaker};
use crate::seed::Stream;
use crate::sheet::{Item, Kind};
use crate::sounds::{Blend, Side};

/// Words and nonsense words of the same make, mixed; the child reads each and marks those that are words.
///
/// A nonsense word is of letter groups, blends and a shape that have been taught, and can be read by these in one way only; it is
/// no word by sound in CMUdict nor by spelling, and not rude. The blends of the focus are shared evenly among both; where the focus
/// has too few words or nonsense words, others that can be read take over. No two nonsense words rhyme unless there are too few.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct RealOrSilly {
    /// How many words in all: 4 to 40. Default: 12.
    pub count: usize,
    /// How many of a hundred are nonsense, rounded down: 10 to 90. Default: 50.
    pub silly: usize,
    /// The fewest and the most sounds: each 2 to 10. Default: `[3, 5]`.
    pub sounds: Span,
    /// Whether the focus blend opens both (`start`), or does not matter (`none`). Default: `start`.
    pub focus: WordsFocus,
    /// The age bands of the words, any of `"K"`, `"1"`, `"2"`, `"3"`; empty for all. Default: `["K", "1", "2"]`, words that the
    /// child is likely to know by ear.
    pub bands: Vec<Band>,
}

impl Default for RealOrSilly {
    fn default() -> Self {
        Self {
            count: 12,
            silly: 50,
            sounds: Span::new(3, 5),
            focus: WordsFocus::Start,
            bands: vec![Band::K, Band::One, Band::Two],
        }
    }
}

/// What the key says of a nonsense word.
pub(super) const SILLY: &str = "silly";

impl RealOrSilly {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(4, 40).admit("count", self.count, &mut problems);
        Span::new(10, 90).admit("silly", self.silly, &mut problems);
        self.sounds.check("sounds", Span::new(2, 10), &mut problems);
        if matches!(self.focus, WordsFocus::End | WordsFocus::Any) {
            problems.push(Problem::new("focus", "here it is `start` or `none`"));
        }
        problems
    }

    /// How many of the words are nonsense.
    pub(super) const fn nonsense(&self) -> usize {
        self.count * self.silly / 100
    }
}

/// Chooses the words and the nonsense words.
pub(super) fn choose(spec: &RealOrSilly, request: &Request) -> Result<Filled, FillError> {
    let wanted = spec.nonsense();
    let real = Words {
        count: spec.count - wanted,
        sounds: spec.sounds,
        focus: spec.focus,
        review: true,
        bands: spec.bands.clone(),
        ..Words::default()
    };
    let mut real = words::choose(&real, request)?.items;
    for item in &mut real {
        item.choices = item.shown.clone();
    }
    let blends = match spec.focus {
        WordsFocus::None => Vec::new(),
        _ => focus::usable(&request.focus, Some(Side::Onset))?,
    };
    let maker = request.taught.silly(request.bank);
    let mut stream = request.own_words("silly");
    let mut silly = nonsense(spec, request, &maker, &blends, wanted, &mut stream);
    if let Some(own) = request.hand.seat.apart(&stream) {
        stream = own;
    }
    if silly.len() < wanted {
        return Err(too_few(request, silly.len(), wanted).into());
    }
    stream.shuffle(&mut silly);
    let mut items = Vec::with_capacity(spec.count);
    for at in kinds(spec.count, wanted, &mut stream) {
        items.extend(if at { silly.pop() } else { real.pop() });
    }
    Ok(Filled { items, ..Filled::default() })
}

/// For each place whether a nonsense word stands there. Where it can be, no three of a kind follow each other, and in two columns
/// neither has more than half of the nonsense words but one, so that the place gives nothing away.
fn kinds(count: usize, silly: usize, stream: &mut Stream) -> Vec<bool> {
    let mut kinds: Vec<bool> = (0..count).map(|nth| nth < silly).collect();
    for _ in 0..200 {
        stream.shuffle(&mut kinds);
        let left = kinds.iter().step_by(2).filter(|&&silly| silly).count();
        let mixed = (2 * left).abs_diff(silly) <= 2;
        if mixed && kinds.windows(3).all(|run| run[0] != run[1] || run[1] != run[2]) {
            break;
        }
    }
    kinds
}

/// Nonsense words, shared among the blends in turn; others take over when those of the focus have run out.
fn nonsense(
    spec: &RealOrSilly,
    request: &Request,
    maker: &SillyMaker,
    blends: &[&'static Blend],
    wanted: usize,
    stream: &mut Stream,
) -> Vec<Item> {
    let counting = request.bank.counting();
    let reads = |silly: &&Silly| request.taught.is_decodable(&silly.to_word(counting), request.bank);
    let fits = |silly: &&Silly| spec.sounds.holds(silly.sounds.len()) && !request.avoid.contains(&silly.spelling);
    let all: Vec<&Silly> = maker.candidates().iter().filter(fits).filter(reads).collect();
    let mut order = blends.to_vec();
    stream.shuffle(&mut order);
    let mut chosen: Vec<&Silly> = Vec::with_capacity(wanted);
    for nth in 0..wanted {
        let turn = |at: usize| order.get((nth + at) % order.len().max(1)).copied();
        let next = (0..order.len())
            .filter_map(turn)
            .map(Some)
            .chain([None])
            .find_map(|blend| draw(&all, blend, &chosen, stream));
        chosen.extend(next);
    }
    chosen.into_iter().map(|silly| item(silly, blends)).collect()
}

/// Draws one with a blend (with any beginning, when it is none) that sounds like none before it: first of those that rhyme with none
/// before, then of any. Those whose rhyme is spelled so in more words are likelier.
fn draw<'m>(
    all: &[&'m Silly<'m>],
    blend: Option<&'static Blend>,
    before: &[&Silly],
    stream: &mut Stream,
) -> Option<&'m Silly<'m>> {
    let opens = |silly: &&&'m Silly<'m>| blend.is_none_or(|blend| silly.onset() == blend.sounds);
    let new = |silly: &&&'m Silly<'m>| before.iter().all(|other| other.sounds != silly.sounds);
    let free: Vec<&'m Silly<'m>> = all.iter().filter(opens).filter(new).copied().collect();
    let alone = |silly: &&&'m Silly<'m>| before.iter().all(|other| other.rime() != silly.rime());
    let apart: Vec<&'m Silly<'m>> = free.iter().filter(alone).copied().collect();
    let pool = if apart.is_empty() { free } else { apart };
    let weights: Vec<u32> =
        pool.iter().map(|silly| u32::try_from(silly.words_with_its_rime().min(12)).unwrap_or(12)).collect();
    stream.weighted(&weights).map(|at| pool[at])
}

fn item(silly: &Silly, blends: &[&'static Blend]) -> Item {
    let mut item = Item::of_text(Kind::Silly, &silly.spelling);
    item.sounds = silly.sounds.iter().map(|sound| sound.code()).collect();
    item.letters = silly.groups().map(str::to_owned).collect();
    item.shown = vec![silly.spelling.clone()];
    item.choices = item.shown.clone();
    item.answer = vec![SILLY.to_owned()];
    item.blend = blends.iter().find(|blend| blend.sounds == silly.onset()).map(|blend| blend.name.to_owned());
    item
}

fn too_few(request: &Request, found: usize, wanted: usize) -> BadFocus {
    BadFocus {
        why: format!(
            "{wanted} nonsense words are wanted, and {found} can be made of what is taught by {}, each read in one way only.",
            request.step
        ),
        hint: "choose a later step, allow more `sounds`, or ask for fewer words (`--count`)".to_owned(),
    }
}
