//! The settings that give the exposure: what the film loses in long exposures, and what the lens and
//! its shutter can really be set to.

use super::chain::{Walked, in_stops};
use super::situation::Situation;
use crate::craft::exposure::{Setting, time_for, time_value};
use crate::craft::reciprocity::Corrected;
use crate::craft::series::{Scale, settable_aperture, settable_time};
use crate::craft::shutter::efficiency;
use crate::craft::{
    Amount, Aperture, Concern, ExposureValue, Figure, Grounds, Remark, Seconds, Step, Stops,
    trimmed,
};
use crate::figures::reciprocity::{NamedLaw, laws_for, nothing_known};
use crate::figures::{Line, Problem, shutter};

/// A time up to which every film is taken to answer in proportion, when nothing is known of it:
/// common practice, no source.
const SURELY_SHORT: f64 = 1.0;

/// The longest time that is set on a shutter rather than counted.
const ON_THE_SHUTTER: f64 = 1.0;

/// A setting that gives the exposure.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// The aperture.
    pub aperture: Aperture,
    /// The time to set or to count.
    pub time: Seconds,
    /// How much more light it gives than reckoned: rounding, the shutter as it was tested, and its
    /// slowness at small stops.
    pub error: Stops,
}

impl Offer {
    /// `f/32 at 8.5 s`, with the error if there is one worth knowing.
    pub fn words(&self) -> String {
        let setting = format!("{} at {}", self.aperture, self.time);
        if self.error.value().abs() < 0.05 {
            return setting;
        }
        let sign = if self.error.value() > 0.0 { "+" } else { "" };
        format!("{setting} ({sign}{} stop)", trimmed(self.error.value(), 2))
    }

    /// The setting.
    pub const fn setting(&self) -> Setting {
        Setting {
            aperture: self.aperture,
            time: self.time,
        }
    }
}

/// Everything the reckoning offers.
#[derive(Default)]
pub(super) struct Offers {
    pub(super) offers: Vec<Offer>,
    pub(super) planned: Option<Setting>,
    /// The time at the planned aperture before the film's loss.
    pub(super) metered: Option<Seconds>,
    pub(super) off: Option<Stops>,
    /// Other ways to the same exposure: another published model, opening the lens instead.
    pub(super) others: Vec<Line>,
    pub(super) steps: Vec<Step>,
    pub(super) remarks: Vec<Remark>,
    pub(super) development: Option<String>,
    /// What that rests on.
    pub(super) development_on: Option<Grounds>,
}

/// The settings that come to the exposure value wanted.
pub(super) fn of(at: &Situation<'_>, walked: &Walked) -> Result<Offers, Problem> {
    let laws = at
        .film
        .as_deref()
        .map(|film| laws_for(film, at.given.desk()))
        .unwrap_or_default();
    let reckoner = Reckoner { at, walked, laws };
    let mut offers = Offers::default();
    for aperture in reckoner.apertures(&mut offers)? {
        let Some(metered) = reckoner.metered(aperture) else {
            continue;
        };
        let first = offers.metered.is_none();
        if first {
            offers.metered = Some(metered);
            reckoner.tell(aperture, metered, &mut offers);
        }
        let Some(offer) = reckoner.offer(aperture, metered)? else {
            continue;
        };
        if first {
            reckoner.tell_shutter(&offer, &mut offers);
            offers.planned = Some(offer.setting());
        }
        offers.offers.push(offer);
    }
    if offers.metered.is_none() {
        let says = "no aperture and time within reason give this exposure: look at the readings";
        return Err(at.given.problem("readings", says));
    }
    offers.off = reckoner.off(&offers);
    Ok(offers)
}

struct Reckoner<'s, 'a> {
    at: &'s Situation<'a>,
    walked: &'s Walked,
    laws: Vec<NamedLaw>,
}

impl Reckoner<'_, '_> {
    /// The apertures to offer, the planned one first.
    fn apertures(&self, offers: &mut Offers) -> Result<Vec<Aperture>, Problem> {
        let lens = &self.at.lens;
        let nearest = |stops: f64, scale: Scale| {
            settable_aperture(stops, scale, lens.widest, lens.smallest).ok()
        };
        let around = |first: Aperture, near: &[f64]| {
            let mut all = vec![first];
            for by in near {
                let wanted = first.stops() + by;
                let other = nearest(wanted, Scale::Third).map(|rounded| rounded.value);
                // At the end of the scale the nearest mark is not a stop away.
                all.extend(other.filter(|other| (other.stops() - wanted).abs() < 0.34));
            }
            all
        };
        if let Some(aperture) = self.at.aperture {
            return Ok(around(aperture, &[-1.0, 1.0]));
        }
        if let Some(time) = self.at.time {
            let effective = self.effective(time).ok_or_else(|| {
                let says = "what the film loses at this time is not known: give the aperture";
                self.at.given.problem("time", says)
            })?;
            let wanted = self.walked.wanted - time_value(effective);
            let rounded = settable_aperture(wanted, Scale::Third, lens.widest, lens.smallest)
                .map_err(|why| self.at.given.problem("time", why.to_string()))?;
            offers.steps.push(
                Step::new(format!("for {time}"), Amount::Aperture(rounded.value))
                    .working(format!("f/{} exactly", trimmed(wanted.exp2().sqrt(), 2))),
            );
            return Ok(vec![rounded.value]);
        }
        let middle = nearest(9.0, Scale::Whole).map(|rounded| rounded.value);
        Ok(middle.map_or_else(Vec::new, |middle| around(middle, &[-1.0, 1.0])))
    }

    /// The time at an aperture before the film's loss.
    fn metered(&self, aperture: Aperture) -> Option<Seconds> {
        let value = ExposureValue::new(self.walked.wanted).ok()?;
        time_for(value, aperture).ok()
    }

    /// The law to trust most of those that say something of a time.
    fn best(&self, metered: Seconds) -> Option<&NamedLaw> {
        let says = |law: &&NamedLaw| law.correct(metered).is_ok();
        self.laws.iter().find(says).or_else(|| self.laws.first())
    }

    fn corrected(&self, law: &NamedLaw, metered: Seconds) -> Option<Figure<Corrected>> {
        law.correct(metered).ok()
    }

    /// The time the film needs, where that is known. A film of which nothing is known is trusted with
    /// short times only.
    fn needed(&self, metered: Seconds) -> Option<Seconds> {
        match self.best(metered) {
            Some(law) => self.corrected(law, metered)?.value.time,
            None => (metered.value() <= SURELY_SHORT).then_some(metered),
        }
    }

    /// The time a proportional film would have needed for what this time does to this one.
    fn effective(&self, given: Seconds) -> Option<Seconds> {
        if self.laws.is_empty() {
            return (given.value() <= SURELY_SHORT).then_some(given);
        }
        let (mut low, mut high) = (Seconds::LOWEST, given.value());
        // The needed time grows with the metered one, so halving finds it. Where a maker gives a lens
        // opening only, at least the metered time is needed.
        for _ in 0..60 {
            let middle = (low * high).sqrt();
            let metered = Seconds::new(middle).ok()?;
            let needed = self.needed(metered).unwrap_or(metered);
            if needed.value() < given.value() {
                low = middle;
            } else {
                high = middle;
            }
        }
        Seconds::new(high).ok()
    }

    /// The setting for an aperture: the time the film needs there, or the lens opened for the metered
    /// time where that is all the maker says.
    fn offer(&self, aperture: Aperture, metered: Seconds) -> Result<Option<Offer>, Problem> {
        if let Some(wanted) = self.needed(metered) {
            return self.settable(aperture, wanted).map(Some);
        }
        let opened = self
            .best(metered)
            .and_then(|law| self.corrected(law, metered)?.value.open)
            .map(|open| aperture.stops() - open.value());
        let lens = &self.at.lens;
        let opened = opened.and_then(|stops| {
            settable_aperture(stops, Scale::Third, lens.widest, lens.smallest).ok()
        });
        opened
            .map(|opened| self.settable(opened.value, metered))
            .transpose()
    }

    /// What can be set for a time that is wanted: below a second the mark whose real time, as far as it
    /// was tested, comes nearest.
    fn settable(&self, aperture: Aperture, wanted: Seconds) -> Result<Offer, Problem> {
        let mut best: Option<Offer> = None;
        let around: &[f64] = if wanted.value() < ON_THE_SHUTTER {
            &[0.0, -0.5, 0.5]
        } else {
            &[0.0]
        };
        for by in around {
            let Ok(near) = Seconds::new(wanted.value() * by.exp2()) else {
                continue;
            };
            let time = settable_time(near).value;
            let error = time_value(wanted) - time_value(time) + self.shutter(aperture, time);
            let offer = Offer {
                aperture,
                time,
                error: Stops::new(error).map_err(|why| Problem::of_all(why.to_string()))?,
            };
            let nearer = best
                .as_ref()
                .is_none_or(|known| offer.error.value().abs() < known.error.value().abs());
            if nearer {
                best = Some(offer);
            }
        }
        best.ok_or_else(|| Problem::of_all("no time can be set for this exposure"))
    }

    /// How much more light the shutter gives than its mark says.
    fn shutter(&self, aperture: Aperture, time: Seconds) -> f64 {
        if time.value() > ON_THE_SHUTTER {
            return 0.0;
        }
        match shutter::of_lens(&self.at.lens, time) {
            Some(step) => in_stops(&step.amount),
            None => efficiency(aperture, time).map_or(0.0, |(stops, _)| stops.value()),
        }
    }

    /// Adds what the shutter does to the planned setting.
    fn tell_shutter(&self, offer: &Offer, offers: &mut Offers) {
        if offer.time.value() > ON_THE_SHUTTER {
            return;
        }
        if let Some(step) = shutter::of_lens(&self.at.lens, offer.time) {
            offers.steps.push(step);
        } else if let Some((stops, grounds)) = efficiency(offer.aperture, offer.time) {
            let step = Step::new("shutter at a small stop", Amount::Stops(stops)).on(grounds);
            offers.steps.push(step);
        }
    }

    /// Adds what the film does to the planned time: the step, the other models, the other way.
    fn tell(&self, aperture: Aperture, metered: Seconds, offers: &mut Offers) {
        let Some(law) = self.best(metered) else {
            if metered.value() > SURELY_SHORT {
                let words = match &self.at.film {
                    Some(film) => format!(
                        "{metered} is metered: {}, or open the lens for a second or less",
                        nothing_known(film, self.at.given.desk())
                    ),
                    None => format!(
                        "{metered} is metered: name the film, because what it loses in long \
                         exposures is not known without it"
                    ),
                };
                offers.remarks.push(remark(Concern::Warning, words));
            }
            return;
        };
        let figure = match law.correct(metered) {
            Ok(figure) => figure,
            Err(why) => {
                offers
                    .remarks
                    .push(remark(Concern::Warning, why.to_string()));
                return;
            }
        };
        let corrected = &figure.value;
        let loses = corrected.stops.value().abs() > 1e-6;
        // How to round a correction is worth knowing where there is one.
        let told = |remark: &&Remark| loses || remark.concern != Concern::Note;
        offers
            .remarks
            .extend(figure.remarks.iter().filter(told).cloned());
        if corrected.beyond {
            let words = format!(
                "{metered} is beyond what is published for {}: the correction is carried on, not read",
                self.at.film_name()
            );
            if !offers
                .remarks
                .iter()
                .any(|said| said.concern == Concern::Beyond)
            {
                offers.remarks.push(remark(Concern::Beyond, words));
            }
        }
        if loses || metered.value() >= SURELY_SHORT {
            let working = figure.steps.iter().map(|step| step.working.as_str());
            let working: Vec<&str> = working.filter(|text| !text.is_empty()).collect();
            offers.steps.push(
                Step::new("long exposure, last", Amount::Stops(corrected.stops))
                    .working(format!("{}: {}", law.name, working.join(", ")))
                    .brings_some(corrected.time.map(Amount::Time))
                    .on(figure.grounds.clone()),
            );
        }
        offers.development.clone_from(&corrected.development);
        offers.development_on = corrected
            .development
            .as_ref()
            .map(|_| corrected.rests.development.clone());
        if let Some(open) = corrected.open.filter(|open| open.value().abs() > 1e-6) {
            let rests = corrected.rests.open.clone();
            self.tell_opening(aperture, metered, open, rests, offers);
        }
        for other in self.laws.iter().filter(|other| loses && *other != law) {
            let Some(figure) = self.corrected(other, metered) else {
                continue;
            };
            let Some(time) = figure.value.time else {
                continue;
            };
            let who = other.name.split(',').next().unwrap_or_default();
            let line = Line::new(format!("by {who}"), Amount::Time(time));
            offers.others.push(line.on(figure.value.rests.time));
        }
    }

    /// The maker's other way: the same time with the lens opened.
    fn tell_opening(
        &self,
        aperture: Aperture,
        metered: Seconds,
        open: Stops,
        rests: Grounds,
        offers: &mut Offers,
    ) {
        let lens = &self.at.lens;
        let wanted = aperture.stops() - open.value();
        let words = match settable_aperture(wanted, Scale::Third, lens.widest, lens.smallest) {
            Ok(wider) => format!("{} at {metered} ({open})", wider.value),
            Err(_) => format!("{open}, wider than this lens goes"),
        };
        let line = Line::new("or open the lens", Amount::words(words));
        offers.others.push(line.on(rests));
    }

    /// How far the aperture and time that were typed are from the plan.
    fn off(&self, offers: &Offers) -> Option<Stops> {
        let (aperture, time) = (self.at.aperture?, self.at.time?);
        let effective = self.effective(time)?;
        let given = aperture.stops() + time_value(effective);
        Stops::new(self.walked.wanted - given + self.shutter(aperture, time))
            .ok()
            .filter(|_| offers.metered.is_some())
    }
}

pub(super) fn remark(concern: Concern, words: impl Into<String>) -> Remark {
    Remark {
        concern,
        words: words.into(),
    }
}
