//! Small charts made of marks: bars and a line. Black and grey only, with outlines that a photocopy keeps.

use super::report::{DayReport, Sum};
use crate::layout::{Align, Area, Type, across, text_at};
use crate::page::{Face, Ink, Length, Mark, Point, Size, Stroke};

/// The outline of a bar, and the line of a chart's floor.
const OUTLINE: Length = Length::milli_pt(750);

/// Small type on charts.
pub const SMALL: Type = Type::black(Face::Regular, Length::pt(9));

/// A bar: an outline for the whole and a grey part for `part` of `whole`.
pub fn bar(area: &Area, part: usize, whole: usize, marks: &mut Vec<Mark>) {
    let filled = Size::new(share(area.width, part, whole), area.height);
    if filled.width > Length::ZERO {
        marks.push(Mark::Rect {
            at: area.corner(),
            size: filled,
            radius: Length::ZERO,
            stroke: None,
            fill: Some(Ink::MID),
        });
    }
    marks.push(Mark::Rect {
        at: area.corner(),
        size: area.size(),
        radius: Length::ZERO,
        stroke: Some(Stroke::solid(OUTLINE)),
        fill: None,
    });
}

/// The height of [`line_chart`].
pub const LINE_CHART: Length = Length::mm(46);

/// How many days a chart has room for.
pub const MOST_DAYS: usize = 12;

/// A line chart of the share that was right on each day, with the day and the numbers below each point. `days` are at most
/// [`MOST_DAYS`].
pub fn line_chart(days: &[DayReport], area: &Area, marks: &mut Vec<Mark>) {
    let axis = Length::mm(14);
    let plot = Area {
        x: area.x + axis,
        y: area.y + Length::mm(3),
        width: area.width - axis,
        height: area.height - Length::mm(17),
    };
    for percent in [0_usize, 50, 100] {
        let y = plot.bottom() - share(plot.height, percent, 100);
        let stroke = Stroke::solid(OUTLINE);
        let stroke = if percent == 0 { stroke } else { stroke.inked(Ink::MID).dashed(Length::mm(1), Length::mm(1)) };
        marks.push(across(plot.x, plot.right(), y, stroke));
        let label = Area { width: axis - Length::mm(2), ..*area };
        let baseline = y + SMALL.face.cap_height(SMALL.size).half();
        marks.push(text_at(&format!("{percent} %"), SMALL, Align::Right, &label, baseline));
    }
    // Few days stand apart as many do, rather than at the two ends.
    let slot = plot.width.times(1, count(days.len().max(6)));
    let mut before: Option<Point> = None;
    for (at, DayReport { date, sum }) in days.iter().enumerate() {
        let x = plot.x + slot.times(count(at), 1) + slot.half();
        let point = Point::new(x, plot.bottom() - share(plot.height, sum.right, sum.tries));
        if let Some(before) = before {
            marks.push(Mark::Line { from: before, to: point, stroke: Stroke::solid(Length::milli_pt(1250)) });
        }
        before = Some(point);
        let half = Length::um(1100);
        marks.push(Mark::Rect {
            at: Point::new(point.x - half, point.y - half),
            size: Size::new(half * 2, half * 2),
            radius: Length::ZERO,
            stroke: None,
            fill: Some(Ink::BLACK),
        });
        let below = Area { x: x - slot.half(), width: slot, ..plot };
        let Sum { tries, right } = sum;
        for (line, text) in [date.short(), format!("{right} of {tries}")].iter().enumerate() {
            let kind = SMALL.shrunk_to(text, slot - Length::mm(1));
            let baseline = plot.bottom() + Length::mm(5) + SMALL.line_height().times(count(line), 1);
            marks.push(text_at(text, kind, Align::Center, &below, baseline));
        }
    }
}

/// `part` of `whole` of a length; nothing of nothing.
fn share(length: Length, part: usize, whole: usize) -> Length {
    if whole == 0 { Length::ZERO } else { length.times(count(part.min(whole)), count(whole)) }
}

fn count(number: usize) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bar_is_filled_by_its_share() {
        let area = Area { x: Length::ZERO, y: Length::ZERO, width: Length::mm(60), height: Length::mm(4) };
        let filled = |part, whole| {
            let mut marks = Vec::new();
            bar(&area, part, whole, &mut marks);
            marks.iter().find_map(|mark| match mark {
                Mark::Rect { size, fill: Some(_), .. } => Some(size.width),
                _ => None,
            })
        };
        assert_eq!(filled(3, 4), Some(Length::mm(45)));
        assert_eq!(filled(4, 4), Some(Length::mm(60)));
        assert_eq!([filled(0, 4), filled(0, 0)], [None, None]);
    }
}
