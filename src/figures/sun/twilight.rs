//! What light tables give for the sun's going, set beside the times of a day.
//!
//! Tables know a few points and ranges: full sun, just before sunset, at it, just after, twilight,
//! starlight. They stand here as they were read. Nothing is drawn between them: how fast the light goes
//! depends on the sky.

use chrono::{DateTime, FixedOffset, TimeDelta};

use super::Spot;
use crate::craft::meter::Constants;
use crate::craft::sun::{Bands, Day, Level, Pass, day, position};
use crate::craft::{Amount, Concern, ExposureValue, Grounds, Standing, moment};
use crate::figures::light::constants;
use crate::figures::scene::between;
use crate::figures::{Answer, Given, Line, Problem, Table};

/// Tables give direct sun for the time from two hours after sunrise to two hours before sunset.
const CLEAR_OF_HORIZON: TimeDelta = match TimeDelta::try_hours(2) {
    Some(hours) => hours,
    None => TimeDelta::zero(),
};

/// How far from sunrise or sunset "at sunset" is taken to hold; our own choice.
const AT: TimeDelta = match TimeDelta::try_minutes(5) {
    Some(minutes) => minutes,
    None => TimeDelta::zero(),
};

/// How long after noon a passing still belongs to the evening.
const NIGHT: TimeDelta = match TimeDelta::try_hours(18) {
    Some(hours) => hours,
    None => TimeDelta::zero(),
};

type Moment = DateTime<FixedOffset>;

/// A line of a table of light, and the part of the day it speaks of.
#[derive(Debug)]
struct Part {
    name: &'static str,
    /// Its scene in the reference.
    scene: &'static str,
    /// When it begins; with the day if there is nothing.
    from: Option<Moment>,
    /// When it ends; with the day if there is nothing.
    to: Option<Moment>,
}

impl Part {
    fn holds(&self, at: Moment) -> bool {
        match (self.from, self.to) {
            (Some(from), Some(to)) if from == to => (at - from).abs() <= AT,
            (from, to) => from.is_none_or(|from| from <= at) && to.is_none_or(|to| at <= to),
        }
    }
}

pub(super) fn answer(given: &Given<'_>) -> Result<Answer, Problem> {
    let spot = Spot::read(given)?;
    let date = spot.date(given)?;
    let now = spot.zone.of(given.desk().now);
    let typed = given.may("time", |text| {
        moment::parse(&format!("{date} {text}"), now, spot.zone)
    })?;
    let at = typed.or_else(|| given.text("date").is_none().then_some(now));
    let meter = constants(given)?;
    let figure = day(date, spot.zone, spot.place, Bands::default())?;
    let next = date
        .succ_opt()
        .and_then(|next| day(next, spot.zone, spot.place, Bands::default()).ok())
        .map(|next| next.value);
    let evening = Evening::of(&figure.value, next.as_ref());
    let parts = parts(&evening);
    let mut answer = Answer::of(figure, |_| times(&evening)).table(Table {
        heads: vec![
            "light".into(),
            "from".into(),
            "to".into(),
            "at ISO 100".into(),
            String::new().into(),
        ],
        rows: Vec::new(),
    });
    let mut holding = Vec::new();
    for part in &parts {
        let Some((from, to, grounds)) = light(given, part.scene, &meter)? else {
            continue;
        };
        let values = Amount::words(between(from, to));
        if at.is_some_and(|at| part.holds(at)) {
            holding.push(Line::new(part.name, values.clone()).on(grounds.clone()));
        }
        if let Some(table) = &mut answer.table {
            table.rows.push(vec![
                Amount::words(part.name),
                part.from.map_or_else(|| Amount::words(""), Amount::Clock),
                part.to.map_or_else(|| Amount::words(""), Amount::Clock),
                values,
                Amount::words(grounds.standing.word()),
            ]);
        }
    }
    if let Some(at) = at {
        answer = at_that_time(answer, spot, at, holding);
    }
    if parts.is_empty() {
        answer = answer.remark(
            Concern::Note,
            "tables speak of sunrise, sunset and night; this day has none of them",
        );
    }
    answer = answer.remark(
        Concern::Note,
        "the tables do not say how near just before and just after sunset are, nor which part of \
         twilight theirs is: that they are set here to the golden hour and to the blue hour is our own \
         reading",
    );
    answer = answer.remark(
        Concern::Beyond,
        "between these values nothing is published: meter again and again, and give the light that is \
         lost while the shutter is open",
    );
    Ok(spot.told(answer, evening.noon))
}

/// What the sun does from one midnight to the night after: the day, and the passings of the next one
/// that belong to its evening.
struct Evening {
    noon: Moment,
    passes: Vec<Pass>,
}

impl Evening {
    fn of(day: &Day, next: Option<&Day>) -> Evening {
        let noon = day.noon.unwrap_or(day.from);
        let mut passes = day.passes.clone();
        let late = next.map(|next| &next.passes).into_iter().flatten();
        passes.extend(late.filter(|pass| pass.at - noon < NIGHT).copied());
        Evening { noon, passes }
    }

    /// When the sun last passes a level rising before noon.
    fn up(&self, level: Level) -> Option<Moment> {
        let mut rising = self.passes.iter().filter(|pass| pass.rising);
        let last = rising.rfind(|pass| pass.level == level && pass.at < self.noon);
        last.map(|pass| pass.at)
    }

    /// When it first passes it sinking after noon.
    fn down(&self, level: Level) -> Option<Moment> {
        let mut sinking = self.passes.iter().filter(|pass| !pass.rising);
        let first = sinking.find(|pass| pass.level == level && pass.at > self.noon);
        first.map(|pass| pass.at)
    }
}

/// The parts of a day of which tables speak, in its order.
fn parts(evening: &Evening) -> Vec<Part> {
    let (sunrise, sunset) = (evening.up(Level::Horizon), evening.down(Level::Horizon));
    let dawn = evening.up(Level::Astronomical);
    let dusk = evening.down(Level::Astronomical);
    let mut parts = Vec::new();
    let mut part = |name, scene, from, to| {
        parts.push(Part {
            name,
            scene,
            from,
            to,
        });
    };
    if dawn.is_some() {
        part("starlight", "level-stars", None, dawn);
    }
    let (light, blue) = (evening.up(Level::Civil), evening.up(Level::Golden));
    if light.is_some() && blue.is_some() {
        part("twilight, on the ground", "level-twilight", light, blue);
    }
    if sunrise.is_some() {
        part(
            "clear sunrise, on the ground",
            "level-sunrise",
            sunrise,
            sunrise,
        );
        part(
            "overcast sunrise, on the ground",
            "level-sunrise-overcast",
            sunrise,
            sunrise,
        );
    }
    if let (Some(sunrise), Some(sunset)) = (sunrise, sunset) {
        let (from, to) = (sunrise + CLEAR_OF_HORIZON, sunset - CLEAR_OF_HORIZON);
        if from < to {
            part("full sun from the front", "sun", Some(from), Some(to));
        }
    }
    if sunset.is_some() {
        let golden = evening.down(Level::High).unwrap_or(evening.noon);
        part(
            "sky just before sunset",
            "before-sunset",
            Some(golden),
            sunset,
        );
        part("sky at sunset", "sunset", sunset, sunset);
        part(
            "clear sunset, on the ground",
            "level-sunrise",
            sunset,
            sunset,
        );
        part(
            "overcast sunset, on the ground",
            "level-sunrise-overcast",
            sunset,
            sunset,
        );
    }
    let (blue, dark) = (evening.down(Level::Golden), evening.down(Level::Civil));
    if sunset.is_some() && blue.is_some() {
        part("sky just after sunset", "after-sunset", sunset, blue);
    }
    if blue.is_some() && dark.is_some() {
        part("twilight, on the ground", "level-twilight", blue, dark);
    }
    if dusk.is_some() {
        part("scene lit by the full moon", "moonlit-full", dusk, None);
        part("starlight", "level-stars", dusk, None);
    }
    parts
}

/// The exposure values of a scene at ISO 100, the darker first: as the user found them, else as the
/// reference has them; nothing if it has none.
fn light(
    given: &Given<'_>,
    id: &str,
    meter: &Constants,
) -> Result<Option<(ExposureValue, ExposureValue, Grounds)>, Problem> {
    let Some(scene) = given.desk().reference.scene(id) else {
        return Ok(None);
    };
    let called = |name: &str| {
        let mut names = [id, &scene.name]
            .into_iter()
            .chain(scene.also.iter().map(String::as_str));
        names.any(|one| one.to_lowercase() == name.to_lowercase())
    };
    let own = given.desk().kit.findings().scenes;
    if let Some(own) = own.iter().rev().find(|own| called(&own.scene)) {
        let grounds = Grounds::new(Standing::Own, format!("own finding, {}", own.on));
        return Ok(Some((own.value, own.value, grounds)));
    }
    let (from, to) = scene.light.values(meter)?;
    let grounds = Grounds::new(scene.standing, scene.source.clone());
    Ok(Some((from, to, grounds)))
}

fn times(evening: &Evening) -> Vec<Line> {
    let lines = [
        ("sunset", Level::Horizon),
        ("golden hour ends, blue hour", Level::Golden),
        ("civil dusk", Level::Civil),
        ("nautical dusk", Level::Nautical),
        ("night", Level::Astronomical),
    ];
    let lines = lines.into_iter().map(|(name, level)| {
        let at = evening.down(level);
        Line::new(
            name,
            at.map_or_else(|| Amount::words("none"), Amount::Clock),
        )
    });
    lines.collect()
}

/// What holds at a time, before the times of the evening.
fn at_that_time(mut answer: Answer, spot: Spot, at: Moment, holding: Vec<Line>) -> Answer {
    let sun = position(at.to_utc(), spot.place);
    let mut lines = vec![
        Line::new("at", Amount::Clock(at)),
        Line::new(
            "elevation of the sun",
            Amount::number(sun.apparent, "deg", 1),
        ),
        Line::new("it is", Amount::words(called(sun.elevation))),
    ];
    if holding.is_empty() {
        lines.push(Line::new(
            "light by tables",
            Amount::words("nothing for this hour, meter it"),
        ));
    }
    lines.extend(holding);
    lines.append(&mut answer.results);
    answer.results = lines;
    answer
}

fn called(elevation: f64) -> &'static str {
    let bands = Bands::default();
    let above = |level| elevation >= bands.elevation(level);
    if above(Level::High) {
        "day"
    } else if above(Level::Golden) {
        "golden hour"
    } else if above(Level::Civil) {
        "blue hour"
    } else if above(Level::Nautical) {
        "nautical twilight"
    } else if above(Level::Astronomical) {
        "astronomical twilight"
    } else {
        "night"
    }
}
