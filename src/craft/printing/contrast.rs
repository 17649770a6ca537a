//! Contrast by a setting: drops of an agent, a share of one solution, a filter.
//!
//! A table says which exposure scale each setting gives; between its rows it is read along a straight
//! line, or along the doublings of the setting where equal factors make equal steps. Promises: every
//! row is met; a scale is found for a setting and a setting for a scale by the same line; outside the
//! rows nothing is given, because nothing is known there.

use super::four;
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Step};
use crate::words::words;

words! {
    /// How a table of contrast is read between its rows.
    Between {
        /// In proportion to the setting, as between shares of two solutions or two filters.
        Straight = "straight",
        /// In proportion to the doublings of the setting, as with drops of an agent.
        Doublings = "doublings",
    }
}

/// A table from setting to exposure scale.
#[derive(Debug, Clone, PartialEq)]
pub struct Contrasts {
    rows: Vec<(f64, f64)>,
    between: Between,
    grounds: Grounds,
}

impl Contrasts {
    /// With these rows of setting and exposure scale (log), in any order.
    ///
    /// # Errors
    /// If there are fewer than two, a setting is there twice, a scale is no scale, the scale does not
    /// run one way, or a setting of nothing has no doublings.
    pub fn new(
        rows: &[(f64, f64)],
        between: Between,
        grounds: Grounds,
    ) -> Result<Contrasts, Impossible> {
        let mut rows = rows.to_vec();
        rows.sort_by(|one, other| one.0.total_cmp(&other.0));
        if rows.len() < 2 {
            return Err(Impossible::new(
                "a table of contrast needs two rows at least, such as 1 1.80, 2 1.65",
            ));
        }
        for (setting, scale) in &rows {
            if !setting.is_finite() || !(0.05..=4.0).contains(scale) {
                return Err(Impossible::new(format!(
                    "{} {} is no row: write the setting and its exposure scale from 0.05 to 4, 1 1.80",
                    four(*setting),
                    four(*scale)
                )));
            }
            if between == Between::Doublings && *setting <= 0.0 {
                return Err(Impossible::new(
                    "nothing cannot be doubled: leave out the row of 0, or read the table straight",
                ));
            }
        }
        let apart = |of: fn(&(f64, f64)) -> f64| {
            let pairs = rows.iter().zip(rows.iter().skip(1));
            pairs.map(move |(one, other)| of(other) - of(one))
        };
        if apart(|row| row.0).any(|step| step < 1e-9) {
            return Err(Impossible::new(
                "one setting is there twice: give each setting once",
            ));
        }
        let falls = apart(|row| row.1).all(|step| step < -1e-9);
        let rises = apart(|row| row.1).all(|step| step > 1e-9);
        if !falls && !rises {
            return Err(Impossible::new(
                "the exposure scale goes up and down along the settings: look at the row that turns it, \
                 or leave it out",
            ));
        }
        Ok(Contrasts {
            rows,
            between,
            grounds,
        })
    }

    /// The rows, by setting.
    #[must_use]
    pub fn rows(&self) -> &[(f64, f64)] {
        &self.rows
    }

    /// What the table rests on.
    #[must_use]
    pub const fn grounds(&self) -> &Grounds {
        &self.grounds
    }

    /// The shortest and the longest exposure scale of the table.
    #[must_use]
    pub fn ends(&self) -> (f64, f64) {
        let scales = self.rows.iter().map(|row| row.1);
        let shortest = scales.clone().fold(f64::INFINITY, f64::min);
        (shortest, scales.fold(f64::NEG_INFINITY, f64::max))
    }

    fn along(&self, setting: f64) -> f64 {
        match self.between {
            Between::Straight => setting,
            Between::Doublings => setting.log2(),
        }
    }

    fn pairs(&self) -> impl Iterator<Item = ((f64, f64), (f64, f64))> {
        self.rows
            .iter()
            .copied()
            .zip(self.rows.iter().copied().skip(1))
    }

    /// The exposure scale that a setting gives; nothing outside the table.
    #[must_use]
    pub fn scale_at(&self, setting: f64) -> Option<f64> {
        let (a, b) = self
            .pairs()
            .find(|(a, b)| a.0 <= setting && setting <= b.0)?;
        let (from, to) = (self.along(a.0), self.along(b.0));
        Some(a.1 + (b.1 - a.1) * (self.along(setting) - from) / (to - from))
    }

    /// The setting that gives an exposure scale; nothing outside the table.
    #[must_use]
    pub fn setting_for(&self, scale: f64) -> Option<f64> {
        let (a, b) = self
            .pairs()
            .find(|(a, b)| (a.1 - scale) * (b.1 - scale) <= 0.0)?;
        let part = (scale - a.1) / (b.1 - a.1);
        let (from, to) = (self.along(a.0), self.along(b.0));
        let along = from + part * (to - from);
        Some(match self.between {
            Between::Straight => along,
            Between::Doublings => along.exp2(),
        })
    }

    /// The setting for an exposure scale with the rows it lies between.
    ///
    /// # Errors
    /// If the scale lies outside the table.
    pub fn find_setting(&self, scale: f64, unit: &'static str) -> Result<Figure<f64>, Impossible> {
        let setting = self.setting_for(scale).ok_or_else(|| self.outside(scale))?;
        let step = Step::new("setting", Amount::measured(setting, unit))
            .working(self.neighbours(|row| row.1, scale))
            .on(self.grounds.clone());
        Ok(self.figure(setting, step, setting))
    }

    /// The exposure scale of a setting with the rows it lies between.
    ///
    /// # Errors
    /// If the setting lies outside the table.
    pub fn find_scale(&self, setting: f64) -> Result<Figure<f64>, Impossible> {
        let ends = (self.rows.first(), self.rows.last());
        let scale = self.scale_at(setting).ok_or_else(|| {
            let (first, last) = ends;
            Impossible::new(format!(
                "a setting of {} lies outside the table, which goes from {} to {}: nothing is known \
                 there, so make a step tablet print with it",
                four(setting),
                first.map_or_else(String::new, |row| four(row.0)),
                last.map_or_else(String::new, |row| four(row.0)),
            ))
        })?;
        let step = Step::new("exposure scale", Amount::number(scale, "", 2))
            .working(self.neighbours(|row| row.0, setting))
            .on(self.grounds.clone());
        Ok(self.figure(scale, step, setting))
    }

    fn outside(&self, scale: f64) -> Impossible {
        let (shortest, longest) = self.ends();
        let does = if scale < shortest {
            "take a contrastier process or paper, or give the negative more contrast"
        } else {
            "take a softer process or paper, or give the negative less contrast"
        };
        Impossible::new(format!(
            "an exposure scale of {} lies outside the table, which goes from {shortest:.2} to \
             {longest:.2}: {does}",
            four(scale)
        ))
    }

    fn figure(&self, value: f64, step: Step, setting: f64) -> Figure<f64> {
        let is_row = self.rows.iter().any(|row| (row.0 - setting).abs() < 1e-9);
        let figure = Figure::new(value, self.grounds.clone())
            .step(step)
            .within("the paper, solutions and light of the table; nothing beyond its rows");
        if is_row {
            return figure;
        }
        let words = match self.between {
            Between::Straight => "read between two rows along a straight line",
            Between::Doublings => "read between two rows, each doubling in equal steps",
        };
        figure.remark(Concern::Note, words)
    }

    /// The rows on both sides, written as a working.
    fn neighbours(&self, side: fn(&(f64, f64)) -> f64, at: f64) -> String {
        let found = self
            .pairs()
            .find(|(a, b)| (side(a) - at) * (side(b) - at) <= 0.0);
        found.map_or_else(String::new, |(a, b)| {
            format!(
                "between {} ({:.2}) and {} ({:.2})",
                four(a.0),
                a.1,
                four(b.0),
                b.1
            )
        })
    }
}

/// Reads the rows of a table: `1 1.80, 2 1.65, 4 1.50`, or with colons or equal signs between setting
/// and scale.
///
/// # Errors
/// If a row is not two numbers.
pub fn read_rows(text: &str) -> Result<Vec<(f64, f64)>, Impossible> {
    let rows = text.split([',', ';', '\n']).map(str::trim);
    rows.filter(|row| !row.is_empty())
        .map(|row| {
            let plain = row.replace([':', '='], " ");
            let mut numbers = plain.split_whitespace().map(crate::craft::number);
            match (numbers.next(), numbers.next(), numbers.next()) {
                (Some(Ok(setting)), Some(Ok(scale)), None) => Ok((setting, scale)),
                _ => Err(Impossible::new(format!(
                    "\"{row}\" is no row: write the setting and its exposure scale, 4 1.50"
                ))),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn table(rows: &[(f64, f64)], between: Between) -> Result<Contrasts, Impossible> {
        Contrasts::new(rows, between, Grounds::own("tested"))
    }

    #[test]
    fn nothing_is_read_beyond_the_ends() {
        let table = table(&[(1.0, 1.8), (2.0, 1.65), (4.0, 1.5)], Between::Doublings).unwrap();
        assert_eq!(table.setting_for(1.9), None);
        assert_eq!(table.scale_at(0.5), None);
        let why = table.find_setting(1.2, "ml").unwrap_err().to_string();
        assert!(
            why.contains("from 1.50 to 1.80") && why.contains("contrastier"),
            "{why}"
        );
        let why = table.find_scale(8.0).unwrap_err().to_string();
        assert!(why.contains("from 1 to 4"), "{why}");
        let middle = table.find_scale(2.0_f64.sqrt()).unwrap();
        assert!((middle.value - 1.725).abs() < 1e-9);
        assert_eq!(middle.remarks.len(), 1);
        assert!(table.find_scale(2.0).unwrap().remarks.is_empty());
    }

    #[test]
    fn a_table_that_is_none_is_refused() {
        let rows = [(1.0, 1.8), (2.0, 1.65), (3.0, 1.7)];
        for (rows, between) in [
            (&rows[..], Between::Straight),
            (&rows[..1], Between::Straight),
            (&[(0.0, 1.8), (1.0, 1.5)][..], Between::Doublings),
            (&[(1.0, 1.8), (1.0, 1.5)][..], Between::Straight),
            (&[(1.0, 1.8), (2.0, f64::NAN)][..], Between::Straight),
            (&[(f64::INFINITY, 1.8), (2.0, 1.2)][..], Between::Straight),
        ] {
            assert!(table(rows, between).is_err(), "{rows:?}");
        }
        for text in ["1", "1 2 3", "a b"] {
            assert!(read_rows(text).is_err(), "{text}");
        }
        assert_eq!(
            read_rows("1: 1.8; 2=1.65").unwrap(),
            [(1.0, 1.8), (2.0, 1.65)]
        );
    }

    proptest! {
        #[test]
        fn a_scale_leads_to_its_setting_and_back(
            falls in proptest::collection::vec(0.02..0.4_f64, 1..6),
            part in 0.0..1.0_f64,
            doubled in proptest::bool::ANY,
        ) {
            let mut scale = 3.0;
            let mut rows = vec![(1.0, scale)];
            for (at, fall) in falls.iter().enumerate() {
                scale -= fall;
                rows.push(((at + 2) as f64, scale));
            }
            let between = if doubled { Between::Doublings } else { Between::Straight };
            let table = table(&rows, between).unwrap();
            let (low, high) = table.ends();
            let wanted = low + part * (high - low);
            let setting = table.setting_for(wanted).unwrap();
            prop_assert!((table.scale_at(setting.clamp(1.0, rows.len() as f64)).unwrap() - wanted).abs() < 1e-6);
        }
    }
}
