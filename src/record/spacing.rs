//! When what was missed comes back: after 1, 2, 4 and 8 packets.

use std::collections::BTreeMap;

use serde::Serialize;

use super::{Day, Row};

/// After how many packets an item comes back: 1 after a miss, and the next gap after each time that it was right when it was due. An item
/// that was right after the last gap is done. (Spaced review with growing gaps is common practice; the gaps are our own.)
pub const GAPS: [usize; 4] = [1, 2, 4, 8];

/// An item that was missed and is not done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Due {
    /// It, as it was recorded last.
    pub item: String,
    /// The packet in which it comes back, from 1.
    pub packet: usize,
    /// After how many packets that is.
    pub gap: usize,
    /// In how many packets it was missed.
    pub misses: usize,
    /// When it was missed last.
    pub missed: Day,
}

/// The packets of a child's rows, which are in the order of their days: what was tried on one day is one packet.
#[must_use]
pub fn packets<'a>(rows: &[&'a Row]) -> Vec<Vec<&'a Row>> {
    rows.chunk_by(|a, b| a.date == b.date).map(<[&Row]>::to_vec).collect()
}

/// What was missed and is not done, in the order of need: what was due first, then what was missed more often, then by the alphabet.
///
/// Within a packet one miss of an item is a miss, however often it was right. An item that was right before it was due stays where it is.
#[must_use]
pub fn spaced(packets: &[Vec<&Row>]) -> Vec<Due> {
    let mut known: BTreeMap<String, Due> = BTreeMap::new();
    for (number, packet) in (1..).zip(packets) {
        let mut tried: BTreeMap<String, (&Row, bool)> = BTreeMap::new();
        for row in packet {
            let entry = tried.entry(row.item.to_lowercase()).or_insert((row, true));
            *entry = (row, entry.1 && row.right);
        }
        for (item, (row, right)) in tried {
            let Some(due) = known.get_mut(&item) else {
                if !right {
                    let first =
                        Due { item: row.item.clone(), packet: number + 1, gap: GAPS[0], misses: 1, missed: row.date };
                    known.insert(item, first);
                }
                continue;
            };
            if !right {
                *due = Due {
                    packet: number + GAPS[0],
                    gap: GAPS[0],
                    misses: due.misses + 1,
                    missed: row.date,
                    item: row.item.clone(),
                };
            } else if number >= due.packet {
                match GAPS.into_iter().find(|gap| *gap > due.gap) {
                    Some(gap) => (due.gap, due.packet) = (gap, number + gap),
                    None => drop(known.remove(&item)),
                }
            }
        }
    }
    let mut all: Vec<Due> = known.into_values().collect();
    all.sort_by(|a, b| a.packet.cmp(&b.packet).then(b.misses.cmp(&a.misses)).then_with(|| a.item.cmp(&b.item)));
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::tests::try_at;

    /// What is left after packets in which `flag` was right (`true`), missed, or not tried.
    fn after(tries: &[Option<bool>]) -> Option<(usize, usize, usize)> {
        let rows: Vec<Row> = (1..)
            .zip(tries)
            .map(|(date, right)| try_at(date, if right.is_some() { "flag" } else { "cat" }, right.unwrap_or(true)))
            .collect();
        let rows: Vec<&Row> = rows.iter().collect();
        spaced(&packets(&rows)).first().map(|due| (due.packet, due.gap, due.misses))
    }

    #[test]
    fn gaps_grow_when_it_is_right_and_begin_again_when_it_is_missed() {
        const R: Option<bool> = Some(true);
        const W: Option<bool> = Some(false);
        const N: Option<bool> = None;
        assert_eq!(after(&[R]), None);
        assert_eq!(after(&[W]), Some((2, 1, 1)));
        assert_eq!(after(&[W, R]), Some((4, 2, 1)));
        // Right before it was due changes nothing; not tried when due, it stays due.
        assert_eq!(after(&[W, R, R]), Some((4, 2, 1)));
        assert_eq!(after(&[W, N, N]), Some((2, 1, 1)));
        assert_eq!(after(&[W, R, N, R]), Some((8, 4, 1)));
        assert_eq!(after(&[W, R, N, R, N, N, N, R]), Some((16, 8, 1)));
        assert_eq!(after(&[W, R, N, R, N, N, N, W]), Some((9, 1, 2)));
        let done = [&[W, R, N, R, N, N, N, R][..], &[N; 7], &[R]].concat();
        assert_eq!(after(&done), None);
    }

    #[test]
    fn one_miss_in_a_packet_is_a_miss() {
        let rows = [try_at(1, "flag", false), try_at(1, "Flag", true), try_at(1, "clap", true)];
        let rows: Vec<&Row> = rows.iter().collect();
        let found = spaced(&packets(&rows));
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].packet, found[0].misses), (2, 1));
    }
}
