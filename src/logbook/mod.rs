//! The domain: what can happen to a sheet, a holder, a bath, a print, and in which order.
//!
//! Read it in this order: [`thing`] (what is followed), [`deed`] (what can happen), [`entry`] (one
//! line of the logbook), [`life`] (one table of states for each kind of thing), [`history`] (strikes
//! and amendments taken into account), [`mod@propose`] (the one way in), [`refusal`] (the "no", in
//! sentences). [`fields`] says what each deed asks for, and [`draft`] reads what was typed into a
//! deed; the panes and the command line are both built from these two. [`amending`] makes a deed anew
//! for an amendment, [`mod@cautions`] says what is to be shown before the work, [`counting`] what the
//! clock of a step shows, [`kit`] hands figures the user's own records, [`reckoning`] and [`developing`]
//! reckon an exposure and a run from what they know, [`planning`] plans the runs of an evening.
//!
//! It knows no clock, no database, no terminal and no file: times and ids come in as arguments.

pub mod amending;
pub mod cautions;
mod complete;
pub mod counting;
pub mod deed;
pub mod developing;
pub mod draft;
pub mod entry;
pub mod fields;
pub mod follows;
pub mod history;
pub mod kit;
pub mod life;
pub mod objection;
pub mod planning;
pub mod propose;
pub mod reckoning;
pub mod refusal;
pub mod sense;
pub mod strips;
pub mod telling;
pub mod thing;

pub use amending::amended;
pub use cautions::cautions;
pub use deed::*;
pub use draft::{Draft, FieldProblem, Names};
pub use entry::{Entry, OrderKey};
pub use fields::{Field, FieldKind, Need};
pub use history::{Misfit, Remark, Settled, follow, settle};
pub use kit::OwnKit;
pub use life::{Life, Particulars};
pub use objection::Objection;
pub use propose::{Records, Stop, Verdict, propose};
pub use refusal::Refusal;
pub use thing::{ActId, EntryId, MachineId, Thing, ThingId, ThingKind, tidy_reference};

#[cfg(test)]
mod tests;
