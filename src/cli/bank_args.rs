//! Which words there are and how their sounds are counted: `--own-words` and `--switch`.

use std::path::{Path, PathBuf};

use clap::Args;

use super::Failure;
use crate::bank::{Bank, OwnWords};
use crate::nearest::nearest;
use crate::packet::Source;
use crate::sounds::Counting;
use crate::yaml::read_text;

/// A teacher's own words, and the switches of accent and counting.
#[derive(Clone, Debug, Default, Args)]
pub struct BankArgs {
    /// Count sounds in another way: dog-as-hop, vowel-r-as-one, yu-as-one or wh-as-hw, each =yes or =no.
    #[arg(long = "switch", value_name = "NAME=yes|no")]
    switches: Vec<String>,
    /// Words of your own to add, and words to leave out: a YAML or CSV file.
    #[arg(long, value_name = "FILE")]
    own_words: Option<PathBuf>,
}

const NAMES: [&str; 4] = ["dog-as-hop", "vowel-r-as-one", "yu-as-one", "wh-as-hw"];

impl BankArgs {
    /// The bank with the teacher's own words, seen through the switches; `counting` is what they start from.
    ///
    /// # Errors
    /// When a switch is wrong, or the file of own words can't be read or has a mistake.
    pub fn bank(&self, counting: Counting) -> Result<Bank, Failure> {
        bank_with(self.over(counting)?, self.own_words()?.as_ref())
    }

    /// The file of own words, with its text.
    ///
    /// # Errors
    /// When it can't be read.
    pub fn own_words(&self) -> Result<Option<Source>, Failure> {
        let Some(file) = &self.own_words else { return Ok(None) };
        let text = read_text(file).map_err(Failure::usage)?;
        Ok(Some(Source { file: file.display().to_string(), text }))
    }

    /// The counting with these switches set, starting from another.
    ///
    /// # Errors
    /// When a switch is unknown or is neither `yes` nor `no`.
    pub fn over(&self, mut counting: Counting) -> Result<Counting, Failure> {
        for switch in &self.switches {
            let (name, value) = switch.split_once('=').unwrap_or((switch, "yes"));
            let on = match value {
                "yes" => true,
                "no" => false,
                other => return Err(Failure::usage(format!("--switch {name}: `{other}` is neither yes nor no"))),
            };
            match name {
                "dog-as-hop" => counting.dog_as_hop = on,
                "vowel-r-as-one" => counting.vowel_r_as_one = on,
                "yu-as-one" => counting.yu_as_one = on,
                "wh-as-hw" => counting.wh_as_hw = on,
                other => {
                    let near =
                        nearest(other, NAMES).map_or_else(String::new, |near| format!("did you mean `{near}`? "));
                    let all = NAMES.join(", ");
                    return Err(Failure::usage(format!("there is no switch `{other}`\nhelp: {near}there are: {all}")));
                }
            }
        }
        Ok(counting)
    }
}

/// The built-in bank seen through switches, with own words laid over it.
///
/// # Errors
/// When the own words have a mistake.
pub fn bank_with(counting: Counting, own_words: Option<&Source>) -> Result<Bank, Failure> {
    let bank = Bank::builtin(counting).map_err(Failure::usage)?;
    let Some(Source { file, text }) = own_words else { return Ok(bank) };
    let is_csv = Path::new(file).extension().is_some_and(|extension| extension.eq_ignore_ascii_case("csv"));
    let own = if is_csv { OwnWords::from_csv(file, text, &bank) } else { OwnWords::from_yaml(file, text, &bank) };
    own.map(|own| bank.with_own(&own)).map_err(Failure::usage)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn switches_are_read() {
        let read = |text: &str| BankArgs { switches: vec![text.to_owned()], own_words: None }.over(Counting::default());
        assert!(read("vowel-r-as-one=yes").unwrap().vowel_r_as_one);
        assert!(!read("dog-as-hop=no").unwrap().dog_as_hop);
        assert!(read("dog-as-hop=perhaps").is_err());
        assert!(read("dog-as-hpo").is_err());
    }
}
