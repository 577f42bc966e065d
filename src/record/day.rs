//! Days: ISO 8601 dates, `2025-03-04`, and what another way of writing one may have meant.

use std::fmt;

use time::{Date, Month};

/// A day of the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Day(Date);

/// The years that are taken; others are slips of the finger.
const YEARS: std::ops::RangeInclusive<i32> = 2000..=2099;

/// The day from which spreadsheets number days: 45000 is 2023-03-15.
const SPREADSHEET_ZERO: i32 = 2_415_019;

/// Why a text is not taken as a day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotADay {
    /// What is wrong.
    pub message: String,
    /// What to write, with the days that may have been meant.
    pub hint: String,
}

impl Day {
    /// A day by year, month and day of the month, or `None` when the calendar has none or the year is not from 2000 to 2099.
    #[must_use]
    pub fn new(year: i32, month: u8, day: u8) -> Option<Self> {
        let month = Month::try_from(month).ok()?;
        YEARS.contains(&year).then(|| Date::from_calendar_date(year, month, day).ok()).flatten().map(Self)
    }

    /// Reads `2025-03-04` and nothing else.
    ///
    /// # Errors
    /// What is wrong, with the question which day was meant: `3/4/2025` may be two days, and is not guessed at.
    pub fn read(text: &str) -> Result<Self, NotADay> {
        let text = text.trim();
        if is_iso(text) {
            let number = |at: std::ops::Range<usize>| text.get(at).and_then(|digits| digits.parse::<u16>().ok());
            let part = |at| number(at).and_then(|number| u8::try_from(number).ok()).unwrap_or_default();
            let year = i32::from(number(0..4).unwrap_or_default());
            return Self::new(year, part(5..7), part(8..10)).ok_or_else(|| {
                let message = if YEARS.contains(&year) {
                    format!("the calendar has no `{text}`")
                } else {
                    format!("`{text}` is not in the years 2000 to 2099")
                };
                NotADay { message, hint: "look the day up and write it as year-month-day: 2025-03-04".to_owned() }
            });
        }
        let meant: Vec<String> = readings(text).iter().map(|day| format!("`{day}`")).collect();
        let keep = "a spreadsheet keeps this form when the column is formatted as text or as YYYY-MM-DD";
        let hint = match meant.as_slice() {
            [] => format!("write year-month-day: 2025-03-04; {keep}"),
            [one] => format!("was {one} meant? Write it so; {keep}"),
            more => format!("which was meant, {}? Write it so; {keep}", more.join(" or ")),
        };
        Err(NotADay { message: format!("`{text}` is not a date as 2025-03-04"), hint })
    }

    /// The day of the month and the month in short, for the axis of a chart: `4 Mar`.
    #[must_use]
    pub fn short(self) -> String {
        let month = self.0.month().to_string();
        format!("{} {}", self.0.day(), month.get(..3).unwrap_or(&month))
    }
}

/// Four digits, a hyphen, two digits, a hyphen, two digits.
fn is_iso(text: &str) -> bool {
    text.len() == 10
        && text.bytes().enumerate().all(|(at, b)| if matches!(at, 4 | 7) { b == b'-' } else { b.is_ascii_digit() })
}

/// The days that a text in another form may mean, each once, in order.
fn readings(text: &str) -> Vec<Day> {
    let parts: Option<Vec<i32>> = text
        .split(['/', '.', '-', ' '])
        .filter(|part| !part.is_empty())
        .map(|part| part.parse().ok().filter(|_| part.bytes().all(|b| b.is_ascii_digit())))
        .collect();
    let part = |number: i32| u8::try_from(number).unwrap_or_default();
    let full = |year: i32| if year < 100 { year + 2000 } else { year };
    let mut found = match parts.as_deref() {
        Some(&[year, month, day]) if year > 99 => vec![Day::new(year, part(month), part(day))],
        Some(&[a, b, year]) => {
            let turned = |day: i32, month: i32| Day::new(full(year), part(month), part(day));
            vec![turned(b, a), turned(a, b)]
        }
        Some(&[run]) if text.len() == 8 => vec![Day::new(run / 10_000, part(run / 100 % 100), part(run % 100))],
        Some(&[number]) if text.len() == 5 => {
            let date = Date::from_julian_day(SPREADSHEET_ZERO.saturating_add(number)).ok();
            vec![date.map(Day).filter(|day| YEARS.contains(&day.0.year()))]
        }
        _ => Vec::new(),
    };
    found.sort_unstable();
    found.dedup();
    found.into_iter().flatten().collect()
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.0.year(), u8::from(self.0.month()), self.0.day())
    }
}

impl serde::Serialize for Day {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::Day;

    #[test]
    fn days_of_the_calendar_are_read() {
        for text in ["2025-03-04", "2024-02-29", "2000-02-29", "2099-12-31"] {
            assert_eq!(Day::read(text).unwrap().to_string(), text);
        }
        for text in ["2025-02-29", "2100-02-28", "2025-13-01", "2025-04-31", "2025-00-10", "0205-03-04"] {
            assert!(Day::read(text).is_err(), "{text}");
        }
        assert_eq!(Day::read("2025-03-04").unwrap().short(), "4 Mar");
    }

    #[test]
    fn another_form_is_asked_about() {
        let asked = |text: &str| Day::read(text).unwrap_err().hint.split(';').next().unwrap().to_owned();
        assert_eq!(asked("3/4/2025"), "which was meant, `2025-03-04` or `2025-04-03`? Write it so");
        assert_eq!(asked("4.4.25"), "was `2025-04-04` meant? Write it so");
        assert_eq!(asked("14.3.2025"), "was `2025-03-14` meant? Write it so");
        assert_eq!(asked("2025/3/14"), "was `2025-03-14` meant? Write it so");
        assert_eq!(asked("20250314"), "was `2025-03-14` meant? Write it so");
        // The 1900 date system of spreadsheets: 2023-03-15 is day 45000.
        assert_eq!(asked("45000"), "was `2023-03-15` meant? Write it so");
        for text in ["Monday", "", "30/30/2025", "1/2", "2025-3-4-5", "99999999999"] {
            assert_eq!(asked(text), "write year-month-day: 2025-03-04", "{text}");
        }
    }

    proptest! {
        #[test]
        fn any_text_is_a_day_or_a_question(text in "\\PC{0,12}|[0-9/.-]{0,12}") {
            if let Ok(day) = Day::read(&text) {
                prop_assert_eq!(day.to_string(), text.trim());
            }
        }
    }
}
