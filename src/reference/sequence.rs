//! What is done with film one after the other, from the soak before the developer to drying.
//!
//! A sequence belongs to a vessel. Each of its steps says in which bath, in which light, for how long and
//! how near to the temperature of the developer; where the time is not a number (the developing time, the
//! clearing time of the fixer), the step says where it comes from. Nothing here forces an order on
//! anybody: what is begun when is for the one at the bench, and for the logbook.

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::naming::{Named, folded};
use super::page::{Page, UsualFile};
use super::process::{Need, Purpose};
use super::standing::{Origin, Usual};
use crate::words::words;

/// A sequence of steps.
#[derive(Debug, Clone, PartialEq)]
pub struct Sequence {
    /// Name in links and files, such as `tray`.
    pub id: String,
    /// Name for people, in lower case.
    pub title: String,
    /// What people call the vessels it is for.
    pub vessels: Vec<String>,
    /// Ids of the cautions to show before the work begins.
    pub cautions: Vec<String>,
    /// Figures of the sequence as a whole.
    pub usual: Vec<Usual>,
    /// A remark; empty if there is none.
    pub note: String,
    /// The steps in the order of work; never empty, ids unique.
    pub steps: Vec<SequenceStep>,
    /// Where it was read.
    pub origin: Origin,
}

impl Sequence {
    /// The step with this id.
    pub fn step(&self, id: &str) -> Option<&SequenceStep> {
        self.steps.iter().find(|step| step.id == id)
    }

    /// The step that a typed name means: its id or its label, however it is spelled.
    pub fn step_named(&self, typed: &str) -> Option<&SequenceStep> {
        let wanted = folded(typed);
        self.steps
            .iter()
            .find(|step| folded(&step.id) == wanted || folded(&step.label) == wanted)
    }

    /// Where the step with this id stands, counted from 1.
    pub fn place_of(&self, id: &str) -> Option<usize> {
        let at = self.steps.iter().position(|step| step.id == id)?;
        Some(at + 1)
    }

    /// Whether it is for a vessel that is called so.
    pub fn is_for(&self, vessel: &str) -> bool {
        let vessel = folded(vessel);
        self.vessels.iter().any(|own| folded(own) == vessel)
    }
}

impl Named for Sequence {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        let mut names = vec![self.title.clone()];
        names.extend(self.vessels.iter().cloned());
        names
    }
}

words! {
    /// The light in which a step is done.
    RoomLight {
        /// None at all.
        Dark = "dark",
        /// Only what the material is blind to.
        Safelight = "safelight",
        /// Any light.
        Room = "room",
    }
}

impl RoomLight {
    /// What it is, for people.
    pub const fn in_words(self) -> &'static str {
        match self {
            RoomLight::Dark => "total darkness",
            RoomLight::Safelight => "safelight",
            RoomLight::Room => "room light",
        }
    }
}

words! {
    /// Where the time of a step comes from, if not from the sequence.
    Takes {
        /// The developing time of the run.
        Run = "run",
        /// The clearing time of the fixer.
        Clearing = "clearing",
    }
}

/// One step of a sequence.
#[derive(Debug, Clone, PartialEq)]
pub struct SequenceStep {
    /// Name in links and files, such as `wash-aid`; unique in its sequence.
    pub id: String,
    /// Name for people, in lower case.
    pub label: String,
    /// Whether it can be left out without a second thought.
    pub need: Need,
    /// The purpose of the bath it is done in, if it is done in one.
    pub bath: Option<Purpose>,
    /// The light it is done in.
    pub light: RoomLight,
    /// Where its time comes from, if not from `time`.
    pub takes: Option<Takes>,
    /// How long others give.
    pub time: Option<Usual>,
    /// So many clearing times of the fixer.
    pub clearing: Option<Usual>,
    /// The step before that shortens it.
    pub helped_by: Option<String>,
    /// How long others give without that step.
    pub unhelped: Option<Usual>,
    /// How near its temperature must be to that of the developer.
    pub near: Option<Usual>,
    /// When the bath is poured out before the end.
    pub pour: Option<Usual>,
    /// Id of the way in which the film is moved.
    pub agitation: Option<String>,
    /// Ids of the cautions to show before this step.
    pub cautions: Vec<String>,
    /// A remark; empty if there is none.
    pub note: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SequencesFile {
    #[serde(default)]
    sequence: Vec<SequenceFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SequenceFile {
    id: Spanned<String>,
    title: Spanned<String>,
    #[serde(default)]
    vessels: Vec<String>,
    #[serde(default)]
    cautions: Vec<Spanned<String>>,
    #[serde(default)]
    usual: Vec<UsualFile>,
    #[serde(default)]
    note: String,
    #[serde(default)]
    step: Vec<StepFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StepFile {
    id: Spanned<String>,
    label: Spanned<String>,
    need: Option<Need>,
    bath: Option<Purpose>,
    light: Option<RoomLight>,
    takes: Option<Takes>,
    time: Option<UsualFile>,
    clearing: Option<UsualFile>,
    helped_by: Option<Spanned<String>>,
    unhelped: Option<UsualFile>,
    near: Option<UsualFile>,
    pour: Option<UsualFile>,
    agitation: Option<String>,
    #[serde(default)]
    cautions: Vec<Spanned<String>>,
    #[serde(default)]
    note: String,
}

/// Reads and checks a list of sequences; `is_caution` knows the cautions.
pub(super) fn read(
    page: &Page<'_>,
    is_caution: impl Fn(&str) -> bool,
) -> Result<Vec<Sequence>, ReferenceError> {
    let file: SequencesFile = page.read()?;
    let mut sequences: Vec<Sequence> = Vec::with_capacity(file.sequence.len());
    for written in file.sequence {
        page.once("sequence", &written.id, sequences.iter().map(|it| &it.id))?;
        if written.step.is_empty() {
            let message = format!("{:?} has no step", written.id.get_ref());
            return Err(page.fault(written.id.span(), Fault::Shape { message }));
        }
        let mut steps: Vec<SequenceStep> = Vec::with_capacity(written.step.len());
        for one in written.step {
            page.once("step", &one.id, steps.iter().map(|it| &it.id))?;
            let step = step(page, one, &steps, &is_caution)?;
            steps.push(step);
        }
        sequences.push(Sequence {
            id: page.id(&written.id)?,
            title: page.text("title", &written.title)?,
            vessels: written.vessels,
            cautions: page.known_cautions(written.cautions, &is_caution)?,
            usual: page.usual(written.usual)?,
            note: written.note,
            steps,
            origin: page.origin.clone(),
        });
    }
    Ok(sequences)
}

fn step(
    page: &Page<'_>,
    written: StepFile,
    before: &[SequenceStep],
    is_caution: &impl Fn(&str) -> bool,
) -> Result<SequenceStep, ReferenceError> {
    let span = written.id.span();
    let figure = |figure: Option<UsualFile>| figure.map(|it| page.one_usual(it)).transpose();
    // A time of which nothing can be counted is a slip of the pen.
    let timed = |usual: Option<UsualFile>| {
        let usual = figure(usual)?;
        match usual.as_ref().filter(|it| it.seconds().is_none()) {
            Some(odd) => {
                let message = format!("{:?} is no time: give from, and unit s, min or h", odd.what);
                Err(page.fault(span.clone(), Fault::Shape { message }))
            }
            None => Ok(usual),
        }
    };
    if let Some(other) = &written.helped_by
        && !before.iter().any(|step| step.id == *other.get_ref())
    {
        let fault = Fault::UnknownStep {
            step: written.id.get_ref().clone(),
            relation: "helped_by",
            other: other.get_ref().clone(),
        };
        return Err(page.fault(other.span(), fault));
    }
    Ok(SequenceStep {
        id: page.id(&written.id)?,
        label: page.text("label", &written.label)?,
        need: written.need.unwrap_or(Need::Required),
        bath: written.bath,
        light: written.light.unwrap_or(RoomLight::Dark),
        takes: written.takes,
        time: timed(written.time)?,
        clearing: figure(written.clearing)?,
        helped_by: written.helped_by.map(Spanned::into_inner),
        unhelped: timed(written.unhelped)?,
        near: figure(written.near)?,
        pour: timed(written.pour)?,
        agitation: written.agitation,
        cautions: page.known_cautions(written.cautions, is_caution)?,
        note: written.note,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reference::Reference;

    fn read_own(text: &str) -> Result<Vec<Sequence>, ReferenceError> {
        read(&Page::built_in("sequences.toml", text), |_| true)
    }

    #[test]
    fn every_sequence_goes_from_the_developer_to_drying_and_knows_its_schemes() {
        let reference = Reference::built_in().unwrap();
        assert_eq!(reference.sequences().len(), 4);
        for sequence in reference.sequences() {
            let purposes: Vec<Option<Purpose>> =
                sequence.steps.iter().map(|step| step.bath).collect();
            for wanted in [Purpose::Developer, Purpose::Stop, Purpose::Fixer] {
                assert!(purposes.contains(&Some(wanted)), "{}", sequence.id);
            }
            assert_eq!(sequence.steps.last().unwrap().id, "dry");
            for step in &sequence.steps {
                assert!(step.takes.is_some() || step.time.is_some(), "{}", step.id);
                if let Some(scheme) = &step.agitation {
                    let scheme = reference.agitation_scheme(scheme).expect(scheme);
                    assert!(scheme.rhythm.is_some(), "{}", scheme.id);
                }
            }
        }
    }

    #[test]
    fn a_vessel_finds_its_sequence() {
        let reference = Reference::built_in().unwrap();
        for (vessel, sequence) in [
            ("tray", Some("tray")),
            ("Trays", Some("tray")),
            ("hangers in a tank", Some("tank-hangers")),
            ("drum", Some("rotary")),
            ("tank", Some("inverted-tank")),
            ("bucket", None),
            ("", None),
        ] {
            let found = reference.sequence_for(vessel).map(|it| it.id.as_str());
            assert_eq!(found, sequence, "{vessel}");
        }
        let tray = reference.sequence_named("sheets in trays").unwrap();
        assert_eq!(tray.step_named("Wash aid").unwrap().id, "wash-aid");
        assert_eq!(tray.place_of("develop"), Some(2));
    }

    #[test]
    fn what_cannot_be_followed_is_refused() {
        let step = "[[sequence.step]]\nid = \"fix\"\nlabel = \"fix\"\n";
        for (text, says) in [
            (
                "[[sequence]]\nid = \"a\"\ntitle = \"b\"\n".to_owned(),
                "no step",
            ),
            (
                format!("[[sequence]]\nid = \"a\"\ntitle = \"b\"\n{step}{step}"),
                "second step",
            ),
            (
                format!("[[sequence]]\nid = \"a\"\ntitle = \"b\"\n{step}helped_by = \"soak\"\n"),
                "no step of this process",
            ),
            (
                format!(
                    "[[sequence]]\nid = \"a\"\ntitle = \"b\"\n{step}time = {{ what = \"time\", from = 3, \
                     unit = \"C\", standing = \"usual\" }}\n"
                ),
                "is no time",
            ),
        ] {
            let why = read_own(&text).unwrap_err().to_string();
            assert!(why.contains(says), "{why}");
        }
    }
}
