//! Where the sun stands at a moment, and how the camera stands to it.

use super::{Spot, named};
use crate::craft::optics::angle::of_view;
use crate::craft::sun::{Bands, Bearing, Framed, Seen, Sun, View, day, sun};
use crate::craft::{Amount, Concern, Step};
use crate::figures::rig::Rig;
use crate::figures::{Answer, Given, Line, Problem};

/// What is said when the sun can get at eyes or camera.
const BURNS: &str = "never look at the sun through the lens, a loupe, a finder or a spot meter: it blinds. On \
                     the ground glass it burns bellows, shutter and cloth: keep the lens covered until \
                     the exposure";

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let spot = Spot::read(given)?;
    let at = spot.moment(given, "at")?;
    let figure = sun(at, spot.place);
    let stands = figure.value;
    let mut answer = Answer::of(figure, |sun| where_it_is(&sun));
    answer.steps.insert(
        0,
        Step::new("moment", Amount::Moment(at)).working(format!(
            "{} from universal time, at {}",
            at.offset(),
            spot.place
        )),
    );
    if let Some(off) = given.number("variation")? {
        if off.abs() > 180.0 {
            return Err(given.problem("variation", "a compass is off by 180 degrees at most"));
        }
        let shown = stands.azimuth.right_by(-off);
        answer = answer.result(Line::new(
            "azimuth by your compass",
            Amount::number(shown.degrees(), "deg", 1),
        ));
    }
    if let Some(next) = next(spot, at)? {
        answer = answer.result(next);
    }
    if let Some(facing) = given.may("facing", Bearing::parse)? {
        answer = in_the_picture(given, answer, &stands, facing)?;
    } else if stands.apparent > 0.0 {
        answer = answer.remark(Concern::Note, BURNS);
    }
    Ok(spot.told(answer, at))
}

fn where_it_is(sun: &Sun) -> Vec<Line> {
    let mut lines = vec![
        Line::new("azimuth", Amount::number(sun.azimuth.degrees(), "deg", 1)),
        Line::new("stands in the", Amount::words(sun.azimuth.point())),
        Line::new("elevation", Amount::number(sun.apparent, "deg", 1)),
    ];
    match sun.shadow() {
        Some(shadow) => lines.extend([
            Line::new(
                "shadows fall toward",
                Amount::number(shadow.toward.degrees(), "deg", 1),
            ),
            Line::new(
                "shadow, in heights of the thing",
                Amount::number(shadow.length, "", 2),
            ),
        ]),
        None => lines.push(Line::new(
            "shadows",
            Amount::words("none, the sun is below the horizon"),
        )),
    }
    lines
}

/// What the sun does next on that day.
fn next(spot: Spot, at: chrono::DateTime<chrono::FixedOffset>) -> Result<Option<Line>, Problem> {
    let day = day(at.date_naive(), spot.zone, spot.place, Bands::default())?.value;
    let mut passes = day.passes.iter();
    let next = passes.find(|pass| pass.at > at);
    Ok(next.map(|pass| {
        let name = format!("next, {}", named(pass.level, pass.rising));
        Line::new(name, Amount::Clock(pass.at))
    }))
}

fn in_the_picture(
    given: &Given<'_>,
    answer: Answer,
    sun: &Sun,
    facing: Bearing,
) -> Result<Answer, Problem> {
    let aside = facing.to(sun.azimuth);
    let Some((across, up)) = angles(given)? else {
        let side = if aside < 0.0 { "left" } else { "right" };
        let words = format!(
            "{:.0} deg to the {side} of where the camera faces",
            aside.abs()
        );
        let answer = answer
            .result(Line::new("the sun is", Amount::words(words)))
            .remark(
                Concern::Note,
                "whether it is in the picture depends on the angle of view: give focal length and format",
            );
        return Ok(answer.remark(Concern::Note, BURNS));
    };
    let pointed = given.number("pointed")?.unwrap_or(0.0);
    let view = View::new(facing, across, up)
        .and_then(|view| view.pointed(pointed))
        .map_err(|why| given.problem("facing", why.to_string()))?;
    let seen = sun.seen_in(&view);
    let answer = answer
        .result(Line::new("sun in the picture", Amount::words(told(&seen))))
        .result(Line::new(
            "angle of view",
            Amount::words(format!("{across:.0} x {up:.0} deg")),
        ));
    Ok(match seen.framed {
        Framed::In => answer.remark(Concern::Warning, format!("the sun is in the picture; {BURNS}")),
        Framed::Near => answer.remark(
            Concern::Warning,
            format!("the sun is near the picture: shade the lens; rise and shift can bring it in; {BURNS}"),
        ),
        Framed::Ahead => answer
            .remark(Concern::Note, "the sun shines on the front of the lens: shade it")
            .remark(Concern::Note, BURNS),
        Framed::Behind | Framed::Down => answer,
    })
}

fn told(seen: &Seen) -> String {
    let side = if seen.right < 0.0 { "left" } else { "right" };
    let height = if seen.above < 0.0 { "below" } else { "above" };
    let place = format!(
        "{:.0} deg {side} and {:.0} deg {height} the middle",
        seen.right.abs(),
        seen.above.abs()
    );
    match seen.framed {
        Framed::In => format!("yes, {place}"),
        Framed::Near => format!("no, but near it: {place}"),
        Framed::Ahead => format!("no: {place}"),
        Framed::Behind => "no, it is behind the camera".to_owned(),
        Framed::Down => "no, it is below the horizon".to_owned(),
    }
}

/// The angles the picture takes in, from side to side and from bottom to top: as typed, or those of
/// the lens on the format.
fn angles(given: &Given<'_>) -> Result<Option<(f64, f64)>, Problem> {
    let (across, up) = (given.number("across")?, given.number("up")?);
    match (across, up) {
        (Some(across), Some(up)) => return Ok(Some((across, up))),
        (Some(_), None) => return Err(given.missing("up")),
        (None, Some(_)) => return Err(given.missing("across")),
        (None, None) => {}
    }
    let mut rig = Rig::of(given)?;
    match (rig.may_focal_length()?, rig.frame()?) {
        (None, None) => Ok(None),
        (Some(_), None) => Err(given.missing("format")),
        (None, Some(_)) => Err(given.missing("focal_length")),
        (Some(focal_length), Some(frame)) => {
            let views = of_view(frame, focal_length, 0.0)
                .map_err(|why| given.problem("focal_length", why.to_string()))?;
            let (long, short) = (views.value.long, views.value.short);
            let stands = frame.height() > frame.width();
            Ok(Some(if stands { (short, long) } else { (long, short) }))
        }
    }
}
