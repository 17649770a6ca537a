//! Where the logbook, the settings and the user's own reference files are, and how they are opened.

use std::path::{Path, PathBuf};

use etcetera::BaseStrategy;

use super::answer::Answer;
use super::trouble::Trouble;
use crate::figures::{Kit, NoKit};
use crate::logbook::OwnKit;
use crate::reference::Reference;
use crate::store::{Store, StoreError};
use crate::world::World;

/// The folder of the program below the standard ones.
const FOLDER: &str = "notchbook";

/// Where things are.
#[derive(Clone, Debug)]
pub struct Places {
    /// The logbook.
    pub logbook: PathBuf,
    /// Whether the logbook is in the standard data folder, not named by the user.
    pub usual: bool,
    /// The settings of the front end, if there is a home folder.
    pub settings: Option<PathBuf>,
    /// Where a report goes when the program itself fails.
    pub reports: PathBuf,
    /// The folder of the user's own films, processes and papers, if there is a home folder.
    pub own: Option<PathBuf>,
}

impl Places {
    /// Finds the places; `named` is the logbook the user named.
    pub(super) fn find(named: Option<&PathBuf>) -> Result<Places, Trouble> {
        let standard = etcetera::choose_base_strategy().ok();
        let config = standard.as_ref().map(|base| base.config_dir().join(FOLDER));
        let data = standard.as_ref().map(|base| base.data_dir().join(FOLDER));
        let reports = data
            .as_ref()
            .map_or_else(std::env::temp_dir, |folder| folder.join("reports"));
        let named = named.filter(|path| !path.as_os_str().is_empty());
        let logbook = named
            .cloned()
            .or_else(|| data.map(|folder| folder.join("logbook.notchbook")))
            .ok_or_else(|| {
                Trouble::Other(
                    "the home folder is not known: name the logbook with --logbook FILE or in NOTCHBOOK_LOGBOOK"
                        .to_owned(),
                )
            })?;
        Ok(Places {
            logbook,
            usual: named.is_none(),
            reports,
            settings: config.as_ref().map(|folder| folder.join("settings.toml")),
            own: config.map(|folder| folder.join("reference")),
        })
    }

    /// The reference with the user's own additions, and what was wrong with them.
    pub(super) fn reference(&self) -> (Reference, Vec<String>) {
        let built_in = Reference::on_demand();
        let (reference, problems) = match &self.own {
            Some(folder) => built_in.with_folder(folder),
            None => (built_in, Vec::new()),
        };
        let left_out = problems
            .iter()
            .map(|problem| format!("left out: {problem}"));
        (reference, left_out.collect())
    }

    /// Whether there is something at the path of the logbook.
    pub(super) fn has_logbook(&self) -> bool {
        self.logbook.symlink_metadata().is_ok()
    }

    fn none(&self) -> Trouble {
        Trouble::NoLogbook {
            path: self.logbook.clone(),
            usual: self.usual,
        }
    }
}

/// What every command has at hand.
pub(super) struct Desk<'a> {
    /// Where things are.
    pub(super) places: Places,
    /// Whether nothing may be written.
    pub(super) read_only: bool,
    /// The clock and new ids.
    pub(super) world: &'a mut dyn World,
}

/// An open logbook with what is needed to read and write it.
pub(super) struct Open<'a> {
    /// The logbook.
    pub(super) store: &'a mut Store,
    /// What the trade has published.
    pub(super) reference: &'a Reference,
    /// The clock and new ids.
    pub(super) world: &'a mut dyn World,
}

impl Desk<'_> {
    /// Opens the logbook, does the work, and closes it.
    pub(super) fn with_logbook(
        &mut self,
        work: impl FnOnce(Open<'_>) -> Result<Answer, Trouble>,
    ) -> Result<Answer, Trouble> {
        let (mut reference, mut warnings) = self.places.reference();
        let mut store = self.open(&reference)?;
        store.lay_over(&mut reference);
        if store.is_read_only() && !self.read_only {
            warnings.push(format!(
                "{} can be read but not written: it is open read-only",
                self.places.logbook.display()
            ));
        }
        let answer = work(Open {
            store: &mut store,
            reference: &reference,
            world: self.world,
        })?;
        // What was saved is safe; only the tidying is left to a later run.
        if let Err(error) = store.close() {
            warnings.push(format!("the logbook was not closed tidily: {error}"));
        }
        Ok(answer.preceded("warnings", warnings))
    }

    /// Lets `work` reckon with what the user owns and has measured, own films and formats laid over the
    /// reference. Without a logbook in the usual place
    /// that is nothing, and so it is, with a warning, where that one cannot be opened; a logbook that was
    /// named has to be there and to open.
    pub(super) fn with_records<T>(
        &mut self,
        mut reference: Reference,
        warnings: &mut Vec<String>,
        work: impl FnOnce(&Reference, &dyn Kit) -> Result<T, Trouble>,
    ) -> Result<T, Trouble> {
        if self.places.usual && !self.places.has_logbook() {
            return work(&reference, &NoKit);
        }
        let store = match self.open(&reference) {
            Ok(store) => store,
            Err(trouble) if self.places.usual => {
                warnings.push(format!(
                    "your own lenses and measurements are left out: {}",
                    trouble.words()
                ));
                return work(&reference, &NoKit);
            }
            Err(trouble) => return Err(trouble),
        };
        store.lay_over(&mut reference);
        let answer = work(&reference, &OwnKit::new(&store));
        // Nothing was written; what is left to tidy up is left to a later run.
        let _ = store.close();
        answer
    }

    /// Opens the logbook, with all that this version makes of it.
    pub(super) fn open(&mut self, reference: &Reference) -> Result<Store, Trouble> {
        if !self.places.has_logbook() {
            return Err(self.places.none());
        }
        let path: &Path = &self.places.logbook;
        let opened: Result<Store, StoreError> = if self.read_only {
            Store::open_read_only(path)
        } else {
            Store::open(path, self.world)
        };
        let mut store = opened?;
        store.make_what_is_missing(reference)?;
        Ok(store)
    }
}
