//! A table to fill in.

use super::cell::joined;
use super::day::Day;
use super::row::COLUMNS;

/// Something that children try: a skill, which may be left for the teacher to fill in, and an item of it.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Task {
    /// The name of a layout, or nothing.
    pub skill: String,
    /// A word, a blend, a letter group, or any text.
    pub item: String,
}

/// A table to fill in with a spreadsheet: a row for each child and task, in that order, with `right` and `note` left empty, and
/// `date` too unless there is one. Without children or tasks their cells are left empty.
///
/// It begins with a byte order mark, without which some spreadsheets take letters such as *ë* for others, and its lines end as
/// those of spreadsheets do. `separator` is a comma, a semicolon or a tab: where a comma is the decimal sign, spreadsheets part
/// cells by semicolons.
#[must_use]
pub fn template(children: &[String], tasks: &[Task], date: Option<Day>, separator: char) -> String {
    let nobody = [String::new()];
    let nothing = [Task::default()];
    let children = if children.is_empty() { &nobody[..] } else { children };
    let tasks = if tasks.is_empty() { &nothing[..] } else { tasks };
    let date = date.map_or_else(String::new, |date| date.to_string());
    let mut text = format!("\u{feff}{}\r\n", COLUMNS.join(&separator.to_string()));
    for child in children {
        for Task { skill, item } in tasks {
            text.push_str(&joined([child, &*date, skill, item, "", ""], separator));
            text.push_str("\r\n");
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::read_rows;

    #[test]
    fn a_template_is_read_when_it_is_filled_in() {
        let task = |item: &str| Task { skill: "sound-boxes".to_owned(), item: item.to_owned() };
        let children = ["Ana".to_owned(), "=B".to_owned()];
        let date = Day::new(2025, 3, 4);
        for separator in [',', ';', '\t'] {
            let text = template(&children, &[task("flag"), task("-nd")], date, separator);
            assert!(text.starts_with("\u{feff}child"));
            let read = |text: &str| read_rows("t.csv", text, &["sound-boxes"], None).unwrap();
            assert_eq!((read(&text).rows.len(), read(&text).untried), (0, 4));
            let empty = format!("{separator}{separator}\r\n");
            let filled = read(&text.replace(&empty, &format!("{separator}y{separator}\r\n")));
            assert_eq!((filled.rows.len(), filled.untried), (4, 0));
            assert_eq!((filled.rows[3].child.as_str(), filled.rows[3].item.as_str()), ("=B", "-nd"));
        }
        assert_eq!(template(&[], &[], None, ',').lines().count(), 2);
    }
}
