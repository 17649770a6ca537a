//! Developing film: how long at which temperature, more and less contrast, and the gradient a print
//! wants of its negative.
//!
//! For: the figures that stand beside the tank. Promises: a time comes from a table of cells that were
//! told, or says that it is an estimate; a rule without a source is marked as common practice. Which
//! table is told of which film and developer is for the reference; solutions and what the densities of
//! a test say are other matters.
//!
//! - [`temperature`]: time against temperature, from a table or by the general law.
//! - [`asked`]: what is asked of a development, as it is written.
//! - [`agitation`]: what agitation all the time takes off a time.
//! - [`rhythm`]: when film is moved, and the next cue.
//! - [`drift`]: what is left when the developer became warmer or cooler on the way.
//! - [`contrast`]: times and exposure for N-2 to N+2, and where to begin a test.
//! - [`vessel`]: what sheets are developed in.
//! - [`gradient`]: the gradient for a range of subject and a way of printing.

pub mod agitation;
pub mod asked;
pub mod contrast;
pub mod drift;
pub mod gradient;
pub mod rhythm;
pub mod temperature;
pub mod vessel;
