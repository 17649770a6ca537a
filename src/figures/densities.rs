//! Figures of densities: what readings of a step tablet tell of a film and its development.
//!
//! The recipes read what was typed; [`strip`](fn@strip), [`family`](fn@family) and [`control`](fn@control) give the same answers for curves
//! that come from elsewhere, such as the strips of a logbook.

use super::{Answer, Ask, Book, Chapter, Recipe};
use crate::craft::Remark;
use crate::craft::sensitometry::{Channel, Joined};

mod control;
mod family;
mod growth;
mod strip;
mod tablet;
#[cfg(test)]
mod tests;
pub(super) mod typed;

pub use control::{Control, ControlStrip, Measure, Wanted, control};
pub use family::{Aims, family, speeds};
pub use strip::{drawn, strip};

pub(super) const TABLET: Ask = Ask::typed(
    "tablet",
    "tablet",
    "steps of the tablet: 21 (of 0.15), 31 (of 0.10) or 11 (of 0.30); or its measured densities from the \
     clearest on, 0.05 0.21 0.35 0.51; 21 if nothing is given",
);
const BARE: Ask = Ask::typed(
    "bare",
    "light without tablet",
    "the exposure where no tablet lies, as log10 of lux seconds or with its unit, 0.35 or 2.24 lx s; \
     without it contrast is told and no speed",
);
pub(super) const CHANNEL: Ask = Ask::typed(
    "channel",
    "channel",
    "the light the densitometer read in; a stained negative holds back more blue and ultraviolet than \
     the eye sees, visual",
)
.from(Book::Choice(Channel::WORDS));
const JOINED: Ask = Ask::typed(
    "joined",
    "readings joined",
    "how the readings are joined: by a smooth curve, or straight as with a ruler on graph paper, smooth",
)
.from(Book::Choice(Joined::WORDS));

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "curve",
        title: "speed and contrast from a step tablet",
        chapter: Chapter::Densities,
        about: "The characteristic curve of a film from the densities of a step tablet printed on it: \
                base plus fog, speed, average gradient, contrast index, gamma and range. A speed is an \
                ISO speed only where the film was developed to the contrast the standard asks for; the \
                answer says whether it was.",
        asks: &[
            Ask::typed(
                "readings",
                "readings",
                "the densities from step 1 (the clearest, so the densest on film) on, 1.61 1.51 1.42 \
                 and so forth; or each with its step, 14 0.38 15 0.30; or the text of a CSV file with \
                 heads step and density",
            ),
            TABLET,
            BARE,
            Ask::typed(
                "base_fog",
                "base plus fog",
                "the density of film that got no light, 0.12; else the least exposed step stands for it",
            ),
            CHANNEL,
            JOINED,
        ],
        example: &[
            (
                "readings",
                "1.6 1.4 1.2 1 0.84 0.65 0.47 0.3 0.19 0.14 0.13",
            ),
            ("tablet", "11"),
        ],
        answer: strip::answer,
    },
    Recipe {
        word: "gradients",
        title: "times for N-2 to N+2 from a family of curves",
        chapter: Chapter::Densities,
        about: "Strips of one film through a step tablet, developed for different times, and the times \
                that bring a subject of any range to the density range a print wants. Each time comes \
                with how far it may be off and with the effective speed there. Nothing is guessed \
                beyond the times that were measured: develop another strip instead.",
        asks: &[
            Ask::typed(
                "readings",
                "readings",
                "the densities of each strip from step 1 on, strips parted by semicolons; or the text of \
                 a CSV file with heads such as step,t4,t5.5,t8",
            ),
            Ask::typed(
                "times",
                "times",
                "the time of each strip in the same order, in minutes, 4 5.5 8 11 16; not needed where \
                 the heads of the columns say them",
            ),
            TABLET,
            BARE,
            Ask::typed(
                "wanted",
                "wanted gradient",
                "one average gradient whose time is wanted, 0.58",
            ),
            Ask::typed(
                "range",
                "density range",
                "the density range the print wants in the negative, 1.05 for grade 2 if nothing is given",
            ),
            Ask::typed(
                "subject",
                "subject range",
                "log luminance range of a subject that gets N, 2.20 (7 1/3 stops) if nothing is given",
            ),
            Ask::typed(
                "flare",
                "flare",
                "log range that flare takes from the subject in the camera, 0.40 if nothing is given",
            ),
            Ask::typed(
                "read_to",
                "read to",
                "how far a single density may be off, 0.01 if nothing is given",
            ),
            CHANNEL,
            JOINED,
        ],
        example: &[
            (
                "readings",
                "1.22 1.07 0.93 0.78 0.64 0.49 0.35 0.23 0.15 0.13 0.12; \
                 1.61 1.42 1.23 1.04 0.84 0.65 0.47 0.30 0.19 0.14 0.13; \
                 1.99 1.75 1.52 1.29 1.05 0.82 0.59 0.38 0.23 0.16 0.15",
            ),
            ("times", "5.5 8 11"),
            ("tablet", "11"),
            ("bare", "0.35"),
        ],
        answer: family::answer,
    },
    Recipe {
        word: "growth",
        title: "a time for a gradient from two runs",
        chapter: Chapter::Densities,
        about: "Two runs of one film, developer and temperature, and the time for a third gradient by \
                the law that development slows down as it nears its end. The best pair has one time \
                twice the other. The law knows no slow start, so a family of curves is better where \
                there is one.",
        asks: &[
            Ask::typed(
                "time1",
                "first time",
                "development of one run, in minutes, 5.5",
            ),
            Ask::typed("gradient1", "first gradient", "the gradient it gave, 0.46"),
            Ask::typed(
                "time2",
                "second time",
                "development of the other run, in minutes, 11",
            ),
            Ask::typed("gradient2", "second gradient", "the gradient it gave, 0.71"),
            Ask::typed(
                "wanted",
                "wanted gradient",
                "the gradient whose time is wanted, 0.58",
            ),
        ],
        example: &[
            ("time1", "5.5"),
            ("gradient1", "0.46"),
            ("time2", "11"),
            ("gradient2", "0.71"),
            ("wanted", "0.58"),
        ],
        answer: growth::answer,
    },
    Recipe {
        word: "tablet",
        title: "what each step of a tablet lets through",
        chapter: Chapter::Densities,
        about: "The density of every step of a tablet, how much light it passes and the exposure the \
                film gets behind it in contact. A tablet that was measured counts before what such \
                tablets are meant to have.",
        asks: &[TABLET, BARE],
        example: &[("tablet", "21"), ("bare", "0.35")],
        answer: tablet::answer,
    },
];

/// The same answer with several remarks.
fn remarked(answer: Answer, remarks: &[Remark]) -> Answer {
    remarks.iter().fold(answer, |answer, remark| {
        answer.remark(remark.concern, remark.words.clone())
    })
}
