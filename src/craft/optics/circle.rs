//! How large a blur may be and still pass for a point: the circle of confusion.
//!
//! For: depth of field and every figure that asks for sharpness. Promises: each rule says where it
//! was read; they differ by a factor of two, and none is law. Leaves to others: what follows from the
//! circle ([`depth`](super::depth), [`spread`](super::spread), [`wedge`](super::wedge)).

use super::Frame;
use super::mm;
use crate::craft::numeral::trimmed;
use crate::craft::{Figure, Grounds, Impossible, Millimetres, Step};

/// The usual rule by the diagonal.
pub const BY_1500: Grounds = Grounds::published(
    "circle-of-confusion pages of dpreview.com, theimage.com and everything2.com: diagonal / 1500",
);

/// The stricter rule by the diagonal.
pub const BY_1730: Grounds = Grounds::published(
    "circle-of-confusion pages of dpreview.com, theimage.com and everything2.com: diagonal / 1730",
);

/// By what the eye tells apart.
pub const BY_EYE: Grounds = Grounds::published(
    "S. F. Ray, 2000, p. 52, as the encyclopedia article \"Circle of confusion\" cites it \
     (second-hand): 5 line pairs a mm at about 250 mm",
);

/// What the eye tells apart at [`READING`], in line pairs a millimetre.
pub const EYE: f64 = 5.0;

/// The distance at which a print in the hand is seen, in millimetres.
pub const READING: f64 = 250.0;

/// The circle that is a part of the diagonal, `d / 1500` or `d / 1730`, in millimetres.
#[must_use]
pub fn by_diagonal(frame: Frame, parts: f64) -> f64 {
    frame.diagonal() / parts
}

/// The circle that a print asks for, `(distance / 250 mm) / (line pairs a mm) / enlargement`, in
/// millimetres. An enlargement of 1 is a contact print.
///
/// # Errors
/// If the distance, the fineness or the enlargement is not above zero.
pub fn for_print(
    seen_from: Millimetres,
    pairs: f64,
    enlargement: f64,
) -> Result<Figure<f64>, Impossible> {
    let positive = |value: f64, most: f64| value > 0.0 && value <= most;
    if !positive(seen_from.value(), Millimetres::HIGHEST) {
        return Err(Impossible::new(
            "no print is seen from 0 mm: give the distance of the eye, such as 250 mm",
        ));
    }
    if !positive(pairs, 100.0) {
        return Err(Impossible::new(
            "the fineness the eye asks for lies above 0 and up to 100 line pairs a mm: write 5",
        ));
    }
    if !positive(enlargement, 1000.0) {
        return Err(Impossible::new(
            "an enlargement lies above 0 and up to 1000 times: write 1 for a contact print, 2.5 \
             for 4x5 on 10x12",
        ));
    }
    let circle = seen_from.value() / READING / pairs / enlargement;
    Ok(Figure::new(circle, BY_EYE).step(
        Step::new("circle of confusion", mm(circle, 4))
            .working(format!(
                "({seen_from} / 250 mm) / {} / {}",
                trimmed(pairs, 2),
                trimmed(enlargement, 2)
            ))
            .on(BY_EYE),
    ))
}

/// Whether a circle of confusion can be reckoned with.
pub(super) fn allowed(circle: f64) -> Result<f64, Impossible> {
    if circle > 0.0 && circle <= 10.0 {
        return Ok(circle);
    }
    Err(Impossible::new(format!(
        "a circle of confusion of {} mm is no measure of sharpness: it lies above 0 and up to 10 \
         mm, such as 0.1 mm for 4x5",
        trimmed(circle, 4)
    )))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_no_eye_could_ask_is_a_sentence() {
        let at = |distance| Millimetres::new(distance).unwrap();
        assert!(for_print(at(0.0), 5.0, 1.0).is_err());
        assert!(for_print(at(250.0), 0.0, 1.0).is_err());
        assert!(for_print(at(250.0), 5.0, -1.0).is_err());
        assert!(for_print(at(250.0), f64::NAN, 1.0).is_err());
        assert!(allowed(0.0).is_err() && allowed(f64::NAN).is_err() && allowed(0.1).is_ok());
    }
}
