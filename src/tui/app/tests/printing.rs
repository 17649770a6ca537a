//! The choice of a process in the pane of a print, among all there are.

use crate::logbook::Kind;
use crate::reference::Reference;
use crate::tui::app::stand::Stand;

/// The pane of a print from a negative, with letters typed for its process.
fn print_by(letters: &str) -> Stand {
    let mut stand = Stand::demo();
    // Wide enough for the longest name.
    stand.resize(160, 50);
    stand.press("1 /");
    stand.type_text("S-0050");
    stand.press("enter p");
    stand.fill("process", letters);
    stand
}

#[test]
fn a_few_letters_choose_a_process_among_all() {
    for (letters, name) in [
        ("gum", "Gum bichromate"),
        ("carb", "Carbon transfer"),
        ("kall", "Kallitype"),
        ("salt", "Salted paper"),
        ("albu", "Albumen"),
        ("cyan", "Cyanotype"),
        ("new", "New cyanotype"),
        ("van", "Van Dyke brown"),
        ("platinum", "Platinum/palladium"),
        ("print-out", "Print-out platinum/palladium"),
        ("enl", "Silver gelatin, enlarged"),
    ] {
        let mut stand = print_by(letters);
        stand.shows(name);
        stand.press("tab");
        let text = stand.text();
        let line = text.lines().find(|line| line.contains("process"));
        let line = line.unwrap_or_default();
        assert!(line.contains(name), "{letters}: {line}");
    }
}

#[test]
fn every_process_is_reached_by_stepping_to_the_right_and_its_cautions_come_first() {
    let mut stand = print_by("");
    let reference = Reference::on_demand();
    let processes = reference.processes();
    let mut seen = Vec::new();
    for _ in processes {
        stand.press("right");
        let text = stand.text();
        let fits = |name: &&String| text.contains(name.as_str());
        let shown: Vec<&String> = processes.iter().map(|it| &it.name).filter(fits).collect();
        // The longest name is the one that stands there: others may be part of it.
        seen.extend(shown.into_iter().max_by_key(|name| name.len()).cloned());
        assert!(!text.contains("panic"), "{text}");
    }
    seen.sort();
    seen.dedup();
    assert_eq!(seen.len(), processes.len(), "{seen:?}");
}

#[test]
fn a_print_of_a_new_process_is_begun_and_its_coat_shows_the_recipe() {
    let mut stand = print_by("carb");
    stand.press("enter");
    stand.shows("carbon");
    let id = stand.app.at_hand().map(|life| life.reference.clone());
    stand.log(
        Kind::PrintStep,
        &[("print", &id.unwrap_or_default()), ("step", "coat")],
    );
    stand.press("c");
    stand.shows("dry-coating");
}
