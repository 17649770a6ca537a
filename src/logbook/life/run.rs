//! The life of a development run: it begins, and it ends.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Story, goes};
use crate::craft::{Celsius, Dilution, Seconds};
use crate::logbook::{Deed, Kind, ThingId};
use crate::reference::Reference;

/// The states of a run.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RunState {
    /// Not there yet.
    #[default]
    New,
    /// Under way.
    Running,
    /// Over.
    Ended,
}

impl State for RunState {
    const NEW: Self = RunState::New;
    const TABLE: &'static [Row<Self>] = &[
        goes(RunState::New, Kind::RunBegun, RunState::Running),
        goes(RunState::Running, Kind::RunEnded, RunState::Ended),
    ];
    fn word(self) -> &'static str {
        match self {
            RunState::New => "not there yet",
            RunState::Running => "under way",
            RunState::Ended => "ended",
        }
    }
}

/// What is known of a run.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct RunLife {
    /// The state it is in.
    pub state: RunState,
    /// The sheets in it.
    pub sheets: Vec<ThingId>,
    /// The developer.
    pub developer: Option<ThingId>,
    /// How far the developer was diluted for it, if not as mixed.
    #[serde(default)]
    pub dilution: Option<Dilution>,
    /// Tray, tank, drum, ...
    pub vessel: Option<String>,
    /// The time given, or planned while it is under way.
    pub time: Option<Seconds>,
    /// The temperature at the start.
    pub temperature: Option<Celsius>,
    /// When it ended.
    pub ended: Option<DateTime<FixedOffset>>,
}

impl Story for RunLife {
    type S = RunState;

    fn state(&self) -> RunState {
        self.state
    }

    fn take_in(&mut self, _me: ThingId, happening: &Happening<'_>, to: RunState, _: &Reference) {
        self.state = to;
        match happening.deed {
            Deed::RunBegun(begun) => {
                self.sheets = begun.sheets.iter().map(|each| each.sheet).collect();
                self.developer = begun.developer;
                self.dilution = begun.dilution;
                self.vessel.clone_from(&begun.vessel);
                self.time = begun.time;
                self.temperature = begun.temperature;
            }
            Deed::RunEnded(ended) => {
                self.time = ended.time.or(self.time);
                self.ended = Some(happening.happened);
            }
            _ => {}
        }
    }
}
