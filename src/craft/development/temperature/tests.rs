//! What tables and the general law give, and what they refuse.

use super::*;
use proptest::prelude::*;

fn cell(at: &str, time: &str) -> Cell {
    Cell {
        at: Celsius::parse(at).unwrap(),
        time: Seconds::parse(time).unwrap(),
    }
}

fn at(text: &str) -> Celsius {
    Celsius::parse(text).unwrap()
}

#[test]
fn a_table_that_cannot_be_is_refused_in_words() {
    for (cells, says) in [
        (vec![], "at least one temperature"),
        (vec![cell("20", "6:00"), cell("68F", "5:00")], "twice"),
        (
            vec![cell("20", "6:00"), cell("24", "7:00")],
            "never needs longer",
        ),
        (vec![cell("80", "6:00")], "from 5 to 45 C"),
    ] {
        let why = TimeTable::new(cells).unwrap_err().to_string();
        assert!(why.contains(says), "{why}");
    }
}

#[test]
fn beyond_the_table_nothing_is_told() {
    let grounds = Grounds::usual();
    let table = TimeTable::new(vec![cell("68F", "6:00"), cell("75F", "4:00")]).unwrap();
    for outside in ["19", "25"] {
        let why = table.at(at(outside), &grounds).unwrap_err().to_string();
        assert!(why.contains("from 20.0 C (68 F) to"), "{why}");
    }
    let one = TimeTable::new(vec![cell("20", "6:00")]).unwrap();
    let why = one.at(at("21"), &grounds).unwrap_err().to_string();
    assert!(why.contains("20.0 C (68 F) alone"), "{why}");
    assert!(one.fit().is_none());
}

#[test]
fn an_estimate_says_so_and_has_an_end() {
    let from = cell("20", "10:00");
    let figure = estimate(from, at("22"), Rate::GENERAL, general_grounds()).unwrap();
    assert!(
        figure
            .remarks
            .iter()
            .any(|it| it.concern == Concern::Beyond)
    );
    for odd in ["4", "40"] {
        let why = estimate(from, at(odd), Rate::GENERAL, general_grounds());
        assert!(why.unwrap_err().to_string().contains("no estimate"));
    }
}

#[test]
fn a_rate_needs_two_temperatures_that_make_sense() {
    assert!(Rate::of_two(cell("20", "6:00"), cell("20", "5:00")).is_err());
    assert!(Rate::of_two(cell("20", "6:00"), cell("24", "7:00")).is_err());
    assert!(Rate::of_ten_degrees(0.0).is_err());
    assert!(Rate::of_ten_degrees(0.5).is_err());
    assert!(Rate::of_ten_degrees(f64::NAN).is_err());
    assert!(Rate::of_ten_degrees(1e308).is_err());
    assert_eq!(
        Rate::of_two(cell("20", "6:00"), cell("21", "6:00"))
            .unwrap()
            .per_degree(),
        0.0
    );
}

proptest! {
    #[test]
    fn hotter_never_needs_longer(
        first in 120.0..1800.0_f64, falls in proptest::collection::vec(0.6..1.0_f64, 1..5),
        one in 18.0..26.0_f64, other in 18.0..26.0_f64,
    ) {
        let mut time = first;
        let mut cells = vec![Cell { at: at("18"), time: Seconds::new(time).unwrap() }];
        for (i, fall) in falls.iter().enumerate() {
            time *= fall;
            let at = Celsius::new(20.0 + 1.5 * i as f64).unwrap();
            cells.push(Cell { at, time: Seconds::new(time).unwrap() });
        }
        let table = TimeTable::new(cells).unwrap();
        let (cold, warm) = (one.min(other), one.max(other));
        let time = |t: f64| table.at(Celsius::new(t).unwrap(), &Grounds::usual());
        if let (Ok(cold), Ok(warm)) = (time(cold), time(warm)) {
            prop_assert!(warm.value.value() <= cold.value.value() + 1e-9);
            prop_assert!(cold.value.value() <= first + 1e-9);
        }
        let from = table.nearest(Celsius::new(one).unwrap());
        let by_law = |t: f64| {
            estimate(from, Celsius::new(t).unwrap(), Rate::GENERAL, general_grounds()).unwrap()
        };
        prop_assert!(by_law(warm).value <= by_law(cold).value);
    }

    #[test]
    fn a_law_is_found_again_in_its_own_table(k in 0.03..0.12_f64, time in 200.0..1000.0_f64) {
        let cells = [18.0, 20.0, 23.0, 24.0].map(|t| Cell {
            at: Celsius::new(t).unwrap(),
            time: Seconds::new(time * (-k * (t - 20.0)).exp()).unwrap(),
        });
        let fit = TimeTable::new(cells.to_vec()).unwrap().fit().unwrap();
        prop_assert!((fit.rate.per_degree() - k).abs() < 1e-9);
        prop_assert!((fit.at_20.value() - time).abs() < 1e-6);
    }
}
