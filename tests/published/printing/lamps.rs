//! Lamps, sun and air.

use notchbook::craft::printing::air::{by_humidity, by_index, dark_reaction, irradiance_of_index};
use notchbook::craft::printing::lamp::output;
use notchbook::craft::printing::ultraviolet::{daily_limit, time_to_limit};

use super::{near, time};

/// Copying lamps give about 80 % after 1000 hours: Journal of the Illuminating Engineering Institute of Japan 46(12) (abstract,
/// published). A time 1.25 times as long derived, exact.
#[test]
fn an_old_lamp_takes_a_quarter_longer() {
    near(
        output(time("8 min"), 80.0).unwrap().value.value(),
        600.0,
        1e-6,
    );
}

/// The ultraviolet index is linear: encyclopedia article "Ultraviolet index" (published). Ten minutes at 6 are five at 12
/// (derived), and said to be a guess.
#[test]
fn twice_the_index_is_half_the_time_as_a_first_guess() {
    let guess = by_index(time("10 min"), 6.0, 12.0).unwrap();
    near(guess.value.value(), 300.0, 1e-6);
    assert!(guess.remarks[0].words.starts_with("an estimate"));
}

/// SMHI STRANG, unit conversions (published): 75 mW/m2 are an index of 3, 250 of 10; exact.
#[test]
fn an_index_is_twenty_five_milliwatts() {
    near(irradiance_of_index(3.0), 75.0, 1e-9);
    near(irradiance_of_index(10.0), 250.0, 1e-9);
}

/// J. Kosar as summarized on the alt-photo-process list, 2006 (second-hand): three times as fast for 10 C more, so nine
/// times for 20 C (derived), exact; the sensitivity doubles for 30 % more humidity, exact.
#[test]
fn warmth_and_damp_work_on_dichromate() {
    near(dark_reaction(15.0, 35.0).unwrap().value, 9.0, 1e-9);
    near(
        by_humidity(time("4 min"), 40.0, 70.0)
            .unwrap()
            .value
            .value(),
        120.0,
        1e-6,
    );
}

/// ICNIRP as quoted by UV Light Technology (second-hand): 10 000 J/m2 in 8 h. The steady irradiance derived, 0.347 W/m2
/// within 0.001; 1000 s at 10 W/m2 and 200 s at 50 derived, exact.
#[test]
fn the_daily_limit_of_ultraviolet_a() {
    near(daily_limit(), 0.347, 0.001);
    near(time_to_limit(10.0).unwrap().value.value(), 1000.0, 1e-9);
    near(time_to_limit(50.0).unwrap().value.value(), 200.0, 1e-9);
}
