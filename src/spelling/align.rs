//! Which letters of a word spell which of its sounds.

use std::fmt;

use super::pairs::{Pair, table};
use crate::sounds::{Phone, parse_phones};

/// One letter group of a word and the sounds that it spells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unit {
    /// The letters; a split vowel has `_` where its consonants stand: `a_e`.
    pub letters: String,
    /// The sounds, one or more, with stress.
    pub phones: Vec<Phone>,
}

impl Unit {
    /// The unit as a grapheme–sound pair, without stress.
    #[must_use]
    pub fn pair(&self) -> Pair {
        Pair { letters: self.letters.clone(), phonemes: self.phones.iter().map(|p| p.phoneme).collect() }
    }

    /// The letters before and after the gap of a split vowel; the second part is empty when it is not split.
    #[must_use]
    pub fn halves(&self) -> (&str, &str) {
        self.letters.split_once('_').unwrap_or((&self.letters, ""))
    }
}

/// A word's letter groups in the order of its sounds. Together they hold every letter and every sound once.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Alignment {
    /// The groups.
    pub units: Vec<Unit>,
    /// For each split vowel, in order, the index of the unit before which its second half stands in the spelling
    /// (the number of units when it stands at the end).
    pub closings: Vec<usize>,
}

impl Alignment {
    /// The letters in order: the word's spelling.
    #[must_use]
    pub fn spelling(&self) -> String {
        let mut text = String::new();
        self.walk(|letters, _| text.push_str(letters));
        text
    }

    /// For each group, the index in the spelling at which its first letter stands.
    #[must_use]
    pub fn letter_starts(&self) -> Vec<usize> {
        let mut starts = Vec::with_capacity(self.units.len());
        let mut at = 0;
        self.walk(|letters, begins| {
            if begins {
                starts.push(at);
            }
            at += letters.len();
        });
        starts
    }

    /// Calls `visit` with the runs of letters in the order of the spelling, and whether each begins a group (or is the second
    /// half of a split vowel).
    fn walk(&self, mut visit: impl FnMut(&str, bool)) {
        let mut tails = self.units.iter().map(|u| u.halves().1).filter(|tail| !tail.is_empty());
        let mut closings = self.closings.iter().peekable();
        for at in 0..=self.units.len() {
            while closings.next_if(|&&closing| closing == at).is_some() {
                visit(tails.next().unwrap_or_default(), false);
            }
            if let Some(unit) = self.units.get(at) {
                visit(unit.halves().0, true);
            }
        }
    }

    /// The sounds in order.
    #[must_use]
    pub fn phones(&self) -> Vec<Phone> {
        self.units.iter().flat_map(|unit| unit.phones.iter().copied()).collect()
    }
}

impl fmt::Display for Alignment {
    /// The form of the bank's file: `b=B r=R a_e=EY1 v=V . `, with `.` where the second half of a split vowel stands if that is
    /// not at the end, and `+` between the sounds of one group: `x=K+S`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut parts = Vec::new();
        let mut closings = self.closings.iter().peekable();
        for (at, unit) in self.units.iter().enumerate() {
            while closings.next_if(|&&closing| closing == at).is_some() {
                parts.push(".".to_owned());
            }
            let codes: Vec<_> = unit.phones.iter().map(ToString::to_string).collect();
            parts.push(format!("{}={}", unit.letters, codes.join("+")));
        }
        f.write_str(&parts.join(" "))
    }
}

impl std::str::FromStr for Alignment {
    type Err = String;

    /// Reads what [`Display`](fmt::Display) writes.
    fn from_str(text: &str) -> Result<Self, String> {
        let mut units: Vec<Unit> = Vec::new();
        let mut closings = Vec::new();
        let mut open = 0_usize;
        for part in text.split_ascii_whitespace() {
            if part == "." {
                open = open.checked_sub(1).ok_or("a `.` closes no split vowel")?;
                closings.push(units.len());
                continue;
            }
            let (letters, codes) = part.split_once('=').ok_or_else(|| format!("`{part}` has no `=`"))?;
            let mut phones = Vec::with_capacity(1);
            for code in codes.split('+') {
                phones.push(code.parse::<Phone>().map_err(|unknown| unknown.to_string())?);
            }
            if letters.contains('_') {
                open += 1;
            }
            units.push(Unit { letters: letters.to_owned(), phones });
        }
        closings.extend(std::iter::repeat_n(units.len(), open));
        Ok(Self { units, closings })
    }
}

/// Costs of the alignment: fewer groups before more, usual before rare, and a split vowel over one consonant before the
/// same vowel alone, so that *cage* is c-a_e-g and *change* is ch-a-n-ge.
mod cost {
    pub const UNIT: u32 = 10;
    pub const RARE: u32 = 5;
    pub const SPLIT: u32 = 8;
    pub const SPLIT_OVER_MORE: u32 = 12;
}

/// Aligns a spelling with its sounds by dynamic programming over the table of pairs: the cheapest way in which letter groups
/// of the table, from left to right, use up every letter and every sound. `None` when the table has no way.
#[must_use]
pub fn align(spelling: &str, phones: &[Phone]) -> Option<Alignment> {
    if spelling.is_empty() || phones.is_empty() || !spelling.is_ascii() {
        return None;
    }
    let letters = spelling.as_bytes();
    // best[state] of the way from a state to the end; a state is (letter, phone, open split vowel).
    let mut memo = Memo { letters, phones, best: vec![None; (letters.len() + 1) * (phones.len() + 1) * 3] };
    memo.solve(0, 0, Open::No)?;
    Some(memo.walk())
}

/// Whether a split vowel waits for its second half, and whether one or more consonant groups have come since.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Open {
    No,
    /// Just opened: nothing may close it yet.
    Fresh,
    /// Closed by an `e` from here on.
    Ready,
}

#[derive(Clone)]
enum Step {
    End,
    /// Take an entry of the table.
    Unit {
        letters: &'static str,
        sounds: usize,
    },
    /// The silent `e` of the open split vowel.
    Close,
}

#[derive(Clone)]
struct Best {
    cost: Option<u32>,
    step: Step,
}

struct Memo<'a> {
    letters: &'a [u8],
    phones: &'a [Phone],
    best: Vec<Option<Best>>,
}

impl Memo<'_> {
    fn index(&self, letter: usize, phone: usize, open: Open) -> usize {
        (letter * (self.phones.len() + 1) + phone) * 3 + open as usize
    }

    /// The least cost from a state to the end, or `None` when there is no way.
    fn solve(&mut self, letter: usize, phone: usize, open: Open) -> Option<u32> {
        let index = self.index(letter, phone, open);
        if let Some(best) = &self.best[index] {
            return best.cost;
        }
        let mut best = Best { cost: None, step: Step::End };
        let mut offer = |cost: Option<u32>, step: Step| {
            if cost.is_some_and(|cost| best.cost.is_none_or(|known| cost < known)) {
                best = Best { cost, step };
            }
        };
        if letter == self.letters.len() && phone == self.phones.len() && open == Open::No {
            offer(Some(0), Step::End);
        }
        if open == Open::Ready && self.letters.get(letter) == Some(&b'e') {
            offer(self.solve(letter + 1, phone, Open::No), Step::Close);
        }
        if phone < self.phones.len() {
            for entry in table().starting_with(self.phones[phone]) {
                let Some((taken, next_open, cost)) = self.fit(entry, letter, phone, open) else { continue };
                let sounds = entry.pair.phonemes.len();
                let rest = self.solve(letter + taken, phone + sounds, next_open);
                offer(rest.map(|rest| rest + cost), Step::Unit { letters: &entry.pair.letters, sounds });
            }
        }
        let cost = best.cost;
        self.best[index] = Some(best);
        cost
    }

    /// How many letters an entry takes here, the state after it, and its cost; `None` when it does not fit.
    fn fit(&self, entry: &super::pairs::Entry, letter: usize, phone: usize, open: Open) -> Option<(usize, Open, u32)> {
        let phonemes = &entry.pair.phonemes;
        let here = self.phones.get(phone..phone + phonemes.len())?;
        if here.iter().zip(phonemes).any(|(phone, phoneme)| phone.phoneme != *phoneme) {
            return None;
        }
        let (head, split) = match entry.pair.letters.split_once('_') {
            Some((head, _)) => (head, true),
            None => (entry.pair.letters.as_str(), false),
        };
        if !self.letters[letter..].starts_with(head.as_bytes()) {
            return None;
        }
        let vowel = phonemes[0].is_vowel();
        // Inside an open split vowel there are only consonants, and at most one split vowel is open at a time.
        if open != Open::No && vowel {
            return None;
        }
        let rare = if entry.rare { cost::RARE } else { 0 };
        let (next, base) = match (open, split) {
            (Open::No, true) => (Open::Fresh, cost::SPLIT),
            (Open::No, false) => (Open::No, cost::UNIT),
            (Open::Fresh, _) => (Open::Ready, cost::UNIT),
            (Open::Ready, _) => (Open::Ready, cost::UNIT + cost::SPLIT_OVER_MORE - cost::SPLIT),
        };
        Some((head.len(), next, base + rare))
    }

    /// Follows the best steps from the start.
    fn walk(&self) -> Alignment {
        let (mut letter, mut phone, mut open) = (0, 0, Open::No);
        let mut found = Alignment { units: Vec::new(), closings: Vec::new() };
        while let Some(best) = &self.best[self.index(letter, phone, open)] {
            match &best.step {
                Step::End => break,
                Step::Close => {
                    found.closings.push(found.units.len());
                    letter += 1;
                    open = Open::No;
                }
                Step::Unit { letters, sounds } => {
                    let phones = self.phones[phone..phone + sounds].to_vec();
                    found.units.push(Unit { letters: (*letters).to_owned(), phones });
                    phone += sounds;
                    letter += letters.split('_').next().map_or(0, str::len);
                    open = match open {
                        Open::No if letters.contains('_') => Open::Fresh,
                        Open::No => Open::No,
                        _ => Open::Ready,
                    };
                }
            }
        }
        found
    }
}

/// Aligns a spelling with codes such as `B R EY1 V`. See [`align`].
#[must_use]
pub fn align_codes(spelling: &str, codes: &str) -> Option<Alignment> {
    align(spelling, &parse_phones(codes).ok()?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn groups(spelling: &str, codes: &str) -> String {
        let found = align_codes(spelling, codes).unwrap_or_else(|| panic!("{spelling} {codes}"));
        assert_eq!(found.spelling(), spelling);
        assert_eq!(found.phones(), parse_phones(codes).unwrap());
        assert_eq!(found.to_string().parse::<Alignment>().as_ref(), Ok(&found));
        found.units.iter().map(|u| u.letters.as_str()).collect::<Vec<_>>().join("-")
    }

    /// Common practice, no source: letter groups as a teacher would underline them.
    #[test]
    fn groups_letters_as_teachers_do() {
        for (word, codes, expected) in [
            ("brave", "B R EY1 V", "b-r-a_e-v"),
            ("weight", "W EY1 T", "w-eigh-t"),
            ("blank", "B L AE1 NG K", "b-l-a-n-k"),
            ("sneeze", "S N IY1 Z", "s-n-ee-ze"),
            ("knees", "N IY1 Z", "kn-ee-s"),
            ("cage", "K EY1 JH", "c-a_e-g"),
            ("change", "CH EY1 N JH", "ch-a-n-ge"),
            ("taste", "T EY1 S T", "t-a_e-s-t"),
            ("house", "HH AW1 S", "h-ou-se"),
            ("bridge", "B R IH1 JH", "b-r-i-dge"),
            ("cube", "K Y UW1 B", "c-u_e-b"),
            ("fork", "F AO1 R K", "f-or-k"),
            ("care", "K EH1 R", "c-a_e-r"),
            ("jumped", "JH AH1 M P T", "j-u-m-p-ed"),
            ("queen", "K W IY1 N", "qu-ee-n"),
            ("fox", "F AA1 K S", "f-o-x"),
            ("apple", "AE1 P AH0 L", "a-pp-le"),
            ("thumb", "TH AH1 M", "th-u-mb"),
            ("clothes", "K L OW1 DH Z", "c-l-o_e-th-s"),
            ("picture", "P IH1 K CH ER0", "p-i-c-t-ure"),
            ("light", "L AY1 T", "l-igh-t"),
            ("cakes", "K EY1 K S", "c-a_e-k-s"),
        ] {
            assert_eq!(groups(word, codes), expected, "{word}");
        }
    }

    #[test]
    fn what_cannot_be_aligned_is_none() {
        assert!(align_codes("", "B").is_none());
        assert!(align_codes("b", "").is_none());
        assert!(align_codes("dog", "K AE1 T").is_none());
        assert!(align_codes("é", "EY1").is_none());
    }
}
