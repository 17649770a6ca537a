//! What can be pressed, declared once.
//!
//! Dispatch, hints, the help page, the key table of the documentation and the check of the user's
//! own keys all come from [`ACTIONS`]. Keys that log something for the thing at hand are offered
//! exactly when its life allows it.

use super::App;
use super::at_the_bench::BenchKey;
use crate::logbook::Kind;
use crate::tui::actions::{Action, Availability, Place};
use crate::tui::overlays::clock::ClockKey;
use crate::tui::widgets::grid::Way;
use crate::tui::widgets::listing::Step;

/// The list of sheets and its timelines.
pub const SHEETS: Place = Place::screen("sheets");
/// The rack.
pub const RACK: Place = Place::screen("rack");
/// The bench with its clocks.
pub const BENCH: Place = Place::screen("bench");
/// The list of prints and its timelines.
pub const PRINTS: Place = Place::screen("prints");
/// The shelf.
pub const SHELF: Place = Place::screen("shelf");
/// The curves.
pub const CURVES: Place = Place::screen("curves");
/// A timeline that has the focus; the keys of its screen work as well.
pub const STRIP: Place = Place::screen("timeline");
/// The words that narrow a list.
pub const FIND: Place = Place::overlay("find").with_typing();
/// An entry pane.
pub const PANE: Place = Place::overlay("entry pane").with_typing();
/// A pane in which a figure is reckoned.
pub const RECKON: Place = Place::overlay("reckoning").with_typing();
/// The question why an entry is struck.
pub const REASON: Place = Place::overlay("reason").with_typing();
/// The search over everything.
pub const SEARCH: Place = Place::overlay("search").with_typing();
/// What to develop next.
pub const PLAN: Place = Place::overlay("plan");
/// What it is planned with.
pub const PLAN_ASKS: Place = Place::overlay("plan, its fields").with_typing();
/// The road behind a thing.
pub const ROAD: Place = Place::overlay("road");
/// A choice by letters.
pub const CHOICE: Place = Place::overlay("choice");
/// A choice in which letters find.
pub const LIST: Place = Place::overlay("list").with_typing();
/// The help page.
pub const HELP: Place = Place::overlay("help").with_typing();
/// The question whether to leave.
pub const LEAVE: Place = Place::overlay("leave");
/// The first words on a new logbook.
pub const WELCOME: Place = Place::overlay("welcome").with_typing();
/// The clock before the start.
pub const CLOCK_READY: Place = Place::overlay("clock, before the start");
/// The clock while it counts, or waits for the shutter to be opened again.
pub const CLOCK_RUNS: Place = Place::overlay("clock, while it counts");
/// The clock after the exposure.
pub const CLOCK_ENDED: Place = Place::overlay("clock, after the exposure");
/// The clock of a step in large digits.
pub const STEP_CLOCK: Place = Place::overlay("clock of a step");
/// Nothing is lit; any key lights it again.
pub const DARKNESS: Place = Place::overlay("darkness");
/// The question whether the exposure is dropped.
pub const CLOCK_ASKS: Place = Place::overlay("clock, asked whether to drop it");

const LISTS: &[Place] = &[SHEETS, PRINTS, SHELF];
const SCREENS: &[Place] = &[SHEETS, RACK, PRINTS, SHELF];
/// Every screen on which a thing is at hand and something can be logged for it.
const WORK: &[Place] = &[SHEETS, RACK, BENCH, PRINTS, SHELF, CURVES];
/// The bench, and one of its clocks in large digits.
const CLOCKS: &[Place] = &[BENCH, STEP_CLOCK];
/// The screens on which the thing at hand goes on by its own entries.
const AT_HAND: &[Place] = &[SHEETS, RACK, PRINTS, SHELF, CURVES];
const GLOBAL: &[Place] = &[Place::GLOBAL];
/// What has a cursor and lies over a screen.
const OVER: &[Place] = &[ROAD, CHOICE, LIST, SEARCH, HELP, PLAN];
/// What is filled in.
const FORMS: &[Place] = &[PANE, WELCOME, RECKON, PLAN_ASKS];

/// What can be done at the curves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CurvesKey {
    /// Read a strip.
    Read,
    /// Mark the strip, or take its mark away.
    Mark,
    /// Go to the next view.
    View,
    /// Move along the curve, or to another chart: to the right, or back.
    Along(bool),
    /// Move to a neighbouring step.
    Reading(bool),
    /// Write what is shown as a picture.
    Write,
}

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
    /// Go to the next side that waits for development.
    NextWaiting,
    /// Go to the next empty side.
    NextEmpty,
    /// Go to the next side in doubt.
    NextDoubt,
    /// Do something at the curves.
    Curves(CurvesKey),
    /// Choose what comes next for the thing at hand.
    Open,
    /// Follow the entry at hand to what it touches.
    Follow,
    /// Go back to where one was before following something.
    Trail,
    /// Go back to the list, or take its narrowing words away.
    Back,
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
    /// Go to another field.
    Field(bool),
    /// Log it all the same.
    Override,
    /// Take the next setting that is offered for an exposure, the wider one or the smaller one.
    Offer(bool),
    /// Plan what to develop next.
    Plan,
    /// Open the pane of a bath with what lacks.
    MixLacking,
    /// Throw the draft away.
    Clear,
    /// Open the clock, or do something at it.
    Clock(ClockKey),
    /// Do something at the clock of a step.
    Bench(BenchKey),
    /// Choose a figure to reckon.
    Figures,
    /// Fill in the example of the figure.
    Example,
    /// Copy the main result of the figure.
    Copy,
    /// Give the terminal back to the shell for a while.
    Suspend,
    /// Leave the program.
    Quit,
}

const fn yes(_: &App) -> Availability {
    Availability::Yes
}

const WAY: &str = "the way of a sheet and a print";
const LOG: &str = "log";
const GO: &str = "go";
const SEE: &str = "see and mend";
const HERE: &str = "here";

/// Name, act, places, keys, label, sentence, group, rank; and when, if not always.
macro_rules! actions {
    (@when) => { yes };
    (@when $when:expr) => { $when };
    ($($id:literal: $act:expr, $places:expr, [$($key:literal),*], $label:literal,
       $sentence:literal, $group:expr, $rank:literal $(, when $when:expr)?;)*) => {
        /// Every action.
        pub static ACTIONS: &[Action<App, Act>] = &[$(Action {
            id: $id,
            act: $act,
            places: $places,
            keys: &[$($key),*],
            label: $label,
            sentence: $sentence,
            group: $group,
            rank: $rank,
            when: actions!(@when $($when)?),
        }),*];
    };
}

actions! {
    "log.load": Act::Log(Kind::Loaded), SCREENS, ["l"], "load",
        "Load a sheet into the side at hand.", WAY, 2, when |app| app.can_log(Kind::Loaded);
    "log.expose": Act::Log(Kind::Exposed), SCREENS, ["e"], "expose",
        "Log an exposure, prefilled from the last one.", WAY, 2,
        when |app| app.can_log(Kind::Exposed);
    "log.slide": Act::Log(Kind::SlideSeen), SCREENS, ["b"], "slide",
        "Report whether the bright or the dark side of the slide is outwards.", WAY, 6,
        when |app| app.can_log(Kind::SlideSeen);
    "log.unload": Act::Log(Kind::Unloaded), SCREENS, ["u"], "unload",
        "Unload the sheet.", WAY, 5, when |app| app.can_log(Kind::Unloaded);
    "log.develop": Act::Log(Kind::RunBegun), SCREENS, ["d"], "develop",
        "Begin a development run with this sheet.", WAY, 3,
        when |app| app.can_log(Kind::RunBegun);
    "log.end-run": Act::Log(Kind::RunEnded), WORK, ["E"], "end run",
        "End the run; its sheets are negatives then.", WAY, 1,
        when |app| app.can_log(Kind::RunEnded);
    "log.measure": Act::Log(Kind::Measured), SCREENS, ["m"], "measure",
        "Log densities of the negative.", WAY, 3, when |app| app.can_log(Kind::Measured);
    "log.file": Act::Log(Kind::Filed), SCREENS, ["f"], "file",
        "File the negative.", WAY, 4, when |app| app.can_log(Kind::Filed);
    "log.print": Act::Log(Kind::PrintBegun), SCREENS, ["p"], "print",
        "Begin a print from this negative.", WAY, 3, when |app| app.can_log(Kind::PrintBegun);
    "log.step": Act::Log(Kind::PrintStep), WORK, ["c"], "step",
        "Log the next step of the print's process.", WAY, 2,
        when |app| app.can_log(Kind::PrintStep);
    "log.mat": Act::Log(Kind::Matted), SCREENS, ["M"], "mat",
        "Log the mat of the print.", WAY, 3, when |app| app.can_log(Kind::Matted);
    "log.place": Act::Log(Kind::Placed), SCREENS, ["w"], "where",
        "Log where the print goes.", WAY, 4, when |app| app.can_log(Kind::Placed);

    "bench.next": Act::Bench(BenchKey::Next), CLOCKS, ["enter"], "next step",
        "Open the pane of the next step; the one that is counted ends with it.", LOG, 1,
        when |app| app.can_begin_step();
    "bench.begin": Act::Bench(BenchKey::Begin), CLOCKS, ["space"], "begin it",
        "Begin the next step at once, as planned; the one that is counted ends with it.", LOG, 2,
        when |app| app.can_begin_step();
    "bench.pause": Act::Bench(BenchKey::Pause), CLOCKS, ["p"], "pause",
        "Let the time of the step stand still, or go on.", LOG, 3,
        when |app| app.can_change_step();
    "bench.more": Act::Bench(BenchKey::More), CLOCKS, ["+", "="], "30 s more",
        "Give the step half a minute more.", LOG, 4, when |app| app.can_change_step();
    "bench.change": Act::Bench(BenchKey::Change), CLOCKS, ["t"], "temperature",
        "Type how warm it is now, and what is left is reckoned anew; or another time.", LOG, 5,
        when |app| app.can_change_step();
    "bench.end": Act::Bench(BenchKey::End), CLOCKS, ["e"], "end step",
        "End the step; nothing is counted then.", LOG, 6, when |app| app.can_change_step();
    "bench.large": Act::Bench(BenchKey::Large), CLOCKS, ["l"], "large digits",
        "Show the clock in digits that are read at arm's length, or no longer.", LOG, 7,
        when |app| app.can_change_step();
    "bench.dark": Act::Bench(BenchKey::Dark), CLOCKS, ["d"], "darkness",
        "Light nothing at all: the bell tells each cue; any key lights the screen again.", LOG, 8,
        when |app| app.can_be_dark();
    "bench.bell": Act::Bench(BenchKey::Bell), CLOCKS, ["b"], "bell",
        "Ring the bell at cues, each second, or not at all.", LOG, 9;
    "next": Act::Open, AT_HAND, ["enter"], "next entry",
        "Choose what comes next for the thing at hand.", LOG, 1, when |app| app.can_open();
    "new": Act::New, WORK, ["n"], "new",
        "Log something new: a box, a holder, a bath, a paper, a lens, a camera.", LOG, 9,
        when |app| app.can_write();
    "log.note": Act::Log(Kind::Noted), WORK, ["o"], "note",
        "Write a note on the thing at hand.", LOG, 12, when |app| app.can_log(Kind::Noted);
    "resolve": Act::Resolve, SCREENS, ["v"], "resolve",
        "Find out which entry was missed on a side in doubt, or how an exposure ended.", LOG, 1,
        when |app| app.can_resolve();
    "drafts": Act::Drafts, GLOBAL, ["D"], "drafts",
        "Show what was typed and not logged.", LOG, 8, when |app| app.has_drafts();

    "road": Act::Road, AT_HAND, ["t"], "trace",
        "Show the road back from the thing at hand: everything it came from; and what came of it.",
        SEE, 15, when |app| app.has_thing();
    "strike": Act::Strike, AT_HAND, ["x"], "strike",
        "Strike the entry at hand, with a reason; the line stays legible.", SEE, 16,
        when |app| app.has_entry();
    "amend": Act::Amend, AT_HAND, ["a"], "amend",
        "Amend the figures of the entry at hand, with a reason; the old ones stay legible.", SEE, 17,
        when |app| app.has_entry();
    "follow": Act::Follow, &[STRIP], ["enter"], "follow",
        "Follow the entry to what it touches: the holder, the run, a bath, a print.", SEE, 1,
        when |app| app.has_links();
    "trail": Act::Trail, WORK, ["backspace"], "go back",
        "Go back to what was looked at before something was followed.", SEE, 7,
        when |app| app.has_trail();
    "find": Act::Find, SCREENS, ["/"], "find",
        "Narrow the list by words, as you type.", SEE, 20, when |app| app.has_list();
    "search": Act::Search, GLOBAL, ["s"], "search",
        "Search every entry of the logbook, as you type.", SEE, 21;
    "reckon": Act::Figures, GLOBAL, ["r", "f2"], "reckon",
        "Reckon a figure: from the meter to the shutter, focus, depth, the sun.", SEE, 21;
    "plan": Act::Plan, WORK, ["P"], "plan",
        "Plan what to develop next: groups, runs, times, and the solutions they take.", SEE, 14;
    "undo": Act::Undo, GLOBAL, ["z", "ctrl-z"], "undo",
        "Strike what was logged last.", SEE, 22, when |app| app.can_write();

    "help": Act::Help, GLOBAL, ["?", "f1"], "keys",
        "Show every key that works here.", GO, 0;
    "timeline": Act::Half(true), LISTS, ["right", "tab"], "timeline",
        "Go to the timeline of the thing at hand.", GO, 30, when |app| app.can_go_to_strip();
    "rack.timeline": Act::Half(true), &[RACK], ["tab"], "timeline",
        "Go to the timeline of the side at hand.", GO, 30, when |app| app.can_go_to_strip();
    "curves.timeline": Act::Half(true), &[CURVES], ["tab"], "timeline",
        "Go to the timeline of the strip at hand.", GO, 30, when |app| app.can_go_to_strip();
    "list": Act::Half(false), &[STRIP], ["left", "backtab", "tab", "h"], "list",
        "Go back to the list.", GO, 8;
    "back": Act::Back, AT_HAND, ["esc"], "back",
        "Go back to the list, or take the words that narrow it away.", GO, 10,
        when |app| app.can_go_back();
    "side.exposed": Act::NextWaiting, &[RACK], ["."], "exposed",
        "Go to the next exposed side.", GO, 31, when |app| app.has_list();
    "side.empty": Act::NextEmpty, &[RACK], [","], "empty",
        "Go to the next empty side.", GO, 32, when |app| app.has_list();
    "side.doubt": Act::NextDoubt, &[RACK], ["!"], "in doubt",
        "Go to the next side in doubt.", GO, 33, when |app| app.has_list();
    "board.next": Act::Board(1), &[SHELF], ["]"], "next board",
        "Go to the next board of the shelf.", GO, 10;
    "board.previous": Act::Board(-1), &[SHELF], ["["], "board before",
        "Go to the board before.", GO, 80;
    "sheets": Act::Screen(0), GLOBAL, ["1"], "sheets", "Go to the sheets.", GO, 60;
    "rack": Act::Screen(1), GLOBAL, ["2"], "rack", "Go to the rack of holders.", GO, 60;
    "bench": Act::Screen(2), GLOBAL, ["3"], "bench",
        "Go to the bench: every clock that runs.", GO, 60;
    "prints": Act::Screen(3), GLOBAL, ["4"], "prints", "Go to the prints.", GO, 60;
    "shelf": Act::Screen(4), GLOBAL, ["5"], "shelf",
        "Go to the shelf: boxes, papers, baths, lenses, cameras, runs, sets.", GO, 60;
    "curves": Act::Screen(5), GLOBAL, ["6"], "curves",
        "Go to the curves: strips of steps, families, control strips.", GO, 60;
    "up": Act::Move(Step::Up(1)), WORK, ["up", "k"], "up", "Move up.", GO, 90;
    "down": Act::Move(Step::Down(1)), WORK, ["down", "j"], "down", "Move down.", GO, 90;
    "side.previous": Act::Side(Way::Left), &[RACK], ["left", "h"], "side before",
        "Go to the side before.", GO, 90;
    "side.next": Act::Side(Way::Right), &[RACK], ["right"], "next side",
        "Go to the next side.", GO, 90;
    "page-up": Act::Move(Step::PageUp), AT_HAND, ["pgup"], "page up", "Move one page up.", GO, 90;
    "page-down": Act::Move(Step::PageDown), AT_HAND, ["pgdn"], "page down",
        "Move one page down.", GO, 90;
    "first": Act::Move(Step::First), WORK, ["home", "g g"], "first",
        "Go to the first line.", GO, 90;
    "last": Act::Move(Step::Last), WORK, ["end", "G"], "last", "Go to the last line.", GO, 90;

    "curves.read": Act::Curves(CurvesKey::Read), &[CURVES], ["i"], "read strip",
        "Read a strip of steps: type its densities, or name a CSV file with them.", LOG, 2,
        when |app| app.can_write();
    "curves.mark": Act::Curves(CurvesKey::Mark), &[CURVES], ["space"], "mark",
        "Mark the strip, so that its curve lies over the others; or take the mark away.", HERE, 3,
        when |app| app.has_strip();
    "curves.view": Act::Curves(CurvesKey::View), &[CURVES], ["v"], "view",
        "Show the curve, the family of its film and developer, or its series of control strips.",
        HERE, 3, when |app| app.has_strip();
    "curves.right": Act::Curves(CurvesKey::Along(true)), &[CURVES], ["right"], "along",
        "Move along the curve; in the other views go to the next chart.", HERE, 4,
        when |app| app.has_strip();
    "curves.left": Act::Curves(CurvesKey::Along(false)), &[CURVES], ["left", "h"], "back along",
        "Move back along the curve; in the other views go to the chart before.", HERE, 90,
        when |app| app.has_strip();
    "curves.step-on": Act::Curves(CurvesKey::Reading(true)), &[CURVES], ["."], "next step",
        "Move along the curve to the next step that was read.", HERE, 31,
        when |app| app.has_strip();
    "curves.step-back": Act::Curves(CurvesKey::Reading(false)), &[CURVES], [","], "step before",
        "Move back along the curve to the step before.", HERE, 90, when |app| app.has_strip();
    "curves.write": Act::Curves(CurvesKey::Write), &[CURVES], ["w"], "write SVG",
        "Write what is shown as a picture, an SVG file beside the logbook.", HERE, 5,
        when |app| app.has_strip();

    "theme": Act::Theme, GLOBAL, ["T"], "theme",
        "Change the theme: plain, dark, safelight.", HERE, 70;
    "quit": Act::Quit, GLOBAL, ["q", "ctrl-c"], "quit", "Leave.", HERE, 25;
    "suspend": Act::Suspend, GLOBAL, ["ctrl-q"], "shell",
        "Give the terminal back to the shell until the program is called again.", HERE, 90;

    "pane.log": Act::Confirm, &[PANE], ["enter", "ctrl-s"], "log it",
        "Log what is typed.", HERE, 1;
    "pane.override": Act::Override, &[PANE], ["ctrl-o"], "all the same",
        "Log it against the usual order, with a reason.", HERE, 1,
        when |app| app.can_override();
    "pane.clock": Act::Clock(ClockKey::Open), &[PANE], ["ctrl-t", "f6"], "clock",
        "Count a long exposure with the clock; what was given comes into the pane.", HERE, 2,
        when |app| app.can_clock();
    "pane.close": Act::Close, &[PANE], ["esc"], "keep draft",
        "Close the pane and keep what was typed.", HERE, 3;
    "form.next": Act::Field(true), FORMS, ["tab", "down"], "next field",
        "Go to the next field; left and right go through what can be chosen there.", HERE, 4;
    "form.previous": Act::Field(false), FORMS, ["backtab", "up"], "field before",
        "Go to the field before.", HERE, 90;
    "pane.more": Act::Move(Step::PageDown), &[PANE, RECKON], ["pgdn"], "read on",
        "Read on in what stands at the right.", HERE, 5, when |app| app.has_more();
    "pane.less": Act::Move(Step::PageUp), &[PANE, RECKON], ["pgup"], "read back",
        "Read back in what stands at the right.", HERE, 90, when |app| app.has_more();
    "pane.wider": Act::Offer(true), &[PANE], ["f7"], "wider",
        "Take the next wider setting the lens offers for this exposure.", HERE, 6,
        when |app| app.has_offer(true);
    "pane.smaller": Act::Offer(false), &[PANE], ["f8"], "smaller",
        "Take the next smaller setting the lens offers for this exposure.", HERE, 7,
        when |app| app.has_offer(false);
    "pane.clear": Act::Clear, &[PANE], ["ctrl-x"], "clear",
        "Throw away what is typed here.", HERE, 20;
    "pane.reckon": Act::Figures, &[PANE, RECKON], ["f2"], "figures",
        "Choose a figure to reckon; what is typed here stays.", HERE, 21;
    "reckon.next": Act::Field(true), &[RECKON], ["enter"], "next field",
        "Go to the next field; the answer follows every key.", HERE, 90;
    "reckon.close": Act::Close, &[RECKON], ["esc"], "close",
        "Close this; what was typed comes back when the figure is opened again.", HERE, 3;
    "reckon.copy": Act::Copy, &[RECKON], ["ctrl-y"], "copy result",
        "Copy the main result.", HERE, 6, when |app| app.has_result();
    "reckon.example": Act::Example, &[RECKON], ["ctrl-e"], "example",
        "Fill in an example.", HERE, 7;
    "reckon.clear": Act::Clear, &[RECKON], ["ctrl-x"], "clear",
        "Throw away what is typed here.", HERE, 20, when |app| app.has_filled();
    "welcome.set-up": Act::Confirm, &[WELCOME], ["enter", "ctrl-s"], "set up",
        "Set up what is filled in.", HERE, 1;
    "welcome.skip": Act::Close, &[WELCOME], ["esc"], "skip",
        "Begin with an empty logbook.", HERE, 2;

    "step-clock.close": Act::Close, &[STEP_CLOCK], ["esc"], "to the bench",
        "Go back to the bench; the clock goes on.", HERE, 1;

    "clock.count": Act::Clock(ClockKey::Count), &[CLOCK_READY], ["d"], "up or down",
        "Count up, or down from the planned time.", HERE, 2;
    "clock.bell": Act::Clock(ClockKey::Bell), &[CLOCK_READY], ["b"], "bell",
        "Ring the bell at marks, each second, or not at all.", HERE, 3;
    "clock.shorter": Act::Clock(ClockKey::LeadIn(-1)), &[CLOCK_READY], ["-", "left", "down"], "shorter",
        "Shorten the lead-in by a second.", HERE, 81;
    "clock.longer": Act::Clock(ClockKey::LeadIn(1)), &[CLOCK_READY], ["+", "right", "up"], "longer",
        "Lengthen the lead-in by a second.", HERE, 81;
    "clock.cloth": Act::Clock(ClockKey::Cloth), &[CLOCK_READY], ["c"], "dark cloth",
        "Light few cells, and dimly, for the dark cloth; or as usual.", HERE, 4;
    "clock.close": Act::Close, &[CLOCK_READY], ["esc"], "to the pane",
        "Go back to the pane; nothing has begun.", HERE, 1;
    "clock.pause": Act::Clock(ClockKey::Pause), &[CLOCK_RUNS, CLOCK_ENDED, CLOCK_ASKS], ["p"], "pause",
        "Close the shutter for a while, or open it again; the openings add up.", HERE, 1;
    "clock.ask": Act::Clock(ClockKey::Ask), &[CLOCK_RUNS, CLOCK_ENDED], ["esc"], "drop it?",
        "Ask whether the exposure is dropped; the clock goes on meanwhile.", HERE, 2;
    "clock.drop": Act::Clock(ClockKey::Drop), &[CLOCK_ASKS], ["d"], "drop it",
        "Drop the exposure, with a reason: no light fell on the sheet.", HERE, 1;
    "clock.go-on": Act::Clock(ClockKey::Ask), &[CLOCK_ASKS], ["esc"], "go on",
        "Go on as if nothing had been asked.", HERE, 2;

    "find.keep": Act::Confirm, &[FIND], ["enter", "down"], "to the list",
        "Keep the words and go to the list.", HERE, 1;
    "find.end": Act::Close, &[FIND], ["esc"], "show all",
        "Take the words away and show everything again.", HERE, 2;
    "reason.strike": Act::Confirm, &[REASON], ["enter"], "strike",
        "Strike it, with this reason.", HERE, 1;
    "reason.leave": Act::Close, &[REASON], ["esc"], "leave it",
        "Leave the entry as it is.", HERE, 2;
    "go-there": Act::Confirm, &[SEARCH, ROAD], ["enter"], "go there",
        "Go to the thing at the cursor.", HERE, 1;
    "road.turn": Act::Turn, &[ROAD], ["tab"], "turn round",
        "Show what came of it instead, and back.", HERE, 2;
    "choice.pick": Act::Confirm, &[CHOICE, LIST], ["enter"], "choose",
        "Choose what is at the cursor; a letter chooses at once.", HERE, 1;
    "choice.find": Act::Find, &[CHOICE], ["/"], "find", "Find by typing.", HERE, 5;
    "plan.develop": Act::Confirm, &[PLAN], ["enter", "d"], "develop",
        "Open the pane of a run with the sheets of this group that fit.", HERE, 1;
    "plan.mix": Act::MixLacking, &[PLAN], ["m"], "mix",
        "Open the pane of a bath with what lacks.", HERE, 2;
    "plan.fields": Act::Field(true), &[PLAN], ["tab", "v"], "vessel",
        "Choose vessel, developer and temperature.", HERE, 3;
    "plan.fields-back": Act::Field(false), &[PLAN], ["backtab"], "temperature",
        "Go to the last of the fields.", HERE, 90;
    "plan.groups": Act::Confirm, &[PLAN_ASKS], ["enter"], "groups",
        "Go to the groups of sheets.", HERE, 1;
    "plan.leave-fields": Act::Close, &[PLAN_ASKS], ["esc"], "groups",
        "Go to the groups of sheets.", HERE, 90;
    "over.close": Act::Close, &[ROAD, CHOICE, LIST, SEARCH, HELP, PLAN], ["esc"], "close",
        "Close this.", HERE, 3;
    "plan.close": Act::Close, &[PLAN], ["q", "P"], "close", "Close the plan.", HERE, 90;
    "road.close": Act::Close, &[ROAD], ["q", "t"], "close", "Close the road.", HERE, 90;
    "help.close": Act::Close, &[HELP], ["f1"], "close", "Close the keys.", HERE, 90;
    "over.up": Act::Move(Step::Up(1)), OVER, ["up"], "up", "Move up.", HERE, 90;
    "over.down": Act::Move(Step::Down(1)), OVER, ["down"], "down", "Move down.", HERE, 90;
    "over.page-up": Act::Move(Step::PageUp), OVER, ["pgup"], "page up", "Move up a page.", HERE, 90;
    "over.page-down": Act::Move(Step::PageDown), &[ROAD, CHOICE, LIST, SEARCH, PLAN], ["pgdn"], "page down",
        "Move down a page.", HERE, 90;
    "help.more": Act::Move(Step::PageDown), &[HELP], ["pgdn"], "read on",
        "Read on.", HERE, 2;
    "leave.yes": Act::Confirm, &[LEAVE], ["y", "enter"], "leave",
        "Leave; what was typed is kept.", HERE, 1;
    "leave.no": Act::Close, &[LEAVE], ["n", "esc"], "stay", "Stay.", HERE, 2;
    "here.help": Act::Help, &[PLAN, ROAD, CHOICE, LEAVE, STEP_CLOCK, CLOCK_READY, CLOCK_ENDED, CLOCK_ASKS], ["?", "f1"], "keys",
        "Show every key that works here.", HERE, 0;
    "typing.help": Act::Help, &[PLAN_ASKS, PANE, RECKON, SEARCH, LIST, FIND, REASON, WELCOME], ["f1"], "keys",
        "Show every key that works here.", HERE, 0;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_has_no_faults() {
        let faults = crate::tui::actions::faults(ACTIONS);
        assert!(faults.is_empty(), "{}", faults.join("\n"));
    }
}
