//! A step tablet printed on a paper: standard printing time and exposure scale.
//!
//! The first steps of a tablet print as the blackest black, each like its neighbour; the last of them
//! is where black begins to open. Further on a step is as white as the paper. Between the two lies the
//! exposure scale, which is the density range a negative should have. Promises: a printed tablet that
//! shows no black or no white gives no scale, because nothing says how far it would go on; a measured
//! tablet counts before the usual one.

use super::{four, within};
use crate::craft::sensitometry::Tablet;
use crate::craft::{Amount, Concern, Density, Figure, Grounds, Impossible, Seconds, Step};

/// Two steps of 0.15 are a stop, four are two.
const BY_STEPS: Grounds = Grounds::published(
    "Ulano, Exposure math for Stouffer transmission gray scale: 1.414 for a step, 2 for two, 4 for four",
);

/// The scale is the density range a negative should have.
pub const SCALE: Grounds = Grounds::published(
    "S. King, contrast table for pure palladium (forum post): the exposure scale equals the density range \
     that is wanted",
);

/// How a tablet came out on paper. Steps are counted from 1, the clearest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Printed {
    /// How long it was exposed.
    pub time: Seconds,
    /// The last step that is as black as the one before, counted from the clear end.
    pub black: usize,
    /// The first step that is as white as the paper.
    pub white: Option<usize>,
}

/// What a printed tablet tells.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standard {
    /// The shortest time that prints the clearest step of the tablet as black.
    pub clear: Seconds,
    /// The same through no density at all.
    pub bare: f64,
    /// The exposure scale; nothing without a white step.
    pub scale: Option<f64>,
}

fn density(tablet: &Tablet, step: usize, what: &str) -> Result<f64, Impossible> {
    tablet.density(step).ok_or_else(|| {
        Impossible::new(format!(
            "there is no step {step} ({what}) on a tablet of {}: steps are counted from 1, the clearest",
            tablet.count()
        ))
    })
}

/// A time lengthened by so much log exposure.
pub(super) fn by_log(time: Seconds, log: f64) -> Result<Seconds, Impossible> {
    Ok(Seconds::new(time.value() * 10_f64.powf(log))?)
}

/// Standard printing time and exposure scale: `t 10^-(Dk - D1)` and `Dw - Dk`.
///
/// # Errors
/// If the tablet has no such step, or white does not come after black.
pub fn standard(tablet: &Tablet, printed: Printed) -> Result<Figure<Standard>, Impossible> {
    let first = density(tablet, 1, "the clearest")?;
    let black = density(tablet, printed.black, "the last black one")?;
    let clear = by_log(printed.time, first - black)?;
    let bare = printed.time.value() * 10_f64.powf(-black);
    let scale = match printed.white {
        None => None,
        Some(white) if white <= printed.black => {
            return Err(Impossible::new(format!(
                "step {white} cannot be white where step {} is black: the white steps have the higher \
                 numbers; turn the tablet round if it was counted from the dense end",
                printed.black
            )));
        }
        Some(white) => Some(density(tablet, white, "the first white one")? - black),
    };
    let value = Standard { clear, bare, scale };
    let mut figure = Figure::new(value, BY_STEPS).step(
        Step::new("standard printing time", Amount::Time(clear))
            .working(format!("{} x 10^-({black:.2} - {first:.2})", printed.time))
            .on(tablet.grounds.clone()),
    );
    if let (Some(scale), Some(white)) = (scale, printed.white) {
        figure = figure.step(
            Step::new("exposure scale", Amount::number(scale, "", 2))
                .working(format!("step {white} less step {}", printed.black))
                .on(SCALE),
        );
    }
    Ok(remarked(figure, tablet, printed))
}

fn remarked(figure: Figure<Standard>, tablet: &Tablet, printed: Printed) -> Figure<Standard> {
    let mut figure = figure.within("the same paper, coating, light, humidity and developer");
    if printed.black == 1 {
        figure = figure.remark(
            Concern::Warning,
            "only the clearest step is black, and it may be short of full black: print longer until two \
             steps or more are alike",
        );
    }
    if printed.white == Some(tablet.count()) {
        figure = figure.remark(
            Concern::Note,
            "only the densest step is white: the scale may be longer than this by part of a step",
        );
    }
    if printed.white.is_none() {
        figure = figure.remark(
            Concern::Note,
            "no exposure scale without the first step that is as white as the paper",
        );
    }
    if !tablet.measured {
        figure = figure.remark(
            Concern::Note,
            "the steps as such tablets are meant to be; a tablet that was measured tells better",
        );
    }
    figure
}

/// The time that puts the last black step from `from` to `to`: `t 10^(Dto - Dfrom)`. More black steps
/// take longer.
///
/// # Errors
/// If the tablet has no such step, or the time cannot be.
pub fn moved_black(
    tablet: &Tablet,
    time: Seconds,
    from: usize,
    to: usize,
) -> Result<Figure<Seconds>, Impossible> {
    let log = density(tablet, to, "where black shall end")?
        - density(tablet, from, "the last black one")?;
    let moved = by_log(time, log)?;
    Ok(Figure::new(moved, BY_STEPS).step(
        Step::new(format!("black to step {to}"), Amount::Time(moved))
            .working(format!("{time} x 10^{}", four(log)))
            .on(tablet.grounds.clone()),
    ))
}

/// The time for a negative whose thinnest printing part has this density: `bare 10^D`.
///
/// # Errors
/// If the time cannot be.
pub fn through(standard: &Standard, thinnest: Density) -> Result<Figure<Seconds>, Impossible> {
    let bare = within("a printing time", standard.bare, 1e-6..=2_592_000.0, "s")?;
    let time = Seconds::new(bare * 10_f64.powf(thinnest.value()))?;
    Ok(Figure::new(time, SCALE).step(
        Step::new("for this negative", Amount::Time(time))
            .working(format!("{} s x 10^{thinnest}", four(bare))),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn printed(black: usize, white: Option<usize>) -> Printed {
        Printed {
            time: Seconds::new(600.0).unwrap(),
            black,
            white,
        }
    }

    #[test]
    fn a_tablet_that_cannot_have_come_out_so_is_refused() {
        let tablet = Tablet::nominal(21).unwrap();
        for (black, white) in [
            (0, None),
            (22, None),
            (3, Some(3)),
            (5, Some(2)),
            (3, Some(22)),
        ] {
            assert!(
                standard(&tablet, printed(black, white)).is_err(),
                "{black} {white:?}"
            );
        }
        let open = standard(&tablet, printed(3, None)).unwrap();
        assert_eq!(open.value.scale, None);
        assert!(open.remarks[0].words.contains("no exposure scale"));
    }

    #[test]
    fn the_clearest_step_and_a_negative_as_clear_print_alike() {
        let tablet = Tablet::nominal(21).unwrap();
        let found = standard(&tablet, printed(3, Some(13))).unwrap().value;
        let negative = through(&found, Density::new(0.05).unwrap()).unwrap();
        assert!((negative.value.value() - found.clear.value()).abs() < 1e-6);
    }
}
