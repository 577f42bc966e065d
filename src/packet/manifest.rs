//! What was made, in enough detail to make any part of it again or to say why that can't be.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::class::{self, Deal, Member};
use super::code::Code;
use super::fingerprints::Fingerprints;
use super::group::MOST_SET;
use super::plan::Plan;
use super::request::{Materials, PacketRequest, RequestError};
use super::sets::Place;
use crate::seed::{Rules, Seed};
use crate::sheet::Sheet;

/// How packets of a run are put into files.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Binding {
    /// A file for each.
    #[default]
    Each,
    /// One file, packet after packet.
    ByChild,
    /// One file, the first sheet of all, then the second of all, and so on.
    BySheet,
}

/// A file that a run was made with, kept whole, so that the run does not depend on it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Source {
    /// Its name, for messages and for its kind.
    pub file: String,
    /// Its text.
    pub text: String,
}

/// The files of the user that a run was made with.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sources {
    /// Words of the teacher's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub own_words: Option<Source>,
    /// A teaching sequence.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sequence: Option<Source>,
    /// The layouts that the packets use and that are not built in.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub layouts: Vec<Source>,
}

/// What one packet came to.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct MadeRecord {
    /// Its code.
    pub code: Option<Code>,
    /// Its files by name, each with the fingerprint (BLAKE3, 64 hexadecimal digits) of its bytes.
    pub files: BTreeMap<String, String>,
    /// Its sheets.
    pub sheets: Vec<MadeSheet>,
}

/// What is kept of a sheet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct MadeSheet {
    /// The layout's name.
    pub layout: String,
    /// The heading.
    pub title: String,
    /// Whether the child reads it; what the teacher or the family reads is the same for all.
    #[serde(default)]
    pub for_child: bool,
    /// The step that it is for.
    pub step: usize,
    /// The blends that it is about.
    pub focus: Vec<String>,
    /// Its words in the order of the page, each with the blend that it is there for; an empty one for none.
    pub words: Vec<(String, String)>,
}

impl MadeSheet {
    /// What is kept of a sheet's content.
    #[must_use]
    pub fn of(sheet: &Sheet) -> Self {
        let of_item = |item: &crate::sheet::Item| -> Vec<(String, String)> {
            let blend = item.blend.clone().unwrap_or_default();
            item.word.split(' ').map(|word| (word.to_owned(), blend.clone())).collect()
        };
        Self {
            layout: sheet.layout.clone(),
            title: sheet.title.clone(),
            for_child: sheet.reader == crate::sheet::Reader::Child,
            step: sheet.step.number,
            focus: sheet.focus.clone(),
            words: sheet
                .items
                .iter()
                .chain(sheet.parts.iter().flat_map(|part| &part.items))
                .flat_map(of_item)
                .filter(|(word, _)| !word.is_empty())
                .collect(),
        }
    }
}

/// The manifest of a run, a JSON file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Manifest {
    /// The version of this form: 1.
    pub manifest: u32,
    /// What it was made with.
    pub made_with: Fingerprints,
    /// The name of the plan or sheet, and of the run's files.
    pub name: String,
    /// What the group is called; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub group: String,
    /// The plan with the options of the command line laid over it.
    pub plan: Plan,
    /// The seed.
    pub seed: Seed,
    /// Whether the sheets of the members are equal, and have words of their own.
    pub deal: Deal,
    /// How they are put into files.
    pub binding: Binding,
    /// The only sheets that were made, counted from 1; all when nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub only: Option<Vec<usize>>,
    /// The user's files.
    #[serde(default)]
    pub sources: Sources,
    /// For whom: one packet each.
    pub members: Vec<Member>,
    /// What the packet came to, when it is one; a group has a record for each child in a folder beside.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub made: Option<MadeRecord>,
}

/// The most bytes of a manifest: enough for a hundred thousand children.
const MOST_BYTES: u64 = 256 << 20;

/// Why a manifest can't be used.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{file}: {why}\nhelp: {hint}")]
pub struct ManifestError {
    /// The file.
    pub file: String,
    /// What is wrong.
    pub why: String,
    /// What to do.
    pub hint: String,
}

impl Manifest {
    /// How the names of manifests end.
    pub const ENDING: &'static str = ".manifest.json";

    /// The folder beside a group's manifest that has a record for each packet.
    pub const RECORDS: &'static str = "made";

    /// The manifest of a run that is to be made, with the codes of its members.
    ///
    /// # Errors
    /// When a layout, a step or a blend is unknown, or a title can't be printed.
    pub fn new(
        name: &str,
        plan: Plan,
        seed: Seed,
        (deal, binding): (Deal, Binding),
        sources: Sources,
        members: Vec<Member>,
        materials: &Materials,
    ) -> Result<Self, RequestError> {
        let first = match members.first() {
            Some(member) => Some(class::request(member, &plan, deal, &seed, Rules::CURRENT, materials)?),
            None => None,
        };
        let mut manifest = Self {
            manifest: 1,
            made_with: Fingerprints::of(&first, materials),
            name: name.to_owned(),
            group: String::new(),
            plan,
            seed,
            deal,
            binding,
            only: None,
            sources,
            members,
            made: None,
        };
        let codes: Vec<Code> = manifest.members.iter().map(|member| manifest.code(member)).collect();
        for (member, code) in manifest.members.iter_mut().zip(codes) {
            member.code = Some(code);
        }
        Ok(manifest)
    }

    /// The code of a member: it depends on nobody else in the group, and on everything that its packet depends on but the
    /// program itself.
    fn code(&self, member: &Member) -> Code {
        let json = |value: Result<String, serde_json::Error>| value.unwrap_or_default();
        let own = Member { code: None, file: String::new(), ..member.clone() };
        let made_with = Fingerprints { program: String::new(), ..self.made_with.clone() };
        Code::of(&[
            self.seed.as_str(),
            &json(serde_json::to_string(&self.plan)),
            &json(serde_json::to_string(&self.deal)),
            &json(serde_json::to_string(&own)),
            &json(serde_json::to_string(&made_with)),
            &json(serde_json::to_string(&self.sources)),
        ])
    }

    /// What is to be made for a member.
    ///
    /// # Errors
    /// When a layout, a step or a blend is unknown, or the rules of choosing are those of a later program.
    pub fn request(&self, member: &Member, materials: &Materials) -> Result<PacketRequest, RequestError> {
        let rules = Rules::of_version(self.made_with.rules).ok_or_else(|| RequestError::Text {
            what: format!("version {} of the rules of choosing", self.made_with.rules),
            why: "is not known to this program".to_owned(),
            hint: "use the program that made it, or a later one".to_owned(),
        })?;
        let mut request = class::request(member, &self.plan, self.deal, &self.seed, rules, materials)?;
        request.code = member.code;
        Ok(request)
    }

    /// The children's places, for a later run that keeps them.
    #[must_use]
    pub fn places(&self) -> BTreeMap<String, Place> {
        let place = |member: &Member| {
            let (child, set) = (member.child.as_ref()?, member.set?);
            Some((child.name.clone(), Place { cohort: member.cohort.clone(), set: set - 1 }))
        };
        self.members.iter().filter_map(place).collect()
    }

    /// The member of a name, a set's letter or a file's name.
    #[must_use]
    pub fn member(&self, name: &str) -> Option<&Member> {
        let same = |text: &str| text.eq_ignore_ascii_case(name.trim());
        self.members.iter().find(|member| {
            member.child.as_ref().is_some_and(|child| same(&child.name))
                || member.letter.as_deref().is_some_and(same)
                || same(&member.label())
                || same(&member.file)
        })
    }

    /// The manifest as a file's text.
    #[must_use]
    pub fn to_json(&self) -> String {
        // Nothing in it can fail to be written: its maps have texts for keys.
        serde_json::to_string_pretty(self).unwrap_or_default() + "\n"
    }

    /// Reads a manifest's file.
    ///
    /// # Errors
    /// When it can't be read, is no manifest, or has a form of a later program.
    pub fn read(path: &Path) -> Result<Self, ManifestError> {
        let file = path.display().to_string();
        let error = |why: String, hint: &str| ManifestError { file: file.clone(), why, hint: hint.to_owned() };
        let hint = "a manifest is written beside each packet; its name ends in .manifest.json";
        let size = std::fs::metadata(path).map_err(|told| error(format!("it can't be read: {told}"), hint))?;
        if !size.is_file() || size.len() > MOST_BYTES {
            return Err(error("it is no file, or too large for a manifest".to_owned(), hint));
        }
        let bytes = std::fs::read(path).map_err(|told| error(format!("it can't be read: {told}"), hint))?;
        let value: serde_json::Value =
            serde_json::from_slice(&bytes).map_err(|told| error(format!("it is not JSON: {told}"), hint))?;
        match value.get("manifest").and_then(serde_json::Value::as_u64) {
            Some(1) => {}
            Some(later) => {
                return Err(error(
                    format!("its form is version {later}, and this program knows 1"),
                    "use the program that made it",
                ));
            }
            None => return Err(error("it is no manifest".to_owned(), hint)),
        }
        let manifest: Self = serde_json::from_value(value)
            .map_err(|told| error(format!("it is damaged: {told}"), "make the packet again from its plan and seed"))?;
        manifest.damage().map_or(Ok(manifest), |why| {
            Err(error(format!("it is damaged: {why}"), "make the packet again from its plan and seed"))
        })
    }

    /// What a file that was changed by hand says and no run would write: names of files that lead elsewhere, numbers of sets that no
    /// group has.
    fn damage(&self) -> Option<String> {
        if self.plan.sheets.is_empty() || self.members.is_empty() {
            return Some("it has no sheet, or is for nobody".to_owned());
        }
        let names = self.members.iter().map(|member| &member.file).chain([&self.name]);
        if let Some(file) = names.into_iter().find(|file| !is_plain(file)) {
            return Some(format!("`{}` can't be the name of a file", file.escape_debug()));
        }
        let mut files = std::collections::BTreeSet::new();
        for (at, member) in self.members.iter().enumerate() {
            if !files.insert(member.file.to_lowercase()) {
                return Some(format!("`members[{at}].file` is `{}`, as another's is", member.file));
            }
            if member.set.is_some_and(|set| set == 0 || set > MOST_SET) {
                return Some(format!("`members[{at}].set` is not from 1 to {MOST_SET}"));
            }
        }
        None
    }

    /// Whether a file's name is that of a manifest.
    #[must_use]
    pub fn is_named(path: &Path) -> bool {
        path.file_name().is_some_and(|name| name.to_string_lossy().ends_with(Self::ENDING))
    }

    /// The record of a member's packet: from the manifest itself, or from the folder beside it.
    #[must_use]
    pub fn record(&self, path: &Path, member: &Member) -> Option<MadeRecord> {
        if let Some(made) = &self.made {
            return Some(made.clone());
        }
        let bytes =
            std::fs::read(record_path(path.parent().unwrap_or(Path::new("")), &self.name, &member.file)).ok()?;
        serde_json::from_slice(&bytes).ok()
    }
}

/// Whether a text can be a file's name in a folder, and leads nowhere else.
fn is_plain(name: &str) -> bool {
    let fits = |c: char| !c.is_control() && !matches!(c, '/' | '\\' | ':');
    !name.is_empty() && name.len() <= 200 && name != "." && name != ".." && name.chars().all(fits)
}

/// Where the record of a packet lies, beside the manifest of its run.
#[must_use]
pub fn record_path(folder: &Path, name: &str, file: &str) -> PathBuf {
    folder.join(Manifest::RECORDS).join(format!("{name}-{file}.json"))
}
