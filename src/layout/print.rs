//! What a teacher can ask of any sheet, whatever its layout: letters and lines for an age, large print, the left hand.
//!
//! Layouts state sizes for most six- and seven-year-olds. Here they are made larger where they are looked up, so that no layout
//! file has to know of it; what then no longer fits makes fewer columns and more pages.

use std::str::FromStr;

use crate::page::Length;

/// For which school year letters and lines to write on are sized.
///
/// Write-on lines are measured from the top line to the base line: 16 to 20 mm for five-year-olds, 10 to 13 mm for
/// seven-year-olds, and between the two in between (common practice).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PrintBand {
    /// Five years: lines of 16 to 20 mm, type a quarter larger.
    K,
    /// Six years: lines of 13 to 16 mm, type an eighth larger.
    One,
    /// Seven years: lines of 10 to 13 mm, type as the layout says.
    Two,
}

impl PrintBand {
    /// All bands, the youngest first.
    pub const ALL: [Self; 3] = [Self::K, Self::One, Self::Two];

    /// The name used on the command line and in files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::K => "K",
            Self::One => "1",
            Self::Two => "2",
        }
    }

    /// The least and the most from the top line to the base line of a line to write on.
    const fn guides(self) -> (Length, Length) {
        match self {
            Self::K => (Length::mm(16), Length::mm(20)),
            Self::One => (Length::mm(13), Length::mm(16)),
            Self::Two => (Length::mm(10), Length::mm(13)),
        }
    }

    /// How much larger type is, in eighths.
    const fn eighths(self) -> i64 {
        match self {
            Self::K => 10,
            Self::One => 9,
            Self::Two => 8,
        }
    }
}

impl serde::Serialize for PrintBand {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.name())
    }
}

impl FromStr for PrintBand {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let found = Self::ALL.into_iter().find(|band| band.name().eq_ignore_ascii_case(text.trim()));
        found.ok_or_else(|| format!("there is no band `{text}` for print\nhelp: write K, 1 or 2"))
    }
}

impl<'de> serde::Deserialize<'de> for PrintBand {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        crate::yaml::parsed(deserializer)
    }
}

impl schemars::JsonSchema for PrintBand {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "PrintBand".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({"description": "A school year: K, 1 or 2.", "enum": ["K", "k", "1", "2", 1, 2]})
    }
}

/// What is asked of a sheet's print; by default nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Print {
    /// For which school year; `None` for the layout's own sizes.
    pub band: Option<PrintBand>,
    /// Whether words that a child reads are 28 pt or larger.
    pub large: bool,
    /// Whether what is to be copied stands at the right of where it is written, so that a left hand does not cover it.
    pub left_hand: bool,
}

/// Type of this size or more is read by the child; smaller type is for the adult.
const CHILD_FACING: Length = Length::pt(18);
/// The least size of what the child reads in large print.
const LARGE: Length = Length::pt(28);
/// The least size of directions in large print.
const LARGE_DIRECTIONS: Length = Length::pt(18);
/// Sound boxes for the youngest, and for letters of [`LARGE`] size.
const LARGE_BOXES: (Length, Length) = (Length::mm(16), Length::mm(18));

/// How large things are: how far between the least and the most that a layout states, and what [`Print`] makes of the two.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Fullness {
    /// 0 for the least, 100 for the most.
    pub percent: i64,
    /// What is asked of the print.
    pub print: Print,
    /// Whether the band's larger type is given up, where it is wider than the page.
    pub plain_type: bool,
}

impl From<i64> for Fullness {
    fn from(percent: i64) -> Self {
        Self { percent, ..Self::default() }
    }
}

impl Fullness {
    /// The same at its least.
    #[must_use]
    pub const fn least(self) -> Self {
        Self { percent: 0, ..self }
    }

    /// Between two lengths.
    #[must_use]
    pub fn between(self, least: Length, most: Length) -> Length {
        least + (most - least).times(self.percent.clamp(0, 100), 100)
    }

    /// A type size.
    #[must_use]
    pub fn type_size(self, least: Length, most: Length) -> Length {
        if least < CHILD_FACING {
            return self.between(least, most);
        }
        let eighths = if self.plain_type { 8 } else { self.print.band.map_or(8, PrintBand::eighths) };
        let (least, most) = (least.times(eighths, 8), most.times(eighths, 8));
        if self.print.large && least < LARGE {
            return self.between(LARGE, most.max(LARGE));
        }
        self.between(least, most)
    }

    /// The height of a line to write on, from its top line to its base line.
    #[must_use]
    pub fn guides(self, least: Length, most: Length) -> Length {
        let (least, most) = self.print.band.map_or((least, most), PrintBand::guides);
        self.between(least, most)
    }

    /// The side of a sound box.
    #[must_use]
    pub fn box_side(self, least: Length, most: Length) -> Length {
        if self.print.large || self.print.band == Some(PrintBand::K) {
            return self.between(least.max(LARGE_BOXES.0), most.max(LARGE_BOXES.1));
        }
        self.between(least, most)
    }

    /// The size of directions for the child.
    #[must_use]
    pub fn directions(self, size: Length) -> Length {
        if self.print.large { size.max(LARGE_DIRECTIONS) } else { size }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fullness(percent: i64, band: Option<PrintBand>, large: bool) -> Fullness {
        Fullness { percent, print: Print { band, large, left_hand: false }, plain_type: false }
    }

    #[test]
    fn nothing_changes_when_nothing_is_asked() {
        for percent in [0, 50, 100] {
            let plain = fullness(percent, None, false);
            let between = plain.between(Length::mm(10), Length::mm(14));
            assert_eq!(plain.type_size(Length::mm(10), Length::mm(14)), between);
            assert_eq!(plain.guides(Length::mm(10), Length::mm(14)), between);
            assert_eq!(plain.box_side(Length::mm(10), Length::mm(14)), between);
        }
        assert_eq!(fullness(0, None, false).directions(Length::pt(14)), Length::pt(14));
    }

    /// Common practice for the three years; 28 pt is what cards have too.
    #[test]
    fn bands_and_large_print_make_larger() {
        let size = |percent, band, large| fullness(percent, band, large).type_size(Length::pt(20), Length::pt(24));
        assert_eq!(size(0, Some(PrintBand::K), false), Length::pt(20).times(5, 4));
        assert_eq!(size(100, Some(PrintBand::K), false), Length::pt(24).times(5, 4));
        assert_eq!(size(0, Some(PrintBand::Two), false), Length::pt(20));
        assert_eq!((size(0, None, true), size(100, None, true)), (Length::pt(28), Length::pt(28)));
        assert_eq!(size(100, Some(PrintBand::K), true), Length::pt(24).times(5, 4));
        // Small print is the adult's and stays.
        assert_eq!(fullness(0, Some(PrintBand::K), true).type_size(Length::pt(11), Length::pt(11)), Length::pt(11));
        let line = |percent, band| fullness(percent, Some(band), false).guides(Length::mm(11), Length::mm(14));
        assert_eq!((line(0, PrintBand::K), line(100, PrintBand::K)), (Length::mm(16), Length::mm(20)));
        assert_eq!((line(0, PrintBand::Two), line(100, PrintBand::Two)), (Length::mm(10), Length::mm(13)));
    }

    #[test]
    fn bands_are_read_by_name_and_number() {
        let read = |text: &str| crate::yaml::from_str::<PrintBand>("a.yaml", text);
        assert_eq!(read("K").unwrap(), PrintBand::K);
        assert_eq!(read("1").unwrap(), PrintBand::One);
        assert_eq!(read("\"2\"").unwrap(), PrintBand::Two);
        assert!(read("3").unwrap_err().to_string().contains("K, 1 or 2"));
    }
}
