use super::*;
use crossterm::event::MouseButton;

/// Plays a list of inputs; each `Nothing` lets the time asked for pass.
struct Script {
    inputs: VecDeque<Input>,
    size: (u16, u16),
    size_after_pause: (u16, u16),
    now: Instant,
    drawn: usize,
    done: Vec<String>,
    /// Pictures it shows before it goes away.
    lasts: usize,
}

impl Script {
    fn new(inputs: impl IntoIterator<Item = Input>) -> Self {
        Self {
            inputs: inputs.into_iter().collect(),
            size: (10, 1),
            size_after_pause: (10, 1),
            now: Instant::now(),
            drawn: 0,
            done: Vec::new(),
            lasts: usize::MAX,
        }
    }
}

impl Stage for Script {
    fn draw(&mut self, paint: &mut Paint<'_>) -> io::Result<()> {
        if self.is_gone() {
            return Err(io::Error::other("no terminal"));
        }
        self.drawn += 1;
        let area = Rect::new(0, 0, 10, 1);
        paint(area, &mut Buffer::empty(area));
        Ok(())
    }

    fn wait(&mut self, at_most: Duration) -> io::Result<Input> {
        // While draining, only what is there at once counts.
        if at_most.is_zero() && self.inputs.front() == Some(&Input::Nothing) {
            return Ok(Input::Nothing);
        }
        match self.inputs.pop_front() {
            Some(Input::Nothing) => {
                self.now += at_most;
                Ok(Input::Nothing)
            }
            Some(input) => {
                match input {
                    Input::Event(TerminalEvent::Resize(wide, high)) => self.size = (wide, high),
                    Input::Resumed => self.size = self.size_after_pause,
                    _ => {}
                }
                Ok(input)
            }
            None => Ok(Input::Ended(Ended::HangUp)),
        }
    }

    fn now(&self) -> Instant {
        self.now
    }

    fn ring(&mut self) -> io::Result<()> {
        self.done.push("bell".into());
        Ok(())
    }

    fn copy(&mut self, text: &str) -> io::Result<()> {
        self.done.push(format!("copy {text}"));
        Ok(())
    }

    fn size(&self) -> io::Result<(u16, u16)> {
        Ok(self.size)
    }

    fn is_gone(&self) -> bool {
        self.drawn >= self.lasts
    }

    fn set_theme(&mut self, theme: crate::tui::theme::Theme) -> io::Result<()> {
        self.done.push(format!("theme {}", theme.name().word()));
        Ok(())
    }

    fn suspend(&mut self) -> io::Result<()> {
        self.done.push("suspend".into());
        Ok(())
    }
}

/// Writes down what it was told.
#[derive(Default)]
struct Notes {
    told: Vec<String>,
    changed: bool,
    clock: Option<Duration>,
}

impl Application for Notes {
    type Effect = u32;
    type Outcome = u32;

    fn handle(&mut self, event: Event<u32>) -> Vec<Effect<u32>> {
        let (told, effects) = match event {
            Event::Key(key) => match key.code {
                KeyCode::Char('q') => ("quit".into(), vec![Effect::Quit]),
                KeyCode::Char('p') => (
                    "perform".into(),
                    vec![Effect::Perform(7), Effect::Bell, Effect::Copy("S-1".into())],
                ),
                KeyCode::Char('z') => ("suspend".into(), vec![Effect::Suspend]),
                KeyCode::Char('n') => {
                    self.told.push("nothing".into());
                    return Vec::new();
                }
                code => (format!("{code}"), Vec::new()),
            },
            Event::Paste(text) => (format!("paste {text}"), Vec::new()),
            Event::Mouse(mouse) => (format!("{:?}", mouse.kind), Vec::new()),
            Event::Resize(wide, high) => (format!("{wide}x{high}"), Vec::new()),
            Event::Tick => ("tick".into(), Vec::new()),
            Event::Outcome(n) => (format!("outcome {n}"), Vec::new()),
        };
        self.told.push(told);
        self.changed = true;
        effects
    }

    fn take_changed(&mut self) -> bool {
        std::mem::take(&mut self.changed)
    }

    fn render(&self, _: Rect, _: &mut Buffer) -> Option<Position> {
        None
    }

    fn until_tick(&self) -> Option<Duration> {
        self.clock
    }
}

fn key(c: char) -> Input {
    key_of(KeyCode::Char(c), KeyEventKind::Press)
}

fn key_of(code: KeyCode, kind: KeyEventKind) -> Input {
    let mut key = KeyEvent::new(code, KeyModifiers::NONE);
    key.kind = kind;
    Input::Event(TerminalEvent::Key(key))
}

fn mouse(kind: MouseEventKind) -> Input {
    Input::Event(TerminalEvent::Mouse(MouseEvent {
        kind,
        column: 1,
        row: 1,
        modifiers: KeyModifiers::NONE,
    }))
}

/// Runs the application; the first thing it is told is the size of the terminal.
fn play(app: &mut Notes, script: &mut Script) -> Ended {
    let ended = run(app, script, |n| vec![n + 1, n + 2]).unwrap();
    assert_eq!(app.told.remove(0), "10x1");
    ended
}

#[test]
fn a_size_that_changed_during_a_pause_is_told_before_the_next_picture() {
    let mut app = Notes::default();
    let mut script = Script::new([Input::Resumed, Input::Nothing]);
    script.size_after_pause = (40, 12);
    play(&mut app, &mut script);
    assert_eq!((app.told, script.drawn), (vec!["40x12".to_owned()], 2));
}

#[test]
fn keys_that_come_together_are_drawn_once() {
    let mut app = Notes::default();
    let mut script = Script::new("abcdef".chars().map(key).chain([Input::Nothing, key('q')]));
    assert_eq!(play(&mut app, &mut script), Ended::Quit);
    assert_eq!(app.told.len(), 7);
    assert_eq!(script.drawn, 2);
}

#[test]
fn nothing_is_drawn_when_nothing_changed() {
    let mut app = Notes::default();
    let mut script = Script::new([Input::Nothing, Input::Nothing, key('n'), Input::Nothing]);
    assert_eq!(play(&mut app, &mut script), Ended::HangUp);
    assert_eq!((app.told.len(), script.drawn), (1, 1));
}

#[test]
fn ticks_come_only_while_a_clock_runs_and_only_when_due() {
    let mut app = Notes::default();
    let idle = || {
        Script::new([
            Input::Nothing,
            Input::Nothing,
            Input::Nothing,
            Input::Nothing,
        ])
    };
    play(&mut app, &mut idle());
    assert_eq!(app.told, Vec::<String>::new());
    app.clock = Some(Duration::from_millis(400));
    play(&mut app, &mut idle());
    assert_eq!(app.told.len(), 4);
    // A clock that changes in ten seconds does not tick every second.
    app = Notes::default();
    app.clock = Some(Duration::from_secs(10));
    play(&mut app, &mut idle());
    assert_eq!(app.told, Vec::<String>::new());
}

#[test]
fn a_released_key_is_nothing_and_a_held_one_only_moves() {
    let mut app = Notes::default();
    let mut script = Script::new([
        key_of(KeyCode::Char('x'), KeyEventKind::Release),
        key_of(KeyCode::Char('x'), KeyEventKind::Repeat),
        key_of(KeyCode::Enter, KeyEventKind::Repeat),
        key_of(KeyCode::Down, KeyEventKind::Repeat),
    ]);
    play(&mut app, &mut script);
    assert_eq!(app.told, [KeyCode::Down.to_string()]);
}

#[test]
fn moving_the_mouse_does_not_wake_the_application() {
    let mut app = Notes::default();
    let mut script = Script::new([
        mouse(MouseEventKind::Moved),
        mouse(MouseEventKind::Drag(MouseButton::Left)),
        mouse(MouseEventKind::ScrollDown),
    ]);
    play(&mut app, &mut script);
    assert_eq!(app.told, ["ScrollDown"]);
}

#[test]
fn a_paste_is_one_event_and_presses_no_key() {
    let mut app = Notes::default();
    let paste = Input::Event(TerminalEvent::Paste("q\ny\n".into()));
    assert_eq!(play(&mut app, &mut Script::new([paste])), Ended::HangUp);
    assert_eq!(app.told, ["paste q\ny\n"]);
}

#[test]
fn effects_are_carried_out_and_their_outcome_is_told_before_the_next_key() {
    let mut app = Notes::default();
    let mut script = Script::new([key('p'), key('z'), key('q')]);
    play(&mut app, &mut script);
    assert_eq!(
        app.told,
        ["perform", "outcome 8", "outcome 9", "suspend", "quit"]
    );
    assert_eq!(script.done, ["bell", "copy S-1", "suspend"]);
}

#[test]
fn coming_back_and_a_new_size_draw_again() {
    let mut app = Notes::default();
    let size = Input::Event(TerminalEvent::Resize(80, 24));
    let mut script = Script::new([Input::Resumed, Input::Nothing, size, Input::Nothing]);
    play(&mut app, &mut script);
    assert_eq!(app.told, ["80x24"]);
    assert_eq!(script.drawn, 3);
}

#[test]
fn a_signal_ends_the_loop() {
    let mut app = Notes::default();
    let mut script = Script::new([key('a'), Input::Ended(Ended::Signal(15)), key('b')]);
    assert_eq!(play(&mut app, &mut script), Ended::Signal(15));
    assert_eq!(app.told, ["a"]);
}

#[test]
fn a_terminal_that_went_away_ends_the_loop_while_idle_or_drawing() {
    let mut app = Notes::default();
    for lasts in [0, 1] {
        let mut script = Script::new([Input::Nothing, key('q')]);
        script.lasts = lasts;
        assert_eq!(play(&mut app, &mut script), Ended::HangUp);
    }
    assert_eq!(app.told, Vec::<String>::new());
}
