//! The flash beside the other light, or alone.

use super::chain::Taken;
use super::offers::{Offers, remark};
use super::situation::Situation;
use crate::craft::flash::{Flash, Lit, flash};
use crate::craft::{Amount, Aperture, Concern, Figure, Remark, Step, trimmed};
use crate::figures::{Line, Problem};

/// What the flash asks for.
pub(super) struct Flashed {
    /// The aperture it asks for, with what filters and bellows take from it, in stops from f/1.
    asked: f64,
    /// The aperture that is nearest to it.
    pub(super) aperture: Aperture,
    /// The steps.
    pub(super) steps: Vec<Step>,
    /// What to look at.
    pub(super) remarks: Vec<Remark>,
}

/// Reads the flash, if one was typed.
pub(super) fn of(at: &Situation<'_>, taken: &Taken) -> Result<Option<Flashed>, Problem> {
    let Some(text) = at.given.text("flash") else {
        return Ok(None);
    };
    let wrong = |why: String| at.given.problem("flash", why);
    let typed = Flash::parse(text).map_err(|why| wrong(why.to_string()))?;
    let figure: Figure<Lit> = flash(&typed, at.speed).map_err(|why| wrong(why.to_string()))?;
    let asked = 2.0 * figure.value.number.log2() - taken.stops();
    let aperture = Aperture::nearest(asked).map_err(|why| wrong(why.to_string()))?;
    let mut steps = figure.steps;
    if taken.stops().abs() > 1e-6 {
        steps.push(
            Step::new("flash, filters and bellows", Amount::Aperture(aperture))
                .working(format!("{} stops wider", trimmed(taken.stops(), 2))),
        );
    }
    Ok(Some(Flashed {
        asked,
        aperture,
        steps,
        remarks: figure.remarks,
    }))
}

/// What the flash adds to the setting that was planned for the other light.
pub(super) fn beside(flashed: &Flashed, offers: &Offers) -> (Vec<Line>, Vec<Remark>) {
    let line = Line::new("flash alone", Amount::Aperture(flashed.aperture));
    let mut remarks = flashed.remarks.clone();
    if let Some(planned) = offers.planned {
        let part = (flashed.asked - planned.aperture.stops()).exp2();
        let more = (1.0 + part).log2();
        let share = 100.0 * part / (1.0 + part);
        remarks.push(remark(
            Concern::Note,
            format!(
                "at {} the flash gives {share:.0} % of the light it falls on, {} stop more than the \
                 readings alone; a longer time changes only the other light",
                planned.aperture,
                trimmed(more, 2)
            ),
        ));
    }
    (vec![line], remarks)
}
