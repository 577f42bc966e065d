//! Which blends stand near each other in sound, which are taught by now, and words that are only heard.

use super::Request;
use super::focus::{is_heard, on_side};
use crate::bank::Word;
use crate::sounds::{BLENDS, Blend, Place, Side, Sound};

/// How many words of one syllable a child must be able to read with a blend for it to count as taught.
const TAUGHT_BY: usize = 3;

/// Where a blend of a side stands in a word that is known by it.
pub(super) const fn edge(side: Side) -> Place {
    match side {
        Side::Onset => Place::Beginning,
        Side::Coda => Place::End,
    }
}

/// Blends that are practised only when they are asked for: few words have the one, and the other goes with its letter.
const BY_REQUEST: [&str; 2] = ["dw", "qu"];

/// The commonly taught blends of a side that the child can read in some words by now.
pub(super) fn taught(request: &Request, side: Side) -> Vec<&'static Blend> {
    let reads = |word: &&Word| {
        word.syllables.len() == 1 && !word.is_form() && !word.flags.irregular && (request.decodable)(word)
    };
    let words: Vec<&Word> = request.bank.words().iter().filter(reads).collect();
    let known = |blend: &&'static Blend| {
        words.iter().filter(|word| is_heard(word, blend, Some(edge(side)))).take(TAUGHT_BY).count() == TAUGHT_BY
    };
    let common = |blend: &&'static Blend| blend.taught && blend.side == side && !BY_REQUEST.contains(&blend.name);
    BLENDS.iter().filter(common).filter(known).collect()
}

/// The focus blends of a side, and after them the others that are taught.
pub(super) fn focus_and_taught(request: &Request, side: Side) -> Vec<&'static Blend> {
    let mut blends = on_side(&request.focus, Some(side));
    let more: Vec<&'static Blend> = taught(request, side).into_iter().filter(|blend| !blends.contains(blend)).collect();
    blends.extend(more);
    blends
}

/// Whether two blends are near in sound: they share a sound.
pub(super) fn share_a_sound(one: &Blend, other: &Blend) -> bool {
    one.sounds.iter().any(|sound| other.sounds.contains(sound))
}

/// How often some sounds stand in a row in others.
pub(super) fn times_in(part: &[Sound], sounds: &[Sound]) -> usize {
    sounds.windows(part.len().max(1)).filter(|window| *window == part).count()
}

/// The letters that spell the cluster of a blend in a word, without the *e* that is silent.
pub(super) fn spelled(word: &Word, blend: &'static Blend) -> Option<String> {
    let cluster = word.clusters.iter().find(|cluster| cluster.blend == Some(blend))?;
    let first = word.heard.get(cluster.from)?.from;
    let last = word.heard.get(cluster.from + cluster.len - 1)?;
    let end = last.from + last.phones;
    let mut letters = String::new();
    let mut phone = 0;
    for unit in &word.alignment.units {
        if (first..end).contains(&phone) {
            letters.push_str(unit.letters.split('_').next().unwrap_or_default());
        }
        phone += unit.phones.len();
    }
    Some(letters)
}

/// Whether a word spells a blend as the blend is named, so that the letters on the page are those of the word.
pub(super) fn spelled_as_named(word: &Word, blend: &'static Blend) -> bool {
    spelled(word, blend).is_some_and(|letters| letters == blend.name)
}

/// The same request for words that the child hears and does not read.
pub(super) fn by_ear<'a>(request: &Request<'a>) -> Request<'a> {
    read_by(request, &|_: &Word| true)
}

/// The same request for a child who can read other words.
pub(super) fn read_by<'a>(request: &Request<'a>, decodable: &'a (dyn Fn(&Word) -> bool + Sync)) -> Request<'a> {
    Request { decodable, stream: request.stream.fork("by-ear"), ..request.clone() }
}
