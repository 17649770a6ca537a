//! What to look at before the shutter opens: shake, the draw, the image circle, the sun.

use super::chain::Walked;
use super::offers::{Offers, remark};
use super::situation::Situation;
use crate::craft::optics::Frame;
use crate::craft::optics::angle::of_side;
use crate::craft::optics::coverage::circle_asked;
use crate::craft::optics::movements::Movements;
use crate::craft::sun::{Bearing, Framed, View, position};
use crate::craft::{Concern, Millimetres, Remark};
use crate::reference::Format;

/// Times in which a camera that was just touched still trembles: common practice, no source.
const TREMBLING: std::ops::RangeInclusive<f64> = 1.0 / 30.0..=1.0;

/// The warnings of a reckoning.
pub(super) fn of(at: &Situation<'_>, walked: &Walked, offers: &Offers) -> Vec<Remark> {
    let mut all = Vec::new();
    let planned = offers.planned.map(|setting| setting.time);
    if planned.is_some_and(|time| TREMBLING.contains(&time.value())) {
        all.push(remark(
            Concern::Note,
            "1/30 to 1 s shows a tremble most: let all come to rest (usual)",
        ));
    }
    all.extend(draw(at));
    all.extend(circle(at, walked));
    all.extend(sun(at));
    all
}

/// Whether the camera's bellows reaches the draw.
fn draw(at: &Situation<'_>) -> Option<Remark> {
    let draw = at.given.may("draw", Millimetres::parse).ok()??;
    let camera = at.camera.as_ref()?;
    let words = match (camera.shortest_draw, camera.longest_draw) {
        (_, Some(longest)) if draw > longest => {
            format!("the bellows is too short: {draw} is wanted, {longest} is the most")
        }
        (Some(shortest), _) if draw < shortest => {
            format!("the bellows is too long: {draw} is wanted, {shortest} is the least")
        }
        _ => return None,
    };
    Some(remark(Concern::Warning, words))
}

/// What a circle may fall short before the corners are said to go dark, in millimetres: the opening
/// of holders differs by more, and circles are printed in whole millimetres.
const SPARE: f64 = 1.0;

/// Whether the camera stands otherwise than with everything in the middle.
fn moved(movements: &Movements) -> bool {
    [
        movements.rise(),
        movements.shift(),
        movements.tilt(),
        movements.swing(),
    ]
    .iter()
    .any(|by| *by != 0.0)
}

/// Whether the image circle covers the sheet with its movements.
fn circle(at: &Situation<'_>, walked: &Walked) -> Option<Remark> {
    let circle = at.lens.image_circle?.value();
    let focal_length = at.lens.focal_length?;
    let frame = frame(at)?;
    let magnification = walked.magnification.unwrap_or(0.0);
    let asked = |frame| circle_asked(frame, &at.movements, focal_length, magnification);
    // The sheet may stand upright or lie: the corners are said to go dark only if they do either way.
    let asked = match (asked(frame.landscape()), asked(frame.portrait())) {
        (Ok(lying), Ok(upright)) => lying.value.circle.min(upright.value.circle),
        (Ok(one), Err(_)) | (Err(_), Ok(one)) => one.value.circle,
        (Err(why), Err(_)) => return Some(remark(Concern::Warning, why.to_string())),
    };
    (asked > circle + SPARE).then(|| {
        let wants = if moved(&at.movements) {
            "the movements want"
        } else {
            "the sheet alone wants"
        };
        remark(
            Concern::Warning,
            format!(
                "corners go dark: {wants} an image circle of {asked:.0} mm, this lens has \
                 {circle:.0} mm"
            ),
        )
    })
}

/// The picture on the sheet: of its format where there is one of that size, else the whole sheet.
fn frame(at: &Situation<'_>) -> Option<Frame> {
    let size = at.format?;
    let known = at.given.desk().reference.format_of(size);
    let (wide, high) = match known.map(Format::picture) {
        Some(picture) => (picture.width_mm, picture.height_mm),
        None => size.mm(),
    };
    Frame::new(wide, high).ok()
}

/// Whether the sun is in the picture, where place and direction say so.
fn sun(at: &Situation<'_>) -> Option<Remark> {
    let facing = at.given.may("facing", Bearing::parse).ok()??;
    let (place, _) = at.given.place().ok()??;
    let (frame, focal_length) = (frame(at)?, at.lens.focal_length?.value());
    if focal_length <= 0.0 {
        return None;
    }
    // The sheet may lie or stand, so the longer side is taken both ways.
    let angle = of_side(frame.long(), focal_length, 0.0);
    let view = View::new(facing, angle, angle).ok()?;
    let sun = position(at.given.desk().now.to_utc(), place);
    let words = match sun.seen_in(&view).framed {
        Framed::In => {
            "the sun is in the picture: never look at it through lens or ground glass, and do not \
             leave the lens open, it burns"
        }
        Framed::Near => "the sun is close to the picture: shade the lens against flare",
        Framed::Ahead | Framed::Behind | Framed::Down => return None,
    };
    Some(remark(Concern::Warning, words))
}
