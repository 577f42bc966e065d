//! What is particular to one child among those who get the same sheet: its set, words to put first, words to spare.

use super::{FillError, Filled, Request};
use crate::seed::Stream;

/// Which of several sheets that are equal in difficulty is made.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Seat {
    /// There are no others.
    #[default]
    Alone,
    /// The set of this number, from 0, with words of its own: as many of each kind as every other set of the request has, and
    /// as few that another has as the bank allows.
    Set(usize),
    /// The set of this number, from 0, with the words of every other set in an order of its own.
    Same(usize),
}

impl Seat {
    /// The stream of what differs from set to set.
    pub(super) fn apart(self, stream: &Stream) -> Option<Stream> {
        match self {
            Self::Alone => None,
            Self::Set(number) | Self::Same(number) => Some(stream.fork(&format!("set {number}"))),
        }
    }
}

/// What is particular to one child.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hand {
    /// Its set.
    pub seat: Seat,
    /// Words that come first where they fit, in this order.
    pub wants: Vec<String>,
    /// How many of a hundred items may be such words.
    pub wanted: usize,
    /// Words that are used only where there are not enough others.
    pub spare: Vec<String>,
}

impl Default for Hand {
    fn default() -> Self {
        Self { seat: Seat::Alone, wants: Vec::new(), wanted: 50, spare: Vec::new() }
    }
}

impl Hand {
    /// How many of some items may be words that come first.
    pub(super) const fn most_wanted(&self, count: usize) -> usize {
        (count * self.wanted).div_ceil(100)
    }

    /// Whether a word is to be spared.
    pub(super) fn spares(&self, spelling: &str) -> bool {
        self.spare.iter().any(|spared| spared == spelling)
    }
}

impl Request<'_> {
    /// The stream of a purpose, for what differs from set to set: a sheet alone has the shared stream for itself.
    pub(super) fn own(&self, purpose: &str) -> Stream {
        let shared = self.stream.fork(purpose);
        self.hand.seat.apart(&shared).unwrap_or(shared)
    }

    /// The stream of a purpose, for words that differ from set to set: sets of the same words share it.
    pub(super) fn own_words(&self, purpose: &str) -> Stream {
        match self.hand.seat {
            Seat::Set(_) => self.own(purpose),
            Seat::Alone | Seat::Same(_) => self.stream.fork(purpose),
        }
    }

    /// The same request for a sheet alone.
    fn alone(&self) -> Self {
        Self { hand: Hand { seat: Seat::Alone, ..self.hand.clone() }, ..self.clone() }
    }

    /// The same request for another set, without what is particular to the child.
    fn of_set(&self, number: usize) -> Self {
        Self { hand: Hand { seat: Seat::Set(number), ..Hand::default() }, ..self.clone() }
    }

    /// The same request with further words to avoid.
    pub(super) fn avoiding(&self, more: &[String]) -> Self {
        Self { avoid: [&self.avoid[..], more].concat(), ..self.clone() }
    }
}

/// Runs a way of choosing whose content hangs together, so that its words can't be dealt one by one: a ladder, pairs to match.
/// Words to spare are avoided, and so are the words of the sets beside it, each as long as there is content without them.
///
/// Every other set is chosen without looking at its neighbours, and those between avoid both, so that no set depends on a long
/// row of others. Sets of the same words have another order where it is free, as that of a ladder is not.
///
/// # Errors
/// Those of the way itself, with nothing avoided but what the request avoids.
pub(super) fn keeping_apart(
    request: &Request,
    order_is_free: bool,
    choose: impl Fn(&Request) -> Result<Filled, FillError>,
) -> Result<Filled, FillError> {
    if let Seat::Same(_) = request.hand.seat {
        let mut filled = keeping_apart(&request.alone(), order_is_free, choose)?;
        if order_is_free {
            request.own("order").shuffle(&mut filled.items);
        }
        return Ok(filled);
    }
    let mut beside = Vec::new();
    if let Seat::Set(number) = request.hand.seat
        && number % 2 == 1
    {
        for neighbour in [number - 1, number + 1] {
            if let Ok(filled) = choose(&request.of_set(neighbour)) {
                beside.extend(filled.words());
            }
        }
    }
    let spare = &request.hand.spare;
    for avoid in [[&beside[..], spare].concat(), spare.clone(), beside] {
        if !avoid.is_empty()
            && let Ok(filled) = choose(&request.avoiding(&avoid))
        {
            return Ok(filled);
        }
    }
    choose(request)
}

impl Filled {
    /// The words that it uses, as its items and word boxes name them, each once and in the order of the alphabet.
    #[must_use]
    pub fn words(&self) -> Vec<String> {
        let items = self.items.iter().chain(self.parts.iter().flat_map(|part| &part.items));
        let of_items = items.flat_map(|item| item.word.split(' '));
        let words: std::collections::BTreeSet<&str> = of_items.filter(|word| !word.is_empty()).collect();
        words.into_iter().map(str::to_owned).collect()
    }
}
