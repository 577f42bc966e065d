//! Rhyme riddles: a kind of thing and a nonsense word that rhymes with it.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::focus::{self, BadFocus, names};
use super::near::read_by;
use super::pool::{Wanted, weight};
use super::share::Homes;
use super::{FillError, Filled, Hand, Problem, Request, Span};
use crate::bank::{Band, Category, Class, Riddle, Silly, SillyMaker, Slot, Word};
use crate::seed::Stream;
use crate::sheet::{Item, Kind};
use crate::sounds::{BLENDS, Blend, Side, Sound};
use crate::spelling::pairs;

/// Riddles that the adult says, such as "I am thinking of an animal. It rhymes with *spish*."; the child says the word and writes or draws it.
///
/// The answer is the only word of its kind in the bank with that rhyme. The nonsense word begins with a blend of the focus, shared
/// evenly, and is no word by sound in CMUdict, nor rude. It is heard, and so may be of
/// letter groups that are not taught yet. No two riddles of a sheet have the same rhyme.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Riddles {
    /// How many riddles: 1 to 20. Default: 6.
    pub count: usize,
    /// The fewest and the most sounds of the answers: each 1 to 16. Default: `[2, 6]`.
    pub sounds: Span,
    /// The fewest and the most syllables of the answers: each 1 to 6. Default: `[1, 1]`.
    pub syllables: Span,
    /// Whether the child writes the answer, which then can be read at the step or is known by sight. Otherwise it is drawn or said,
    /// and any word will do. Default: true.
    pub written: bool,
    /// The age bands of the answers, any of `"K"`, `"1"`, `"2"`, `"3"`; empty for all. Default: `["K", "1"]`.
    pub bands: Vec<Band>,
    /// The kinds of thing of which the answers are. Default: all that can be said in a riddle.
    pub categories: Vec<Category>,
}

impl Default for Riddles {
    fn default() -> Self {
        Self {
            count: 6,
            sounds: Span::new(2, 6),
            syllables: Span::new(1, 1),
            written: true,
            bands: vec![Band::K, Band::One],
            categories: Vec::new(),
        }
    }
}

/// How a riddle says of what kind its answer is. Kinds of which a child could not say whether a thing is one are left out.
pub(super) const KINDS: &[(Category, &str)] = &[
    (Category::Animal, "an animal"),
    (Category::Body, "a part of the body"),
    (Category::Building, "a building or a part of one"),
    (Category::Clothes, "something to wear"),
    (Category::Container, "something that holds things"),
    (Category::Drink, "something to drink"),
    (Category::Farm, "something on a farm"),
    (Category::Food, "something to eat"),
    (Category::House, "a thing in the house"),
    (Category::Kitchen, "a thing in the kitchen"),
    (Category::Music, "something for making music"),
    (Category::Nature, "something outdoors"),
    (Category::Number, "a word for how many"),
    (Category::Plant, "a plant or a part of one"),
    (Category::Ride, "something to ride in or on"),
    (Category::School, "a thing in the classroom"),
    (Category::Sea, "something at the sea"),
    (Category::Shape, "a shape"),
    (Category::Sport, "something in sports"),
    (Category::Tool, "a tool"),
    (Category::Toy, "something to play with"),
    (Category::Weather, "a kind of weather"),
];

/// Words that are of their kind, but not what comes to mind first: a teacher would ask what was meant, or a child has a better
/// answer. Judged by reading.
const DOUBTFUL: &[&str] = &[
    "bead", "block", "box", "can", "clip", "clock", "drink", "dust", "earth", "first", "fourth", "ice", "kid", "lap",
    "lock", "math", "net", "pen", "pin", "pipe", "plant", "print", "ring", "run", "shape", "shell", "space", "spring",
    "step", "tank", "test", "tube", "twice", "word",
];

impl Riddles {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(1, 20).admit("count", self.count, &mut problems);
        self.sounds.check("sounds", Span::new(1, 16), &mut problems);
        self.syllables.check("syllables", Span::new(1, 6), &mut problems);
        if let Some(category) = self.categories.iter().find(|one| KINDS.iter().all(|(known, _)| known != *one)) {
            let known: Vec<_> = KINDS.iter().map(|(known, _)| known.name()).collect();
            let message =
                format!("no riddle says that a thing is of the kind {category}; choose from {}", known.join(", "));
            problems.push(Problem::new("categories", message));
        }
        problems
    }
}

/// Chooses the riddles.
pub(super) fn choose(spec: &Riddles, request: &Request) -> Result<Filled, FillError> {
    let blends = match focus::usable(&request.focus, Some(Side::Onset))? {
        none if none.is_empty() => BLENDS.iter().filter(|b| b.taught && b.side == Side::Onset).collect(),
        some => some,
    };
    let maker = SillyMaker::new(request.bank, pairs(), |_, _| true);
    let onsets = Slot::OneOf(blends.iter().map(|blend| blend.sounds.to_vec()).collect());
    let riddles = request.bank.riddles(&maker, &onsets);
    let kind = |category: Category| spec.categories.is_empty() || spec.categories.contains(&category);
    // "Something for making music" is no *sang*, though that is of the kind and so must not rhyme with another answer.
    let names_a_thing =
        |riddle: &Riddle| riddle.category == Category::Number || riddle.answer.classes.contains(&Class::Noun);
    let said = |riddle: &&Riddle| {
        kind(riddle.category)
            && names_a_thing(riddle)
            && !DOUBTFUL.contains(&riddle.answer.spelling.as_str())
            && KINDS.iter().any(|(known, _)| *known == riddle.category)
    };
    let riddles: Vec<&Riddle> = riddles.iter().filter(said).collect();

    let mut stream = request.own("riddles");
    let homes = Homes::new(&one_of_each_rhyme(answers(spec, request, &riddles, false), &mut stream), &[], None);
    let found = homes.at_most(false);
    if found < spec.count {
        let all = one_of_each_rhyme(answers(spec, request, &riddles, true), &mut stream);
        let drawn = Homes::new(&all, &[], None).at_most(false);
        return Err(too_few(spec, request, &blends, found, drawn).into());
    }
    let mut items: Vec<Item> = Vec::with_capacity(spec.count);
    for (_, answer) in homes.deal(spec.count, &mut stream, &Hand::default()) {
        let of: Vec<&&Riddle> = riddles.iter().filter(|riddle| riddle.answer == answer).collect();
        let Some(riddle) = stream.pick(&of) else { continue };
        let Some((silly, blend)) = nonsense(riddle, &blends, &items, &mut stream) else { continue };
        items.push(item(riddle, silly, blend));
    }
    Ok(Filled { items, ..Filled::default() })
}

/// The words that are asked for, each once: those that the child can write, or all when `any` says so or they are drawn.
fn answers<'a>(spec: &Riddles, request: &Request<'a>, riddles: &[&Riddle<'a>], any: bool) -> Vec<&'a Word> {
    let by_sight = |word: &Word| request.by_sight.iter().any(|(known, _)| *known == word.spelling);
    let reads = |word: &Word| any || !spec.written || (request.decodable)(word) || by_sight(word);
    let asked = read_by(request, &reads);
    let wanted = Wanted {
        sounds: spec.sounds,
        syllables: spec.syllables,
        boxes: false,
        allow: &[],
        forms: false,
        bands: &spec.bands,
        categories: &[],
    };
    let filter = wanted.filter(&asked);
    let mut words: Vec<&Word> = riddles.iter().map(|riddle| riddle.answer).filter(|word| filter.keeps(word)).collect();
    words.sort_by(|one, other| one.spelling.cmp(&other.spelling));
    words.dedup_by(|one, other| one.spelling == other.spelling);
    words
}

/// One word of each rhyme, drawn by how common it is.
fn one_of_each_rhyme<'a>(words: Vec<&'a Word>, stream: &mut Stream) -> Vec<&'a Word> {
    let mut by_rhyme: BTreeMap<&[Sound], Vec<&'a Word>> = BTreeMap::new();
    for word in words {
        by_rhyme.entry(word.rhyme_part()).or_default().push(word);
    }
    let draw = |words: &Vec<&'a Word>| {
        let weights: Vec<u32> = words.iter().map(|word| weight(word)).collect();
        stream.weighted(&weights).map(|at| words[at])
    };
    by_rhyme.values().filter_map(draw).collect()
}

/// A nonsense word for a riddle: of a blend that has been used the least, and with a spelling that more words have.
fn nonsense<'m>(
    riddle: &Riddle<'m>,
    blends: &[&'static Blend],
    before: &[Item],
    stream: &mut Stream,
) -> Option<(&'m Silly<'m>, &'static Blend)> {
    let used = |blend: &Blend| before.iter().filter(|item| item.blend.as_deref() == Some(blend.name)).count();
    let of = |silly: &'m Silly<'m>| {
        blends.iter().find(|blend| blend.sounds == silly.onset()).map(|blend| (silly, *blend, used(blend)))
    };
    let all: Vec<(&Silly, &'static Blend, usize)> = riddle.silly.iter().copied().filter_map(of).collect();
    let least = all.iter().map(|(.., used)| *used).min()?;
    let free: Vec<_> = all.into_iter().filter(|(.., used)| *used == least).collect();
    let weights: Vec<u32> =
        free.iter().map(|(silly, ..)| u32::try_from(silly.words_with_its_rime().min(12)).unwrap_or(12)).collect();
    stream.weighted(&weights).map(|at| (free[at].0, free[at].1))
}

fn item(riddle: &Riddle, silly: &Silly, blend: &Blend) -> Item {
    let mut item = Item::about(Kind::Heard, riddle.answer);
    let kind = KINDS.iter().find(|(known, _)| *known == riddle.category).map_or("", |(_, kind)| kind);
    let clue = format!("I am thinking of {kind}. It rhymes with {}.", silly.spelling);
    item.shown = vec![clue.clone()];
    item.answer = vec![riddle.answer.spelling.clone()];
    item.blend = Some(blend.name.to_owned());
    item.texts.insert("clue".to_owned(), clue);
    item
}

fn too_few(spec: &Riddles, request: &Request, blends: &[&'static Blend], found: usize, drawn: usize) -> BadFocus {
    let with = names(blends, "or");
    let read = if spec.written { format!(" that can be read at {}", request.step) } else { String::new() };
    let are = if found == 1 { "there is" } else { "there are" };
    let why = format!(
        "{} riddles are wanted, and {are} {found} with an answer{read} and a nonsense word with {with}.",
        spec.count
    );
    let fewer = if found > 0 { format!(", or ask for fewer (--count {found})") } else { String::new() };
    let hint = if spec.written && drawn >= spec.count {
        format!("choose a later step, let the answers be drawn (`written: false`, {drawn} riddles){fewer}")
    } else {
        format!("add another blend to the focus, allow more `bands` or `categories`{fewer}")
    };
    BadFocus { why, hint }
}
