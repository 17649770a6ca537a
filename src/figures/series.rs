//! Figures of marks: the exact series behind them, and what a lens can be set to.

use super::answer::Table;
use super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe};
use crate::craft::series::{Scale, apertures, settable_aperture, settable_time, times};
use crate::craft::{Amount, Aperture, Figure, Grounds, Seconds, Step, Stops};

const EXACT: Grounds = Grounds::published(
    "Large Format Photography Forum, thread 8513: the exact series 2^(k/2), 2^(k/4), 2^(k/6)",
);

const SCALE: Ask = Ask::typed(
    "scale",
    "scale",
    "how finely the ring is divided, whole, half or third stops, third",
)
.from(Book::Choice(Scale::WORDS));

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "round",
        title: "what the lens can really be set to, and what that misses",
        chapter: Chapter::Light,
        about: "A reckoned aperture goes to the nearest click of the ring, a reckoned time to the \
                nearest mark of a leaf shutter or a count of half and whole seconds. What is left over \
                is told in stops: plus is more exposure than was wanted.",
        asks: &[
            Ask::typed(
                "aperture",
                "aperture",
                "the aperture that was reckoned, f/18.4",
            ),
            Ask::typed(
                "time",
                "time",
                "the time that was reckoned, 0.3 s or 51.6 s",
            ),
            SCALE,
            Ask::typed(
                "lens",
                "lens",
                "the lens, for how far it opens and closes, L-02",
            )
            .from(Book::Lenses),
            Ask::typed("widest", "widest", "the widest aperture of the lens, f/5.6"),
            Ask::typed(
                "smallest",
                "smallest",
                "the smallest aperture of the lens, f/45",
            ),
        ],
        example: &[
            ("aperture", "f/18.4"),
            ("time", "0.3 s"),
            ("scale", "third"),
        ],
        answer: round,
    },
    Recipe {
        word: "series",
        title: "the marks of apertures or times, with the exact numbers behind them",
        chapter: Chapter::Light,
        about: "Marks are rounded names: f/22 stands for 22.63, and 1/125 for 1/128. The table shows \
                what each stands for, and by how much the mark, taken at its word, would give more \
                exposure.",
        asks: &[
            Ask::typed("of", "of", "apertures or times, apertures")
                .from(Book::Choice(&["apertures", "times"])),
            SCALE,
        ],
        example: &[("of", "apertures"), ("scale", "whole")],
        answer: series,
    },
];

fn scale(given: &Given<'_>, if_left_out: Scale) -> Result<Scale, Problem> {
    let word = given.choice("scale")?;
    Ok(word.and_then(Scale::worded).unwrap_or(if_left_out))
}

fn round(given: &Given<'_>) -> Result<Answer, Problem> {
    let aperture = given.may("aperture", Aperture::parse)?;
    let time = given.may("time", Seconds::parse)?;
    let scale = scale(given, Scale::Third)?;
    let lens = given.lens()?.unwrap_or_default();
    let widest = given.may("widest", Aperture::parse)?.or(lens.widest);
    let smallest = given.may("smallest", Aperture::parse)?.or(lens.smallest);

    let mut figure = Figure::new((), EXACT);
    let mut lines = Vec::new();
    let mut left = 0.0;
    if let Some(wanted) = aperture {
        let set = settable_aperture(wanted.stops(), scale, widest, smallest)?;
        lines.push(Line::new("aperture", Amount::Aperture(set.value)));
        left += set.error.value();
        figure.steps.push(
            Step::new(
                format!("{wanted} to {}", set.value),
                Amount::Stops(set.error),
            )
            .working(format!(
                "{:.2} stops from f/1 wanted, {:.2} set",
                wanted.stops(),
                set.value.stops()
            )),
        );
    }
    if let Some(wanted) = time {
        let set = settable_time(wanted);
        lines.push(Line::new("time", Amount::Time(set.value)));
        left += set.error.value();
        figure.steps.push(
            Step::new(
                format!("{wanted} to {}", set.value),
                Amount::Stops(set.error),
            )
            .working("nearest in stops; half seconds are counted to 10 s, whole ones beyond"),
        );
    }
    if lines.is_empty() {
        return Err(Problem::of_all(
            "an aperture or a time is needed, such as f/18.4 or 0.3 s",
        ));
    }
    lines.push(Line::new("off by", Amount::Stops(Stops::new(left)?)));
    Ok(Answer::of(figure, |()| lines))
}

fn series(given: &Given<'_>) -> Result<Answer, Problem> {
    let scale = scale(given, Scale::Whole)?;
    let of_times = given.choice("of")? == Some("times");
    let (rows, what): (Vec<Vec<Amount>>, _) = if of_times {
        let row = |mark: crate::craft::series::Marked<Seconds>| {
            let exact = Seconds::new(mark.exact)
                .map_or_else(|_| Amount::measured(mark.exact, "s"), Amount::Time);
            vec![Amount::Time(mark.mark), exact, Amount::Stops(mark.off)]
        };
        (times(scale).map(row).collect(), "times")
    } else {
        let row = |mark: crate::craft::series::Marked<Aperture>| {
            vec![
                Amount::Aperture(mark.mark),
                Amount::number(mark.exact, "", 2),
                Amount::Stops(mark.off),
            ]
        };
        (apertures(scale).map(row).collect(), "apertures")
    };
    let formula = match scale {
        Scale::Whole => "a stop apart",
        Scale::Half => "half a stop apart",
        Scale::Third => "a third of a stop apart",
    };
    let count = Line::new(what, Amount::number(rows.len() as f64, "marks", 0));
    let figure = Figure::new((), EXACT).step(
        Step::new(what, Amount::words(formula)).working("exact values from f/1 and from 1 s"),
    );
    Ok(Answer::of(figure, |()| vec![count]).table(Table {
        heads: vec!["mark".into(), "exact".into(), "mark gives more by".into()],
        rows,
    }))
}
