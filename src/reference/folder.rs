//! The user's own additions: a folder of files in the shape of `assets/`.
//!
//! `hazards.toml`, `films.toml`, `reciprocity.toml`, `filters.toml`, `light.toml`, `formats.toml`,
//! `papers.toml`, `practice.toml`, `faults.toml`, `baths.toml`, `developers.toml`, `formulas.toml`,
//! `coverage.toml`, `paper_grades.toml`, `sequences.toml` and `processes/*.toml` are read if they are there.
//! A record with the id of a built-in one takes its place; any other is added. A file that cannot be used
//! is left out as a whole and reported; nothing in this folder can keep the program from starting.

use std::fs::{self, File};
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

use super::error::{Fault, ReferenceError};
use super::naming::Named;
use super::page::Page;
use super::process_file::Known;
use super::standing::Origin;
use super::{
    Reference, Whole, bath, caution, coating, developer, fault, film, filter_file, format,
    formula_file, grade, paper, practice, process_file, reciprocity, scene, sequence, vessel,
};

/// The largest file that is read, in bytes; the largest built-in one is a fiftieth of it.
const LARGEST: u64 = 1_000_000;

impl Reference {
    /// Adds the user's own records from `folder`.
    ///
    /// Gives back the reference with everything usable in it, and the list of what was not. A
    /// folder that does not exist adds nothing and is no problem.
    pub fn with_folder(mut self, folder: &Path) -> (Reference, Vec<ReferenceError>) {
        let mut problems = Vec::new();
        let is_missing = |error: std::io::Error| error.kind() == ErrorKind::NotFound;
        if fs::metadata(folder).is_err_and(is_missing) {
            return (self, problems);
        }
        let mut whole = self.take_whole();
        // Cautions first, so that own processes can name own cautions.
        own(&folder.join("hazards.toml"), &mut problems, |page| {
            let (cautions, closing) = caution::read(page)?;
            replace(&mut whole.cautions, cautions);
            if let Some(closing) = closing {
                whole.closing = closing;
            }
            Ok(())
        });
        own(&folder.join("films.toml"), &mut problems, |page| {
            replace(&mut whole.films, film::read(page)?);
            Ok(())
        });
        own(&folder.join("reciprocity.toml"), &mut problems, |page| {
            replace(&mut whole.laws, reciprocity::read(page)?);
            Ok(())
        });
        own(&folder.join("filters.toml"), &mut problems, |page| {
            replace(&mut whole.filters, filter_file::read(page)?);
            Ok(())
        });
        own(&folder.join("formats.toml"), &mut problems, |page| {
            replace(&mut whole.formats, format::read(page)?);
            Ok(())
        });
        own(&folder.join("papers.toml"), &mut problems, |page| {
            replace(&mut whole.papers, paper::read(page)?);
            Ok(())
        });
        own(&folder.join("practice.toml"), &mut problems, |page| {
            replace(&mut whole.practices, practice::read(page)?);
            Ok(())
        });
        own(&folder.join("faults.toml"), &mut problems, |page| {
            replace(&mut whole.faults, fault::read(page)?);
            Ok(())
        });
        own(&folder.join("baths.toml"), &mut problems, |page| {
            let baths = bath::read(page, |id| whole.knows_caution(id))?;
            replace(&mut whole.baths, baths);
            Ok(())
        });
        own(&folder.join("vessels.toml"), &mut problems, |page| {
            replace(&mut whole.vessels, vessel::read(page)?);
            Ok(())
        });
        own(&folder.join("developers.toml"), &mut problems, |page| {
            let lists = developer::read(page)?;
            replace(&mut whole.development.developers, lists.developers);
            replace(&mut whole.development.times, lists.times);
            replace(&mut whole.development.schemes, lists.schemes);
            Ok(())
        });
        own(&folder.join("formulas.toml"), &mut problems, |page| {
            let known = &whole.mixing.chemicals;
            let mixing = formula_file::read(page, known, |id| whole.knows_caution(id))?;
            replace(&mut whole.mixing.chemicals, mixing.chemicals);
            replace(&mut whole.mixing.formulas, mixing.formulas);
            replace(&mut whole.mixing.usages, mixing.usages);
            Ok(())
        });
        own(&folder.join("coverage.toml"), &mut problems, |page| {
            replace(&mut whole.coverages, coating::read(page)?);
            Ok(())
        });
        own(&folder.join("paper_grades.toml"), &mut problems, |page| {
            let contrast = grade::read(page)?;
            replace(&mut whole.paper_contrast.papers, contrast.papers);
            replace(&mut whole.paper_contrast.matched, contrast.matched);
            // Bounds of grades belong together: own ones replace all of them.
            if !contrast.grades.is_empty() {
                whole.paper_contrast.grades = contrast.grades;
            }
            Ok(())
        });
        own(&folder.join("sequences.toml"), &mut problems, |page| {
            let sequences = sequence::read(page, |id| whole.knows_caution(id))?;
            replace(&mut whole.sequences, sequences);
            Ok(())
        });
        own(&folder.join("light.toml"), &mut problems, |page| {
            let light = scene::read(page)?;
            replace(&mut whole.light.scenes, light.scenes);
            replace(&mut whole.light.turns, light.turns);
            replace(&mut whole.light.lights, light.lights);
            replace(&mut whole.light.films, light.films);
            Ok(())
        });
        for path in process_files(&folder.join("processes"), &mut problems) {
            own(&path, &mut problems, |page| whole.own_process(page));
        }
        (Reference::of(whole), problems)
    }
}

impl Whole {
    fn knows_caution(&self, id: &str) -> bool {
        self.cautions.iter().any(|caution| caution.id == id)
    }

    fn own_process(&mut self, page: &Page<'_>) -> Result<(), ReferenceError> {
        let knows = Known {
            caution: &|id| self.knows_caution(id),
            formula: &|id| self.mixing.formulas.iter().any(|formula| formula.id == id),
        };
        let process = process_file::read(page, knows)?;
        let mut known = self.processes.iter();
        let was = known.find(|known| known.id == process.id);
        if let Some(Origin::Own(other)) = was.map(|was| &was.origin) {
            let fault = Fault::InTwoFiles {
                what: "process",
                id: process.id,
                other: other.display().to_string(),
            };
            return Err(page.fault(0..0, fault));
        }
        replace(&mut self.processes, vec![process]);
        Ok(())
    }
}

/// Reads one own file, if it is there, and keeps what was wrong with it.
fn own(
    path: &Path,
    problems: &mut Vec<ReferenceError>,
    take: impl FnOnce(&Page<'_>) -> Result<(), ReferenceError>,
) {
    let file = path.display().to_string();
    let taken = text(path, &file).and_then(|text| match text {
        None => Ok(()),
        Some(text) => take(&Page {
            file,
            text: &text,
            origin: Origin::Own(path.to_owned()),
        }),
    });
    problems.extend(taken.err());
}

/// The text of a file; `None` if there is no such file.
fn text(path: &Path, file: &str) -> Result<Option<String>, ReferenceError> {
    let unreadable = |source| ReferenceError::Unreadable {
        file: file.to_owned(),
        source,
    };
    let about = match fs::metadata(path) {
        Ok(about) => about,
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(unreadable(error)),
    };
    // A pipe or a device could keep the program waiting for ever.
    if !about.is_file() {
        let not_a_file = std::io::Error::new(ErrorKind::InvalidInput, "it is not a plain file");
        return Err(unreadable(not_a_file));
    }
    let mut bytes = Vec::new();
    File::open(path)
        .and_then(|open| open.take(LARGEST + 1).read_to_end(&mut bytes))
        .map_err(unreadable)?;
    if bytes.len() as u64 > LARGEST {
        return Err(ReferenceError::TooLarge {
            file: file.to_owned(),
            limit: LARGEST,
        });
    }
    String::from_utf8(bytes).map(Some).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let before = error.as_bytes().iter().take(good);
        ReferenceError::NotText {
            file: file.to_owned(),
            line: 1 + before.filter(|byte| **byte == b'\n').count(),
        }
    })
}

/// The TOML files of a folder in the order of their names.
fn process_files(folder: &Path, problems: &mut Vec<ReferenceError>) -> Vec<PathBuf> {
    let mut unreadable = |source| {
        problems.push(ReferenceError::Unreadable {
            file: folder.display().to_string(),
            source,
        });
    };
    let listing = match fs::read_dir(folder) {
        Ok(listing) => listing,
        Err(error) if error.kind() == ErrorKind::NotFound => return Vec::new(),
        Err(error) => {
            unreadable(error);
            return Vec::new();
        }
    };
    let mut paths = Vec::new();
    for file in listing {
        match file {
            Ok(file) => paths.push(file.path()),
            Err(error) => unreadable(error),
        }
    }
    paths.retain(|path| path.extension().is_some_and(|end| end == "toml"));
    paths.sort();
    paths
}

/// Puts each new record in the place of the one with its id, or at the end.
fn replace<T: Named>(into: &mut Vec<T>, new: Vec<T>) {
    for thing in new {
        match into.iter_mut().find(|was| was.id() == thing.id()) {
            Some(was) => *was = thing,
            None => into.push(thing),
        }
    }
}
