//! One row of a record: one try of one child at one item.

use super::cell::joined;
use super::day::Day;

/// The columns of a record, in their order.
pub const COLUMNS: [&str; 6] = ["child", "date", "skill", "item", "right", "note"];

/// One try.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
pub struct Row {
    /// A first name, initial or nickname.
    pub child: String,
    /// When.
    pub date: Day,
    /// What was practised: the name of a layout.
    pub skill: String,
    /// A word, a blend, a letter group, or any text.
    pub item: String,
    /// Whether it was right.
    pub right: bool,
    /// Anything to remember; may be empty.
    pub note: String,
}

impl Row {
    /// The row as a record holds it: one line, with its line end.
    #[must_use]
    pub fn line(&self) -> String {
        let date = self.date.to_string();
        let right = if self.right { "yes" } else { "no" };
        joined([&self.child, &*date, &self.skill, &self.item, right, &self.note], ',') + "\n"
    }

    /// What was tried: the child, the day, the skill and the item.
    #[must_use]
    pub fn task(&self) -> (&str, Day, &str, &str) {
        (&self.child, self.date, &self.skill, &self.item)
    }
}

/// The first line of a record, with its line end.
#[must_use]
pub fn header() -> String {
    COLUMNS.join(",") + "\n"
}

/// Texts that say that an item was right.
const YES: [&str; 7] = ["yes", "y", "right", "1", "true", "✓", "✔"];

/// Texts that say that it was wrong.
const NO: [&str; 7] = ["no", "n", "wrong", "0", "false", "✗", "✘"];

/// Whether a cell says right or wrong, in any case.
///
/// # Errors
/// What to write instead. A bare `x` is refused: some tick with it, others cross out.
pub fn read_right(cell: &str) -> Result<bool, String> {
    let plain = cell.to_lowercase();
    if YES.contains(&plain.as_str()) {
        return Ok(true);
    }
    if NO.contains(&plain.as_str()) {
        return Ok(false);
    }
    let known = "write yes, y, right, 1, true or ✓ for right, and no, n, wrong, 0, false or ✗ for wrong; \
                 leave the cell empty for what was not tried";
    Err(match plain.as_str() {
        "x" | "×" => format!("is `{cell}` a tick or a cross? {known}"),
        _ => known.to_owned(),
    })
}
