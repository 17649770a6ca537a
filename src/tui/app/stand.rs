//! A front end on a logbook in a temporary folder, with a clock that stands still, for tests.

use std::cell::RefCell;
use std::rc::Rc;
use std::sync::OnceLock;
use std::time::Duration;

use chrono::{DateTime, FixedOffset};
use crossterm::event::{KeyEvent, KeyModifiers, MouseButton, MouseEvent, MouseEventKind};
use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::{Position, Rect};
use ratatui::style::Modifier;
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
use crate::tui::theme::{Depth, Role, Theme, ThemeName};
use crate::tui::widgets::form::Form;
use crate::world::{Scripted, World};

/// The front end and its folder.
pub(crate) struct Stand {
    pub(crate) app: App,
    folder: TempDir,
    size: (u16, u16),
    pub(crate) quit: bool,
    /// How often the bell rang.
    pub(crate) rings: usize,
    pub(crate) world: Rc<RefCell<Scripted>>,
}

/// A scripted world that the test can move while the front end has it.
struct Moved(Rc<RefCell<Scripted>>);

impl World for Moved {
    fn now(&self) -> DateTime<FixedOffset> {
        self.0.borrow().now()
    }

    fn steady(&self) -> Duration {
        self.0.borrow().steady()
    }

    fn counts_sleep(&self) -> bool {
        self.0.borrow().counts_sleep()
    }

    fn fresh_id(&mut self) -> uuid::Uuid {
        self.0.borrow_mut().fresh_id()
    }
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
        let world = Rc::new(RefCell::new(world));
        let bench = Bench::new(
            store,
            Reference::built_in().expect("the built-in reference"),
            Box::new(Moved(Rc::clone(&world))),
        );
        let app = App::new(bench, Look::plain(), &[], Vec::new()).expect("a front end");
        let mut stand = Stand {
            app,
            folder,
            size: (80, 24),
            quit: false,
            rings: 0,
            world,
        };
        stand.resize(80, 24);
        stand
    }

    /// A front end on the demo logbook, as it stands at [`NOW`].
    pub(crate) fn demo() -> Stand {
        let (folder, path) = Stand::demo_file();
        let mut world = Scripted::new(DateTime::parse_from_rfc3339(NOW).expect("a time"));
        let store = Store::open(&path, &mut world).expect("the demo opens");
        Stand::over(store, world, folder)
    }

    /// The same, on a logbook that may only be read.
    pub(crate) fn demo_read_only() -> Stand {
        let (folder, path) = Stand::demo_file();
        let world = Scripted::new(DateTime::parse_from_rfc3339(NOW).expect("a time"));
        let store = Store::open_read_only(&path).expect("the demo opens");
        Stand::over(store, world, folder)
    }

    fn demo_file() -> (TempDir, std::path::PathBuf) {
        static BUILT: OnceLock<Vec<u8>> = OnceLock::new();
        let now = DateTime::parse_from_rfc3339(NOW).expect("a time");
        let bytes = BUILT.get_or_init(|| {
            let folder = TempDir::new().expect("a folder");
            let path = folder.path().join("demo.notchbook");
            let reference = Reference::built_in().expect("the built-in reference");
            let store = crate::demo::build(&path, now, &reference).expect("the demo");
            store.close().expect("it closes");
            std::fs::read(&path).expect("the demo's file")
        });
        let folder = TempDir::new().expect("a folder");
        let path = folder.path().join("demo.notchbook");
        std::fs::write(&path, bytes).expect("a copy of the demo");
        (folder, path)
    }

    /// The same front end in another theme.
    pub(crate) fn in_theme(mut self, name: ThemeName) -> Stand {
        self.app.look.theme = Theme::new(name, Depth::Many);
        self
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

    /// Lets time pass, with the ticks the front end asks for; returns how often it drew.
    pub(crate) fn pass(&mut self, seconds: f64) -> usize {
        let steady = |stand: &Stand| stand.world.borrow().steady();
        let until = steady(self) + Duration::from_secs_f64(seconds);
        self.app.take_changed();
        let mut drawn = 0;
        while let Some(wait) = self.app.until_tick() {
            if steady(self) + wait > until {
                break;
            }
            self.world.borrow_mut().wait(wait);
            self.answer(Event::Tick);
            drawn += usize::from(self.app.take_changed());
        }
        let rest = until - steady(self);
        self.world.borrow_mut().wait(rest);
        drawn
    }

    fn answer(&mut self, event: Event<()>) {
        let effects = self.app.handle(event);
        self.quit |= effects.contains(&Effect::Quit);
        let rings = effects.iter().filter(|effect| **effect == Effect::Bell);
        self.rings += rings.count();
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

    /// Goes from field to field until the one with this label has the focus, and types into it. Returns
    /// how many keys that took.
    #[track_caller]
    pub(crate) fn fill(&mut self, label: &str, text: &str) -> usize {
        let moves = self.go_to(label);
        self.type_text(text);
        moves + text.chars().count()
    }

    /// Goes from field to field until the one with this label has the focus, or the first one whose
    /// label begins so. The front end is asked what has the focus, and not the screen, which may be too
    /// small to show it. Returns how many keys that took.
    #[track_caller]
    pub(crate) fn go_to(&mut self, label: &str) -> usize {
        let fields = self.form().map(Form::fields).unwrap_or_default();
        let exact = fields.iter().find(|field| field.label == label);
        let wanted = exact.or_else(|| fields.iter().find(|field| field.label.starts_with(label)));
        let Some(wanted) = wanted.map(|field| field.key.clone()) else {
            let labels: Vec<&str> = fields.iter().map(|field| field.label.as_str()).collect();
            panic!("no field {label:?} among {labels:?} on\n{}", self.text());
        };
        for moves in 0..=fields.len() {
            let focused = self.form().and_then(Form::focused);
            if focused.is_some_and(|field| field.key == wanted) {
                return moves;
            }
            self.press("tab");
        }
        panic!("tab does not lead to {label:?} on\n{}", self.text());
    }

    /// The fields of what is open over the screen.
    fn form(&self) -> Option<&Form> {
        self.app.overlays.last()?.form()
    }

    pub(crate) fn paste(&mut self, text: &str) {
        self.app.handle(Event::Paste(text.to_owned()));
    }

    /// Clicks on a cell.
    pub(crate) fn click(&mut self, column: u16, row: u16) {
        self.mouse(MouseEventKind::Down(MouseButton::Left), column, row);
    }

    /// Clicks on the first place where the screen says so.
    #[track_caller]
    pub(crate) fn click_on(&mut self, wanted: &str) {
        let text = self.text();
        let found = text.lines().enumerate().find_map(|(row, line)| {
            let at = line.find(wanted)?;
            let column = crate::export::shown::width(line.get(..at)?);
            Some((u16::try_from(column).ok()?, u16::try_from(row).ok()?))
        });
        let Some((column, row)) = found else {
            panic!("no {wanted:?} to click on in\n{text}");
        };
        self.click(column, row);
    }

    /// Turns the wheel over a cell, by one notch.
    pub(crate) fn wheel(&mut self, column: u16, row: u16, up: bool) {
        let kind = if up {
            MouseEventKind::ScrollUp
        } else {
            MouseEventKind::ScrollDown
        };
        self.mouse(kind, column, row);
    }

    fn mouse(&mut self, kind: MouseEventKind, column: u16, row: u16) {
        self.answer(Event::Mouse(MouseEvent {
            kind,
            column,
            row,
            modifiers: KeyModifiers::NONE,
        }));
    }

    fn key(&mut self, key: KeyEvent) {
        self.answer(Event::Key(key));
    }

    pub(crate) fn buffer(&self) -> Buffer {
        let area = Rect::new(0, 0, self.size.0, self.size.1);
        let mut buffer = Buffer::empty(area);
        self.app.render(area, &mut buffer);
        buffer
    }

    /// The picture as it is sent to the terminal, and where the cursor is shown.
    pub(crate) fn picture(&self) -> (Buffer, Option<Position>) {
        let area = Rect::new(0, 0, self.size.0, self.size.1);
        let mut buffer = Buffer::empty(area);
        let cursor = self.app.render(area, &mut buffer);
        let theme = self.app.look.theme;
        theme.seal(&mut buffer);
        (buffer, cursor.filter(|_| theme.shows_cursor()))
    }

    /// A letter for the looks of each cell: the first role that looks like that in this theme, a dot
    /// for what steps back, nothing for ordinary text.
    pub(crate) fn styles(&self) -> String {
        let (buffer, _) = self.picture();
        let theme = self.app.look.theme;
        let looks = LETTERS.map(|(role, letter)| {
            let mut sample = Buffer::empty(Rect::new(0, 0, 1, 1));
            theme.paint_ground(sample.area, &mut sample);
            sample.set_style(sample.area, theme.style(role));
            theme.seal(&mut sample);
            (sample.content[0].style(), letter)
        });
        lines_of(&buffer, |cell| {
            let style = cell.style();
            match looks.iter().find(|(looks, _)| *looks == style) {
                Some((_, letter)) => *letter,
                None if style.add_modifier.contains(Modifier::CROSSED_OUT) => 'X',
                None => '?',
            }
        })
    }

    /// What is on the screen.
    pub(crate) fn text(&self) -> String {
        lines_of(&self.buffer(), |cell| cell.symbol().to_owned())
    }

    /// Fails unless the screen says so.
    #[track_caller]
    pub(crate) fn shows(&self, wanted: &str) {
        let text = self.text();
        assert!(text.contains(wanted), "no {wanted:?} in\n{text}");
    }
}

/// Roles and their letters. Of roles that look alike in a theme the first one gives the letter.
const LETTERS: [(Role, char); 14] = [
    (Role::Text, ' '),
    (Role::Quiet, '.'),
    (Role::Rule, '-'),
    (Role::Heading, 'h'),
    (Role::Accent, 'a'),
    (Role::Key, 'k'),
    (Role::Good, 'g'),
    (Role::Warn, 'w'),
    (Role::Error, 'e'),
    (Role::Doubt, 'd'),
    (Role::Selected, 's'),
    (Role::Struck, 'x'),
    (Role::FieldFocus, 'f'),
    (Role::Field, 'u'),
];

/// The cells of a picture, line by line, without the spaces at the ends.
fn lines_of<T: std::fmt::Display>(buffer: &Buffer, each: impl Fn(&Cell) -> T) -> String {
    let mut text = String::new();
    for row in buffer.area.rows() {
        let line: String = row
            .columns()
            .filter_map(|at| buffer.cell(at.as_position()))
            .map(|cell| each(cell).to_string())
            .collect();
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}
