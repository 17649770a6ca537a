//! Film by film, as its maker gives it.

use super::*;

/// Ilford, reciprocity compensation sheet, as another site renders it. Published: HP5 Plus metered
/// 10 s needs 20.4 s, rounded to 20 s. Tolerance 0.05 s.
#[test]
fn hp5_plus_at_ten_seconds_needs_twenty() {
    let hp5 = law("HP5 Plus", "Ilford");
    near(time(&hp5, "10"), 20.4, 0.05);
    assert!(hp5.law.advice.contains("20.4 s to 20 s"));
}

/// Ilford, reciprocity compensation sheet, as another site renders it. Published: at 1 s or less
/// nothing is changed. Exact.
#[test]
fn no_ilford_film_is_corrected_at_one_second_or_less() {
    for film in [
        "SFX 200",
        "Pan F Plus",
        "Delta 100",
        "Delta 400",
        "Delta 3200",
        "FP4 Plus",
        "HP5 Plus",
        "XP2 Super",
        "Ortho Plus",
    ] {
        let ilford = law(film, "Ilford");
        for metered in ["1", "1/2", "1/1000"] {
            assert_eq!(at(&ilford, metered).time, Some(s(metered)), "{film}");
        }
    }
}

/// Derived from t^P with Ilford's and Harman's exponents (second-hand but for HP5 Plus). Each within
/// 0.05 s, above 1000 s within 1 s.
#[test]
fn exponents_of_ilford_and_harman_films() {
    let metered = ["2", "5", "10", "15", "30", "60", "120", "300", "600"];
    let rows: [(&str, &str, [f64; 9]); 7] = [
        (
            "SFX 200",
            "Ilford",
            [2.7, 10.0, 26.9, 48.1, 129.5, 348.9, 940.2, 3486.0, 9392.0],
        ),
        (
            "Pan F Plus",
            "Ilford",
            [2.5, 8.5, 21.4, 36.7, 92.2, 231.7, 582.5, 1971.0, 4954.0],
        ),
        (
            "FP4 Plus",
            "Ilford",
            [2.4, 7.6, 18.2, 30.3, 72.6, 174.0, 416.6, 1322.0, 3166.0],
        ),
        (
            "Delta 400",
            "Ilford",
            [2.7, 9.7, 25.7, 45.5, 121.0, 321.5, 854.4, 3110.0, 8264.0],
        ),
        (
            "XP2 Super",
            "Ilford",
            [2.5, 8.2, 20.4, 34.7, 86.1, 213.5, 529.3, 1758.0, 4359.0],
        ),
        (
            "Ortho Plus",
            "Ilford",
            [2.4, 7.5, 17.8, 29.5, 70.2, 167.0, 397.2, 1249.0, 2970.0],
        ),
        (
            "Kentmere 400",
            "Harman",
            [2.5, 8.1, 20.0, 33.8, 83.2, 204.9, 504.6, 1661.0, 4089.0],
        ),
    ];
    for (film, by, times) in rows {
        let told = law(film, by);
        for (metered, wanted) in metered.iter().zip(times) {
            let tolerance = if wanted > 1000.0 { 1.0 } else { 0.0501 };
            near(time(&told, metered), wanted, tolerance);
        }
    }
    for (film, same) in [
        ("Delta 3200", "Pan F Plus"),
        ("Delta 100", "FP4 Plus"),
        ("Kentmere 100", "FP4 Plus"),
        ("HP5 Plus", "XP2 Super"),
    ] {
        near(time(&laws(film)[0], "60"), time(&laws(same)[0], "60"), 1e-9);
    }
}

/// Kodak F-4016, T-MAX Films, p. 5, October 2007. Published: T-MAX 100 at 10 s takes 15 s or +1/2,
/// at 100 s 200 s or +1, at 1 s +1/3 and no time, at 1/10 s nothing, at 1/10000 s +1/3. Exact.
#[test]
fn t_max_100_row_by_row() {
    let kodak = law("T-MAX 100", "Kodak");
    near(time(&kodak, "10"), 15.0, 1e-9);
    assert_eq!(open(&kodak, "10"), "+0.5 stop");
    near(time(&kodak, "100"), 200.0, 1e-9);
    assert_eq!(open(&kodak, "100"), "+1 stop");
    for lens_only in ["1", "1/10000"] {
        assert_eq!(at(&kodak, lens_only).time, None);
        assert_eq!(open(&kodak, lens_only), "+1/3 stop");
    }
    for none in ["1/10", "1/100", "1/1000"] {
        assert_eq!(
            (at(&kodak, none).time, open(&kodak, none)),
            (Some(s(none)), String::new())
        );
    }
}

/// Kodak F-4016, T-MAX Films, p. 5, October 2007. Published: T-MAX 400 at 10 s takes 15 s or +1/2, at
/// 100 s 300 s or +1 1/2, at 1/10000 s nothing. Exact.
#[test]
fn t_max_400_row_by_row() {
    let kodak = law("T-MAX 400", "Kodak");
    near(time(&kodak, "10"), 15.0, 1e-9);
    near(time(&kodak, "100"), 300.0, 1e-9);
    assert_eq!(open(&kodak, "100"), "+1.5 stops");
    assert_eq!(
        (at(&kodak, "1").time, open(&kodak, "1")),
        (None, "+1/3 stop".to_owned())
    );
    assert_eq!(at(&kodak, "1/10000").time, Some(s("1/10000")));
}

/// The two columns of Kodak's tables are two ways out and not one number in two units: at 10 s Tri-X
/// takes +2 stops of the lens (remembered), or 50 s (second-hand), which is 2.32 stops. Derived.
#[test]
fn a_wider_lens_and_a_longer_time_are_not_interchangeable() {
    let ten = at(&law("Tri-X 320", "Kodak, table"), "10");
    assert_eq!(ten.open.unwrap().value(), 2.0);
    near(ten.stops.value(), 2.32, 0.005);
}

/// Kodak's data as repeated by crystalwinds.net, 2024 (second-hand): Tri-X at 100 s takes 1200 s.
/// Makers' data compiled at 135grad (second-hand): 1 s takes 2 s, 10 s takes 50 s. C. Johnson, The
/// Practical Zone System (second-hand): develop 20 % less at 10 s. The lens openings, -10 % and -30 %
/// are from memory. Exact.
#[test]
fn tri_x_row_by_row_with_what_is_remembered_in_it() {
    for film in ["Tri-X 320", "Tri-X 400", "Plus-X"] {
        let kodak = law(film, "Kodak, table");
        for (metered, needed, wider, less) in [
            ("1", 2.0, "+1 stop", "-10 %"),
            ("10", 50.0, "+2 stops", "-20 %"),
            ("100", 1200.0, "+3 stops", "-30 %"),
        ] {
            near(time(&kodak, metered), needed, 1e-9);
            assert_eq!(open(&kodak, metered), wider);
            let row = at(&kodak, metered);
            assert_eq!(row.development.as_deref(), Some(less));
            assert_eq!(row.rests.time.standing, Standing::Published);
            assert_eq!(row.rests.open.standing, Standing::Remembered);
            let from_memory = metered != "10";
            let is = row.rests.development.standing == Standing::Remembered;
            assert_eq!(is, from_memory, "{metered}");
        }
    }
}

/// Makers' data compiled at 135grad, read off Kodak's curve (second-hand): Tri-X and Plus-X 1 s to
/// 2 s, 4 s to 15 s, 10 s to 50 s, 16 s to 100 s. Exact.
#[test]
fn tri_x_as_read_off_the_curve() {
    let curve = law("Plus-X", "read off Kodak's curve");
    for (metered, needed) in [("1", 2.0), ("4", 15.0), ("10", 50.0), ("16", 100.0)] {
        near(time(&curve, metered), needed, 1e-9);
    }
}

/// Single exponents quoted for Kodak films by crystalwinds.net, 2024 (second-hand), do not fit Kodak's
/// tables. Derived: Tri-X 1.54 fits 100 s (1202 s) and gives 35 s where the table has 50; T-MAX 100
/// 1.15 gives 199.5 and 14.1; T-MAX 400 1.24 gives 302 and 17.4. They are in no list here.
#[test]
fn single_exponents_do_not_fit_kodak_tables() {
    let by = |power: f64, metered: &str| {
        let form = Form::Exponent {
            power,
            from: s("1"),
        };
        let law = Law::new(form, Grounds::usual());
        correct(&law, s(metered))
            .unwrap()
            .value
            .time
            .unwrap()
            .value()
    };
    near(by(1.54, "100"), 1202.0, 1.0);
    near(by(1.54, "10"), 34.7, 0.1);
    near(by(1.15, "100"), 199.5, 0.1);
    near(by(1.15, "10"), 14.1, 0.05);
    near(by(1.24, "100"), 302.0, 0.5);
    near(by(1.24, "10"), 17.4, 0.05);
    near(time(&law("Tri-X 400", "Kodak, table"), "10"), 50.0, 1e-9);
    near(time(&law("T-MAX 400", "Kodak"), "10"), 15.0, 1e-9);
    for film in ["Tri-X 320", "Tri-X 400", "T-MAX 100", "T-MAX 400"] {
        let is_exponent = |law: &NamedLaw| matches!(law.law.form, Form::Exponent { .. });
        assert!(!laws(film).iter().any(is_exponent), "{film}");
    }
}

/// Straight between the rows of Kodak F-4016 on logarithmic scales. Derived: T-MAX 100 at 30 s needs
/// 51.6 s (slope 1.125), at 60 s 113 s. Barnbaum's independent practice (second-hand) has 50 and
/// 120 s. Tolerance 0.1 s, 0.5 s.
#[test]
fn t_max_100_between_the_rows() {
    let kodak = law("T-MAX 100", "Kodak");
    near(time(&kodak, "30"), 51.6, 0.1);
    near(time(&kodak, "60"), 113.0, 0.5);
    let figure = kodak.correct(s("30")).unwrap();
    assert!(
        figure.steps[0].working.contains("^1.125"),
        "{:?}",
        figure.steps
    );
    assert!(!figure.value.beyond);
    assert!(at(&kodak, "200").beyond);
}

/// Foma's table for T200 as quoted on temnakomora.cz (second-hand): 3, 90 and 1800 s at 1, 10 and
/// 100 s, nothing up to 1/2 s. Fomapan 100 and 400 from memory: 2, 80, 1600 s and 1.5, 60, 800 s.
/// Exact. The author of the quotation carries the factors on by a logarithm of his own, which gives
/// other values between the rows; only the maker's rows are used.
#[test]
fn fomapan_factors() {
    for (film, at_one, at_ten, at_hundred, standing) in [
        ("Fomapan 200", 3.0, 90.0, 1800.0, Standing::Published),
        ("Fomapan 100", 2.0, 80.0, 1600.0, Standing::Remembered),
        ("Fomapan 400", 1.5, 60.0, 800.0, Standing::Remembered),
    ] {
        let foma = law(film, "Foma");
        near(time(&foma, "1"), at_one, 1e-9);
        near(time(&foma, "10"), at_ten, 1e-9);
        near(time(&foma, "100"), at_hundred, 1e-9);
        assert_eq!(at(&foma, "1/2").time, Some(s("1/2")));
        assert_eq!(foma.grounds.standing, standing);
    }
    let working = law("Fomapan 200", "Foma").correct(s("30")).unwrap();
    assert!(
        working.steps[0]
            .working
            .starts_with("90 s x (30 / 10)^1.301")
    );
}

/// Makers' data compiled at 135grad (second-hand): Velvia 50 takes nothing at 1 s, +1/3 at 4 s, +2/3
/// at 16 s, +1 at 32 s. Exact; a lens opening only. At 8 s the straight line gives the +1/2 that is
/// remembered of the maker's sheet.
#[test]
fn velvia_50_is_given_as_lens_openings() {
    let fuji = law("Velvia 50", "Fujifilm");
    for (metered, wider) in [
        ("1", ""),
        ("4", "+1/3 stop"),
        ("8", "+0.5 stop"),
        ("16", "+2/3 stop"),
        ("32", "+1 stop"),
    ] {
        assert_eq!(open(&fuji, metered), wider, "{metered}");
        assert_eq!(at(&fuji, metered).time.is_some(), metered == "1");
    }
}

/// Makers' data compiled at 135grad and digitalblackandwhite.co.uk (second-hand): Provia 100F takes
/// nothing up to 128 s, Velvia 100 up to 60 s, Acros up to 120 s and +1/2 stop beyond. Exact. An end
/// of the last at 1000 s and +1/3 for Provia at 4 min are from memory.
#[test]
fn fujifilm_films_that_hold_for_a_minute_or_two() {
    let none = |film: &str, metered: &str| {
        let law = law(film, "Fujifilm");
        assert_eq!(at(&law, metered).stops.value(), 0.0, "{film}");
        law
    };
    let provia = none("Provia 100F", "128");
    let four = at(&provia, "4 min");
    assert_eq!(four.open.unwrap().to_string(), "+1/3 stop");
    assert_eq!(four.rests.open.standing, Standing::Remembered);
    let velvia = none("Velvia 100", "60");
    assert!(velvia.correct(s("61")).is_err(), "nothing is published");
    for film in ["Acros", "Acros II"] {
        let acros = none(film, "120");
        assert_eq!(open(&acros, "150"), "+0.5 stop");
        assert!(!at(&acros, "1000").beyond && at(&acros, "1001").beyond);
    }
}

/// Fujifilm Product Information Bulletins. Published: Provia 400X takes nothing from 1/4000 s to
/// 1 min; T64 nothing from 1/125 s to 2 min and +1/3 at 4 min. Second-hand (135grad): +1/2 for Provia
/// 400X at 2 min; Reala 100 +1/3 at 4 s and +1 at 16 s; Pro 400H +1/2 and +1; Pro 160NS nothing to
/// 2 s, +1/3 at 4 s. Exact.
#[test]
fn other_fujifilm_films() {
    for (film, metered, wider) in [
        ("Provia 400X", "1/4000", ""),
        ("Provia 400X", "60", ""),
        ("Provia 400X", "120", "+0.5 stop"),
        ("T64", "1/125", ""),
        ("T64", "2 min", ""),
        ("T64", "4 min", "+1/3 stop"),
        ("Reala 100", "1", ""),
        ("Reala 100", "4", "+1/3 stop"),
        ("Reala 100", "16", "+1 stop"),
        ("Pro 400H", "4", "+0.5 stop"),
        ("Pro 400H", "16", "+1 stop"),
        ("Pro 160NS", "2", ""),
        ("Pro 160NS", "4", "+1/3 stop"),
    ] {
        assert_eq!(
            open(&law(film, "Fujifilm"), metered),
            wider,
            "{film} {metered}"
        );
    }
    assert!(at(&law("T64", "Fujifilm"), "1/250").beyond);
}

/// Kodak's advice on Ektar 100 as repeated by J. Farace (second-hand): nothing up to 1 s, make tests
/// beyond. No number beyond. Nothing at all is published of Portra 400 and of the films named below.
#[test]
fn films_of_which_nothing_is_published_give_no_number() {
    let ektar = law("Ektar 100", "Kodak");
    assert_eq!(at(&ektar, "1").time, Some(s("1")));
    let why = ektar.correct(s("2")).unwrap_err().to_string();
    assert!(why.contains("test it"), "{why}");
    for film in [
        "Portra 400",
        "CHS 100 II",
        "Pancro 400",
        "Kentmere 200",
        "E100",
    ] {
        assert!(laws(film).is_empty(), "{film}");
    }
}

/// E. Baumann, Fotobuch, node 25 (second-hand): Agfapan 25 at 1 s takes 2 s, at 100 s 400 s. Makers'
/// data compiled at 135grad (second-hand): the old APX at 1 s +1, at 10 s +2. Exact.
#[test]
fn agfa_films() {
    let agfapan = law("Agfapan 25", "Agfa");
    near(time(&agfapan, "1"), 2.0, 1e-9);
    near(time(&agfapan, "100"), 400.0, 1e-9);
    for film in ["APX 100", "APX 400"] {
        let apx = law(film, "Agfa");
        assert_eq!(open(&apx, "1"), "+1 stop");
        assert_eq!(open(&apx, "10"), "+2 stops");
    }
}
