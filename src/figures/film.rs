//! Figures of film and holders: long exposures, what is known of a film, where the film lies, speeds,
//! film past its date.

use super::{Answer, Ask, Book, Chapter, Recipe};

mod holder;
mod long;
mod speeds;
mod stock;

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "reciprocity",
        title: "what a long exposure needs more",
        chapter: Chapter::Film,
        about: "What a film needs at a long or a very short time, by the law to trust first, with \
                every other law that is told of it beside it. Do this last: give the time that meter, \
                filters and bellows have led to. A longer time and a wider lens are two ways out, and \
                are not the same number: take one or the other.",
        asks: &[
            Ask::typed("film", "film", "the film as it stands on its box, HP5 Plus")
                .from(Book::Films),
            Ask::typed(
                "time",
                "metered time",
                "the time that meter, filters and bellows lead to, 30 s",
            ),
            Ask::typed(
                "model",
                "law to use",
                "the law to reckon with, if not the first: its number in the table or a word of its \
                 name; pinhole, Czech and earlier are rough guides for any film, Gainer",
            ),
        ],
        example: &[("film", "HP5 Plus"), ("time", "30 s")],
        answer: long::answer,
    },
    Recipe {
        word: "films",
        title: "films, their speed and what is known of them",
        chapter: Chapter::Film,
        about: "The films of the reference and your own: speed, what colours they answer to, and \
                whose word there is on long exposures. Name one to see all that is told of it; a \
                speed from memory says so.",
        asks: &[Ask::typed(
            "film",
            "film",
            "one film, or nothing for all of them, FP4 Plus",
        )
        .from(Book::Films)],
        example: &[("film", "FP4 Plus")],
        answer: stock::answer,
    },
    Recipe {
        word: "holder",
        title: "where the film lies, and how much of it is seen",
        chapter: Chapter::Film,
        about: "How deep a film lies in its holder, where its emulsion is, how large the sheet is cut \
                and how much of it the holder leaves open. The depth of holders is counted from the \
                face to the septum, that is to the back of the film.",
        asks: &[
            Ask::typed("format", "format", "the size of the sheet, 4x5").from(Book::Formats),
            Ask::typed(
                "base",
                "film thickness",
                "how thick the film is, if it was measured, 0.007 in",
            ),
        ],
        example: &[("format", "4x5")],
        answer: holder::answer,
    },
    Recipe {
        word: "speed",
        title: "film speeds against each other",
        chapter: Chapter::Film,
        about: "A film speed on both scales, arithmetic and in degrees, where three degrees are one \
                stop; and how many stops lie between it and another speed. The same figure serves \
                an exposure index.",
        asks: &[
            Ask::typed("speed", "speed", "the arithmetic speed or index, 400"),
            Ask::typed(
                "degrees",
                "degrees",
                "instead of it the speed in degrees, as on old boxes, 27",
            ),
            Ask::typed("other", "other speed", "a speed to compare it with, 125"),
        ],
        example: &[("speed", "400"), ("other", "125")],
        answer: speeds::compared,
    },
    Recipe {
        word: "expired",
        title: "what film past its date needs more",
        chapter: Chapter::Film,
        about: "How much more to give film past its date by two rules of people who use it. No maker \
                and no standard gives a rule, and the two disagree; how the film was kept counts for \
                more than either. Take it as where to begin a test.",
        asks: &[
            Ask::typed(
                "years",
                "years past date",
                "how many years the film is past its date, 20",
            ),
            Ask::typed(
                "expiry",
                "date on box",
                "instead of the years the date on the box: a year, month or day, 2006-05",
            ),
            Ask::typed("speed", "speed", "the speed on the box, 100"),
            Ask::typed(
                "factor",
                "years a stop",
                "years this kind of film takes to lose a stop, if you have found it out, 25",
            ),
        ],
        example: &[("years", "20"), ("speed", "100")],
        answer: speeds::expired,
    },
];

/// The same answer with several remarks.
fn remarked(answer: Answer, remarks: Vec<crate::craft::Remark>) -> Answer {
    remarks.into_iter().fold(answer, |answer, remark| {
        answer.remark(remark.concern, remark.words)
    })
}
