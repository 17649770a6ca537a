//! What stands over a timeline: what the thing is called and is, its state, and in the rule under it
//! what the picture is of.

use chrono::{DateTime, FixedOffset};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::export::shown::{shown_line, width};
use crate::logbook::follows::ago;
use crate::logbook::life::{CameraLife, LensLife, SheetLife};
use crate::logbook::{Life, Names, Particulars, ThingId};
use crate::tui::bench::Bench;
use crate::tui::ink::{line_of, rest_of};
use crate::tui::look::Look;
use crate::tui::theme::Role;

/// The words of a heading.
#[derive(Debug, Clone, Default)]
pub(super) struct Heading {
    reference: String,
    /// What it is; the last pieces are left out where room is short.
    pieces: Vec<String>,
    /// What the picture is of, or another line that may be long.
    subject: String,
    state: String,
    /// Since when, where it matters how long.
    since: Option<DateTime<FixedOffset>>,
    doubt: bool,
}

impl Heading {
    /// The heading of a thing.
    pub(super) fn of(life: &Life, bench: &Bench) -> Heading {
        let (pieces, subject) = what_it_is(life, bench);
        let counts = matches!(
            life.state_word(),
            "loaded"
                | "being exposed"
                | "exposed"
                | "held exposed"
                | "developing"
                | "in process"
                | "under way"
        );
        let doubt = life.side().is_some_and(|side| side.doubt.is_some())
            || life
                .sheet()
                .and_then(|sheet| bench.store.life_of(sheet.side?))
                .is_some_and(|side| side.side().is_some_and(|side| side.doubt.is_some()));
        let away = life.print().and_then(|print| print.placement.as_ref());
        let state = match away {
            Some(placement) => format!("{}, {}", life.state_word(), placement.whereabouts.word()),
            None => life.state_word().to_owned(),
        };
        Heading {
            reference: life.reference.clone(),
            pieces: pieces.into_iter().filter(|it| !it.is_empty()).collect(),
            subject,
            state,
            since: life.since.filter(|_| counts),
            doubt,
        }
    }

    /// Draws the two lines.
    pub(super) fn render(
        &self,
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
        now: DateTime<FixedOffset>,
    ) {
        let line = line_of(area, 0);
        let rest = look.put(buf, line, &self.reference, Role::Heading);
        let (state, role) = match (self.doubt, self.since) {
            (true, _) => ("IN DOUBT".to_owned(), Role::Doubt),
            (_, Some(since)) => (format!("{} {}", self.state, ago(since, now)), Role::Accent),
            _ => (self.state.clone(), Role::Accent),
        };
        let mut rest = look.put_end(buf, rest, &state, role);
        rest.width = rest.width.saturating_sub(2);
        for piece in &self.pieces {
            let wide = width(&shown_line(piece)) + 2;
            let first = rest.width > 0 && piece == self.pieces.first().unwrap_or(piece);
            if wide > usize::from(rest.width) && !first {
                break;
            }
            rest = look.put(buf, rest_of(rest, 2), piece, Role::Text);
        }
        let rule = line_of(area, 1);
        look.put_rule(buf, rule);
        if !self.subject.is_empty() {
            let room = rule.width.saturating_sub(4);
            let place = Rect {
                width: room,
                ..rest_of(rule, 2)
            };
            look.put_all(
                buf,
                place,
                [
                    (" ", Role::Text),
                    (&*self.subject, Role::Text),
                    (" ", Role::Text),
                ],
            );
        }
    }
}

fn said<T: ToString>(value: Option<T>) -> String {
    value.map(|value| value.to_string()).unwrap_or_default()
}

/// The pieces that say what a thing is, and what its picture is of.
fn what_it_is(life: &Life, bench: &Bench) -> (Vec<String>, String) {
    let called = |id: ThingId| bench.store.reference_of(id);
    match &life.particulars {
        Particulars::Sheet(sheet) => film_of(sheet, bench),
        Particulars::Side(side) => {
            let sheet = side.sheet.and_then(|sheet| bench.store.life_of(sheet));
            match sheet.as_ref().and_then(|life| Some((life, life.sheet()?))) {
                Some((life, sheet)) => {
                    let (mut pieces, subject) = film_of(sheet, bench);
                    pieces.insert(0, life.reference.clone());
                    (pieces, subject)
                }
                None => (vec![said(side.size)], String::new()),
            }
        }
        Particulars::Print(print) => {
            let process = bench.reference.process(&print.process);
            let process = process.map_or(print.process.as_str(), |process| &process.short);
            let from: Vec<String> = print.negatives.iter().map(|id| called(*id)).collect();
            let subject = print.title.clone().unwrap_or_default();
            (
                vec![
                    process.to_owned(),
                    format!("from {}", from.join(", ")),
                    said(print.size),
                ],
                match &print.number {
                    Some(number) => format!("{subject}  {number}"),
                    None => subject,
                },
            )
        }
        Particulars::Box(film) => (
            vec![
                film.film.clone(),
                said(film.size),
                format!("{} left", film.left),
            ],
            film.emulsion
                .as_ref()
                .map(|number| format!("emulsion {number}"))
                .unwrap_or_default(),
        ),
        Particulars::Paper(paper) => (
            vec![
                paper.name.clone(),
                said(paper.size),
                format!("{} left", paper.left),
            ],
            paper.sort.clone().unwrap_or_default(),
        ),
        Particulars::Bath(bath) => {
            let name = match &bath.dilution {
                Some(dilution) => format!("{} {dilution}", bath.name),
                None => bath.name.clone(),
            };
            let wear = bath.wear();
            let used = match wear.bar() {
                Some(bar) => format!("{bar} {} used", wear.gone_through()),
                None => wear.gone_through(),
            };
            let warnings = wear.warnings(bench.now().date_naive());
            (vec![name, said(bath.volume), used], warnings.join("; "))
        }
        Particulars::Run(run) => {
            let setting = match (run.time, run.temperature) {
                (Some(time), Some(temperature)) => format!("{time} at {temperature}"),
                (time, temperature) => format!("{}{}", said(time), said(temperature)),
            };
            let sheets: Vec<String> = run.sheets.iter().map(|id| called(*id)).collect();
            (vec![setting], sheets.join(", "))
        }
        Particulars::Set(set) => {
            let sheets: Vec<String> = set.sheets.iter().map(|id| called(*id)).collect();
            (vec![sheets.join(", ")], String::new())
        }
        Particulars::Lens(lens) => (vec![lens.name.clone()], lens_in_words(lens)),
        Particulars::Finding(finding) => match &finding.found {
            Some(found) => (
                vec![found.sort().to_owned(), found.about().to_owned()],
                found.says(),
            ),
            None => (Vec::new(), String::new()),
        },
        Particulars::Camera(camera) => (vec![camera.name.clone()], camera_in_words(camera)),
        Particulars::Holder(holder) => (
            vec![said(holder.size), holder.make.clone().unwrap_or_default()],
            String::new(),
        ),
    }
}

/// What figures need to know of a lens, as far as it was said.
fn lens_in_words(lens: &LensLife) -> String {
    let apertures = match (lens.widest, lens.smallest) {
        (Some(widest), Some(smallest)) => Some(format!("{widest} to {smallest}")),
        (one, other) => one.or(other).map(|aperture| aperture.to_string()),
    };
    let circle = lens.image_circle.map(|circle| format!("circle {circle}"));
    let length = lens.focal_length.map(|length| length.to_string());
    let parts = [length, apertures, circle, lens.shutter.clone()];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(", ")
}

fn camera_in_words(camera: &CameraLife) -> String {
    let draw = match (camera.shortest_draw, camera.longest_draw) {
        (Some(shortest), Some(longest)) => Some(format!("draw {shortest} to {longest}")),
        (Some(shortest), None) => Some(format!("draw from {shortest}")),
        (None, Some(longest)) => Some(format!("draw up to {longest}")),
        (None, None) => None,
    };
    let size = camera.size.map(|size| size.to_string());
    let parts: Vec<String> = [size, draw].into_iter().flatten().collect();
    parts.join(", ")
}

/// The film of a sheet, its size, and what the last exposure says is in the picture.
fn film_of(sheet: &SheetLife, bench: &Bench) -> (Vec<String>, String) {
    let film_box = sheet.film_box.and_then(|id| bench.store.life_of(id));
    let film = film_box.as_ref().and_then(|life| life.film_box());
    let name = film.map_or_else(String::new, |film| match film.speed {
        Some(speed) => format!("{} @{speed}", film.film),
        None => film.film.clone(),
    });
    let size = film.and_then(|film| film.size);
    let subject = sheet
        .exposures
        .iter()
        .rev()
        .find_map(|one| one.subject.clone());
    (vec![said(size), name], subject.unwrap_or_default())
}
