//! A winding path of words.

use serde::Deserialize;

use super::TooWide;
use crate::layout::area::{Align, Area, Type, across, down, outline, text_at};
use crate::layout::band::Band;
use crate::layout::piece::Setting;
use crate::layout::unit::{Mm, Pt, Span};
use crate::page::{Face, Ink, Length, Mark, Point, Size, Stroke};

/// The items as cells of a path to move along: to the right, one cell down, to the left, one cell down, and so on, from a start
/// to a finish.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct PathBlock {
    /// How many cells go across, 3 to 6.
    pub columns: u8,
    /// Type size of the words in points; 18 or more.
    pub size: Span<Pt>,
    /// Height of a cell in millimetres.
    pub height: Span<Mm>,
    /// The word in the first cell.
    pub start: String,
    /// The word in the last cell.
    pub finish: String,
}

impl Default for PathBlock {
    fn default() -> Self {
        Self {
            columns: 5,
            size: Span::new(18, 26),
            height: Span::new(15, 24),
            start: "Start".to_owned(),
            finish: "Finish".to_owned(),
        }
    }
}

/// The strips of a path: for each, the columns of its cells in the order of the path.
fn strips(cells: usize, columns: usize) -> Vec<Vec<usize>> {
    let mut strips = Vec::new();
    let mut left = cells;
    let mut rightwards = true;
    while left > 0 {
        let mut strip: Vec<usize> = if rightwards { (0..columns).collect() } else { (0..columns).rev().collect() };
        strip.truncate(left);
        left -= strip.len();
        strips.push(strip);
        if left > 0 {
            strips.push(vec![if rightwards { columns - 1 } else { 0 }]);
            left -= 1;
            rightwards = !rightwards;
        }
    }
    strips
}

impl PathBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        let words = setting.sheet.items.iter().map(|item| (item.word.as_str(), false));
        let texts: Vec<(&str, bool)> =
            [(self.start.as_str(), true)].into_iter().chain(words).chain([(self.finish.as_str(), true)]).collect();
        let size = self.size.at(setting.percent);
        let kind = |end: bool| Type::black(if end { Face::Bold } else { Face::Regular }, size);
        let needs = texts.iter().map(|(text, end)| kind(*end).width(text)).max().unwrap_or_default() + Length::mm(5);
        let wanted = self.columns.clamp(3, 6);
        let fits = |columns: &u8| body.width / i64::from(*columns) >= needs;
        let fewer = if setting.fewer_columns { (3..wanted).rev().find(fits) } else { None };
        let columns = if fits(&wanted) { wanted } else { fewer.unwrap_or(wanted) };
        let width = body.width / i64::from(columns);
        if needs > width {
            return Err(TooWide { what: "a cell of the path".to_owned(), needs, has: width });
        }
        let height = self.height.at(setting.percent);
        let stroke = Stroke::solid(Length::milli_pt(1_500));
        let mut bands = Vec::new();
        let mut at = 0;
        let strips = strips(texts.len(), usize::from(columns));
        let last = strips.len();
        for (nth, strip) in strips.into_iter().enumerate() {
            let mut marks = Vec::new();
            let mut edges = Vec::new();
            for column in strip {
                let Some(&(text, end)) = texts.get(at) else { break };
                at += 1;
                let x = body.x + width * i64::try_from(column).unwrap_or(0);
                let cell = Area { x, y: Length::ZERO, width, height };
                if end {
                    let fill = Some(Ink::PALE);
                    let size = Size::new(width, height);
                    let at = Point::new(x, Length::ZERO);
                    marks.push(Mark::Rect { at, size, radius: Length::ZERO, stroke: None, fill });
                }
                edges.push(column);
                let kind = kind(end);
                let reach = if end { kind.face.cap_height(size) } else { kind.face.x_height(size) };
                marks.push(text_at(text, kind, Align::Center, &cell, (height + reach).half()));
            }
            let (first, end) = (edges.iter().min().copied().unwrap_or(0), edges.iter().max().copied().unwrap_or(0));
            let x = |column: usize| body.x + width * i64::try_from(column).unwrap_or(0);
            let whole = Area { x: x(first), y: Length::ZERO, width: x(end + 1) - x(first), height };
            if nth % 2 == 0 {
                marks.push(outline(&whole, Length::ZERO, stroke));
                marks.extend((first + 1..=end).map(|column| down(x(column), Length::ZERO, height, stroke)));
            } else {
                // The cells above and below have drawn its top and bottom.
                marks.push(down(whole.x, Length::ZERO, height, stroke));
                marks.push(down(whole.right(), Length::ZERO, height, stroke));
                if nth + 1 == last {
                    marks.push(across(whole.x, whole.right(), height, stroke));
                }
            }
            let first = nth == 0;
            bands.push(Band {
                gap: if first { Length::mm(4) } else { Length::ZERO },
                stretch: if first { Length::mm(6) } else { Length::ZERO },
                keep_with_next: nth + 1 < last,
                ..Band::new(height, marks)
            });
        }
        Ok(bands)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_path_winds_without_a_gap() {
        assert_eq!(strips(11, 3), [vec![0, 1, 2], vec![2], vec![2, 1, 0], vec![0], vec![0, 1, 2]]);
        for cells in 1..60 {
            for columns in 3..=6 {
                let strips = strips(cells, columns);
                assert_eq!(strips.iter().map(Vec::len).sum::<usize>(), cells);
                // From strip to strip the path goes straight down.
                assert!(strips.windows(2).all(|pair| pair[0].last() == pair[1].first()), "{cells} {columns}");
            }
        }
    }
}
