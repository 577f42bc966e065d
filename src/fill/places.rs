//! Where in a word a blend is heard: at the beginning, in the middle, or at the end.

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;

use super::equal::hand_out;
use super::focus::{BadFocus, names};
use super::hand::{Hand, Seat};
use super::near::{by_ear, share_a_sound, times_in};
use super::pick::even_places;
use super::pool::{Wanted, kin, weight};
use super::{FillError, Filled, Problem, Request, Span};
use crate::bank::{Band, Misfit, Word};
use crate::seed::Stream;
use crate::sheet::{Item, Kind};
use crate::sounds::{BLENDS, Blend, Place, Side, Sound};

/// Words to hear, each with a blend that is heard in it exactly once: at the beginning, in the middle or at the end.
///
/// Each place has a third of the words. A place at which too few words have a focus
/// blend (*bl* never closes a word) is filled up by commonly taught blends that share a sound with one, and then by any. The
/// words are heard, not read, so they need not be readable; none has an x, in which two sounds hide.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Places {
    /// How many words: 3 to 40. Default: 10.
    pub count: usize,
    /// The fewest and the most sounds: each 1 to 16. Default: `[3, 8]`.
    pub sounds: Span,
    /// The fewest and the most syllables: each 1 to 6; a blend in the middle needs two. Default: `[1, 2]`.
    pub syllables: Span,
    /// The age bands, any of `"K"`, `"1"`, `"2"`, `"3"`; empty for all. Default: `["K", "1"]`, words that children know by ear.
    pub bands: Vec<Band>,
}

impl Default for Places {
    fn default() -> Self {
        Self { count: 10, sounds: Span::new(3, 8), syllables: Span::new(1, 2), bands: vec![Band::K, Band::One] }
    }
}

impl Places {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(3, 40).admit("count", self.count, &mut problems);
        self.sounds.check("sounds", Span::new(1, 16), &mut problems);
        self.syllables.check("syllables", Span::new(1, 6), &mut problems);
        if self.syllables.max < 2 {
            problems.push(Problem::new("syllables", "a blend in the middle needs words of two syllables"));
        }
        problems
    }
}

/// A word with the blend that is listened for, as it opens or closes a syllable there.
type Heard<'w> = (&'w Word, &'static Blend);

/// Chooses the words.
pub(super) fn choose(spec: &Places, request: &Request) -> Result<Filled, FillError> {
    let hearing = by_ear(request);
    let wanted = Wanted {
        sounds: spec.sounds,
        syllables: spec.syllables,
        // An x would hide the sounds of a blend in one letter, as in extra.
        boxes: true,
        allow: &[Misfit::Qu, Misfit::TwoSounds, Misfit::Silent],
        forms: false,
        bands: &spec.bands,
        categories: &[],
    };
    let words = wanted.filter(&hearing).apply(request.bank.words());
    let share = spec.count.div_ceil(3);
    let mut pools: Vec<Vec<Heard>> = Vec::new();
    for place in Place::ALL {
        let pool = pool(&words, &request.focus, place, share);
        if pool.len() < share {
            return Err(too_few(place, pool.len(), share, request).into());
        }
        pools.push(pool);
    }
    let mut stream = request.stream.fork("places");
    let order = even_places(spec.count, Place::ALL.len(), &mut stream);
    let numbers = kin(&words);
    let number = |word: &Word| words.iter().position(|other| other.spelling == word.spelling).map(|at| numbers[at]);
    let mut used: BTreeSet<Option<usize>> = BTreeSet::new();
    let mut drawn: Vec<(usize, Heard)> = Vec::with_capacity(spec.count);
    // What is drawn first is the pattern of all sets, so it may not depend on the child.
    let plain = Hand::default();
    let drawn_for = if matches!(request.hand.seat, Seat::Set(_)) { &plain } else { &request.hand };
    for at in order {
        let unused: Vec<Heard> = pools[at].iter().copied().filter(|(word, _)| !used.contains(&number(word))).collect();
        let Some(heard) = draw(&unused, &drawn, drawn_for, &mut stream) else {
            return Err(too_few(Place::ALL[at], pools[at].len(), share, request).into());
        };
        used.insert(number(heard.0));
        drawn.push((at, heard));
    }
    if let Seat::Set(set) = request.hand.seat {
        drawn = of_set(set, &drawn, &pools, &number, request, &stream);
    }
    if let Some(mut own) = request.hand.seat.apart(&stream) {
        mix(&mut drawn, &mut own);
    }
    let item = |(at, (word, blend)): (usize, Heard)| {
        let mut item = Item::about(Kind::Heard, word);
        item.shown = vec![blend.name.to_owned(), word.spelling.clone()];
        let listen: Vec<String> =
            blend.sounds.iter().map(|sound| format!("/{}/", sound.symbol(request.notation))).collect();
        item.texts.insert("listen".to_owned(), listen.join(" "));
        item.place = Some(Place::ALL[at]);
        item.answer = vec![Place::ALL[at].name().to_owned()];
        item.blend = Some(blend.name.to_owned());
        item
    };
    Ok(Filled { items: drawn.into_iter().map(item).collect(), ..Filled::default() })
}

/// Another set's words in the places of those that were drawn: for each place and blend as many, of the same kinds.
fn of_set<'w>(
    set: usize,
    drawn: &[(usize, Heard<'w>)],
    pools: &[Vec<Heard<'w>>],
    number: &dyn Fn(&Word) -> Option<usize>,
    request: &Request,
    stream: &Stream,
) -> Vec<(usize, Heard<'w>)> {
    let mut shares: BTreeMap<(usize, &str), (usize, &'static Blend)> = BTreeMap::new();
    for (at, (_, blend)) in drawn {
        shares.entry((*at, blend.name)).or_insert((0, blend)).0 += 1;
    }
    let mut used: BTreeSet<Option<usize>> = BTreeSet::new();
    let mut dealt = Vec::with_capacity(drawn.len());
    for ((at, name), (share, blend)) in shares {
        let mut kin: BTreeMap<Option<usize>, Vec<&'w Word>> = BTreeMap::new();
        for (word, of) in &pools[at] {
            if of.name == name && !used.contains(&number(word)) {
                kin.entry(number(word)).or_default().push(word);
            }
        }
        let kin: Vec<Vec<&'w Word>> = kin.into_values().collect();
        let mut shared = stream.fork(&format!("{name} {at}"));
        for word in hand_out(&kin, Some(blend), (dealt.len(), share), set, &mut shared, &request.hand) {
            used.insert(number(word));
            dealt.push((at, (word, blend)));
        }
    }
    // Where kin of another place took the last words of this one, the sheet keeps those that were drawn first.
    if dealt.len() < drawn.len() { drawn.to_vec() } else { dealt }
}

/// Another order, with no place three times in a row where that can be.
fn mix(drawn: &mut [(usize, Heard)], stream: &mut Stream) {
    for _ in 0..64 {
        stream.shuffle(drawn);
        if drawn.windows(3).all(|run| run[0].0 != run[1].0 || run[1].0 != run[2].0) {
            break;
        }
    }
}

/// The words with a blend at a place: of the focus, and as long as those are fewer than a share also of others.
fn pool<'w>(words: &[&'w Word], focus: &[&'static Blend], place: Place, share: usize) -> Vec<Heard<'w>> {
    let asked = |blend: &&'static Blend| focus.iter().any(|focus| focus.sounds == blend.sounds);
    let near = |blend: &&'static Blend| focus.iter().any(|focus| share_a_sound(focus, blend));
    let common = || BLENDS.iter().filter(|blend| blend.taught);
    let mut blends: Vec<&'static Blend> = BLENDS.iter().filter(asked).collect();
    let mut found = with_one_of(words, &blends, place);
    if found.len() < share {
        blends.extend(common().filter(|blend| near(blend) && !asked(blend)));
        found = with_one_of(words, &blends, place);
    }
    if found.len() < share {
        blends = BLENDS.iter().filter(|blend| blend.taught || asked(blend)).collect();
        found = with_one_of(words, &blends, place);
    }
    found
}

/// The words that hold one of some blends once, and there. What two syllables make together, as the s and k of *basket*, is
/// no blend but could be heard as one, so it counts against a word.
fn with_one_of<'w>(words: &[&'w Word], blends: &[&'static Blend], place: Place) -> Vec<Heard<'w>> {
    let here = |word: &&'w Word| {
        let word = *word;
        let once = |(blend, at): &(&'static Blend, Place)| {
            *at == place
                && blends.contains(blend)
                && times_in(blend.sounds, &word.sounds) == 1
                && (place != Place::Middle || is_clear_middle(word, blend))
        };
        word.blends().find(once).map(|(blend, _)| (word, blend))
    };
    words.iter().filter_map(here).collect()
}

/// Endings and beginnings before or after which a dictionary parts a word, though the sounds could open a syllable together: *safe-ly*,
/// *wait-ress*, *dis-like*, *neck-lace*.
const SEAM_ENDINGS: [&str; 17] = [
    "ful", "lace", "late", "less", "let", "like", "ling", "lish", "ly", "ment", "ness", "rat", "ress", "teen",
    "teenth", "ty", "ward",
];
const SEAM_BEGINNINGS: [&str; 9] = ["con", "dis", "en", "ex", "in", "mis", "sub", "trans", "un"];

/// Whether nobody parts a word inside a blend in its middle: it does not stand across a seam of the word's parts, and does not begin
/// with an /s/ that a short vowel before it could keep, as in *bas-ket* (dictionaries part both so; common practice).
fn is_clear_middle(word: &Word, blend: &Blend) -> bool {
    let Some(cluster) =
        word.clusters.iter().find(|cluster| cluster.place == Place::Middle && cluster.blend == Some(blend))
    else {
        return false;
    };
    let first = cluster.from;
    let short = |sound: &Sound| {
        use Sound::{Schwa, ShortA, ShortE, ShortI, ShortO, ShortU};
        [ShortA, ShortE, ShortI, ShortO, ShortU, Schwa].contains(sound)
    };
    if blend.sounds.first() == Some(&Sound::S) && first > 0 && short(&word.sounds[first - 1]) {
        return false;
    }
    (1..blend.sounds.len()).all(|inside| {
        let Some((head, tail)) = word.letter_of(first + inside).and_then(|at| word.spelling.split_at_checked(at))
        else {
            return false;
        };
        !SEAM_ENDINGS.contains(&tail) && !SEAM_BEGINNINGS.contains(&head)
    })
}

/// Draws a word by its weight from those whose blend has been used the least; words to spare only where there are no others.
fn draw<'w>(unused: &[Heard<'w>], before: &[(usize, Heard)], hand: &Hand, stream: &mut Stream) -> Option<Heard<'w>> {
    let used = |blend: &Blend| before.iter().filter(|(_, (_, of))| of.name == blend.name).count();
    let least = unused.iter().map(|(_, blend)| used(blend)).min()?;
    let mut open: Vec<Heard<'w>> = unused.iter().copied().filter(|(_, blend)| used(blend) == least).collect();
    if open.iter().any(|(word, _)| !hand.spares(&word.spelling)) {
        open.retain(|(word, _)| !hand.spares(&word.spelling));
    }
    let weights: Vec<u32> = open.iter().map(|(word, _)| weight(word)).collect();
    stream.weighted(&weights).map(|at| open[at])
}

fn too_few(place: Place, found: usize, needed: usize, request: &Request) -> BadFocus {
    let side = if place == Place::End { Side::Coda } else { Side::Onset };
    let of: Vec<&'static Blend> = request.focus.iter().copied().filter(|blend| blend.side == side).collect();
    let of = if of.is_empty() { "a blend".to_owned() } else { names(&of, "or") };
    BadFocus {
        why: format!(
            "At least {needed} of the words need {of} at the {}, and there are {found}, even with other blends.",
            place.name()
        ),
        hint: "ask for fewer words, allow more `bands`, or more `syllables` and `sounds`".to_owned(),
    }
}
