//! The light of scenes as tables give it, for when there is no meter or no trust in it.
//!
//! A [`Scene`] says how bright something usually is, a [`Turn`] what side and back light take from it,
//! a [`LightRule`] which aperture serves a kind of daylight at a time of one over the film speed, and a
//! [`FilmLight`] what a maker printed for one film. Tables disagree; the numbers stand here as they were
//! read, and which of them to follow is left to the photographer.

use std::collections::BTreeMap;

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::naming::Named;
use super::page::{Cite, Page};
use super::standing::{Origin, Standing};
use crate::craft::meter::{Constants, from_illuminance};
use crate::craft::{
    Aperture, ExposureValue, FilmSpeed, Grounds, Illuminance, Seconds, Stops, Unreadable,
};
use crate::words::words;

words! {
    /// The groups in which scenes are listed.
    SceneGroup {
        /// Daylight.
        Day = "day",
        /// The sky itself, and sunset.
        Sky = "sky",
        /// The moon and what it lights.
        Moon = "moon",
        /// At night.
        Night = "night",
        /// Under a roof.
        Inside = "inside",
        /// Light as it falls, measured in lux.
        Level = "level",
    }
}

/// How bright a scene is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SceneLight {
    /// Exposure values at ISO 100, the darker first.
    Values(ExposureValue, ExposureValue),
    /// Light that falls on it, the weaker first.
    Falling(Illuminance, Illuminance),
}

impl SceneLight {
    /// Exposure values at ISO 100, the darker first; light that falls is reckoned by the meter's C.
    ///
    /// # Errors
    /// If they are outside the range of exposure values.
    pub fn values(self, meter: &Constants) -> Result<(ExposureValue, ExposureValue), Unreadable> {
        match self {
            SceneLight::Values(from, to) => Ok((from, to)),
            SceneLight::Falling(from, to) => Ok((
                from_illuminance(from, FilmSpeed::ISO_100, meter)?,
                from_illuminance(to, FilmSpeed::ISO_100, meter)?,
            )),
        }
    }
}

/// A scene with the light it usually has.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// Name in links and files, such as `open-shade`.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Other ways in which people write it.
    pub also: Vec<String>,
    /// Where it is listed.
    pub group: SceneGroup,
    /// How bright it is.
    pub light: SceneLight,
    /// Whether the sun shines on it, so that it matters from which side.
    pub direct_sun: bool,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// A remark; empty if there is none.
    pub note: String,
    /// Where the scene was read.
    pub origin: Origin,
}

impl Named for Scene {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        let mut names = vec![self.name.clone()];
        names.extend(self.also.iter().cloned());
        names
    }
}

/// What light from another side takes from a scene in direct sun.
#[derive(Debug, Clone, PartialEq)]
pub struct Turn {
    /// `side` or `back`.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What is added to the exposure value; negative where it is darker.
    pub value: Stops,
    /// What the number rests on.
    pub grounds: Grounds,
}

impl Named for Turn {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        vec![self.name.clone()]
    }
}

/// A line of the sunny rule.
#[derive(Debug, Clone, PartialEq)]
pub struct LightRule {
    /// Name in links and files, such as `weak-sun`.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Other ways in which people write it.
    pub also: Vec<String>,
    /// The aperture at a time of one over the film speed, with what it rests on; nothing where only
    /// tables for one film know this light.
    pub rule: Option<(Aperture, Grounds)>,
}

impl Named for LightRule {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        let mut names = vec![self.name.clone()];
        names.extend(self.also.iter().cloned());
        names
    }
}

/// The table a maker gives for one film in daylight.
#[derive(Debug, Clone, PartialEq)]
pub struct FilmLight {
    /// The id of the film.
    pub film: String,
    /// The time that all apertures are for.
    pub time: Seconds,
    /// The aperture by the id of the light.
    pub apertures: BTreeMap<String, Aperture>,
    /// What the table rests on.
    pub grounds: Grounds,
}

impl Named for FilmLight {
    fn id(&self) -> &str {
        &self.film
    }

    fn names(&self) -> Vec<String> {
        Vec::new()
    }
}

/// Everything a file of light says.
#[derive(Debug, Clone, Default)]
pub(super) struct SceneTables {
    pub(super) scenes: Vec<Scene>,
    pub(super) turns: Vec<Turn>,
    pub(super) lights: Vec<LightRule>,
    pub(super) films: Vec<FilmLight>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LightFile {
    #[serde(default)]
    scene: Vec<SceneFile>,
    #[serde(default)]
    turn: Vec<TurnFile>,
    #[serde(default)]
    light: Vec<RuleFile>,
    #[serde(default)]
    film_light: Vec<FilmLightFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SceneFile {
    id: Spanned<String>,
    name: Spanned<String>,
    #[serde(default)]
    also: Vec<String>,
    #[serde(default = "day")]
    group: SceneGroup,
    from: Spanned<f64>,
    to: Option<f64>,
    #[serde(default)]
    unit: Unit,
    #[serde(default)]
    direct_sun: bool,
    source: Option<String>,
    standing: Option<Standing>,
    #[serde(default)]
    note: String,
}

#[derive(Deserialize, Clone, Copy, Default)]
enum Unit {
    #[default]
    #[serde(rename = "EV")]
    Ev,
    #[serde(rename = "lx")]
    Lux,
    #[serde(rename = "fc")]
    FootCandle,
}

fn day() -> SceneGroup {
    SceneGroup::Day
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TurnFile {
    id: Spanned<String>,
    name: Spanned<String>,
    stops: Stops,
    source: Option<String>,
    standing: Option<Standing>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RuleFile {
    id: Spanned<String>,
    name: Spanned<String>,
    #[serde(default)]
    also: Vec<String>,
    aperture: Option<Aperture>,
    source: Option<String>,
    standing: Option<Standing>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FilmLightFile {
    film: Spanned<String>,
    time: Spanned<String>,
    apertures: BTreeMap<String, Aperture>,
    source: Option<String>,
    standing: Option<Standing>,
}

/// Reads and checks a file of light.
pub(super) fn read(page: &Page<'_>) -> Result<SceneTables, ReferenceError> {
    let file: LightFile = page.read()?;
    let mut tables = SceneTables::default();
    for written in file.scene {
        page.once(
            "scene",
            &written.id,
            tables.scenes.iter().map(|one| &one.id),
        )?;
        tables.scenes.push(scene(page, written)?);
    }
    for written in file.turn {
        page.once("turn", &written.id, tables.turns.iter().map(|one| &one.id))?;
        let name = page.text("name", &written.name)?;
        tables.turns.push(Turn {
            id: page.id(&written.id)?,
            value: written.stops,
            grounds: grounds(page, &written.name, written.source, written.standing)?,
            name,
        });
    }
    for written in file.light {
        page.once(
            "light",
            &written.id,
            tables.lights.iter().map(|one| &one.id),
        )?;
        let rule = match written.aperture {
            None => None,
            Some(aperture) => {
                let on = grounds(page, &written.name, written.source, written.standing)?;
                Some((aperture, on))
            }
        };
        tables.lights.push(LightRule {
            id: page.id(&written.id)?,
            name: page.text("name", &written.name)?,
            also: written.also,
            rule,
        });
    }
    for written in file.film_light {
        page.once(
            "film_light",
            &written.film,
            tables.films.iter().map(|one| &one.film),
        )?;
        let time = Seconds::parse(written.time.get_ref()).map_err(|why| {
            let message = why.to_string();
            page.fault(written.time.span(), Fault::Shape { message })
        })?;
        tables.films.push(FilmLight {
            grounds: grounds(page, &written.film, written.source, written.standing)?,
            film: page.id(&written.film)?,
            time,
            apertures: written.apertures,
        });
    }
    Ok(tables)
}

fn grounds(
    page: &Page<'_>,
    what: &Spanned<String>,
    source: Option<String>,
    standing: Option<Standing>,
) -> Result<Grounds, ReferenceError> {
    let cite = Cite { source, standing };
    let (source, standing) = page.cited(what.get_ref(), what.span(), cite)?;
    Ok(Grounds::new(standing, source))
}

fn scene(page: &Page<'_>, written: SceneFile) -> Result<Scene, ReferenceError> {
    let name = page.text("name", &written.name)?;
    let span = written.from.span();
    let from = written.from.into_inner();
    let to = written.to.unwrap_or(from);
    if !(from.is_finite() && to.is_finite() && from <= to) {
        let what = name;
        return Err(page.fault(span, Fault::BadRange { what }));
    }
    let light = light(from, to, written.unit).map_err(|why| {
        let message = why.to_string();
        page.fault(span, Fault::Shape { message })
    })?;
    let cite = Cite {
        source: written.source,
        standing: written.standing,
    };
    let (source, standing) = page.cited(&name, written.name.span(), cite)?;
    Ok(Scene {
        id: page.id(&written.id)?,
        name,
        also: written.also,
        group: written.group,
        light,
        direct_sun: written.direct_sun,
        source,
        standing,
        note: written.note,
        origin: page.origin.clone(),
    })
}

fn light(from: f64, to: f64, unit: Unit) -> Result<SceneLight, Unreadable> {
    let falling = |factor: f64| -> Result<SceneLight, Unreadable> {
        let lux = |value: f64| Illuminance::new(value * factor);
        Ok(SceneLight::Falling(lux(from)?, lux(to)?))
    };
    match unit {
        Unit::Ev => Ok(SceneLight::Values(
            ExposureValue::new(from)?,
            ExposureValue::new(to)?,
        )),
        Unit::Lux => falling(1.0),
        Unit::FootCandle => falling(Illuminance::FOOT_CANDLE),
    }
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use super::*;
    use crate::reference::Reference;

    fn own(text: &str) -> Result<SceneTables, ReferenceError> {
        read(&Page {
            file: "light.toml".to_owned(),
            text,
            origin: Origin::Own(PathBuf::from("light.toml")),
        })
    }

    #[test]
    fn every_scene_is_found_by_its_name_and_by_every_other_way_to_write_it() {
        let reference = Reference::built_in().unwrap();
        assert!(reference.scenes().len() > 45);
        for scene in reference.scenes() {
            let names = [&scene.id, &scene.name].into_iter().chain(&scene.also);
            for name in names {
                let found = reference.scene(name).map(|found| &found.id);
                assert_eq!(found, Some(&scene.id), "{name}");
            }
            let (from, to) = scene.light.values(&Constants::default()).unwrap();
            assert!(from <= to, "{}", scene.id);
        }
        for light in reference.lights() {
            assert_eq!(reference.light(&light.name), Some(light));
        }
    }

    #[test]
    fn every_film_with_a_table_is_a_film_and_every_light_in_it_is_known() {
        let reference = Reference::built_in().unwrap();
        for id in ["tri-x-320", "tri-x-400"] {
            assert!(reference.films().iter().any(|film| film.id == id), "{id}");
            let table = reference.film_light(id).unwrap();
            for light in table.apertures.keys() {
                assert!(reference.light(light).is_some(), "{light}");
            }
        }
    }

    #[test]
    fn an_own_scene_needs_a_name_and_a_number_and_is_ones_own() {
        let tables =
            own("[[scene]]\nid = \"quarry\"\nname = \"the quarry, noon\"\nfrom = 14.5\n").unwrap();
        let scene = &tables.scenes[0];
        assert_eq!(
            (scene.standing, scene.group),
            (Standing::Own, SceneGroup::Day)
        );
        let lux = "[[scene]]\nid = \"loft\"\nname = \"the loft\"\nfrom = 40\nunit = \"fc\"\n";
        let SceneLight::Falling(from, _) = own(lux).unwrap().scenes[0].light else {
            panic!("it is light that falls")
        };
        assert!((from.value() - 430.556).abs() < 0.001);
    }

    #[test]
    fn what_no_light_can_be_is_refused_with_its_line() {
        for (wrong, line) in [
            ("from = 5\nto = 3", 4),
            ("from = nan", 4),
            ("from = 90", 4),
            ("from = 0\nunit = \"lx\"", 4),
            ("from = \"12\"", 4),
            ("from = 12\nunit = \"stops\"", 5),
        ] {
            let text = format!("[[scene]]\nid = \"x\"\nname = \"a scene\"\n{wrong}\n");
            let why = own(&text).unwrap_err();
            assert_eq!(why.line(), Some(line), "{wrong}: {why}");
        }
        let time = "[[film_light]]\nfilm = \"x\"\ntime = \"0\"\napertures = { sun = \"f/16\" }\n";
        assert_eq!(own(time).unwrap_err().line(), Some(3));
        let twice = "[[light]]\nid = \"a\"\nname = \"a\"\n[[light]]\nid = \"a\"\nname = \"b\"\n";
        assert!(own(twice).is_err());
        assert!(own("[[turn]]\nid = \"a\"\nname = \"a\"\nstops = 500\n").is_err());
    }
}
