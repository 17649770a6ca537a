//! Costs by area and by piece. Prices are of their years.

use notchbook::craft::printing::cost::{of_a_print, read_items};

use super::{near, size};

/// C. Palmer, alt-photo-process list, 1996 (published): 2.00 dollars of palladium for a 9x11 sheet. The share of
/// 8x10 by area derived, 1.62; within 0.02.
#[test]
fn a_coating_costs_by_its_area() {
    near(
        2.00 * size("8x10").area_sq_in() / size("9x11").area_sq_in(),
        1.62,
        0.02,
    );
}

/// Working Pictures, 2014 (published): 25 sheets of 22x30 for just under 200 dollars. Four pieces of 11x14 of each
/// sheet, about 2.00 apiece (derived), exact.
#[test]
fn a_piece_of_a_sheet_costs_its_part() {
    let items = read_items("paper 1/4 at 200 per 25", 20.0).unwrap();
    near(of_a_print(&items).unwrap().value, 2.00, 1e-9);
}

/// Luminous Landscape, 2009 (published): platinum solution at about 200 dollars for 25 ml. A print of 24 drops at
/// 20 to the millilitre, 9.60 (derived), exact.
#[test]
fn drops_cost_by_their_volume() {
    let items = read_items("platinum 24 drops at 200 per 25 ml", 20.0).unwrap();
    near(of_a_print(&items).unwrap().value, 9.60, 1e-9);
}
