//! What a long draw takes from the light.
//!
//! A lens focused on something near stands further from the film than its focal length, and its light
//! is spread over more film. Everything comes down to the magnification on the film; draw, distance
//! and a measured target are ways to it. Telephoto and retrofocus lenses are reckoned by the
//! magnification, because their draw is not counted from the lens board.

use super::{Amount, Figure, Grounds, Impossible, Millimetres, Step, Stops};

/// US Army subcourse SS0512, p. 44, gives (draw / focal length)².
const BY_DRAW: Grounds = Grounds::published("US Army subcourse SS0512, p. 44");

/// What the bellows takes by its draw, `(B / f)²`.
///
/// ```
/// use notchbook::craft::bellows::by_draw;
/// use notchbook::craft::Millimetres;
/// let figure = by_draw(Millimetres::parse("300")?, Millimetres::parse("450")?).unwrap();
/// assert_eq!(figure.value.to_string(), "+1.17 stops");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If the focal length is zero, or the draw shorter than it: nothing can be in focus there.
pub fn by_draw(focal_length: Millimetres, draw: Millimetres) -> Result<Figure<Stops>, Impossible> {
    let (f, b) = (focal_length.value(), draw.value());
    if f <= 0.0 {
        return Err(Impossible::new(
            "a lens of no focal length forms no image: give its focal length, such as 240 mm",
        ));
    }
    if b < f {
        return Err(Impossible::new(format!(
            "a draw of {draw} is shorter than the focal length of {focal_length}: nothing is in \
             focus there; measure from the lens board to the ground glass"
        )));
    }
    let factor = (b / f).powi(2);
    let stops = Stops::from_factor(factor)?;
    let working = format!("({draw} / {focal_length})²");
    Ok(Figure::new(stops, BY_DRAW)
        .within("draw counted from the lens's rear node; telephoto lenses by magnification")
        .step(
            Step::new("bellows", Amount::Factor(factor))
                .working(working)
                .on(BY_DRAW),
        ))
}
