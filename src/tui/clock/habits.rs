//! How a person likes the clock: which way it counts, when it rings, how long it waits.
//!
//! Kept in the settings under `[clock]`; what is changed at the clock is remembered there by
//! [`crate::tui::config::remember`].

use std::time::Duration;

use super::{Count, Heard};

/// When the bell rings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Bell {
    /// Never.
    Off,
    /// When the shutter opens, each ten seconds, and twice when the plan is reached.
    #[default]
    Marks,
    /// Each second as well, those of the lead-in too.
    Seconds,
}

impl Bell {
    /// Every choice, in the order in which a person steps through them.
    pub const ALL: [Bell; 3] = [Bell::Off, Bell::Marks, Bell::Seconds];

    /// The word used in the settings.
    pub const fn word(self) -> &'static str {
        match self {
            Bell::Off => "off",
            Bell::Marks => "marks",
            Bell::Seconds => "seconds",
        }
    }

    /// What it does, in a few words.
    pub const fn in_words(self) -> &'static str {
        match self {
            Bell::Off => "no bell",
            Bell::Marks => "bell each ten seconds and at the plan",
            Bell::Seconds => "bell each second, twice at the plan",
        }
    }

    /// How often it rings for what happened.
    pub fn rings(self, heard: Heard) -> usize {
        let marks = match heard {
            Heard::Opened { .. } | Heard::Ten => 1,
            Heard::Planned => 2,
            _ => 0,
        };
        match self {
            Bell::Off => 0,
            Bell::Marks => marks,
            Bell::Seconds if matches!(heard, Heard::Second | Heard::LeadSecond) => 1,
            Bell::Seconds => marks,
        }
    }
}

impl Count {
    /// Both directions.
    pub const ALL: [Count; 2] = [Count::Up, Count::Down];

    /// The word used in the settings.
    pub const fn word(self) -> &'static str {
        match self {
            Count::Up => "up",
            Count::Down => "down",
        }
    }
}

/// How a person likes the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Habits {
    /// Which way the digits count.
    pub count: Count,
    /// When it rings.
    pub bell: Bell,
    /// Seconds counted before the shutter opens.
    pub lead_in: u8,
    /// Few cells are lit, and dimly, for the dark cloth.
    pub cloth: bool,
}

impl Default for Habits {
    fn default() -> Self {
        Self {
            count: Count::default(),
            bell: Bell::default(),
            lead_in: 3,
            cloth: false,
        }
    }
}

impl Habits {
    /// The longest lead-in, in seconds.
    pub const LONGEST_LEAD_IN: u8 = 30;

    /// The lead-in.
    pub const fn lead_in(self) -> Duration {
        Duration::from_secs(self.lead_in as u64)
    }

    /// The settings they are, name and value as TOML.
    pub fn settings(self) -> [(&'static str, String); 4] {
        [
            ("count", format!("\"{}\"", self.count.word())),
            ("bell", format!("\"{}\"", self.bell.word())),
            ("lead_in", self.lead_in.to_string()),
            ("cloth", self.cloth.to_string()),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bell_rings_as_it_was_chosen() {
        let rings = |bell: Bell| {
            [
                Heard::LeadSecond,
                Heard::Opened { first: true },
                Heard::Second,
                Heard::Ten,
                Heard::Planned,
                Heard::Closed,
            ]
            .map(|heard| bell.rings(heard))
        };
        assert_eq!(rings(Bell::Off), [0; 6]);
        assert_eq!(rings(Bell::Marks), [0, 1, 0, 1, 2, 0]);
        assert_eq!(rings(Bell::Seconds), [1, 1, 1, 1, 2, 0]);
    }
}
