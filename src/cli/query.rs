//! Reading what is asked of words: sounds, numbers, steps; and loading what commands work on.

use std::ops::RangeInclusive;
use std::path::Path;

use super::Failure;
use crate::bank::{Bank, Word};
use crate::layout::Library;
use crate::nearest::nearest;
use crate::packet::{Source, blends_named};
use crate::sequence::Sequence;
use crate::sounds::{Blend, Side, Sound};
use crate::yaml::read_text;

/// The built-in sequence, or a file of the user's.
///
/// # Errors
/// When the file can't be read or is not a sequence.
pub fn sequence(file: Option<&Path>) -> Result<Sequence, Failure> {
    let Some(file) = file else { return Sequence::builtin().map_err(Failure::usage) };
    let text = read_text(file).map_err(Failure::usage)?;
    Sequence::from_text(&file.display().to_string(), &text).map_err(Failure::usage)
}

/// The same, with the text of the user's file.
///
/// # Errors
/// When the file can't be read or is not a sequence.
pub fn sequence_with_source(file: Option<&Path>) -> Result<(Sequence, Option<Source>), Failure> {
    let Some(file) = file else { return Ok((sequence(None)?, None)) };
    let text = read_text(file).map_err(Failure::usage)?;
    let file = file.display().to_string();
    let sequence = Sequence::from_text(&file, &text).map_err(Failure::usage)?;
    Ok((sequence, Some(Source { file, text })))
}

/// The built-in layouts, with a folder laid over them.
///
/// # Errors
/// When a layout can't be read.
pub fn library(folder: Option<&Path>) -> Result<Library, Failure> {
    let mut library = Library::builtin().map_err(Failure::usage)?;
    if let Some(folder) = folder {
        library.lay_over(folder).map_err(Failure::usage)?;
    }
    Ok(library)
}

/// The sounds that an option such as `bl`, `sh` or `k` asks for on one side of a word.
///
/// # Errors
/// When it is no blend and no consonant.
pub fn sounds(option: &str, text: &str, side: Side) -> Result<Vec<Sound>, Failure> {
    let plain = text.trim().to_lowercase();
    let plain = plain.trim_matches(|c| c == '-' || c == '/');
    if let Some(blend) = Blend::named(plain).into_iter().find(|blend| blend.side == side) {
        return Ok(blend.sounds.to_vec());
    }
    if let Some(sound) = consonant(plain) {
        return Ok(vec![sound]);
    }
    let consonants = Sound::ALL.iter().filter(|sound| !sound.is_vowel()).map(|sound| sound.teacher());
    let blends: Vec<&str> = Blend::names().collect();
    let near = nearest(plain, blends.iter().copied().chain(consonants));
    let meant = near.map_or_else(String::new, |near| format!("did you mean `{near}`? "));
    let example = if side == Side::Onset { "`bl`, `sh` or `k`" } else { "`nd`, `sh` or `k`" };
    Err(Failure::usage(format!(
        "--{option}: `{text}` is no blend and no consonant\nhelp: {meant}write a blend or a sound such as {example}; \
         `sheafling list blends` shows the blends"
    )))
}

/// The blends that a name can mean.
///
/// # Errors
/// When there is none of that name.
pub fn blends(name: &str) -> Result<Vec<&'static Blend>, Failure> {
    blends_named(&name.to_lowercase()).map_err(Failure::usage)
}

/// A consonant by its symbol, or by another usual spelling.
fn consonant(text: &str) -> Option<Sound> {
    Some(match text {
        "c" | "ck" => Sound::K,
        "ph" | "ff" => Sound::F,
        "ll" => Sound::L,
        "ss" => Sound::S,
        "zz" => Sound::Z,
        "wh" => Sound::W,
        "tch" => Sound::Ch,
        "dge" => Sound::J,
        "kn" => Sound::N,
        "wr" => Sound::R,
        "dh" => Sound::Dh,
        symbol => *Sound::ALL.iter().find(|sound| !sound.is_vowel() && sound.teacher() == symbol)?,
    })
}

/// A number such as `4` or a range such as `3-5`.
///
/// # Errors
/// When it is neither.
pub fn range(option: &str, text: &str) -> Result<RangeInclusive<usize>, Failure> {
    let wrong = || {
        Failure::usage(format!(
            "--{option}: `{text}` is no number and no range\nhelp: write a number such as 4, or a range such as 3-5"
        ))
    };
    let number = |text: &str| text.trim().parse::<usize>().map_err(|_| wrong());
    match text.split_once('-') {
        None => number(text).map(|one| one..=one),
        Some((from, to)) => {
            let (from, to) = (number(from)?, number(to)?);
            if from > to { Err(wrong()) } else { Ok(from..=to) }
        }
    }
}

/// A word of the bank, in whatever case it is written.
///
/// # Errors
/// When the bank has none of that spelling; the message names the nearest.
pub fn word<'a>(bank: &'a Bank, spelling: &str) -> Result<&'a Word, Failure> {
    let plain = spelling.trim().to_lowercase();
    bank.get(&plain).ok_or_else(|| {
        let near = nearest(&plain, bank.words().iter().map(|word| word.spelling.as_str()));
        let meant = near.map_or_else(String::new, |near| format!("\nhelp: did you mean `{near}`?"));
        Failure::unfilled(format!("`{spelling}` is not in the word bank{meant}"))
    })
}
