//! Filling pages with bands, evenly.

use super::area::down;
use super::band::{Band, moved};
use crate::page::{Length, Mark};

/// The pages that bands fill, as the numbers of the bands on each, in order.
///
/// As few pages as the bands need; and then the bands are shared so that the last page is not a leftover: each page gets about
/// the same height, so no row stands alone on a last page when a fuller split exists.
#[must_use]
pub fn split(bands: &[Band], room: Length) -> Vec<std::ops::Range<usize>> {
    let pages = fill(bands, room, room).len();
    if pages < 2 {
        return fill(bands, room, room);
    }
    // The smallest height to stop at that does not need another page, found by halving.
    let (mut low, mut high) = (Length::ZERO, room);
    while high - low > Length::um(100) {
        let middle = (low + high).half();
        if fill(bands, middle, room).len() <= pages { high = middle } else { low = middle }
    }
    fill(bands, high, room)
}

/// Fills pages up to `aim`; a band higher than that still gets a page if it fits into `room`, or even when it does not.
fn fill(bands: &[Band], aim: Length, room: Length) -> Vec<std::ops::Range<usize>> {
    let mut pages = Vec::new();
    let mut start = 0;
    let mut used = Length::ZERO;
    let mut at = 0;
    while at < bands.len() {
        let group = group_end(bands, at, room);
        let first = at == start;
        let height = group_height(&bands[at..group], first);
        let breaks = bands[at].new_page && !first;
        let limit = if first { room } else { aim };
        if breaks || (!first && used + height > limit) {
            pages.push(start..at);
            start = at;
            used = Length::ZERO;
            continue;
        }
        used += height;
        at = group;
    }
    if start < bands.len() {
        pages.push(start..bands.len());
    }
    pages
}

/// The end of the bands that must stay together from `at` on. Where they are higher than a page, they stay together as far as the
/// blocks that fit one go.
fn group_end(bands: &[Band], at: usize, room: Length) -> usize {
    let mut end = at + 1;
    let mut block = None;
    while end < bands.len() && bands[end - 1].keep_with_next && !bands[end].new_page {
        if bands[end].run != bands[end - 1].run {
            block = Some(end);
        }
        if group_height(&bands[at..=end], true) > room {
            return block.unwrap_or(end);
        }
        end += 1;
    }
    end
}

/// The least height of bands in a row; the first has no gap at the top of a page.
pub fn group_height(bands: &[Band], at_top: bool) -> Length {
    let gaps: Length = bands.iter().skip(usize::from(at_top)).map(|b| b.gap).sum();
    bands.iter().map(|b| b.height).sum::<Length>() + gaps
}

/// How much of their stretch, in thousandths, the gaps of a page take so that it is filled but not overfull.
#[must_use]
pub fn slack(bands: &[Band], room: Length) -> i64 {
    let spare = room - group_height(bands, true);
    let stretch: Length = bands.iter().skip(1).map(|b| b.stretch).sum();
    if spare <= Length::ZERO {
        0
    } else if stretch <= Length::ZERO || spare >= stretch {
        1000
    } else {
        spare.to_nm() / (stretch.to_nm() / 1000).max(1)
    }
}

/// The marks of one page of bands, from `top` down, with gaps stretched by `slack` thousandths.
#[must_use]
pub fn draw(bands: &[Band], top: Length, slack: i64) -> Vec<Mark> {
    let mut marks = Vec::new();
    let mut y = top;
    let mut placed: Vec<(Length, Length)> = Vec::with_capacity(bands.len());
    for (at, band) in bands.iter().enumerate() {
        if at > 0 {
            y += band.gap + band.stretch.times(slack, 1000);
        }
        let opens = at == 0 || bands[at - 1].run != band.run;
        if opens {
            marks.extend(band.opening.iter().map(|mark| moved(mark, y)));
        }
        marks.extend(band.marks.iter().map(|mark| moved(mark, y)));
        if at + 1 < bands.len() {
            marks.extend(band.between.iter().map(|mark| moved(mark, y)));
        }
        placed.push((y, y + band.height));
        y += band.height;
    }
    for (at, band) in bands.iter().enumerate() {
        let opens = at == 0 || bands[at - 1].run != band.run;
        if opens && !band.rails.is_empty() {
            let last = (at..bands.len()).take_while(|&other| bands[other].run == band.run).last().unwrap_or(at);
            for (x, stroke) in &band.rails {
                marks.push(down(*x, placed[at].0, placed[last].1, *stroke));
            }
        }
    }
    marks
}

/// The marks behind one page of bands, at the heights at which [`draw`] draws them; nothing when no band has a back.
#[must_use]
pub fn draw_backs(bands: &[Band], top: Length, slack: i64) -> Option<Vec<Mark>> {
    if bands.iter().all(|band| band.back.is_none()) {
        return None;
    }
    let mut marks = Vec::new();
    let mut y = top;
    for (at, band) in bands.iter().enumerate() {
        if at > 0 {
            y += band.gap + band.stretch.times(slack, 1000);
        }
        marks.extend(band.back.iter().flatten().map(|mark| moved(mark, y)));
        y += band.height;
    }
    Some(marks)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn band(mm: i64) -> Band {
        Band { gap: Length::mm(2), stretch: Length::mm(4), ..Band::new(Length::mm(mm), Vec::new()) }
    }

    #[test]
    fn no_row_stands_alone_on_the_last_page() {
        let rows: Vec<Band> = (0..10).map(|_| band(10)).collect();
        let sizes: Vec<_> = split(&rows, Length::mm(106)).iter().map(ExactSizeIterator::len).collect();
        assert_eq!(sizes, [5, 5]);
    }

    #[test]
    fn bands_that_keep_together_do() {
        let mut rows: Vec<Band> = (0..4).map(|_| band(10)).collect();
        rows[2].keep_with_next = true;
        let pages = split(&rows, Length::mm(35));
        assert!(pages.iter().all(|page| page.end != 3), "{pages:?}");
    }

    #[test]
    fn what_keeps_together_but_fits_no_page_is_parted_between_blocks() {
        let mut rows: Vec<Band> = [10, 60, 10, 20, 20].map(band).into();
        for (row, run) in rows.iter_mut().zip([0, 1, 2, 2, 2]) {
            (row.run, row.keep_with_next) = (run, true);
        }
        let ends: Vec<_> = split(&rows, Length::mm(100)).iter().map(|page| page.end).collect();
        assert_eq!(ends, [2, 5]);
    }

    #[test]
    fn a_band_that_is_too_high_still_gets_a_page() {
        assert_eq!(split(&[band(10), band(500), band(10)], Length::mm(100)).len(), 3);
        assert!(split(&[], Length::mm(100)).is_empty());
    }

    #[test]
    fn gaps_take_what_is_spare() {
        let rows: Vec<Band> = (0..3).map(|_| band(10)).collect();
        assert_eq!(slack(&rows, Length::mm(34)), 0);
        assert_eq!(slack(&rows, Length::mm(38)), 500);
        assert_eq!(slack(&rows, Length::mm(90)), 1000);
    }
}
