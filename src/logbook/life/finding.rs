//! The life of what the user has found out: kept until it is out of use. A later finding about the
//! same thing goes before an earlier one without ending it, so that the earlier one can be read still.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::strip::{limits_in_words, strip_in_words, tablet_in_words};
use super::{Happening, Row, State, Story, goes};
use crate::craft::development::agitation::Agitation;
use crate::craft::development::contrast::Expansion;
use crate::craft::sun::Coordinates;
use crate::craft::{
    Celsius, Dilution, ExposureValue, FilmSpeed, Millimetres, Seconds, Size, Stops,
};
use crate::logbook::{Deed, Kind, LimitsSet, StripRead, TabletFound, ThingId};
use crate::reference::{FilmKind, Reference};

/// The states of a finding.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FindingState {
    /// Not there yet.
    #[default]
    New,
    /// Kept, and reckoned with.
    Kept,
    /// Out of use.
    Retired,
}

impl State for FindingState {
    const NEW: Self = FindingState::New;
    const TABLE: &'static [Row<Self>] = &[
        goes(FindingState::New, Kind::FilterFound, FindingState::Kept),
        goes(FindingState::New, Kind::TimeFound, FindingState::Kept),
        goes(FindingState::New, Kind::FilmFound, FindingState::Kept),
        goes(FindingState::New, Kind::FormatFound, FindingState::Kept),
        goes(
            FindingState::New,
            Kind::DevelopmentFound,
            FindingState::Kept,
        ),
        goes(FindingState::New, Kind::LightFound, FindingState::Kept),
        goes(FindingState::New, Kind::MeterSet, FindingState::Kept),
        goes(FindingState::New, Kind::PlaceKept, FindingState::Kept),
        goes(FindingState::New, Kind::StripRead, FindingState::Kept),
        goes(FindingState::New, Kind::TabletFound, FindingState::Kept),
        goes(FindingState::New, Kind::LimitsSet, FindingState::Kept),
        goes(FindingState::Kept, Kind::Retired, FindingState::Retired),
    ];
    fn word(self) -> &'static str {
        match self {
            FindingState::New => "not there yet",
            FindingState::Kept => "kept",
            FindingState::Retired => "out of use",
        }
    }
}

/// What was found out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Found {
    /// What a filter takes.
    Filter {
        /// The filter.
        filter: String,
        /// What it takes.
        stops: Stops,
        /// The film it was found on.
        film: Option<String>,
        /// The light it was found in.
        light: Option<String>,
    },
    /// One point of the reciprocity of a film.
    Time {
        /// The film.
        film: String,
        /// The time that was reckoned.
        metered: Seconds,
        /// The time that was needed.
        needed: Seconds,
        /// How development had to change.
        development: Option<String>,
    },
    /// A film.
    Film {
        /// The film.
        film: String,
        /// Its speed.
        speed: Option<FilmSpeed>,
        /// Its maker.
        maker: Option<String>,
        /// To what colours it answers.
        kind: Option<FilmKind>,
    },
    /// A format.
    Format {
        /// What it goes by: its name, or else its size.
        format: String,
        /// The size in its name.
        size: Size,
        /// The name it was given.
        name: Option<String>,
        /// What the holder leaves open.
        image: Option<Size>,
        /// The size the sheets are cut to.
        cut: Option<Size>,
        /// From the face of the holder to its septum.
        depth: Option<Millimetres>,
        /// By how much holders differ from that either way.
        tolerance: Option<Millimetres>,
    },
    /// A developing time.
    Development(FoundDevelopment),
    /// The light of a scene.
    Light {
        /// The scene.
        scene: String,
        /// Its exposure value at ISO 100.
        value: ExposureValue,
    },
    /// The constants of the meter.
    Meter {
        /// K, for reflected light in cd/m2.
        reflected: Option<f64>,
        /// C, for incident light in lux.
        incident: Option<f64>,
    },
    /// A place.
    Place {
        /// What it is called.
        name: String,
        /// Where it is.
        coordinates: Coordinates,
        /// Its time zone.
        zone: Option<String>,
    },
    /// A strip of steps, with everything that was read of it.
    Strip(Box<StripRead>),
    /// The steps of a tablet.
    Tablet(TabletFound),
    /// The limits of a series of control strips.
    Limits(LimitsSet),
}

/// A developing time as it was found out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FoundDevelopment {
    /// The film.
    pub film: String,
    /// The developer.
    pub developer: String,
    /// Its dilution.
    pub dilution: Option<Dilution>,
    /// Its temperature.
    pub temperature: Celsius,
    /// The time.
    pub time: Seconds,
    /// How the film was agitated.
    pub agitation: Option<Agitation>,
    /// The exposure index the film was exposed at.
    pub speed: Option<FilmSpeed>,
    /// The contrast it is for.
    pub contrast: Expansion,
    /// The average gradient the negatives came to.
    pub gradient: Option<f64>,
}

impl FoundDevelopment {
    /// What was found, with what it holds for: `9 min in DD-X 1+4 at 20.0 C, N-1`.
    fn says(&self) -> String {
        let dilution = self.dilution.map(|it| format!(" {it}")).unwrap_or_default();
        let mut words = format!(
            "{} in {}{dilution} at {}",
            self.time, self.developer, self.temperature
        );
        let rest = [
            (self.contrast != Expansion::NORMAL).then(|| self.contrast.to_string()),
            self.agitation.map(|it| it.to_string()),
            self.speed.map(|it| format!("exposed at {it}")),
            self.gradient.map(|it| format!("gradient {it:.2}")),
        ];
        for part in rest.into_iter().flatten() {
            words.push_str(", ");
            words.push_str(&part);
        }
        words
    }
}

impl Found {
    /// The word for what sort of finding it is.
    pub const fn sort(&self) -> &'static str {
        match self {
            Found::Filter { .. } => "filter",
            Found::Time { .. } => "reciprocity",
            Found::Film { .. } => "film",
            Found::Format { .. } => "format",
            Found::Development(_) => "development",
            Found::Light { .. } => "light",
            Found::Meter { .. } => "meter",
            Found::Place { .. } => "place",
            Found::Strip(_) => "strip",
            Found::Tablet(_) => "tablet",
            Found::Limits(_) => "limits",
        }
    }

    /// What it is about: the filter, the film, the format, the scene, the place.
    pub fn about(&self) -> &str {
        match self {
            Found::Filter { filter, .. } => filter,
            Found::Time { film, .. } | Found::Film { film, .. } => film,
            Found::Format { format, .. } => format,
            Found::Development(found) => &found.film,
            Found::Light { scene, .. } => scene,
            Found::Meter { .. } => "the meter",
            Found::Place { name, .. } => name,
            Found::Strip(strip) => strip.film.as_deref().unwrap_or("an unknown film"),
            Found::Tablet(tablet) => &tablet.name,
            Found::Limits(limits) => &limits.series,
        }
    }

    /// What was found, with its units, and what it holds for.
    pub fn says(&self) -> String {
        let said = |parts: &[Option<String>]| {
            let parts: Vec<&str> = parts.iter().flatten().map(String::as_str).collect();
            parts.join(", ")
        };
        let list =
            |first: String, [one, other]: [Option<String>; 2]| said(&[Some(first), one, other]);
        match self {
            Found::Filter {
                stops, film, light, ..
            } => list(
                stops.to_string(),
                [
                    film.as_ref().map(|film| format!("on {film}")),
                    light.as_ref().map(|light| format!("in {light}")),
                ],
            ),
            Found::Time {
                metered,
                needed,
                development,
                ..
            } => list(
                format!("{metered} needs {needed}"),
                [development.clone(), None],
            ),
            Found::Film {
                speed, maker, kind, ..
            } => said(&[
                speed.map(|speed| format!("speed {speed}")),
                maker.clone(),
                kind.map(|kind| kind.to_string()),
            ]),
            Found::Format {
                size,
                name,
                image,
                cut,
                depth,
                tolerance,
                ..
            } => said(&[
                name.as_ref().map(|_| size.to_string()),
                image.map(|image| format!("image {image}")),
                cut.map(|cut| format!("cut {cut}")),
                depth.map(|depth| format!("{depth} deep")),
                tolerance.map(|by| format!("{by} either way")),
            ]),
            Found::Development(found) => found.says(),
            Found::Light { value, .. } => format!("{value} at ISO 100"),
            Found::Meter {
                reflected,
                incident,
            } => {
                let named = |name: &str, number: &f64| format!("{name} {number}");
                let parts = [
                    reflected.as_ref().map(|number| named("K", number)),
                    incident.as_ref().map(|number| named("C", number)),
                ];
                let parts: Vec<String> = parts.into_iter().flatten().collect();
                parts.join(", ")
            }
            Found::Place {
                coordinates, zone, ..
            } => list(coordinates.to_string(), [zone.clone(), None]),
            Found::Strip(strip) => strip_in_words(strip),
            Found::Tablet(tablet) => tablet_in_words(tablet),
            Found::Limits(limits) => limits_in_words(limits),
        }
    }

    /// What a deed found out, if it is one that does.
    pub(in crate::logbook) fn by(deed: &Deed) -> Option<Found> {
        Some(match deed {
            Deed::FilterFound(found) => Found::Filter {
                filter: found.filter.clone(),
                stops: found.stops,
                film: found.film.clone(),
                light: found.light.clone(),
            },
            Deed::TimeFound(found) => Found::Time {
                film: found.film.clone(),
                metered: found.metered,
                needed: found.needed,
                development: found.development.clone(),
            },
            Deed::FilmFound(found) => Found::Film {
                film: found.film.clone(),
                speed: found.speed,
                maker: found.maker.clone(),
                kind: found.kind,
            },
            Deed::FormatFound(found) => Found::Format {
                format: found.name.clone().unwrap_or_else(|| found.size.to_string()),
                size: found.size,
                name: found.name.clone(),
                image: found.image,
                cut: found.cut,
                depth: found.depth,
                tolerance: found.tolerance,
            },
            Deed::DevelopmentFound(found) => Found::Development(FoundDevelopment {
                film: found.film.clone(),
                developer: found.developer.clone(),
                dilution: found.dilution,
                temperature: found.temperature,
                time: found.time,
                agitation: found.agitation,
                speed: found.speed,
                contrast: found.contrast.unwrap_or(Expansion::NORMAL),
                gradient: found.gradient,
            }),
            Deed::LightFound(found) => Found::Light {
                scene: found.scene.clone(),
                value: found.value,
            },
            Deed::MeterSet(set) => Found::Meter {
                reflected: set.reflected,
                incident: set.incident,
            },
            Deed::PlaceKept(kept) => Found::Place {
                name: kept.name.clone(),
                coordinates: kept.coordinates,
                zone: kept.zone.clone(),
            },
            Deed::StripRead(read) => Found::Strip(Box::new(read.clone())),
            Deed::TabletFound(found) => Found::Tablet(found.clone()),
            Deed::LimitsSet(set) => Found::Limits(set.clone()),
            _ => return None,
        })
    }
}

/// What is known of a finding.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct FindingLife {
    /// The state it is in.
    pub state: FindingState,
    /// What was found out.
    pub found: Option<Found>,
    /// When.
    pub at: Option<DateTime<FixedOffset>>,
}

impl Story for FindingLife {
    type S = FindingState;

    fn state(&self) -> FindingState {
        self.state
    }

    fn take_in(
        &mut self,
        _me: ThingId,
        happening: &Happening<'_>,
        to: FindingState,
        _: &Reference,
    ) {
        self.state = to;
        if let Some(found) = Found::by(happening.deed) {
            self.found = Some(found);
            self.at = Some(happening.happened);
        }
    }
}
