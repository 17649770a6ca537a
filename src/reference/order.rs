//! Which step may follow which.
//!
//! The rules are those of the process file, read over the steps done so far in the order in which
//! they were done. Three relations carry everything: `after` (must have been done), `not_after`
//! (too late once that was done) and `reopens` (doing this means doing that again: a second coat has
//! to dry again, a toned print has to be washed again). A step that was reopened counts as not done,
//! although it was; a step that makes another too late does so for good. The caller keeps the list
//! and decides what an override may pass; ids that the process does not know are passed over,
//! because a print may be older than the user's newest version of a process.

use thiserror::Error;

use super::process::{Need, Process, Step};

/// Why a step cannot follow what was done.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum StepProblem {
    /// The process has no such step.
    #[error("no step {step:?} in {process}: its steps are {known}")]
    Unknown {
        /// Name of the process.
        process: String,
        /// What was asked for.
        step: String,
        /// The steps it has, with commas.
        known: String,
    },
    /// A step that comes before is missing.
    #[error("{step:?} comes after {needs:?}, which is not done yet: {}", first_step(.needs, .first))]
    Missing {
        /// Id of the step asked for.
        step: String,
        /// Id of the missing step that it follows directly.
        needs: String,
        /// Id of the earliest step that is missing on the way there; log this one first.
        first: String,
    },
    /// It is too late for the step.
    #[error(
        "{step:?} is too late once {by:?} is done: if {by:?} was logged by mistake, strike it first"
    )]
    Forbidden {
        /// Id of the step asked for.
        step: String,
        /// Id of the step that was done and forbids it.
        by: String,
    },
    /// The step is done once only, and was done.
    #[error("{step:?} is done already and is done once only: amend that entry, or strike it")]
    Repeated {
        /// Id of the step asked for.
        step: String,
    },
}

fn first_step(needs: &str, first: &str) -> String {
    if needs == first {
        format!("log {first:?} first")
    } else {
        format!("log {first:?} first, then on from there")
    }
}

impl Process {
    /// Whether `step` may follow the steps in `done`, which are ids in the order of doing.
    ///
    /// # Errors
    ///
    /// A [`StepProblem`] that says which step is missing, which one forbids it, that it was done
    /// already, or that the process has no such step.
    pub fn may_follow<S: AsRef<str>>(&self, done: &[S], step: &str) -> Result<(), StepProblem> {
        let Some(asked) = self.step(step) else {
            let known: Vec<&str> = self.steps.iter().map(|step| step.id.as_str()).collect();
            return Err(StepProblem::Unknown {
                process: self.name.clone(),
                step: step.to_owned(),
                known: known.join(", "),
            });
        };
        let standing = self.standing(done);
        let too_late = done
            .iter()
            .find(|was| asked.not_after.iter().any(|id| id == was.as_ref()));
        if let Some(by) = too_late {
            return Err(StepProblem::Forbidden {
                step: asked.id.clone(),
                by: by.as_ref().to_owned(),
            });
        }
        if !asked.repeat && standing.contains(&asked.id.as_str()) {
            return Err(StepProblem::Repeated {
                step: asked.id.clone(),
            });
        }
        let needs = asked
            .after
            .iter()
            .find(|id| !standing.contains(&id.as_str()));
        if let Some(needs) = needs {
            return Err(StepProblem::Missing {
                step: asked.id.clone(),
                needs: needs.clone(),
                first: self.earliest_missing(&standing, needs).to_owned(),
            });
        }
        Ok(())
    }

    /// The steps that may follow `done`: the required step whose turn it is first, then the
    /// optional ones and further required ones in the order of work, then those that may be done
    /// again.
    pub fn next<S: AsRef<str>>(&self, done: &[S]) -> Vec<&Step> {
        let standing = self.standing(done);
        let turn = self.outstanding(done).first().map(|step| step.id.as_str());
        let mut allowed: Vec<&Step> = self
            .steps
            .iter()
            .filter(|step| self.may_follow(done, &step.id).is_ok())
            .collect();
        // The sort is stable: within a rank the order of work remains.
        allowed.sort_by_key(|step| {
            if Some(step.id.as_str()) == turn {
                0
            } else if standing.contains(&step.id.as_str()) {
                2
            } else {
                1
            }
        });
        allowed
    }

    /// The required steps that are not done, or have to be done again, in the order of work.
    pub fn outstanding<S: AsRef<str>>(&self, done: &[S]) -> Vec<&Step> {
        let standing = self.standing(done);
        self.steps
            .iter()
            .filter(|step| step.need == Need::Required && !standing.contains(&step.id.as_str()))
            .collect()
    }

    /// Whether the print is finished as a dry print: no required step is outstanding.
    pub fn is_complete<S: AsRef<str>>(&self, done: &[S]) -> bool {
        self.outstanding(done).is_empty()
    }

    /// Ids of the steps that count as done: done, and not reopened since.
    fn standing<S: AsRef<str>>(&self, done: &[S]) -> Vec<&str> {
        let mut standing: Vec<&str> = Vec::new();
        for id in done {
            let Some(step) = self.step(id.as_ref()) else {
                continue;
            };
            standing.retain(|was| !step.reopens.iter().any(|reopened| reopened == was));
            if !standing.contains(&step.id.as_str()) {
                standing.push(&step.id);
            }
        }
        standing
    }

    /// The earliest step in the order of work that is missing on the way to `step`, itself
    /// included.
    fn earliest_missing<'a>(&'a self, standing: &[&str], step: &'a str) -> &'a str {
        let mut earliest = step;
        // Each `after` names a step further up (checked on reading), so one walk upwards suffices.
        let mut wanted = vec![step];
        for step in self.steps.iter().rev() {
            let id = step.id.as_str();
            if !wanted.contains(&id) || standing.contains(&id) {
                continue;
            }
            earliest = id;
            wanted.extend(step.after.iter().map(String::as_str));
        }
        earliest
    }
}
