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
//! - [`mod@mix`], [`contrast`], [`lasting`]: what a process is mixed of, how it is made harder or softer,
//!   what keeps how long.
//! - [`order`]: which step may follow which.
//! - [`film`], [`mod@format`], [`paper`]: stocks by name.
//! - [`reciprocity`]: what films lose in long exposures.
//! - [`developer`]: developers, and the times that are told for films in them.
//! - [`filter`]: filters, and what they take on which film.
//! - [`scene`]: the light of scenes by name, and the sunny rule.
//! - [`fault`]: what can be wrong with a negative.
//! - [`sequence`]: what is done with film one after the other, by vessel.
//! - [`practice`]: how film and holders are handled and kept.
//! - [`bath`]: baths by purpose.
//! - [`coating`]: how far sensitizer goes, as others have told it.
//! - [`grade`]: contrast of silver gelatin paper.
//! - [`vessel`]: trays, tanks and drums.
//! - [`formula`]: formulas to mix, the chemicals in them, what an area takes.
//! - [`caution`]: what can hurt.
//! - [`standing`]: how far a number may be trusted, and the usual figures that say so.
//! - [`folder`]: the user's own files.
//! - [`error`]: what can be wrong with a file.

pub mod bath;
pub mod caution;
pub mod coating;
pub mod contrast;
pub mod developer;
pub mod error;
pub mod fault;
pub mod film;
pub mod filter;
mod filter_file;
pub mod folder;
pub mod format;
pub mod formula;
mod formula_file;
pub mod grade;
pub mod lasting;
pub mod mix;
mod naming;
pub mod order;
mod own;
mod page;
pub mod paper;
pub mod practice;
pub mod process;
mod process_file;
pub mod reciprocity;
pub mod scene;
pub mod sequence;
pub mod standing;
pub mod vessel;

pub use bath::BathKind;
pub use caution::{Caution, CautionKind};
pub use coating::Coverage;
pub use contrast::{Contrast, ContrastRow, Scale};
pub use developer::{AgitationScheme, Developer, PublishedTimes, TimesRow};
pub use error::{Fault, ReferenceError};
pub use fault::{Fault as NegativeFault, Stage};
pub use film::{Film, FilmKind};
pub use filter::{Filter, FilterKind, LightKind};
pub use format::{Format, FormatUnit, HolderDepth, Sides};
pub use formula::{Chemical, Formula, Ingredient, Usage};
pub use grade::{FilterRow, FilteredPaper, Grade, Matched};
pub use lasting::{Capacity, Keeping};
pub use mix::{Mix, Part, Role, Solution, Substance};
pub use order::StepProblem;
pub use own::{OwnFilm, OwnFormat};
pub use paper::{Paper, PaperKind};
pub use practice::{Practice, PracticeSubject};
pub use process::{Figure, FigureKind, Light, Need, Process, Purpose, Step, Work};
pub use reciprocity::FilmLaw;
pub use scene::{FilmLight, LightRule, Scene, SceneGroup, SceneLight, Turn};
pub use sequence::{RoomLight, Sequence, SequenceStep, Takes};
pub use standing::{Origin, Standing, Usual};
pub use vessel::ListedVessel;

use std::sync::OnceLock;

use crate::craft::{LengthUnit, Size};

use developer::DeveloperLists;
use formula::Mixing;
use grade::Grades;
use naming::Named;
use own::Own;
use page::Page;
use process_file::Known;
use scene::SceneTables;

/// Id, name and text of a built-in file of a process.
macro_rules! built_in_process {
    ($id:literal) => {
        BuiltIn {
            id: $id,
            file: concat!("processes/", $id, ".toml"),
            text: include_str!(concat!("../../assets/processes/", $id, ".toml")),
        }
    };
}

/// A built-in file of a process.
struct BuiltIn {
    id: &'static str,
    file: &'static str,
    text: &'static str,
}

impl BuiltIn {
    fn page(&self) -> Page<'static> {
        Page::built_in(self.file, self.text)
    }
}

/// Sides that differ by less than this are the same nominal size, in millimetres.
const SAME_SIZE: f64 = 1.0;

/// The built-in files of processes, in the order in which lists show them.
const PROCESSES: &[BuiltIn] = &[
    built_in_process!("silver-gelatin-contact"),
    built_in_process!("silver-gelatin-enlarged"),
    built_in_process!("platinum-palladium"),
    built_in_process!("palladium"),
    built_in_process!("print-out-platinum-palladium"),
    built_in_process!("kallitype"),
    built_in_process!("van-dyke"),
    built_in_process!("cyanotype"),
    built_in_process!("new-cyanotype"),
    built_in_process!("salted-paper"),
    built_in_process!("albumen"),
    built_in_process!("gum-bichromate"),
    built_in_process!("carbon-transfer"),
];

/// Everything the trade has published that the program knows, with the user's own additions.
///
/// Reading all of it takes about two milliseconds, which is most of what it takes to open a logbook
/// and show it. So the program takes it [`on_demand`](Reference::on_demand): what is never asked for
/// is never read, and one process is read alone.
#[derive(Debug, Clone, Default)]
pub struct Reference {
    whole: OnceLock<Whole>,
    /// Films and formats the user has found out, which go before those that were read.
    own: Own,
    /// Built-in processes that were asked for by their ids before anything else was.
    alone: [OnceLock<Option<Process>>; PROCESSES.len()],
}

/// Everything, once it is read.
#[derive(Debug, Clone, Default)]
struct Whole {
    processes: Vec<Process>,
    films: Vec<Film>,
    laws: Vec<FilmLaw>,
    filters: Vec<Filter>,
    formats: Vec<Format>,
    papers: Vec<Paper>,
    practices: Vec<Practice>,
    faults: Vec<NegativeFault>,
    baths: Vec<BathKind>,
    vessels: Vec<ListedVessel>,
    cautions: Vec<Caution>,
    closing: String,
    light: SceneTables,
    development: DeveloperLists,
    mixing: Mixing,
    coverages: Vec<Coverage>,
    paper_contrast: Grades,
    sequences: Vec<Sequence>,
}

impl Whole {
    fn built_in() -> Result<Whole, ReferenceError> {
        let hazards = Page::built_in("hazards.toml", include_str!("../../assets/hazards.toml"));
        let (cautions, closing) = caution::read(&hazards)?;
        let closing = closing.ok_or_else(|| {
            let message = "the closing sentence is missing".to_owned();
            hazards.fault(0..0, Fault::Shape { message })
        })?;
        let known = |id: &str| cautions.iter().any(|caution| caution.id == id);
        let formulas = include_str!("../../assets/formulas.toml");
        let mixing = formula_file::read(&Page::built_in("formulas.toml", formulas), &[], known)?;
        let knows = Known {
            caution: &known,
            formula: &|id| mixing.formulas.iter().any(|formula| formula.id == id),
        };
        let processes = PROCESSES
            .iter()
            .map(|file| process_file::read(&file.page(), knows))
            .collect::<Result<_, _>>()?;
        let films = include_str!("../../assets/films.toml");
        let laws = include_str!("../../assets/reciprocity.toml");
        let filters = include_str!("../../assets/filters.toml");
        let formats = include_str!("../../assets/formats.toml");
        let papers = include_str!("../../assets/papers.toml");
        let practices = include_str!("../../assets/practice.toml");
        let faults = include_str!("../../assets/faults.toml");
        let baths = include_str!("../../assets/baths.toml");
        let vessels = include_str!("../../assets/vessels.toml");
        let light = include_str!("../../assets/light.toml");
        let developers = include_str!("../../assets/developers.toml");
        let coverages = include_str!("../../assets/coverage.toml");
        let grades = include_str!("../../assets/paper_grades.toml");
        let sequences = include_str!("../../assets/sequences.toml");
        Ok(Whole {
            processes,
            films: film::read(&Page::built_in("films.toml", films))?,
            laws: reciprocity::read(&Page::built_in("reciprocity.toml", laws))?,
            filters: filter_file::read(&Page::built_in("filters.toml", filters))?,
            formats: format::read(&Page::built_in("formats.toml", formats))?,
            papers: paper::read(&Page::built_in("papers.toml", papers))?,
            practices: practice::read(&Page::built_in("practice.toml", practices))?,
            faults: fault::read(&Page::built_in("faults.toml", faults))?,
            baths: bath::read(&Page::built_in("baths.toml", baths), known)?,
            vessels: vessel::read(&Page::built_in("vessels.toml", vessels))?,
            mixing,
            coverages: coating::read(&Page::built_in("coverage.toml", coverages))?,
            paper_contrast: grade::read(&Page::built_in("paper_grades.toml", grades))?,
            sequences: sequence::read(&Page::built_in("sequences.toml", sequences), known)?,
            cautions,
            closing,
            light: scene::read(&Page::built_in("light.toml", light))?,
            development: developer::read(&Page::built_in("developers.toml", developers))?,
        })
    }
}

impl Reference {
    /// The reference that is compiled in, all of it read.
    ///
    /// # Errors
    ///
    /// Only if a file in `assets/` is faulty, which the tests rule out for a released program.
    pub fn built_in() -> Result<Reference, ReferenceError> {
        Whole::built_in().map(Reference::of)
    }

    /// The reference that is compiled in, of which each part is read when it is asked for.
    pub fn on_demand() -> Reference {
        Reference::default()
    }

    fn whole(&self) -> &Whole {
        // No file that is compiled in is faulty: the tests read every one of them.
        let read = || Whole::built_in().unwrap_or_default();
        self.whole.get_or_init(read)
    }

    /// Everything, to be added to.
    fn take_whole(&mut self) -> Whole {
        let read = self.whole.take();
        read.unwrap_or_else(|| Whole::built_in().unwrap_or_default())
    }

    fn of(whole: Whole) -> Reference {
        Reference {
            whole: OnceLock::from(whole),
            ..Reference::default()
        }
    }

    /// All processes, built-in ones first.
    pub fn processes(&self) -> &[Process] {
        &self.whole().processes
    }

    /// The process with this id.
    pub fn process(&self, id: &str) -> Option<&Process> {
        if self.whole.get().is_none()
            && let Some((alone, file)) =
                self.alone.iter().zip(PROCESSES).find(|(_, it)| it.id == id)
        {
            // Whether what it names in other files is there is a matter the tests have seen to.
            let knows = Known {
                caution: &|_| true,
                formula: &|_| true,
            };
            let read = || process_file::read(&file.page(), knows).ok();
            return alone.get_or_init(read).as_ref();
        }
        self.whole()
            .processes
            .iter()
            .find(|process| process.id == id)
    }

    /// The process that a typed name means: `pt/pd`, `cyano`, `Van Dyke`.
    pub fn process_named(&self, typed: &str) -> Option<&Process> {
        naming::find(&self.whole().processes, typed)
    }

    /// The film that a typed name means: `FP4+`, `ilford hp5`, `tmax 100`; `None` also if it could
    /// mean more than one.
    pub fn film(&self, typed: &str) -> Option<&Film> {
        naming::find(self.films(), typed)
    }

    /// The films that a typed name could mean when it is too short to mean one: `Tri-X`.
    pub fn films_like(&self, typed: &str) -> Vec<&Film> {
        naming::could_be(self.films(), typed)
    }

    /// What is told of the losses of a film in long exposures, in the order of the files; the user's
    /// own laws last.
    pub fn laws_of<'a>(&'a self, film: &'a Film) -> impl Iterator<Item = &'a FilmLaw> {
        let means = |named: &String| self.film(named).is_some_and(|it| it.id == film.id);
        let laws = self.whole().laws.iter();
        laws.filter(move |law| law.films.iter().any(means))
    }

    /// Rough guides to the losses of any film in long exposures.
    pub fn laws_of_any_film(&self) -> impl Iterator<Item = &FilmLaw> {
        self.whole().laws.iter().filter(|law| law.films.is_empty())
    }

    /// All laws of reciprocity, whatever films they are told of.
    pub fn laws(&self) -> &[FilmLaw] {
        &self.whole().laws
    }

    /// The format that a typed name or a size in inches or centimetres means: `4x5`, `8 x 10 in`. A
    /// size in millimetres is one that was measured, and no name.
    pub fn format(&self, typed: &str) -> Option<&Format> {
        naming::find(self.formats(), typed).or_else(|| {
            let size = Size::parse(typed).ok()?;
            self.format_of(size)
                .filter(|_| size.unit() != LengthUnit::Millimetre)
        })
    }

    /// The format of sheets of this nominal size, either way round.
    pub fn format_of(&self, size: Size) -> Option<&Format> {
        self.formats().iter().find(|format| format.is_of(size))
    }

    /// All papers.
    pub fn papers(&self) -> &[Paper] {
        &self.whole().papers
    }

    /// The paper that a typed name means; `None` also if it could mean more than one.
    pub fn paper(&self, typed: &str) -> Option<&Paper> {
        naming::find(&self.whole().papers, typed)
    }

    /// How film and holders are handled and kept, as far as it is about this.
    pub fn practices(&self, about: PracticeSubject) -> impl Iterator<Item = &Practice> {
        let practices = self.whole().practices.iter();
        practices.filter(move |practice| practice.subject == about)
    }

    /// What can be wrong with a negative.
    pub fn faults(&self) -> &[NegativeFault] {
        &self.whole().faults
    }

    /// The fault that a typed name means: `air bells`, `pinhole`; `None` also if it could mean more than
    /// one.
    pub fn fault(&self, typed: &str) -> Option<&NegativeFault> {
        naming::find(&self.whole().faults, typed)
    }

    /// What is known about baths, one record for each purpose, in the order of work.
    pub fn baths(&self) -> &[BathKind] {
        &self.whole().baths
    }

    /// All vessels.
    pub fn vessels(&self) -> &[ListedVessel] {
        &self.whole().vessels
    }

    /// The vessel that a typed name means: `tray 8x10`, `daylight tank`.
    pub fn vessel(&self, typed: &str) -> Option<&ListedVessel> {
        naming::find(self.vessels(), typed)
    }

    /// What is known about the baths of one purpose.
    pub fn bath(&self, purpose: Purpose) -> Option<&BathKind> {
        self.whole()
            .baths
            .iter()
            .find(|bath| bath.purpose == purpose)
    }

    /// All scenes with the light they usually have.
    pub fn scenes(&self) -> &[Scene] {
        &self.whole().light.scenes
    }

    /// The scene that a typed name means: `open shade`, `sunset`; `None` also if it could mean more
    /// than one.
    pub fn scene(&self, typed: &str) -> Option<&Scene> {
        naming::find(&self.whole().light.scenes, typed)
    }

    /// What light from another side takes from a scene in direct sun: `side`, `back`.
    pub fn turn(&self, typed: &str) -> Option<&Turn> {
        naming::find(&self.whole().light.turns, typed)
    }

    /// The lines of the sunny rule, brightest first.
    pub fn lights(&self) -> &[LightRule] {
        &self.whole().light.lights
    }

    /// The line of the sunny rule that a typed name means: `weak sun`, `open shade`.
    pub fn light(&self, typed: &str) -> Option<&LightRule> {
        naming::find(&self.whole().light.lights, typed)
    }

    /// The table of daylight that a maker gives for the film with this id.
    pub fn film_light(&self, film: &str) -> Option<&FilmLight> {
        let mut tables = self.whole().light.films.iter();
        tables.find(|table| table.film == film)
    }

    /// All developers of film.
    pub fn developers(&self) -> &[Developer] {
        &self.whole().development.developers
    }

    /// The developer that a typed name means: `D76`, `ddx`; `None` also if it could mean more than one.
    pub fn developer(&self, typed: &str) -> Option<&Developer> {
        naming::find(&self.whole().development.developers, typed)
    }

    /// All tables of developing times, the user's own last.
    pub fn times(&self) -> &[PublishedTimes] {
        &self.whole().development.times
    }

    /// How film is agitated, scheme by scheme.
    pub fn agitation_schemes(&self) -> &[AgitationScheme] {
        &self.whole().development.schemes
    }

    /// The way of agitating with this id.
    pub fn agitation_scheme(&self, id: &str) -> Option<&AgitationScheme> {
        self.agitation_schemes().iter().find(|it| it.id == id)
    }

    /// What is done with film one after the other, by vessel.
    pub fn sequences(&self) -> &[Sequence] {
        &self.whole().sequences
    }

    /// The sequence that a typed name means: its id, its title, its vessel.
    pub fn sequence_named(&self, typed: &str) -> Option<&Sequence> {
        naming::find(&self.whole().sequences, typed)
    }

    /// The sequence for a vessel that is called so; the user's own goes before a built-in one.
    pub fn sequence_for(&self, vessel: &str) -> Option<&Sequence> {
        let mut fitting = self.sequences().iter().filter(|it| it.is_for(vessel));
        let first = fitting.next();
        fitting.find(|it| it.origin.is_own()).or(first)
    }

    /// All chemicals.
    pub fn chemicals(&self) -> &[Chemical] {
        &self.whole().mixing.chemicals
    }

    /// The chemical that a typed name means: `metol`, `carbonate monohydrate`; `None` also if it
    /// could mean more than one, as a salt does that is sold with more or less water.
    pub fn chemical(&self, typed: &str) -> Option<&Chemical> {
        naming::find(&self.whole().mixing.chemicals, typed)
    }

    /// All formulas, developers first.
    pub fn formulas(&self) -> &[Formula] {
        &self.whole().mixing.formulas
    }

    /// The formula that a typed name means: `D-76`, `id11`; `None` also if it could mean more than
    /// one.
    pub fn formula(&self, typed: &str) -> Option<&Formula> {
        naming::find(&self.whole().mixing.formulas, typed)
    }

    /// How much of the developer with this name an area takes.
    pub fn usage(&self, typed: &str) -> Option<&Usage> {
        naming::find(&self.whole().mixing.usages, typed)
    }

    /// Every developer of which it is known how much an area takes.
    pub fn usages(&self) -> &[Usage] {
        &self.whole().mixing.usages
    }

    /// All cautions.
    pub fn cautions(&self) -> &[Caution] {
        &self.whole().cautions
    }

    /// The caution with this id.
    pub fn caution(&self, id: &str) -> Option<&Caution> {
        self.whole()
            .cautions
            .iter()
            .find(|caution| caution.id == id)
    }

    /// The cautions with these ids, in their order.
    pub fn cautions_of<'a>(&'a self, ids: &'a [String]) -> impl Iterator<Item = &'a Caution> {
        ids.iter().filter_map(|id| self.caution(id))
    }

    /// The sentence that follows every caution.
    pub fn closing(&self) -> &str {
        &self.whole().closing
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
