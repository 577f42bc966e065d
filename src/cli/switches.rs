//! `--switch`: how sounds are counted, where teachers differ.

use clap::Args;

use super::Failure;
use crate::nearest::nearest;
use crate::sounds::Counting;

/// The switches of accent and counting, as options.
#[derive(Clone, Debug, Default, Args)]
pub struct Switches {
    /// Count sounds in another way: dog-as-hop, vowel-r-as-one, yu-as-one or wh-as-hw, each =yes or =no.
    #[arg(long = "switch", value_name = "NAME=yes|no")]
    switches: Vec<String>,
}

const NAMES: [&str; 4] = ["dog-as-hop", "vowel-r-as-one", "yu-as-one", "wh-as-hw"];

impl Switches {
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn switches_are_read() {
        let read = |text: &str| Switches { switches: vec![text.to_owned()] }.over(Counting::default());
        assert!(read("vowel-r-as-one=yes").unwrap().vowel_r_as_one);
        assert!(!read("dog-as-hop=no").unwrap().dog_as_hop);
        assert!(read("dog-as-hop=perhaps").is_err());
        assert!(read("dog-as-hpo").is_err());
    }
}
