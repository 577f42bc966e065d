//! Lengths as a layout file writes them: millimetres for space, points for type, and ranges of either.

use std::fmt;
use std::marker::PhantomData;

use serde::de::{self, Deserialize, Deserializer, SeqAccess, Visitor};

use super::print::Fullness;
use crate::page::Length;

/// A unit in which a layout file writes lengths.
pub trait Unit {
    /// What it is called in messages.
    const NAME: &'static str;
    /// The largest number that may be written.
    const MOST: u32;
    /// A length from thousandths of the unit.
    fn length(thousandths: i64) -> Length;
    /// A size between the least and the most. Type is larger where the print asks for it.
    fn at(least: Length, most: Length, fullness: Fullness) -> Length {
        fullness.between(least, most)
    }
}

/// Millimetres, 0 to 300.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mm;

/// Points of type size, 0 to 144.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pt;

impl Unit for Mm {
    const NAME: &'static str = "millimetres";
    const MOST: u32 = 300;
    fn length(thousandths: i64) -> Length {
        Length::um(thousandths)
    }
}

impl Unit for Pt {
    const NAME: &'static str = "points";
    const MOST: u32 = 144;
    fn length(thousandths: i64) -> Length {
        Length::milli_pt(thousandths)
    }
    fn at(least: Length, most: Length, fullness: Fullness) -> Length {
        fullness.type_size(least, most)
    }
}

/// A length in some unit, written as one number, such as `12` or `12.7`.
pub struct In<U>(pub Length, PhantomData<U>);

impl<U: Unit> In<U> {
    /// A whole number of the unit.
    #[must_use]
    pub fn new(number: i64) -> Self {
        Self(U::length(number * 1000), PhantomData)
    }
}

/// A length that may vary: from `least` where much has to fit to `most` where there is room. Written `14` or `[14, 18]`.
pub struct Span<U> {
    /// The smallest size.
    pub least: Length,
    /// The largest size.
    pub most: Length,
    unit: PhantomData<U>,
}

impl<U: Unit> Span<U> {
    /// From one whole number of the unit to another.
    #[must_use]
    pub fn new(least: i64, most: i64) -> Self {
        Self { least: U::length(least * 1000), most: U::length(most * 1000), unit: PhantomData }
    }

    /// The length at a fullness: 0 per cent for the least and 100 for the most.
    #[must_use]
    pub fn at(&self, fullness: impl Into<Fullness>) -> Length {
        U::at(self.least, self.most, fullness.into())
    }
}

// Written out, because deriving would ask the same of the unit.
impl<U> Clone for In<U> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<U> Copy for In<U> {}
impl<U> PartialEq for In<U> {
    fn eq(&self, other: &Self) -> bool {
        self.0 == other.0
    }
}
impl<U> fmt::Debug for In<U> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}
impl<U> Clone for Span<U> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<U> Copy for Span<U> {}
impl<U> PartialEq for Span<U> {
    fn eq(&self, other: &Self) -> bool {
        self.least == other.least && self.most == other.most
    }
}
impl<U> fmt::Debug for Span<U> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?} to {:?}", self.least, self.most)
    }
}

fn thousandths<U: Unit, E: de::Error>(number: f64) -> Result<i64, E> {
    if !(0.0..=f64::from(U::MOST)).contains(&number) {
        return Err(E::custom(format_args!("{number} {} is not between 0 and {}", U::NAME, U::MOST)));
    }
    #[allow(clippy::cast_possible_truncation, reason = "the range was just checked")]
    Ok((number * 1000.0).round() as i64)
}

impl<U: Unit> schemars::JsonSchema for In<U> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        U::NAME.into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "description": format!("A number of {}.", U::NAME), "type": "number", "minimum": 0, "maximum": U::MOST
        })
    }
}

impl<U: Unit> schemars::JsonSchema for Span<U> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        format!("range-of-{}", U::NAME).into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let one = generator.subschema_for::<In<U>>();
        schemars::json_schema!({
            "description": format!("A number of {0}, or a range of {0} such as [14, 18].", U::NAME),
            "anyOf": [one, {"type": "array", "items": one, "minItems": 2, "maxItems": 2}]
        })
    }
}

struct InVisitor<U>(PhantomData<U>);

impl<U: Unit> Visitor<'_> for InVisitor<U> {
    type Value = In<U>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a number of {}", U::NAME)
    }

    fn visit_f64<E: de::Error>(self, number: f64) -> Result<In<U>, E> {
        Ok(In(U::length(thousandths::<U, E>(number)?), PhantomData))
    }

    fn visit_u64<E: de::Error>(self, number: u64) -> Result<In<U>, E> {
        self.visit_f64(f64::from(u32::try_from(number).unwrap_or(u32::MAX)))
    }

    fn visit_i64<E: de::Error>(self, number: i64) -> Result<In<U>, E> {
        self.visit_f64(f64::from(i32::try_from(number).unwrap_or(i32::MIN)))
    }
}

impl<'de, U: Unit> Deserialize<'de> for In<U> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(InVisitor(PhantomData))
    }
}

struct SpanVisitor<U>(PhantomData<U>);

impl<'de, U: Unit> Visitor<'de> for SpanVisitor<U> {
    type Value = Span<U>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a number of {0}, or a range of {0} such as [14, 18]", U::NAME)
    }

    fn visit_f64<E: de::Error>(self, number: f64) -> Result<Span<U>, E> {
        let length = InVisitor::<U>(PhantomData).visit_f64::<E>(number)?.0;
        Ok(Span { least: length, most: length, unit: PhantomData })
    }

    fn visit_u64<E: de::Error>(self, number: u64) -> Result<Span<U>, E> {
        self.visit_f64(f64::from(u32::try_from(number).unwrap_or(u32::MAX)))
    }

    fn visit_i64<E: de::Error>(self, number: i64) -> Result<Span<U>, E> {
        self.visit_f64(f64::from(i32::try_from(number).unwrap_or(i32::MIN)))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Span<U>, A::Error> {
        let wrong = || de::Error::custom("a range has two numbers, the smaller first, such as [14, 18]");
        let least: In<U> = list.next_element()?.ok_or_else(wrong)?;
        let most: In<U> = list.next_element()?.ok_or_else(wrong)?;
        if list.next_element::<de::IgnoredAny>()?.is_some() || most.0 < least.0 {
            return Err(wrong());
        }
        Ok(Span { least: least.0, most: most.0, unit: PhantomData })
    }
}

impl<'de, U: Unit> Deserialize<'de> for Span<U> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(SpanVisitor(PhantomData))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::yaml::from_str;

    #[test]
    fn numbers_and_ranges() {
        assert_eq!(from_str::<In<Mm>>("a", "12.7").unwrap().0, Length::um(12_700));
        let span = from_str::<Span<Mm>>("a", "[14, 18]").unwrap();
        assert_eq!((span.at(0), span.at(50), span.at(100)), (Length::mm(14), Length::mm(16), Length::mm(18)));
        assert_eq!(from_str::<Span<Pt>>("a", "24").unwrap(), Span::new(24, 24));
    }

    #[test]
    fn what_is_out_of_range_is_refused() {
        for wrong in ["-1", "301", "[18, 14]", "[1]", "[1, 2, 3]", "wide", ".nan", ".inf", "99999999999999999999"] {
            assert!(from_str::<Span<Mm>>("a", wrong).is_err(), "{wrong}");
        }
    }
}
