//! What is done at the curves: marks, views, the cursor on a curve, and the picture that is written.

use std::path::PathBuf;

use ratatui::layout::Position;

use super::App;
use super::deeds::CurvesKey;
use crate::export::curves::svg;
use crate::export::{FileError, write_new_file};
use crate::logbook::{Kind, Thing};
use crate::store::StoreError;
use crate::tui::browse::Half;
use crate::tui::widgets::listing::Step;
use crate::tui::widgets::message::Notice;

/// How many names are tried before it is given up.
const NAMES: usize = 100;

impl App {
    pub(super) fn curves_key(&mut self, key: CurvesKey) -> Result<(), StoreError> {
        match key {
            CurvesKey::Read => self.open_pane(Kind::StripRead, None)?,
            CurvesKey::Mark => match self.curves.mark() {
                Some(true) => self.tell(Notice::plain(
                    "marked: its curve lies over whatever strip is chosen",
                )),
                Some(false) => self.tell(Notice::plain("no longer marked")),
                None => {}
            },
            CurvesKey::View => self.curves.next_view(),
            CurvesKey::Along(right) => self.curves.along(right),
            CurvesKey::Reading(right) => self.curves.along_readings(right),
            CurvesKey::Write => self.write_curves(),
        }
        Ok(())
    }

    /// Moves to another strip, or in the timeline of the one at hand.
    pub(super) fn step_curves(&mut self, step: Step) -> Result<(), StoreError> {
        if self.curves_half == Half::Strip {
            self.strip.step(step, &self.bench)?;
        } else if self.curves.step(step) {
            self.strip.show(self.curves.selected(), &self.bench)?;
        }
        Ok(())
    }

    /// Whether a finding is a strip that is kept; the cursor of the curves is put on it then.
    pub(super) fn is_a_strip(&mut self, thing: Thing) -> Result<bool, StoreError> {
        self.curves.reload(&self.bench)?;
        Ok(self.curves.select(thing))
    }

    pub(super) fn click_on_curves(&mut self, at: Position) -> Result<(), StoreError> {
        let body = self.parts(self.area).body;
        let before = self.curves.selected();
        if self.curves.click(body, at) {
            let was = std::mem::take(&mut self.curves_half);
            self.strip.show(self.curves.selected(), &self.bench)?;
            if was == Half::List && self.curves.selected() == before {
                self.open_next()?;
            }
        }
        Ok(())
    }

    /// Writes what is shown beside the logbook, under a name that is new, and says where.
    fn write_curves(&mut self) {
        let written = self
            .curves
            .picture()
            .and_then(|picture| svg(&picture).map_err(|why| why.to_string()))
            .and_then(|text| self.write_beside(&text));
        match written {
            Ok(path) => self.tell(Notice::good(format!("written to {}", path.display()))),
            Err(why) => self.tell(Notice::bad(why)),
        }
    }

    fn write_beside(&self, text: &str) -> Result<PathBuf, String> {
        let logbook = self.bench.store.path();
        let stem = logbook
            .file_stem()
            .map(|stem| stem.to_string_lossy().into_owned())
            .unwrap_or_default();
        let day = self.bench.now().format("%Y-%m-%d");
        let view = self.curves.view();
        for number in 1..=NAMES {
            let again = match number {
                1 => String::new(),
                number => format!("-{number}"),
            };
            let path = logbook.with_file_name(format!("{stem}-{view}-{day}{again}.svg"));
            let written = write_new_file(&path, false, |out| {
                out.write_all(text.as_bytes())
                    .map_err(|source| FileError::Write {
                        path: path.clone(),
                        source,
                    })
            });
            match written {
                Ok(()) => return Ok(path),
                Err(FileError::Exists { .. }) => {}
                Err(why) => return Err(why.to_string()),
            }
        }
        Err(format!(
            "there are {NAMES} pictures of today beside the logbook already: move some away"
        ))
    }
}
