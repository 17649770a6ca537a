//! What can be pressed, declared once.
//!
//! Dispatch, hints, the help page, the key table of the documentation and the check of the user's
//! own keys all come from [`ACTIONS`]. Keys that log something for the thing at hand are offered
//! exactly when its life allows it.

use super::App;
use crate::logbook::Kind;
use crate::tui::actions::{Action, Availability, Place};
use crate::tui::widgets::grid::Way;
use crate::tui::widgets::listing::Step;

/// The list of sheets and its timelines.
pub const SHEETS: Place = Place::screen("sheets");
/// The rack.
pub const RACK: Place = Place::screen("rack");
/// The list of prints and its timelines.
pub const PRINTS: Place = Place::screen("prints");
/// The shelf.
pub const SHELF: Place = Place::screen("shelf");
/// The words that narrow a list.
pub const FIND: Place = Place::overlay("find").with_typing();
/// An entry pane.
pub const PANE: Place = Place::overlay("entry pane").with_typing();
/// The question why an entry is struck.
pub const REASON: Place = Place::overlay("reason").with_typing();
/// The search over everything.
pub const SEARCH: Place = Place::overlay("search").with_typing();
/// The road behind a thing.
pub const ROAD: Place = Place::overlay("road");
/// A choice.
pub const CHOICE: Place = Place::overlay("choice");
/// The help page.
pub const HELP: Place = Place::overlay("help").with_typing();
/// The question whether to leave.
pub const LEAVE: Place = Place::overlay("leave");
/// The first words on a new logbook.
pub const WELCOME: Place = Place::overlay("welcome").with_typing();

const LISTS: &[Place] = &[SHEETS, PRINTS, SHELF];
const SCREENS: &[Place] = &[SHEETS, RACK, PRINTS, SHELF];

/// What the application does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Act {
    /// Open a screen, by its number from the left.
    Screen(usize),
    /// Move the cursor.
    Move(Step),
    /// Move to the neighbouring side of the rack.
    Side(Way),
    /// Go from the list to the timeline or back.
    Half(bool),
    /// Go to the next board of the shelf.
    Board(isize),
    /// Go to the next side that waits, or the next empty one.
    NextWaiting,
    /// Go to the next empty side.
    NextEmpty,
    /// Choose what comes next for the thing at hand, or follow the entry at hand.
    Open,
    /// Choose something new.
    New,
    /// Open the pane of one kind for the thing at hand.
    Log(Kind),
    /// Choose how a doubt is resolved.
    Resolve,
    /// Strike the entry at hand.
    Strike,
    /// Amend the entry at hand.
    Amend,
    /// Strike the last act.
    Undo,
    /// Show the road behind the thing at hand.
    Road,
    /// Turn round on the road.
    Turn,
    /// Type words that narrow the list.
    Find,
    /// Search the whole logbook.
    Search,
    /// Show what was typed and not logged.
    Drafts,
    /// Show the keys.
    Help,
    /// Change the theme.
    Theme,
    /// Confirm what is open.
    Confirm,
    /// Close what is open.
    Close,
    /// Log it all the same.
    Override,
    /// Throw the draft away.
    Clear,
    /// Give the terminal back to the shell for a while.
    Suspend,
    /// Leave the program.
    Quit,
}

const fn yes(_: &App) -> Availability {
    Availability::Yes
}

const fn action(
    id: &'static str,
    act: Act,
    places: &'static [Place],
    keys: &'static [&'static str],
    label: &'static str,
    sentence: &'static str,
    group: &'static str,
    rank: u8,
) -> Action<App, Act> {
    Action {
        id,
        act,
        places,
        keys,
        label,
        sentence,
        group,
        rank,
        when: yes,
    }
}

/// An action that logs a kind of entry for the thing at hand.
macro_rules! logs {
    ($id:literal, $kind:ident, $key:literal, $label:literal, $sentence:literal, $rank:literal) => {
        Action {
            id: $id,
            act: Act::Log(Kind::$kind),
            places: SCREENS,
            keys: &[$key],
            label: $label,
            sentence: $sentence,
            group: "log for the thing at hand",
            rank: $rank,
            when: |app| app.can_log(Kind::$kind),
        }
    };
}

const GO: &str = "go";
const LOG: &str = "log";
const SEE: &str = "see and mend";
const HERE: &str = "here";

/// Every action.
pub static ACTIONS: &[Action<App, Act>] = &[
    action(
        "help",
        Act::Help,
        &[Place::GLOBAL],
        &["?", "f1"],
        "keys",
        "Show every key that works here.",
        GO,
        0,
    ),
    action(
        "sheets",
        Act::Screen(0),
        &[Place::GLOBAL],
        &["1"],
        "sheets",
        "Go to the sheets.",
        GO,
        60,
    ),
    action(
        "rack",
        Act::Screen(1),
        &[Place::GLOBAL],
        &["2"],
        "rack",
        "Go to the rack of holders.",
        GO,
        60,
    ),
    action(
        "prints",
        Act::Screen(2),
        &[Place::GLOBAL],
        &["3"],
        "prints",
        "Go to the prints.",
        GO,
        60,
    ),
    action(
        "shelf",
        Act::Screen(3),
        &[Place::GLOBAL],
        &["4"],
        "shelf",
        "Go to the shelf: boxes, papers, baths, lenses, cameras, runs, sets.",
        GO,
        60,
    ),
    action(
        "next",
        Act::Open,
        SCREENS,
        &["enter"],
        "next entry",
        "Choose what comes next for the thing at hand; on a timeline, follow the entry to what it touches.",
        LOG,
        1,
    ),
    action(
        "new",
        Act::New,
        SCREENS,
        &["n"],
        "new",
        "Log something new: a box, a holder, a lens, a camera, a paper, a bath.",
        LOG,
        9,
    ),
    logs!(
        "log.expose",
        Exposed,
        "e",
        "expose",
        "Log an exposure, prefilled from the last one.",
        2
    ),
    logs!("log.load", Loaded, "l", "load", "Load a sheet.", 2),
    logs!(
        "log.unload",
        Unloaded,
        "u",
        "unload",
        "Unload the sheet.",
        5
    ),
    logs!(
        "log.slide",
        SlideSeen,
        "b",
        "slide",
        "Report whether the bright or the dark side of the slide is outwards.",
        6
    ),
    logs!(
        "log.develop",
        RunBegun,
        "d",
        "develop",
        "Begin a development run with this sheet.",
        3
    ),
    logs!("log.end-run", RunEnded, "E", "end run", "End the run.", 3),
    logs!(
        "log.measure",
        Measured,
        "m",
        "measure",
        "Log densities of the negative.",
        3
    ),
    logs!("log.file", Filed, "f", "file", "File the negative.", 4),
    logs!(
        "log.print",
        PrintBegun,
        "p",
        "print",
        "Begin a print from this negative.",
        3
    ),
    logs!(
        "log.step",
        PrintStep,
        "c",
        "step",
        "Log the next step of the print's process.",
        2
    ),
    logs!(
        "log.place",
        Placed,
        "w",
        "where",
        "Log where the print goes.",
        5
    ),
    logs!(
        "log.note",
        Noted,
        "o",
        "note",
        "Write a note on the thing at hand.",
        12
    ),
    Action {
        id: "resolve",
        act: Act::Resolve,
        places: SCREENS,
        keys: &["v"],
        label: "resolve",
        sentence: "Find out which entry was missed on a side in doubt.",
        group: LOG,
        rank: 1,
        when: |app| app.can_resolve(),
    },
    action(
        "up",
        Act::Move(Step::Up(1)),
        SCREENS,
        &["up", "k"],
        "up",
        "Move up.",
        GO,
        90,
    ),
    action(
        "down",
        Act::Move(Step::Down(1)),
        SCREENS,
        &["down", "j"],
        "down",
        "Move down.",
        GO,
        90,
    ),
    action(
        "page-up",
        Act::Move(Step::PageUp),
        SCREENS,
        &["pgup"],
        "page up",
        "Move one page up.",
        GO,
        90,
    ),
    action(
        "page-down",
        Act::Move(Step::PageDown),
        SCREENS,
        &["pgdn"],
        "page down",
        "Move one page down.",
        GO,
        90,
    ),
    action(
        "first",
        Act::Move(Step::First),
        SCREENS,
        &["home", "g g"],
        "first",
        "Go to the first line.",
        GO,
        90,
    ),
    action(
        "last",
        Act::Move(Step::Last),
        SCREENS,
        &["end", "G"],
        "last",
        "Go to the last line.",
        GO,
        90,
    ),
    action(
        "timeline",
        Act::Half(true),
        LISTS,
        &["right", "tab"],
        "timeline",
        "Go to the timeline of the thing at hand.",
        GO,
        30,
    ),
    action(
        "list",
        Act::Half(false),
        LISTS,
        &["left", "backtab", "h"],
        "list",
        "Go back to the list.",
        GO,
        91,
    ),
    action(
        "side.next",
        Act::Side(Way::Right),
        &[RACK],
        &["right", "tab"],
        "next side",
        "Go to the next side.",
        GO,
        90,
    ),
    action(
        "side.previous",
        Act::Side(Way::Left),
        &[RACK],
        &["left", "backtab", "h"],
        "side before",
        "Go to the side before.",
        GO,
        90,
    ),
    action(
        "side.exposed",
        Act::NextWaiting,
        &[RACK],
        &["."],
        "exposed",
        "Go to the next exposed side.",
        GO,
        40,
    ),
    action(
        "side.empty",
        Act::NextEmpty,
        &[RACK],
        &[","],
        "empty",
        "Go to the next empty side.",
        GO,
        40,
    ),
    action(
        "board.next",
        Act::Board(1),
        &[SHELF],
        &["]"],
        "next board",
        "Go to the next board of the shelf.",
        GO,
        10,
    ),
    action(
        "board.previous",
        Act::Board(-1),
        &[SHELF],
        &["["],
        "board before",
        "Go to the board before.",
        GO,
        92,
    ),
    action(
        "find",
        Act::Find,
        LISTS,
        &["/"],
        "find",
        "Narrow the list by words, as you type.",
        SEE,
        20,
    ),
    action(
        "search",
        Act::Search,
        &[Place::GLOBAL],
        &["s"],
        "search",
        "Search every entry of the logbook, as you type.",
        SEE,
        21,
    ),
    Action {
        id: "road",
        act: Act::Road,
        places: SCREENS,
        keys: &["t"],
        label: "trace",
        sentence: "Show the road back from the thing at hand: everything it came from; tab shows what came of it.",
        group: SEE,
        rank: 15,
        when: |app| app.has_thing(),
    },
    Action {
        id: "strike",
        act: Act::Strike,
        places: LISTS,
        keys: &["x"],
        label: "strike",
        sentence: "Strike the entry at hand, with a reason; the line stays legible.",
        group: SEE,
        rank: 16,
        when: |app| app.has_entry(),
    },
    Action {
        id: "amend",
        act: Act::Amend,
        places: LISTS,
        keys: &["a"],
        label: "amend",
        sentence: "Amend the figures of the entry at hand, with a reason; the old ones stay legible.",
        group: SEE,
        rank: 17,
        when: |app| app.has_entry(),
    },
    action(
        "undo",
        Act::Undo,
        &[Place::GLOBAL],
        &["z", "ctrl-z"],
        "undo",
        "Strike what was logged last.",
        SEE,
        22,
    ),
    Action {
        id: "drafts",
        act: Act::Drafts,
        places: &[Place::GLOBAL],
        keys: &["D"],
        label: "drafts",
        sentence: "Show what was typed and not logged.",
        group: SEE,
        rank: 8,
        when: |app| app.has_drafts(),
    },
    action(
        "theme",
        Act::Theme,
        &[Place::GLOBAL],
        &["T"],
        "theme",
        "Change the theme: plain, dark, safelight.",
        HERE,
        70,
    ),
    action(
        "suspend",
        Act::Suspend,
        &[Place::GLOBAL],
        &["ctrl-q"],
        "shell",
        "Give the terminal back to the shell until the program is called again.",
        HERE,
        95,
    ),
    action(
        "quit",
        Act::Quit,
        &[Place::GLOBAL],
        &["q", "ctrl-c"],
        "quit",
        "Leave.",
        HERE,
        25,
    ),
    action(
        "pane.log",
        Act::Confirm,
        &[PANE],
        &["enter", "ctrl-s"],
        "log it",
        "Log what is typed.",
        HERE,
        1,
    ),
    action(
        "pane.close",
        Act::Close,
        &[PANE],
        &["esc"],
        "keep draft",
        "Close the pane and keep what was typed.",
        HERE,
        3,
    ),
    Action {
        id: "pane.override",
        act: Act::Override,
        places: &[PANE],
        keys: &["ctrl-o"],
        label: "all the same",
        sentence: "Log it against the usual order, with a reason.",
        group: HERE,
        rank: 2,
        when: |app| app.can_override(),
    },
    action(
        "pane.clear",
        Act::Clear,
        &[PANE],
        &["ctrl-x"],
        "clear",
        "Throw away what is typed here.",
        HERE,
        20,
    ),
    action(
        "pane.help",
        Act::Help,
        &[PANE, SEARCH, FIND, REASON, WELCOME],
        &["f1"],
        "keys",
        "Show every key that works here.",
        HERE,
        0,
    ),
    action(
        "find.keep",
        Act::Confirm,
        &[FIND],
        &["enter", "down"],
        "to the list",
        "Keep the words and go to the list.",
        HERE,
        1,
    ),
    action(
        "find.end",
        Act::Close,
        &[FIND],
        &["esc"],
        "show all",
        "Take the words away and show everything again.",
        HERE,
        2,
    ),
    action(
        "reason.strike",
        Act::Confirm,
        &[REASON],
        &["enter"],
        "strike",
        "Strike it, with this reason.",
        HERE,
        1,
    ),
    action(
        "reason.leave",
        Act::Close,
        &[REASON],
        &["esc"],
        "leave it",
        "Leave the entry as it is.",
        HERE,
        2,
    ),
    action(
        "search.go",
        Act::Confirm,
        &[SEARCH],
        &["enter"],
        "go there",
        "Go to the thing the entry is about.",
        HERE,
        1,
    ),
    action(
        "search.close",
        Act::Close,
        &[SEARCH],
        &["esc"],
        "close",
        "Close the search.",
        HERE,
        2,
    ),
    action(
        "road.go",
        Act::Confirm,
        &[ROAD],
        &["enter"],
        "go there",
        "Go to the thing under the cursor.",
        HERE,
        1,
    ),
    action(
        "road.turn",
        Act::Turn,
        &[ROAD],
        &["tab"],
        "turn round",
        "Show what came of it instead, and back.",
        HERE,
        2,
    ),
    action(
        "road.close",
        Act::Close,
        &[ROAD],
        &["esc", "q", "t"],
        "close",
        "Close the road.",
        HERE,
        3,
    ),
    action(
        "road.up",
        Act::Move(Step::Up(1)),
        &[ROAD],
        &["up", "k"],
        "up",
        "Move up.",
        HERE,
        90,
    ),
    action(
        "road.down",
        Act::Move(Step::Down(1)),
        &[ROAD],
        &["down", "j"],
        "down",
        "Move down.",
        HERE,
        90,
    ),
    action(
        "road.page-up",
        Act::Move(Step::PageUp),
        &[ROAD],
        &["pgup"],
        "page up",
        "Move up by a few things.",
        HERE,
        90,
    ),
    action(
        "road.page-down",
        Act::Move(Step::PageDown),
        &[ROAD],
        &["pgdn"],
        "page down",
        "Move down by a few things.",
        HERE,
        90,
    ),
    action(
        "choice.close",
        Act::Close,
        &[CHOICE],
        &["esc"],
        "close",
        "Close the choice.",
        HERE,
        2,
    ),
    action(
        "help.close",
        Act::Close,
        &[HELP],
        &["esc", "f1"],
        "close",
        "Close the keys.",
        HERE,
        1,
    ),
    action(
        "leave.yes",
        Act::Confirm,
        &[LEAVE],
        &["y", "enter"],
        "leave",
        "Leave; what was typed is kept.",
        HERE,
        1,
    ),
    action(
        "leave.no",
        Act::Close,
        &[LEAVE],
        &["n", "esc"],
        "stay",
        "Stay.",
        HERE,
        2,
    ),
    action(
        "welcome.set-up",
        Act::Confirm,
        &[WELCOME],
        &["enter", "ctrl-s"],
        "set up",
        "Set up what is filled in.",
        HERE,
        1,
    ),
    action(
        "welcome.skip",
        Act::Close,
        &[WELCOME],
        &["esc"],
        "skip",
        "Begin with an empty logbook.",
        HERE,
        2,
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_has_no_faults() {
        let faults = crate::tui::actions::faults(ACTIONS);
        assert!(faults.is_empty(), "{}", faults.join("\n"));
    }
}
