//! Everything that bears on one exposure, as far as it is known.

use crate::craft::optics::movements::{Movements, parse_movements};
use crate::craft::{Aperture, FilmSpeed, Grounds, Millimetres, Seconds, Size};
use crate::figures::{CameraRecord, Given, LensRecord, Problem};

/// What is known of an exposure before it is made. What the logbook knows (the film in the holder, the
/// lens, the camera) is filled in by whoever builds it.
pub struct Situation<'a> {
    /// What was typed.
    pub given: Given<'a>,
    /// The film in the holder, as its maker names it.
    pub film: Option<String>,
    /// The speed it is exposed at.
    pub speed: FilmSpeed,
    /// What that speed rests on, where nobody said it and it is that of the film.
    pub speed_rests: Option<Grounds>,
    /// The lens.
    pub lens: LensRecord,
    /// The camera.
    pub camera: Option<CameraRecord>,
    /// The size of the sheet.
    pub format: Option<Size>,
    /// The aperture that was typed.
    pub aperture: Option<Aperture>,
    /// The time that was typed.
    pub time: Option<Seconds>,
    /// Movements from the middle.
    pub movements: Movements,
}

impl<'a> Situation<'a> {
    /// The situation as it was typed, with lens and camera from the user's records.
    ///
    /// # Errors
    /// If something cannot be read, or if no speed can be had.
    pub fn typed(given: &Given<'a>) -> Result<Situation<'a>, Problem> {
        let mut lens = given.lens()?.unwrap_or_default();
        if let Some(focal_length) = given.may("focal_length", Millimetres::parse)? {
            lens.focal_length = Some(focal_length);
        }
        let camera = given.camera()?;
        let reference = given.desk().reference;
        let film = given.text("film").map(str::to_owned);
        let rated = || reference.film(film.as_deref()?)?.rated();
        let (speed, rests) = match given.may("speed", FilmSpeed::parse)? {
            Some(speed) => (speed, None),
            None => {
                let (speed, rests) = rated().ok_or_else(|| given.missing("speed"))?;
                (speed, Some(rests))
            }
        };
        let format = given.may("format", Size::parse)?;
        let format = format.or(camera.as_ref().and_then(|camera| camera.size));
        let situation = Situation::of(*given, film, speed, lens, camera, format)?;
        Ok(Situation {
            speed_rests: rests,
            ..situation
        })
    }

    /// The situation with what the logbook knows.
    ///
    /// # Errors
    /// If something that was typed cannot be read.
    pub fn of(
        given: Given<'a>,
        film: Option<String>,
        speed: FilmSpeed,
        lens: LensRecord,
        camera: Option<CameraRecord>,
        format: Option<Size>,
    ) -> Result<Situation<'a>, Problem> {
        let aperture = given.may("aperture", Aperture::parse)?;
        let time = given.may("time", Seconds::parse)?;
        let movements = given.text("movements").map(parse_movements);
        Ok(Situation {
            given,
            film,
            speed,
            speed_rests: None,
            lens,
            camera,
            format,
            aperture,
            time,
            movements: movements.unwrap_or_default(),
        })
    }

    /// The name of the film, for sentences.
    pub(super) fn film_name(&self) -> &str {
        self.film.as_deref().unwrap_or("this film")
    }
}
