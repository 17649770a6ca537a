//! A program in a pseudo-terminal, with a terminal emulator reading what it draws.

use std::ffi::{OsStr, OsString};
use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::path::Path;
use std::process::Command;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use notchbook::tui::keys::Chord;
use portable_pty::{Child, CommandBuilder, ExitStatus, MasterPty, PtySize, native_pty_system};
use tempfile::TempDir;

/// How long a session waits for something before the test fails.
const PATIENCE: Duration = Duration::from_secs(20);

/// What the terminal received.
struct Seen {
    parser: vt100::Parser,
    bytes: Vec<u8>,
    /// How many of the bytes are on the screen.
    shown: usize,
}

/// A picture begins.
const BEGIN: &[u8] = b"\x1b[?2026h";
/// A picture is complete.
const END: &[u8] = b"\x1b[?2026l";

impl Seen {
    /// Takes bytes in; of a picture that is not complete yet nothing is shown, as on a terminal
    /// that knows these marks.
    fn take_in(&mut self, bytes: &[u8]) {
        self.bytes.extend_from_slice(bytes);
        let new = self.bytes.get(self.shown..).unwrap_or_default();
        let last = |mark: &[u8]| new.windows(mark.len()).rposition(|bytes| bytes == mark);
        let ready = match (last(BEGIN), last(END)) {
            (Some(begin), Some(end)) if begin < end => new.len(),
            (Some(begin), _) => begin,
            (None, _) => new.len(),
        };
        self.show(ready);
    }

    fn show(&mut self, count: usize) {
        let to = self.shown + count;
        self.parser.process(&self.bytes[self.shown..to]);
        self.shown = to;
    }

    fn show_the_rest(&mut self) {
        self.show(self.bytes.len() - self.shown);
    }
}

/// A running program and its terminal.
pub(crate) struct Session {
    seen: Arc<Mutex<Seen>>,
    child: Running,
    master: Box<dyn MasterPty + Send>,
    writer: Box<dyn Write + Send>,
    reader: JoinHandle<()>,
    stop: Arc<AtomicBool>,
    home: TempDir,
}

/// The process, ended with its session.
struct Running {
    child: Box<dyn Child + Send + Sync>,
    left_alone: bool,
}

impl Running {
    /// How the program ended, if it has.
    fn exited(&mut self) -> Option<ExitStatus> {
        self.child
            .try_wait()
            .expect("the program can be waited for")
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        if !self.left_alone {
            // It may have ended already.
            let _ = self.child.kill();
            let _ = self.child.wait();
        }
    }
}

/// The notchbook program.
pub(crate) const NOTCHBOOK: &str = env!("CARGO_BIN_EXE_notchbook");

/// An environment without surprises for a program whose home is this folder.
pub(crate) fn surroundings(home: &Path) -> Vec<(&'static str, OsString)> {
    vec![
        ("HOME", home.into()),
        ("XDG_DATA_HOME", home.join("data").into()),
        ("XDG_CONFIG_HOME", home.join("config").into()),
        ("XDG_STATE_HOME", home.join("state").into()),
        ("TMPDIR", home.into()),
        ("PATH", std::env::var_os("PATH").unwrap_or_default()),
        ("LANG", "C.UTF-8".into()),
        ("TERM", "xterm-256color".into()),
        ("TZ", "UTC".into()),
    ]
}

/// A program with its arguments, about to be started in a home of its own.
pub(crate) struct Start {
    command: CommandBuilder,
    home: TempDir,
}

impl Start {
    /// The notchbook program itself.
    pub(crate) fn notchbook(args: &[&str]) -> Self {
        Self::program(NOTCHBOOK, args)
    }

    /// Any program. It gets an empty home and an environment without surprises.
    pub(crate) fn program(program: impl AsRef<OsStr>, args: &[&str]) -> Self {
        let home = TempDir::new().expect("a folder for the session");
        Self::in_home(home, program, args)
    }

    /// Any program, in a home in which something happened before.
    pub(crate) fn in_home(home: TempDir, program: impl AsRef<OsStr>, args: &[&str]) -> Self {
        let mut command = CommandBuilder::new(program);
        command.args(args);
        command.env_clear();
        command.cwd(home.path());
        for (name, value) in surroundings(home.path()) {
            command.env(name, value);
        }
        Self { command, home }
    }

    /// Sets a variable of the environment.
    pub(crate) fn env(mut self, name: &str, value: impl AsRef<OsStr>) -> Self {
        self.command.env(name, value);
        self
    }

    /// Starts the program in a terminal of so many columns and rows.
    pub(crate) fn in_size(self, columns: u16, rows: u16) -> Session {
        let pair = native_pty_system()
            .openpty(pty_size(columns, rows))
            .expect("a pseudo-terminal");
        let child = pair
            .slave
            .spawn_command(self.command)
            .expect("the program starts");
        drop(pair.slave);
        let seen = Arc::new(Mutex::new(Seen {
            parser: vt100::Parser::new(at_least_one(rows), at_least_one(columns), 100),
            bytes: Vec::new(),
            shown: 0,
        }));
        let stop = Arc::new(AtomicBool::new(false));
        let reader = {
            let mut from = pair.master.try_clone_reader().expect("a reader");
            let (seen, stop) = (Arc::clone(&seen), Arc::clone(&stop));
            std::thread::spawn(move || {
                let mut buffer = [0; 4096];
                while !stop.load(Ordering::SeqCst) {
                    let Ok(count @ 1..) = from.read(&mut buffer) else {
                        break;
                    };
                    lock(&seen).take_in(&buffer[..count]);
                }
                lock(&seen).show_the_rest();
            })
        };
        Session {
            seen,
            child: Running {
                child,
                left_alone: false,
            },
            writer: pair.master.take_writer().expect("a writer"),
            master: pair.master,
            reader,
            stop,
            home: self.home,
        }
    }
}

impl Session {
    /// The folder that is the program's home.
    pub(crate) fn home(&self) -> &Path {
        self.home.path()
    }

    /// Presses keys, written as in the settings and separated by spaces: `"g g enter ctrl-z"`.
    pub(crate) fn press(&mut self, keys: &str) {
        for key in keys.split(' ') {
            let chord: Chord = key.parse().unwrap_or_else(|error| panic!("{error}"));
            let before = self.bytes_sent();
            self.send(&bytes_of(chord));
            // What follows esc at once is taken for one key with it, so the answer is awaited as a
            // hand does.
            if chord.code() == crossterm::event::KeyCode::Esc {
                let began = Instant::now();
                while self.bytes_sent() == before && began.elapsed() < Duration::from_millis(500) {
                    std::thread::sleep(Duration::from_millis(2));
                }
            }
        }
    }

    /// Types text, one key for each character.
    pub(crate) fn type_text(&mut self, text: &str) {
        self.send(text.as_bytes());
    }

    /// Pastes text as a terminal does.
    pub(crate) fn paste(&mut self, text: &str) {
        self.send(format!("\x1b[200~{text}\x1b[201~").as_bytes());
    }

    /// Sends raw bytes.
    pub(crate) fn send(&mut self, bytes: &[u8]) {
        self.writer
            .write_all(bytes)
            .expect("the terminal takes keys");
        self.writer.flush().expect("the terminal takes keys");
    }

    /// Gives the terminal another size.
    pub(crate) fn resize(&mut self, columns: u16, rows: u16) {
        // The emulator first, so that what is drawn for the new size finds it.
        lock(&self.seen)
            .parser
            .set_size(at_least_one(rows), at_least_one(columns));
        self.master
            .resize(pty_size(columns, rows))
            .expect("the terminal takes a size");
    }

    /// What is on the screen, lines without the spaces behind them.
    pub(crate) fn screen(&self) -> String {
        let contents = self.with_terminal(vt100::Screen::contents);
        let lines: Vec<&str> = contents.lines().map(str::trim_end).collect();
        lines.join("\n")
    }

    /// Looks at the emulated terminal: cursor, colours, modes.
    pub(crate) fn with_terminal<T>(&self, look: impl FnOnce(&vt100::Screen) -> T) -> T {
        look(lock(&self.seen).parser.screen())
    }

    /// Everything the program has sent.
    pub(crate) fn sent(&self) -> Vec<u8> {
        lock(&self.seen).bytes.clone()
    }

    fn bytes_sent(&self) -> usize {
        lock(&self.seen).bytes.len()
    }

    /// Waits until `text` is on the screen and returns the screen.
    pub(crate) fn wait_for(&self, text: &str) -> String {
        self.wait_until(&format!("\"{text}\" on the screen"), |session| {
            session.screen().contains(text)
        });
        self.screen()
    }

    /// Waits until something is so; fails the test with the screen if it does not become so.
    pub(crate) fn wait_until(&self, what: &str, is_so: impl Fn(&Self) -> bool) {
        let began = Instant::now();
        while !is_so(self) {
            assert!(
                began.elapsed() < PATIENCE,
                "waited in vain for {what}; the screen is\n{}",
                self.screen()
            );
            std::thread::sleep(Duration::from_millis(10));
        }
    }

    /// Sends the program a signal: "TERM", "KILL", "TSTP".
    pub(crate) fn signal(&self, signal: &str) {
        let id = self.child.child.process_id().expect("the program runs");
        let sent = Command::new("kill")
            .args([format!("-{signal}"), id.to_string()])
            .status()
            .expect("kill runs");
        assert!(sent.success(), "no process {id} to send {signal} to");
    }

    /// What the line discipline of the terminal does: a copy of its settings.
    pub(crate) fn line_settings(&self) -> impl PartialEq + std::fmt::Debug + use<> {
        self.master.get_termios().expect("a terminal has settings")
    }

    /// Waits for the program to end and for the last of what it sent.
    pub(crate) fn wait_exit(&mut self) -> ExitStatus {
        let began = Instant::now();
        loop {
            if let Some(status) = self.child.exited() {
                // What was sent before the end may still be on its way.
                std::thread::sleep(Duration::from_millis(50));
                return status;
            }
            assert!(
                began.elapsed() < PATIENCE,
                "the program does not end; the screen is\n{}",
                self.screen()
            );
            std::thread::sleep(Duration::from_millis(10));
        }
    }

    /// Ends the program on the spot, as a power cut does, and gives back its home.
    pub(crate) fn kill(mut self) -> TempDir {
        self.signal("KILL");
        self.wait_exit();
        self.home
    }

    /// The home of a program that has ended.
    pub(crate) fn into_home(self) -> TempDir {
        self.home
    }

    /// Closes the terminal as closing its window does; the program is left to itself, in its home.
    ///
    /// `text` is typed first and has to make the program draw: the harness holds the terminal open
    /// until something arrives.
    pub(crate) fn hang_up(mut self, text: &str) -> LeftAlone {
        self.stop.store(true, Ordering::SeqCst);
        self.child.left_alone = true;
        self.type_text(text);
        self.reader.join().expect("the reader ends");
        drop(self.writer);
        drop(self.master);
        LeftAlone {
            child: self.child,
            home: self.home,
        }
    }
}

/// A program whose terminal went away.
pub(crate) struct LeftAlone {
    child: Running,
    home: TempDir,
}

impl LeftAlone {
    /// The folder that is the program's home.
    pub(crate) fn home(&self) -> &Path {
        self.home.path()
    }

    /// Waits for the program to end by itself and gives back its home.
    pub(crate) fn wait_exit(mut self) -> TempDir {
        let began = Instant::now();
        while self.child.exited().is_none() {
            assert!(
                began.elapsed() < PATIENCE,
                "the program goes on without a terminal"
            );
            std::thread::sleep(Duration::from_millis(10));
        }
        self.home
    }
}

fn lock(seen: &Mutex<Seen>) -> MutexGuard<'_, Seen> {
    seen.lock().expect("the reader is well")
}

fn pty_size(cols: u16, rows: u16) -> PtySize {
    PtySize {
        rows,
        cols,
        pixel_width: 0,
        pixel_height: 0,
    }
}

fn at_least_one(count: u16) -> NonZeroU16 {
    NonZeroU16::new(count).unwrap_or(NonZeroU16::MIN)
}

/// What a terminal sends for a key.
fn bytes_of(chord: Chord) -> Vec<u8> {
    use crossterm::event::KeyCode;
    let text = chord.to_string();
    let plain = match chord.code() {
        KeyCode::Char(c) if text.starts_with("ctrl-") => {
            return vec![u8::try_from(c).expect("a letter") & 0x1f];
        }
        KeyCode::Char(c) => return c.to_string().into_bytes(),
        KeyCode::Enter => "\r",
        KeyCode::Esc => "\x1b",
        KeyCode::Tab => "\t",
        KeyCode::BackTab => "\x1b[Z",
        KeyCode::Backspace => "\x7f",
        KeyCode::Delete => "\x1b[3~",
        KeyCode::Insert => "\x1b[2~",
        KeyCode::Home => "\x1b[H",
        KeyCode::End => "\x1b[F",
        KeyCode::PageUp => "\x1b[5~",
        KeyCode::PageDown => "\x1b[6~",
        KeyCode::Up => "\x1b[A",
        KeyCode::Down => "\x1b[B",
        KeyCode::Right => "\x1b[C",
        KeyCode::Left => "\x1b[D",
        KeyCode::F(number @ 1..=4) => return vec![0x1b, b'O', b'O' + number],
        KeyCode::F(5) => "\x1b[15~",
        KeyCode::F(number @ 6..=10) => return format!("\x1b[{}~", number + 11).into_bytes(),
        _ => panic!("no bytes are known for {text}"),
    };
    plain.as_bytes().to_vec()
}
