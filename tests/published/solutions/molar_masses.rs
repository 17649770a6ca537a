//! Molar masses.

use notchbook::craft::solutions::molar::mass;

use super::near;

/// The IUPAC abridged standard atomic weights added up by hand (derived), within 0.001; and what the
/// Python library molmass 2026.1.8 gives, which takes sulfur at 32.0648 where the abridged
/// table has 32.06: within 0.006 for each atom of sulfur and 0.01 beside.
#[test]
fn the_masses_of_what_photographers_weigh() {
    for (formula, abridged, library, sulfurs) in [
        ("H2O", 18.015, 18.015, 0),
        ("Na2SO3", 126.037, 126.043, 1),
        ("Na2SO3.7H2O", 252.142, 252.150, 1),
        ("Na2CO3", 105.988, 105.988, 0),
        ("Na2CO3.H2O", 124.003, 124.004, 0),
        ("Na2CO3.10H2O", 286.138, 286.141, 0),
        ("K2CO3", 138.204, 138.206, 0),
        ("Na2S2O3", 158.097, 158.107, 2),
        ("Na2S2O3.5H2O", 248.172, 248.184, 2),
        ("(NH4)2S2O3", 148.195, 148.205, 2),
        ("Na2B4O7.10H2O", 381.363, 381.372, 0),
        ("Na2B4O7.5H2O", 291.288, 291.296, 0),
        ("Na2B4O7", 201.213, 201.219, 0),
        ("NaBO2.4H2O", 137.858, 137.861, 0),
        ("NaBO2", 65.798, 65.800, 0),
        ("H3BO3", 61.831, 61.833, 0),
        ("KAl(SO4)2.12H2O", 474.372, 474.388, 2),
        ("Na2SeO3", 172.948, 172.949, 0),
        ("C6H8O6", 176.124, 176.124, 0),
        ("NaC6H7O6", 198.106, 198.106, 0),
        ("NaHSO3", 104.055, 104.061, 1),
        ("Na2S2O5", 190.095, 190.106, 2),
        ("K2S2O5", 222.311, 222.323, 2),
        ("NaOH", 39.997, 39.997, 0),
        ("KOH", 56.105, 56.106, 0),
        ("KBr", 119.002, 119.002, 0),
        ("NaBr", 102.894, 102.893, 0),
        ("Na2SO4", 142.036, 142.042, 1),
        ("Na2SO4.10H2O", 322.186, 322.195, 1),
        ("CH3COOH", 60.052, 60.052, 0),
        ("C6H8O7", 192.123, 192.124, 0),
        ("C6H8O7.H2O", 210.138, 210.139, 0),
        ("C6H6O2", 110.112, 110.111, 0),
        ("C6H6O3", 126.111, 126.110, 0),
        ("(C7H9NO)2.H2SO4", 344.382, 344.384, 1),
        ("C9H10N2O", 162.192, 162.189, 0),
        ("K3Fe(CN)6", 329.247, 329.245, 0),
        ("K2Cr2O7", 294.181, 294.185, 0),
    ] {
        let reckoned = mass(formula).unwrap();
        near(reckoned, abridged, 0.001);
        near(reckoned, library, 0.01 + 0.006 * f64::from(sulfurs));
    }
}

/// What is sold as sodium metaborate octahydrate is Na2B2O4.8H2O, twice the tetrahydrate: 275.7 (derived); within
/// 0.02.
#[test]
fn metaborate_octahydrate_is_two_of_the_tetrahydrate() {
    let octahydrate = mass("Na2B2O4.8H2O").unwrap();
    near(octahydrate, 275.7, 0.02);
    near(octahydrate, 2.0 * mass("NaBO2.4H2O").unwrap(), 1e-9);
}
