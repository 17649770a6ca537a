//! The life of a development run: it begins, its steps are timed, and it ends.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Steps, Story, goes, stays};
use crate::craft::development::asked::Asked;
use crate::craft::{Area, Celsius, Dilution, Seconds};
use crate::logbook::{Deed, Kind, Objection, ThingId};
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
        stays(RunState::Running, Kind::StepBegun),
        stays(RunState::Running, Kind::StepChanged),
        stays(RunState::Running, Kind::StepEnded),
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
    /// The time that was planned.
    #[serde(default)]
    pub planned: Option<Seconds>,
    /// What was asked of the development.
    #[serde(default)]
    pub contrast: Option<Asked>,
    /// The temperature at the start.
    pub temperature: Option<Celsius>,
    /// How it is agitated.
    #[serde(default)]
    pub agitation: Option<String>,
    /// The id of the sequence it follows.
    #[serde(default)]
    pub sequence: Option<String>,
    /// The area of its sheets, where all sizes are known.
    #[serde(default)]
    pub area: Option<Area>,
    /// Every bath it uses: those it began with, then those of its steps.
    #[serde(default)]
    pub baths: Vec<ThingId>,
    /// Its steps, timed.
    #[serde(default)]
    pub steps: Steps,
    /// When it ended.
    pub ended: Option<DateTime<FixedOffset>>,
}

impl Story for RunLife {
    type S = RunState;

    fn state(&self) -> RunState {
        self.state
    }

    fn rules_out(&self, kind: Kind) -> bool {
        matches!(kind, Kind::StepChanged | Kind::StepEnded) && self.steps.current().is_none()
    }

    fn guard(
        &self,
        _me: ThingId,
        happening: &Happening<'_>,
        _reference: &Reference,
    ) -> Result<(), Objection> {
        self.steps.guard(happening.deed)
    }

    fn take_in(&mut self, _me: ThingId, happening: &Happening<'_>, to: RunState, _: &Reference) {
        self.state = to;
        self.steps.take_in(happening);
        match happening.deed {
            Deed::RunBegun(begun) => {
                self.sheets = begun.sheets.iter().map(|each| each.sheet).collect();
                self.developer = begun.developer;
                self.dilution = begun.dilution;
                self.vessel.clone_from(&begun.vessel);
                self.time = begun.time;
                self.planned = begun.time;
                self.contrast.clone_from(&begun.contrast);
                self.temperature = begun.temperature;
                self.area = begun.area;
                self.agitation.clone_from(&begun.agitation);
                self.sequence.clone_from(&begun.sequence);
                self.baths = begun.baths().map(|(_, bath)| bath).collect();
            }
            Deed::StepBegun(begun) => {
                let new = begun.bath.filter(|bath| !self.baths.contains(bath));
                self.baths.extend(new);
            }
            Deed::RunEnded(ended) => {
                self.time = ended.time.or(self.time);
                self.ended = Some(happening.happened);
                self.steps.end(happening.happened, None);
            }
            _ => {}
        }
    }
}
