//! The picture: bar, screen, notice, hints, and what lies over them.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use super::deeds::ACTIONS;
use super::{App, Tab};
use crate::logbook::counting;
use crate::tui::browse::Half;
use crate::tui::ink::{below, cells, line_of, rest_of, rest_of_all};
use crate::tui::overlays::Overlay;
use crate::tui::overlays::step_clock::{self, StepClock};
use crate::tui::screens::curves::Curves;
use crate::tui::screens::shelf::Board;
use crate::tui::theme::Role;
use crate::tui::widgets::bar::Bar;
use crate::tui::widgets::hints::Hints;
use crate::tui::widgets::message::too_small;

/// The smallest window that makes sense.
const LEAST: (u16, u16) = (40, 10);

/// Width from which the timeline of a side stands beside the rack.
const RACK_BESIDE: u16 = 120;

/// Where the parts of the screen are.
pub(super) struct Parts {
    /// The line at the top.
    pub(super) bar: Rect,
    /// The screen itself.
    pub(super) body: Rect,
    notice: Rect,
    hints: Rect,
}

impl App {
    pub(super) fn parts(&self, area: Rect) -> Parts {
        let bar = line_of(area, 0);
        let said = self
            .notice
            .as_ref()
            .map_or(0, |notice| notice.height(area.width));
        let foot = 1 + said;
        let body = Rect {
            y: area.y + 1,
            height: area.height.saturating_sub(1 + foot),
            ..area
        }
        .intersection(area);
        let notice = Rect {
            y: body.bottom(),
            height: said,
            ..area
        }
        .intersection(area);
        let hints = line_of(area, area.height.saturating_sub(1));
        Parts {
            bar,
            body,
            notice,
            hints,
        }
    }

    fn title(&self) -> String {
        let name = self.bench.store.path().file_stem();
        let name = name
            .map(|name| name.to_string_lossy().into_owned())
            .unwrap_or_default();
        format!("notchbook {} {name}", self.look.symbols.dot)
    }

    fn bar<'b>(&self, title: &'b str, end: &'b str) -> Bar<'b> {
        Bar {
            title,
            screens: &[
                "1 Sheets", "2 Rack", "3 Bench", "4 Prints", "5 Shelf", "6 Curves",
            ],
            open: Tab::ALL
                .iter()
                .position(|tab| *tab == self.tab)
                .unwrap_or(0),
            end,
        }
    }

    fn bar_end(&self) -> String {
        let drafts = match (self.bench.store.is_read_only(), self.drafts) {
            (true, _) => "read only ".to_owned(),
            (false, 0) => String::new(),
            (false, 1) => "1 draft ".to_owned(),
            (false, count) => format!("{count} drafts "),
        };
        format!("{drafts}{}", self.clocks_in_words())
    }

    pub(super) fn click_on_bar(&self, bar: Rect, at: Position) -> Option<usize> {
        let (title, end) = (self.title(), self.bar_end());
        self.bar(&title, &end).click(bar, at)
    }

    fn shelf_parts(body: Rect) -> (Rect, Rect) {
        (line_of(body, 0), below(body, 1))
    }

    /// The part of the body that holds a list.
    pub(super) fn list_area(&self, body: Rect) -> Rect {
        match self.tab {
            Tab::Shelf => Self::shelf_parts(body).1,
            _ => body,
        }
    }

    /// The rack, and the timeline of the side at hand: beside it where there is room, else in its
    /// place while it has the focus.
    pub(super) fn rack_parts(&self, body: Rect) -> (Rect, Rect) {
        let nothing = Rect { width: 0, ..body };
        if self.at_hand().is_none() {
            return (body, nothing);
        }
        if body.width < RACK_BESIDE {
            return match self.rack_half {
                Half::List => (body, nothing),
                Half::Strip => (nothing, body),
            };
        }
        let wide = body.width * 3 / 5;
        let rack = Rect {
            width: wide,
            ..body
        };
        (rack, rest_of_all(body, wide))
    }

    /// Tells the windows how large the screen is.
    pub(super) fn settle(&mut self) {
        let body = self.parts(self.area).body;
        let area = self.list_area(body);
        let today = self.bench.now().date_naive();
        let columns = self.source().columns();
        match self.tab {
            Tab::Rack => {
                let (rack, strip) = self.rack_parts(body);
                self.rack.settle(rack);
                self.side.settle(strip_inner(strip), today);
            }
            Tab::Bench => {}
            Tab::Sheets => self.sheets.settle(area, columns, today),
            Tab::Prints => self.prints.settle(area, columns, today),
            Tab::Shelf => self.shelf.settle(area, columns, today),
            Tab::Curves => {
                self.curves.settle(body);
                let page = Curves::page(body);
                self.strip.settle(page, today);
            }
        }
        let (whole, look) = (self.area, self.look);
        let offers = match self.overlays.last() {
            Some(Overlay::Help(_)) => self.offers_below_help(),
            _ => Vec::new(),
        };
        match self.overlays.last_mut() {
            Some(Overlay::Help(help)) => help.settle(&offers, whole),
            Some(Overlay::Pane(pane)) => pane.settle(body, &look),
            Some(Overlay::Reckon(reckoning)) => reckoning.settle(body, &look),
            Some(Overlay::Plan(plan)) => plan.settle(body, &look),
            Some(Overlay::Search(search)) => search.settle(whole),
            Some(Overlay::Road(road)) => road.settle(whole),
            _ => {}
        }
    }

    /// What the help page tells: the keys of what lies under it.
    fn offers_below_help(&self) -> Vec<crate::tui::actions::Offer> {
        let under = self
            .overlays
            .len()
            .checked_sub(2)
            .and_then(|at| self.overlays.get(at));
        let places = match under {
            Some(Overlay::Pane(_)) => vec![super::deeds::PANE],
            Some(Overlay::Reckon(_)) => vec![super::deeds::RECKON],
            Some(Overlay::Search(_)) => vec![super::deeds::SEARCH],
            Some(Overlay::Reason(_)) => vec![super::deeds::REASON],
            Some(Overlay::Welcome(_)) => vec![super::deeds::WELCOME],
            Some(Overlay::Clock(clock)) => vec![super::timing::place_of(clock)],
            Some(Overlay::StepClock(_)) => vec![super::deeds::STEP_CLOCK],
            Some(Overlay::Road(_)) => vec![super::deeds::ROAD],
            Some(Overlay::Plan(plan)) if plan.is_asking() => vec![super::deeds::PLAN_ASKS],
            Some(Overlay::Plan(_)) => vec![super::deeds::PLAN],
            Some(Overlay::Leave(_)) => vec![super::deeds::LEAVE],
            Some(other) if other.menu().is_some_and(|menu| menu.finds()) => {
                vec![super::deeds::LIST]
            }
            Some(other) if other.menu().is_some() => vec![super::deeds::CHOICE],
            _ => self.places_of_screen(),
        };
        // The page follows the table, which begins with what is done most.
        let mut offers = self.keys.offers(&places, self);
        let in_table = |id: &str| ACTIONS.iter().position(|action| action.id == id);
        offers.sort_by_key(|offer| in_table(offer.id));
        offers
    }

    pub(super) fn draw(&self, area: Rect, buf: &mut Buffer) -> Option<Position> {
        let look = &self.look;
        look.theme.paint_ground(area, buf);
        if self.is_dark() {
            return None;
        }
        if too_small(area, LEAST, buf, look) {
            return None;
        }
        let now = self.bench.now();
        let parts = self.parts(area);
        let (title, end) = (self.title(), self.bar_end());
        self.bar(&title, &end).render(parts.bar, buf, look);
        let list = self.list_area(parts.body);
        let keys = |id: &str| self.key_of(id);
        let source = self.source();
        let mut cursor = match self.tab {
            Tab::Rack => self.draw_rack(parts.body, buf),
            Tab::Bench => {
                self.clocks
                    .render(parts.body, buf, look, &keys, &self.bench);
                None
            }
            Tab::Sheets => self.sheets.render(list, buf, look, source, &keys, now),
            Tab::Prints => self.prints.render(list, buf, look, source, &keys, now),
            Tab::Curves => self.draw_curves(parts.body, buf),
            Tab::Shelf => {
                self.render_boards(Self::shelf_parts(parts.body).0, buf);
                self.shelf.render(list, buf, look, source, &keys, now)
            }
        };
        for overlay in &self.overlays {
            cursor = self.draw_overlay(overlay, area, parts.body, buf);
        }
        if let Some(notice) = &self.notice {
            look.theme.paint_ground(parts.notice, buf);
            notice.render(parts.notice, buf, look);
        }
        let offers = self.keys.offers(&self.places(), self);
        let is_help = |id: &&&str| offers.iter().any(|offer| offer.id == **id);
        let help = ["help", "here.help", "typing.help"];
        let help = help.iter().find(is_help).copied().unwrap_or_default();
        look.theme.paint_ground(parts.hints, buf);
        if matches!(self.overlays.last(), Some(Overlay::Clock(clock)) if clock.is_dark()) {
            return cursor;
        }
        Hints {
            offers: &offers,
            help,
            begun: self.begun,
        }
        .render(parts.hints, buf, look);
        cursor
    }

    fn draw_rack(&self, body: Rect, buf: &mut Buffer) -> Option<Position> {
        let now = self.bench.now();
        let keys = |id: &str| self.key_of(id);
        let (rack, strip) = self.rack_parts(body);
        let mut cursor = None;
        if rack.width > 0 {
            cursor = self.rack.render(rack, buf, &self.look, &keys, now);
        }
        if strip.width > 0 {
            if strip.x > body.x {
                self.look.put_upright(buf, Rect { width: 1, ..strip });
            }
            let focused = self.rack_half == Half::Strip;
            let inner = strip_inner(strip);
            let at = self.side.render(inner, buf, &self.look, focused, now);
            cursor = if focused { at } else { cursor };
        }
        cursor
    }

    fn draw_curves(&self, body: Rect, buf: &mut Buffer) -> Option<Position> {
        let keys = |id: &str| self.key_of(id);
        let cursor = self.curves.render(body, buf, &self.look, &keys);
        if self.curves_half == Half::List || self.strip.life().is_none() {
            return cursor;
        }
        let page = Curves::page(body);
        self.look.theme.paint_ground(page, buf);
        let now = self.bench.now();
        self.strip.render(page, buf, &self.look, true, now)
    }

    /// Where the names of the boards stand.
    fn board_places(&self, line: Rect) -> Vec<(Board, Rect)> {
        let mut rest = rest_of(line, 1);
        let mut places = Vec::new();
        for board in Board::ALL {
            let wide = cells(board.word().len() + 1).min(rest.width);
            places.push((
                board,
                Rect {
                    width: wide,
                    ..rest
                },
            ));
            rest = rest_of(rest, wide + 1);
        }
        places
    }

    pub(super) fn click_on_boards(&self, body: Rect, at: Position) -> Option<Board> {
        if self.tab != Tab::Shelf {
            return None;
        }
        let places = self.board_places(Self::shelf_parts(body).0);
        let hit = places.into_iter().find(|(_, place)| place.contains(at));
        hit.map(|(board, _)| board)
    }

    fn render_boards(&self, line: Rect, buf: &mut Buffer) {
        for (board, place) in self.board_places(line) {
            let (mark, role) = if board == self.board {
                (self.look.symbols.marker, Role::Heading)
            } else {
                (" ", Role::Quiet)
            };
            let rest = self.look.put(buf, place, mark, Role::Accent);
            self.look.put(buf, rest, board.word(), role);
        }
    }

    fn draw_overlay(
        &self,
        overlay: &Overlay,
        area: Rect,
        body: Rect,
        buf: &mut Buffer,
    ) -> Option<Position> {
        let look = &self.look;
        match overlay {
            Overlay::Pane(pane) => pane.render(body, buf, look, &|id| self.key_of(id)),
            Overlay::Next { menu, .. }
            | Overlay::Links(menu)
            | Overlay::Drafts(menu)
            | Overlay::Figures(menu) => menu.render(area, buf, look),
            Overlay::Reckon(reckoning) => reckoning.render(body, buf, look),
            Overlay::Plan(plan) => plan.render(body, buf, look),
            Overlay::StepClock(StepClock::Large(thing)) => {
                let life = self.clocks.life(*thing);
                let now = self.bench.counted_now();
                let counting = life
                    .and_then(|it| counting::of(it, &self.bench.reference, &self.bench.store, now));
                step_clock::render(counting.as_ref(), over(area, body), buf, look);
                None
            }
            Overlay::StepClock(StepClock::Dark(_)) => None,
            Overlay::Doubt(doubt) => doubt.menu.render(area, buf, look),
            Overlay::Begun(begun) => begun.menu.render(area, buf, look),
            Overlay::Reason(reason) => reason.render(area, buf, look),
            Overlay::Search(search) => search.render(area, buf, look),
            Overlay::Road(road) => road.render(area, buf, look),
            Overlay::Help(help) => help.render(&self.offers_below_help(), area, buf, look),
            Overlay::Leave(question) => {
                question.render(area, buf, look);
                None
            }
            Overlay::Welcome(welcome) => welcome.render(area, buf, look),
            Overlay::Clock(clock) => {
                clock.render(over(area, body), buf, look, &|id| self.key_of(id));
                None
            }
        }
    }
}

/// Everything above the notice and the hints.
pub(super) fn over(area: Rect, body: Rect) -> Rect {
    Rect {
        height: body.bottom().saturating_sub(area.y),
        ..area
    }
}

/// A strip without the line that parts it from what is beside it.
pub(super) fn strip_inner(strip: Rect) -> Rect {
    rest_of_all(strip, 2.min(strip.width))
}
