//! The terminal: taken over, drawn to, and given back on every way out.
//!
//! For: [`Console::enter`] takes the terminal over; dropping it, [`restore`], a panic and a signal
//! give it back. It is the [`Stage`] on which the loop runs.
//!
//! Promises: after any of these ways out the terminal reads lines again, shows its cursor and its
//! former content, and reports neither mouse nor paste. Taking over and clearing happen in the
//! theme's colours, so that a dark room stays dark. A terminal that went away ends the loop within
//! a second, even when nobody tells.

use std::io::{self, IsTerminal, Stdout, Write, stdout};
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use crossterm::clipboard::CopyToClipboard;
use crossterm::cursor::{Hide, Show};
use crossterm::event::{
    DisableBracketedPaste, DisableMouseCapture, EnableBracketedPaste, EnableMouseCapture, poll,
    read,
};
use crossterm::style::{Attribute, ResetColor, SetAttribute, SetColors, force_color_output};
use crossterm::terminal::{
    Clear, ClearType, EndSynchronizedUpdate, EnterAlternateScreen, LeaveAlternateScreen,
    disable_raw_mode, enable_raw_mode,
};
use crossterm::{execute, queue};
use ratatui::Terminal;

use super::backend::{FrameBackend, colors};
use super::event::{Ended, Input, Paint, Stage};
use super::signals::{Asked, Signals};
use super::theme::Theme;

/// Whether the terminal is ours at the moment.
static OURS: AtomicBool = AtomicBool::new(false);

fn is_ours() -> bool {
    OURS.load(Ordering::SeqCst)
}

/// The terminal while the program has it.
#[derive(Debug)]
pub struct Console {
    terminal: Terminal<FrameBackend<Stdout>>,
    signals: Signals,
    theme: Theme,
    mouse: bool,
}

impl Console {
    /// Takes the terminal over.
    ///
    /// # Errors
    /// When input or output is not a terminal, or it cannot be set up; it is given back then.
    pub fn enter(theme: Theme, mouse: bool) -> io::Result<Self> {
        if !stdout().is_terminal() {
            return Err(io::Error::other(
                "the front end needs a terminal to draw on; the commands work without one",
            ));
        }
        let signals = Signals::take(|| {
            restore();
        })?;
        let backend = FrameBackend::new(stdout(), theme.ground(), is_ours);
        take_over(&theme, mouse).inspect_err(|_| {
            restore();
        })?;
        let terminal = Terminal::new(backend).inspect_err(|_| {
            restore();
        })?;
        Ok(Self {
            terminal,
            signals,
            theme,
            mouse,
        })
    }

    fn take_over_again(&mut self) -> io::Result<()> {
        take_over(&self.theme, self.mouse)?;
        self.terminal.clear()
    }
}

impl Stage for Console {
    fn draw(&mut self, paint: &mut Paint<'_>) -> io::Result<()> {
        self.terminal.backend_mut().begin_frame()?;
        let theme = self.theme;
        let drawn = self.terminal.draw(|frame| {
            let area = frame.area();
            theme.paint_ground(area, frame.buffer_mut());
            let cursor = paint(area, frame.buffer_mut());
            theme.seal(frame.buffer_mut());
            if let Some(cursor) = cursor.filter(|at| theme.shows_cursor() && area.contains(*at)) {
                frame.set_cursor_position(cursor);
            }
        });
        match drawn {
            Ok(_) => Ok(()),
            Err(error) => {
                self.terminal.backend_mut().drop_frame();
                Err(error)
            }
        }
    }

    fn wait(&mut self, at_most: Duration) -> io::Result<Input> {
        let ready = poll(at_most);
        match self.signals.next() {
            Some(Asked::End(signal)) => return Ok(Input::Ended(Ended::Signal(signal))),
            Some(Asked::Pause) => {
                self.suspend()?;
                return Ok(Input::Resumed);
            }
            Some(Asked::Resumed) => {
                self.take_over_again()?;
                return Ok(Input::Resumed);
            }
            None => {}
        }
        match ready {
            Ok(true) => read().map(Input::Event),
            Ok(false) => Ok(Input::Nothing),
            Err(error) => Err(error),
        }
    }

    fn now(&self) -> Instant {
        Instant::now()
    }

    fn ring(&mut self) -> io::Result<()> {
        let mut out = stdout();
        out.write_all(b"\x07")?;
        out.flush()
    }

    fn copy(&mut self, text: &str) -> io::Result<()> {
        execute!(stdout(), CopyToClipboard::to_clipboard_from(text))
    }

    fn set_theme(&mut self, theme: Theme) -> io::Result<()> {
        self.theme = theme;
        force_color_output(theme.is_coloured());
        self.terminal.backend_mut().set_ground(theme.ground());
        self.terminal.clear()
    }

    fn size(&self) -> io::Result<(u16, u16)> {
        let size = self.terminal.size()?;
        Ok((size.width, size.height))
    }

    /// A terminal that went away is none any more.
    fn is_gone(&self) -> bool {
        !stdout().is_terminal()
    }

    fn suspend(&mut self) -> io::Result<()> {
        restore();
        Signals::pause()?;
        self.take_over_again()
    }
}

impl Drop for Console {
    fn drop(&mut self) {
        restore();
    }
}

fn take_over(theme: &Theme, mouse: bool) -> io::Result<()> {
    // Without colour crossterm would write a reset in place of each colour and lose bold and
    // reverse; the plain theme sends no colour at all, and safelight sends its red in any case.
    force_color_output(theme.is_coloured());
    enable_raw_mode()?;
    OURS.store(true, Ordering::SeqCst);
    let mut out = stdout();
    queue!(out, Hide)?;
    if let Some(ground) = theme.ground() {
        queue!(out, SetColors(colors(ground)))?;
    }
    queue!(
        out,
        EnterAlternateScreen,
        Clear(ClearType::All),
        EnableBracketedPaste
    )?;
    if mouse {
        queue!(out, EnableMouseCapture)?;
    }
    out.flush()
}

/// Gives the terminal back. Does nothing if it is not ours; returns whether it was.
///
/// Failures are passed over: this is called on the way out, where a terminal that cannot be
/// written to is none any more.
pub fn restore() -> bool {
    if !OURS.swap(false, Ordering::SeqCst) {
        return false;
    }
    let _ = execute!(
        stdout(),
        EndSynchronizedUpdate,
        DisableMouseCapture,
        DisableBracketedPaste,
        LeaveAlternateScreen,
        SetAttribute(Attribute::Reset),
        ResetColor,
        Show
    );
    let _ = disable_raw_mode();
    true
}
