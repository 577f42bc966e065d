//! One length type for the whole project.
//!
//! A [`Length`] is a whole number of nanometres. Whole numbers have a total order, no NaN and no rounding that differs by
//! platform, so that the same sheet is placed the same on every machine.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// Nanometres in a millimetre.
const NM_PER_MM: i64 = 1_000_000;
/// Nanometres in an inch (exact since 1959: 25.4 mm).
const NM_PER_INCH: i64 = 25_400_000;
/// PDF points in an inch (ISO 32000-1, 8.3.2.3).
const PT_PER_INCH: i64 = 72;

/// A signed length. Make one with [`Length::mm`], [`Length::um`] or [`Length::pt`].
#[derive(Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Length(i64);

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0);

    /// A length from whole nanometres.
    #[must_use]
    pub const fn nm(nm: i64) -> Self {
        Self(nm)
    }

    /// A length from whole micrometres (thousandths of a millimetre).
    #[must_use]
    pub const fn um(um: i64) -> Self {
        Self(um * (NM_PER_MM / 1000))
    }

    /// A length from whole millimetres.
    #[must_use]
    pub const fn mm(mm: i64) -> Self {
        Self(mm * NM_PER_MM)
    }

    /// A length from whole points (1/72 in).
    #[must_use]
    pub const fn pt(pt: i64) -> Self {
        Self::milli_pt(pt * 1000)
    }

    /// A length from thousandths of a point.
    #[must_use]
    pub const fn milli_pt(milli_pt: i64) -> Self {
        Self((milli_pt * NM_PER_INCH + PT_PER_INCH * 500) / (PT_PER_INCH * 1000))
    }

    /// Whole nanometres.
    #[must_use]
    pub const fn to_nm(self) -> i64 {
        self.0
    }

    /// Thousandths of a point, rounded half away from zero.
    #[must_use]
    pub const fn to_milli_pt(self) -> i64 {
        let scaled = self.0 * PT_PER_INCH * 1000;
        let half = if scaled < 0 { -NM_PER_INCH / 2 } else { NM_PER_INCH / 2 };
        (scaled + half) / NM_PER_INCH
    }

    /// This length times `numerator / denominator`, rounded towards zero.
    ///
    /// # Panics
    /// When `denominator` is zero.
    #[must_use]
    pub const fn times(self, numerator: i64, denominator: i64) -> Self {
        Self(self.0 * numerator / denominator)
    }

    /// Half of this length.
    #[must_use]
    pub const fn half(self) -> Self {
        Self(self.0 / 2)
    }

    /// How many times `other` fits wholly into this length; 0 when `other` is not positive.
    #[must_use]
    pub const fn fits(self, other: Self) -> i64 {
        if other.0 <= 0 { 0 } else { self.0 / other.0 }
    }

    /// This length, but not below zero.
    #[must_use]
    pub fn at_least_zero(self) -> Self {
        self.max(Self::ZERO)
    }
}

impl fmt::Debug for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let um = (self.0.abs() + 500) / 1000;
        write!(f, "{sign}{}.{:03}mm", um / 1000, um % 1000)
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Self) {
        self.0 -= other.0;
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<i64> for Length {
    type Output = Self;
    fn mul(self, times: i64) -> Self {
        Self(self.0 * times)
    }
}

impl Div<i64> for Length {
    type Output = Self;
    fn div(self, by: i64) -> Self {
        Self(self.0 / by)
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::Length;

    /// US Letter is 8.5 × 11 in (ANSI/ASME Y14.1), which is 612 × 792 pt.
    #[test]
    fn letter_paper_is_a_whole_number_of_points() {
        assert_eq!(Length::um(215_900).to_milli_pt(), 612_000);
        assert_eq!(Length::um(279_400).to_milli_pt(), 792_000);
    }

    #[test]
    fn points_come_back_unchanged() {
        for milli in [-12_345_i64, -1, 0, 1, 500, 18_000, 792_000] {
            assert_eq!(Length::milli_pt(milli.abs()).to_milli_pt(), milli.abs());
        }
    }

    #[test]
    fn debug_is_in_millimetres() {
        assert_eq!(format!("{:?}", Length::um(-1_500)), "-1.500mm");
    }
}
