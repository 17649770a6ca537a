//! The way from a picture to the bytes a terminal gets.
//!
//! For: ratatui's crossterm backend does the work; around it stand two things it does not do. A
//! frame is one write, enclosed in the marks by which terminals know that it belongs together; and
//! clearing uses the theme's ground, so that in safelight nothing flashes white. What says nothing is
//! not sent, since over a slow line every second of a running clock is a frame.
//!
//! Promises: what was collected for a frame that was never finished is thrown away when the
//! terminal has been given back, so that a panic in mid-frame leaves no scraps in the shell.

use std::cell::RefCell;
use std::io::{self, Write};
use std::rc::Rc;

use crossterm::queue;
use crossterm::style::{Color as TerminalColor, Colors, SetColors};
use crossterm::terminal::{BeginSynchronizedUpdate, EndSynchronizedUpdate};
use ratatui::backend::{Backend, ClearType, CrosstermBackend, IntoCrossterm, WindowSize};
use ratatui::buffer::Cell;
use ratatui::layout::{Position, Size};
use ratatui::style::Color;

mod moves;

/// Bytes of a frame until it is complete.
#[derive(Debug, Default)]
struct Collected {
    bytes: Vec<u8>,
    /// Inside a frame nothing is sent on.
    held: bool,
}

/// Collects bytes and sends them to `out` at once.
#[derive(Debug, Clone)]
struct FrameWriter<W> {
    collected: Rc<RefCell<Collected>>,
    out: Rc<RefCell<W>>,
    /// Whether the terminal is ours; else everything is thrown away.
    ours: fn() -> bool,
}

impl<W: Write> Write for FrameWriter<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.collected.borrow_mut().bytes.extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        let mut collected = self.collected.borrow_mut();
        if collected.held {
            return Ok(());
        }
        let bytes = std::mem::take(&mut collected.bytes);
        if bytes.is_empty() || !(self.ours)() {
            return Ok(());
        }
        let mut out = self.out.borrow_mut();
        out.write_all(&bytes)?;
        out.flush()
    }
}

/// A backend that sends whole frames and clears with the theme's ground.
#[derive(Debug)]
pub(crate) struct FrameBackend<W: Write> {
    inner: CrosstermBackend<FrameWriter<W>>,
    collected: Rc<RefCell<Collected>>,
    ground: Option<(Color, Color)>,
    cursor: Position,
    /// The cursor was hidden by the last frame and nobody has shown it since.
    hidden: bool,
    /// The last column that is known to be there, because something was drawn in it.
    last_column: u16,
}

/// Everything the backend underneath takes back after the cells of a frame, and the one sequence that
/// does it all.
const RESETS: (&[u8], &[u8]) = (b"\x1b[39m\x1b[49m\x1b[59m\x1b[0m", b"\x1b[0m");

impl<W: Write> FrameBackend<W> {
    /// A backend that writes to `out` as long as `ours` says so.
    pub(crate) fn new(out: W, ground: Option<(Color, Color)>, ours: fn() -> bool) -> Self {
        let collected = Rc::new(RefCell::new(Collected::default()));
        let writer = FrameWriter {
            collected: Rc::clone(&collected),
            out: Rc::new(RefCell::new(out)),
            ours,
        };
        Self {
            inner: CrosstermBackend::new(writer),
            collected,
            ground,
            cursor: Position::ORIGIN,
            hidden: false,
            last_column: 0,
        }
    }

    /// Tells the ground to clear with.
    pub(crate) fn set_ground(&mut self, ground: Option<(Color, Color)>) {
        self.ground = ground;
    }

    /// Begins a frame; the next [`Backend::flush`] ends it.
    pub(crate) fn begin_frame(&mut self) -> io::Result<()> {
        self.collected.borrow_mut().held = true;
        queue!(self.inner, BeginSynchronizedUpdate)
    }

    /// Throws away what was collected, after an error in mid-frame.
    pub(crate) fn drop_frame(&mut self) {
        let mut collected = self.collected.borrow_mut();
        collected.held = false;
        collected.bytes.clear();
    }

    fn use_ground(&mut self) -> io::Result<()> {
        match self.ground {
            Some(ground) => queue!(self.inner, SetColors(colors(ground))),
            None => Ok(()),
        }
    }
}

/// A ground as crossterm wants it.
pub(crate) fn colors((fg, bg): (Color, Color)) -> Colors {
    let of = |color: Color| -> TerminalColor { color.into_crossterm() };
    Colors::new(of(fg), of(bg))
}

impl<W: Write> Write for FrameBackend<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.inner.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        Write::flush(&mut self.inner)
    }
}

impl<W: Write> Backend for FrameBackend<W> {
    type Error = io::Error;

    fn draw<'a, I>(&mut self, content: I) -> io::Result<()>
    where
        I: Iterator<Item = (u16, u16, &'a Cell)>,
    {
        let from = self.collected.borrow().bytes.len();
        let mut last_column = self.last_column;
        let content = content.inspect(|(x, _, _)| last_column = last_column.max(*x));
        self.inner.draw(content)?;
        self.last_column = last_column;
        let bytes = &mut self.collected.borrow_mut().bytes;
        let (resets, reset) = RESETS;
        let drawn = bytes.split_off(from);
        let cells = drawn.strip_suffix(resets);
        let shortened = moves::shortened(cells.unwrap_or(&drawn), self.last_column);
        bytes.extend(shortened.bytes);
        let takes_back = cells.is_some() && (self.ground.is_some() || !shortened.plain);
        if takes_back {
            bytes.extend_from_slice(reset);
        }
        Ok(())
    }

    fn hide_cursor(&mut self) -> io::Result<()> {
        if std::mem::replace(&mut self.hidden, true) {
            return Ok(());
        }
        self.inner.hide_cursor()
    }

    fn show_cursor(&mut self) -> io::Result<()> {
        self.hidden = false;
        self.inner.show_cursor()
    }

    /// Where the cursor was put last. The terminal is not asked: one that does not answer would
    /// hold the program up for seconds and swallow a key.
    fn get_cursor_position(&mut self) -> io::Result<Position> {
        Ok(self.cursor)
    }

    fn set_cursor_position<P: Into<Position>>(&mut self, position: P) -> io::Result<()> {
        self.cursor = position.into();
        self.inner.set_cursor_position(self.cursor)
    }

    fn clear(&mut self) -> io::Result<()> {
        // The terminal may have been somebody else's meanwhile, or have another size.
        self.hidden = false;
        self.last_column = 0;
        self.use_ground()?;
        self.inner.clear()
    }

    fn clear_region(&mut self, clear_type: ClearType) -> io::Result<()> {
        self.last_column = 0;
        self.use_ground()?;
        self.inner.clear_region(clear_type)
    }

    fn size(&self) -> io::Result<Size> {
        self.inner.size()
    }

    fn window_size(&mut self) -> io::Result<WindowSize> {
        self.inner.window_size()
    }

    fn flush(&mut self) -> io::Result<()> {
        let ends_frame = std::mem::take(&mut self.collected.borrow_mut().held);
        if ends_frame {
            queue!(self.inner, EndSynchronizedUpdate)?;
        }
        Write::flush(&mut self.inner)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Keeps every write apart.
    #[derive(Clone, Default)]
    struct Writes(Rc<RefCell<Vec<String>>>);

    impl Write for Writes {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            let text = String::from_utf8_lossy(bytes).into_owned();
            self.0.borrow_mut().push(text);
            Ok(bytes.len())
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn a_frame_is_one_write_between_its_marks() {
        let writes = Writes::default();
        let mut backend = FrameBackend::new(writes.clone(), None, || true);
        backend.begin_frame().unwrap();
        backend.hide_cursor().unwrap();
        let cell = Cell::new("x");
        backend.draw([(0, 0, &cell)].into_iter()).unwrap();
        backend.show_cursor().unwrap();
        assert!(writes.0.borrow().is_empty());
        Backend::flush(&mut backend).unwrap();
        let writes = writes.0.borrow();
        assert_eq!(writes.len(), 1);
        assert!(writes[0].starts_with("\x1b[?2026h") && writes[0].ends_with("\x1b[?2026l"));
    }

    #[test]
    fn what_says_nothing_is_not_sent() {
        let writes = Writes::default();
        let mut backend = FrameBackend::new(writes.clone(), None, || true);
        let mut frame = |clear: bool| {
            if clear {
                backend.clear().unwrap();
            }
            backend.begin_frame().unwrap();
            backend.draw([(0, 0, &Cell::new("x"))].into_iter()).unwrap();
            backend.hide_cursor().unwrap();
            Backend::flush(&mut backend).unwrap();
            writes.0.borrow_mut().pop().unwrap()
        };
        let first = frame(false);
        assert_eq!(first, "\x1b[?2026h\x1b[1;1Hx\x1b[?25l\x1b[?2026l");
        assert!(!frame(false).contains("\x1b[?25l"));
        assert!(frame(true).contains("\x1b[?25l"));
    }

    #[test]
    fn clearing_sets_the_ground_first() {
        let writes = Writes::default();
        let ground = Some((Color::Indexed(88), Color::Indexed(16)));
        let mut backend = FrameBackend::new(writes.clone(), ground, || true);
        crossterm::style::force_color_output(true);
        backend.clear().unwrap();
        let sent = writes.0.borrow().concat();
        let colour = sent.find("48;5;16").unwrap();
        assert!(colour < sent.find("\x1b[2J").unwrap(), "{sent:?}");
    }

    #[test]
    fn an_unfinished_frame_is_thrown_away_when_the_terminal_was_given_back() {
        let writes = Writes::default();
        let mut backend = FrameBackend::new(writes.clone(), None, || false);
        backend.begin_frame().unwrap();
        backend.draw([(0, 0, &Cell::new("x"))].into_iter()).unwrap();
        Backend::flush(&mut backend).unwrap();
        assert!(writes.0.borrow().is_empty());
    }
}
