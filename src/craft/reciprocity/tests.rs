//! What holds for every law.

use proptest::prelude::*;

use super::*;

fn s(text: &str) -> Seconds {
    Seconds::parse(text).unwrap()
}

fn told<T>(value: T) -> Told<T> {
    Told::new(value, Grounds::published("a data sheet"))
}

fn row(metered: &str, time: Option<&str>, open: Option<f64>) -> Point {
    Point {
        metered: s(metered),
        time: time.map(|time| told(s(time))),
        open: open.map(|open| told(Stops::new(open).unwrap())),
        development: None,
    }
}

fn law(form: Form) -> Law {
    Law::new(form, Grounds::published("a data sheet"))
}

/// A table with a lens-only row at each end.
fn table() -> Law {
    let rows = vec![
        row("1/10000", None, Some(1.0 / 3.0)),
        row("1", None, Some(1.0 / 3.0)),
        row("10", Some("15"), Some(0.5)),
        row("100", Some("200"), Some(1.0)),
    ];
    let table = Table::new(Some(s("1/1000")), Some(s("1/10")), rows).unwrap();
    law(Form::Table(table))
}

fn bands(ends: Option<Seconds>) -> Law {
    let band = |start: &str, including, gain| Band {
        start: s(start),
        including,
        gain: told(gain),
    };
    let bands = vec![
        band("1", true, Gain::Factor(2.0)),
        band("4", false, Gain::Factor(5.0)),
        band("50", true, Gain::Factor(12.0)),
    ];
    law(Form::Bands(Bands::new(bands, ends).unwrap()))
}

fn at(law: &Law, metered: &str) -> Corrected {
    correct(law, s(metered)).unwrap().value
}

#[track_caller]
fn near(value: Option<Seconds>, expected: f64) {
    let value = value.expect("a time").value();
    assert!(
        (value - expected).abs() < 0.01 * expected,
        "{value} {expected}"
    );
}

#[test]
fn a_row_gives_both_ways_out_and_they_are_not_the_same() {
    let ten = at(&table(), "10");
    near(ten.time, 15.0);
    assert_eq!(ten.open.unwrap().value(), 0.5);
    assert!((ten.stops.value() - 1.5_f64.log2()).abs() < 1e-9);
    assert!(!ten.beyond);
}

#[test]
fn a_row_without_a_time_has_no_time_form_up_to_where_nothing_is_lost() {
    for metered in ["1", "0.5"] {
        let lens = at(&table(), metered);
        assert_eq!(lens.time, None, "{metered}");
        assert!(lens.open.unwrap().value() > 0.0);
        assert_eq!(lens.stops, lens.open.unwrap());
    }
    let third = at(&table(), "1").open.unwrap();
    assert_eq!(third.to_string(), "+1/3 stop");
    assert!(at(&table(), "3").time.is_some(), "between 1/10 s and 10 s");
}

#[test]
fn nothing_is_lost_between_the_ends_of_what_is_said_to_lose_nothing() {
    for metered in ["1/1000", "1/60", "1/10"] {
        let none = at(&table(), metered);
        assert_eq!(none.time, Some(s(metered)));
        assert_eq!((none.open, none.stops.value()), (None, 0.0));
        assert!(!none.beyond);
    }
}

#[test]
fn very_short_times_lose_too_and_only_the_lens_helps() {
    let short = at(&table(), "1/10000");
    assert_eq!(
        (short.time, short.open.unwrap().to_string()),
        (None, "+1/3 stop".into())
    );
    let between = at(&table(), "1/5000");
    assert!(between.open.unwrap().value() < 1.0 / 3.0 && between.open.unwrap().value() > 0.0);
    let shorter = at(&table(), "1/50000");
    assert!(shorter.beyond && shorter.open.unwrap().value() > 1.0 / 3.0);
}

#[test]
fn beyond_the_last_row_the_slope_goes_on_and_it_is_said() {
    let figure = correct(&table(), s("1000")).unwrap();
    near(
        figure.value.time,
        200.0 * 10_f64.powf((200.0_f64 / 15.0).log10()),
    );
    assert!(figure.value.beyond);
    let beyond = figure.remarks.iter().find(|r| r.concern == Concern::Beyond);
    assert!(beyond.unwrap().words.contains("1 min 40 s"));
}

#[test]
fn a_table_that_ends_where_nothing_is_lost_declines_what_lies_beyond() {
    let table = Table::new(None, Some(s("60")), vec![]).unwrap();
    let law = law(Form::Table(table));
    assert_eq!(at(&law, "60").time, Some(s("60")));
    let why = correct(&law, s("61")).unwrap_err().to_string();
    assert_eq!(
        why,
        "no correction up to 1 min, and nothing is said of 1 min 1 s: test it, or log what you found"
    );
}

#[test]
fn where_a_table_does_not_say_where_the_loss_begins_it_says_what_was_taken() {
    let table = Table::new(None, None, vec![row("2", Some("3"), None)]).unwrap();
    let law = law(Form::Table(table));
    assert_eq!(at(&law, "1/5").time, Some(s("1/5")));
    let figure = correct(&law, s("1")).unwrap();
    assert!(figure.value.time.unwrap().value() > 1.0);
    assert!(figure.remarks.iter().any(|r| r.words.contains("1/5 s")));
}

#[test]
fn bands_hold_from_their_beginning_to_the_next() {
    let law = bands(Some(s("100")));
    for (metered, given) in [
        ("0.9", 0.9),
        ("1", 2.0),
        ("4", 8.0),
        ("5", 25.0),
        ("50", 600.0),
    ] {
        near(at(&law, metered).time, given);
    }
    assert!(at(&law, "200").beyond && !at(&law, "100").beyond);
}

#[test]
fn a_lens_opening_alone_says_that_a_time_would_be_longer_still() {
    let table = Table::new(None, Some(s("1")), vec![row("4", None, Some(1.0))]).unwrap();
    let figure = correct(&law(Form::Table(table)), s("4")).unwrap();
    assert!(
        figure
            .remarks
            .iter()
            .any(|r| r.words.contains("more than 8 s"))
    );
}

#[test]
fn what_a_row_remembers_is_said_and_the_rest_is_not_raised_by_it() {
    let memory = Grounds::remembered("");
    let mut point = row("10", Some("50"), None);
    point.open = Some(Told::new(Stops::new(2.0).unwrap(), memory.clone()));
    point.development = Some(Told::new("-20 %".to_owned(), memory));
    let table = Table::new(None, Some(s("1/10")), vec![point]).unwrap();
    let figure = correct(&law(Form::Table(table)), s("10")).unwrap();
    let rests = &figure.value.rests;
    assert_eq!(rests.time.standing, Standing::Published);
    assert_eq!(rests.open.standing, Standing::Remembered);
    assert_eq!(rests.development.standing, Standing::Remembered);
    let words = "from memory, to be confirmed: the lens opening, the change of development";
    assert!(figure.remarks.iter().any(|r| r.words == words));
    assert_eq!(figure.steps.len(), 3);
}

#[test]
fn development_between_two_rows_lies_between_their_words() {
    let mut rows = vec![row("10", Some("50"), None), row("100", Some("1200"), None)];
    rows[0].development = Some(told("-20 %".to_owned()));
    rows[1].development = Some(told("-30 %".to_owned()));
    let law = law(Form::Table(
        Table::new(None, Some(s("1/10")), rows).unwrap(),
    ));
    let says = |metered| at(&law, metered).development;
    assert_eq!(says("1").as_deref(), Some("at most -20 %"));
    assert_eq!(says("10").as_deref(), Some("-20 %"));
    assert_eq!(says("30").as_deref(), Some("between -20 % and -30 %"));
    assert_eq!(
        says("300").as_deref(),
        Some("-30 % at the last row, none given beyond")
    );
    assert_eq!(says("1/30"), None);
}

#[test]
fn laws_that_would_shorten_a_time_are_refused() {
    for form in [
        Form::Exponent {
            power: 0.9,
            from: s("1"),
        },
        Form::Exponent {
            power: f64::NAN,
            from: s("1"),
        },
        Form::Additive {
            a: -0.1,
            power: 1.62,
        },
        Form::Additive {
            a: 0.1,
            power: f64::INFINITY,
        },
    ] {
        assert!(correct(&law(form), s("10")).is_err());
    }
    for rows in [
        vec![row("10", Some("9"), None)],
        vec![row("10", None, None)],
        vec![row("10", Some("15"), Some(-1.0))],
        vec![row("10", Some("15"), None), row("10", Some("16"), None)],
        vec![row("10", Some("50"), None), row("20", Some("40"), None)],
        vec![row("10", None, Some(3.0)), row("20", None, Some(1.0))],
        vec![row("1/20", Some("1/10"), None)],
        vec![],
    ] {
        assert!(Table::new(None, None, rows.clone()).is_err(), "{rows:?}");
    }
    assert!(Table::new(Some(s("2")), Some(s("1")), vec![]).is_err());
    let band = |start: &str, factor| Band {
        start: s(start),
        including: true,
        gain: told(Gain::Factor(factor)),
    };
    assert!(Bands::new(vec![], None).is_err());
    assert!(Bands::new(vec![band("1", 0.5)], None).is_err());
    assert!(Bands::new(vec![band("1", 3.0), band("2", 2.0)], None).is_err());
    assert!(Bands::new(vec![band("2", 2.0), band("1", 3.0)], None).is_err());
    assert!(Bands::new(vec![band("2", 2.0)], Some(s("1"))).is_err());
}

#[test]
fn a_time_of_months_is_a_sentence() {
    let form = Form::Exponent {
        power: 1.5,
        from: s("1"),
    };
    let why = correct(&law(form), s("10h")).unwrap_err().to_string();
    assert!(why.contains("more than 30 days"), "{why}");
}

fn any_law() -> impl Strategy<Value = Law> {
    let rows = prop::collection::vec((0.05..0.6_f64, 0.0..0.3_f64, 0.0..0.8_f64), 1..6);
    let tables = (rows, -1.0..1.5_f64).prop_map(|(rows, start)| {
        let (mut at, mut time, mut open) = (start, start, 0.0);
        let points = rows
            .into_iter()
            .map(|(on, more, wider)| {
                at += on;
                time += on + more;
                open += wider;
                let seconds = |log: f64| Seconds::new(10_f64.powf(log)).unwrap();
                Point {
                    metered: seconds(at),
                    time: (wider < 0.7).then(|| told(seconds(time))),
                    open: Some(told(Stops::new(open).unwrap())),
                    development: None,
                }
            })
            .collect();
        let none_to = Some(Seconds::new(10_f64.powf(start)).unwrap());
        law(Form::Table(Table::new(None, none_to, points).unwrap()))
    });
    prop_oneof![
        (1.0..1.7_f64, 0.1..5.0_f64).prop_map(|(power, from)| law(Form::Exponent {
            power,
            from: Seconds::new(from).unwrap()
        })),
        (0.0..0.5_f64, 1.0..1.8_f64).prop_map(|(a, power)| law(Form::Additive { a, power })),
        tables,
        Just(table()),
        Just(bands(None)),
    ]
}

proptest! {
    #[test]
    fn no_law_shortens_a_time_or_closes_the_lens(law in any_law(), log in -4.5..4.0_f64) {
        let metered = Seconds::new(10_f64.powf(log)).unwrap();
        if let Ok(figure) = correct(&law, metered) {
            let value = figure.value;
            prop_assert!(value.time.is_none_or(|time| time >= metered));
            prop_assert!(value.open.is_none_or(|open| open.value() >= 0.0));
            prop_assert!(value.stops.value() >= 0.0);
            prop_assert!(value.time.is_some() || value.open.is_some());
            prop_assert!(!figure.steps.is_empty());
        }
    }

    #[test]
    fn more_metered_time_never_needs_less(law in any_law(), a in -4.5..4.0_f64, b in -4.5..4.0_f64) {
        let seconds = |log: f64| Seconds::new(10_f64.powf(log)).unwrap();
        let (short, long) = (seconds(a.min(b)), seconds(a.max(b)));
        if let (Ok(short), Ok(long)) = (correct(&law, short), correct(&law, long))
            && let (Some(short), Some(long)) = (short.value.time, long.value.time)
        {
            prop_assert!(long.value() >= short.value() * (1.0 - 1e-12));
        }
    }

    #[test]
    fn a_fitted_factor_gives_back_the_time_it_was_fitted_to(t in 1.0..200.0_f64, more in 1.0..20.0_f64) {
        let (metered, needed) = (Seconds::new(t).unwrap(), Seconds::new(t * more).unwrap());
        let a = factor_of_added(metered, needed, 1.62).unwrap();
        let time = correct(&law(Form::Additive { a, power: 1.62 }), metered).unwrap().value.time;
        prop_assert!((time.unwrap().value() - needed.value()).abs() < 1e-6 * needed.value());
    }
}
