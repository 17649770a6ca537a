//! A flash as people write it in one field: `GN 32 m, 4 m, 1/4 power, 2 pops`.
//!
//! The parts stand in any order between commas. Promises: nothing is guessed that could mean two
//! things (a guide number without metres or feet), no part is taken twice, and nothing panics.

use super::guide::{Guide, GuideUnit};
use super::{Basis, Flash};
use crate::craft::numeral::{Cursor, plain};
use crate::craft::{Aperture, FilmSpeed, Impossible, Millimetres};

/// How a flash is written.
const WRITE: &str = "write GN 32 m, 4 m, 1/4 power, 2 pops, or meter f/22, 2 pops";
/// More pops than anyone waits for.
const MOST_POPS: u32 = 1000;

/// The parts found so far.
#[derive(Default)]
struct Parts {
    guide: Option<(f64, Option<GuideUnit>)>,
    speed: Option<FilmSpeed>,
    distance: Option<(Millimetres, Option<GuideUnit>)>,
    metered: Option<Aperture>,
    power: Option<f64>,
    pops: Option<u32>,
}

impl Flash {
    /// Reads `GN 32 m, 4 m, 1/4 power, 2 pops`, `GN 105 ft at ISO 100, 13 ft`, `meter f/22, 4 pops`.
    ///
    /// The guide number is at full power and for ISO 100 unless another speed is written beside it;
    /// without a unit of its own it takes metres or feet from the distance.
    ///
    /// # Errors
    /// If a part cannot be read, is there twice, or could mean two things.
    pub fn parse(text: &str) -> Result<Flash, Impossible> {
        let plain = plain(text);
        let mut parts = Parts::default();
        for piece in pieces(&plain) {
            let piece = piece.trim();
            if !piece.is_empty() {
                parts.take(piece)?;
            }
        }
        parts.whole()
    }
}

/// The parts between commas; a comma between digits is a decimal mark.
fn pieces(plain: &str) -> Vec<&str> {
    let mut pieces = Vec::new();
    let mut rest = plain;
    let mut from = 0;
    while let Some(found) = rest.get(from..).and_then(|tail| tail.find([',', ';'])) {
        let at = from + found;
        let (before, tail) = rest.split_at(at);
        let after = tail.get(1..).unwrap_or("");
        let digit = |c: char| c.is_ascii_digit();
        if tail.starts_with(',') && before.ends_with(digit) && after.starts_with(digit) {
            from = at + 1;
            continue;
        }
        pieces.push(before);
        rest = after;
        from = 0;
    }
    pieces.push(rest);
    pieces
}

impl Parts {
    fn take(&mut self, piece: &str) -> Result<(), Impossible> {
        if let Some(rest) = strip(piece, &["guide number", "gn"]) {
            return self.take_guide(piece, rest);
        }
        if let Some(speed) = speed(piece) {
            return once(&mut self.speed, speed?, piece);
        }
        if let Some(rest) = strip(piece, &["metered", "meter", "flash meter", "reads"])
            .or_else(|| piece.starts_with("f/").then_some(piece))
        {
            return once(&mut self.metered, Aperture::parse(rest)?, piece);
        }
        if let Some(power) = power(piece) {
            return once(&mut self.power, power?, piece);
        }
        if let Some(pops) = pops(piece) {
            return once(&mut self.pops, pops?, piece);
        }
        let rest = strip(piece, &["at", "from", "distance"]).unwrap_or(piece);
        match Millimetres::parse(rest) {
            Ok(length) if rest.ends_with(|c: char| !c.is_ascii_digit()) => {
                once(&mut self.distance, (length, unit(rest)), piece)
            }
            Ok(_) => Err(Impossible::new(format!(
                "\"{piece}\" of what? A distance needs its unit, such as {piece} m or {piece} ft"
            ))),
            Err(_) => Err(Impossible::new(format!(
                "\"{piece}\" is no part of a flash: {WRITE}"
            ))),
        }
    }

    fn take_guide(&mut self, piece: &str, rest: &str) -> Result<(), Impossible> {
        let mut cursor = Cursor::new(rest);
        let unreadable = || {
            Impossible::new(format!(
                "\"{piece}\" is no guide number: write GN 32 m or GN 105 ft"
            ))
        };
        let number = cursor.number().ok_or_else(unreadable)?;
        let word = cursor.word();
        let mut tail = String::new();
        let mut found = GuideUnit::named(word);
        if found.is_none() && !word.is_empty() {
            tail.push_str(word);
        }
        while !cursor.at_end() {
            let before = tail.len();
            if cursor.take('@') {
                tail.push('@');
            }
            tail.push_str(cursor.word());
            if let Some(number) = cursor.whole() {
                tail.push_str(&format!(" {number}"));
            }
            if tail.len() == before {
                return Err(unreadable());
            }
        }
        if !tail.is_empty() {
            // "GN 32 m iso 400", "GN 32 iso 100 m".
            let tail = match tail.strip_suffix('m').filter(|_| found.is_none()) {
                Some(rest) => {
                    found = Some(GuideUnit::Metres);
                    rest.to_owned()
                }
                None => tail,
            };
            let speed = speed(&tail).ok_or_else(unreadable)??;
            once(&mut self.speed, speed, piece)?;
        }
        if !(number > 0.0 && number <= 10_000.0) {
            return Err(unreadable());
        }
        once(&mut self.guide, (number, found), piece)
    }

    fn whole(self) -> Result<Flash, Impossible> {
        let basis = match (self.guide, self.metered) {
            (Some(_), Some(_)) => {
                return Err(Impossible::new(
                    "a guide number and a meter reading say the same thing twice: leave one out",
                ));
            }
            (None, None) => {
                return Err(Impossible::new(format!(
                    "no guide number is there: {WRITE}"
                )));
            }
            (None, Some(aperture)) => Basis::Metered(aperture),
            (Some((number, unit)), None) => {
                let beside = self.distance.and_then(|(_, unit)| unit);
                let Some(unit) = unit.or(beside) else {
                    return Err(Impossible::new(format!(
                        "is GN {number} in metres or feet? Write GN {number} m or GN {number} ft"
                    )));
                };
                let speed = match self.speed {
                    Some(speed) => speed,
                    None => FilmSpeed::new(100)?,
                };
                Basis::Guide {
                    guide: Guide {
                        number,
                        unit,
                        speed,
                    },
                    distance: self.distance.map(|(distance, _)| distance),
                }
            }
        };
        Ok(Flash {
            basis,
            power: self.power.unwrap_or(1.0),
            pops: self.pops.unwrap_or(1),
        })
    }
}

fn once<T>(place: &mut Option<T>, value: T, piece: &str) -> Result<(), Impossible> {
    if place.is_some() {
        return Err(Impossible::new(format!(
            "\"{piece}\" says something a second time: {WRITE}"
        )));
    }
    *place = Some(value);
    Ok(())
}

/// What follows one of these words.
fn strip<'t>(piece: &'t str, words: &[&str]) -> Option<&'t str> {
    let rest = words.iter().find_map(|word| piece.strip_prefix(word))?;
    (!rest.starts_with(char::is_alphabetic)).then(|| rest.trim_start_matches([':', '=', ' ']))
}

/// `ISO 400`, `at iso 100`, `@200`.
fn speed(piece: &str) -> Option<Result<FilmSpeed, Impossible>> {
    let rest = strip(piece, &["at", "for"]).unwrap_or(piece);
    let marked = ["iso", "ei", "asa", "@"]
        .iter()
        .any(|word| rest.starts_with(word));
    marked.then(|| FilmSpeed::parse(rest).map_err(Impossible::from))
}

/// `1/4 power`, `power 1/4`, `1/4`, `half power`, `full`, `25 %`.
fn power(piece: &str) -> Option<Result<f64, Impossible>> {
    let stripped = strip(piece, &["power", "at"]).unwrap_or(piece);
    let (rest, named) = match stripped.strip_suffix("power") {
        Some(rest) => (rest.trim(), true),
        None => (
            stripped,
            stripped.len() < piece.len() && piece.starts_with("power"),
        ),
    };
    let (rest, percent) = match rest.strip_suffix('%') {
        Some(rest) => (rest.trim(), true),
        None => (rest, false),
    };
    let part = match rest {
        "full" => Some(1.0),
        "half" => Some(0.5),
        "quarter" => Some(0.25),
        _ => {
            let mut cursor = Cursor::new(rest);
            cursor.number().filter(|_| cursor.at_end())
        }
    };
    let is_it =
        named || percent || rest.contains('/') || matches!(rest, "full" | "half" | "quarter");
    let part = part.filter(|_| is_it)?;
    let part = if percent { part / 100.0 } else { part };
    Some(if part > 0.0 && part <= 1.0 {
        Ok(part)
    } else {
        Err(Impossible::new(format!(
            "\"{piece}\" is no part of full power: write full, 1/2 or 1/4 power"
        )))
    })
}

/// `2 pops`, `1 pop`, `3 flashes`, `4 times`.
fn pops(piece: &str) -> Option<Result<u32, Impossible>> {
    let mut cursor = Cursor::new(piece);
    let number = cursor.number()?;
    let named = matches!(
        cursor.word(),
        "pop" | "pops" | "flash" | "flashes" | "times" | "x"
    );
    if !named || !cursor.at_end() {
        return None;
    }
    let whole = crate::craft::numeral::exact_u32(number);
    Some(
        whole
            .filter(|n| (1..=MOST_POPS).contains(n))
            .ok_or_else(|| {
                Impossible::new(format!("\"{piece}\" is no number of pops: write 2 pops"))
            }),
    )
}

/// The unit a distance was written in, if guide numbers are given in it.
fn unit(length: &str) -> Option<GuideUnit> {
    let word = length.trim_start_matches(|c: char| !c.is_alphabetic() && c != '\'');
    GuideUnit::named(word)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_flash_is_read_as_people_write_it() {
        let whole = Flash::parse("GN 32 m, 4 m, 1/4 power, 2 pops").unwrap();
        for text in [
            "gn 32m, 4m, 1/4, 2 pops",
            "GN32, 4 m, power 1/4, 2 pops",
            "2 pops; 25 % power; at 4 m; guide number 32",
            "GN 32 m ISO 100, 4,0 m, quarter power, 2 flashes",
            "GN 32, at ISO 100, from 4 m, 1/4 power, 2 times",
            "GN: 32 m, 400 cm, ¼ power, 2 pops",
        ] {
            assert_eq!(Flash::parse(text).unwrap(), whole, "{text}");
        }
        let feet = Flash::parse("GN 105 ft, 13 ft").unwrap();
        assert_eq!((feet.power, feet.pops), (1.0, 1));
        let Basis::Guide { guide, distance } = feet.basis else {
            panic!("{feet:?}");
        };
        assert_eq!((guide.unit, guide.speed.value()), (GuideUnit::Feet, 100));
        assert!((distance.unwrap().value() - 3962.4).abs() < 1e-9);
        let metered = Flash::parse("f/22, 4 pops").unwrap();
        assert_eq!(metered, Flash::parse("meter f/22, 4 pops").unwrap());
    }

    #[test]
    fn what_is_unclear_is_asked_about() {
        for (text, says) in [
            ("", "no guide number"),
            ("4 m", "no guide number"),
            ("GN 32", "in metres or feet?"),
            ("GN 32, 400 cm", "in metres or feet?"),
            ("GN 32 m, 4", "needs its unit"),
            ("GN 32 m, 4 m, 5 m", "a second time"),
            ("GN 32 m, GN 40 m", "a second time"),
            ("GN 32 m, f/8", "the same thing twice"),
            ("GN 32 m, 4 m, 2 power", "no part of full power"),
            ("GN 32 m, 4 m, 0 pops", "no number of pops"),
            ("GN 32 m, 4 m, 1.5 pops", "no number of pops"),
            ("GN -32 m", "no guide number"),
            ("GN 0 m", "no guide number"),
            ("GN abc", "no guide number"),
            ("GN 32 m, softbox", "is no part of a flash"),
        ] {
            let why = Flash::parse(text).unwrap_err().to_string();
            assert!(why.contains(says), "{text}: {why}");
        }
    }

    proptest! {
        #[test]
        fn no_text_makes_the_reader_panic(
            text in crate::craft::scribble::text(),
            tail in "[0-9 gnmftpow/,.iso@%x]{0,24}",
        ) {
            let _ = Flash::parse(&text);
            if let Ok(flash) = Flash::parse(&tail) {
                prop_assert!(flash.power > 0.0 && flash.pops > 0);
            }
        }
    }
}
