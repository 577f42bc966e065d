//! Fingerprints of what sheets are made from, and what differs between two of them.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::request::{Materials, PacketRequest};
use crate::bank::Bank;
use crate::page::Face;
use crate::seed::Rules;
use crate::sequence::Sequence;

/// Fingerprints (BLAKE3, 64 hexadecimal digits each) of what sheets are made from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fingerprints {
    /// The program's version.
    pub program: String,
    /// The version of the rules by which content is chosen.
    pub rules: u32,
    /// The built-in word bank.
    pub bank: String,
    /// The built-in teaching sequence.
    pub sequence: String,
    /// The fonts.
    pub fonts: String,
    /// The layouts of the packet, by name.
    pub layouts: BTreeMap<String, String>,
}

impl Fingerprints {
    /// Those of this program and of the layouts that some requests use.
    #[must_use]
    pub fn of<'a>(requests: impl IntoIterator<Item = &'a PacketRequest>, materials: &Materials) -> Self {
        let mut layouts = BTreeMap::new();
        for sheet in requests.into_iter().flat_map(|request| &request.sheets) {
            let name = &sheet.layout.name;
            if !layouts.contains_key(name)
                && let Ok(stored) = materials.library.get(name)
            {
                layouts.insert(name.clone(), blake3::hash(stored.text.as_bytes()).to_hex().to_string());
            }
        }
        let mut fonts = blake3::Hasher::new();
        for face in Face::ALL {
            fonts.update(face.bytes());
        }
        Self {
            program: env!("CARGO_PKG_VERSION").to_owned(),
            rules: Rules::CURRENT.version(),
            bank: Bank::builtin_fingerprint(),
            sequence: Sequence::builtin_fingerprint(),
            fonts: fonts.finalize().to_hex().to_string(),
            layouts,
        }
    }

    /// What is other than it was in `before`, each in a few words; empty when nothing is.
    #[must_use]
    pub fn differences(&self, before: &Self) -> Vec<String> {
        let mut told = Vec::new();
        if self.program != before.program {
            told.push(format!(
                "the program: it was made with version {}, and this is {}",
                before.program, self.program
            ));
        }
        if self.rules != before.rules {
            told.push(format!("the rules of choosing: they were version {}, and are {}", before.rules, self.rules));
        }
        for (what, now, then) in [
            ("the word bank", &self.bank, &before.bank),
            ("the teaching sequence", &self.sequence, &before.sequence),
            ("the fonts", &self.fonts, &before.fonts),
        ] {
            if now != then {
                told.push(format!("{what}: its fingerprint was {}…, and is {}…", short(then), short(now)));
            }
        }
        for (name, then) in &before.layouts {
            match self.layouts.get(name) {
                Some(now) if now == then => {}
                Some(now) => told.push(format!(
                    "the layout `{name}`: its fingerprint was {}…, and is {}…",
                    short(then),
                    short(now)
                )),
                None => told.push(format!("the layout `{name}`: it is no longer there")),
            }
        }
        told
    }
}

fn short(fingerprint: &str) -> &str {
    fingerprint.get(..8).unwrap_or(fingerprint)
}
