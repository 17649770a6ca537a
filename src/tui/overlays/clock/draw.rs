//! The picture of the clock: what is exposed, the digits, how far off, and the keys.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::{Clock, ClockKey, figure};
use crate::tui::browse::KeyNames;
use crate::tui::clock::digits::Digits;
use crate::tui::clock::habits::Habits;
use crate::tui::clock::plan::AgainstPlan;
use crate::tui::clock::{Count, Stage, in_words};
use crate::tui::ink::{below, cells, line_of, rest_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;

/// A line under the digits: words in their roles, and what a click on it does.
struct Foot {
    words: Vec<(String, Role)>,
    key: Option<ClockKey>,
}

impl Foot {
    fn of(words: impl Into<String>, role: Role) -> Foot {
        Foot {
            words: vec![(words.into(), role)],
            key: None,
        }
    }

    fn blank() -> Foot {
        Foot::of("", Role::Text)
    }

    fn keyed(key: &str, words: impl Into<String>, does: Option<ClockKey>) -> Foot {
        Foot {
            words: vec![
                (format!("{key:>10}  "), Role::Key),
                (words.into(), Role::Text),
            ],
            key: does,
        }
    }
}

impl Clock {
    /// Whether the shutter is open or about to be, and few cells may be lit.
    pub const fn is_dark(&self) -> bool {
        self.habits.cloth && !self.asks && self.timer.runs()
    }

    /// Draws the clock over the whole of `area`.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look, keys: &KeyNames<'_>) {
        look.theme.paint_ground(area, buf);
        let role = |role: Role| if self.habits.cloth { Role::Quiet } else { role };
        let text = figure(self.face.shown, self.timer.plan().unwrap_or_default());
        let digits = Digits {
            text: &text,
            thin: self.habits.cloth,
        };
        let foot = self.foot(area, keys);
        let (figure, foot_area) = parts(area, foot.len());
        digits.render(figure, buf, look, role(Role::Text));
        if !self.is_dark() {
            let line = rest_of(line_of(area, 0), 1);
            let line = look.put_end(
                buf,
                line,
                &format!("{} ", self.which_opening()),
                role(Role::Text),
            );
            let line = look.put(buf, line, &self.about.what, role(Role::Heading));
            look.put(buf, rest_of(line, 2), &self.about.film, role(Role::Text));
            let plan = rest_of(line_of(area, 1), 1);
            look.put(buf, plan, &self.plan_in_words(), role(Role::Quiet));
        }
        for (line, foot) in foot_area.rows().zip(&foot) {
            let words = foot.words.iter();
            let words = words.map(|(words, of)| (words.as_str(), role(*of)));
            look.put_all(buf, rest_of(line, 2), words);
        }
    }

    fn which_opening(&self) -> String {
        match self.openings().len() {
            0 | 1 => String::new(),
            count => format!("opening {count}"),
        }
    }

    fn plan_in_words(&self) -> String {
        match self.about.plan.as_str() {
            "" => "no time is planned: it counts up".to_owned(),
            plan => format!("planned {plan}"),
        }
    }

    /// What a click at a place does; nothing by itself is any key.
    pub fn key_at(&self, area: Rect, at: Position, keys: &KeyNames<'_>) -> Option<ClockKey> {
        let foot = self.foot(area, keys);
        let (_, foot_area) = parts(area, foot.len());
        let hit = foot_area
            .rows()
            .zip(&foot)
            .find(|(line, _)| line.contains(at));
        hit.and_then(|(_, foot)| foot.key)
    }

    fn foot(&self, area: Rect, keys: &KeyNames<'_>) -> Vec<Foot> {
        let room = usize::from(area.width.saturating_sub(4));
        let told = |words: &str, role: Role| {
            wrap(words, room)
                .into_iter()
                .map(move |line| Foot::of(line, role))
        };
        let mut foot: Vec<Foot> = Vec::new();
        if let Some(doubt) = &self.doubt {
            foot.extend(told(&format!("! {doubt}"), Role::Warn));
        }
        if self.asks {
            foot.extend(self.question(room, keys));
            return foot;
        }
        match self.timer.stage() {
            Stage::Ready => foot.extend(self.choices(keys)),
            Stage::LeadIn { .. } => {
                foot.push(Foot::of(self.face.stage, Role::Heading));
                if !self.is_dark() {
                    foot.push(Foot::keyed("any key", "calls it off", None));
                }
            }
            Stage::Open { .. } => {
                foot.push(self.state_line());
                if !self.is_dark() {
                    foot.push(Foot::keyed("any key", "ends the exposure", None));
                    foot.push(Foot::keyed(
                        &keys("clock.pause"),
                        "closes the shutter for a while: a car, wind",
                        Some(ClockKey::Pause),
                    ));
                }
            }
            Stage::Closed => {
                foot.push(self.state_line());
                foot.push(Foot::of(self.so_far(), Role::Text));
                foot.push(Foot::keyed(
                    &keys("clock.pause"),
                    "opens it again",
                    Some(ClockKey::Pause),
                ));
                foot.push(Foot::keyed("any other", "ends the exposure", None));
            }
            Stage::Ended => {
                foot.push(Foot::of(
                    format!("given {}", self.given_in_words()),
                    Role::Heading,
                ));
                if let Some(against) = self.against_plan() {
                    foot.push(Foot::of(against.in_words(), Role::Text));
                    foot.extend(told(&advice_in_words(against), Role::Text));
                }
                foot.push(Foot::keyed(
                    "any key",
                    "goes back to the pane, with these figures",
                    None,
                ));
                foot.push(Foot::keyed(
                    &keys("clock.pause"),
                    "opens the shutter once more",
                    Some(ClockKey::Pause),
                ));
            }
        }
        foot
    }

    fn state_line(&self) -> Foot {
        Foot {
            words: vec![
                (self.face.stage.to_owned(), Role::Heading),
                ("   ".to_owned(), Role::Text),
                (self.face.off.clone(), Role::Text),
            ],
            key: None,
        }
    }

    fn so_far(&self) -> String {
        let given = self.timer.given(self.latest);
        match self.timer.plan().map(|plan| plan.saturating_sub(given)) {
            Some(left) if !left.is_zero() => {
                format!("{} given, {} to go", in_words(given), in_words(left))
            }
            _ => format!("{} given", in_words(given)),
        }
    }

    fn given_in_words(&self) -> String {
        let openings = self.openings();
        let given = in_words(openings.iter().sum());
        if openings.len() < 2 {
            return given;
        }
        let each: Vec<String> = openings.iter().map(|opening| in_words(*opening)).collect();
        format!(
            "{given} in {} openings: {}",
            openings.len(),
            each.join(", ")
        )
    }

    /// What can be chosen before the start.
    fn choices(&self, keys: &KeyNames<'_>) -> Vec<Foot> {
        let Habits {
            count,
            bell,
            lead_in,
            cloth,
        } = self.habits;
        let count = match (count, self.timer.plan()) {
            (Count::Down, Some(_)) => "counts down from the plan",
            (Count::Down, None) => "counts up, for nothing is planned",
            (Count::Up, _) => "counts up",
        };
        let lead_in = match lead_in {
            0 => "no lead-in: the first key opens the shutter".to_owned(),
            seconds => format!("lead-in {seconds} s before the shutter opens"),
        };
        let cloth = if cloth {
            "few cells lit, for the dark cloth"
        } else {
            "lit as usual"
        };
        let shorter = keys("clock.shorter");
        let longer = keys("clock.longer");
        vec![
            Foot::keyed(&keys("clock.count"), count, Some(ClockKey::Count)),
            Foot::keyed(&keys("clock.bell"), bell.in_words(), Some(ClockKey::Bell)),
            Foot::keyed(
                &format!("{shorter} {longer}"),
                lead_in,
                Some(ClockKey::LeadIn(1)),
            ),
            Foot::keyed(&keys("clock.cloth"), cloth, Some(ClockKey::Cloth)),
            Foot::blank(),
            Foot::keyed(
                "any other",
                "starts; once the shutter is open any key ends it",
                None,
            ),
        ]
    }

    fn question(&self, room: usize, keys: &KeyNames<'_>) -> Vec<Foot> {
        let goes_on = match self.timer.stage() {
            Stage::Open { .. } => "goes on; the shutter counts as open all the while",
            _ => "goes on",
        };
        let keeps = match self.timer.stage() {
            Stage::Ended => "goes back to the pane, with what was given",
            _ => "ends the exposure here and keeps what was given",
        };
        let mut foot: Vec<Foot> = wrap(
            "Drop this exposure? Only if no light fell on the sheet: the cap was on, the slide was in.",
            room,
        )
        .into_iter()
        .map(|line| Foot::of(line, Role::Heading))
        .collect();
        foot.extend([
            Foot::keyed(
                &keys("clock.drop"),
                "drops it, and asks why",
                Some(ClockKey::Drop),
            ),
            Foot::keyed(&keys("clock.go-on"), goes_on, Some(ClockKey::Ask)),
            Foot::keyed("any other", keeps, None),
        ]);
        foot
    }
}

/// What can be done, and on what ground that is said.
pub(super) fn advice_in_words(against: AgainstPlan) -> String {
    format!("{} (usual practice with negative film)", against.advice())
}

/// Lines under the digits that they make room for at any time, so that they stay where they are.
const FOOT: usize = 8;

/// Where the digits are and where the lines under them.
fn parts(area: Rect, lines: usize) -> (Rect, Rect) {
    let body = below(area, 2);
    let lines = if area.height < 20 {
        lines
    } else {
        lines.max(FOOT)
    };
    let foot = cells(lines).min(body.height);
    let digits = Rect {
        height: body.height - foot,
        ..body
    };
    let foot = below(body, digits.height);
    // Digits of half the height are read from afar, and no stroke is longer than it has to be.
    let high = digits.height.min(area.height / 2);
    let digits = Rect {
        y: digits.y + (digits.height - high) / 2,
        height: high,
        ..digits
    };
    (digits, foot)
}
