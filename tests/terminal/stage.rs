//! A small application on the front end's loop, to try the terminal with.
//!
//! The test program starts itself again in a pseudo-terminal, with [`ROLE`] set, and plays the
//! application there.

use std::path::PathBuf;
use std::time::Duration;

use crossterm::event::{KeyCode, MouseEventKind};
use notchbook::tui::crash;
use notchbook::tui::event::{Application, Effect, Ended, Event, run};
use notchbook::tui::ink::line_of;
use notchbook::tui::keys::Chord;
use notchbook::tui::look::Look;
use notchbook::tui::terminal::Console;
use notchbook::tui::theme::{Role, Surroundings, Theme, ThemeName};
use notchbook::tui::widgets::input::TextInput;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::session::{Session, Start};

/// The variable that makes this program play the application.
const ROLE: &str = "NOTCHBOOK_TEST_STAGE";

/// Where the application writes why it ended.
pub(crate) const LAST_WORD: &str = "last-word.txt";

/// Starts the application in a pseudo-terminal.
pub(crate) fn start() -> Start {
    let this = std::env::current_exe().expect("the test program has a path");
    Start::program(
        this,
        &[
            "stage::the_loop_runs_from_start_to_end",
            "--exact",
            "--nocapture",
        ],
    )
    .env(ROLE, "1")
}

/// Starts the application and waits for its first picture.
pub(crate) fn open() -> Session {
    let session = start().in_size(60, 16);
    session.wait_for("ready");
    session
}

struct Sampler {
    look: Look,
    typed: TextInput,
    told: String,
    ticks: u32,
    clock: bool,
    changed: bool,
}

impl Application for Sampler {
    type Effect = ();
    type Outcome = ();

    fn handle(&mut self, event: Event<()>) -> Vec<Effect<()>> {
        self.changed = true;
        match event {
            Event::Key(key) => match Chord::of(&key).to_string().as_str() {
                "ctrl-q" => return vec![Effect::Quit],
                "ctrl-p" => panic!("the sampler was told to \x1b[31mpanic"),
                "ctrl-t" => self.clock = !self.clock,
                "ctrl-b" => return vec![Effect::Suspend],
                "ctrl-y" => return vec![Effect::Copy("S-0042".into())],
                _ if key.code == KeyCode::Enter => self.told = "enter".into(),
                _ => {
                    self.typed.key(&key);
                }
            },
            Event::Paste(text) => {
                self.typed.paste(&text);
            }
            Event::Mouse(mouse) if mouse.kind == MouseEventKind::ScrollDown => {
                self.told = "wheel".into();
            }
            Event::Resize(wide, high) => self.told = format!("{wide} by {high}"),
            Event::Tick => self.ticks += 1,
            Event::Mouse(_) | Event::Outcome(()) => {}
        }
        Vec::new()
    }

    fn take_changed(&mut self) -> bool {
        std::mem::take(&mut self.changed)
    }

    fn render(&self, area: Rect, buf: &mut Buffer) -> Option<Position> {
        let head = format!("ready  ticks {}  {}", self.ticks, self.told);
        self.look.put(buf, line_of(area, 0), &head, Role::Heading);
        self.look
            .put(buf, line_of(area, 2), "selected", Role::Selected);
        self.typed
            .render(line_of(area, 1), buf, &self.look, true, "nothing typed")
    }

    fn until_tick(&self) -> Option<Duration> {
        self.clock.then_some(Duration::from_millis(20))
    }
}

/// Runs the application and ends the process.
fn play() -> ! {
    let home = PathBuf::from(std::env::var_os("HOME").expect("a home"));
    crash::watch(home.join("reports"));
    let wish = std::env::var("THEME").ok();
    let wish = wish.as_deref().and_then(ThemeName::from_word);
    let theme = Theme::choose(wish, &Surroundings::from_env());
    let mut sampler = Sampler {
        look: Look::new(theme),
        typed: TextInput::default(),
        told: String::new(),
        ticks: 0,
        clock: false,
        changed: false,
    };
    let mut console = Console::enter(theme, true).expect("a terminal");
    let ended = run(&mut sampler, &mut console, |()| Vec::new());
    drop(console);
    let word = match &ended {
        Ok(ended) => format!("{ended:?}"),
        Err(error) => format!("error: {error}"),
    };
    std::fs::write(home.join(LAST_WORD), word).expect("a last word");
    std::process::exit(match ended {
        Ok(Ended::Quit) => 0,
        Ok(Ended::Signal(signal)) => 128 + signal,
        Ok(Ended::HangUp) => 3,
        Err(_) => 4,
    });
}

#[test]
fn the_loop_runs_from_start_to_end() {
    if std::env::var_os(ROLE).is_some() {
        play();
    }
    let mut session = open();
    session.type_text("thaw");
    session.wait_for("thaw");
    session.press("ctrl-q");
    assert!(session.wait_exit().success());
}
