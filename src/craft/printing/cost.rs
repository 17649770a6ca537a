//! What a print costs, and how many prints the bottles still make.
//!
//! Promises: prices are those that were typed, and none is known here; what runs out first is told.
//! Money has no unit: the sum is in the currency of the prices.

use super::{four, within};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Millilitres, Step, number};

/// The most that is reckoned of anything.
const MOST: f64 = 1e9;

/// One thing that goes into a print, with its price.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// What it is: `palladium`, `paper`.
    pub name: String,
    /// How much of it goes into a print, in the unit of `per`.
    pub amount: f64,
    /// What is paid for `per`.
    pub price: f64,
    /// How much is sold at that price.
    pub per: f64,
}

/// The sum of a print's parts, in the currency of the prices.
///
/// # Errors
/// If there are no parts, or a number cannot be.
pub fn of_a_print(items: &[Item]) -> Result<Figure<f64>, Impossible> {
    if items.is_empty() {
        return Err(Impossible::new(
            "nothing goes into the print: name its parts with their prices",
        ));
    }
    let mut sum = 0.0;
    let mut figure = Figure::new(0.0, Grounds::own("the prices as typed"));
    for item in items {
        let amount = within("an amount", item.amount, 0.0..=MOST, "")?;
        let price = within("a price", item.price, 0.0..=MOST, "")?;
        let per = within("what is sold", item.per, 1e-6..=MOST, "")?;
        let cost = amount * price / per;
        sum += cost;
        let working = format!("{} x {} / {}", four(amount), four(price), four(per));
        figure = figure.step(
            Step::new(item.name.clone(), Amount::number(cost, "", 2))
                .working(working)
                .brings(Amount::number(sum, "", 2)),
        );
    }
    Ok(figure.map(|_| sum))
}

/// Reads what goes into a print: `palladium 24 drops at 90 per 25 ml, paper 1 at 200 per 25`. Drops are
/// turned into millilitres where a price is per volume.
///
/// # Errors
/// If a part is not written so.
pub fn read_items(text: &str, drops_per_ml: f64) -> Result<Vec<Item>, Impossible> {
    let parts = text.split([',', ';', '\n']).map(str::trim);
    parts
        .filter(|part| !part.is_empty())
        .map(|part| {
            read_item(part, drops_per_ml).ok_or_else(|| {
                Impossible::new(format!(
                    "\"{part}\" is no part with a price: write palladium 24 drops at 90 per 25 ml, or \
                     paper 1 at 200 per 25"
                ))
            })
        })
        .collect()
}

fn read_item(text: &str, drops_per_ml: f64) -> Option<Item> {
    let (what, sold) = text.split_once(" at ")?;
    let (price, per) = match sold.split_once(" per ") {
        Some((price, per)) => (price, per.trim()),
        None => (sold, "1"),
    };
    let price = number(price.trim()).ok()?;
    let (name, amount) = name_and_amount(what.trim())?;
    // A volume is written with its unit; anything else is counted.
    let (amount, per) = match (number(per), Millilitres::parse(per)) {
        (Ok(per), _) => (counted(amount)?, per),
        (Err(_), Ok(per)) => (volume(amount, drops_per_ml)?, per.value()),
        (Err(_), Err(_)) => {
            let (count, unit) = per.split_once(char::is_whitespace)?;
            let (amount, of) = amount.split_once(char::is_whitespace)?;
            let plural = |word: &str| word.trim().trim_end_matches('s').to_lowercase();
            if plural(unit) != plural(of) {
                return None;
            }
            (number(amount).ok()?, number(count).ok()?)
        }
    };
    Some(Item {
        name: name.to_owned(),
        amount,
        price,
        per,
    })
}

/// `palladium 24 drops` parted where its first number begins.
fn name_and_amount(text: &str) -> Option<(&str, &str)> {
    let at = text
        .char_indices()
        .find(|(at, c)| c.is_ascii_digit() && text.get(..*at).is_some_and(|it| it.ends_with(' ')))?
        .0;
    let (name, amount) = text.split_at_checked(at)?;
    let name = name.trim();
    (!name.is_empty()).then_some((name, amount.trim()))
}

/// Drops or a volume, in millilitres.
fn volume(text: &str, drops_per_ml: f64) -> Option<f64> {
    let bare = ["drops", "drop"]
        .into_iter()
        .find_map(|unit| text.strip_suffix(unit));
    match bare {
        Some(drops) => Some(number(drops.trim()).ok()? / drops_per_ml),
        None => Some(Millilitres::parse(text).ok()?.value()),
    }
}

/// A plain count, `1` or `1/4`; a word behind it is left aside.
fn counted(text: &str) -> Option<f64> {
    let bare = text.trim_end_matches(|c: char| c.is_alphabetic() || c == ' ');
    number(bare).ok()
}

/// A bottle and what a print takes out of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Stock {
    /// What is in it.
    pub name: String,
    /// What is left in it, in millilitres.
    pub ml: f64,
    /// What a print takes, in millilitres.
    pub takes: f64,
}

/// What some prints leave in the bottles.
#[derive(Debug, Clone, PartialEq)]
pub struct Left {
    /// Bottle by bottle: what is left in millilitres (never less than nothing), and the whole prints that
    /// makes.
    pub bottles: Vec<(String, f64, f64)>,
    /// The whole prints that can still be made of all of them.
    pub prints: f64,
}

/// What is left after so many prints, and how many more it makes.
///
/// # Errors
/// If there is no bottle, the prints need more than there is, or a number cannot be.
pub fn left_after(stocks: &[Stock], prints: f64) -> Result<Figure<Left>, Impossible> {
    let prints = within("a number of prints", prints, 0.0..=1e6, "")?;
    let mut bottles = Vec::new();
    let mut figure = Figure::new((), Grounds::own("the bottles as typed"));
    let mut first: Option<(f64, &str)> = None;
    for stock in stocks {
        let has = within("a bottle", stock.ml, 0.0..=1e6, "ml")?;
        let takes = within("what a print takes", stock.takes, 0.0..=1e5, "ml")?;
        let used = takes * prints;
        if used > has * (1.0 + 1e-9) {
            return Err(Impossible::new(format!(
                "{} prints take {} ml of {} and there are {} ml: it makes {}",
                four(prints),
                four(used),
                stock.name,
                four(has),
                (has / takes).floor()
            )));
        }
        let left = (has - used).max(0.0);
        let working = format!("{} - {} x {}", four(has), four(prints), four(takes));
        figure = figure
            .step(Step::new(stock.name.clone(), Amount::number(left, "ml", 2)).working(working));
        if takes > 0.0 {
            let more = (left / takes + 1e-9).floor();
            if first.is_none_or(|(fewest, _)| more < fewest) {
                first = Some((more, &stock.name));
            }
            bottles.push((stock.name.clone(), left, more));
        }
    }
    let Some((prints, name)) = first else {
        return Err(Impossible::new(
            "nothing is taken from a bottle: name the bottles and what a print takes of each",
        ));
    };
    let figure = figure.remark(Concern::Note, format!("{name} runs out first"));
    Ok(figure.map(|()| Left { bottles, prints }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_and_prices_are_read_in_drops_volumes_and_pieces() {
        let text = "palladium 24 drops at 90 per 25 ml, iron A 14 drops at 20 per 50 ml; paper 1/4 at \
                    8, platine 1 sheet at 200 per 25 sheets";
        let items = read_items(text, 20.0).unwrap();
        let names: Vec<&str> = items.iter().map(|it| it.name.as_str()).collect();
        assert_eq!(names, ["palladium", "iron A", "paper", "platine"]);
        assert!((items[0].amount - 1.2).abs() < 1e-9);
        let sum = of_a_print(&items).unwrap().value;
        assert!((sum - (4.32 + 0.28 + 2.0 + 8.0)).abs() < 1e-9, "{sum}");
    }

    #[test]
    fn what_has_no_price_is_refused() {
        for text in [
            "paper",
            "paper at 8",
            "1 at 8",
            "paper 1 at x",
            "paper 2 sheets at 8 per 4 ml",
        ] {
            assert!(read_items(text, 20.0).is_err(), "{text}");
        }
        assert!(of_a_print(&[]).is_err());
    }

    #[test]
    fn what_runs_out_first_ends_the_printing() {
        let stock = |name: &str, ml, takes| Stock {
            name: name.to_owned(),
            ml,
            takes,
        };
        let stocks = [stock("palladium", 25.0, 1.2), stock("iron", 50.0, 1.2)];
        let figure = left_after(&stocks, 5.0).unwrap();
        assert_eq!(figure.value.prints, 15.0);
        assert_eq!(figure.remarks[0].words, "palladium runs out first");
        let why = left_after(&stocks, 30.0).unwrap_err().to_string();
        assert!(why.contains("it makes 20"), "{why}");
        assert!(left_after(&[stock("water", 10.0, 0.0)], 1.0).is_err());
    }
}
