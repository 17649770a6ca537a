//! What was typed of tablets and strips, made into curves.

use crate::craft::sensitometry::readings::{self, Sheet, Strip};
use crate::craft::sensitometry::{
    Channel, Curve, Joined, Tablet, log_exposure, tablet as written_tablet,
};
use crate::craft::{Concern, Density, Remark};
use crate::figures::{Given, Problem};

/// Steps of a tablet of which nothing is said.
const USUAL_STEPS: usize = 21;

/// Strips with the tablet they were exposed through.
pub(super) struct Typed {
    pub(super) sheet: Sheet,
    pub(super) tablet: Tablet,
    bare: Option<f64>,
    joined: Joined,
}

/// Reads what the questions of strips have in common.
pub(super) fn typed(given: &Given<'_>) -> Result<Typed, Problem> {
    let text = given
        .text("readings")
        .ok_or_else(|| given.missing("readings"))?;
    let unread = |why: crate::craft::Impossible| given.problem("readings", why.to_string());
    let tablet = match tablet(given)? {
        Some(tablet) => tablet,
        None => {
            // The tablet may stand beside the readings; how many steps it has is known only then.
            let column = readings::read(text, 1000).map(|sheet| sheet.tablet);
            match column {
                Ok(column) if !column.is_empty() => {
                    Tablet::measured(&column, "the tablet's column beside the readings")
                        .map_err(unread)?
                }
                _ => Tablet::nominal(USUAL_STEPS)?,
            }
        }
    };
    let mut sheet = readings::read(text, tablet.count()).map_err(unread)?;
    if !tablet.measured {
        sheet.remarks.push(Remark {
            concern: Concern::Note,
            words: format!(
                "{} steps as such tablets are meant to be; a tablet that was measured makes better \
                 curves",
                tablet.count()
            ),
        });
    }
    if let Some(word) = given
        .choice("channel")?
        .filter(|word| *word != Channel::Visual.word())
    {
        sheet.remarks.push(Remark {
            concern: Concern::Note,
            words: format!(
                "read in {word} light: compare with gradients and ranges read in the same light only"
            ),
        });
    }
    Ok(Typed {
        sheet,
        tablet,
        bare: bare(given)?,
        joined: given
            .choice("joined")?
            .and_then(Joined::worded)
            .unwrap_or(Joined::Smooth),
    })
}

impl Typed {
    /// The curve of one strip.
    pub(super) fn curve(
        &self,
        strip: &Strip,
        base_fog: Option<Density>,
        given: &Given<'_>,
    ) -> Result<Curve, Problem> {
        Curve::new(
            &strip.readings,
            &self.tablet,
            self.bare,
            base_fog,
            self.joined,
        )
        .map_err(|why| given.problem("readings", why.to_string()))
    }
}

/// The tablet that was typed: how many steps, or the density of each.
pub(in crate::figures) fn tablet(given: &Given<'_>) -> Result<Option<Tablet>, Problem> {
    let problem = |why: crate::craft::Impossible| given.problem("tablet", why.to_string());
    let text = given.text("tablet");
    text.map(|text| written_tablet(text).map_err(problem))
        .transpose()
}

/// Log exposure without the tablet, typed as a logarithm or in lux seconds.
pub(super) fn bare(given: &Given<'_>) -> Result<Option<f64>, Problem> {
    given.may("bare", log_exposure)
}
