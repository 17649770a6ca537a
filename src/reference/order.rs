//! Which step may follow which.
//!
//! The rules are those of the process file, read over the steps done so far in the order in which
//! they were done. Three relations carry everything: `after` (must have been done), `not_after`
//! (too late once that was done) and `reopens` (doing this means doing that again: a second coat has
//! to dry again, a toned print has to be washed again). A step that was reopened counts as not done,
//! although it was, and makes nothing too late any more: so a further layer, which reopens exposing
//! and developing, can be exposed. The caller keeps the list
//! and decides what an override may pass. A required step that was passed over by an override, so
//! that a step behind it is done, is not outstanding any more: otherwise such a print could never be
//! finished. Ids that the process does not know count for nothing, because a print may be older than
//! the user's newest version of a process.

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
        let progress = self.progress(done);
        let too_late = progress
            .done
            .iter()
            .find(|(was, _)| asked.not_after.iter().any(|id| id == was));
        if let Some((by, _)) = too_late {
            return Err(StepProblem::Forbidden {
                step: asked.id.clone(),
                by: (*by).to_owned(),
            });
        }
        if !asked.repeat && progress.is_done(&asked.id) {
            return Err(StepProblem::Repeated {
                step: asked.id.clone(),
            });
        }
        if let Some(needs) = asked.after.iter().find(|id| !progress.is_done(id)) {
            return Err(StepProblem::Missing {
                step: asked.id.clone(),
                needs: needs.clone(),
                first: self.earliest_missing(&progress, needs).to_owned(),
            });
        }
        Ok(())
    }

    /// The steps that may follow `done`: the required step whose turn it is first, then the
    /// optional ones and further required ones in the order of work, then those that may be done
    /// again.
    pub fn next<S: AsRef<str>>(&self, done: &[S]) -> Vec<&Step> {
        let progress = self.progress(done);
        let may = |step: &&Step| self.may_follow(done, &step.id).is_ok();
        let turn = self.outstanding(done).into_iter().find(may);
        let mut allowed: Vec<&Step> = self.steps.iter().filter(may).collect();
        // The sort is stable: within a rank the order of work remains.
        allowed.sort_by_key(|step| {
            if turn.is_some_and(|turn| turn.id == step.id) {
                0
            } else if progress.is_done(&step.id) {
                2
            } else {
                1
            }
        });
        allowed
    }

    /// The required steps that are still to do, or to do again, in the order of work.
    pub fn outstanding<S: AsRef<str>>(&self, done: &[S]) -> Vec<&Step> {
        let progress = self.progress(done);
        let passed_over = self.passed_over(&progress);
        self.steps
            .iter()
            .filter(|step| step.need == Need::Required)
            .filter(|step| !progress.is_done(&step.id) && !passed_over.contains(&step.id.as_str()))
            .collect()
    }

    /// Whether the print is finished as a dry print: no required step is outstanding.
    pub fn is_complete<S: AsRef<str>>(&self, done: &[S]) -> bool {
        self.outstanding(done).is_empty()
    }

    /// What counts as done after `done`.
    fn progress<S: AsRef<str>>(&self, done: &[S]) -> Progress<'_> {
        let mut progress = Progress::default();
        for (when, id) in done.iter().enumerate() {
            let Some(step) = self.step(id.as_ref()) else {
                continue;
            };
            for reopened in &step.reopens {
                progress.done.retain(|(was, _)| was != reopened);
                progress.reopened.push((reopened, when));
            }
            progress.done.retain(|(was, _)| *was != step.id);
            progress.done.push((&step.id, when));
        }
        progress
    }

    /// Ids of the steps that are not done although a step behind them was done since they were last
    /// to do.
    fn passed_over(&self, progress: &Progress<'_>) -> Vec<&str> {
        let mut passed_over = Vec::new();
        for (id, when) in &progress.done {
            for before in self.all_before(id) {
                if !progress.is_done(before) && !progress.was_reopened_since(before, *when) {
                    passed_over.push(before);
                }
            }
        }
        passed_over
    }

    /// Ids of all steps that come before `step`, near and far.
    fn all_before(&self, step: &str) -> Vec<&str> {
        let mut before: Vec<&str> = Vec::new();
        // Each `after` names a step further up (checked on reading), so one walk upwards suffices.
        for one in self.steps.iter().rev() {
            if one.id == step || before.contains(&one.id.as_str()) {
                before.extend(one.after.iter().map(String::as_str));
            }
        }
        before
    }

    /// The earliest step in the order of work that is missing on the way to `step`, itself
    /// included.
    fn earliest_missing<'a>(&'a self, progress: &Progress<'_>, step: &'a str) -> &'a str {
        let mut earliest = step;
        let mut wanted = vec![step];
        // One walk upwards suffices here too.
        for step in self.steps.iter().rev() {
            let id = step.id.as_str();
            if !wanted.contains(&id) || progress.is_done(id) {
                continue;
            }
            earliest = id;
            wanted.extend(step.after.iter().map(String::as_str));
        }
        earliest
    }
}

/// What counts as done, and what has to be done again, each with its place in the list of steps.
#[derive(Default)]
struct Progress<'a> {
    done: Vec<(&'a str, usize)>,
    reopened: Vec<(&'a str, usize)>,
}

impl Progress<'_> {
    /// Whether the step was done, and not reopened since.
    fn is_done(&self, id: &str) -> bool {
        self.done.iter().any(|(done, _)| *done == id)
    }

    /// Whether the step was reopened after the place `when` in the list, or at it.
    fn was_reopened_since(&self, id: &str, when: usize) -> bool {
        let mut reopened = self.reopened.iter();
        reopened.any(|(step, at)| *step == id && *at >= when)
    }
}
