//! A clock in words: the step, the time that is left, what the hand does next.

use super::{Ahead, Counting, Hand, clock};

/// `then stop, 30 s`, where `word` is `then`.
pub fn next_in_words(word: &str, next: Option<&Ahead>) -> String {
    match next {
        Some(next) => format!("{word} {}", next.in_words()),
        None => "nothing comes next".to_owned(),
    }
}

impl Counting {
    /// `develop, 2 of 9`.
    pub fn step_in_words(&self) -> String {
        match self.place {
            Some((at, all)) => format!("{}, {at} of {all}", self.label),
            None => self.label.clone(),
        }
    }

    /// `6:48 left`, `! 0:12 over`, `6:48 stands still`.
    pub fn time_in_words(&self) -> String {
        let (_, seconds) = self.shown();
        let digits = clock(seconds);
        match (self.paused, self.planned) {
            (true, _) => format!("{digits} paused"),
            (false, None) => format!("{digits} given"),
            (false, Some(_)) if self.is_over() => format!("! {digits} over"),
            (false, Some(_)) => format!("{digits} left"),
        }
    }

    /// What the hand does next: `turn the sheet at 6:30`, `then stop, 30 s`.
    pub fn act_in_words(&self) -> String {
        if self.paused {
            return "its time stands still".to_owned();
        }
        if self.is_over() {
            return next_in_words("now", self.next.as_ref());
        }
        let cue = match self.hand() {
            Some(Hand::Moves(Some(until))) => Some(format!(
                "{} until {}",
                self.cue_words(),
                self.as_shown(until)
            )),
            Some(Hand::Rests(_)) | None => self
                .next_cue()
                .map(|cue| format!("{} at {}", cue.words, self.as_shown(cue.at))),
            Some(Hand::Moves(None)) => None,
        };
        cue.unwrap_or_else(|| next_in_words("then", self.next.as_ref()))
    }

    /// A moment as the digits will show it then.
    fn as_shown(&self, at: f64) -> String {
        let seconds = self.planned.map_or(at, |planned| planned - at);
        clock(seconds.max(0.0).round() as u64)
    }

    /// Two lines that say more.
    pub fn told(&self) -> [String; 2] {
        let mut first = vec![format!("{}: {}", self.reference, self.step_in_words())];
        first.extend(self.light.map(|light| light.in_words().to_owned()));
        first.extend(self.temperature.map(|temperature| temperature.to_string()));
        let seconds = |seconds: f64| clock(seconds.round() as u64);
        let given = match self.planned {
            Some(planned) => format!("{} planned", seconds(planned)),
            None => "no time is planned".to_owned(),
        };
        first.push(given);
        let mut second = vec![next_in_words("then", self.next.as_ref())];
        if matches!(self.hand(), Some(Hand::Moves(None))) && !self.cue_words().is_empty() {
            second.insert(0, format!("{}, all the time", self.cue_words()));
        }
        [first.join(", "), second.join("; ")]
    }
}

impl Ahead {
    /// `next develop, 10 min (planned for the run), total darkness`.
    pub fn told(&self) -> String {
        let mut words = format!("next {}", self.in_words());
        if self.time.is_some() && !self.rests.is_empty() {
            words.push_str(&format!(" ({})", self.rests));
        }
        if let Some(light) = self.light {
            words.push_str(&format!(", {}", light.in_words()));
        }
        words
    }
}
