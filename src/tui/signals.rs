//! What the system asks of the program.
//!
//! For: a request to end or to pause arrives at any moment; the loop must hear of it while it
//! waits for a key. A thread that does nothing else takes the signals, notes them and wakes the
//! wait by raising the one signal that crossterm listens to, that of a new window size.
//!
//! Promises: the loop hears of a signal at once. If it does not answer because something hangs, a
//! second request to end gives the terminal back and ends the program.

use std::io;

#[cfg(unix)]
pub(crate) use unix::Signals;

#[cfg(not(unix))]
pub(crate) use other::Signals;

/// What was asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Asked {
    /// To end, by this signal.
    End(i32),
    /// To pause.
    Pause,
    /// The program was paused and goes on.
    Resumed,
}

#[cfg(unix)]
mod unix {
    use super::{Asked, io};
    use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGTSTP, SIGWINCH};
    use signal_hook::iterator::{Handle, Signals as Taken};
    use signal_hook::low_level::{emulate_default_handler, raise};
    use std::sync::Arc;
    use std::sync::atomic::{AtomicBool, Ordering};
    use std::sync::mpsc::{Receiver, Sender, channel};
    use std::thread::JoinHandle;

    /// Takes signals as long as it lives.
    #[derive(Debug)]
    pub(crate) struct Signals {
        asked: Receiver<Asked>,
        unanswered: Arc<AtomicBool>,
        handle: Handle,
        thread: Option<JoinHandle<()>>,
    }

    impl Signals {
        /// Begins to take signals. `last_resort` is done before the program ends on a second
        /// request.
        pub(crate) fn take(last_resort: fn()) -> io::Result<Self> {
            let mut taken = Taken::new([SIGTERM, SIGHUP, SIGINT, SIGQUIT, SIGTSTP, SIGCONT])?;
            let handle = taken.handle();
            let (tell, asked) = channel();
            let unanswered = Arc::new(AtomicBool::new(false));
            let waiting = Arc::clone(&unanswered);
            let thread = std::thread::Builder::new()
                .name("signals".into())
                .spawn(move || {
                    for signal in &mut taken {
                        note(signal, &tell, &waiting, last_resort);
                    }
                })?;
            Ok(Self {
                asked,
                unanswered,
                handle,
                thread: Some(thread),
            })
        }

        /// What was asked and not yet answered.
        pub(crate) fn next(&self) -> Option<Asked> {
            let asked = self.asked.try_recv().ok()?;
            if matches!(asked, Asked::End(_)) {
                self.unanswered.store(false, Ordering::SeqCst);
            }
            Some(asked)
        }

        /// Pauses this process until it is told to go on.
        pub(crate) fn pause() -> io::Result<()> {
            emulate_default_handler(SIGTSTP)
        }
    }

    fn note(signal: i32, tell: &Sender<Asked>, unanswered: &AtomicBool, last_resort: fn()) {
        let asked = match signal {
            SIGTSTP => Asked::Pause,
            SIGCONT => Asked::Resumed,
            _ => Asked::End(signal),
        };
        if matches!(asked, Asked::End(_)) && unanswered.swap(true, Ordering::SeqCst) {
            last_resort();
            std::process::exit(128 + signal);
        }
        // Both fail only while the program ends anyway.
        let _ = tell.send(asked);
        let _ = raise(SIGWINCH);
    }

    impl Drop for Signals {
        fn drop(&mut self) {
            self.handle.close();
            if let Some(thread) = self.thread.take() {
                let _ = thread.join();
            }
        }
    }
}

#[cfg(not(unix))]
mod other {
    use super::{Asked, io};

    /// There are no signals to take.
    #[derive(Debug)]
    pub(crate) struct Signals;

    impl Signals {
        pub(crate) fn take(_: fn()) -> io::Result<Self> {
            Ok(Self)
        }

        pub(crate) fn next(&self) -> Option<Asked> {
            None
        }

        pub(crate) fn pause() -> io::Result<()> {
            Ok(())
        }
    }
}
