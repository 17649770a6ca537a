//! Figures of baths at work: volume, capacity, replenishing, fixing, washing.

use super::solutions::cautioned;
use super::{Answer, Ask, Book, Chapter, Given, Line, Problem, Recipe};
use crate::craft::solutions::volume::{LEAST_DEPTH_IN, tray, units, working};
use crate::craft::solutions::{capacity, fixing, millilitres, washing};
use crate::craft::{
    Amount, Celsius, Concern, Dilution, Grounds, LengthUnit, Millilitres, Seconds, Size,
};
use crate::reference::{Purpose, Usage};

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "volume",
        title: "how much solution for these sheets",
        chapter: Chapter::Solutions,
        about: "The solution a tank, drum or tray needs, against the least stock that develops so much \
                film: the more a developer is thinned, the more of it a sheet takes. The least stock is \
                told for 80 square inches, one 8x10. For a tray give its inside size; half an inch deep \
                is the least.",
        asks: &[
            FORMAT,
            Ask::typed("sheets", "sheets", "how many at once, 4"),
            Ask::typed(
                "developer",
                "developer",
                "a developer of which the least is told, D-76",
            ),
            Ask::typed(
                "least",
                "least stock",
                "your own figure for one 8x10 sheet, instead, 250 ml",
            ),
            Ask::typed("dilution", "dilution", "how it is thinned, stock or 1+1"),
            Ask::typed(
                "vessel",
                "vessel needs",
                "what tank or drum is filled with, 500 ml",
            ),
            Ask::typed("tray", "tray", "inside size of a tray, instead, 8x10 in"),
            Ask::typed("depth", "depth", "depth in the tray in inches, 0.5"),
        ],
        example: &[
            ("format", "4x5"),
            ("sheets", "6"),
            ("developer", "D-76"),
            ("dilution", "1+1"),
            ("vessel", "500 ml"),
        ],
        answer: volume,
    },
    Recipe {
        word: "capacity",
        title: "what a bath has left",
        chapter: Chapter::Solutions,
        about: "What a bath can still take, by the area that went through it and by its age. A capacity \
                belongs to the text it was read in, and texts differ by two and more times; film loads a \
                fixer more than paper does. Your own figure goes first.",
        asks: &[
            Ask::typed("volume", "volume", "how much of the bath there is, 1 l"),
            FORMAT,
            Ask::typed("sheets", "sheets", "how many went through it, 24"),
            Ask::typed(
                "bath",
                "bath",
                "a fixer of unknown make: acid, or alkaline, acid",
            )
            .from(Book::Choice(&["acid", "alkaline"])),
            Ask::typed(
                "takes",
                "takes",
                "your own or the maker's capacity in 8x10 sheets a litre, instead, 24",
            ),
            Ask::typed("age", "age", "days since it was mixed, 20"),
            Ask::typed(
                "keeps",
                "keeps",
                "days it keeps; a working fixer 60 at most, 60",
            ),
        ],
        example: &[
            ("volume", "1 l"),
            ("format", "4x5"),
            ("sheets", "60"),
            ("bath", "acid"),
            ("age", "20"),
        ],
        answer: capacity_left,
    },
    Recipe {
        word: "replenish",
        title: "replenisher for these sheets",
        chapter: Chapter::Solutions,
        about: "How much replenisher follows so many sheets. It keeps a bath as it is and does not \
                revive an exhausted one. Rates are told for 80 square inches, one 8x10; those here are \
                from memory, so look at the packet.",
        asks: &[
            FORMAT,
            Ask::typed("sheets", "sheets", "how many went through the bath, 8"),
            Ask::typed(
                "developer",
                "developer",
                "a developer whose rate is told, D-76",
            ),
            Ask::typed(
                "rate",
                "rate",
                "the rate for one 8x10 sheet, instead, 22 ml",
            ),
        ],
        example: &[("format", "8x10"), ("sheets", "4"), ("developer", "D-76")],
        answer: replenish,
    },
    Recipe {
        word: "fix",
        title: "fixing time from the clearing time",
        chapter: Chapter::Solutions,
        about: "Move a scrap of undeveloped film of the same kind in the fixer, lights on, until no \
                milkiness is left, and time it. Film is fixed for twice that, three times in an alkaline \
                fixer. When the clearing time has doubled since the fixer was fresh, the fixer is done.",
        asks: &[
            Ask::typed(
                "clearing",
                "clearing time",
                "time until the scrap is clear, 45 s",
            ),
            Ask::typed(
                "fresh",
                "when fresh",
                "clearing time when the fixer was fresh, 30 s",
            ),
            Ask::typed("fixer", "fixer", "acid, or alkaline such as TF-3, acid")
                .from(Book::Choice(&["acid", "alkaline"])),
            Ask::typed(
                "temperature",
                "temperature",
                "temperature of a bath colder than the 68 F at which the clearing was timed, 15 C",
            ),
        ],
        example: &[("clearing", "45 s"), ("fresh", "30 s")],
        answer: fix,
    },
    Recipe {
        word: "wash",
        title: "washing film",
        chapter: Chapter::Solutions,
        about: "The steps after the fixer with their times, with a washing aid or without, longer in \
                cold water. For washing by filling and draining, give the fills and the share that stays \
                after a drain: the answer adds what that leaves in the water.",
        asks: &[
            Ask::typed("aid", "washing aid", "whether a washing aid is used, yes")
                .from(Book::Choice(&["no", "yes"])),
            Ask::typed("temperature", "water", "temperature of the water, 15 C"),
            Ask::typed(
                "fixer",
                "fixer",
                "acid, or alkaline, which needs no washing aid, acid",
            )
            .from(Book::Choice(&["acid", "alkaline"])),
            Ask::typed(
                "fills",
                "fills",
                "how many times the tank is filled and drained, 3",
            ),
            Ask::typed(
                "stays",
                "stays",
                "share of the water that stays after a drain, 0.05 when drained well",
            ),
        ],
        example: &[
            ("aid", "yes"),
            ("temperature", "15 C"),
            ("fills", "3"),
            ("stays", "0.05"),
        ],
        answer: wash,
    },
];

const FORMAT: Ask =
    Ask::typed("format", "format", "format or size of the sheets, 4x5").from(Book::Formats);
/// How long a working fixer lasts.
const FIXER_KEEPS: Grounds = Grounds::published(
    "S. Anchell, The Darkroom Cookbook, 3rd ed., Focal Press 2008, p. 108: two months at most, less above 85 F",
);
/// Fixer and stop.
const WATER_STOP: Grounds =
    Grounds::published("S. Anchell, The Darkroom Cookbook, 3rd ed., Focal Press 2008, p. 106");

/// The size of the sheets, by the name of a format or by its sides.
fn size(given: &Given<'_>) -> Result<Size, Problem> {
    let text = given
        .text("format")
        .ok_or_else(|| given.missing("format"))?;
    if let Some(format) = given.desk().reference.format(text) {
        let (w, h) = format.nominal_mm();
        return Ok(Size::new(w, h, LengthUnit::Millimetre)?);
    }
    given.must("format", Size::parse)
}

/// A count of sheets, whole or half.
fn sheets(given: &Given<'_>) -> Result<f64, Problem> {
    given
        .number("sheets")?
        .ok_or_else(|| given.missing("sheets"))
}

/// What is told of the developer that was typed.
fn usage<'a>(given: &Given<'a>) -> Result<Option<&'a Usage>, Problem> {
    let Some(typed) = given.text("developer") else {
        return Ok(None);
    };
    let reference = given.desk().reference;
    reference.usage(typed).map(Some).ok_or_else(|| {
        let names: Vec<&str> = reference.usages().iter().map(|usage| usage.name.as_str()).collect();
        given.problem(
            "developer",
            format!(
                "nothing is told of \"{typed}\", only of {}: give your own figure for one 8x10 sheet",
                names.join(", ")
            ),
        )
    })
}

fn volume(given: &Given<'_>) -> Result<Answer, Problem> {
    let inside = given.may("tray", Size::parse)?;
    let vessel = given.may("vessel", Millilitres::parse)?;
    let poured = match inside {
        Some(inside) => {
            let depth = given.number("depth")?.unwrap_or(LEAST_DEPTH_IN);
            Some(tray(inside, depth)?)
        }
        None => None,
    };
    if let (Some(figure), None) = (&poured, given.text("format")) {
        return Ok(Answer::of(figure.clone(), |ml| {
            vec![Line::new("fill with", millilitres(ml))]
        }));
    }
    let area = units(size(given)?, sheets(given)?)?;
    let told = usage(given)?;
    let own = given.may("least", Millilitres::parse)?;
    let dilution = given
        .may("dilution", Dilution::parse)?
        .unwrap_or(Dilution::STOCK);
    let least = own
        .map(Millilitres::value)
        .or(told.map(|it| it.least))
        .unwrap_or(0.0);
    let vessel = match (&poured, vessel) {
        (Some(figure), Some(vessel)) => Some(Millilitres::new(figure.value.max(vessel.value()))?),
        (Some(figure), None) => Some(Millilitres::new(figure.value)?),
        (None, vessel) => vessel,
    };
    let mut figure = working(area.value, least, dilution, vessel)?;
    figure.steps.splice(0..0, area.steps);
    if let Some(poured) = poured {
        figure.steps.splice(0..0, poured.steps);
        figure.remarks.extend(poured.remarks);
    }
    let grounds = match (own, told) {
        (Some(_), _) => Some(Grounds::own("typed")),
        (None, Some(told)) => Some(told.grounds()),
        (None, None) => None,
    };
    if let Some(step) = figure
        .steps
        .iter_mut()
        .find(|step| step.name == "stock for the area")
    {
        step.grounds = grounds;
    }
    let mut answer = Answer::of(figure, |filled| {
        vec![
            Line::new("to mix", millilitres(filled.working)),
            Line::new("stock in it", millilitres(filled.stock)),
        ]
    });
    if let (None, Some(told)) = (own, told) {
        answer = answer.remark(
            Concern::Note,
            format!(
                "{}: {} ml of {} for one 8x10 sheet. {}",
                told.name, told.least, told.of, told.note
            )
            .trim_end()
            .to_owned(),
        );
    } else if own.is_none() {
        answer = answer.remark(
            Concern::Warning,
            "no least amount of stock is known here, so only the vessel was looked at: name the \
             developer, or give your own figure",
        );
    }
    Ok(answer)
}

fn capacity_left(given: &Given<'_>) -> Result<Answer, Problem> {
    let volume = given.must("volume", Millilitres::parse)?;
    let size = size(given)?;
    let through = given.number("sheets")?.unwrap_or(0.0);
    let (per_litre, grounds) = match given.number("takes")? {
        Some(own) => (own, Grounds::own("typed")),
        None => {
            let kind = given.choice("bath")?.ok_or_else(|| given.missing("bath"))?;
            told_capacity(given, kind)?
        }
    };
    let figure = capacity::left(per_litre, grounds, volume, size, through)?;
    let mut answer = Answer::of(figure, |left| {
        vec![
            Line::new("left", Amount::number(left.sheets_left, "sheets", 0)),
            Line::new("in 8x10 sheets", Amount::number(left.left, "", 2)),
            Line::new("takes in all", Amount::number(left.whole, "8x10", 2)),
        ]
    });
    let keeps = given.number("keeps")?;
    if let Some(age) = given.number("age")? {
        let fixer = given.text("bath").is_some();
        let (keeps, grounds) = match keeps {
            Some(keeps) => (keeps, Grounds::own("typed")),
            None if fixer => (60.0, FIXER_KEEPS),
            None => return Err(given.missing("keeps")),
        };
        let kept = capacity::days_left(age, keeps, grounds)?;
        answer = answer.result(Line::new(
            "keeps for",
            Amount::number(kept.value, "days", 0),
        ));
        answer.steps.extend(kept.steps);
        answer.remarks.extend(kept.remarks);
    }
    Ok(answer)
}

/// The capacity that is told of a fixer of unknown make.
fn told_capacity(given: &Given<'_>, kind: &'static str) -> Result<(f64, Grounds), Problem> {
    let wanted = format!("capacity, {kind}, unknown maker");
    let fixer = given.desk().reference.bath(Purpose::Fixer);
    let told = fixer.and_then(|bath| bath.capacities().find(|usual| usual.what == wanted));
    match told.and_then(|usual| Some((usual.range?.0, usual))) {
        Some((per_litre, usual)) => Ok((
            per_litre,
            Grounds::new(usual.standing, usual.source.clone()),
        )),
        None => Err(given.problem(
            "bath",
            format!("no capacity is told of a fixer that is {kind}: give your own"),
        )),
    }
}

fn replenish(given: &Given<'_>) -> Result<Answer, Problem> {
    let area = units(size(given)?, sheets(given)?)?;
    let own = given.may("rate", Millilitres::parse)?;
    let told = usage(given)?;
    let (rate, grounds) = match (own, told) {
        (Some(own), _) => (own.value(), Grounds::own("typed")),
        (None, Some(told)) => match told.replenish {
            Some(rate) => (rate, told.grounds()),
            None => {
                return Err(given.problem(
                    "developer",
                    format!("no rate is told of {}: give it from the packet", told.name),
                ));
            }
        },
        (None, None) => return Err(given.missing("developer")),
    };
    let mut figure = capacity::replenish(area.value, rate, grounds)?;
    figure.steps.splice(0..0, area.steps);
    Ok(Answer::of(figure, |ml| {
        vec![Line::new("replenisher", millilitres(ml))]
    }))
}

fn fix(given: &Given<'_>) -> Result<Answer, Problem> {
    let clearing = given.must("clearing", Seconds::parse)?;
    let fresh = given.may("fresh", Seconds::parse)?;
    let alkaline = given.choice("fixer")? == Some("alkaline");
    let figure = fixing::fixing(clearing, fresh, alkaline)?;
    let time = figure.value.time;
    let mut answer = Answer::of(figure, |fixing| {
        let mut lines = vec![Line::new("fix for", Amount::Time(fixing.time))];
        let end = fixing.exhausted_at;
        lines.extend(end.map(|end| Line::new("done when clearing takes", Amount::Time(end))));
        lines
    });
    if let Some(at) = given.may("temperature", Celsius::parse)? {
        let cold =
            fixing::cold_factor(at).map_err(|why| given.problem("temperature", why.to_string()))?;
        let longer = Seconds::new(time.value() * cold.value)?;
        let line =
            Line::new("fix in the cold bath for", Amount::Time(longer)).on(cold.grounds.clone());
        answer.results.insert(0, line);
        answer.steps.extend(cold.steps);
        answer = answer.remark(
            Concern::Note,
            "timing the clearing again in the cold bath is surer than the rule",
        );
    }
    if alkaline {
        answer = answer.result(
            Line::new("stop before it in", Amount::words("plain water, no acid")).on(WATER_STOP),
        );
    }
    Ok(with_fixer_cautions(given, answer))
}

/// Fixer and its gases, before everything else.
fn with_fixer_cautions(given: &Given<'_>, answer: Answer) -> Answer {
    let reference = given.desk().reference;
    let ids = ["fixer", "waste"];
    cautioned(
        answer,
        reference,
        ids.into_iter().filter_map(|id| reference.caution(id)),
    )
}

fn wash(given: &Given<'_>) -> Result<Answer, Problem> {
    let alkaline = given.choice("fixer")? == Some("alkaline");
    let aid = given.choice("aid")? == Some("yes");
    let at = given.may("temperature", Celsius::parse)?;
    let figure =
        washing::washing(aid, at).map_err(|why| given.problem("temperature", why.to_string()))?;
    let steps = figure.steps.clone();
    let mut answer = Answer::of(figure, |whole| {
        let mut lines = vec![Line::new("in all", Amount::Time(whole))];
        let timed = steps
            .into_iter()
            .filter(|step| matches!(step.amount, Amount::Time(_)));
        lines.extend(timed.map(|step| Line::new(step.name, step.amount)));
        lines
    });
    if alkaline && aid {
        answer = answer.remark(
            Concern::Note,
            "after an alkaline fixer no washing aid is needed",
        );
    }
    let (limit, grounds) = washing::MICROFILM;
    answer = answer.remark(
        Concern::Note,
        format!(
            "whether it was enough only a test within 14 days tells; on microfilm {limit} micrograms of \
             thiosulfate are allowed on a square centimetre, {} g/m2 ({})",
            washing::grams_on_a_square_metre(limit),
            grounds.source
        ),
    );
    let fills = given.number("fills")?;
    let stays = given.number("stays")?;
    match (fills, stays) {
        (None, None) => Ok(answer),
        (None, Some(_)) => Err(given.missing("fills")),
        (Some(_), None) => Err(given.missing("stays")),
        (Some(fills), Some(stays)) => {
            let left = washing::residue(stays, fills)?;
            let percent = Amount::measured(left.value * 100.0, "%");
            answer = answer.result(Line::new("fills leave in the water", percent));
            answer.steps.extend(left.steps);
            answer.remarks.extend(left.remarks);
            Ok(answer)
        }
    }
}
