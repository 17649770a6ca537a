//! A way of printing, as data: its steps, their order, their figures, and what is usual.
//!
//! One file in `assets/processes/` is one process; the user may add files of the same shape, and an
//! own file with the `id` of a built-in one takes its place. Nothing about a process is written in
//! code: three processes that differ by numbers are three files. This module holds the types and
//! the shape of the file; `order` beside it says which step may follow which, `process_file` reads
//! and checks.
//!
//! # The file
//!
//! ```toml
//! id = "cyanotype"             # lower-case letters, digits, hyphens; unique
//! name = "Cyanotype"           # for people
//! short = "cyanotype"          # at most 12 characters, for tables
//! summary = "One sentence."
//! light = "ultraviolet"        # ultraviolet | enlarger | contact-light
//! cautions = ["ultraviolet"]   # ids from hazards.toml
//! scale = [                    # the range of negative densities it takes, in log, and what it holds for
//!   { of = "washed out in water", from = 1.35, to = 1.4, source = "...", standing = "published" },
//! ]
//! keeping = [                  # how long things keep: a time (min h days weeks months years), or a note
//!   { what = "sensitized paper", from = 3, unit = "days", source = "...", standing = "published" },
//! ]
//! capacity = [                 # how much a bath does: so many in so much of it
//!   { what = "dichromate bath", from = 12, unit = "sheets", per = "887 ml", standing = "usual" },
//! ]
//! usual = [                    # other figures of the whole process, same shape as below
//!   { what = "print density", from = 1.7, unit = "log", source = "...", standing = "published" },
//! ]
//!
//! [[mix]]                      # a recipe for a sensitizer; as many as are published
//! id = "traditional"           # unique in the process
//! name = "traditional recipe"
//! step = "coat"                # the step that takes it
//! measure = "parts"            # what the shares are: parts, or drops or ml for an area
//! area = "8x10"                # that area; not with parts
//! part = [                     # its solutions, in the order of mixing
//!   { key = "a", label = "A", role = "iron", share = 1, figure = "drops-a", holds = [
//!     { of = "ferric ammonium citrate", from = 25, unit = "g/100 ml" } ] },
//!   { key = "b", label = "B", role = "ferricyanide", share = 1, figure = "drops-b", holds = [
//!     { of = "potassium ferricyanide", formula = "K3Fe(CN)6", from = 10, unit = "g/100 ml" } ] },
//! ]                            # role: iron metal silver salt ferricyanide dichromate colloid pigment
//!                              # agent whole water other; unit: % g/100 ml g/l ml/l
//! source = "..."               # hold for every number in it that has none of its own
//! standing = "published"
//!
//! [[contrast]]                 # a control of contrast, with its table
//! id = "dichromate"            # unique in the process
//! label = "dichromate 5 % in a litre of developer"
//! step = "develop"             # the step in which it is set
//! figure = "dichromate"        # the figure of that step that writes it down, if there is one
//! unit = "ml"                  # what `at` counts
//! mix = "traditional"          # the recipe it was found with, if the text says so
//! row = [                      # rising; a row has `at` or a name, and says a scale, an exposure
//!   { at = 1, from = 1.8 },    # factor, shares of the parts of the mix, or a note
//!   { name = "soft", shares = { a = 3, b = 1 }, exposure = 2, note = "..." },
//! ]
//! source = "..."
//! standing = "published"
//!
//! [[step]]                     # in the order of work
//! id = "clear-1"               # unique in the process
//! label = "clear, first bath"
//! work = "clear"               # prepare coat dry expose transfer develop stop rinse clear fix tone
//!                              # wash-aid wash finish
//! need = "required"            # required | optional; without it: required
//! repeat = false               # may it be done again? without it: no
//! after = ["develop"]          # all of these must have been done; each stands further up the file
//! not_after = ["wash"]         # once one of these is done, this step is too late, until that one
//!                              # has to be done again
//! reopens = ["wash"]           # doing this step means that these have to be done again
//! bath = "clearing"            # the purpose of the bath it uses, if it uses one
//! solution = [                 # what such baths are: what they hold, or a formula of formulas.toml
//!   { name = "citric acid", holds = [{ of = "citric acid", from = 1, unit = "%" }], standing = "usual" },
//!   { name = "stop", formula = "sb-8", source = "...", standing = "published" },
//! ]
//! cautions = ["edta"]
//! figure = [                   # what is written down about it
//!   { key = "time", label = "time", kind = "duration", need = "optional", hint = "7:00" },
//!   { key = "units", label = "exposure", kind = "count", unit = "integrator units" },
//!   { key = "tool", label = "spread with", kind = "text", choices = ["brush", "rod"] },
//! ]
//! usual = [                    # what others do; shown beside the figures, never filled in
//!   { what = "time", from = 7, to = 10, unit = "min", source = "...", standing = "published" },
//!   { what = "end", note = "Until it stays colourless.", source = "...", standing = "usual" },
//! ]
//! ```
//!
//! A usual figure has a number (`from`, and `to` for a range) or a `note`, or both; `paper` (a kind
//! of paper) limits it, and limits a scale, a bath or a row of contrast too. In `assets/` each names
//! its `source` and `standing`; in the user's own files a figure without them is the user's own.
//! Only the first six keys and one required step must be there.

use super::contrast::{Contrast, Scale};
use super::lasting::{Capacity, Keeping};
use super::mix::{Mix, Solution};
use super::standing::{Origin, Usual};
use crate::words::words;

/// A way of printing.
#[derive(Debug, Clone, PartialEq)]
pub struct Process {
    /// Name in links and files, such as `platinum-palladium`.
    pub id: String,
    /// Name for people, such as `Platinum/palladium`.
    pub name: String,
    /// At most 12 characters, for tables.
    pub short: String,
    /// What it is, in a sentence or two.
    pub summary: String,
    /// What light prints it.
    pub light: Light,
    /// Ids of the cautions to show before the work begins.
    pub cautions: Vec<String>,
    /// Figures of the process as a whole, beside its scales.
    pub usual: Vec<Usual>,
    pub(super) scales: Vec<Scale>,
    pub(super) mixes: Vec<Mix>,
    pub(super) contrasts: Vec<Contrast>,
    pub(super) keeping: Vec<Keeping>,
    pub(super) capacities: Vec<Capacity>,
    /// The steps, in the order of work; never empty, ids unique.
    pub steps: Vec<Step>,
    /// Where the process was read.
    pub origin: Origin,
}

impl Process {
    /// The step with this id.
    pub fn step(&self, id: &str) -> Option<&Step> {
        self.steps.iter().find(|step| step.id == id)
    }

    /// The exposure scales that are told of it, in the order of the file; none if no text gives one.
    pub fn scales(&self) -> &[Scale] {
        &self.scales
    }

    /// The recipes for its sensitizer, in the order of the file; none for a paper that is bought ready.
    pub fn mixes(&self) -> &[Mix] {
        &self.mixes
    }

    /// The recipe with this id.
    pub fn mix(&self, id: &str) -> Option<&Mix> {
        self.mixes.iter().find(|mix| mix.id == id)
    }

    /// The recipes that a step takes.
    pub fn mixes_of<'a>(&'a self, step: &'a str) -> impl Iterator<Item = &'a Mix> {
        self.mixes.iter().filter(move |mix| mix.step == step)
    }

    /// Its controls of contrast, in the order of the file.
    pub fn contrasts(&self) -> &[Contrast] {
        &self.contrasts
    }

    /// The control of contrast with this id.
    pub fn contrast(&self, id: &str) -> Option<&Contrast> {
        self.contrasts.iter().find(|contrast| contrast.id == id)
    }

    /// The controls of contrast that are set in a step.
    pub fn contrasts_of<'a>(&'a self, step: &'a str) -> impl Iterator<Item = &'a Contrast> {
        self.contrasts.iter().filter(move |it| it.step == step)
    }

    /// How long its solutions and papers keep.
    pub fn keeping(&self) -> &[Keeping] {
        &self.keeping
    }

    /// How much its baths do.
    pub fn capacities(&self) -> &[Capacity] {
        &self.capacities
    }

    /// The steps a finished print must have, in order.
    pub fn required(&self) -> impl Iterator<Item = &Step> {
        self.steps.iter().filter(|step| step.need == Need::Required)
    }

    /// Ids of the cautions of the process and of all its steps, each once, in order of first use.
    pub fn all_cautions(&self) -> Vec<&str> {
        let mut seen: Vec<&str> = Vec::new();
        let of_steps = self.steps.iter().flat_map(|step| &step.cautions);
        for id in self.cautions.iter().chain(of_steps) {
            if !seen.contains(&id.as_str()) {
                seen.push(id);
            }
        }
        seen
    }
}

/// One step of a process.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Name in links and files, such as `clear-2`; unique in its process.
    pub id: String,
    /// Name for people, in lower case, such as `clear, second bath`.
    pub label: String,
    /// What sort of work it is.
    pub work: Work,
    /// Whether a finished print must have it.
    pub need: Need,
    /// Whether it may be done again while it still counts as done.
    pub repeat: bool,
    /// Steps that must have been done before.
    pub after: Vec<String>,
    /// Steps that make this one too late while they count as done.
    pub not_after: Vec<String>,
    /// Steps that have to be done again once this one is done.
    pub reopens: Vec<String>,
    /// The purpose of the bath the step uses, if it uses one.
    pub bath: Option<Purpose>,
    /// What such baths are: published and usual ones, which differ.
    pub solutions: Vec<Solution>,
    /// Ids of the cautions to show before this step.
    pub cautions: Vec<String>,
    /// What is written down about the step.
    pub figures: Vec<Figure>,
    /// What others do, with sources.
    pub usual: Vec<Usual>,
}

impl Step {
    /// The figure with this key.
    pub fn figure(&self, key: &str) -> Option<&Figure> {
        self.figures.iter().find(|figure| figure.key == key)
    }
}

/// Something that is written down about a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// Name in links, flags and files, such as `drops-a`; unique in its step.
    pub key: String,
    /// Name for people, in lower case.
    pub label: String,
    /// What can be written there.
    pub kind: FigureKind,
    /// What a count counts, or another word to show behind the value; empty where the kind says it.
    pub unit: String,
    /// An example or a short explanation; empty if none is needed.
    pub hint: String,
    /// Whether the step can be logged without it.
    pub need: Need,
    /// Words to offer for a text. Anything else may be written too.
    pub choices: Vec<String>,
}

words! {
    /// Whether something must be there.
    Need {
        /// It must.
        Required = "required",
        /// It may.
        Optional = "optional",
    }
}

words! {
    /// What light prints a process.
    Light {
        /// Sun, tubes or diodes, in contact with the negative.
        Ultraviolet = "ultraviolet",
        /// The image projected by an enlarger.
        Enlarger = "enlarger",
        /// White light, in contact with the negative: a lamp, or an enlarger as lamp.
        ContactLight = "contact-light",
    }
}

words! {
    /// What sort of work a step is.
    Work {
        /// Make the paper ready: acidify, size, humidify.
        Prepare = "prepare",
        /// Spread the sensitizer.
        Coat = "coat",
        /// Dry the coating, or the finished print.
        Dry = "dry",
        /// Give light through the negative.
        Expose = "expose",
        /// Bring the image from its tissue to its paper.
        Transfer = "transfer",
        /// Develop.
        Develop = "develop",
        /// Stop the development.
        Stop = "stop",
        /// A short bath in water.
        Rinse = "rinse",
        /// Remove the remaining sensitizer.
        Clear = "clear",
        /// Fix.
        Fix = "fix",
        /// Change colour or keeping quality in a bath; bleaching for it included.
        Tone = "tone",
        /// A bath that makes washing quicker.
        WashAid = "wash-aid",
        /// The wash.
        Wash = "wash",
        /// Work on the dry print, such as spotting.
        Finish = "finish",
    }
}

words! {
    /// What a bath is for.
    Purpose {
        /// Prepares the paper: acid against chalk, or size.
        PaperBath = "paper-bath",
        /// Makes paper or tissue sensitive: a bath of silver or of dichromate.
        Sensitizer = "sensitizer",
        /// Develops film or print.
        Developer = "developer",
        /// Stops the development.
        Stop = "stop",
        /// Removes iron or dichromate from a hand-coated print.
        Clearing = "clearing",
        /// Dissolves undeveloped silver salts.
        Fixer = "fixer",
        /// Bleaches an image before it is toned or redeveloped.
        Bleach = "bleach",
        /// Tones.
        Toner = "toner",
        /// Brings out a blue at once that air would bring in a day.
        Oxidizer = "oxidizer",
        /// Makes washing quicker.
        WashAid = "wash-aid",
        /// Water.
        Water = "water",
        /// Lets film dry without drops.
        WettingAgent = "wetting-agent",
    }
}

words! {
    /// What can be written for a figure.
    FigureKind {
        /// Free words.
        Text = "text",
        /// A whole number.
        Count = "count",
        /// Drops of a solution, in whole drops.
        Drops = "drops",
        /// A time that something lasts.
        Duration = "duration",
        /// A temperature.
        Temperature = "temperature",
        /// A lens aperture.
        Aperture = "aperture",
        /// A density, or a difference of densities.
        Density = "density",
        /// A volume of liquid.
        Volume = "volume",
        /// A length or distance.
        Length = "length",
        /// Width by height.
        Size = "size",
        /// A percentage.
        Percent = "percent",
        /// A dilution.
        Dilution = "dilution",
        /// Stops of exposure.
        Stops = "stops",
        /// Yes or no.
        YesNo = "yes-no",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_the_same_in_files_and_on_the_screen() {
        for work in Work::ALL {
            let written = serde_json::to_string(work).expect("an enum of words serializes");
            assert_eq!(written, format!("\"{}\"", work.word()));
        }
        for kind in FigureKind::ALL {
            let read: FigureKind = serde_json::from_str(&format!("\"{kind}\"")).expect("its word");
            assert_eq!(read, *kind);
        }
    }
}
