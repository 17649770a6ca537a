//! Where the film goes, and how large the subject becomes.

use notchbook::craft::optics::Distance;
use notchbook::craft::optics::conjugates::{
    Conjugates, draw_on_rail, from_distance, from_draw, from_magnification, from_object_to_film,
    from_sizes, number_at_film,
};
use notchbook::craft::optics::image::{far_image, focal_length_for, image_size};

use super::{INCH, mm, near, off};

fn subject(found: Conjugates) -> f64 {
    found.subject.millimetres().unwrap_or(f64::INFINITY)
}

/// US Navy NAVEDTRA 14209, "Photography (Basic)", p. 1-27, example 1. Published, exact: a 10 in lens
/// copying a 16x20 in print to 4x5 stands 50 in from the print and 12.5 in from the film.
#[test]
fn copying_16x20_to_4x5_with_a_10_inch_lens() {
    let found = from_sizes(mm(10.0 * INCH), mm(20.0 * INCH), mm(5.0 * INCH))
        .unwrap()
        .value;
    near(subject(found), 50.0 * INCH, 1e-6);
    near(found.image, 12.5 * INCH, 1e-9);
    near(found.magnification, 0.25, 1e-12);
}

/// The same, example 2. Published to a tenth of an inch (10.7 and 154.0): a subject 72 in tall to 5 in
/// on the film with a 10 in lens; within 0.05 in. 10.69: computed.
#[test]
fn a_standing_figure_on_4x5_with_a_10_inch_lens() {
    let found = from_sizes(mm(10.0 * INCH), mm(72.0 * INCH), mm(5.0 * INCH))
        .unwrap()
        .value;
    near(found.image / INCH, 10.7, 0.05);
    near(found.image / INCH, 10.69, 0.005);
    near(subject(found) / INCH, 154.0, 0.05);
}

/// US Army subcourse SS0511. Published, exact: a 12 in tool to 6 in with a 12 in lens.
#[test]
fn a_tool_at_half_size_with_a_12_inch_lens() {
    let found = from_sizes(mm(12.0 * INCH), mm(12.0 * INCH), mm(6.0 * INCH))
        .unwrap()
        .value;
    near(found.image, 18.0 * INCH, 1e-9);
    near(subject(found), 36.0 * INCH, 1e-6);
}

/// "Encyclopedic Dictionary of Photography", conjugate foci, after Suter's tables. Published, exact: a
/// head at a third of life size with a 15 in lens is 5 ft off, the film 20 in.
#[test]
fn a_portrait_head_at_a_third_with_a_15_inch_lens() {
    let found = from_magnification(mm(15.0 * INCH), 1.0 / 3.0)
        .unwrap()
        .value;
    near(subject(found), 60.0 * INCH, 1e-6);
    near(found.image, 20.0 * INCH, 1e-9);
}

/// US Navy NAVEDTRA 14209, p. 1-30. Published, exact: I A = F G gives 16 ft for 12 ft of subject on
/// 9 in with a 12 in lens, and a 10 in lens for 8 ft on 4 in from 20 ft. The rule leaves the focal
/// length out of the distance; derived: the image is larger than the rule says by A / (A - F).
#[test]
fn the_rule_for_far_subjects_is_the_printed_one_and_its_error_is_known() {
    near(far_image(12.0, 12.0, 16.0), 9.0, 1e-12);
    near(far_image(10.0, 8.0, 20.0), 4.0, 1e-12);
    let foot = 12.0 * INCH;
    let image = image_size(mm(12.0 * INCH), mm(12.0 * foot), off(16.0 * foot))
        .unwrap()
        .value;
    near(image / (9.0 * INCH), 16.0 / 15.0, 1e-9);
    let exact = focal_length_for(mm(4.0 * INCH), mm(8.0 * foot), off(20.0 * foot))
        .unwrap()
        .value;
    near(exact / INCH, 10.0 / (1.0 + 1.0 / 24.0), 1e-9);
}

/// Derived from 1/u + 1/v = 1/f (D. M. Jacobson, Photographic Lenses FAQ): 150 mm lens, subject 1 m
/// off; within a thousandth.
#[test]
fn a_150_mm_lens_at_one_metre() {
    let found = from_distance(mm(150.0), off(1000.0)).unwrap().value;
    near(found.image, 176.471, 1e-3);
    near(found.extension(), 26.471, 1e-3);
    near(found.magnification, 0.176_471, 1e-6);
    let factor = number_at_film(1.0, found.magnification, 1.0).powi(2);
    near(factor, 1.3841, 1e-3);
    near(factor.log2(), 0.469, 1e-3);
}

/// Derived from the lens equation, solved for the span: 210 mm lens, 1 m from subject to film.
#[test]
fn a_210_mm_lens_with_the_film_a_metre_from_the_subject() {
    let found = from_object_to_film(mm(210.0), off(1000.0)).unwrap().value;
    near(found.image, 300.0, 1e-3);
    near(subject(found), 700.0, 1e-3);
    near(found.magnification, 0.428_57, 1e-5);
    assert!(from_object_to_film(mm(210.0), off(839.0)).is_err());
}

/// D. M. Jacobson, Photographic Lenses FAQ: N (1 + m / p). Derived from it: the factor at half life
/// size for pupil ratios of 1, 0.6 and 1.5; within 1e-4.
#[test]
fn the_pupil_ratio_changes_the_f_number_at_the_film() {
    for (ratio, factor) in [(1.0, 2.25), (0.6, 3.3611), (1.5, 1.7778)] {
        near(number_at_film(1.0, 0.5, ratio).powi(2), factor, 1e-4);
    }
}

/// E. Bigler, Large Format Photography Forum, thread 80266, 2011, says in words that life size takes
/// one focal length of extra draw even with a telephoto lens. Derived: flange and f m.
#[test]
fn life_size_takes_one_focal_length_more_even_with_a_telephoto() {
    near(draw_on_rail(220.0, 360.0, 1.0), 580.0, 1e-9);
    let largest = from_draw(mm(150.0), mm(300.0)).unwrap().value;
    near(largest.magnification, 1.0, 1e-12);
    near(subject(largest), 300.0, 1e-9);
    assert_eq!(
        from_draw(mm(150.0), mm(150.0)).unwrap().value.subject,
        Distance::INFINITY
    );
}
