//! The user's own records in the form in which figures ask for them.
//!
//! For: everything that reckons with the lenses, cameras and findings of a logbook. [`OwnKit`] answers
//! from whatever knows the logbook's [`Names`]. Promises: what is out of use is not reckoned with as a
//! finding, and the newest finding stands last in its list. Which finding counts for a question, and how
//! it stands beside what is published, is for the figures to say.

use super::life::{CameraLife, FindingLife, FindingState, Found, LensLife, State};
use super::{Life, Names, Particulars, ThingKind, tidy_reference};
use crate::figures::{
    CameraRecord, Findings, Kit, LensRecord, OwnDevelopment, OwnFilm, OwnFilter, OwnFormat,
    OwnMeter, OwnScene, OwnTime, Place, ShutterTest,
};

/// The records of one logbook.
#[derive(Clone, Copy)]
pub struct OwnKit<'a> {
    names: &'a dyn Names,
}

impl<'a> OwnKit<'a> {
    /// The records of the logbook with these names.
    pub const fn new(names: &'a dyn Names) -> OwnKit<'a> {
        OwnKit { names }
    }

    fn called(&self, kind: ThingKind, reference: &str) -> Option<Life> {
        let thing = self.names.find(&[kind], &tidy_reference(reference))?;
        self.names.life_of(thing.id)
    }
}

impl Kit for OwnKit<'_> {
    fn lens(&self, reference: &str) -> Option<LensRecord> {
        let life = self.called(ThingKind::Lens, reference)?;
        Some(lens_record(&life.reference, life.lens()?))
    }

    fn camera(&self, reference: &str) -> Option<CameraRecord> {
        let life = self.called(ThingKind::Camera, reference)?;
        Some(camera_record(&life.reference, life.camera()?))
    }

    fn findings(&self) -> Findings {
        in_figures(self.names.findings())
    }
}

fn lens_record(reference: &str, lens: &LensLife) -> LensRecord {
    let tests = lens.tests.iter().map(|test| ShutterTest {
        mark: test.mark,
        timings: test.timings.clone(),
        aperture: test.aperture,
        on: test.at.date_naive(),
    });
    LensRecord {
        reference: reference.to_owned(),
        name: lens.name.clone(),
        focal_length: lens.focal_length,
        widest: lens.widest,
        smallest: lens.smallest,
        image_circle: lens.image_circle,
        pupil_ratio: lens.pupil_ratio,
        flange: lens.flange,
        tests: tests.collect(),
    }
}

fn camera_record(reference: &str, camera: &CameraLife) -> CameraRecord {
    CameraRecord {
        reference: reference.to_owned(),
        name: camera.name.clone(),
        size: camera.size,
        shortest_draw: camera.shortest_draw,
        longest_draw: camera.longest_draw,
    }
}

/// Sorts lives of findings into what figures ask for, the newest of each last.
pub fn in_figures(mut lives: Vec<Life>) -> Findings {
    lives.retain(|life| life.state_word() == FindingState::Kept.word());
    // Of two that were logged for the same moment, the one that came later counts.
    lives.sort_by_key(|life| (life.finding().and_then(|finding| finding.at), life.thing.id));
    let mut all = Findings::default();
    for life in lives {
        let Particulars::Finding(FindingLife {
            found: Some(found),
            at: Some(at),
            ..
        }) = life.particulars
        else {
            continue;
        };
        let on = at.date_naive();
        match found {
            Found::Filter {
                filter,
                stops,
                film,
                light,
            } => all.filters.push(OwnFilter {
                filter,
                film,
                light,
                stops,
                on,
            }),
            Found::Time {
                film,
                metered,
                needed,
                development,
            } => all.times.push(OwnTime {
                film,
                metered,
                needed,
                development,
                on,
            }),
            Found::Film {
                film,
                speed,
                maker,
                kind,
            } => all.films.push(OwnFilm {
                name: film,
                speed,
                maker,
                kind,
                on,
            }),
            Found::Format {
                size,
                name,
                image,
                cut,
                depth,
                tolerance,
                ..
            } => all.formats.push(OwnFormat {
                size,
                name,
                image,
                cut,
                depth,
                tolerance,
                on,
            }),
            Found::Development(found) => all.developments.push(OwnDevelopment {
                film: found.film,
                developer: found.developer,
                dilution: found.dilution,
                temperature: found.temperature,
                time: found.time,
                agitation: found.agitation,
                speed: found.speed,
                contrast: found.contrast,
                gradient: found.gradient,
                on,
            }),
            Found::Light { scene, value } => all.scenes.push(OwnScene { scene, value, on }),
            Found::Meter {
                reflected,
                incident,
            } => {
                // One constant may be set today and the other was set long ago.
                let before = all.meter.take();
                all.meter = Some(OwnMeter {
                    reflected: reflected.or(before.and_then(|meter| meter.reflected)),
                    incident: incident.or(before.and_then(|meter| meter.incident)),
                    on,
                });
            }
            Found::Place {
                name,
                coordinates,
                zone,
            } => all.places.push(Place {
                name,
                latitude: coordinates.latitude(),
                longitude: coordinates.longitude(),
                zone,
            }),
            // Strips, tablets and limits are asked for where they are compared.
            Found::Strip(_) | Found::Tablet(_) | Found::Limits(_) => {}
        }
    }
    all
}
