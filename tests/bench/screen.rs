//! What a person feels at the screen: the first picture, and the time from a key to the picture
//! that answers it.
//!
//! There is no terminal here: a picture is a buffer, which is where notchbook's own work ends.

use std::hint::black_box;
use std::path::Path;
use std::time::Duration;

use anyhow::{Context as _, Result};
use chrono::{DateTime, FixedOffset};
use crossterm::event::KeyEvent;
use notchbook::reference::Reference;
use notchbook::store::Store;
use notchbook::tui::app::App;
use notchbook::tui::bench::Bench;
use notchbook::tui::event::{Application as _, Event};
use notchbook::tui::keys::Chord;
use notchbook::tui::look::Look;
use notchbook::world::{Scripted, World as _};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::measure::{Times, once, side_by_side};
use super::report::{Line, Report};
use super::{Filled, bare, plain};

/// What a picture may take before it is felt.
const FELT: Duration = Duration::from_millis(16);
/// The usual window, and a large one.
const SIZES: [(u16, u16); 2] = [(80, 24), (200, 60)];

/// The front end with a window, as the loop drives it.
pub(crate) struct Driven {
    app: App,
    buffer: Buffer,
}

impl Driven {
    /// Opens a logbook and draws it.
    pub(crate) fn open(
        path: &Path,
        now: DateTime<FixedOffset>,
        (columns, rows): (u16, u16),
    ) -> Result<Driven> {
        let mut world = Scripted::new(now);
        let store = Store::open(path, &mut world)?;
        let bench = Bench::new(store, Reference::on_demand(), Box::new(world));
        let mut app = App::new(bench, Look::plain(), &[], Vec::new())?;
        app.handle(Event::Resize(columns, rows));
        let mut driven = Driven {
            app,
            buffer: Buffer::empty(Rect::new(0, 0, columns, rows)),
        };
        driven.draw();
        Ok(driven)
    }

    fn draw(&mut self) {
        self.buffer.reset();
        self.app.render(self.buffer.area, &mut self.buffer);
    }

    /// One key, and the picture after it.
    fn press(&mut self, key: &str) -> Result<Duration> {
        let chord: Chord = key
            .parse()
            .map_err(|_| anyhow::anyhow!("no such key: {key}"))?;
        let event = Event::Key(KeyEvent::new(chord.code(), chord.mods()));
        let (took, ()) = once(|| {
            self.app.handle(event);
            self.draw();
            Ok(())
        })?;
        Ok(took)
    }

    /// Several keys, separated by spaces, over and over.
    fn press_all(&mut self, keys: &str, times: usize) -> Result<Times> {
        let mut taken = Vec::new();
        for _ in 0..times {
            for key in keys.split(' ') {
                taken.push(self.press(key)?);
            }
        }
        Times::of(taken)
    }

    fn says(&self, wanted: &str) -> bool {
        let area = self.buffer.area;
        (0..area.height).any(|y| {
            let line: String = (0..area.width)
                .map(|x| self.buffer[(x, y)].symbol())
                .collect();
            line.contains(wanted)
        })
    }

    /// Fails when the screen does not say what it has to say here; otherwise something else would
    /// be measured.
    fn must_say(&self, wanted: &str) -> Result<()> {
        anyhow::ensure!(self.says(wanted), "the screen does not say \"{wanted}\"");
        Ok(())
    }

    /// Whether it asks for no tick and does not draw when one comes.
    fn is_idle(&mut self) -> bool {
        self.app.take_changed();
        self.app.handle(Event::Tick);
        self.app.until_tick().is_none() && !self.app.take_changed()
    }

    /// Closes the logbook.
    pub(crate) fn close(self) -> Result<()> {
        Ok(self.app.close_logbook()?)
    }
}

/// The first picture with the newest entries.
pub(crate) fn first_frames(
    report: &mut Report,
    small: &mut Filled,
    large: &mut Filled,
) -> Result<()> {
    let now = [small.season.world().now(), large.season.world().now()];
    for size in SIZES {
        let window = format!("{}x{}", size.0, size.1);
        let mut medians = Vec::new();
        for (filled, now) in [&*small, &*large].into_iter().zip(now) {
            let mut taken = Vec::new();
            let mut limits = Vec::new();
            for _ in 0..25 {
                let (took, driven) = once(|| Driven::open(&filled.path, now, size))?;
                driven.close()?;
                taken.push(took);
                let (took, _) = once(|| bare::first_frame(&filled.path, size))?;
                limits.push(took);
            }
            let (taken, limits) = (Times::of(taken)?, Times::of(limits)?);
            report.add(
                Line::new(
                    format!("first picture {window}, {} entries", filled.entries),
                    taken.median(),
                )
                .at_most(3.0, limits.median())
                .under(Duration::from_millis(50)),
            );
            medians.push(taken.median());
        }
        if let [few, many] = medians.as_slice() {
            report.add(
                Line::new(format!("first picture {window}, large beside small"), *many)
                    .at_most(1.2, *few),
            );
        }
    }
    let (took, _) = once(|| Ok(Reference::built_in()?))?;
    report.add(plain(
        "reading all of the reference, which a picture does not wait for",
        took,
    ));
    Ok(())
}

/// The time from a key to its picture, on a logbook that has grown large.
pub(crate) fn keys(report: &mut Report, large: &mut Filled) -> Result<()> {
    let now = large.season.world().now();
    let wide = (200, 60);
    let mut driven = Driven::open(&large.path, now, wide)?;
    let before = Buffer::empty(Rect::new(0, 0, wide.0, wide.1));
    let mut compared = Vec::new();
    for screen in ["1", "2"] {
        driven.press(screen)?;
        compared.push(side_by_side(
            60,
            || {
                driven.draw();
                Ok(before.diff(&driven.buffer).len())
            },
            || Ok(bare::full_frame(&before, wide)),
        )?);
    }
    for (screen, (ours, limit)) in ["sheets", "rack"].iter().zip(&compared) {
        report.add(
            Line::new(format!("a whole picture 200x60, {screen}"), ours.median())
                .at_most(4.0, limit.median())
                .under(Duration::from_millis(4)),
        );
    }
    let mut felt = |what: &str, times: &Times| {
        report.add(plain(format!("{what}, median"), times.median()).under(FELT));
        report.add(plain(format!("{what}, p99"), times.p99()).under(FELT));
    };
    driven.press("1")?;
    felt("key down on the sheets", &driven.press_all("down", 300)?);
    driven.press("2")?;
    felt("key down on the rack", &driven.press_all("down", 150)?);
    driven.press("1")?;
    driven.press("home")?;
    driven.must_say("loaded")?;
    driven.press("e")?;
    driven.must_say("log it")?;
    let typed = driven.press_all("1 / 8 backspace backspace backspace", 30)?;
    felt("key in the pane of an exposure", &typed);
    let pane = driven.press_all("tab", 34)?;
    felt("tab in the pane of an exposure", &pane);
    driven.press("ctrl-x")?;
    driven.press("esc")?;
    let mut opened = Vec::new();
    for _ in 0..20 {
        opened.push(driven.press("e")?);
        driven.press("esc")?;
    }
    felt("opening the pane of an exposure", &Times::of(opened)?);
    let mut begun = Vec::new();
    driven.press("end")?;
    driven.press("home")?;
    driven.press_all("down", 12)?;
    for _ in 0..10 {
        begun.push(driven.press("d")?);
        driven.press("esc")?;
    }
    felt("opening the pane of a run", &Times::of(begun)?);
    driven.press("d")?;
    let typed = driven.press_all("1 2 backspace backspace", 20)?;
    felt("key in the pane of a run", &typed);
    driven.press("ctrl-x")?;
    driven.press("esc")?;
    let mut searched = Vec::new();
    for word in ["l i c h e n", "s l u i c e", "S - 0 0 4", "f o g"] {
        driven.press("s")?;
        searched.push(driven.press_all(word, 1)?);
        driven.press("esc")?;
    }
    felt("key in the search of everything", &Times::joined(&searched));
    driven.press("/")?;
    let mut narrowed = vec![driven.press_all("l i c h e n", 1)?];
    driven.press("esc")?;
    driven.press("/")?;
    narrowed.push(driven.press_all("S - 0 0 4 2", 1)?);
    driven.press("esc")?;
    felt(
        "key in the words that narrow the sheets",
        &Times::joined(&narrowed),
    );
    let mut went = Vec::new();
    for _ in 0..10 {
        for screen in ["4", "1", "2"] {
            went.push(driven.press(screen)?);
        }
    }
    felt("going to the prints, sheets, rack", &Times::of(went)?);
    driven.press("5")?;
    let mut boards = Vec::new();
    for _ in 0..3 {
        boards.push(driven.press_all("]", 7)?);
    }
    felt("going to a board of the shelf", &Times::joined(&boards));
    report.add(
        plain(
            "idle: 0 when no tick is asked for and nothing is drawn",
            super::report::Amount::Count(if driven.is_idle() { 0.0 } else { 1.0 }),
        )
        .under(super::report::Amount::Count(0.0)),
    );
    driven.close()?;
    Ok(())
}

/// The memory and the time of a whole process are measured with this.
pub(crate) fn one_picture(path: &Path, now: DateTime<FixedOffset>) -> Result<()> {
    let driven = Driven::open(path, now, (80, 24)).context("the first picture")?;
    black_box(&driven.buffer);
    driven.close()
}
