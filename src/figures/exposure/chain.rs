//! The reading and its placement, and what filters and bellows take from it.

use super::offers::Offers;
use super::situation::Situation;
use crate::craft::bellows::{Bellows, By, Draw, bellows};
use crate::craft::exposure::{at_speed, time_for};
use crate::craft::meter::Constants;
use crate::craft::zones::{development_words, parse_readings, place};
use crate::craft::{
    Amount, Aperture, Concern, ExposureValue, Figure, FilmSpeed, Grounds, Impossible, Millimetres,
    Remark, Step, Stops, magnification,
};
use crate::figures::{Problem, filters};

/// What the readings were set to.
pub(super) struct Placed {
    /// The exposure value at ISO 100.
    pub(super) set: ExposureValue,
    /// From the darkest to the brightest reading, in stops.
    pub(super) range: f64,
    /// Whether there was more than one reading.
    pub(super) several: bool,
    /// The development that brings the readings onto their zones, N and so much.
    pub(super) development: Option<f64>,
    /// The steps of the placement.
    pub(super) steps: Vec<Step>,
    /// What to look at.
    pub(super) remarks: Vec<Remark>,
    /// What the placement rests on.
    pub(super) grounds: Grounds,
}

/// Reads the readings and places them.
pub(super) fn placed(at: &Situation<'_>) -> Result<Placed, Problem> {
    let Some(text) = at.given.text("readings") else {
        return Err(at.given.missing("readings"));
    };
    let constants = constants(at).map_err(|why| at.given.problem("readings", why.to_string()))?;
    let readings = parse_readings(text, Some(at.speed), &constants)
        .map_err(|why| at.given.problem("readings", why.to_string()))?;
    let figure = place(&readings).map_err(|why| at.given.problem("readings", why.to_string()))?;
    Ok(Placed {
        set: figure.value.set,
        range: figure.value.range.value(),
        several: readings.len() > 1,
        development: figure.value.development,
        // Range and development stand among the results.
        steps: figure.steps.into_iter().take(1).collect(),
        // What is worth knowing of zones in general is told where they are asked for alone.
        remarks: figure
            .remarks
            .into_iter()
            .filter(|remark| remark.concern != Concern::Note)
            .collect(),
        grounds: figure.grounds,
    })
}

/// The constants of the user's meter, or the usual ones.
fn constants(at: &Situation<'_>) -> Result<Constants, Impossible> {
    let mut constants = Constants::default();
    if let Some(own) = at.given.desk().kit.findings().meter {
        let on = Grounds::own(format!("own meter, {}", own.on));
        if let Some(k) = own.reflected {
            constants = constants.with_reflected(k, on.clone())?;
        }
        if let Some(c) = own.incident {
            constants = constants.with_incident(c, on)?;
        }
    }
    Ok(constants)
}

/// What filters and bellows take, in order.
#[derive(Default)]
pub(super) struct Taken {
    /// Each step with its stops.
    pub(super) steps: Vec<(Step, f64)>,
    /// The magnification on the film, where it is known.
    pub(super) magnification: Option<f64>,
}

impl Taken {
    /// All of it together, in stops.
    pub(super) fn stops(&self) -> f64 {
        self.steps.iter().map(|(_, stops)| stops).sum()
    }
}

/// Reads filters and bellows.
pub(super) fn taken(at: &Situation<'_>) -> Result<Taken, Problem> {
    let mut taken = Taken::default();
    if let Some(text) = at.given.text("filter") {
        let film = at.film.as_deref();
        let steps = filters::stack(text, film, at.given.text("light"), at.given.desk())
            .map_err(|why| at.given.problem("filter", why.says))?;
        let with_stops = |step: Step| {
            let stops = in_stops(&step.amount);
            (step, stops)
        };
        taken.steps.extend(steps.into_iter().map(with_stops));
    }
    if let Some((step, figure)) = drawn(at)? {
        taken.magnification = Some(figure.value.magnification);
        taken.steps.push((step, figure.value.stops.value()));
    }
    Ok(taken)
}

/// Where the chain stands before the film's own slowness.
pub(super) struct Walked {
    /// The exposure value at the speed of the film that aperture and time have to come to, with all
    /// that filters and bellows take counted.
    pub(super) wanted: f64,
    /// The magnification on the film, where it is known.
    pub(super) magnification: Option<f64>,
    /// The steps.
    pub(super) steps: Vec<Step>,
}

/// Goes from the placed reading through filters and bellows.
pub(super) fn walk(at: &Situation<'_>, placed: &Placed, taken: &Taken) -> Result<Walked, Problem> {
    let hundred = FilmSpeed::new(100).map_err(|why| Problem::of_all(why.to_string()))?;
    let at_film = at_speed(placed.set, hundred, at.speed)
        .map_err(|why| at.given.problem("readings", why.to_string()))?;
    let mut value = at_film.value();
    let shown = Shown::of(at);
    let film = Step::new(format!("film at {}", at.speed), Amount::Ev(at_film))
        .working(format!("{} + log2({} / 100)", placed.set, at.speed.value()))
        .brings_some(shown.amount(value));
    let mut steps = vec![match &at.speed_rests {
        Some(rests) => film.on(rests.clone()),
        None => film,
    }];
    for (step, stops) in &taken.steps {
        value -= stops;
        steps.push(step.clone().brings_some(shown.amount(value)));
    }
    Ok(Walked {
        wanted: value,
        magnification: taken.magnification,
        steps,
    })
}

/// What the bellows takes, if anything says how far the lens stands from the film.
fn drawn(at: &Situation<'_>) -> Result<Option<(Step, Figure<Bellows>)>, Problem> {
    let given = &at.given;
    let by = if let Some(text) = given.text("magnification") {
        let m = magnification::read(text)
            .map_err(|why| given.problem("magnification", why.to_string()))?;
        Some(("magnification", By::Magnification(m), text.to_owned()))
    } else if let Some(draw) = given.may("draw", Millimetres::parse)? {
        Some(("draw", By::Draw(draw), draw.to_string()))
    } else {
        let distance = given.may("distance", Millimetres::parse)?;
        distance.map(|distance| ("distance", By::Distance(distance), distance.to_string()))
    };
    let Some((key, by, text)) = by else {
        return Ok(None);
    };
    let draw = Draw {
        focal_length: at.lens.focal_length,
        by,
        pupil_ratio: at.lens.pupil_ratio,
        flange: at.lens.flange,
        reversed: false,
    };
    let figure = bellows(&draw).map_err(|why| given.problem(key, why.to_string()))?;
    let workings = figure.steps.iter().map(|step| step.working.as_str());
    let workings: Vec<&str> = workings.filter(|working| !working.is_empty()).collect();
    let step = Step::new(format!("{key} {text}"), Amount::Stops(figure.value.stops))
        .working(workings.join(", "))
        .on(figure.grounds.clone());
    Ok(Some((step, figure)))
}

/// The stops an amount stands for.
pub(super) fn in_stops(amount: &Amount) -> f64 {
    match amount {
        Amount::Stops(stops) => stops.value(),
        Amount::Factor(factor) => Stops::from_factor(*factor).map_or(0.0, Stops::value),
        _ => 0.0,
    }
}

/// How the running result is shown: as the time at the aperture wanted, or as the exposure value.
struct Shown {
    aperture: Option<Aperture>,
}

impl Shown {
    fn of(at: &Situation<'_>) -> Shown {
        Shown {
            aperture: at.aperture,
        }
    }

    fn amount(&self, value: f64) -> Option<Amount> {
        let value = ExposureValue::new(value).ok()?;
        match self.aperture {
            Some(aperture) => time_for(value, aperture).ok().map(Amount::Time),
            None => Some(Amount::Ev(value)),
        }
    }
}

/// What development is asked for, by the readings and by the long exposure.
pub(super) fn development(placed: &Placed, offers: &Offers) -> String {
    let mut words = Vec::new();
    if let Some(n) = placed.development {
        let told = development_words(n);
        words.push(told.strip_prefix("develop ").unwrap_or(&told).to_owned());
    }
    words.extend(offers.development.clone());
    words.join("; ")
}
