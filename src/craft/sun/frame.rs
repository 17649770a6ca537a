//! Whether the sun is in the picture.

use super::bearing::Bearing;
use super::position::Sun;
use crate::craft::Impossible;

/// Half of the sun's disc, in degrees: 16 minutes of arc, as sunrise is reckoned with.
const HALF_DISC: f64 = 16.0 / 60.0;

/// How near to the edge of the picture the sun counts as near, in degrees. The choice is our own:
/// about a fist at arm's length.
pub const NEAR: f64 = 10.0;

/// Which way a camera looks and how much it sees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct View {
    facing: Bearing,
    tilt: f64,
    across: f64,
    up: f64,
}

impl View {
    /// A level view that sees `across` degrees from side to side and `up` degrees from bottom to top.
    ///
    /// # Errors
    /// If one of the angles is not between 0 and 180 degrees.
    pub fn new(facing: Bearing, across: f64, up: f64) -> Result<View, Impossible> {
        for (name, angle) in [("from side to side", across), ("from bottom to top", up)] {
            if !(angle > 0.0 && angle < 180.0) {
                return Err(Impossible::new(format!(
                    "a view of {angle} degrees {name} is not one a lens gives: it lies between 0 and \
                     180, such as 53"
                )));
            }
        }
        Ok(View {
            facing,
            tilt: 0.0,
            across,
            up,
        })
    }

    /// The same view with the camera pointed so many degrees above the horizon, negative below.
    ///
    /// # Errors
    /// If that is more than 90 degrees either way.
    pub fn pointed(self, tilt: f64) -> Result<View, Impossible> {
        if !(-90.0..=90.0).contains(&tilt) {
            return Err(Impossible::new(format!(
                "a camera cannot point {tilt} degrees above the horizon: straight up is 90, straight \
                 down -90"
            )));
        }
        Ok(View { tilt, ..self })
    }
}

/// How the sun stands to the picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Framed {
    /// Some of it is in the picture.
    In,
    /// It is within [`NEAR`] of the edge of the picture.
    Near,
    /// It is outside, but shines on the front of the lens.
    Ahead,
    /// It is behind the camera.
    Behind,
    /// It is below the horizon.
    Down,
}

/// Where the sun is as the camera sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seen {
    /// How it stands to the picture.
    pub framed: Framed,
    /// Degrees right of the middle of the picture, left negative.
    pub right: f64,
    /// Degrees above the middle of the picture, below negative.
    pub above: f64,
}

impl Sun {
    /// Where the sun is in a view, without rise or shift of the lens.
    ///
    /// ```
    /// use notchbook::craft::sun::{Bearing, Coordinates, Framed, View, position};
    /// let place = Coordinates::parse("51.48, 0")?;
    /// let sun = position("2024-02-29T12:00:00Z".parse()?, place);
    /// let south = View::new(Bearing::parse("S")?, 53.0, 64.0)?;
    /// assert_eq!(sun.seen_in(&south).framed, Framed::In);
    /// let north = View::new(Bearing::parse("N")?, 53.0, 64.0)?;
    /// assert_eq!(sun.seen_in(&north).framed, Framed::Behind);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn seen_in(&self, view: &View) -> Seen {
        let (sin_h, cos_h) = self.apparent.to_radians().sin_cos();
        let aside = view.facing.to(self.azimuth).to_radians();
        let (sin_t, cos_t) = view.tilt.to_radians().sin_cos();
        // Along the level line of sight, to its right and up; then turned by the tilt of the camera.
        let (level, x, height) = (cos_h * aside.cos(), cos_h * aside.sin(), sin_h);
        let ahead = level * cos_t + height * sin_t;
        let y = height * cos_t - level * sin_t;
        let right = f64::atan2(x, ahead).to_degrees();
        let above = f64::atan2(y, ahead).to_degrees();
        let past_edge = (right.abs() - view.across / 2.0).max(above.abs() - view.up / 2.0);
        let framed = if self.apparent < -HALF_DISC {
            Framed::Down
        } else if ahead <= 0.0 {
            Framed::Behind
        } else if past_edge <= HALF_DISC {
            Framed::In
        } else if past_edge <= NEAR {
            Framed::Near
        } else {
            Framed::Ahead
        };
        Seen {
            framed,
            right,
            above,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::craft::sun::{Coordinates, position};
    use proptest::prelude::*;

    /// A sun at an elevation and azimuth.
    fn sun(apparent: f64, azimuth: f64) -> Sun {
        let place = Coordinates::new(0.0, 0.0).unwrap();
        Sun {
            apparent,
            azimuth: Bearing::turned(azimuth),
            ..position(chrono::DateTime::UNIX_EPOCH, place)
        }
    }

    fn view(facing: f64) -> View {
        View::new(Bearing::turned(facing), 40.0, 30.0).unwrap()
    }

    #[test]
    fn the_sun_is_in_near_outside_or_behind_the_picture() {
        for (elevation, azimuth, framed) in [
            (10.0, 180.0, Framed::In),
            (10.0, 199.9, Framed::In),
            (10.0, 205.0, Framed::Near),
            (20.0, 180.0, Framed::Near),
            (10.0, 240.0, Framed::Ahead),
            (60.0, 180.0, Framed::Ahead),
            (10.0, 0.0, Framed::Behind),
            (-1.0, 180.0, Framed::Down),
            (-0.2, 180.0, Framed::In),
        ] {
            let seen = sun(elevation, azimuth).seen_in(&view(180.0));
            assert_eq!(seen.framed, framed, "{elevation} {azimuth}");
        }
    }

    #[test]
    fn a_camera_pointed_up_sees_the_high_sun_and_looks_across_north_too() {
        let up = view(350.0).pointed(50.0).unwrap();
        let seen = sun(50.0, 10.0).seen_in(&up);
        assert_eq!(seen.framed, Framed::In);
        assert!(seen.right > 0.0);
        assert_eq!(sun(50.0, 10.0).seen_in(&view(350.0)).framed, Framed::Ahead);
    }

    #[test]
    fn views_no_lens_gives_are_refused() {
        let facing = Bearing::turned(0.0);
        for (across, up) in [(0.0, 30.0), (40.0, 180.0), (-5.0, 30.0), (f64::NAN, 30.0)] {
            assert!(View::new(facing, across, up).is_err());
        }
        assert!(view(0.0).pointed(91.0).is_err());
        assert!(view(0.0).pointed(f64::NAN).is_err());
    }

    proptest! {
        #[test]
        fn a_camera_pointed_at_the_sun_has_it_in_the_middle(
            elevation in 0.0..90.0_f64,
            azimuth in 0.0..360.0_f64,
        ) {
            let sun = sun(elevation, azimuth);
            let seen = sun.seen_in(&view(azimuth).pointed(elevation).unwrap());
            prop_assert_eq!(seen.framed, Framed::In);
            prop_assert!(seen.right.abs() < 1e-6 && seen.above.abs() < 1e-6);
        }
    }
}
