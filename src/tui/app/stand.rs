//! A front end on a logbook in a temporary folder, with a clock that stands still, for tests.

use std::time::Duration;

use chrono::DateTime;
use crossterm::event::KeyEvent;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use tempfile::TempDir;

use super::App;
use crate::logbook::Draft;
use crate::logbook::Kind;
use crate::reference::Reference;
use crate::store::Store;
use crate::tui::bench::Bench;
use crate::tui::event::{Application, Effect, Event};
use crate::tui::keys::Chord;
use crate::tui::look::Look;
use crate::world::Scripted;

/// The front end and its folder.
pub(crate) struct Stand {
    pub(crate) app: App,
    folder: TempDir,
    size: (u16, u16),
    pub(crate) quit: bool,
}

/// When the tests play.
pub(crate) const NOW: &str = "2026-03-04T16:02:00+01:00";

impl Stand {
    /// A front end on an empty logbook.
    pub(crate) fn empty() -> Stand {
        let folder = TempDir::new().expect("a folder");
        let now = DateTime::parse_from_rfc3339(NOW).expect("a time");
        let mut world = Scripted::new(now);
        let path = folder.path().join("winter.notchbook");
        let store = Store::create(&path, &mut world).expect("a logbook");
        Stand::over(store, world, folder)
    }

    pub(crate) fn over(store: Store, world: Scripted, folder: TempDir) -> Stand {
        let bench = Bench {
            store,
            reference: Reference::built_in().expect("the built-in reference"),
            world: Box::new(world),
        };
        let app = App::new(bench, Look::plain(), &[], Vec::new()).expect("a front end");
        let mut stand = Stand {
            app,
            folder,
            size: (80, 24),
            quit: false,
        };
        stand.resize(80, 24);
        stand
    }

    /// Closes the front end and opens it again on the same file, some time later.
    pub(crate) fn again(self, later: Duration) -> Stand {
        let now = self.app.bench.now() + later;
        let path = self.app.bench.store.path().to_owned();
        self.app.close_logbook().expect("it closes");
        let mut world = Scripted::new(now);
        let store = Store::open(&path, &mut world).expect("it opens again");
        Stand::over(store, world, self.folder)
    }

    /// Logs something without the screen.
    pub(crate) fn log(&mut self, kind: Kind, typed: &[(&str, &str)]) {
        let mut draft = Draft::new(kind);
        for (key, text) in typed {
            draft.set(key, *text);
        }
        let drafted = self.app.bench.read(&draft).expect("it can be read");
        self.app.bench.log(vec![drafted]).expect("it is taken");
        self.app.reload().expect("it reloads");
    }

    pub(crate) fn resize(&mut self, columns: u16, rows: u16) {
        self.size = (columns, rows);
        self.app.handle(Event::Resize(columns, rows));
    }

    /// Presses keys written as in the settings, separated by spaces.
    pub(crate) fn press(&mut self, keys: &str) {
        for key in keys.split(' ') {
            let chord: Chord = key.parse().unwrap_or_else(|_| panic!("no key: {key}"));
            self.key(KeyEvent::new(chord.code(), chord.mods()));
        }
    }

    /// Types text.
    pub(crate) fn type_text(&mut self, text: &str) {
        for c in text.chars() {
            let code = crossterm::event::KeyCode::Char(c);
            self.key(KeyEvent::new(code, crossterm::event::KeyModifiers::NONE));
        }
    }

    pub(crate) fn paste(&mut self, text: &str) {
        self.app.handle(Event::Paste(text.to_owned()));
    }

    fn key(&mut self, key: KeyEvent) {
        let effects = self.app.handle(Event::Key(key));
        self.quit |= effects.contains(&Effect::Quit);
    }

    pub(crate) fn buffer(&self) -> Buffer {
        let area = Rect::new(0, 0, self.size.0, self.size.1);
        let mut buffer = Buffer::empty(area);
        self.app.render(area, &mut buffer);
        buffer
    }

    /// What is on the screen.
    pub(crate) fn text(&self) -> String {
        let buffer = self.buffer();
        let mut text = String::new();
        for y in 0..self.size.1 {
            let mut line = String::new();
            for x in 0..self.size.0 {
                line.push_str(buffer[(x, y)].symbol());
            }
            text.push_str(line.trim_end());
            text.push('\n');
        }
        text
    }

    /// Fails unless the screen says so.
    #[track_caller]
    pub(crate) fn shows(&self, wanted: &str) {
        let text = self.text();
        assert!(text.contains(wanted), "no {wanted:?} in\n{text}");
    }
}
