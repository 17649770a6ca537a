//! Time against temperature.

use notchbook::craft::development::agitation::{Agitation, continuous};
use notchbook::craft::development::temperature::{Rate, estimate, general_grounds};
use notchbook::craft::{Concern, Dilution, Grounds, Standing};

use super::*;

/// The row of Kodak F-32 (part 2), rotary tube, rolls; nothing said of the exposure index.
fn f_32(developer: &str, film: &str, dilution: &str, size: &str) -> TimeTable {
    let dilution = Dilution::parse(dilution).expect("a dilution");
    table("kodak-f-32-rotary-rolls", |row| {
        row.developer == developer
            && row.film == film
            && row.dilution == Some(dilution)
            && row.size == size
    })
}

/// A row of Ilford's leaflet on DD-X as transcribed (second-hand).
fn dd_x(film: &str, speed: u32) -> TimeTable {
    table("ilford-dd-x", |row| {
        row.film == film && row.speed.is_some_and(|it| it.value() == speed)
    })
}

/// E. J. Wall, "Thermo-Entwicklung", Jahrbuch für Photographie 24 (1910), p. 44 (published): the image
/// appears in 70 s at 8 C and in 25 s at 20 C, which he prints as 0.037 for the decimal logarithm of a
/// degree. Tolerance 0.0005; the factor for ten degrees, 2.36, is derived, tolerance 0.02.
#[test]
fn walls_example_of_1910() {
    let rate = Rate::of_two(cell("8", 70.0 / 60.0), cell("20", 25.0 / 60.0)).unwrap();
    near(rate.per_degree() / std::f64::consts::LN_10, 0.0373, 0.0005);
    near(rate.ten_degrees(), 2.36, 0.02);
}

/// Kodak F-32, T-MAX 100 and 400 Professional Films (part 2), rotary tube, rolls (published): XTOL,
/// size 135, T-MAX 100. Exact.
#[test]
fn kodaks_columns_are_given_back_as_printed() {
    let xtol = f_32("xtol", "t-max-100", "stock", "135");
    let grounds = Grounds::usual();
    for (at, time) in [("68F", 6.0), ("70F", 5.25), ("72F", 4.75), ("75F", 4.0)] {
        let figure = xtol.at(celsius(at), &grounds).unwrap();
        assert_eq!(figure.value, minutes(time), "{at}");
    }
}

/// The same table; lines by least squares through the logarithms (derived, with the exact temperatures
/// in Fahrenheit). Tolerance 0.001 for the rate, 0.02 min for the time at 20 C.
#[test]
fn lines_through_kodaks_rows() {
    for (developer, film, dilution, size, rate, at_20) in [
        ("t-max", "t-max-100", "1+4", "rolls", 0.0462, 6.64),
        ("t-max", "t-max-400", "1+4", "rolls", 0.0462, 6.64),
        ("t-max-rs", "t-max-100", "stock", "rolls", 0.0865, 7.11),
        ("t-max-rs", "t-max-400", "stock", "rolls", 0.0439, 6.34),
        ("xtol", "t-max-100", "stock", "135", 0.1029, 5.96),
        ("xtol", "t-max-400", "stock", "135", 0.0825, 5.47),
        ("xtol", "t-max-100", "stock", "120", 0.1085, 5.71),
        ("xtol", "t-max-100", "1+1", "135", 0.0869, 8.78),
        ("xtol", "t-max-400", "1+1", "135", 0.0869, 7.76),
        ("xtol", "t-max-100", "1+1", "120", 0.0355, 7.79),
        ("xtol", "t-max-400", "1+1", "120", 0.0741, 7.03),
        ("d-76", "t-max-100", "stock", "rolls", 0.0679, 6.47),
        ("d-76", "t-max-400", "stock", "rolls", 0.0624, 6.97),
    ] {
        let fit = f_32(developer, film, dilution, size).fit().unwrap();
        near(fit.rate.per_degree(), rate, 0.001);
        near(fit.at_20.value() / 60.0, at_20, 0.02);
    }
}

/// The same table, D-76, T-MAX 100, between 6 min at 70 F and 5.5 min at 72 F: at 71 F the geometric
/// mean, 5.745 min (derived). Tolerance 0.01 min. The mean of the two, 5.75, is not what comes out.
#[test]
fn halfway_between_two_columns_is_the_geometric_mean() {
    let d_76 = f_32("d-76", "t-max-100", "stock", "rolls");
    let time = d_76.at(celsius("71F"), &Grounds::usual()).unwrap().value;
    near(time.value() / 60.0, 5.745, 0.01);
    near(time.value() / 60.0, (6.0_f64 * 5.5).sqrt(), 1e-6);
}

/// The same table prints 6.5 min at 68 F and at 70 F for T-MAX 1:4 (published): a table may be flat
/// between two columns, and is then flat in between.
#[test]
fn a_flat_piece_of_a_table_is_good_data() {
    let flat = f_32("t-max", "t-max-400", "1+4", "rolls");
    let time = flat.at(celsius("69F"), &Grounds::usual()).unwrap().value;
    near(time.value() / 60.0, 6.5, 1e-9);
}

/// The same table: cells that could not be read are not filled in.
#[test]
fn cells_that_could_not_be_read_are_left_out() {
    for row in [
        f_32("xtol", "t-max-400", "stock", "120"),
        f_32("hc-110", "t-max-100", "1+31", "rolls"),
    ] {
        assert_eq!(row.cells().count(), 3);
        assert!(row.at(celsius("75F"), &Grounds::usual()).is_err());
    }
}

/// Kodak F-32, rotary tube, sheets (published): the row of T-MAX RS. Exact.
#[test]
fn kodaks_row_for_sheets() {
    let row = table("kodak-f-32-rotary-sheets", |row| {
        row.film == "t-max-100" && row.dilution == Some(Dilution::STOCK)
    });
    let times: Vec<f64> = row.cells().map(|cell| cell.time.value() / 60.0).collect();
    assert_eq!(times, [7.0, 6.5, 6.0, 5.0]);
    let rotary = published("kodak-f-32-rotary-sheets");
    assert_eq!(rotary.agitation, Some(Agitation::Continuous));
}

/// Ilford's leaflet on Ilfotec DD-X as transcribed in a note of 2022 (second-hand): the rate of every
/// pair at 68 and 75 F (derived). Tolerance 0.0005.
#[test]
fn rates_of_ilfords_pairs() {
    for (film, speed, cold, warm, rate) in [
        ("hp5-plus", 400, 9.0, 7.0, 0.0646),
        ("hp5-plus", 800, 10.0, 8.0, 0.0574),
        ("hp5-plus", 1600, 13.0, 10.0, 0.0675),
        ("hp5-plus", 3200, 20.0, 14.5, 0.0827),
        ("fp4-plus", 50, 8.0, 6.0, 0.0740),
        ("fp4-plus", 125, 10.0, 8.0, 0.0574),
        ("fp4-plus", 200, 12.0, 10.0, 0.0469),
        ("delta-100", 50, 9.5, 7.0, 0.0785),
        ("delta-100", 100, 12.0, 9.0, 0.0740),
        ("delta-100", 200, 14.0, 11.0, 0.0620),
        ("delta-400", 400, 8.0, 5.5, 0.0963),
        ("delta-400", 800, 10.5, 7.5, 0.0865),
        ("delta-400", 1600, 13.5, 9.0, 0.1043),
        ("delta-400", 3200, 18.0, 13.0, 0.0837),
        ("t-max-100", 100, 7.0, 5.0, 0.0865),
        ("t-max-100", 200, 9.0, 7.0, 0.0646),
        ("t-max-400", 400, 8.0, 6.0, 0.0740),
        ("t-max-400", 800, 10.0, 8.0, 0.0574),
        ("t-max-400", 1600, 13.0, 10.0, 0.0675),
        ("tri-x-400", 400, 8.0, 6.0, 0.0740),
        ("tri-x-400", 800, 10.0, 8.0, 0.0574),
        ("tri-x-400", 1600, 14.0, 11.0, 0.0620),
    ] {
        let row = dd_x(film, speed);
        let cells: Vec<Cell> = row.cells().collect();
        assert_eq!(cells, [cell("68F", cold), cell("75F", warm)], "{film}");
        near(row.fit().unwrap().rate.per_degree(), rate, 0.0005);
    }
}

/// The same leaflet, FP4 Plus at 125, 10 min at 68 F and 8 at 75 F: 8.92 min at 22 C (derived).
/// Tolerance 0.02 min. The transcription writes 12.30 for 12 min 30 s; a row so written is not read as
/// 12.3 min: HP5 Plus at 3200 is 14 min 30 s at 75 F.
#[test]
fn between_ilfords_two_temperatures() {
    let time = dd_x("fp4-plus", 125).at(celsius("22"), &Grounds::usual());
    near(time.unwrap().value.value() / 60.0, 8.92, 0.02);
    let pushed = dd_x("hp5-plus", 3200).at(celsius("75F"), &Grounds::usual());
    near(pushed.unwrap().value.value(), 870.0, 1e-9);
}

/// Ilford's times for ID-11 at 20 C (remembered): kept as remembered, and never more.
#[test]
fn times_from_memory_stay_from_memory() {
    let table = published("ilford-id-11");
    assert_eq!(table.grounds.standing, Standing::Remembered);
    let times: Vec<f64> = table
        .rows
        .iter()
        .flat_map(|row| row.times.cells())
        .map(|cell| cell.time.value() / 60.0)
        .collect();
    assert_eq!(times, [7.5, 13.0, 20.0, 8.5, 11.0, 20.0, 8.5, 11.0, 20.0]);
}

/// Derived from the law with a rate of 0.081 (remembered, a fit to a maker's general chart): 10 min at
/// 20 C are 11.76 min at 18 C and 8.50 min at 22 C. Tolerance 0.02 min. Always marked as an estimate.
#[test]
fn the_general_law_from_one_known_time() {
    let rate = Rate::new(0.081).unwrap();
    for (at, time) in [("18", 11.76), ("22", 8.50)] {
        let figure = estimate(cell("20", 10.0), celsius(at), rate, general_grounds()).unwrap();
        near(figure.value.value() / 60.0, time, 0.02);
        let marked = figure
            .remarks
            .iter()
            .any(|it| it.concern == Concern::Beyond);
        assert!(marked);
    }
}

/// The multiplying factors of the law for four rates from 16 to 27 C (derived). Tolerance 0.0006.
#[test]
fn factors_of_the_law_from_16_to_27_degrees() {
    let rows: [(f64, [f64; 12]); 4] = [
        (
            0.060,
            [
                1.271, 1.197, 1.127, 1.062, 1.0, 0.942, 0.887, 0.835, 0.787, 0.741, 0.698, 0.657,
            ],
        ),
        (
            0.081,
            [
                1.383, 1.275, 1.176, 1.084, 1.0, 0.922, 0.850, 0.784, 0.723, 0.667, 0.615, 0.567,
            ],
        ),
        (
            0.0858,
            [
                1.409, 1.294, 1.187, 1.090, 1.0, 0.918, 0.842, 0.773, 0.709, 0.651, 0.598, 0.548,
            ],
        ),
        (
            0.100,
            [
                1.492, 1.350, 1.221, 1.105, 1.0, 0.905, 0.819, 0.741, 0.670, 0.607, 0.549, 0.497,
            ],
        ),
    ];
    for (rate, factors) in rows {
        let rate = Rate::new(rate).unwrap();
        for (degrees, wanted) in (16..=27).zip(factors) {
            near(rate.factor(f64::from(degrees) - 20.0), wanted, 0.0006);
        }
    }
}

/// An example of Ilford's leaflets (remembered): 4 min at 20 C are 3 min at 23 C and 6 min at 16 C. The
/// rates, 0.0959 and 0.1014, are derived. Tolerance 0.0005.
#[test]
fn rates_of_a_remembered_example() {
    let known = cell("20", 4.0);
    let rate = |other| Rate::of_two(known, other).unwrap().per_degree();
    near(rate(cell("23", 3.0)), 0.0959, 0.0005);
    near(rate(cell("16", 6.0)), 0.1014, 0.0005);
}

/// Sheppard and Mees, as told in the French Wikibook on black-and-white development (second-hand): ten
/// degrees make developer two to three times as quick, a rate of 0.0693 to 0.1099. Tolerance 0.0002.
/// The rate taken where nothing is known lies between.
#[test]
fn rates_of_a_doubling_and_a_trebling() {
    let rate = |factor| Rate::of_ten_degrees(factor).unwrap();
    near(rate(2.0).per_degree(), 0.0693, 0.0002);
    near(rate(3.0).per_degree(), 0.1099, 0.0002);
    assert!(rate(2.0) < Rate::GENERAL && Rate::GENERAL < rate(3.0));
    assert_eq!(general_grounds().standing, Standing::Usual);
}

/// Common practice, no source: 15 % less for agitation all the time, so that 8 min are 6.8 min. Exact;
/// and never taken off a time for rotary tubes.
#[test]
fn agitation_all_the_time() {
    let figure = continuous(minutes(8.0), Agitation::Intermittent).unwrap();
    near(figure.value.value() / 60.0, 6.8, 1e-9);
    assert_eq!(figure.grounds.standing, Standing::Usual);
    assert!(continuous(minutes(8.0), Agitation::Continuous).is_err());
}
