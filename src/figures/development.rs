//! Figures of developing film: times, temperature, contrast and the gradient a print wants.

use crate::craft::Seconds;
use crate::craft::development::agitation::Agitation;
use crate::craft::development::contrast::{Expansion, Grain};

use super::{Ask, Book, Chapter, Recipe};

mod chain;
mod change;
mod contrast;
mod listed;
mod own;
mod range;
mod rows;
mod table;
mod warmth;

pub use chain::{Reckoned, Situation, reckon};

const AGITATION: Ask = Ask::typed(
    "agitation",
    "agitation",
    "how the film is kept moving: intermittent as in a tank, continuous as in a tray or rotary tube",
)
.from(Book::Choice(Agitation::WORDS));

/// What the time of a run asks.
pub const ASKS: &[Ask] = &[
    Ask::typed("film", "film", "the film as it stands on its box, FP4 Plus").from(Book::Films),
    Ask::typed(
        "developer",
        "developer",
        "the developer as it stands on its packet, Ilfotec DD-X",
    )
    .from(Book::Developers),
    Ask::typed(
        "dilution",
        "dilution",
        "one part of developer and so many of water, 1+4; or stock",
    ),
    Ask::typed(
        "temperature",
        "temperature",
        "the temperature of the developer, 20 C if nothing is said, 68F",
    ),
    Ask::typed(
        "speed",
        "exposed at",
        "the exposure index the film was exposed at, if not the speed on its box, 125",
    ),
    Ask::typed(
        "size",
        "size of film",
        "which film a table is for, where it says so: sheets, rolls, 120, 135",
    ),
    AGITATION,
    Ask::typed(
        "contrast",
        "contrast",
        "N-1, with what a long exposure asks, N-1; -10 %, a gradient, 0.62, or a way of printing",
    ),
    Ask::typed(
        "estimate",
        "estimate",
        "yes, to go beyond the table by the general law; an estimate within about 20 %, no",
    )
    .from(Book::Choice(&["no", "yes"])),
];

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "develop",
        title: "how long a film is developed",
        chapter: Chapter::Development,
        about: "The time for a film in a developer, step by step: by your own time if you logged one, else \
                by the tables that are told of the two, then for the agitation, the contrast that is asked \
                for and a long exposure. Between two temperatures of a table the time is reckoned; beyond \
                them nothing is told, and an estimate has to be asked for. Every published time is where \
                your own tests begin.",
        asks: ASKS,
        example: &[
            ("film", "FP4 Plus"),
            ("developer", "DD-X"),
            ("temperature", "22 C"),
        ],
        answer: table::answer,
    },
    Recipe {
        word: "developers",
        title: "developers and the times told for films in them",
        chapter: Chapter::Development,
        about: "The developers of the reference and your own, and the films a time is told for. Name one \
                to see every row and how much of it a sheet uses up.",
        asks: &[Ask::typed(
            "developer",
            "developer",
            "one developer, or nothing for all of them, XTOL",
        )
        .from(Book::Developers)],
        example: &[("developer", "XTOL")],
        answer: listed::developers,
    },
    Recipe {
        word: "temperature",
        title: "a developing time at another temperature",
        chapter: Chapter::Development,
        about: "A time carried to another temperature. With a second time at another temperature it lies \
                between the two; with one time alone it is an estimate, because there is no one law for \
                all developers: a degree changes the time by 3.5 to 11 %.",
        asks: &[
            Ask::typed(
                "time",
                "known time",
                "the time that is known, in minutes and seconds, 10:00",
            ),
            Ask::typed("at", "known at", "the temperature it is known for, 20 C"),
            Ask::typed(
                "to",
                "temperature now",
                "the temperature of the developer now, 22 C",
            ),
            Ask::typed(
                "other_time",
                "second time",
                "a second time that is known for the same film and developer, 8:00",
            ),
            Ask::typed(
                "other_at",
                "second at",
                "the temperature of the second time, 75F",
            ),
            Ask::typed(
                "ten_degrees",
                "ten degrees",
                "how much quicker the developer works for ten degrees Celsius, if you know it, 2.25",
            ),
        ],
        example: &[("time", "10:00"), ("at", "20 C"), ("to", "22 C")],
        answer: warmth::answer,
    },
    Recipe {
        word: "contrast",
        title: "times for N-2 to N+2",
        chapter: Chapter::Development,
        about: "A developing time for more contrast (N+1, a flat subject) or less (N-1, one zone too \
                many), by percentages that are common practice. They are wide: take them as where a test \
                begins. The exposure that goes with it is said where something is told of it.",
        asks: &[
            Ask::typed("time", "time for N", "your time for normal contrast, 9:00"),
            Ask::typed(
                "by",
                "change",
                "N-1 for one zone too many in the subject, N+1 for one too few; less or more for a \
                 small correction; nothing for all of them, N-1",
            ),
            Ask::typed(
                "grain",
                "emulsion",
                "classic, or tabular for flat grain, which answers about twice as sharply",
            )
            .from(Book::Choice(Grain::WORDS)),
        ],
        example: &[("time", "9:00"), ("by", "N-1")],
        answer: change::answer,
    },
    Recipe {
        word: "trial",
        title: "where to begin a test of one's own time",
        chapter: Chapter::Development,
        about: "The first times to try when you look for your own developing time, from the time the \
                maker gives: a fifth less, and less again if the highlights print white.",
        asks: &[Ask::typed(
            "time",
            "maker's time",
            "the time the maker of film or developer gives, 10:00",
        )],
        example: &[("time", "10:00")],
        answer: change::trial,
    },
    Recipe {
        word: "gradient",
        title: "the gradient a print wants of its negative",
        chapter: Chapter::Development,
        about: "How steep a negative has to be: the density range the print wants, over what flare leaves \
                of the subject's range. Name a way of printing to take the range it is known for, or give \
                the range of your own negatives; a table says the same for N-2 to N+2.",
        asks: &[
            Ask::typed(
                "process",
                "printed as",
                "the way of printing whose range is taken, cyanotype",
            ),
            Ask::typed(
                "density_range",
                "density range",
                "instead of it the density range you want, deepest less thinnest, 1.05",
            ),
            Ask::typed(
                "stops",
                "subject range",
                "from the darkest to the lightest part with detail, in stops; 7.3 if nothing is said, 9",
            ),
            Ask::typed(
                "by",
                "or change",
                "instead of the stops the change it is meant for, N-1",
            ),
            Ask::typed(
                "flare",
                "flare",
                "what flare takes of the range, as a logarithm; 0.40 if nothing is said, 0.30",
            ),
        ],
        example: &[("process", "silver-gelatin-contact"), ("stops", "9")],
        answer: range::answer,
    },
    Recipe {
        word: "agitation",
        title: "how film is agitated, and what it does to the time",
        chapter: Chapter::Development,
        about: "Schemes of agitation as they were written down. With a time for a tank, what is left of it \
                when the film is moved all the time; times from tables for rotary tubes are that already.",
        asks: &[Ask::typed(
            "time",
            "time in a tank",
            "a time for agitation now and then, to be used in a tray or rotary tube, 8:00",
        )],
        example: &[("time", "8:00")],
        answer: listed::agitation,
    },
];

/// A time to the nearest second, as a clock in the dark can follow it.
fn to_the_second(time: Seconds) -> Seconds {
    Seconds::new(time.value().round().max(1.0)).unwrap_or(time)
}

/// The changes that are listed side by side.
fn whole_changes() -> impl Iterator<Item = Expansion> {
    [-2.0, -1.0, 0.0, 1.0, 2.0]
        .into_iter()
        .filter_map(|zones| Expansion::new(zones).ok())
}

#[cfg(test)]
mod tests;
