//! The sheet itself: where its emulsion lies in the holder, and what years past its date take from it.
//!
//! A ground glass is right when it stands where the emulsion will stand, which is nearer to the lens
//! than the septum of the holder by the thickness of the film. Age is another matter: there is no
//! maker's formula for it, only rules of people who have tried, and this says so.

use super::numeral::trimmed;
use super::{
    Amount, Concern, Figure, FilmSpeed, Grounds, Impossible, Millimetres, Step, Stops, Unreadable,
};

/// The depth of the emulsion in the holder: that of the septum, which carries the back of the film,
/// less the thickness of the film.
///
/// # Errors
/// If the film is no thinner than the holder is deep, or has no thickness.
pub fn emulsion_plane(
    septum: Millimetres,
    base: Millimetres,
) -> Result<Figure<Millimetres>, Impossible> {
    let (deep, thick) = (septum.value(), base.value());
    if thick <= 0.0 || thick >= deep {
        return Err(Impossible::new(format!(
            "a film of {base} does not lie in a holder {septum} deep: film is about 0.007 in thick"
        )));
    }
    let plane = Millimetres::new(deep - thick)?;
    let grounds = Grounds::published(
        "depth less film, as on the alt-photo-process list, May 2002 (second-hand)",
    );
    let working = format!("{} mm - {} mm", trimmed(deep, 3), trimmed(thick, 3));
    let step = Step::new("emulsion plane", Amount::Length(plane)).working(working);
    Ok(Figure::new(plane, grounds).step(step))
}

/// How far either way the film may lie for points of the image to stay within a circle of
/// `circle_mm`, at f/`number`: N c, half the depth of focus. Both above zero.
#[must_use]
pub fn focus_tolerance(number: f64, circle_mm: f64) -> f64 {
    number * circle_mm
}

/// The exposure that film past its date is given more by a rule that counts years to a stop.
///
/// # Errors
/// If the years are below nothing, or a stop is said to take no time.
pub fn lost_with_age(
    years: f64,
    years_a_stop: f64,
    grounds: Grounds,
) -> Result<Figure<Stops>, Impossible> {
    if !(0.0..=150.0).contains(&years) {
        return Err(Impossible::new(format!(
            "{years} years past its date cannot be: it is 0 or more, and no more than 150"
        )));
    }
    if !(years_a_stop >= 1.0 && years_a_stop.is_finite()) {
        return Err(Impossible::new(format!(
            "{years_a_stop} years for a stop cannot be: it is 1 or more, such as 10"
        )));
    }
    let stops = Stops::new(years / years_a_stop)?;
    let working = format!("{} / {}", trimmed(years, 1), trimmed(years_a_stop, 1));
    let step = Step::new("years past date", Amount::Stops(stops)).working(working);
    Ok(Figure::new(stops, grounds.clone())
        .step(step.on(grounds))
        .remark(
            Concern::Warning,
            "a practitioner's rule: no maker and no standard gives one; how the film was kept counts \
             for more, so test a sheet",
        ))
}

/// The speed with so many degrees on the logarithmic scale: 400 for 27.
///
/// The series of speeds goes by thirds of a stop, ten steps to a factor of ten.
///
/// # Errors
/// If there is no such whole arithmetic speed within the range of [`FilmSpeed`].
pub fn speed_of_degrees(degrees: u32) -> Result<FilmSpeed, Unreadable> {
    const SERIES: [f64; 10] = [1.0, 1.25, 1.6, 2.0, 2.5, 3.2, 4.0, 5.0, 6.4, 8.0];
    let wanted = "a speed in degrees: write it from 7 to 57, such as 27 for ISO 400";
    let none = || Unreadable::new(&degrees.to_string(), wanted);
    let step = degrees.checked_sub(1).filter(|_| degrees <= 57);
    let step = step.ok_or_else(none)?;
    let decade = i32::try_from(step / 10).map_err(|_| none())?;
    let place = usize::try_from(step % 10).map_err(|_| none())?;
    let value = SERIES.get(place).ok_or_else(none)? * 10_f64.powi(decade);
    // At most 409600 after the check of the degrees, so the cast loses nothing but the half of 12.5.
    let speed = FilmSpeed::new(value as u32)?;
    if speed.degrees() == degrees {
        Ok(speed)
    } else {
        Err(none())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_film_thicker_than_its_holder_is_refused() {
        let mm = |value| Millimetres::new(value).unwrap();
        assert!(emulsion_plane(mm(5.0), mm(5.0)).is_err());
        assert!(emulsion_plane(mm(5.0), mm(0.0)).is_err());
        let plane = emulsion_plane(mm(5.0038), mm(0.1778)).unwrap().value;
        assert!((plane.value() - 4.826).abs() < 1e-9);
    }

    #[test]
    fn age_counts_from_the_date_on_and_never_backwards() {
        let usual = Grounds::usual;
        assert_eq!(
            lost_with_age(20.0, 10.0, usual()).unwrap().value.value(),
            2.0
        );
        for (years, a_stop) in [(-1.0, 10.0), (1e9, 10.0), (10.0, 0.0), (10.0, f64::NAN)] {
            assert!(lost_with_age(years, a_stop, usual()).is_err());
        }
    }

    #[test]
    fn degrees_below_the_whole_speeds_are_refused() {
        for degrees in [0, 2, 5, 58, 4_000_000_000] {
            assert!(speed_of_degrees(degrees).is_err(), "{degrees}");
        }
        assert_eq!(speed_of_degrees(12).unwrap().value(), 12);
        assert_eq!(speed_of_degrees(33).unwrap().value(), 1600);
    }

    proptest! {
        #[test]
        fn degrees_come_back_from_their_speed(degrees in 6_u32..=57) {
            prop_assert_eq!(speed_of_degrees(degrees).unwrap().degrees(), degrees);
        }
    }
}
