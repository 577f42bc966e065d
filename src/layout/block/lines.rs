//! Lines to write on, over the whole width.

use serde::Deserialize;

use crate::layout::area::Area;
use crate::layout::band::Band;
use crate::layout::piece::{Setting, guide_lines};
use crate::layout::unit::{Mm, Span};
use crate::page::Length;

/// Lines over the whole width.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct LinesBlock {
    /// How many lines, 1 to 30.
    pub count: u8,
    /// From the top line to the base line in millimetres.
    pub height: Span<Mm>,
    /// Space between lines in millimetres.
    pub gap: Span<Mm>,
    /// Whether the top and the dashed middle line are drawn.
    pub guides: bool,
}

impl Default for LinesBlock {
    fn default() -> Self {
        Self { count: 4, height: Span::new(10, 13), gap: Span::new(5, 9), guides: true }
    }
}

impl LinesBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Vec<Band> {
        let height = setting.guides(self.height);
        (0..self.count.clamp(1, 30))
            .map(|nth| {
                let mut marks = Vec::new();
                guide_lines(&Area { y: Length::ZERO, ..*body }, height, self.guides, &mut marks);
                Band {
                    gap: if nth == 0 { Length::mm(5) } else { self.gap.least },
                    stretch: self.gap.most - self.gap.least,
                    ..Band::new(height + setting.below_base(height), marks)
                }
            })
            .collect()
    }
}
