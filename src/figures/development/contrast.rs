//! What the contrast that is asked for does to a time: by times of the user's own, else by the rule of
//! percentages.

use super::chain::{Walk, Way, remark};
use super::own;
use super::range::told_range;
use super::rows::Told;
use crate::craft::development::asked::Asked;
use crate::craft::development::contrast::{Expansion, changed as by_rule, factor};
use crate::craft::development::gradient::{
    FLARE, USUAL_FLARE, Wanted, as_change, range_for, target,
};
use crate::craft::{Amount, Concern, Figure, Grounds, Seconds, Step};
use crate::figures::{Given, Problem};

/// Two changes of contrast nearer than this are one, in zones.
const SAME: f64 = 0.05;
/// Two temperatures nearer than this are one, in degrees Celsius.
const WARM: f64 = 0.3;

/// The contrast that is wanted.
pub(super) struct Wish {
    /// As a change from normal development.
    pub(super) by: Expansion,
    /// The gradient, where one is wanted.
    pub(super) gradient: Option<f64>,
    /// How the one came of the other.
    steps: Vec<Step>,
    /// Why the gradient is no change between N-2 and N+2: the user's own gradients may know a time.
    beyond: Option<String>,
}

impl Wish {
    /// What is asked for, with a way of printing and a gradient turned into a change of contrast.
    pub(super) fn of(asked: &Asked, given: &Given<'_>) -> Result<Wish, Problem> {
        let mut steps = Vec::new();
        let gradient = match (&asked.printed_as, asked.gradient) {
            (Some(process), _) => Some(for_process(process, asked, given, &mut steps)?),
            (None, Some(_)) if asked.by.is_some() => {
                let says = "a gradient says all of it: leave the change of contrast beside it out";
                return Err(given.problem("contrast", says));
            }
            (None, gradient) => gradient,
        };
        let (by, beyond) = match gradient.map(as_change) {
            None => (asked.change(), None),
            Some(Ok(figure)) => {
                steps.extend(figure.steps);
                (figure.value, None)
            }
            Some(Err(why)) => (Expansion::NORMAL, Some(why.to_string())),
        };
        Ok(Wish {
            by,
            gradient,
            steps,
            beyond,
        })
    }
}

/// The gradient that a way of printing wants of the subject that the change of contrast is meant for.
fn for_process(
    process: &str,
    asked: &Asked,
    given: &Given<'_>,
    steps: &mut Vec<Step>,
) -> Result<f64, Problem> {
    let (what, (least, most), grounds) =
        told_range(process, given).map_err(|why| given.problem("contrast", why.says))?;
    let density_range = (least + most) / 2.0;
    let range = if most > least {
        Amount::words(format!("{least:.2} to {most:.2}"))
    } else {
        Amount::number(least, "", 2)
    };
    steps.push(Step::new(what, range).on(grounds));
    let figure = target(Wanted {
        density_range,
        subject_range: range_for(asked.change()),
        flare: FLARE,
    })
    .map_err(|why| given.problem("contrast", why.to_string()))?;
    steps.push(Step::new("flare", Amount::number(FLARE, "", 2)).on(USUAL_FLARE));
    steps.extend(figure.steps);
    Ok(figure.value)
}

/// The time between two gradients of the user's own, where a gradient is wanted and there are such.
pub(super) fn by_own_gradients(way: &Way<'_, '_>) -> Result<Option<Walk>, Problem> {
    let Some(wanted) = way.wish.gradient else {
        return Ok(None);
    };
    let given = &way.at.given;
    let found = given.desk().kit.findings().developments;
    let dilution = given.may("dilution", crate::craft::Dilution::parse)?;
    let agitation = given.choice("agitation")?;
    let mut points: Vec<(f64, Seconds, String)> = Vec::new();
    for one in found.iter().rev() {
        let fits = own::is_of(one, &way.tables.meant, given.desk().reference)
            && (one.temperature.value() - way.temperature.value()).abs() <= WARM
            && dilution.is_none_or(|it| one.dilution == Some(it))
            && agitation.is_none_or(|it| one.agitation.is_none_or(|of| of.word() == it));
        let Some(gradient) = one.gradient.filter(|_| fits) else {
            continue;
        };
        // The latest finding stands.
        if points
            .iter()
            .all(|(other, time, _)| (other - gradient).abs() > 0.005 && *time != one.time)
        {
            points.push((gradient, one.time, one.on.format("%-d %b %Y").to_string()));
        }
    }
    points.sort_by(|one, other| one.0.total_cmp(&other.0));
    let pair = points
        .iter()
        .zip(points.iter().skip(1))
        .find(|(low, high)| (low.0..=high.0).contains(&wanted));
    let Some((low, high)) = pair.filter(|(low, high)| low.1 < high.1) else {
        return match &way.wish.beyond {
            Some(why) => Err(given.problem("contrast", why.clone())),
            None => Ok(None),
        };
    };
    let part = (wanted - low.0) / (high.0 - low.0);
    let time = Seconds::new(low.1.value() * (high.1.value() / low.1.value()).powf(part))?;
    let own = |(gradient, time, on): &(f64, Seconds, String)| {
        Step::new(format!("own, gradient {gradient:.2}"), Amount::Time(*time))
            .on(Grounds::own(format!("own time, found {on}")))
    };
    let grounds = Grounds::own(format!("own times, found {} and {}", low.2, high.2));
    // How the gradient came of a way of printing is worth knowing, what it would be in zones is not.
    let steps = way
        .wish
        .steps
        .iter()
        .filter(|step| !step.name.starts_with("gradient "));
    let mut figure = Figure::new(time, grounds);
    figure.steps = steps.cloned().collect();
    let figure = figure.step(own(low)).step(own(high)).step(
        Step::new(format!("between, gradient {wanted:.2}"), Amount::Time(time))
            .working(format!("{} x ({} / {})^{part:.3}", low.1, high.1, low.1)),
    );
    Ok(Some(Walk::begin(figure)))
}

/// Takes the contrast that is asked for into the time.
pub(super) fn changed(way: &Way<'_, '_>, walk: &mut Walk, told: Told<'_>) -> Result<(), Problem> {
    if let Some(why) = &way.wish.beyond {
        return Err(way.at.given.problem("contrast", why.clone()));
    }
    walk.steps.extend(way.wish.steps.iter().cloned());
    let (was, by) = (told.change(), way.wish.by);
    if (was.zones() - by.zones()).abs() < SAME {
        if was != Expansion::NORMAL && told.table.origin.is_own() {
            let step = Step::new(by.to_string(), Amount::words("as it was found"));
            walk.steps.push(step.on(told.table.grounds.clone()));
        }
        return Ok(());
    }
    if let Some((low, high)) = own_around(way, told, by)? {
        return between(walk, by, &low, &high);
    }
    let grain = way.tables.meant.grain();
    let ratio = factor(by, grain) / factor(was, grain);
    let grounds = Grounds::usual();
    let working = if was == Expansion::NORMAL {
        let span = by_rule(walk.time, by, grain)?.value;
        let half = match grain {
            crate::craft::development::contrast::Grain::Classic => "",
            crate::craft::development::contrast::Grain::Tabular => ", half of it for flat grain",
        };
        format!("{} to {}{half}", span.least, span.most)
    } else {
        format!(
            "{:.3} / {:.3}, from {was}",
            factor(by, grain),
            factor(was, grain)
        )
    };
    let step = |time| {
        Step::new(by.to_string(), Amount::Factor(ratio))
            .working(working)
            .brings(Amount::Time(time))
    };
    walk.times(ratio, step, Some(&grounds))?;
    walk.remarks.push(remark(
        Concern::Note,
        "the change for contrast is the middle of what common practice leaves open: where a test begins",
    ));
    Ok(())
}

/// A time of the user's own for one change of contrast.
struct OwnTime {
    by: Expansion,
    time: Seconds,
    grounds: Grounds,
}

/// The two times of the user's own between which a change of contrast lies.
fn own_around(
    way: &Way<'_, '_>,
    told: Told<'_>,
    by: Expansion,
) -> Result<Option<(OwnTime, OwnTime)>, Problem> {
    if !told.table.origin.is_own() {
        return Ok(None);
    }
    let mut times: Vec<OwnTime> = Vec::new();
    for other in way.all.iter().filter(|it| it.table.origin.is_own()) {
        let alike = other.row.dilution == told.row.dilution
            && other.row.speed == told.row.speed
            && other.table.agitation == told.table.agitation;
        let change = other.change();
        if !alike
            || times
                .iter()
                .any(|it| (it.by.zones() - change.zones()).abs() < SAME)
        {
            continue;
        }
        let Ok(figure) = way.timed(*other) else {
            continue;
        };
        let mut walk = Walk::begin(figure);
        way.agitated(&mut walk, *other)?;
        times.push(OwnTime {
            by: change,
            time: walk.time,
            grounds: walk.grounds,
        });
    }
    times.sort_by(|one, other| one.by.zones().total_cmp(&other.by.zones()));
    let at = times.windows(2).position(|pair| {
        matches!(pair, [low, high] if (low.by.zones()..=high.by.zones()).contains(&by.zones()))
    });
    Ok(at.and_then(|at| {
        let mut rest = times.into_iter().skip(at);
        Some((rest.next()?, rest.next()?))
    }))
}

fn between(walk: &mut Walk, by: Expansion, low: &OwnTime, high: &OwnTime) -> Result<(), Problem> {
    let part = (by.zones() - low.by.zones()) / (high.by.zones() - low.by.zones());
    let time = low.time.value() * (high.time.value() / low.time.value()).powf(part);
    let ratio = time / walk.time.value();
    let working = format!(
        "between own {} at {} and own {} at {}",
        low.time, low.by, high.time, high.by
    );
    let grounds = if low.grounds.standing < high.grounds.standing {
        low.grounds.clone()
    } else {
        high.grounds.clone()
    };
    let step = |time| {
        Step::new(by.to_string(), Amount::Factor(ratio))
            .working(working)
            .brings(Amount::Time(time))
    };
    walk.times(ratio, step, Some(&grounds))
}
