//! Laws of people who tested, rough guides, the order of work, and what holds for every law.

use super::*;

/// B. Barnbaum, The Art of Photography, 1994, p. 77, as repeated by seeinglight.com (second-hand).
/// Exact. The rise in contrast he gives is answered by N minus as much.
#[test]
fn barnbaums_practice_tables() {
    let minutes = 60.0;
    let tri_x = law("Tri-X 320", "Barnbaum");
    for (metered, needed, develop) in [
        ("2", 3.0, "N-1/2"),
        ("5", 8.0, "N-1/2"),
        ("10", 18.0, "N-1/2"),
        ("15", 30.0, "N-1"),
        ("20", 45.0, "N-1"),
        ("30", 75.0, "N-1"),
        ("1 min", 3.0 * minutes, "N-1 1/2"),
        ("2 min", 7.0 * minutes, "N-1 1/2"),
        ("4 min", 16.0 * minutes, "N-1 1/2"),
        ("10 min", 50.0 * minutes, "N-2"),
        ("20 min", 140.0 * minutes, "N-2"),
        ("30 min", 240.0 * minutes, "N-2"),
    ] {
        near(time(&tri_x, metered), needed, 1e-6);
        assert_eq!(at(&tri_x, metered).development.as_deref(), Some(develop));
    }
    let t_max = law("T-MAX 100", "Barnbaum");
    for (metered, needed, develop) in [
        ("2", 2.5, "N-1/2"),
        ("5", 7.0, "N-1/2"),
        ("10", 15.0, "N-1/2"),
        ("15", 24.0, "N-1/2"),
        ("20", 33.0, "N-1/2"),
        ("30", 50.0, "N-1/2"),
        ("1 min", 2.0 * minutes, "N-1"),
        ("2 min", 4.5 * minutes, "N-1"),
        ("4 min", 10.0 * minutes, "N-1"),
        ("10 min", 28.0 * minutes, "N-1 1/2"),
        ("20 min", 65.0 * minutes, "N-1 1/2"),
        ("30 min", 110.0 * minutes, "N-1 1/2"),
    ] {
        near(time(&t_max, metered), needed, 1e-6);
        assert_eq!(at(&t_max, metered).development.as_deref(), Some(develop));
    }
}

/// Bond's tests in Photo Techniques, 2003, fitted by P. Gainer as t + a t^1.62 (second-hand). The
/// times are derived from the factors; to the last digit given.
#[test]
fn gainers_added_powers() {
    let metered = ["2", "5", "10", "15", "30", "60", "120", "240"];
    for (film, times) in [
        (
            "Tri-X 400",
            [2.5, 7.3, 17.0, 28.6, 71.8, 188.0, 515.0, 1453.0],
        ),
        (
            "HP5 Plus",
            [2.3, 6.4, 14.2, 23.1, 55.0, 137.0, 356.0, 965.0],
        ),
        (
            "T-MAX 100",
            [2.2, 5.9, 12.9, 20.5, 47.1, 112.0, 281.0, 735.0],
        ),
        (
            "T-MAX 400",
            [2.2, 5.8, 12.5, 19.9, 45.1, 106.0, 262.0, 678.0],
        ),
        (
            "Delta 100",
            [2.1, 5.6, 11.9, 18.7, 41.4, 94.9, 227.0, 570.0],
        ),
    ] {
        let gainer = law(film, "Bond and Gainer");
        for (metered, wanted) in metered.iter().zip(times) {
            let tolerance = if wanted > 100.0 { 0.51 } else { 0.0501 };
            near(time(&gainer, metered), wanted, tolerance);
        }
    }
}

/// P. Gainer, Photrio thread 6192, p. 3 (second-hand): a film that needs 20 s at 16 s has a = 0.045,
/// and needs 44.3 s at 32 s (with the power 1.618). Tolerance 0.2 s.
#[test]
fn one_test_gives_gainers_factor() {
    let a = factor_of_added(s("16"), s("20"), 1.618).unwrap();
    near(a, 0.045, 0.0005);
    let law = Law::new(Form::Additive { a, power: 1.618 }, Grounds::usual());
    let time = correct(&law, s("32")).unwrap().value.time.unwrap();
    near(time.value(), 44.3, 0.2);
}

/// P. Gainer, Photrio thread 47378, p. 2, divides 100 by 1738 and prints .056. Derived: 0.0575, and
/// .056 is not reproduced. Tolerance 0.0005.
#[test]
fn a_hundred_over_1738_is_not_what_was_printed() {
    let a = factor_of_added(s("100"), s("200"), 1.62).unwrap();
    near(a, 0.0575, 0.0005);
    assert!((a - 0.056).abs() > 0.001);
}

/// The maker's exponent and Bond's tests disagree on HP5 Plus at 30 s: 86 s and 55 s, 0.65 stop
/// apart. Derived from both. Both laws are given, the maker's first.
#[test]
fn two_published_laws_of_hp5_plus_lie_two_thirds_of_a_stop_apart() {
    let laws = laws("HP5 Plus");
    let both: Vec<Corrected> = laws.iter().map(|law| at(law, "30")).collect();
    near(both[0].time.unwrap().value(), 86.1, 0.1);
    near(both[1].time.unwrap().value(), 55.0, 0.1);
    near(apart(&both).unwrap().value(), 0.65, 0.005);
}

/// D. Gregory, CreativeLive lesson on reciprocity failure. Published: filters and bellows first,
/// reciprocity last. Derived: 2 s, a filter of 4 and a bellows of 2.25 come to 18 s, which on HP5
/// Plus are 44.1 s. Taken first it would have given 22.3 s. Tolerance 0.1 s.
#[test]
fn reciprocity_comes_last() {
    let hp5 = law("HP5 Plus", "Ilford");
    let before = 2.0 * 4.0 * 2.25;
    near(before, 18.0, 1e-12);
    let last = time(&hp5, &before.to_string());
    near(last, 44.1, 0.1);
    let first = time(&hp5, "2") * 4.0 * 2.25;
    near(first, 22.3, 0.1);
    assert!(last > 1.9 * first);
}

/// paladix.cz on the Schwarzschild effect (second-hand), for films in general: +1/3 at 2 s, +1/2 at
/// 8 s, +2/3 at 15 s, +1 at 30 s, +1 1/2 at 60 s, +2 at 120 s, and +1/2 at 1/2000 s, +2/3 at 1/4000 s.
/// A pinhole camera maker's guide as repeated by rossphotography.co.uk (second-hand): 1 to 4 s x 2,
/// 5 to 49 s x 5, 50 s and more x 12. Exact.
#[test]
fn rough_guides_for_any_film() {
    let czech = law("", "a Czech table");
    for (metered, wider) in [
        ("1/4000", "+2/3 stop"),
        ("1/2000", "+0.5 stop"),
        ("2", "+1/3 stop"),
        ("8", "+0.5 stop"),
        ("15", "+2/3 stop"),
        ("30", "+1 stop"),
        ("60", "+1.5 stops"),
        ("120", "+2 stops"),
    ] {
        assert_eq!(open(&czech, metered), wider, "{metered}");
    }
    let pinhole = law("", "a pinhole camera maker");
    for (metered, needed) in [
        ("1", 2.0),
        ("4", 8.0),
        ("5", 25.0),
        ("49", 245.0),
        ("50", 600.0),
    ] {
        near(time(&pinhole, metered), needed, 1e-9);
    }
}

/// APUG post 1504030 (second-hand): Ilford's earlier single graph comes to about t^1.48, more than
/// any exponent Ilford gives now. Derived.
#[test]
fn the_earlier_ilford_graph_asks_for_more_than_any_present_film() {
    let old = time(&law("", "Ilford's earlier graph"), "30");
    for film in ["SFX 200", "HP5 Plus", "Delta 400"] {
        assert!(time(&law(film, "Ilford"), "30") < old, "{film}");
    }
}

/// pinholica.blogspot.com, 2024, a user of Fomapan 400 under another label (second-hand): +1 stop from
/// 1 s, +2 1/2 over 10 s, +3 over 100 s. Within 0.1 stop of the maker's factors as they are remembered:
/// 6 and 8 at 10 and 100 s are 2.58 and 3 stops.
#[test]
fn a_user_of_fomapan_400_agrees_with_the_remembered_factors() {
    let foma = law("Fomapan 400", "Foma");
    near(at(&foma, "10").stops.value(), 2.5, 0.1);
    near(at(&foma, "100").stops.value(), 3.0, 1e-9);
    assert!(foma.law.advice.contains("which agrees"));
}

/// APUG post 1435069, one user's test of Delta 100 (second-hand): no loss to 16 s, then 1/3 stop more
/// for each doubling. Exact.
#[test]
fn a_users_test_of_delta_100() {
    let user = law("Delta 100", "a user's test");
    assert_eq!(at(&user, "16").stops.value(), 0.0);
    assert_eq!(open(&user, "32"), "+1/3 stop");
    assert_eq!(open(&user, "64"), "+2/3 stop");
    assert!(at(&user, "64").beyond);
}

/// No built-in law shortens a time, falls back as the time grows, or gives a number that is none.
#[test]
fn every_law_there_is_grows_with_the_time() {
    let reference = Reference::built_in().unwrap();
    for told in reference.laws() {
        let (mut longest, mut most) = (0.0, f64::NEG_INFINITY);
        for step in -450..400 {
            let metered = Seconds::new(10_f64.powf(f64::from(step) / 100.0)).unwrap();
            let Ok(figure) = correct(&told.law, metered) else {
                continue;
            };
            let value = figure.value;
            assert!(value.stops.value() >= 0.0, "{} at {metered}", told.id);
            if let Some(time) = value.time {
                assert!(time >= metered, "{} at {metered}", told.id);
                assert!(time.value() >= longest, "{} at {metered}", told.id);
                longest = time.value();
            }
            if let Some(open) = value.open {
                let exposure = metered.value().log2() + open.value();
                assert!(exposure >= most - 1e-9, "{} at {metered}", told.id);
                most = exposure;
            }
        }
        for film in &told.films {
            assert!(reference.film(film).is_some(), "{}: {film}", told.id);
        }
    }
}
