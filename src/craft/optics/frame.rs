//! The part of the film that takes the picture.

use crate::craft::Impossible;
use crate::craft::numeral::trimmed;

/// The part of the film that takes the picture, as it stands in the camera.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    width: f64,
    height: f64,
}

impl Frame {
    /// So wide and so high, in millimetres, as it stands in the camera.
    ///
    /// # Errors
    /// If a side is not above zero or longer than 3 m.
    pub fn new(width: f64, height: f64) -> Result<Frame, Impossible> {
        let fits = |side: f64| side > 0.0 && side <= 3000.0;
        if fits(width) && fits(height) {
            return Ok(Frame { width, height });
        }
        Err(Impossible::new(format!(
            "a frame of {} x {} mm takes no picture: give the image area, such as 96x120 mm",
            trimmed(width, 1),
            trimmed(height, 1)
        )))
    }

    /// The width in millimetres.
    #[must_use]
    pub const fn width(self) -> f64 {
        self.width
    }

    /// The height in millimetres.
    #[must_use]
    pub const fn height(self) -> f64 {
        self.height
    }

    /// The longer side in millimetres.
    #[must_use]
    pub const fn long(self) -> f64 {
        self.width.max(self.height)
    }

    /// The shorter side in millimetres.
    #[must_use]
    pub const fn short(self) -> f64 {
        self.width.min(self.height)
    }

    /// Corner to corner, in millimetres.
    #[must_use]
    pub fn diagonal(self) -> f64 {
        self.width.hypot(self.height)
    }

    /// Lying on its long side.
    #[must_use]
    pub const fn landscape(self) -> Frame {
        Frame {
            width: self.long(),
            height: self.short(),
        }
    }

    /// Standing on its short side.
    #[must_use]
    pub const fn portrait(self) -> Frame {
        Frame {
            width: self.short(),
            height: self.long(),
        }
    }
}
