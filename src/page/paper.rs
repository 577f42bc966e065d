//! Paper sizes and margins.

use super::{Length, Size};

/// A paper size, upright.
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    serde::Serialize,
    serde::Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "lowercase")]
pub enum Paper {
    /// US Letter, 215.9 × 279.4 mm (8.5 × 11 in).
    #[default]
    Letter,
    /// ISO 216 A4, 210 × 297 mm.
    A4,
}

impl Paper {
    /// All papers, in the order in which they are listed.
    pub const ALL: [Self; 2] = [Self::Letter, Self::A4];

    /// The margin on all four sides: 15 mm, more than the 12.7 mm (half an inch) that office printers and hole punches ask for.
    pub const MARGIN: Length = Length::mm(15);

    /// Width and height.
    #[must_use]
    pub const fn size(self) -> Size {
        match self {
            Self::Letter => Size { width: Length::um(215_900), height: Length::um(279_400) },
            Self::A4 => Size { width: Length::mm(210), height: Length::mm(297) },
        }
    }

    /// The name used on the command line and in files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::A4 => "a4",
        }
    }
}
