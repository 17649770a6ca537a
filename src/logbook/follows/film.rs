//! What follows at the camera and in the film darkroom.

use super::{Follow, named, passed, since};
use crate::craft::{LengthUnit, Size};
use crate::logbook::draft::Desk;
use crate::logbook::life::{BoxLife, SideLife, SideState};
use crate::logbook::{Draft, Slide, ThingKind};
use crate::reference::Sides;

/// What is known of the film that is named.
pub(super) fn known(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let Some(film) = desk.reference.film(draft.get("film")) else {
        return Vec::new();
    };
    let mut lines = vec![Follow::fact("film", film.full_name())];
    if let Some((speed, rests)) = film.rated() {
        lines.push(Follow {
            standing: Some(rests.standing),
            source: rests.source.into_owned(),
            ..Follow::fact("speed", format!("ISO {speed}"))
        });
    }
    lines
}

/// What is known of the format that is measured.
pub(super) fn a_format(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let size = Size::parse(draft.get("size")).ok();
    let Some(format) = size.and_then(|size| desk.reference.format_of(size)) else {
        return Vec::new();
    };
    let sides = |label: &str, sides: &Sides| Follow {
        standing: Some(sides.standing),
        source: sides.source.clone(),
        ..Follow::fact(
            label,
            format!("{:.1} x {:.1} mm", sides.width_mm, sides.height_mm),
        )
    };
    let depth = format.holder.as_ref().map(|holder| Follow {
        standing: Some(holder.standing),
        source: holder.source.clone(),
        ..Follow::fact(
            "holder depth",
            format!("{:.2} mm", holder.depth_in * LengthUnit::Inch.in_mm()),
        )
    });
    let image = format
        .image
        .as_ref()
        .map(|image| sides("image area", image));
    let cut = format.cut.as_ref().map(|cut| sides("cut sheet", cut));
    [image, cut, depth].into_iter().flatten().collect()
}

pub(super) fn film_of(film_box: &BoxLife) -> String {
    match film_box.speed {
        Some(speed) => format!("{} at {}", film_box.film, speed),
        None => film_box.film.clone(),
    }
}

pub(super) fn loading(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let mut lines = Vec::new();
    if let Some(life) = named(draft, "film_box", ThingKind::Box, desk)
        && let Some(film_box) = life.film_box()
    {
        lines.push(Follow::fact("film", film_of(film_box)));
        let left = film_box.left.saturating_sub(1);
        lines.push(Follow::fact("left in box", format!("{left} after this")));
        if film_box
            .expiry
            .is_some_and(|expiry| expiry < desk.now.date_naive())
        {
            lines.push(Follow::warning("the box is past its date"));
        }
        if let Some(side) = named(draft, "side", ThingKind::Side, desk)
            && let (Some(takes), Some(size)) =
                (side.side().and_then(|side| side.size), film_box.size)
            && takes != size
        {
            lines.push(Follow::warning(format!(
                "the holder takes {takes}, the box is {size}"
            )));
        }
    }
    lines.push(Follow::act("bright side of the dark slide outwards"));
    lines
}

pub(super) fn unloading(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let Some(life) = named(draft, "side", ThingKind::Side, desk) else {
        return Vec::new();
    };
    let Some(side) = life.side() else {
        return Vec::new();
    };
    let mut lines = inside(side, desk);
    match side.state {
        SideState::Loaded => lines.push(Follow::act("unexposed: back into its own box")),
        SideState::Exposed => lines.push(Follow::act(
            "exposed: to the sheets that wait for development",
        )),
        _ => {}
    }
    lines
}

/// What a side holds and what its slide shows.
pub(super) fn inside(side: &SideLife, desk: &Desk<'_>) -> Vec<Follow> {
    let mut lines = Vec::new();
    let sheet = side.sheet.and_then(|sheet| desk.names.life_of(sheet));
    if let Some(sheet) = &sheet {
        lines.push(Follow::fact("sheet", sheet.reference.clone()));
        let film_box = sheet
            .sheet()
            .and_then(|sheet| sheet.film_box)
            .and_then(|film_box| desk.names.life_of(film_box));
        if let Some(film_box) = film_box.as_ref().and_then(|life| life.film_box()) {
            lines.push(Follow::fact("film", film_of(film_box)));
        }
    }
    let begun = sheet.as_ref().and_then(|life| life.sheet()?.begun);
    if let Some(begun) = begun {
        lines.push(Follow::warning(format!(
            "being exposed: the shutter opened {}, {} ago",
            begun.at.format("%-d %b %H:%M:%S"),
            passed(begun.at, desk.now)
        )));
    }
    if let Some(exposed) = side.exposed {
        lines.push(Follow::warning(format!(
            "exposed {} ({})",
            exposed.format("%-d %b %H:%M"),
            since(exposed, desk.now)
        )));
    }
    if let Some(doubt) = side.doubt {
        lines.push(Follow::warning(format!(
            "in doubt: its slide was seen {} side out",
            doubt.seen.word()
        )));
    }
    lines
}

pub(super) fn in_the_camera(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    named(draft, "side", ThingKind::Side, desk)
        .and_then(|life| Some(inside(life.side()?, desk)))
        .unwrap_or_default()
}

pub(super) fn slide(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let Some(life) = named(draft, "side", ThingKind::Side, desk) else {
        return Vec::new();
    };
    let Some(side) = life.side() else {
        return Vec::new();
    };
    let mut lines = vec![Follow::fact("by the log", life.state_word())];
    lines.extend(inside(side, desk));
    if let Some(expected) = side.slide_by_the_log() {
        lines.push(Follow::fact(
            "slide by the log",
            format!("{} side out", expected.word()),
        ));
        let typed = draft.get("shows").trim().to_lowercase();
        let seen = Slide::ALL
            .iter()
            .copied()
            .find(|slide| !typed.is_empty() && slide.word().starts_with(&typed));
        if seen.is_some_and(|seen| seen != expected) {
            lines.push(Follow::warning(
                "this contradicts the log: the side will be in doubt",
            ));
        }
    }
    lines
}
