//! What the user owns and has measured, as far as figures need it.
//!
//! For: recipes that reckon with a lens, a camera or a number of the user's own. The records are plain
//! data; the logbook fills them from its entries. A number of one's own goes before every published
//! one, and says on which day it was found. What was typed to name one of them is looked up here, the
//! same way for every recipe, and a name that nothing has is a [`Problem`] beside its question.

use chrono::NaiveDate;

use super::{Given, Problem};
use crate::craft::development::agitation::Agitation;
use crate::craft::development::contrast::Expansion;
use crate::craft::sun::Coordinates;
use crate::craft::{
    Aperture, Celsius, Dilution, ExposureValue, FilmSpeed, Millimetres, Seconds, Size, Stops,
};
use crate::reference::Reference;

pub use crate::reference::{OwnFilm, OwnFormat};

/// A shutter test: one mark timed several times on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct ShutterTest {
    /// The mark that was set.
    pub mark: Seconds,
    /// The times that were measured, in the order they were taken.
    pub timings: Vec<Seconds>,
    /// The aperture that was set, if it was noted.
    pub aperture: Option<Aperture>,
    /// The day.
    pub on: NaiveDate,
}

/// A lens.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LensRecord {
    /// Its reference, `L-02`.
    pub reference: String,
    /// What it is called.
    pub name: String,
    /// Its focal length.
    pub focal_length: Option<Millimetres>,
    /// Its widest aperture.
    pub widest: Option<Aperture>,
    /// Its smallest aperture.
    pub smallest: Option<Aperture>,
    /// The diameter of its image circle at infinity.
    pub image_circle: Option<Millimetres>,
    /// Exit pupil over entrance pupil.
    pub pupil_ratio: Option<f64>,
    /// From its flange to the film, focused at infinity; near the focal length but for telephoto and
    /// retrofocus lenses.
    pub flange: Option<Millimetres>,
    /// Tests of its shutter, oldest first.
    pub tests: Vec<ShutterTest>,
}

/// A camera.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CameraRecord {
    /// Its reference, `C-01`.
    pub reference: String,
    /// What it is called.
    pub name: String,
    /// The size of sheet it takes.
    pub size: Option<Size>,
    /// The shortest draw of its bellows.
    pub shortest_draw: Option<Millimetres>,
    /// The longest draw of its bellows.
    pub longest_draw: Option<Millimetres>,
}

/// What a filter takes, as the user found it.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnFilter {
    /// The filter.
    pub filter: String,
    /// The film it was found on; any film if nothing is said.
    pub film: Option<String>,
    /// The light it was found in; any light if nothing is said.
    pub light: Option<String>,
    /// What it takes.
    pub stops: Stops,
    /// The day.
    pub on: NaiveDate,
}

/// One point of the reciprocity of a film, as the user found it.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnTime {
    /// The film.
    pub film: String,
    /// The time that was reckoned.
    pub metered: Seconds,
    /// The time that was needed.
    pub needed: Seconds,
    /// How development had to change, in words.
    pub development: Option<String>,
    /// The day.
    pub on: NaiveDate,
}

/// A developing time, as the user found it.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnDevelopment {
    /// The film.
    pub film: String,
    /// The developer.
    pub developer: String,
    /// Its dilution, if it was noted.
    pub dilution: Option<Dilution>,
    /// Its temperature.
    pub temperature: Celsius,
    /// The time.
    pub time: Seconds,
    /// How the film was agitated, if it was noted.
    pub agitation: Option<Agitation>,
    /// The exposure index the film was exposed at, if it was noted.
    pub speed: Option<FilmSpeed>,
    /// The contrast it is for.
    pub contrast: Expansion,
    /// The average gradient it came to, if it was measured.
    pub gradient: Option<f64>,
    /// The day.
    pub on: NaiveDate,
}

/// The light of a scene, as the user found it.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnScene {
    /// What it is.
    pub scene: String,
    /// Its exposure value at ISO 100.
    pub value: ExposureValue,
    /// The day.
    pub on: NaiveDate,
}

/// The constants of the user's meter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OwnMeter {
    /// K, for reflected light in cd/m2.
    pub reflected: Option<f64>,
    /// C, for incident light in lux.
    pub incident: Option<f64>,
    /// The day.
    pub on: NaiveDate,
}

/// A place on the earth.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// What it is called.
    pub name: String,
    /// Degrees north of the equator, south negative.
    pub latitude: f64,
    /// Degrees east of Greenwich, west negative.
    pub longitude: f64,
    /// Its time zone: a name such as `Europe/Oslo`, or an offset such as `+01:00`.
    pub zone: Option<String>,
}

impl Place {
    /// Its coordinates.
    fn coordinates(&self, given: &Given<'_>) -> Result<Coordinates, Problem> {
        Coordinates::new(self.latitude, self.longitude)
            .map_err(|why| given.problem("place", format!("as it was noted, {why}")))
    }
}

/// Everything the user has found out, latest last in each list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Findings {
    /// Filters.
    pub filters: Vec<OwnFilter>,
    /// Reciprocity.
    pub times: Vec<OwnTime>,
    /// Films.
    pub films: Vec<OwnFilm>,
    /// Formats.
    pub formats: Vec<OwnFormat>,
    /// Developing times.
    pub developments: Vec<OwnDevelopment>,
    /// Scenes.
    pub scenes: Vec<OwnScene>,
    /// The meter.
    pub meter: Option<OwnMeter>,
    /// Places.
    pub places: Vec<Place>,
}

impl Findings {
    /// Lays the films and formats of one's own over those of `reference`, in place of what was laid
    /// over them before, so that whoever asks it for a film or a format is told the user's own figures
    /// first.
    pub fn lay_over(self, reference: &mut Reference) {
        reference.lay_over(self.films, self.formats);
    }

    /// The place that was noted by this name, the latest if there are several.
    fn place(&self, name: &str) -> Option<&Place> {
        let wanted = name.trim().to_lowercase();
        let mut latest_first = self.places.iter().rev();
        latest_first.find(|place| place.name.trim().to_lowercase() == wanted)
    }
}

/// What a recipe may ask of the user's own records.
pub trait Kit {
    /// The lens that is called so, by its reference.
    fn lens(&self, reference: &str) -> Option<LensRecord>;
    /// The camera that is called so, by its reference.
    fn camera(&self, reference: &str) -> Option<CameraRecord>;
    /// What the user has found out.
    fn findings(&self) -> Findings;
}

/// No records at all.
#[derive(Debug, Clone, Copy, Default)]
pub struct NoKit;

impl Kit for NoKit {
    fn lens(&self, _reference: &str) -> Option<LensRecord> {
        None
    }
    fn camera(&self, _reference: &str) -> Option<CameraRecord> {
        None
    }
    fn findings(&self) -> Findings {
        Findings::default()
    }
}

impl Given<'_> {
    /// The record of the lens that was named, if one was.
    pub(super) fn lens(&self) -> Result<Option<LensRecord>, Problem> {
        let Some(name) = self.text("lens") else {
            return Ok(None);
        };
        let lens = self.desk().kit.lens(name);
        lens.map(Some)
            .ok_or_else(|| self.unknown("lens", name, "L-02"))
    }

    /// The record of the camera that was named, if one was.
    pub(super) fn camera(&self) -> Result<Option<CameraRecord>, Problem> {
        let Some(name) = self.text("camera") else {
            return Ok(None);
        };
        let camera = self.desk().kit.camera(name);
        camera
            .map(Some)
            .ok_or_else(|| self.unknown("camera", name, "C-01"))
    }

    fn unknown(&self, key: &'static str, name: &str, such_as: &str) -> Problem {
        let says = format!(
            "there is no {key} \"{name}\" in the logbook: write its reference, such as {such_as}, \
             or leave it out and type its figures"
        );
        self.problem(key, says)
    }

    /// Where the place that was named or written as coordinates lies, if one was, with the time zone
    /// it was noted with.
    pub(super) fn place(&self) -> Result<Option<(Coordinates, Option<String>)>, Problem> {
        let Some(typed) = self.text("place") else {
            return Ok(None);
        };
        match self.desk().kit.findings().place(typed) {
            Some(noted) => Ok(Some((noted.coordinates(self)?, noted.zone.clone()))),
            None => Ok(self.may("place", Coordinates::parse)?.map(|it| (it, None))),
        }
    }
}
