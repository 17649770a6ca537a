//! The loop: draw, wait, answer, draw again only if something changed.
//!
//! For: an [`Application`] is plain data that answers events and draws itself; a [`Stage`] is the
//! terminal, or a script in a test. [`run`] brings them together on one thread.
//!
//! Promises: pasted or held keys are answered one by one and drawn once; the release of a key is
//! not an event, its repetition is one only for moving and deleting; without a running clock
//! nothing is drawn and no tick is sent; the application knows the size of the terminal before it draws
//! the first time; every wait ends within a second, so that a terminal that
//! went away is noticed; an effect is carried out before the next event is answered.
//!
//! Leaves to others: what an effect does. `handle` itself reads and writes nothing.

use std::collections::VecDeque;
use std::io;
use std::time::{Duration, Instant};

use crossterm::event::{Event as TerminalEvent, KeyCode, KeyEvent, KeyEventKind, MouseEvent};
use crossterm::event::{KeyModifiers, MouseEventKind};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::theme::Theme;

/// Something the application answers.
#[derive(Debug, Clone, PartialEq)]
pub enum Event<O> {
    /// A key was pressed.
    Key(KeyEvent),
    /// Text was pasted; it may fill a field and nothing else.
    Paste(String),
    /// A click or a turn of the wheel.
    Mouse(MouseEvent),
    /// The terminal has this many columns and rows now.
    Resize(u16, u16),
    /// The time the application asked for has come.
    Tick,
    /// What came of an effect.
    Outcome(O),
}

/// Something the application wants done.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect<E> {
    /// Leave the loop.
    Quit,
    /// Give the terminal back to the shell until the program is called again.
    Suspend,
    /// Ring the bell.
    Bell,
    /// Put text on the clipboard by way of the terminal, which works over ssh as well.
    Copy(String),
    /// Draw in another theme from the next picture on.
    Theme(Theme),
    /// Something of the application's own: append an entry, load rows.
    Perform(E),
}

/// A program as the loop sees it.
pub trait Application {
    /// What it wants done.
    type Effect;
    /// What comes of that.
    type Outcome;

    /// Answers an event.
    fn handle(&mut self, event: Event<Self::Outcome>) -> Vec<Effect<Self::Effect>>;

    /// Whether something visible changed since the last call.
    fn take_changed(&mut self) -> bool;

    /// Draws everything and returns where the terminal's cursor belongs, if it is shown.
    fn render(&self, area: Rect, buf: &mut Buffer) -> Option<Position>;

    /// How long until a clock on the screen shows something else; nothing if none runs.
    fn until_tick(&self) -> Option<Duration>;
}

/// Why the loop ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ended {
    /// The application asked for it.
    Quit,
    /// The system asked for it, by this signal.
    Signal(i32),
    /// The terminal is gone.
    HangUp,
}

/// What came of waiting.
#[derive(Debug, Clone, PartialEq)]
pub enum Input {
    /// Nothing, the time is over.
    Nothing,
    /// Something from the terminal.
    Event(TerminalEvent),
    /// The program was stopped and goes on; the screen may hold anything.
    Resumed,
    /// The loop has to end.
    Ended(Ended),
}

/// Draws into an area of a picture and says where the cursor belongs.
pub type Paint<'p> = dyn FnMut(Rect, &mut Buffer) -> Option<Position> + 'p;

/// A terminal, or what stands for one.
pub trait Stage {
    /// Shows a picture.
    ///
    /// # Errors
    /// When the terminal cannot be written to.
    fn draw(&mut self, paint: &mut Paint<'_>) -> io::Result<()>;

    /// Waits so long for something to happen.
    ///
    /// # Errors
    /// When the terminal cannot be read from.
    fn wait(&mut self, at_most: Duration) -> io::Result<Input>;

    /// The time that passes while waiting; it never goes back.
    fn now(&self) -> Instant;

    /// Rings the bell.
    ///
    /// # Errors
    /// When the terminal cannot be written to.
    fn ring(&mut self) -> io::Result<()>;

    /// Puts text on the clipboard.
    ///
    /// # Errors
    /// When the terminal cannot be written to.
    fn copy(&mut self, text: &str) -> io::Result<()>;

    /// Columns and rows of the terminal.
    ///
    /// # Errors
    /// When the terminal does not say.
    fn size(&self) -> io::Result<(u16, u16)>;

    /// Whether the terminal went away.
    fn is_gone(&self) -> bool;

    /// Uses another theme from the next picture on.
    ///
    /// # Errors
    /// When the terminal cannot be written to.
    fn set_theme(&mut self, theme: Theme) -> io::Result<()>;

    /// Gives the terminal back until the program is called again.
    ///
    /// # Errors
    /// When the terminal cannot be given back or taken over again.
    fn suspend(&mut self) -> io::Result<()>;
}

/// The longest wait, after which the terminal is looked after.
pub const LONGEST_WAIT: Duration = Duration::from_secs(1);

/// Events answered before the picture is drawn at the latest.
const AT_ONE_DRAW: usize = 256;

/// Runs the application until it quits, the system ends it or the terminal goes away.
///
/// `perform` carries out the application's own effects; what it returns is answered as
/// [`Event::Outcome`].
///
/// # Errors
/// When the terminal fails in another way than by going away.
pub fn run<A: Application, S: Stage>(
    app: &mut A,
    stage: &mut S,
    perform: impl FnMut(A::Effect) -> Vec<A::Outcome>,
) -> io::Result<Ended> {
    match go_round(app, stage, perform) {
        // A picture may be on its way when the terminal goes.
        Err(_) if stage.is_gone() => Ok(Ended::HangUp),
        ended => ended,
    }
}

fn go_round<A: Application, S: Stage>(
    app: &mut A,
    stage: &mut S,
    mut perform: impl FnMut(A::Effect) -> Vec<A::Outcome>,
) -> io::Result<Ended> {
    let mut draw = true;
    let mut told = None;
    loop {
        if app.take_changed() || draw {
            // The first size comes with no event, nor does one that changed while the program was
            // paused.
            let size = stage.size()?;
            if told != Some(size) {
                told = Some(size);
                let event = Event::Resize(size.0, size.1);
                if answer(app, stage, event, &mut perform, &mut draw)? == Go::Out {
                    return Ok(Ended::Quit);
                }
                app.take_changed();
            }
            stage.draw(&mut |area, buf| app.render(area, buf))?;
        }
        let due = app.until_tick().map(|wait| stage.now() + wait);
        let mut wait = due
            .map_or(LONGEST_WAIT, |due| {
                due.saturating_duration_since(stage.now())
            })
            .min(LONGEST_WAIT);
        draw = false;
        for _ in 0..AT_ONE_DRAW {
            let event = match stage.wait(wait)? {
                // Looking after the terminal costs it no byte.
                Input::Nothing if !wait.is_zero() && stage.is_gone() => return Ok(Ended::HangUp),
                Input::Nothing => break,
                Input::Ended(ended) => return Ok(ended),
                Input::Resumed => {
                    draw = true;
                    continue;
                }
                Input::Event(event) => event,
            };
            wait = Duration::ZERO;
            if let TerminalEvent::Resize(columns, rows) = event {
                draw = true;
                told = Some((columns, rows));
            }
            if let Some(event) = wanted(event)
                && answer(app, stage, event, &mut perform, &mut draw)? == Go::Out
            {
                return Ok(Ended::Quit);
            }
        }
        let ticks = due.is_some_and(|due| stage.now() >= due);
        if ticks && answer(app, stage, Event::Tick, &mut perform, &mut draw)? == Go::Out {
            return Ok(Ended::Quit);
        }
    }
}

#[derive(PartialEq, Eq)]
enum Go {
    On,
    Out,
}

/// Lets the application answer an event and everything that follows from it.
fn answer<A: Application, S: Stage>(
    app: &mut A,
    stage: &mut S,
    event: Event<A::Outcome>,
    perform: &mut impl FnMut(A::Effect) -> Vec<A::Outcome>,
    draw: &mut bool,
) -> io::Result<Go> {
    let mut events = VecDeque::from([event]);
    while let Some(event) = events.pop_front() {
        for effect in app.handle(event) {
            match effect {
                Effect::Quit => return Ok(Go::Out),
                Effect::Suspend => {
                    stage.suspend()?;
                    *draw = true;
                }
                Effect::Bell => stage.ring()?,
                Effect::Copy(text) => stage.copy(&text)?,
                Effect::Theme(theme) => stage.set_theme(theme)?,
                Effect::Perform(effect) => {
                    events.extend(perform(effect).into_iter().map(Event::Outcome));
                }
            }
        }
    }
    Ok(Go::On)
}

/// What of the terminal's events the application gets to see.
fn wanted<O>(event: TerminalEvent) -> Option<Event<O>> {
    match event {
        TerminalEvent::Key(key) => {
            let counts = match key.kind {
                KeyEventKind::Press => true,
                KeyEventKind::Repeat => may_repeat(&key),
                KeyEventKind::Release => false,
            };
            counts.then_some(Event::Key(key))
        }
        TerminalEvent::Paste(text) => Some(Event::Paste(text)),
        TerminalEvent::Resize(columns, rows) => Some(Event::Resize(columns, rows)),
        TerminalEvent::Mouse(mouse) => match mouse.kind {
            MouseEventKind::Moved | MouseEventKind::Drag(_) | MouseEventKind::Up(_) => None,
            _ => Some(Event::Mouse(mouse)),
        },
        TerminalEvent::FocusGained | TerminalEvent::FocusLost => None,
    }
}

/// A held key moves on and deletes on; it never does a deed twice.
fn may_repeat(key: &KeyEvent) -> bool {
    key.modifiers.difference(KeyModifiers::SHIFT).is_empty()
        && matches!(
            key.code,
            KeyCode::Up
                | KeyCode::Down
                | KeyCode::Left
                | KeyCode::Right
                | KeyCode::PageUp
                | KeyCode::PageDown
                | KeyCode::Tab
                | KeyCode::BackTab
                | KeyCode::Backspace
                | KeyCode::Delete
        )
}

#[cfg(test)]
mod tests;
