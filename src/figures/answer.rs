//! What a figure says: results, the steps that led to them, remarks, and where it helps a table or a
//! chart.
//!
//! Everything here is plain data that goes to JSON as it is. How it looks on a screen is left to the
//! front end, how it is printed to the command line.

use std::borrow::Cow;

use serde::Serialize;

use crate::craft::{Amount, Concern, Figure, Grounds, Remark, Standing, Step};

/// One result.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Line {
    /// What it is, in a few words.
    pub name: Cow<'static, str>,
    /// The value with its unit.
    pub amount: Amount,
    /// What it rests on, where that is another thing than the figure as a whole.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grounds: Option<Grounds>,
}

impl Line {
    /// A result.
    pub fn new(name: impl Into<Cow<'static, str>>, amount: Amount) -> Line {
        Line {
            name: name.into(),
            amount,
            grounds: None,
        }
    }

    /// The same result with what it rests on.
    #[must_use]
    pub fn on(mut self, grounds: Grounds) -> Line {
        self.grounds = Some(grounds);
        self
    }
}

/// A table of results, such as one line a film or one line an hour.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Table {
    /// The heads of its columns.
    pub heads: Vec<Cow<'static, str>>,
    /// Its rows, each as long as the heads.
    pub rows: Vec<Vec<Amount>>,
}

/// One line of a chart.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Series {
    /// What it shows.
    pub name: Cow<'static, str>,
    /// Its points, in order of x.
    pub points: Vec<(f64, f64)>,
}

/// A place on the x axis of a chart that has a name.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Mark {
    /// Where it is.
    pub x: f64,
    /// What is there.
    pub name: Cow<'static, str>,
}

/// A small chart.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Chart {
    /// What runs along the bottom, with its unit: `hour`, `mark, s`.
    pub x: Cow<'static, str>,
    /// What runs up the side, with its unit.
    pub y: Cow<'static, str>,
    /// Its lines.
    pub series: Vec<Series>,
    /// Named places on the x axis.
    pub marks: Vec<Mark>,
}

/// What a figure says.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Answer {
    /// The results, the one that is asked for first.
    pub results: Vec<Line>,
    /// The steps that led there, in order.
    pub steps: Vec<Step>,
    /// What to look at.
    pub remarks: Vec<Remark>,
    /// Where the formula holds; empty where it always does.
    #[serde(skip_serializing_if = "str::is_empty")]
    pub domain: &'static str,
    /// What the figure rests on.
    pub grounds: Grounds,
    /// A table, where one helps.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub table: Option<Table>,
    /// A chart, where one helps.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub chart: Option<Chart>,
}

impl Answer {
    /// The answer a figure gives, with the results that are shown of its value.
    pub fn of<T>(figure: Figure<T>, results: impl FnOnce(T) -> Vec<Line>) -> Answer {
        Answer {
            results: results(figure.value),
            steps: figure.steps,
            remarks: figure.remarks,
            domain: figure.domain,
            grounds: figure.grounds,
            table: None,
            chart: None,
        }
    }

    /// An answer that looks up and reckons nothing.
    pub fn listing(results: Vec<Line>, grounds: Grounds) -> Answer {
        Answer {
            results,
            steps: Vec::new(),
            remarks: Vec::new(),
            domain: "",
            grounds,
            table: None,
            chart: None,
        }
    }

    /// The same answer with one more result.
    #[must_use]
    pub fn result(mut self, line: Line) -> Answer {
        self.results.push(line);
        self
    }

    /// The same answer with a remark.
    #[must_use]
    pub fn remark(mut self, concern: Concern, words: impl Into<String>) -> Answer {
        self.remarks.push(Remark {
            concern,
            words: words.into(),
        });
        self
    }

    /// The same answer with a table.
    #[must_use]
    pub fn table(mut self, table: Table) -> Answer {
        self.table = Some(table);
        self
    }

    /// The same answer with a chart.
    #[must_use]
    pub fn chart(mut self, chart: Chart) -> Answer {
        self.chart = Some(chart);
        self
    }

    /// Everything that the answer as a whole rests on, the figure itself first.
    fn all_grounds(&self) -> impl Iterator<Item = &Grounds> {
        let steps = self.steps.iter().filter_map(|step| step.grounds.as_ref());
        std::iter::once(&self.grounds).chain(steps)
    }

    /// How far the answer may be trusted: as far as the least trusted number in it.
    pub fn standing(&self) -> Standing {
        let standings = self.all_grounds().map(|grounds| grounds.standing);
        standings.min().unwrap_or(self.grounds.standing)
    }

    /// How far a result of the answer may be trusted: by what it rests on itself, else as far as the
    /// answer.
    pub fn standing_of(&self, line: &Line) -> Standing {
        match &line.grounds {
            Some(grounds) => grounds.standing,
            None => self.standing(),
        }
    }

    /// What the numbers rest on, each text once, in the order in which they are met.
    pub fn sources(&self) -> Vec<&Grounds> {
        let results = self.results.iter().filter_map(|line| line.grounds.as_ref());
        let mut sources: Vec<&Grounds> = Vec::new();
        for grounds in self.all_grounds().chain(results) {
            if !sources.contains(&grounds) {
                sources.push(grounds);
            }
        }
        sources
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_answer_is_trusted_no_further_than_the_least_trusted_number_in_it() {
        let by_heart = Grounds::remembered("an old table");
        let figure = Figure::new(2.0, Grounds::published("a data sheet"))
            .step(Step::new("filter", Amount::Factor(2.0)).on(by_heart.clone()))
            .step(Step::new("again", Amount::Factor(2.0)).on(by_heart));
        let own = Grounds::own("tested 4 March");
        let answer = Answer::of(figure, |value| {
            vec![
                Line::new("factor", Amount::Factor(value)),
                Line::new("by test", Amount::Factor(value)).on(own),
            ]
        });
        assert_eq!(answer.standing(), Standing::Remembered);
        let of = |at: usize| answer.standing_of(&answer.results[at]);
        assert_eq!((of(0), of(1)), (Standing::Remembered, Standing::Own));
        let sources: Vec<&str> = answer
            .sources()
            .iter()
            .map(|it| it.source.as_ref())
            .collect();
        assert_eq!(sources, ["a data sheet", "an old table", "tested 4 March"]);
    }
}
