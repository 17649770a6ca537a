//! What follows while an exposure is typed: the chain from the reading to the setting, or, where
//! nothing was metered, what aperture and time come to.

use super::film::inside;
use super::{Follow, Weight, named};
use crate::craft::exposure::{Setting, at_speed, exposure_value, stops_between};
use crate::craft::{Amount, Aperture, FilmSpeed, Grounds, Seconds, Step};
use crate::figures::exposure::{Offer, Reckoned};
use crate::logbook::draft::Desk;
use crate::logbook::reckoning::Outcome;
use crate::logbook::{Deed, Draft, ThingKind};
use crate::reference::Standing;

/// An error of setting below this is not worth a word, in stops.
const WORTH_KNOWING: f64 = 0.1;

pub(super) fn exposing(
    draft: &Draft,
    desk: &Desk<'_>,
    last: Option<&Deed>,
    reckoned: &Outcome,
) -> Vec<Follow> {
    let mut lines = Vec::new();
    if let Some(life) = named(draft, "side", ThingKind::Side, desk)
        && let Some(side) = life.side()
    {
        lines.extend(inside(side, desk));
    }
    match reckoned {
        Ok(Some(reckoned)) => {
            // The pane says above which sheet it is; the room is for the figures.
            lines.retain(|line| line.weight != Weight::Plain);
            lines.extend(chain(reckoned));
        }
        Ok(None) => lines.extend(as_typed(draft, last)),
        Err(problem) => {
            lines.extend(as_typed(draft, last));
            lines.push(Follow::warning(format!("not reckoned: {problem}")));
        }
    }
    lines.push(Follow::act("then the dark side of the slide outwards"));
    lines
}

/// The steps, what they come to, and what to look at.
fn chain(reckoned: &Reckoned) -> Vec<Follow> {
    let answer = &reckoned.answer;
    let mut lines: Vec<Follow> = answer.steps.iter().map(step).collect();
    lines.extend(offers(&reckoned.offers));
    if let Some(give) = lines.iter_mut().find(|line| line.weight == Weight::Result) {
        give.standing = remembered(&answer.steps);
    }
    // The offers are the first of the results.
    for line in answer.results.iter().skip(reckoned.offers.len()) {
        let follow = Follow::fact(&line.name, in_columns(&line.amount)).also();
        // What rests on the placement itself has said so in the first step.
        let other = line.grounds.as_ref().filter(|on| **on != answer.grounds);
        lines.push(resting_on(follow, other));
    }
    lines.extend(answer.remarks.iter().map(Follow::remark));
    lines
}

/// Whether what is reckoned rests on a number from memory: then it is not said without that word.
pub(super) fn remembered(steps: &[Step]) -> Option<Standing> {
    let mut standings = steps
        .iter()
        .filter_map(|step| step.grounds.as_ref())
        .map(|grounds| grounds.standing);
    standings.find(|standing| *standing == Standing::Remembered)
}

/// The settings, each with how far it is from what was reckoned; said once where that is the same for
/// all, as it is when apertures a stop apart are rounded to times a stop apart.
fn offers(offers: &[Offer]) -> Vec<Follow> {
    let errors: Vec<String> = offers.iter().map(error).collect();
    let same = errors
        .split_first()
        .filter(|(first, rest)| !rest.is_empty() && rest.iter().all(|other| other == *first))
        .map(|(first, _)| first.as_str());
    let mut lines: Vec<Follow> = offers.iter().enumerate().map(offer).collect();
    match same {
        Some("") => {}
        Some(each) => lines.push(Follow::fact("off by", format!("{each} each")).also()),
        None => {
            for (line, error) in lines.iter_mut().zip(errors) {
                line.note = error;
            }
        }
    }
    lines
}

/// A setting, the time first because it is what is set or counted last.
fn offer((index, offer): (usize, &Offer)) -> Follow {
    let value = format!("{}  {}", offer.time, offer.aperture);
    match index {
        0 => Follow::result("give", value),
        _ => Follow::fact("or", value).also(),
    }
}

/// How much more light a setting gives than was reckoned; nothing where it is not worth a word.
fn error(offer: &Offer) -> String {
    let error = offer.error.value();
    if error.abs() < WORTH_KNOWING {
        return String::new();
    }
    format!("{error:+.2} stop")
}

pub(super) fn step(step: &Step) -> Follow {
    let mut value = in_columns(&step.amount);
    if let Some(brings) = &step.brings {
        value.push_str("  ");
        value.push_str(&in_columns(brings));
    }
    resting_on(Follow::fact(&step.name, value), step.grounds.as_ref())
}

pub(super) fn resting_on(follow: Follow, grounds: Option<&Grounds>) -> Follow {
    match grounds {
        Some(grounds) => follow.on(grounds),
        None => follow,
    }
}

/// An amount as it stands in a column: stops to the hundredth, so that they can be added by eye, and
/// times as exactly as anyone can count.
pub(super) fn in_columns(amount: &Amount) -> String {
    match amount {
        Amount::Stops(stops) => format!("{:+.2}", stops.value()),
        Amount::Time(time) => counted(*time),
        Amount::Ev(value) => format!("EV {:.1}", value.value()),
        amount => amount.to_string(),
    }
}

/// A time that nobody sets yet: three figures of it at most, below a quarter of a second as a fraction.
pub(super) fn counted(time: Seconds) -> String {
    let seconds = time.value();
    let below = 1.0 / seconds;
    match seconds {
        ..0.1 => format!("1/{below:.0} s"),
        ..0.25 => format!("1/{below:.1} s"),
        ..1.0 => format!("{seconds:.2} s"),
        ..10.0 => format!("{seconds:.1} s"),
        ..60.0 => format!("{seconds:.0} s"),
        _ => Seconds::new(seconds.round()).map_or_else(|_| time.to_string(), |it| it.to_string()),
    }
}

/// What aperture and time come to without a reading.
fn as_typed(draft: &Draft, last: Option<&Deed>) -> Vec<Follow> {
    let mut lines = Vec::new();
    let aperture = Aperture::parse(draft.get("aperture")).ok();
    let time = Seconds::parse(draft.get("time")).ok();
    let (Some(aperture), Some(time)) = (aperture, time) else {
        return lines;
    };
    let setting = Setting { aperture, time };
    lines.push(Follow::fact("setting", format!("{aperture} at {time}")));
    let value = exposure_value(setting);
    lines.push(Follow::fact("exposure value", value.to_string()));
    if let Ok(speed) = FilmSpeed::parse(draft.get("speed"))
        && let Ok(hundred) = FilmSpeed::new(100)
        && let Ok(value) = at_speed(value, speed, hundred)
    {
        lines.push(Follow::fact("  at ISO 100", value.to_string()));
    }
    if let Some(Deed::Exposed(last)) = last
        && let (Some(aperture), Some(time)) = (last.aperture, last.time)
    {
        let stops = stops_between(Setting { aperture, time }, setting);
        let than = format!("{stops} from the last, {aperture} at {time}");
        lines.push(Follow::fact("difference", than));
    }
    lines
}
