//! Step tablets and what a density lets through.

use notchbook::craft::sensitometry::{Tablet, transmission};
use notchbook::craft::{Density, Standing};

use super::near;

/// US Navy, Photography (Basic), NAVEDTRA 14209, p. 10-40 (published), and a dealer's page on a tablet of
/// 21 steps, capefearpress.com (second-hand): 21 steps of half a stop from 0.05 to 3.05, 11 of a whole stop
/// over the same range. Exact.
#[test]
fn tablets_of_21_and_11_steps_run_from_0_05_to_3_05() {
    let tablet = Tablet::nominal(21).unwrap();
    for (step, density) in [(1, 0.05), (11, 1.55), (21, 3.05)] {
        near(tablet.density(step).unwrap(), density, 1e-12);
    }
    near(
        Tablet::nominal(11).unwrap().density(11).unwrap(),
        3.05,
        1e-12,
    );
    assert_eq!(tablet.grounds.standing, Standing::Published);
}

/// From memory, and told so: 31 steps of 0.10 from 0.05 to 3.05. Exact.
#[test]
fn a_tablet_of_31_steps_is_remembered() {
    let tablet = Tablet::nominal(31).unwrap();
    near(tablet.density(31).unwrap(), 3.05, 1e-12);
    assert_eq!(tablet.grounds.standing, Standing::Remembered);
}

/// Derived from log H = log H0 - D: with 0.35 bare, step 14 (2.00) gets -1.65. Exact.
#[test]
fn a_step_takes_its_density_from_the_exposure() {
    let tablet = Tablet::nominal(21).unwrap();
    near(tablet.log_exposure(14, 0.35).unwrap(), -1.65, 1e-12);
}

/// Derived from T = 10^-D: 0.30 passes 0.5012, 3.05 passes 0.000891. Tolerance 0.1 %.
#[test]
fn a_density_passes_a_tenth_for_every_one() {
    for (density, passes) in [(0.30, 0.5012), (3.05, 0.000_891)] {
        let found = transmission(Density::new(density).unwrap());
        near(found / passes, 1.0, 0.001);
    }
}
