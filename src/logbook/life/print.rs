//! The life of a print: the steps of its process, then its finish, then where it goes.
//!
//! Which steps a process has and in what order is data; this file asks the process. When all steps
//! it requires are done, the print is dry, and the finish may begin.

use chrono::{DateTime, FixedOffset, NaiveDate};
use serde::{Deserialize, Serialize};

use super::{Happening, Row, State, Steps, Story, goes, stays};
use crate::craft::Size;
use crate::logbook::{Deed, EntryId, Kind, Objection, ThingId, Whereabouts};
use crate::reference::{Process, Reference, Step, Work};

/// The states of a print.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PrintState {
    /// Not there yet.
    #[default]
    New,
    /// On its way through its process.
    InProcess,
    /// All required steps done.
    Dry,
    /// Pressed flat.
    Pressed,
    /// Mounted.
    Mounted,
    /// Matted.
    Matted,
    /// Framed.
    Framed,
    /// Spoiled.
    Spoiled,
    /// Lost.
    Lost,
    /// Thrown away.
    Discarded,
}

use PrintState::{Discarded, Dry, Framed, InProcess, Lost, Matted, Mounted, New, Pressed, Spoiled};

impl State for PrintState {
    const NEW: Self = New;
    const TABLE: &'static [Row<Self>] = &[
        goes(New, Kind::PrintBegun, InProcess),
        stays(InProcess, Kind::PrintStep),
        // The last step the process requires.
        goes(InProcess, Kind::PrintStep, Dry),
        // Optional steps that may follow: spotting leaves it as it is; toning makes it wet again.
        stays(Dry, Kind::PrintStep),
        stays(Pressed, Kind::PrintStep),
        stays(Mounted, Kind::PrintStep),
        goes(Dry, Kind::PrintStep, InProcess),
        goes(Pressed, Kind::PrintStep, InProcess),
        // A step by the clock; that it was done is logged when it is over.
        stays(InProcess, Kind::StepBegun),
        stays(InProcess, Kind::StepChanged),
        stays(InProcess, Kind::StepEnded),
        stays(Dry, Kind::StepBegun),
        stays(Dry, Kind::StepChanged),
        stays(Dry, Kind::StepEnded),
        stays(Pressed, Kind::StepBegun),
        stays(Pressed, Kind::StepChanged),
        stays(Pressed, Kind::StepEnded),
        stays(Mounted, Kind::StepBegun),
        stays(Mounted, Kind::StepChanged),
        stays(Mounted, Kind::StepEnded),
        goes(Dry, Kind::Pressed, Pressed),
        stays(Pressed, Kind::Pressed),
        stays(Mounted, Kind::Pressed),
        goes(Dry, Kind::Mounted, Mounted),
        goes(Pressed, Kind::Mounted, Mounted),
        goes(Dry, Kind::Matted, Matted),
        goes(Pressed, Kind::Matted, Matted),
        goes(Mounted, Kind::Matted, Matted),
        stays(Matted, Kind::Matted),
        stays(Dry, Kind::Attached),
        stays(Pressed, Kind::Attached),
        stays(Matted, Kind::Attached),
        goes(Matted, Kind::Framed, Framed),
        goes(Mounted, Kind::Framed, Framed),
        goes(Framed, Kind::Unframed, Matted),
        // One that was framed as it was mounted, without a mat.
        goes(Framed, Kind::Unframed, Mounted),
        stays(Dry, Kind::Signed),
        stays(Pressed, Kind::Signed),
        stays(Mounted, Kind::Signed),
        stays(Matted, Kind::Signed),
        stays(Dry, Kind::Labelled),
        stays(Pressed, Kind::Labelled),
        stays(Mounted, Kind::Labelled),
        stays(Matted, Kind::Labelled),
        stays(Framed, Kind::Labelled),
        stays(Dry, Kind::Placed),
        stays(Pressed, Kind::Placed),
        stays(Mounted, Kind::Placed),
        stays(Matted, Kind::Placed),
        stays(Framed, Kind::Placed),
        goes(InProcess, Kind::Spoiled, Spoiled),
        goes(Dry, Kind::Spoiled, Spoiled),
        goes(Pressed, Kind::Spoiled, Spoiled),
        goes(Mounted, Kind::Spoiled, Spoiled),
        goes(Matted, Kind::Spoiled, Spoiled),
        goes(Framed, Kind::Spoiled, Spoiled),
        goes(InProcess, Kind::Lost, Lost),
        goes(Dry, Kind::Lost, Lost),
        goes(Pressed, Kind::Lost, Lost),
        goes(Mounted, Kind::Lost, Lost),
        goes(Matted, Kind::Lost, Lost),
        goes(Framed, Kind::Lost, Lost),
        goes(InProcess, Kind::Discarded, Discarded),
        goes(Dry, Kind::Discarded, Discarded),
        goes(Pressed, Kind::Discarded, Discarded),
        goes(Mounted, Kind::Discarded, Discarded),
        goes(Matted, Kind::Discarded, Discarded),
        goes(Framed, Kind::Discarded, Discarded),
        goes(Spoiled, Kind::Discarded, Discarded),
    ];
    fn word(self) -> &'static str {
        match self {
            New => "not there yet",
            InProcess => "in process",
            Dry => "dry",
            Pressed => "pressed",
            Mounted => "mounted",
            Matted => "matted",
            Framed => "framed",
            Spoiled => "spoiled",
            Lost => "lost",
            Discarded => "thrown away",
        }
    }
}

/// What may be logged of a print that is out of one's hands.
const POSSIBLE_WHEN_AWAY: &[Kind] = &[Kind::Placed, Kind::Lost, Kind::Spoiled, Kind::Noted];

/// A step of its process that was done.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StepDone {
    /// The entry that logged it.
    pub entry: EntryId,
    /// The id of the step.
    pub step: String,
    /// When.
    pub at: DateTime<FixedOffset>,
}

/// Where a print is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Placement {
    /// What became of it.
    pub whereabouts: Whereabouts,
    /// Which drawer, which wall, to whom.
    pub place: Option<String>,
    /// When it is due back.
    pub due: Option<NaiveDate>,
    /// Since when.
    pub since: DateTime<FixedOffset>,
}

/// What is known of a print.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct PrintLife {
    /// The state it is in.
    pub state: PrintState,
    /// What the picture is called.
    pub title: Option<String>,
    /// The id of its process.
    pub process: String,
    /// The negatives it is made from.
    pub negatives: Vec<ThingId>,
    /// The paper.
    pub paper: Option<ThingId>,
    /// How many sheets of it the print takes.
    pub paper_sheets: u32,
    /// The size of the sheet it is printed on.
    pub size: Option<Size>,
    /// The steps done, in order.
    pub steps: Vec<StepDone>,
    /// Its steps by the clock.
    #[serde(default)]
    pub timed: Steps,
    /// Its number in the edition, as written.
    pub number: Option<String>,
    /// Where it is.
    pub placement: Option<Placement>,
    /// What it goes back to when it is taken out of its frame.
    #[serde(default)]
    pub before_frame: Option<PrintState>,
    /// How it came to an end, if it did.
    pub end: Option<String>,
}

impl PrintLife {
    /// Whether it is out of one's hands.
    pub fn is_away(&self) -> bool {
        self.placement
            .as_ref()
            .is_some_and(|placement| placement.whereabouts.is_away())
    }

    /// The ids of the steps done, in order.
    pub fn done(&self) -> Vec<&str> {
        self.steps.iter().map(|step| step.step.as_str()).collect()
    }

    fn guard_step(&self, step: &str, reference: &Reference) -> Result<(), Objection> {
        // A process that is no longer known, because the user's own file went away, can order
        // nothing: what was done is taken as it is written.
        let Some(process) = reference.process(&self.process) else {
            return Ok(());
        };
        process.may_follow(&self.done(), step)?;
        match process.step(step) {
            Some(step) if !self.bears(step) => Err(Objection::NotNext),
            _ => Ok(()),
        }
    }

    /// Whether a step can be done to it as it is: a mounted print is spotted, but goes into no bath
    /// any more.
    fn bears(&self, step: &Step) -> bool {
        self.state != Mounted || step.work == Work::Finish
    }

    /// The steps of its process that can come next, the one whose turn it is first.
    pub fn next_steps<'a>(&self, process: &'a Process) -> Vec<&'a Step> {
        let mut next = process.next(&self.done());
        next.retain(|step| self.bears(step));
        next
    }

    /// Where a step leads: on the way until no required step is outstanding, and back there when
    /// one is to do again. A step against the order leaves a finished print as finished as it was.
    fn after_step(&self, before: PrintState, reference: &Reference) -> PrintState {
        let complete = reference
            .process(&self.process)
            .map(|process| process.is_complete(&self.done()));
        match (before, complete) {
            (InProcess, Some(true)) => Dry,
            (Dry | Pressed, Some(false)) => InProcess,
            _ => before,
        }
    }
}

impl Story for PrintLife {
    type S = PrintState;

    fn state(&self) -> PrintState {
        self.state
    }

    fn rules_out(&self, kind: Kind) -> bool {
        let away = self.is_away() && !POSSIBLE_WHEN_AWAY.contains(&kind);
        let at_the_clock = matches!(kind, Kind::StepChanged | Kind::StepEnded);
        away || (at_the_clock && self.timed.current().is_none())
    }

    fn guard(
        &self,
        _me: ThingId,
        happening: &Happening<'_>,
        reference: &Reference,
    ) -> Result<(), Objection> {
        // What no reason can make possible comes before what one can.
        let step = match happening.deed {
            Deed::PrintStep(step) => self.guard_step(&step.step, reference),
            Deed::StepBegun(begun) => self.guard_step(&begun.step, reference),
            Deed::Placed(placed)
                if placed.whereabouts == Whereabouts::Returned && !self.is_away() =>
            {
                Err(Objection::NotAway)
            }
            deed => self.timed.guard(deed),
        };
        match (&self.placement, step) {
            (_, Err(never)) if !never.can_be_overridden() => Err(never),
            (Some(placement), _)
                if placement.whereabouts.is_away()
                    && !POSSIBLE_WHEN_AWAY.contains(&happening.deed.kind()) =>
            {
                Err(Objection::Away {
                    whereabouts: placement.whereabouts,
                    place: placement.place.clone(),
                })
            }
            (_, step) => step,
        }
    }

    fn take_in(
        &mut self,
        _me: ThingId,
        happening: &Happening<'_>,
        to: PrintState,
        reference: &Reference,
    ) {
        let before = self.state;
        self.state = to;
        self.timed.take_in(happening);
        match happening.deed {
            Deed::PrintBegun(begun) => {
                self.title.clone_from(&begun.title);
                self.process.clone_from(&begun.process);
                self.negatives.clone_from(&begun.negatives);
                self.paper = begun.paper;
                self.size = begun.size;
                self.paper_sheets = begun.paper_sheets;
            }
            Deed::PrintStep(step) => {
                self.steps.push(StepDone {
                    entry: happening.entry,
                    step: step.step.clone(),
                    at: happening.happened,
                });
                self.state = self.after_step(before, reference);
                // Who logs the step that is counted has ended it.
                if self.timed.current().is_some_and(|it| it.step == step.step) {
                    self.timed.end(happening.happened, step.time);
                }
            }
            Deed::Framed(_) if matches!(before, Dry | Pressed | Mounted | Matted) => {
                self.before_frame = Some(before);
            }
            // Against the order, a print that is in no frame stays what it is.
            Deed::Unframed(_) if before != Framed => self.state = before,
            Deed::Unframed(_) => self.state = self.before_frame.unwrap_or(to),
            Deed::Signed(signed) if signed.number.is_some() => {
                self.number.clone_from(&signed.number);
            }
            Deed::Placed(placed) => {
                self.placement = Some(Placement {
                    whereabouts: placed.whereabouts,
                    place: placed.place.clone(),
                    due: placed.due,
                    since: happening.happened,
                });
            }
            Deed::Spoiled(spoiled) => self.end = Some(spoiled.reason.clone()),
            Deed::Lost(lost) => self.end = Some(lost.reason.clone()),
            Deed::Discarded(discarded) => self.end = Some(discarded.reason.clone()),
            _ => {}
        }
        if !matches!(self.state, InProcess | Dry | Pressed | Mounted) {
            self.timed.end(happening.happened, None);
        }
        if self.state != Framed {
            self.before_frame = None;
        }
        if !matches!(self.state, Spoiled | Lost | Discarded) {
            self.end = None;
        }
    }
}
