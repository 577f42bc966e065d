//! A plan as YAML, to be changed and given to `packet`.

use std::fmt::Write as _;

use super::next::{NextPlan, counted};
use super::spacing::Due;

impl NextPlan {
    /// The plan in the words of a plan file, with the reasons as remarks. The words to review stand in a remark too, to be looked for
    /// among the packet's words or put on a sheet by hand.
    #[must_use]
    pub fn to_yaml(&self) -> String {
        // JSON's strings are YAML's too, and need no second set of rules for names with colons or quotes.
        let quoted = |text: &str| serde_json::Value::from(text).to_string();
        let mut text = String::new();
        let mut say = |line: &str| {
            text.push_str(line);
            text.push('\n');
        };
        say("# What the record suggests; change what you like.");
        for why in &self.why {
            say(&format!("# - {why}"));
        }
        say(&format!("# - {}: {}", self.move_on.verdict(), self.move_on.why));
        say(&format!("# review: [{}]", names(&self.review)));
        say(&format!("# new: {}", counted(self.new, "word")));
        say(&format!("title: {}", quoted(&format!("Packet {} for {}", self.packet, self.child))));
        say(&format!("child: {}", quoted(&self.child)));
        say(&format!("step: {}", self.step.name));
        if !self.focus.is_empty() {
            let blends: Vec<String> = self.focus.iter().map(|blend| quoted(&blend.to_string())).collect();
            say(&format!("focus: [{}]", blends.join(", ")));
        }
        say("sheets:");
        let mut sheets = String::new();
        for sheet in &self.sheets {
            let _ = writeln!(sheets, "  - {}", quoted(sheet));
        }
        text + &sheets
    }
}

/// Items in their order, parted by commas.
fn names(due: &[Due]) -> String {
    due.iter().map(|due| due.item.as_str()).collect::<Vec<_>>().join(", ")
}

impl super::MoveOn {
    /// Whether the child stays, may move on, or is moved on, in words.
    #[must_use]
    pub fn verdict(&self) -> String {
        match &self.to {
            Some(to) if self.done => format!("moved on to step {} ({})", to.number, to.name),
            Some(to) if self.may => format!("may move on to step {} ({}) with --move-on", to.number, to.name),
            _ => "stays at the step".to_owned(),
        }
    }
}
