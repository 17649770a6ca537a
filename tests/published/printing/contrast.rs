//! Contrast by dichromate in the developer.

use notchbook::craft::Grounds;
use notchbook::craft::printing::contrast::{Between, Contrasts};

use super::near;

/// S. King, contrast table for pure palladium (forum post, published): millilitres of 5 % potassium dichromate in a litre
/// of developer, and the exposure scale.
const KING: [(f64, f64); 6] = [
    (1.0, 1.80),
    (2.0, 1.65),
    (4.0, 1.50),
    (8.0, 1.36),
    (16.0, 1.26),
    (32.0, 1.10),
];

fn king() -> Contrasts {
    let grounds = Grounds::published("S. King, contrast table for pure palladium (forum post)");
    Contrasts::new(&KING, Between::Doublings, grounds).unwrap_or_else(|why| panic!("{why}"))
}

/// Every row as printed, exact; the scale falls with every doubling.
#[test]
fn every_row_of_the_table_is_met() {
    for (ml, scale) in KING {
        near(king().scale_at(ml).unwrap(), scale, 1e-9);
        near(king().setting_for(scale).unwrap(), ml, 1e-9);
    }
    near(king().find_scale(16.0).unwrap().value, 1.26, 1e-9);
}

/// A scale of 1.58: the line of least squares through the table, 1.789 - 0.1374 log2(ml), gives 2.86 ml (derived);
/// between the rows of 2 and 4 ml it is 2.76 ml. Within 0.12 ml of the line.
#[test]
fn between_two_rows_the_table_runs_near_the_line_through_all_of_them() {
    let found = king().find_setting(1.58, "ml").unwrap().value;
    near(found, 2.0 * (0.07_f64 / 0.15).exp2(), 1e-9);
    near(found, ((1.789 - 1.58) / 0.1374_f64).exp2(), 0.12);
}

/// Nothing is printed beyond 1.80 and 1.10, so nothing is given.
#[test]
fn a_scale_outside_the_table_is_declined() {
    for scale in [1.85, 1.05] {
        assert!(king().find_setting(scale, "ml").is_err(), "{scale}");
    }
    assert!(king().find_scale(64.0).is_err());
    assert!(king().find_scale(0.0).is_err());
}
