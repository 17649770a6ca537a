//! Readings as a photographer types them into one field: `III 8.7  V 10.3  VIII 13.9`,
//! `shadow III 8.7, sky VIII 13.9`, `incident 12.3`, `III 1/15 f/22`, `V 400 lx`.
//!
//! Commas, semicolons and new lines part readings; so does the zone or the name that begins the next
//! one. What could mean two things, such as two bare numbers side by side, is refused and not guessed.

use super::Zone;
use super::zone::roman;
use crate::craft::brightness::Brightness;
use crate::craft::exposure::{Setting, at_speed, exposure_value};
use crate::craft::meter::{Constants, Shown, at_100};
use crate::craft::numeral::plain;
use crate::craft::{Aperture, ExposureValue, FilmSpeed, Seconds, Unreadable};

const WANTED: &str = "a reading: write III 8.7, shadow III 8.7, 12.3, incident 12.3, V 400 lx or \
                      III 1/15 f/22, with a comma before the next one";
const TWO_NUMBERS: &str = "clear: write a comma between two readings, and a zone in Roman numerals, \
                           as III 8.7, VIII 13.9";
const NO_SPEED: &str =
    "a reading until the film speed is known: give the speed, or the reading in EV";
const NO_LIGHT: &str = "a reading of any light there is";

/// What a meter saw of one part of the subject, or of the light on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The zone it is wanted on; nothing if it is only to be seen where it falls.
    pub zone: Option<Zone>,
    /// The exposure value at ISO 100.
    pub value: ExposureValue,
    /// What was read, if it was named.
    pub name: Option<String>,
    /// Whether the meter was held into the light and not at the subject.
    pub incident: bool,
}

impl Reading {
    /// What it is called in a sentence: its name, or its value.
    #[must_use]
    pub fn called(&self) -> String {
        match &self.name {
            Some(name) => name.clone(),
            None if self.incident => format!("incident {}", self.value),
            None => self.value.to_string(),
        }
    }
}

/// Reads everything that was typed into one field.
///
/// Numbers are exposure values at ISO 100 unless `ISO 400` or `@400` stands behind them; a setting
/// such as `1/15 f/22` was read for film of `speed`.
///
/// ```
/// use notchbook::craft::meter::Constants;
/// use notchbook::craft::zones::parse_readings;
/// let read = parse_readings("shadow III 8,7; sky VIII 13.9", None, &Constants::default())?;
/// assert_eq!(read.len(), 2);
/// assert_eq!(read[0].name.as_deref(), Some("shadow"));
/// assert_eq!(read[1].value.value(), 13.9);
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If any part of the text is no reading; the error holds that part.
pub fn parse_readings(
    text: &str,
    speed: Option<FilmSpeed>,
    meter: &Constants,
) -> Result<Vec<Reading>, Unreadable> {
    let mut readings = Vec::new();
    for part in parts(text) {
        readings.extend(read_part(part, speed, meter)?);
    }
    if readings.is_empty() {
        return Err(Unreadable::new(text, WANTED));
    }
    Ok(readings)
}

/// The text between commas, semicolons and new lines; a comma between two digits is a decimal mark.
fn parts(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = Some(text);
    std::iter::from_fn(move || {
        let text = rest?;
        let mut before = None;
        for (at, c) in text.char_indices() {
            let next = text
                .get(at + c.len_utf8()..)
                .and_then(|rest| rest.chars().next());
            let digit = |c: Option<char>| c.is_some_and(|c: char| c.is_ascii_digit());
            let parts = matches!(c, ';' | '\n') || (c == ',' && !(digit(before) && digit(next)));
            if parts {
                rest = text.get(at + c.len_utf8()..);
                return text.get(..at);
            }
            before = Some(c);
        }
        rest = None;
        Some(text)
    })
    .map(str::trim)
    .filter(|part| !part.is_empty())
}

/// One piece of a reading.
enum Piece {
    Zone(Zone),
    Value(ExposureValue, bool),
    Incident,
    Word(String),
}

fn read_part(
    part: &str,
    speed: Option<FilmSpeed>,
    meter: &Constants,
) -> Result<Vec<Reading>, Unreadable> {
    let words: Vec<Token> = part
        .split_whitespace()
        .flat_map(Token::from_typed)
        .collect();
    let line = Line {
        part,
        tokens: &words,
        speed,
        meter,
    };
    let mut pieces = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let (piece, next) = line.piece(at)?;
        pieces.extend(piece);
        at = next;
    }
    let values = pieces
        .iter()
        .filter(|piece| matches!(piece, Piece::Value(..)))
        .count();
    match values {
        0 => Err(Unreadable::new(part, WANTED)),
        1 => one(pieces)
            .map(|one| vec![one])
            .ok_or_else(|| Unreadable::new(part, WANTED)),
        _ => several(pieces).ok_or_else(|| Unreadable::new(part, TWO_NUMBERS)),
    }
}

/// A reading whose zone and name may stand on either side of its value.
fn one(pieces: Vec<Piece>) -> Option<Reading> {
    let mut head = Head::default();
    let mut value = None;
    for piece in pieces {
        match piece {
            Piece::Value(read, incident) => value = Some((read, incident)),
            other => head.take(other)?,
        }
    }
    let (value, incident) = value?;
    Some(head.reading(value, incident))
}

/// Readings of which each begins with a zone, a name or `incident`.
fn several(pieces: Vec<Piece>) -> Option<Vec<Reading>> {
    let mut readings = Vec::new();
    let mut head = Head::default();
    for piece in pieces {
        match piece {
            Piece::Value(..) if head.is_bare() => return None,
            Piece::Value(value, incident) => {
                readings.push(std::mem::take(&mut head).reading(value, incident));
            }
            other => head.take(other)?,
        }
    }
    head.is_bare().then_some(readings)
}

/// What stands before a value.
#[derive(Default)]
struct Head {
    zone: Option<Zone>,
    words: Vec<String>,
    incident: bool,
}

impl Head {
    fn is_bare(&self) -> bool {
        self.zone.is_none() && self.words.is_empty() && !self.incident
    }

    /// Takes a piece that is no value; a second zone is none.
    fn take(&mut self, piece: Piece) -> Option<()> {
        match piece {
            Piece::Zone(zone) => return self.zone.replace(zone).is_none().then_some(()),
            Piece::Word(word) => self.words.push(word),
            Piece::Incident => self.incident = true,
            Piece::Value(..) => return None,
        }
        Some(())
    }

    fn reading(self, value: ExposureValue, incident: bool) -> Reading {
        Reading {
            zone: self.zone,
            value,
            name: (!self.words.is_empty()).then(|| self.words.join(" ")),
            incident: incident || self.incident,
        }
    }
}

/// A word as it was typed, and in one spelling.
struct Token {
    typed: String,
    plain: String,
}

impl Token {
    /// The tokens of a word: `VIII=13.9` is two, and so is `V½`.
    fn from_typed(word: &str) -> Vec<Token> {
        let words = word.split('=').map(|typed| typed.trim_end_matches(':'));
        words
            .flat_map(|typed| {
                let spelled = plain(typed);
                let parts = spelled.contains(' ');
                let tokens = spelled.split(' ').filter(|word| !word.is_empty());
                tokens
                    .map(|word| Token {
                        typed: if parts { word } else { typed }.to_owned(),
                        plain: word.to_owned(),
                    })
                    .collect::<Vec<_>>()
            })
            .collect()
    }
}

/// One part of the field while it is read.
struct Line<'a> {
    part: &'a str,
    tokens: &'a [Token],
    speed: Option<FilmSpeed>,
    meter: &'a Constants,
}

impl Line<'_> {
    /// The piece that begins at `at`, if it says anything, and where the next one begins.
    fn piece(&self, at: usize) -> Result<(Option<Piece>, usize), Unreadable> {
        if let Some((zone, next)) = self.zone(at) {
            return Ok((Some(Piece::Zone(zone)), next));
        }
        match self.plain(at) {
            "incident" | "inc" | "incidental" => return Ok((Some(Piece::Incident), at + 1)),
            // Words that only join.
            "on" | "in" | "at" | "to" | "is" | "->" | "zone" | "spot" => {
                return Ok((None, at + 1));
            }
            _ => {}
        }
        if let Some((value, incident, next)) = self.value(at)? {
            return Ok((Some(Piece::Value(value, incident)), next));
        }
        let token = self.tokens.get(at);
        match token.filter(|token| token.plain.starts_with(char::is_alphabetic)) {
            Some(token) if is_name(&token.plain) => {
                Ok((Some(Piece::Word(token.typed.clone())), at + 1))
            }
            _ => Err(Unreadable::new(self.part, WANTED)),
        }
    }

    fn plain(&self, at: usize) -> &str {
        self.tokens.get(at).map_or("", |token| &token.plain)
    }

    /// `count` tokens from `at` on, with spaces between.
    fn joined(&self, at: usize, count: usize) -> Option<String> {
        let tokens = self.tokens.get(at..at + count)?;
        let words: Vec<&str> = tokens.iter().map(|token| token.plain.as_str()).collect();
        Some(words.join(" "))
    }

    fn zone(&self, at: usize) -> Option<(Zone, usize)> {
        let (at, named) = match self.plain(at) {
            "zone" => (at + 1, true),
            _ => (at, false),
        };
        let word = self.plain(at);
        let numeral = word.split(['+', '-']).next().unwrap_or_default();
        if roman(numeral).is_none() && !named {
            return None;
        }
        // `V 1/2 10.3` is a part of a zone; in `V 1/2 f/22` it is the time.
        let part = is_part(self.plain(at + 1))
            && self.setting(at + 1).is_none()
            && at + 2 < self.tokens.len();
        if part && let Some(zone) = self.joined(at, 2).and_then(|text| Zone::parse(&text).ok()) {
            return Some((zone, at + 2));
        }
        Zone::parse(word).ok().map(|zone| (zone, at + 1))
    }

    /// A value at ISO 100, whether it was read in the light, and where the next piece begins.
    fn value(&self, at: usize) -> Result<Option<(ExposureValue, bool, usize)>, Unreadable> {
        let out_of_range = || Unreadable::new(self.part, NO_LIGHT);
        if let Some((setting, next)) = self.setting(at) {
            let (speed, next) = self.own_speed(next).unwrap_or((self.speed, next));
            let speed = speed.ok_or_else(|| Unreadable::new(self.part, NO_SPEED))?;
            let value = at_speed(exposure_value(setting), speed, FilmSpeed::ISO_100)
                .map_err(|_| out_of_range())?;
            return Ok(Some((value, false, next)));
        }
        for count in [2, 1] {
            let Some(text) = self.joined(at, count) else {
                continue;
            };
            if let Ok(light) = Brightness::parse(&text) {
                let value = at_100(Shown::Light(light), self.meter).map_err(|_| out_of_range())?;
                let incident = matches!(light, Brightness::Incident(_));
                return Ok(Some((value.value, incident, at + count)));
            }
        }
        // `EV 10 1/3`, `10 1/3`, `EV 10`, `10 EV`, `10`.
        for count in [3, 2, 1] {
            let Some(text) = self.joined(at, count) else {
                continue;
            };
            let Ok(value) = ExposureValue::parse(&text) else {
                continue;
            };
            let last = self.plain(at + count - 1);
            // A fraction before an aperture is the time of the next reading, and a bare fraction
            // is a time without its aperture.
            if is_fraction(last) && (count == 1 || self.setting(at + count - 1).is_some()) {
                continue;
            }
            let (speed, next) = self
                .own_speed(at + count)
                .unwrap_or((Some(FilmSpeed::ISO_100), at + count));
            let speed = speed.unwrap_or(FilmSpeed::ISO_100);
            let value = at_speed(value, speed, FilmSpeed::ISO_100).map_err(|_| out_of_range())?;
            return Ok(Some((value, false, next)));
        }
        Ok(None)
    }

    /// A time and an aperture in either order.
    fn setting(&self, at: usize) -> Option<(Setting, usize)> {
        let joint = |at: usize| if self.plain(at) == "at" { at + 1 } else { at };
        if let Some((time, next)) = self.time(at)
            && let Some((aperture, next)) = self.aperture(joint(next))
        {
            return Some((Setting { aperture, time }, next));
        }
        let (aperture, next) = self.aperture(at)?;
        let (time, next) = self.time(joint(next))?;
        Some((Setting { aperture, time }, next))
    }

    fn time(&self, at: usize) -> Option<(Seconds, usize)> {
        let unit = matches!(
            self.plain(at + 1),
            "s" | "sec" | "secs" | "seconds" | "min" | "m" | "\""
        );
        let count = if unit { 2 } else { 1 };
        let text = self.joined(at, count)?;
        Some((Seconds::parse(&text).ok()?, at + count))
    }

    fn aperture(&self, at: usize) -> Option<(Aperture, usize)> {
        let word = self.plain(at);
        let number = word.strip_prefix('f')?;
        let count = match (number, is_part(self.plain(at + 1))) {
            ("", _) => 2,
            // `f/22 1/3 1/15`: only if a time follows, or the part is the time.
            (_, true) if self.time(at + 2).is_some() => 2,
            _ => 1,
        };
        let text = self.joined(at, count)?;
        Some((Aperture::parse(&text).ok()?, at + count))
    }

    /// The speed a reading was taken for, where one stands behind it: `ISO 400`, `@400`.
    fn own_speed(&self, at: usize) -> Option<(Option<FilmSpeed>, usize)> {
        let word = self.plain(at);
        let named = matches!(word, "iso" | "ei" | "asa" | "@");
        if !named && !word.starts_with(['@']) && !word.starts_with("iso") {
            return None;
        }
        let count = if named { 2 } else { 1 };
        let speed = FilmSpeed::parse(&self.joined(at, count)?).ok()?;
        Some((Some(speed), at + count))
    }
}

/// The parts of a zone or a stop that people write.
fn is_part(word: &str) -> bool {
    matches!(word, "1/2" | "1/3" | "2/3" | "1/4" | "3/4")
}

/// Words that belong to a number; one that stands alone is a slip and no name.
const NO_NAMES: [&str; 26] = [
    "lx", "lux", "klx", "klux", "mlx", "fc", "ftc", "fl", "ftl", "cd", "nit", "nits", "ev", "lv",
    "iso", "asa", "ei", "f", "s", "sec", "secs", "seconds", "min", "m", "stop", "stops",
];

/// A name is made of letters, and is neither a unit nor a numeral beyond the zones, such as XI.
fn is_name(word: &str) -> bool {
    let numeral = word.chars().all(|c| matches!(c, 'i' | 'v' | 'x'));
    let letters = |c: char| c.is_alphabetic() || matches!(c, '\'' | '-');
    !numeral && word.chars().all(letters) && !NO_NAMES.contains(&word)
}

fn is_fraction(word: &str) -> bool {
    word.contains('/')
}
