//! Reading rows: of a filled-in table, where everything is checked, and of a record.

use super::day::Day;
use super::row::{COLUMNS, Row, read_right};
use super::table::{Problems, RawRow, TableError, rows};
use crate::yaml::did_you_mean;

/// The longest name of a child, in characters.
const MOST_CHILD: usize = 40;
/// The longest item, in characters.
const MOST_ITEM: usize = 60;
/// The longest note, in characters.
const MOST_NOTE: usize = 300;

/// Places of columns in [`COLUMNS`].
const CHILD: usize = 0;
const DATE: usize = 1;
const SKILL: usize = 2;
const ITEM: usize = 3;
const RIGHT: usize = 4;
const NOTE: usize = 5;

/// What a filled-in table holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Filled {
    /// The rows that say right or wrong.
    pub rows: Vec<Row>,
    /// How many rows say neither: they were not tried.
    pub untried: usize,
}

/// Reads a filled-in table: CSV as spreadsheets save it, with commas, semicolons or tabs, with or without a byte order mark.
///
/// The first row names the columns `child`, `date`, `skill`, `item`, `right` and, if wanted, `note`, in any order. A row whose
/// `right` is empty was not tried and is passed over. `skills` are the names that a skill may have; a name in another case, or with
/// blanks for hyphens, is put right. `date` is taken for rows that have none. `file` is only for messages.
///
/// # Errors
/// Every row that is wrong, with its line and column and the reason; then none is taken.
pub fn read_rows(file: &str, text: &str, skills: &[&str], date: Option<Day>) -> Result<Filled, TableError> {
    let mut problems = Problems::new(file, text);
    let mut filled = Filled::default();
    for mut raw in rows(text, &mut problems) {
        if raw.text(RIGHT).is_empty() {
            filled.untried += 1;
            continue;
        }
        if let (true, Some(date)) = (raw.text(DATE).is_empty(), date) {
            raw.cells[DATE].text = date.to_string();
        }
        let skill = raw.text(SKILL).to_lowercase().replace([' ', '_'], "-");
        if skills.contains(&skill.as_str()) {
            raw.cells[SKILL].text = skill;
        } else if !raw.text(SKILL).is_empty() {
            let message = format!("`{}` is no skill; skills are the names of layouts", raw.text(SKILL));
            let hint = did_you_mean(raw.text(SKILL), "skills", skills);
            problems.add(raw.line, raw.column(SKILL), &message, &hint);
        }
        filled.rows.extend(row(&raw, &mut problems));
    }
    problems.done().map(|()| filled)
}

/// Reads the whole lines of a record, header and all. The skills need not be known: layouts come and go.
///
/// # Errors
/// Every row that is wrong.
pub(super) fn read_record(file: &str, text: &str) -> Result<Vec<Row>, TableError> {
    let mut problems = Problems::new(file, text);
    let mut found = Vec::new();
    for raw in rows(text, &mut problems) {
        found.extend(row(&raw, &mut problems));
    }
    problems.done().map(|()| found)
}

/// A row whose cells are all right; else what is wrong is noted.
fn row(raw: &RawRow, problems: &mut Problems<'_>) -> Option<Row> {
    let mut right = true;
    let mut refuse = |column: usize, message: &str, hint: &str| {
        let name = COLUMNS.get(column).copied().unwrap_or_default();
        problems.add(raw.line, raw.column(column), &format!("{message} (column `{name}`)"), hint);
        right = false;
    };
    for column in [CHILD, DATE, SKILL, ITEM] {
        if raw.text(column).is_empty() {
            let hint = match column {
                DATE => "write year-month-day: 2025-03-04; --date gives one to all rows that have none",
                _ => "fill the cell, or empty the column `right` of a row that does not count",
            };
            refuse(column, "this cell is empty", hint);
        }
    }
    for (column, most) in [(CHILD, MOST_CHILD), (SKILL, MOST_ITEM), (ITEM, MOST_ITEM), (NOTE, MOST_NOTE)] {
        let text = raw.text(column);
        let length = text.chars().count();
        if length > most {
            refuse(column, &format!("{length} characters are too many"), &format!("at most {most} are kept"));
        } else if text.chars().any(is_hidden) {
            refuse(column, "this cell holds a character that can't be seen", "type the cell anew");
        }
    }
    let date = match Day::read(raw.text(DATE)) {
        Ok(day) => Some(day),
        Err(_) if raw.text(DATE).is_empty() => None,
        Err(not) => {
            refuse(DATE, &not.message, &not.hint);
            None
        }
    };
    let said = match read_right(raw.text(RIGHT)) {
        Ok(said) => Some(said),
        Err(hint) => {
            refuse(RIGHT, &format!("`{}` says neither right nor wrong", raw.text(RIGHT)), &hint);
            None
        }
    };
    let text = |column: usize| raw.text(column).to_owned();
    let row =
        Row { child: text(CHILD), date: date?, skill: text(SKILL), item: text(ITEM), right: said?, note: text(NOTE) };
    right.then_some(row)
}

/// Control characters, and marks that turn the direction of a line or have no width.
fn is_hidden(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}')
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const SKILLS: [&str; 2] = ["blend-sort", "sound-boxes"];

    fn read(text: &str) -> Result<Filled, TableError> {
        read_rows("rows.csv", text, &SKILLS, None)
    }

    fn wrong(text: &str) -> Vec<String> {
        let told = |problem: &crate::yaml::YamlError| {
            format!("{}:{} {}", problem.line().unwrap(), problem.column().unwrap(), problem.message())
        };
        read(text).unwrap_err().problems.iter().map(told).collect()
    }

    #[test]
    fn tables_of_any_spreadsheet_are_read_alike() {
        let plain = "child,date,skill,item,right,note\nAna,2025-03-04,sound-boxes,flag,yes,slowly\n";
        let expected = read(plain).unwrap();
        assert_eq!(expected.rows.len(), 1);
        assert_eq!(expected.rows[0].line(), "Ana,2025-03-04,sound-boxes,flag,yes,slowly\n");
        for same in [
            "\u{feff}child;date;skill;item;right;note\r\nAna;2025-03-04;Sound boxes;flag;Y;slowly\r\n;;;;;\r\n",
            "CHILD\tDate\tskill\titem\tright\tnote\t\t\rAna\t2025-03-04\tsound_boxes\tflag\t1\tslowly\t\t\r",
            "sep=;\nchild;date;skill;item;right;note\n\"Ana\";\"2025-03-04\";\"sound-boxes\";\"flag\";\"TRUE\";\" slowly \"",
            "note,right,item,skill,date,child\nslowly,✓,flag,sound-boxes,2025-03-04, Ana\n\n,,,,,\n",
        ] {
            assert_eq!(read(same), Ok(expected.clone()), "{same}");
        }
    }

    #[test]
    fn what_was_not_tried_is_counted() {
        let filled = read("child,date,skill,item,right\nAna,,sound-boxes,flag,\n,,,,\nAna,soon,?,,,\n").unwrap();
        assert_eq!((filled.rows.len(), filled.untried), (0, 2));
    }

    #[test]
    fn all_that_is_wrong_is_told() {
        let text = "child,date,skill,item,right,note\n\
                    ,2025-03-04,sound-boxes,flag,yes,\n\
                    Ana,3/4/2025,sound-box,,x,\n\
                    Ana,2025-03-04,blend-sort,flag,yes,fine\n\
                    Ana,2025-03-04,blend-sort,flag,yes,fine,more\n\
                    Ana,2025-03-04,blend-sort,\"flag,yes,\n";
        assert_eq!(
            wrong(text),
            [
                "2:1 this cell is empty (column `child`)",
                "3:5 `3/4/2025` is not a date as 2025-03-04 (column `date`)",
                "3:14 `sound-box` is no skill; skills are the names of layouts",
                "3:24 this cell is empty (column `item`)",
                "3:25 `x` says neither right nor wrong (column `right`)",
                "5:41 `more` is in no column of the header",
                "6:27 a quote opens here and is not closed",
            ]
        );
        assert_eq!(wrong(""), ["1:1 the table is empty"]);
        assert_eq!(wrong("child,date,skill,item\n"), ["1:1 there is no column `right`"]);
        assert_eq!(wrong("child,date,skil,item,right\n"), ["1:12 there is no column `skil`"]);
        let long = format!("child,date,skill,item,right\n{},2025-03-04,blend-sort,a\u{202e}b,y", "a".repeat(41));
        assert_eq!(wrong(&long).len(), 2);
    }

    #[test]
    fn a_date_may_be_given_for_all() {
        let text = "child,date,skill,item,right\nAna,,blend-sort,flag,y\nAna,2025-03-05,blend-sort,flag,y\n";
        let rows = read_rows("rows.csv", text, &SKILLS, Day::new(2025, 3, 4)).unwrap().rows;
        let days: Vec<String> = rows.iter().map(|row| row.date.to_string()).collect();
        assert_eq!(days, ["2025-03-04", "2025-03-05"]);
    }

    proptest! {
        #[test]
        fn any_text_is_rows_or_reasons(text in "(child,date,skill,item,right\n)?[\\PC\n\r,;\"]{0,80}") {
            if let Err(error) = read(&text) {
                prop_assert!(!error.problems.is_empty());
            }
        }

        #[test]
        fn a_row_is_written_and_read_again(child in "[^\\p{C}\\p{Z}]{1,10}", item in "[^\\p{C}\\p{Z}]{1,10}", note in "[^\\p{C}\\p{Z}]{0,10}", right: bool) {
            let date = Day::new(2025, 3, 4).unwrap();
            let row = Row { child, date, skill: "blend-sort".to_owned(), item, right, note };
            let text = super::super::row::header() + &row.line();
            prop_assert_eq!(read_record("record.csv", &text), Ok(vec![row]));
        }
    }
}
