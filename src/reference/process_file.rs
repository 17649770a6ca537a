//! Reads a process from its file and checks it.
//!
//! A process that leaves this module can be worked: ids are unique, every relation names a step that
//! exists, no step waits for itself by any way round, the required steps done in their order finish
//! a print, no step is impossible, and every figure says what it rests on. A recipe and a control of
//! contrast name a step that is there, and figures that it has.

use serde::Deserialize;
use toml::Spanned;

use super::contrast::{self, Contrast, ContrastFile, ScaleFile};
use super::error::{Fault, ReferenceError};
use super::lasting::{self, CapacityFile, KeepingFile};
use super::mix::{self, Mix, MixFile, SolutionFile};
use super::page::{Page, UsualFile, plain};
use super::process::{Figure, FigureKind, Light, Need, Process, Purpose, Step, Work};

/// The most characters of a short name.
const SHORT: usize = 12;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ProcessFile {
    id: Spanned<String>,
    name: Spanned<String>,
    short: Spanned<String>,
    summary: Spanned<String>,
    light: Light,
    #[serde(default)]
    cautions: Vec<Spanned<String>>,
    #[serde(default)]
    scale: Vec<ScaleFile>,
    #[serde(default)]
    keeping: Vec<KeepingFile>,
    #[serde(default)]
    capacity: Vec<CapacityFile>,
    #[serde(default)]
    usual: Vec<UsualFile>,
    #[serde(default)]
    mix: Vec<MixFile>,
    #[serde(default)]
    contrast: Vec<ContrastFile>,
    #[serde(default)]
    step: Vec<StepFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StepFile {
    id: Spanned<String>,
    label: Spanned<String>,
    work: Work,
    #[serde(default = "required")]
    need: Need,
    #[serde(default)]
    repeat: bool,
    #[serde(default)]
    after: Vec<Spanned<String>>,
    #[serde(default)]
    not_after: Vec<Spanned<String>>,
    #[serde(default)]
    reopens: Vec<Spanned<String>>,
    bath: Option<Purpose>,
    #[serde(default)]
    solution: Vec<SolutionFile>,
    #[serde(default)]
    cautions: Vec<Spanned<String>>,
    #[serde(default)]
    figure: Vec<FigureFile>,
    #[serde(default)]
    usual: Vec<UsualFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FigureFile {
    key: Spanned<String>,
    label: Spanned<String>,
    kind: FigureKind,
    #[serde(default)]
    unit: String,
    #[serde(default)]
    hint: String,
    #[serde(default = "optional")]
    need: Need,
    #[serde(default)]
    choices: Vec<String>,
}

fn required() -> Need {
    Need::Required
}

fn optional() -> Need {
    Need::Optional
}

/// What a process may name that stands in other files.
#[derive(Clone, Copy)]
pub(super) struct Known<'a> {
    /// Whether there is a caution with this id.
    pub(super) caution: &'a dyn Fn(&str) -> bool,
    /// Whether there is a formula with this id.
    pub(super) formula: &'a dyn Fn(&str) -> bool,
}

/// Reads and checks one process.
pub(super) fn read(page: &Page<'_>, known: Known<'_>) -> Result<Process, ReferenceError> {
    let file: ProcessFile = page.read()?;
    let short = page.text("short", &file.short)?;
    if short.chars().count() > SHORT {
        let fault = Fault::TooLong {
            short,
            limit: SHORT,
        };
        return Err(page.fault(file.short.span(), fault));
    }
    check_relations(page, &file.step)?;
    let id_span = file.id.span();
    let cautions = page.known_cautions(file.cautions, &known.caution)?;
    let mut steps: Vec<Step> = Vec::with_capacity(file.step.len());
    for step in file.step {
        page.once("step", &step.id, steps.iter().map(|step| &step.id))?;
        steps.push(read_step(page, step, known)?);
    }
    let mixes = read_mixes(page, file.mix, &steps)?;
    let process = Process {
        id: page.id(&file.id)?,
        name: page.text("name", &file.name)?,
        short,
        summary: page.text("summary", &file.summary)?,
        light: file.light,
        cautions,
        usual: page.usual(file.usual)?,
        scales: contrast::scales(page, file.scale)?,
        contrasts: read_contrasts(page, file.contrast, &mixes, &steps)?,
        mixes,
        keeping: lasting::keeping(page, file.keeping)?,
        capacities: lasting::capacities(page, file.capacity)?,
        steps,
        origin: page.origin.clone(),
    };
    straight_run(&process).map_err(|fault| page.fault(id_span, fault))?;
    Ok(process)
}

/// The step that a recipe or a control names.
fn named<'s>(
    page: &Page<'_>,
    of: impl FnOnce() -> String,
    step: &Spanned<String>,
    steps: &'s [Step],
) -> Result<&'s Step, ReferenceError> {
    let found = steps.iter().find(|known| known.id == *step.get_ref());
    found.ok_or_else(|| {
        let fault = Fault::NotThere {
            of: of(),
            key: "step",
            other: step.get_ref().clone(),
        };
        page.fault(step.span(), fault)
    })
}

fn read_mixes(
    page: &Page<'_>,
    written: Vec<MixFile>,
    steps: &[Step],
) -> Result<Vec<Mix>, ReferenceError> {
    let mut mixes: Vec<Mix> = Vec::with_capacity(written.len());
    for one in written {
        page.once("mix", &one.id, mixes.iter().map(|mix| &mix.id))?;
        let of = || format!("mix {:?}", one.id.get_ref());
        let step = named(page, of, &one.step, steps)?;
        mixes.push(mix::mix(page, one, |key| step.figure(key).is_some())?);
    }
    Ok(mixes)
}

fn read_contrasts(
    page: &Page<'_>,
    written: Vec<ContrastFile>,
    mixes: &[Mix],
    steps: &[Step],
) -> Result<Vec<Contrast>, ReferenceError> {
    let mut contrasts: Vec<Contrast> = Vec::with_capacity(written.len());
    for one in written {
        page.once("contrast", &one.id, contrasts.iter().map(|it| &it.id))?;
        let of = || format!("contrast {:?}", one.id.get_ref());
        let step = named(page, of, &one.step, steps)?;
        if let Some(figure) = &one.figure
            && step.figure(figure.get_ref()).is_none()
        {
            let fault = Fault::NotThere {
                of: of(),
                key: "figure",
                other: figure.get_ref().clone(),
            };
            return Err(page.fault(figure.span(), fault));
        }
        contrasts.push(contrast::contrast(page, one, mixes)?);
    }
    Ok(contrasts)
}

fn read_step(page: &Page<'_>, step: StepFile, known: Known<'_>) -> Result<Step, ReferenceError> {
    let mut figures: Vec<Figure> = Vec::with_capacity(step.figure.len());
    for figure in step.figure {
        page.once(
            "figure",
            &figure.key,
            figures.iter().map(|figure| &figure.key),
        )?;
        figures.push(Figure {
            key: page.id(&figure.key)?,
            label: page.text("label", &figure.label)?,
            kind: figure.kind,
            unit: figure.unit,
            hint: figure.hint,
            need: figure.need,
            choices: figure.choices,
        });
    }
    Ok(Step {
        id: page.id(&step.id)?,
        label: page.text("label", &step.label)?,
        work: step.work,
        need: step.need,
        repeat: step.repeat,
        after: plain(step.after),
        not_after: plain(step.not_after),
        reopens: plain(step.reopens),
        bath: step.bath,
        solutions: mix::solutions(page, step.solution, known.formula)?,
        cautions: page.known_cautions(step.cautions, &known.caution)?,
        figures,
        usual: page.usual(step.usual)?,
    })
}

/// Every relation names a step; `after` names one further up, so that no circle can be; a required
/// step waits for required ones only; and no step waits for what makes it too late.
fn check_relations(page: &Page<'_>, steps: &[StepFile]) -> Result<(), ReferenceError> {
    for (place, step) in steps.iter().enumerate() {
        let name = || step.id.get_ref().clone();
        let relations = [
            ("after", &step.after),
            ("not_after", &step.not_after),
            ("reopens", &step.reopens),
        ];
        for (relation, others) in relations {
            for other in others {
                if !steps
                    .iter()
                    .any(|step| step.id.get_ref() == other.get_ref())
                {
                    let fault = Fault::UnknownStep {
                        step: name(),
                        relation,
                        other: other.get_ref().clone(),
                    };
                    return Err(page.fault(other.span(), fault));
                }
            }
        }
        let above = steps.get(..place).unwrap_or_default();
        for other in &step.after {
            let found = above
                .iter()
                .find(|step| step.id.get_ref() == other.get_ref());
            let (step, other_id) = (name(), other.get_ref().clone());
            let fault = match found {
                None => Fault::NotAbove {
                    step,
                    other: other_id,
                },
                Some(found) if needs_optional(steps, place, found) => Fault::NeedsOptional {
                    step,
                    other: other_id,
                },
                Some(_) => continue,
            };
            return Err(page.fault(other.span(), fault));
        }
        let before = all_before(steps, place);
        for other in &step.not_after {
            if before.contains(&other.get_ref().as_str()) {
                let fault = Fault::NeverPossible {
                    step: name(),
                    other: other.get_ref().clone(),
                };
                return Err(page.fault(other.span(), fault));
            }
        }
    }
    Ok(())
}

fn needs_optional(steps: &[StepFile], place: usize, other: &StepFile) -> bool {
    let need = steps.get(place).map(|step| step.need);
    need == Some(Need::Required) && other.need == Need::Optional
}

/// Ids of all steps that must have been done before the step at `place`, near and far.
fn all_before(steps: &[StepFile], place: usize) -> Vec<&str> {
    let mut before: Vec<&str> = Vec::new();
    for (index, step) in steps.iter().enumerate().take(place + 1).rev() {
        if index == place || before.contains(&step.id.get_ref().as_str()) {
            before.extend(step.after.iter().map(|id| id.get_ref().as_str()));
        }
    }
    before
}

/// Does the required steps in their order and looks whether a finished print comes out.
fn straight_run(process: &Process) -> Result<(), Fault> {
    let mut done: Vec<&str> = Vec::new();
    for step in process.required() {
        process
            .may_follow(&done, &step.id)
            .map_err(|problem| Fault::NoStraightRun {
                problem: problem.to_string(),
            })?;
        done.push(&step.id);
    }
    if done.is_empty() {
        return Err(Fault::NothingRequired);
    }
    match process.outstanding(&done).first() {
        None => Ok(()),
        Some(open) => Err(Fault::NoStraightRun {
            problem: format!("{:?} has to be done again in the end", open.id),
        }),
    }
}
