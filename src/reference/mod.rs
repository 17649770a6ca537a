//! What the trade has published, read from `assets/` and the user's own additions.
//!
//! The reference holds what is the same for every logbook: processes with their steps and the order
//! of them, films, formats, papers, baths, cautions. Each number in it says where it was read and what
//! standing that gives it. It promises that whatever it hands out was checked on reading: ids are
//! unique, relations name steps that exist, a process can be worked from its first step to a
//! finished print. It leaves to the logbook what happened, and to the craft what follows from
//! figures.
//!
//! - [`process`]: a way of printing, its steps and figures; the shape of a process file.
//! - [`order`]: which step may follow which.
//! - [`film`], [`mod@format`], [`paper`]: stocks by name.
//! - [`bath`]: baths by purpose.
//! - [`caution`]: what can hurt.
//! - [`standing`]: how far a number may be trusted, and the usual figures that say so.
//! - [`folder`]: the user's own files.
//! - [`error`]: what can be wrong with a file.

pub mod bath;
pub mod caution;
pub mod error;
pub mod film;
pub mod folder;
pub mod format;
mod naming;
pub mod order;
mod page;
pub mod paper;
pub mod process;
mod process_file;
pub mod standing;

pub use bath::BathKind;
pub use caution::{Caution, CautionKind};
pub use error::{Fault, ReferenceError};
pub use film::{Film, FilmKind};
pub use format::{CutSize, Format, FormatUnit};
pub use order::StepProblem;
pub use paper::{Paper, PaperKind};
pub use process::{Figure, FigureKind, Light, Need, Process, Purpose, Step, Work};
pub use standing::{Origin, Standing, Usual};

use naming::Named;
use page::Page;

/// Name and text of a built-in file of a process.
macro_rules! built_in_process {
    ($id:literal) => {
        (
            concat!("processes/", $id, ".toml"),
            include_str!(concat!("../../assets/processes/", $id, ".toml")),
        )
    };
}

/// The built-in files of processes, in the order in which lists show them.
const PROCESSES: [(&str, &str); 6] = [
    built_in_process!("silver-gelatin-contact"),
    built_in_process!("silver-gelatin-enlarged"),
    built_in_process!("platinum-palladium"),
    built_in_process!("palladium"),
    built_in_process!("cyanotype"),
    built_in_process!("van-dyke"),
];

/// Everything the trade has published that the program knows, with the user's own additions.
///
/// Reading it takes about two milliseconds: a caller that answers one short question should build it
/// only when it is asked for.
#[derive(Debug, Clone)]
pub struct Reference {
    processes: Vec<Process>,
    films: Vec<Film>,
    formats: Vec<Format>,
    papers: Vec<Paper>,
    baths: Vec<BathKind>,
    cautions: Vec<Caution>,
    closing: String,
}

impl Reference {
    /// The reference that is compiled in.
    ///
    /// # Errors
    ///
    /// Only if a file in `assets/` is faulty, which the tests rule out for a released program.
    pub fn built_in() -> Result<Reference, ReferenceError> {
        let hazards = Page::built_in("hazards.toml", include_str!("../../assets/hazards.toml"));
        let (cautions, closing) = caution::read(&hazards)?;
        let closing = closing.ok_or_else(|| {
            let message = "the closing sentence is missing".to_owned();
            hazards.fault(0..0, Fault::Shape { message })
        })?;
        let known = |id: &str| cautions.iter().any(|caution| caution.id == id);
        let mut processes = Vec::with_capacity(PROCESSES.len());
        for (file, text) in PROCESSES {
            let page = Page::built_in(file, text);
            processes.push(process_file::read(&page, known)?);
        }
        let films = include_str!("../../assets/films.toml");
        let formats = include_str!("../../assets/formats.toml");
        let papers = include_str!("../../assets/papers.toml");
        let baths = include_str!("../../assets/baths.toml");
        Ok(Reference {
            processes,
            films: film::read(&Page::built_in("films.toml", films))?,
            formats: format::read(&Page::built_in("formats.toml", formats))?,
            papers: paper::read(&Page::built_in("papers.toml", papers))?,
            baths: bath::read(&Page::built_in("baths.toml", baths), known)?,
            cautions,
            closing,
        })
    }

    /// All processes, built-in ones first.
    pub fn processes(&self) -> &[Process] {
        &self.processes
    }

    /// The process with this id.
    pub fn process(&self, id: &str) -> Option<&Process> {
        self.processes.iter().find(|process| process.id == id)
    }

    /// The process that a typed name means: `pt/pd`, `cyano`, `Van Dyke`.
    pub fn process_named(&self, typed: &str) -> Option<&Process> {
        naming::find(&self.processes, typed)
    }

    /// All films.
    pub fn films(&self) -> &[Film] {
        &self.films
    }

    /// The film that a typed name means: `FP4+`, `ilford hp5`, `tmax 100`; `None` also if it could
    /// mean more than one.
    pub fn film(&self, typed: &str) -> Option<&Film> {
        naming::find(&self.films, typed)
    }

    /// All formats, smallest first.
    pub fn formats(&self) -> &[Format] {
        &self.formats
    }

    /// The format that a typed name means: `4x5`, `8 x 10`.
    pub fn format(&self, typed: &str) -> Option<&Format> {
        naming::find(&self.formats, typed)
    }

    /// All papers.
    pub fn papers(&self) -> &[Paper] {
        &self.papers
    }

    /// The paper that a typed name means; `None` also if it could mean more than one.
    pub fn paper(&self, typed: &str) -> Option<&Paper> {
        naming::find(&self.papers, typed)
    }

    /// What is known about baths, one record for each purpose, in the order of work.
    pub fn baths(&self) -> &[BathKind] {
        &self.baths
    }

    /// What is known about the baths of one purpose.
    pub fn bath(&self, purpose: Purpose) -> Option<&BathKind> {
        self.baths.iter().find(|bath| bath.purpose == purpose)
    }

    /// All cautions.
    pub fn cautions(&self) -> &[Caution] {
        &self.cautions
    }

    /// The caution with this id.
    pub fn caution(&self, id: &str) -> Option<&Caution> {
        self.cautions.iter().find(|caution| caution.id == id)
    }

    /// The cautions with these ids, in their order.
    pub fn cautions_of<'a>(&'a self, ids: &'a [String]) -> impl Iterator<Item = &'a Caution> {
        ids.iter().filter_map(|id| self.caution(id))
    }

    /// The sentence that follows every caution.
    pub fn closing(&self) -> &str {
        &self.closing
    }
}

impl Named for Process {
    fn id(&self) -> &str {
        &self.id
    }

    fn names(&self) -> Vec<String> {
        vec![self.name.clone(), self.short.clone()]
    }
}

#[cfg(test)]
mod tests;
