//! Figures of the sun: where it stands, what it does on a day, what light tables give for its going.
//!
//! For: planning a picture at a place. Places are coordinates or names from the user's own records,
//! times are of the clocks there. Leaves the reckoning to [`crate::craft::sun`].

use super::{Answer, Ask, Book, Chapter, Given, Problem, Recipe};
use crate::craft::sun::{Coordinates, Level};
use crate::craft::{Concern, TimeZone, moment};

mod day;
mod stands;
mod twilight;

use chrono::{DateTime, FixedOffset, NaiveDate};

const PLACE: Ask = Ask::typed(
    "place",
    "place",
    "where, as coordinates or as you noted it, 46.5 N 8.2 E",
)
.from(Book::Places);

const ZONE: Ask = Ask::typed(
    "zone",
    "time zone",
    "clocks of the place, yours if left out, Europe/Zurich",
);

const DATE: Ask = Ask::typed("date", "day", "the day, today if left out, 2026-06-21");

/// The recipes of this file.
pub(super) const RECIPES: &[Recipe] = &[
    Recipe {
        word: "sun",
        title: "where the sun stands, where shadows fall, and whether it looks into the lens",
        chapter: Chapter::Sun,
        about: "Azimuth and elevation of the sun for a place and a moment, with the direction and the \
                length of shadows. With the direction of the camera, and a focal length and a format \
                or an angle of view, it says whether the sun is in the picture: facing WNW with 44 degrees \
                across and 35 up, say. Directions go from true north; give what your compass is off to \
                have them as it shows them.",
        asks: &[
            PLACE,
            Ask::typed(
                "at",
                "moment",
                "when, by the clocks of the place, now if left out, 2026-06-21 18:30",
            ),
            ZONE,
            Ask::typed(
                "facing",
                "camera faces",
                "where the camera looks, from true north, 280 or WSW",
            ),
            Ask::typed(
                "pointed",
                "pointed up",
                "degrees it points above the horizon, below negative, 10",
            ),
            Ask::typed(
                "focal_length",
                "focal length",
                "focal length of the lens, 150 mm",
            ),
            Ask::typed(
                "lens",
                "lens",
                "one of your lenses, for its focal length, L-02",
            )
            .from(Book::Lenses),
            Ask::typed(
                "format",
                "format",
                "the film or its image area, 4x5 or 96x120 mm",
            )
            .from(Book::Formats),
            Ask::typed("way", "camera stands", "which way the film lies, landscape")
                .from(Book::Choice(&["landscape", "portrait"])),
            Ask::typed(
                "across",
                "angle across",
                "degrees the picture takes in from side to side, 44",
            ),
            Ask::typed(
                "up",
                "angle up",
                "degrees the picture takes in from bottom to top, 35",
            ),
            Ask::typed(
                "variation",
                "compass off",
                "degrees your compass points east of true north, west negative, 3",
            ),
        ],
        example: &[
            ("place", "46.5 N 8.2 E"),
            ("at", "2026-06-21 19:30"),
            ("zone", "Europe/Zurich"),
        ],
        answer: stands::answer,
    },
    Recipe {
        word: "day",
        title: "the sun over a day: dawn, sunrise, golden and blue hour, sunset, dusk",
        chapter: Chapter::Sun,
        about: "When the sun passes the heights that have names on a day of the calendar, with a chart of \
                its elevation. For a wall, a cliff or a house front it says when the sun comes round to \
                it and when it leaves. The horizon is level: hills and trees shorten the day.",
        asks: &[
            PLACE,
            DATE,
            ZONE,
            Ask::typed(
                "wall",
                "wall faces",
                "where a wall, cliff or house front faces, from true north, 240 or WSW",
            ),
            Ask::typed(
                "golden",
                "golden hour",
                "elevations of the sun you call golden; there is no agreed definition, -4 to 6",
            ),
        ],
        example: &[
            ("place", "46.5 N 8.2 E"),
            ("date", "2026-06-21"),
            ("zone", "Europe/Zurich"),
            ("wall", "NE"),
        ],
        answer: day::answer,
    },
    Recipe {
        word: "twilight",
        title: "exposure values that tables give for the sun's going, by the clocks of a day",
        chapter: Chapter::Sun,
        about: "Published exposure values at ISO 100 from full sun through sunset and twilight to \
                starlight, set beside the times of a day at a place; your own findings go first. Tables \
                give single values and ranges, no curve: between them meter again and again. With a time \
                it says which of them hold then.",
        asks: &[
            PLACE,
            DATE,
            ZONE,
            Ask::typed(
                "time",
                "time",
                "time of that day for which the light is wanted, 21:50",
            ),
            super::light::C,
        ],
        example: &[
            ("place", "46.5 N 8.2 E"),
            ("date", "2026-06-21"),
            ("zone", "+02:00"),
            ("time", "21:50"),
        ],
        answer: twilight::answer,
    },
];

/// A place with the clocks that go there.
#[derive(Debug, Clone, Copy)]
struct Spot {
    place: Coordinates,
    zone: TimeZone,
}

impl Spot {
    /// The place and the zone that were typed: the zone as typed, else that of the place as it was
    /// noted, else the user's.
    fn read(given: &Given<'_>) -> Result<Spot, Problem> {
        let (place, noted) = given.place()?.ok_or_else(|| given.missing("place"))?;
        let zone = match given.may("zone", TimeZone::parse)? {
            Some(zone) => zone,
            None => match noted {
                Some(zone) => TimeZone::parse(&zone)
                    .map_err(|why| given.problem("zone", format!("as it was noted, {why}")))?,
                None => given.desk().zone,
            },
        };
        Ok(Spot { place, zone })
    }

    /// The moment that was typed, by the clocks of the place; now if none was.
    fn moment(
        self,
        given: &Given<'_>,
        key: &'static str,
    ) -> Result<DateTime<FixedOffset>, Problem> {
        let now = self.zone.of(given.desk().now);
        let typed = given.may(key, |text| moment::parse(text, now, self.zone))?;
        Ok(typed.map_or(now, |at| self.zone.of(at)))
    }

    /// The day that was typed; today at the place if none was.
    fn date(self, given: &Given<'_>) -> Result<NaiveDate, Problem> {
        self.moment(given, "date").map(|at| at.date_naive())
    }

    /// The answer, and that its clocks are not those of the place if they cannot be.
    fn told(self, answer: Answer, at: DateTime<FixedOffset>) -> Answer {
        let clocks = f64::from(at.offset().local_minus_utc()) / 3600.0;
        let off = (clocks - self.place.longitude() / 15.0 + 12.0).rem_euclid(24.0) - 12.0;
        if off.abs() <= 3.5 {
            return answer;
        }
        answer.remark(
            Concern::Warning,
            format!(
                "times are by clocks at {}, {:.0} hours from the sun's time at this place: give the time \
                 zone of the place; east is positive, west negative",
                at.offset(),
                off.abs()
            ),
        )
    }
}

/// What the sun's passing of a level is called.
const fn named(level: Level, rising: bool) -> &'static str {
    match (level, rising) {
        (Level::Astronomical, true) => "astronomical dawn",
        (Level::Astronomical, false) => "astronomical dusk",
        (Level::Nautical, true) => "nautical dawn",
        (Level::Nautical, false) => "nautical dusk",
        (Level::Civil, true) => "civil dawn, blue hour",
        (Level::Civil, false) => "civil dusk",
        (Level::Golden, true) => "golden hour begins",
        (Level::Golden, false) => "golden hour ends, blue hour",
        (Level::Horizon, true) => "sunrise",
        (Level::Horizon, false) => "sunset",
        (Level::High, true) => "golden hour ends",
        (Level::High, false) => "golden hour begins",
    }
}

#[cfg(test)]
mod tests;
