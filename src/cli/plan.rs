//! `plan`: what to develop next, in what, for how long, and whether there is enough for it.

use clap::{Arg, ArgMatches, Command};
use serde_json::{Value, json};

use super::answer::Answer;
use super::open::{Desk, Open};
use super::table::{Table, labelled};
use super::trouble::{BadFlag, Trouble};
use super::words::typed;
use crate::craft::{Celsius, Step};
use crate::export::columns::in_columns;
use crate::figures;
use crate::logbook::planning::{Bath, Group, Need, Plan, Sheet, Wanted, developer_of, plan};
use crate::logbook::{Deed, Kind, OwnKit};

/// `plan`
pub(super) fn command() -> Command {
    let flag = |name: &'static str, value: &'static str, help: &'static str| {
        Arg::new(name)
            .long(name)
            .value_name(value)
            .allow_hyphen_values(true)
            .help(help)
    };
    Command::new("plan")
        .about("Plan the development of all sheets that wait")
        .long_about(
            "Plan the development of all sheets that wait: groups that can go together with their times, \
             the runs the vessel needs, the time on the clock, and the solutions against what the shelf \
             has. Without flags vessel and developer are those of the last run.",
        )
        .after_help(
            "Example:\n  notchbook plan --vessel \"4 of 4x5, 1000 ml\" --developer \"DD-X 1+4\" --temperature 20C",
        )
        .arg(flag(
            "vessel",
            "VESSEL",
            "A vessel of the reference, tray 8x10, or what yours takes, \"4 of 4x5, 1000 ml\"",
        ))
        .arg(flag(
            "developer",
            "DEVELOPER",
            "A bath of the shelf, B-0012, or a developer with its dilution, \"DD-X 1+4\"",
        ))
        .arg(flag(
            "temperature",
            "TEMPERATURE",
            "The temperature of the developer [usually 20 C]",
        ))
}

/// Plans.
pub(super) fn run(desk: &mut Desk<'_>, flags: &ArgMatches) -> Result<Answer, Trouble> {
    desk.with_logbook(|open| {
        let shelf = open.store.shelf()?;
        let wanted = wanted(&open, &shelf, flags)?;
        let sheets = open.store.waiting(open.reference)?;
        let kit = OwnKit::new(&*open.store);
        let at = figures::Desk::new(open.reference, &kit, open.world.now());
        let made = plan(sheets, &shelf, wanted, &at);
        Ok(answer(&made))
    })
}

fn bad(flag: &str, message: impl Into<String>) -> Trouble {
    Trouble::Unreadable(vec![BadFlag {
        flag: format!("--{flag}"),
        problem: message.into(),
    }])
}

fn wanted(open: &Open<'_>, shelf: &[Bath], flags: &ArgMatches) -> Result<Wanted, Trouble> {
    let last = match open.store.last_similar(Kind::RunBegun, None)? {
        Some(Deed::RunBegun(run)) => Some(run),
        _ => None,
    };
    let vessel = typed(flags, "vessel").or_else(|| last.as_ref()?.vessel.clone());
    let Some(vessel) = vessel else {
        let says =
            "say in what: a vessel of the reference such as tray 8x10, or \"4 of 4x5, 1000 ml\"";
        return Err(bad("vessel", says));
    };
    let (vessel, vessel_on) =
        Wanted::vessel(&vessel, open.reference).map_err(|why| bad("vessel", why))?;
    let developer =
        typed(flags, "developer").or_else(|| developer_of(last.as_ref()?, shelf, &*open.store));
    let Some(developer) = developer else {
        let says = "say in which developer: a bath such as B-0012, or \"DD-X 1+4\"";
        return Err(bad("developer", says));
    };
    let temperature = typed(flags, "temperature").unwrap_or_default();
    if !temperature.trim().is_empty() {
        Celsius::parse(&temperature).map_err(|why| bad("temperature", why.to_string()))?;
    }
    let (developer, dilution) = Wanted::developer(&developer, shelf);
    Ok(Wanted {
        vessel,
        vessel_on,
        developer,
        dilution,
        temperature,
    })
}

fn answer(plan: &Plan) -> Answer {
    let mut answer = Answer::default();
    let dilution = plan
        .wanted
        .dilution
        .map(|it| format!(" {it}"))
        .unwrap_or_default();
    answer.line(format!(
        "{}{dilution}; {}",
        plan.wanted.developer, plan.wanted.vessel
    ));
    if plan.groups.is_empty() {
        answer.line("no sheet waits for development");
    }
    for group in &plan.groups {
        answer.line("");
        answer.words.push_str(&group_in_words(group));
    }
    for (sheet, why) in &plan.left_out {
        answer.line(format!("{sheet} is left out: {why}"));
    }
    if let Some(clock) = &plan.clock {
        answer.line("");
        answer.line(format!(
            "{} in all, {} on the clock",
            runs(plan.runs),
            clock.value
        ));
        answer.words.push_str(&steps(&clock.steps));
    }
    if !plan.needs.is_empty() {
        answer.line("");
        let mut table = Table::new(&["solution", "needed", "on the shelf", "to mix", "of stock"]);
        for need in &plan.needs {
            table.row(need_cells(need));
        }
        answer.words.push_str(&table.lines());
        for need in &plan.needs {
            answer.line("");
            answer.line(&need.name);
            answer.words.push_str(&steps(&need.steps));
            for note in &need.notes {
                answer.line(format!("  {note}"));
            }
        }
    }
    answer
        .with("developer", plan.wanted.developer.as_str())
        .with("dilution", plan.wanted.dilution.map(|it| it.to_string()))
        .with("vessel", plan.wanted.vessel.to_string())
        .with("groups", plan.groups.iter().map(group_document).collect::<Vec<_>>())
        .with(
            "left_out",
            plan.left_out
                .iter()
                .map(|(sheet, why)| json!({ "sheet": sheet, "why": why }))
                .collect::<Vec<_>>(),
        )
        .with("runs", plan.runs)
        .with(
            "clock",
            plan.clock.as_ref().map(|clock| {
                json!({ "seconds": clock.value.value(), "text": clock.value.to_string(), "steps": clock.steps })
            }),
        )
        .with("needs", plan.needs.iter().map(need_document).collect::<Vec<_>>())
}

fn runs(count: usize) -> String {
    match count {
        1 => "1 run".to_owned(),
        count => format!("{count} runs"),
    }
}

fn ml(value: f64) -> String {
    format!("{value:.0} ml")
}

fn need_cells(need: &Need) -> [String; 5] {
    let lacks = if need.lacks > 0.0 {
        ml(need.lacks)
    } else {
        "enough".to_owned()
    };
    let stock = need.stock.filter(|stock| *stock > 0.0).map(ml);
    [
        named(need),
        ml(need.needed),
        ml(need.have),
        lacks,
        stock.unwrap_or_default(),
    ]
}

fn named(need: &Need) -> String {
    match need.dilution {
        Some(dilution) => format!("{} {dilution}", need.name),
        None => need.name.clone(),
    }
}

fn group_in_words(group: &Group) -> String {
    let size = group
        .size
        .map(|size| format!(" {size}"))
        .unwrap_or_default();
    let asked = group
        .asked
        .as_ref()
        .map(|asked| format!(", {asked}"))
        .unwrap_or_default();
    let mut text = match &group.time {
        Ok(reckoned) => format!(
            "{}{size}{asked}: {}, {}\n",
            group.film,
            reckoned.time,
            runs(group.runs.len())
        ),
        Err(why) => format!("{}{size}{asked}: no time. {why}\n", group.film),
    };
    let told: Vec<(String, String)> = group.sheets.iter().map(sheet_in_words).collect();
    text.push_str(&labelled(2, &told));
    for (at, run) in group
        .runs
        .iter()
        .enumerate()
        .filter(|_| group.runs.len() > 1)
    {
        text.push_str(&format!("  run {}: {}\n", at + 1, run.join(", ")));
    }
    if let Ok(reckoned) = &group.time {
        text.push_str(&steps(&reckoned.answer.steps));
        for remark in &reckoned.answer.remarks {
            text.push_str(&format!("  {}\n", remark.words));
        }
    }
    for note in &group.notes {
        text.push_str(&format!("  {note}\n"));
    }
    text
}

fn sheet_in_words(sheet: &Sheet) -> (String, String) {
    let parts = [
        sheet.side.clone(),
        sheet
            .waiting
            .wish
            .as_ref()
            .map(|wish| format!("asks for {}", wish.words)),
        sheet.subject.clone(),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    (sheet.reference().to_owned(), parts.join(", "))
}

/// Steps in columns: what, how much, what it brings, what it rests on.
fn steps(steps: &[Step]) -> String {
    let rows: Vec<Vec<String>> = steps
        .iter()
        .map(|step| {
            let brings = step.brings.as_ref().map(ToString::to_string);
            let standing = step
                .grounds
                .as_ref()
                .map(|it| it.standing.word().to_owned());
            vec![
                step.name.to_string(),
                step.amount.to_string(),
                brings.unwrap_or_default(),
                standing.unwrap_or_default(),
                step.working.clone(),
            ]
        })
        .collect();
    let lines = in_columns(&[], &rows, usize::MAX);
    lines
        .iter()
        .map(|line| format!("  {}\n", line.trim_end()))
        .collect()
}

fn group_document(group: &Group) -> Value {
    let time = group.time.as_ref().ok();
    json!({
        "film": group.film,
        "size": group.size.map(|size| size.to_string()),
        "contrast": group.asked.as_ref().map(ToString::to_string),
        "sheets": group.sheets.iter().map(|sheet| json!({
            "sheet": sheet.reference(),
            "side": sheet.side,
            "asks_for": sheet.waiting.wish.as_ref().map(|wish| wish.words.clone()),
            "subject": sheet.subject,
        })).collect::<Vec<_>>(),
        "seconds": time.map(|it| it.time.value()),
        "time": time.map(|it| it.time.to_string()),
        "no_time": group.time.as_ref().err(),
        "answer": time.map(|it| &it.answer),
        "runs": group.runs,
        "clock": group.clock.map(crate::craft::Seconds::value),
        "notes": group.notes,
    })
}

fn need_document(need: &Need) -> Value {
    json!({
        "for": need.purpose.word(),
        "name": need.name,
        "dilution": need.dilution.map(|it| it.to_string()),
        "needed": need.needed,
        "on_the_shelf": need.have,
        "to_mix": need.lacks,
        "of_stock": need.stock,
        "unit": "ml",
        "steps": need.steps,
        "notes": need.notes,
    })
}
