//! What a long draw takes from the light.
//!
//! A lens focused on something near stands further from the film than its focal length, and its light
//! is spread over more film. Everything comes down to the magnification on the film; draw, subject
//! distance and a target measured on the ground glass are ways to it. Promises: more magnification
//! never asks for less exposure, and what no lens can do (a draw shorter than its focal length, a
//! subject nearer than its focal length) is refused. Where to set the standards is left to the figures
//! of focus.

use super::numeral::trimmed;
use super::{Amount, Aperture, Concern, Figure, Grounds, Impossible, Millimetres, Step, Stops};

/// `(draw / focal length)²`.
const BY_DRAW: Grounds = Grounds::published("US Army subcourse SS0512, p. 44");
/// `(1 + m)²`, also for lenses whose draw misleads.
const BY_MAGNIFICATION: Grounds = Grounds::published("Nikon, Micro-Nikkor 55 mm manual, p. 21");
/// `m = f / (D - f)`.
const BY_DISTANCE: Grounds =
    Grounds::published("K. Lee, worked bellows examples, kennethleegallery.com");
/// `m = image / object`.
const BY_TARGET: Grounds = Grounds::published(
    "Focal Press textbook appendix, DOI 10.4324/9780080494012-22 (publisher's abstract)",
);
/// `(1 + m/p)²`.
const BY_PUPILS: Grounds = Grounds::published(
    "\"F-number\", encyclopedia article, section on the working f-number (cites Greivenkamp 2004, p. 29)",
);
/// `((1 + p m) / p)²`.
const REVERSED: Grounds = Grounds::published(
    "APUG post 1057535 on pupil magnification (after a derivation by E. Bigler)",
);
/// `m = (draw - flange) / f`.
const BY_FLANGE: Grounds = Grounds::published(
    "E. Bigler, Large Format Photography Forum, thread 80266, 2011: the draw beyond infinity is f m, \
     for telephoto lenses too",
);

/// Less than this is within what shutters and meters are out anyway, in stops.
const HARDLY: f64 = 1.0 / 6.0;

/// How the magnification is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum By {
    /// The draw, from the lens board (or the rear node) to the ground glass.
    Draw(Millimetres),
    /// The magnification itself, size on the film over real size: 0.5 for half life size.
    Magnification(f64),
    /// The distance from the lens to the subject.
    Distance(Millimetres),
    /// A target at the subject, and its size measured on the ground glass.
    Target {
        /// Its real size.
        real: Millimetres,
        /// Its size on the ground glass.
        image: Millimetres,
    },
}

/// A lens and how far it is racked out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Draw {
    /// Its focal length; magnification and target need none.
    pub focal_length: Option<Millimetres>,
    /// How the magnification is known.
    pub by: By,
    /// Exit pupil over entrance pupil, seen with the front of the lens forward; 1 if not known.
    pub pupil_ratio: Option<f64>,
    /// From the lens board to the film at infinity, for telephoto and retrofocus lenses; the focal
    /// length if not known. Only a draw is counted from it.
    pub flange: Option<Millimetres>,
    /// The rear of the lens faces the subject.
    pub reversed: bool,
}

/// What a draw takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bellows {
    /// Size on the film over real size.
    pub magnification: f64,
    /// How much more exposure it asks for.
    pub stops: Stops,
    /// The same as a factor of the exposure.
    pub factor: f64,
}

/// What the bellows takes: `(1 + m/p)²`, or `((1 + p m) / p)²` with the lens reversed.
///
/// ```
/// use notchbook::craft::Millimetres;
/// use notchbook::craft::bellows::{By, Draw, bellows};
/// let draw = Draw {
///     focal_length: Some(Millimetres::parse("300")?),
///     by: By::Draw(Millimetres::parse("450")?),
///     pupil_ratio: None,
///     flange: None,
///     reversed: false,
/// };
/// assert_eq!(bellows(&draw).unwrap().value.stops.to_string(), "+1.17 stops");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If nothing could be in focus so: no focal length where one is needed, a draw shorter than the
/// focal length (or the flange distance), a subject nearer than the focal length, a magnification
/// below zero, a target of no size, a pupil ratio that is not above zero.
pub fn bellows(draw: &Draw) -> Result<Figure<Bellows>, Impossible> {
    let (magnification, found) = magnification(draw)?;
    let m = magnification;
    let p = pupil_ratio(draw.pupil_ratio)?;
    let (spread, working, grounds) = match (draw.reversed, draw.pupil_ratio) {
        (false, None) => {
            let grounds = found.as_ref().and_then(|step| step.grounds.clone());
            let working = format!("(1 + {})²", short(m));
            (1.0 + m, working, grounds.unwrap_or(BY_MAGNIFICATION))
        }
        (false, Some(_)) => {
            let working = format!("(1 + {} / {})²", short(m), short(p));
            (1.0 + m / p, working, BY_PUPILS)
        }
        (true, _) => {
            let working = format!("((1 + {} x {}) / {})²", short(p), short(m), short(p));
            ((1.0 + p * m) / p, working, REVERSED)
        }
    };
    let factor = spread.powi(2);
    let stops = Stops::from_factor(factor)?;
    let taken = Step::new("bellows", Amount::Stops(stops))
        .working(format!("{working} = {}", Amount::Factor(factor)))
        .on(grounds.clone());
    let value = Bellows {
        magnification,
        stops,
        factor,
    };
    let mut figure = Figure::new(value, grounds).within(domain(draw));
    if let Some(found) = found {
        figure = figure.step(found);
    }
    figure = figure.step(taken);
    if draw.reversed && draw.pupil_ratio.is_none() {
        figure = figure.remark(
            Concern::Warning,
            "a reversed lens without its pupil ratio is taken as symmetrical",
        );
    }
    if stops.value().abs() < HARDLY {
        figure = figure.remark(
            Concern::Note,
            "less than a sixth of a stop: it can be left out",
        );
    }
    Ok(figure)
}

/// Where the formula holds.
fn domain(draw: &Draw) -> &'static str {
    match (draw.by, draw.flange) {
        (By::Draw(_), None) => {
            "draw counted from the lens's rear node; a telephoto or retrofocus lens needs its flange \
             distance, or its magnification"
        }
        (By::Distance(_), _) => "distance counted from the lens, not from the film",
        _ => "",
    }
}

/// The magnification, and the step that found it unless it was given.
fn magnification(draw: &Draw) -> Result<(f64, Option<Step>), Impossible> {
    let (m, working, grounds) = match draw.by {
        By::Magnification(m) => {
            if !(m.is_finite() && m >= 0.0) {
                return Err(Impossible::new(format!(
                    "a magnification of {m} is none: measure something on the ground glass and \
                     divide by its real size, 0.5 for half life size"
                )));
            }
            return Ok((m, None));
        }
        By::Target { real, image } => {
            if real.value() <= 0.0 || image.value() <= 0.0 {
                return Err(Impossible::new(
                    "a target of no size measures nothing: give its real size and its size on the \
                     ground glass, such as 100 mm and 50 mm",
                ));
            }
            let m = image.value() / real.value();
            (m, format!("{image} / {real}"), BY_TARGET)
        }
        By::Distance(distance) => {
            let f = focal_length(draw)?;
            if distance.value() <= f.value() {
                return Err(Impossible::new(format!(
                    "nothing at {distance} can be in focus with a focal length of {f}: measure from \
                     the lens to the subject, which is further away than the focal length"
                )));
            }
            let m = f.value() / (distance.value() - f.value());
            (m, format!("{f} / ({distance} - {f})"), BY_DISTANCE)
        }
        By::Draw(length) => {
            let f = focal_length(draw)?;
            let (infinity, what, grounds) = match draw.flange {
                Some(flange) if flange.value() > 0.0 => (flange, "flange distance", BY_FLANGE),
                Some(_) => {
                    return Err(Impossible::new(
                        "a flange distance of 0 mm is none: measure from lens board to film with \
                         the lens at infinity, or leave it out",
                    ));
                }
                None => (f, "focal length", BY_DRAW),
            };
            if length.value() < infinity.value() {
                return Err(Impossible::new(format!(
                    "a draw of {length} is shorter than the {what} of {infinity}: nothing is in \
                     focus there; measure from the lens board to the ground glass, and give a \
                     telephoto lens its flange distance"
                )));
            }
            let m = (length.value() - infinity.value()) / f.value();
            (m, format!("({length} - {infinity}) / {f}"), grounds)
        }
    };
    let step = Step::new("magnification", Amount::number(m, "", 3))
        .working(format!("{working} = {}", short(m)))
        .on(grounds);
    Ok((m, Some(step)))
}

fn focal_length(draw: &Draw) -> Result<Millimetres, Impossible> {
    match draw.focal_length {
        Some(f) if f.value() > 0.0 => Ok(f),
        Some(_) => Err(Impossible::new(
            "a lens of no focal length forms no image: give its focal length, such as 240 mm",
        )),
        None => Err(Impossible::new(
            "draw and distance tell nothing without the focal length: give it, such as 240 mm, or \
             give the magnification",
        )),
    }
}

fn pupil_ratio(given: Option<f64>) -> Result<f64, Impossible> {
    let p = given.unwrap_or(1.0);
    if p.is_finite() && p > 0.0 {
        return Ok(p);
    }
    Err(Impossible::new(format!(
        "a pupil ratio of {p} is none: divide the width of the opening seen from behind by its width \
         seen from the front, near 1 for most view-camera lenses"
    )))
}

/// Up to three places, and more where the number is small.
fn short(value: f64) -> String {
    trimmed(value, if value.abs() < 0.01 { 5 } else { 3 })
}

/// The f-number that reaches the film, `N √factor`, as the nearest third of a stop.
///
/// # Errors
/// If it is beyond the apertures there are.
pub fn effective(set: Aperture, bellows: &Bellows) -> Result<Figure<Aperture>, Impossible> {
    let reaches = Aperture::nearest(set.stops() + bellows.stops.value())?;
    let number = set.number() * bellows.factor.sqrt();
    let working = format!(
        "{} x √{} = {}",
        trimmed(set.number(), 1),
        trimmed(bellows.factor, 3),
        trimmed(number, 1)
    );
    Ok(Figure::new(reaches, BY_PUPILS).step(
        Step::new("effective aperture", Amount::Aperture(reaches))
            .working(working)
            .on(BY_PUPILS),
    ))
}

/// The draw and the subject distance that give a magnification: `f (1 + m)` and `f (1 + 1/m)`, both
/// from the nodes of a thin lens; no distance at infinity, and nothing beyond the lengths there are.
#[must_use]
pub fn conjugates(
    focal_length: Millimetres,
    magnification: f64,
) -> (Option<Millimetres>, Option<Millimetres>) {
    let f = focal_length.value();
    (
        Millimetres::new(f * (1.0 + magnification)).ok(),
        Millimetres::new(f * (1.0 + 1.0 / magnification)).ok(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn mm(value: f64) -> Millimetres {
        Millimetres::new(value).unwrap()
    }

    fn drawn(focal_length: f64, by: By) -> Draw {
        Draw {
            focal_length: Some(mm(focal_length)),
            by,
            pupil_ratio: None,
            flange: None,
            reversed: false,
        }
    }

    #[test]
    fn what_no_lens_can_do_is_refused_with_what_would_do() {
        let base = drawn(240.0, By::Draw(mm(300.0)));
        for (draw, says) in [
            (
                drawn(240.0, By::Draw(mm(200.0))),
                "shorter than the focal length",
            ),
            (drawn(0.0, By::Draw(mm(200.0))), "no focal length"),
            (
                drawn(240.0, By::Distance(mm(240.0))),
                "nothing at 240 mm can be in focus",
            ),
            (
                drawn(240.0, By::Magnification(-0.5)),
                "magnification of -0.5 is none",
            ),
            (
                drawn(240.0, By::Magnification(f64::NAN)),
                "magnification of NaN is none",
            ),
            (
                drawn(
                    240.0,
                    By::Target {
                        real: mm(0.0),
                        image: mm(5.0),
                    },
                ),
                "a target of no size",
            ),
            (
                Draw {
                    pupil_ratio: Some(0.0),
                    ..base
                },
                "pupil ratio of 0 is none",
            ),
            (
                Draw {
                    pupil_ratio: Some(-1.0),
                    ..base
                },
                "pupil ratio of -1 is none",
            ),
            (
                Draw {
                    flange: Some(mm(0.0)),
                    ..base
                },
                "flange distance of 0 mm is none",
            ),
            (
                Draw {
                    flange: Some(mm(310.0)),
                    ..base
                },
                "shorter than the flange distance",
            ),
            (
                Draw {
                    focal_length: None,
                    ..base
                },
                "without the focal length",
            ),
        ] {
            let why = bellows(&draw).unwrap_err().to_string();
            assert!(why.contains(says), "{why}");
        }
    }

    #[test]
    fn a_telephoto_lens_is_reckoned_from_its_flange_distance() {
        let tele = Draw {
            flange: Some(mm(200.0)),
            ..drawn(360.0, By::Draw(mm(380.0)))
        };
        let figure = bellows(&tele).unwrap();
        assert!((figure.value.magnification - 0.5).abs() < 1e-12);
        assert!((figure.value.factor - 2.25).abs() < 1e-12);
    }

    #[test]
    fn the_steps_show_the_magnification_and_then_what_it_takes() {
        let figure = bellows(&drawn(240.0, By::Draw(mm(294.0)))).unwrap();
        let told: Vec<_> = figure
            .steps
            .iter()
            .map(|step| (step.name.as_ref(), step.working.as_str()))
            .collect();
        assert_eq!(
            told,
            [
                ("magnification", "(294 mm - 240 mm) / 240 mm = 0.225"),
                ("bellows", "(1 + 0.225)² = x1.501"),
            ]
        );
        assert!(
            bellows(&drawn(240.0, By::Magnification(0.2)))
                .unwrap()
                .steps
                .len()
                == 1
        );
    }

    proptest! {
        #[test]
        fn more_extension_never_needs_less_exposure(
            f in 20.0..2000.0_f64,
            near in 0.0..5.0_f64,
            nearer in 0.0..5.0_f64,
            p in 0.2..5.0_f64,
            reversed in any::<bool>(),
        ) {
            let taken = |m: f64| {
                let by = By::Draw(mm(f * (1.0 + m) + 1e-9));
                let draw = Draw { pupil_ratio: Some(p), reversed, ..drawn(f, by) };
                bellows(&draw).unwrap().value.stops.value()
            };
            prop_assert!(taken(near.max(nearer)) >= taken(near.min(nearer)));
        }

        #[test]
        fn draw_distance_target_and_magnification_agree(f in 20.0..2000.0_f64, m in 0.01..5.0_f64) {
            let (draw, distance) = conjugates(mm(f), m);
            let target = By::Target { real: mm(1000.0), image: mm(1000.0 * m) };
            let ways = [
                By::Magnification(m),
                By::Draw(draw.unwrap()),
                By::Distance(distance.unwrap()),
                target,
            ];
            for by in ways {
                let figure = bellows(&drawn(f, by)).unwrap();
                prop_assert!((figure.value.magnification - m).abs() < 1e-6);
                prop_assert!((figure.value.factor - (1.0 + m).powi(2)).abs() < 1e-4);
            }
        }
    }
}
