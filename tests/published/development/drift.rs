//! What is left when the developer becomes warmer or cooler on the way.

use notchbook::craft::Concern;
use notchbook::craft::development::drift::{Course, UnderWay, left};

use super::*;

/// Kodak F-32, T-MAX 100 and 400 Professional Films (part 2), rotary tube, rolls (published): XTOL, size
/// 135, T-MAX 100, 6 min at 68 F and 4 3/4 min at 72 F. What is left after half of the development is
/// derived from the two cells: half of 4 3/4 min. Exact.
#[test]
fn half_a_development_is_half_of_every_time_in_kodaks_row() {
    let of_text = published("kodak-f-32-rotary-rolls");
    let times = table("kodak-f-32-rotary-rolls", |row| {
        row.developer == "xtol"
            && row.film == "t-max-100"
            && row.size == "135"
            && row.dilution.is_some_and(|it| it.to_string() == "stock")
    });
    let course = Course::Told {
        times: &times,
        grounds: &of_text.grounds,
    };
    let under_way = UnderWay {
        planned: cell("68F", 6.0),
        left: minutes(3.0),
        was: celsius("68F"),
        now: celsius("72F"),
    };
    let figure = left(under_way, course).unwrap();
    near(figure.value.value(), 142.5, 1e-9);
    assert!(figure.remarks.is_empty(), "the table tells both");
    // A plan of one's own runs along the same table: 8 min at 68 F are 6 1/3 min at 72 F.
    let own = UnderWay {
        planned: cell("68F", 8.0),
        left: minutes(8.0),
        ..under_way
    };
    near(left(own, course).unwrap().value.value(), 380.0, 1e-9);
}

/// The general law (derived; its rate of 8 % for a degree is chosen and marked as an estimate): ten
/// minutes at 20 C, of which four are left, become 3 min 24.5 s at 22 C. Tolerance 0.1 s.
#[test]
fn without_a_table_the_general_law_is_an_estimate() {
    let under_way = UnderWay {
        planned: cell("20", 10.0),
        left: minutes(4.0),
        was: celsius("20"),
        now: celsius("22"),
    };
    let figure = left(under_way, Course::General).unwrap();
    near(figure.value.value(), 240.0 * (-0.16_f64).exp(), 0.1);
    near(figure.value.value(), 204.5, 0.1);
    assert!(
        figure
            .remarks
            .iter()
            .any(|it| it.concern == Concern::Beyond)
    );
}
