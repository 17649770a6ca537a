//! What a placement says in words: the development it asks for, and what does not fit.

use super::{
    Concern, Figure, MOST, Placement, TOLERANCE, WHITE, brought_to_white, trimmed, zone_name,
};

/// The short name of a development: `N`, `N-1`, `N+0.4`.
#[must_use]
pub fn development_name(n: f64) -> String {
    let tenths = (n * 10.0).round() / 10.0;
    if tenths == 0.0 {
        "N".to_owned()
    } else {
        let sign = if tenths > 0.0 { '+' } else { '-' };
        format!("N{sign}{}", trimmed(tenths.abs(), 1))
    }
}

/// A development in plain words: `develop normally`, `develop a little less, N-0.2`.
///
/// ```
/// use notchbook::craft::zones::development_words;
/// assert_eq!(development_words(0.0), "develop normally");
/// assert_eq!(development_words(-0.2), "develop a little less, N-0.2");
/// assert_eq!(development_words(1.0), "develop more, N+1");
/// ```
#[must_use]
pub fn development_words(n: f64) -> String {
    let name = development_name(n);
    if name == "N" {
        return "develop normally".to_owned();
    }
    let way = if n > 0.0 { "more" } else { "less" };
    let amount = match n.abs() {
        size if size < 0.55 => "a little ",
        size if size < 1.55 => "",
        _ => "much ",
    };
    let compromise = if n.abs() > MOST + 1e-9 {
        ": more than development does well, so a compromise is needed"
    } else {
        ""
    };
    format!("develop {amount}{way}, {name}{compromise}")
}

/// The placement with everything that is to be said about it.
pub(super) fn remarks(mut figure: Figure<Placement>) -> Figure<Placement> {
    let placement = &figure.value;
    let mut said: Vec<(Concern, String)> = Vec::new();
    for conflict in &placement.conflicts {
        let Some(fall) = placement.falls.get(conflict.reading) else {
            continue;
        };
        let called = fall.reading.called();
        let wanted = fall
            .reading
            .zone
            .map_or_else(String::new, |zone| zone.to_string());
        let mut words = format!(
            "{called} falls on {}, {} {} the {wanted} it is wanted on",
            zone_name(fall.zone),
            zones(conflict.off),
            side(conflict.off)
        );
        match (conflict.after, placement.development) {
            (Some(after), Some(n)) if after.abs() <= TOLERANCE + 1e-9 => {
                words.push_str(&format!("; {} brings it there", development_name(n)));
            }
            (Some(after), Some(n)) => words.push_str(&format!(
                "; with {} it would lie {} {}: no development gives both, so let one go",
                development_name(n),
                zones(after),
                side(after)
            )),
            _ => words.push_str("; development cannot part them, so let one go"),
        }
        said.push((Concern::Warning, words));
    }
    if let Some(n) = placement.development {
        let compromise = n.abs() > MOST + 1e-9;
        if compromise {
            said.push((
                Concern::Warning,
                format!(
                    "{} is more than development alone does well: place the shadow lower or let the \
                     light areas go, and leave the rest to the print",
                    development_name(n)
                ),
            ));
        }
        if n.abs() >= TOLERANCE {
            let top = placement
                .falls
                .iter()
                .filter_map(|fall| fall.reading.zone)
                .fold(0.0, |top: f64, zone| top.max(zone.value()));
            let pivot = if (top - WHITE).abs() < TOLERANCE {
                String::new()
            } else {
                format!(
                    "; counted here from {}, the highest placed, while the name usually means VIII \
                     (D. Kachel, 1995)",
                    zone_name(top)
                )
            };
            said.push((
                Concern::Note,
                format!(
                    "{} gives what is exposed on {} the density of VIII{pivot}",
                    development_name(n),
                    zone_name(brought_to_white(n))
                ),
            ));
        }
    }
    for (concern, words) in said {
        figure = figure.remark(concern, words);
    }
    figure
}

fn zones(off: f64) -> String {
    let size = trimmed(off.abs(), 1);
    format!("{size} {}", if size == "1" { "zone" } else { "zones" })
}

fn side(off: f64) -> &'static str {
    if off > 0.0 { "above" } else { "below" }
}
