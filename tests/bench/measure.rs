//! Measuring with a clock, and what is made of the times.

use std::time::{Duration, Instant};

use anyhow::Result;

/// Times of the same thing, the shortest first.
pub(crate) struct Times(Vec<Duration>);

impl Times {
    /// Times in any order; there has to be one at least.
    pub(crate) fn of(mut times: Vec<Duration>) -> Result<Times> {
        anyhow::ensure!(!times.is_empty(), "nothing was measured");
        times.sort_unstable();
        Ok(Times(times))
    }

    /// Times of the same thing from several stretches.
    pub(crate) fn joined(parts: &[Times]) -> Times {
        let mut times: Vec<Duration> = parts.iter().flat_map(|part| part.0.clone()).collect();
        times.sort_unstable();
        Times(times)
    }

    fn at(&self, percent: usize) -> Duration {
        let last = self.0.len().saturating_sub(1);
        let at = (self.0.len() * percent / 100).min(last);
        self.0.get(at).copied().unwrap_or_default()
    }

    /// Half of them took no longer.
    pub(crate) fn median(&self) -> Duration {
        self.at(50)
    }

    /// The longest.
    pub(crate) fn longest(&self) -> Duration {
        self.at(100)
    }

    /// Ninety-nine in a hundred took no longer.
    pub(crate) fn p99(&self) -> Duration {
        self.at(99)
    }
}

/// How long something takes, with what came of it.
pub(crate) fn once<T>(work: impl FnOnce() -> Result<T>) -> Result<(Duration, T)> {
    let begun = Instant::now();
    let done = work()?;
    Ok((begun.elapsed(), done))
}

/// How long two things take that are to be compared, done in turn, so that whatever else the
/// machine does meets both.
pub(crate) fn side_by_side<A, B>(
    times: usize,
    mut one: impl FnMut() -> Result<A>,
    mut other: impl FnMut() -> Result<B>,
) -> Result<(Times, Times)> {
    one()?;
    other()?;
    let (mut first, mut second) = (Vec::new(), Vec::new());
    for _ in 0..times {
        first.push(once(&mut one)?.0);
        second.push(once(&mut other)?.0);
    }
    Ok((Times::of(first)?, Times::of(second)?))
}

/// The time of one of so many.
pub(crate) fn each(all: Duration, count: u64) -> Duration {
    let count = u32::try_from(count.max(1)).unwrap_or(u32::MAX);
    all / count
}

/// What something takes for a million of what it took `all` for `count` of.
pub(crate) fn a_million(all: Duration, count: u64) -> Duration {
    let count = u32::try_from(count.max(1)).unwrap_or(u32::MAX);
    all.mul_f64(1_000_000.0 / f64::from(count))
}
