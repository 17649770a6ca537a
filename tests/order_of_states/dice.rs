//! What chance decides in one act, and where new ids come from.

use notchbook::logbook::{EntryId, ThingId};
use uuid::Uuid;

/// Numbers drawn beforehand, so that a failing sequence can be made smaller and played again. When
/// they run out, the first possibility is taken.
pub(crate) struct Dice<'d> {
    numbers: std::slice::Iter<'d, u16>,
}

impl<'d> Dice<'d> {
    pub(crate) fn new(numbers: &'d [u16]) -> Dice<'d> {
        Dice {
            numbers: numbers.iter(),
        }
    }

    /// A number from 0 to below `end`.
    pub(crate) fn below(&mut self, end: usize) -> usize {
        let drawn = self.numbers.next().copied().unwrap_or(0);
        usize::from(drawn) * end / 0x1_0000
    }

    /// True in so many of a hundred cases.
    pub(crate) fn percent(&mut self, share: usize) -> bool {
        // The smallest number is "no", so that a failing sequence is made plainer.
        self.below(100) >= 100 - share
    }

    pub(crate) fn one_of<T: Copy>(&mut self, all: &[T]) -> Option<T> {
        match all {
            [] => None,
            all => all.get(self.below(all.len())).copied(),
        }
    }

    /// One of several, each as often as its weight says.
    pub(crate) fn weighed<T: Copy>(&mut self, all: &[(usize, T)]) -> T {
        let sum: usize = all.iter().map(|(weight, _)| weight).sum();
        let mut drawn = self.below(sum);
        for (weight, one) in all {
            if drawn < *weight {
                return *one;
            }
            drawn -= weight;
        }
        unreachable!("the weights add up")
    }
}

/// New ids, one after the other.
#[derive(Clone, Default)]
pub(crate) struct Ids {
    last: u128,
}

impl Ids {
    fn next(&mut self) -> Uuid {
        self.last += 1;
        Uuid::from_u128(self.last)
    }

    pub(crate) fn thing(&mut self) -> ThingId {
        ThingId(self.next())
    }

    pub(crate) fn entry(&mut self) -> EntryId {
        EntryId(self.next())
    }
}
