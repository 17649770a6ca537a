//! Every piece at every size: nothing panics, nothing is drawn outside the area.

use chrono::NaiveDate;
use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::Rect;

use crate::tui::actions::{Availability, Offer};
use crate::tui::look::{Look, SymbolSet};
use crate::tui::theme::{Depth, Role, Theme, ThemeName};

use super::bar::Bar;
use super::choice::{Choice, Pick};
use super::columns::{Align, Column};
use super::field::Field;
use super::form::Form;
use super::help::Help;
use super::hints::Hints;
use super::ledger::{self, Figure};
use super::listing::{Listing, Loaded, Piece, Row, Step};
use super::menu::{Item, Letters, Menu};
use super::message::{Notice, Question, too_small};
use super::overlay::Overlay;
use super::strip::{Happening, Strip, StripView};

/// Text of the worst kind: wide, hidden, combining, long.
const WORST: &str = "漢字 \u{202e}\x1b[31m e\u{301}\u{301}\u{301}\u{301}\u{301}\u{301} 👩🏽\u{200d}🔬 a long tail of text\nand more";

fn sizes() -> impl Iterator<Item = (u16, u16)> {
    let widths = (0..=34).chain([40, 53, 66, 79, 80, 81, 100, 133, 160]);
    widths.flat_map(|wide| {
        (0..=9)
            .chain([12, 16, 24, 35, 50])
            .map(move |high| (wide, high))
    })
}

fn looks() -> [Look; 3] {
    let mut ascii = Look::plain();
    ascii.symbols = SymbolSet::Ascii.symbols();
    [
        Look::new(Theme::new(ThemeName::Dark, Depth::Many)),
        Look::new(Theme::new(ThemeName::Safelight, Depth::Many)),
        ascii,
    ]
}

/// Draws into the middle of a larger picture and looks at what lies around.
fn at_every_size(draw: impl Fn(Rect, &mut Buffer, &Look)) {
    let look_at = looks();
    for (wide, high) in sizes() {
        let area = Rect::new(3, 2, wide, high);
        let whole = Rect::new(0, 0, wide + 6, high + 4);
        let look = look_at[usize::from(wide % 3)];
        let mut buf = Buffer::filled(whole, Cell::new("~"));
        draw(area, &mut buf, &look);
        for at in whole.positions().filter(|at| !area.contains(*at)) {
            assert_eq!(buf[at].symbol(), "~", "drawn at {at} outside {area}");
        }
        // An area that reaches beyond the picture is cut, too.
        let mut small = Buffer::empty(Rect::new(0, 0, wide / 2, high / 2));
        draw(Rect::new(1, 1, wide, high), &mut small, &look);
        if look.theme.name() == ThemeName::Safelight {
            look.theme.seal(&mut buf);
            assert!(
                buf.content()
                    .iter()
                    .all(|cell| Some((cell.fg, cell.bg))
                        .is_some_and(|(fg, bg)| Some(bg) == look.theme.ground().map(|g| g.1)
                            && [look.style(Role::Text).fg, look.style(Role::Quiet).fg]
                                .contains(&Some(fg))))
            );
        }
    }
}

fn offers() -> Vec<Offer> {
    (0..12)
        .map(|rank| Offer {
            id: if rank == 11 { "help" } else { "do" },
            keys: vec!["ctrl-x".into(), "g g".into()],
            label: "does it",
            sentence: "Does something that takes a few words to say.",
            group: if rank % 2 == 0 { "one" } else { "two" },
            rank,
            available: if rank == 3 {
                Availability::No(WORST.into())
            } else {
                Availability::Yes
            },
        })
        .collect()
}

#[test]
fn a_form_is_drawn_at_every_size() {
    let picks = vec![
        Pick::word("plain"),
        Pick::new("d", WORST),
        Pick::word("grid"),
    ];
    let mut choice = Choice::new(picks.clone()).open();
    choice.paste(WORST);
    let mut fields = vec![
        Field::text("a", WORST).with(WORST).with_unit("mm"),
        Field::text("b", "empty").with_empty(WORST),
        Field::choice("c", "choice", Choice::new(picks)).with("d"),
        Field::choice("d", "open", choice),
    ];
    fields[0].problem = Some(WORST.into());
    for focus in ["a", "b", "c", "d"] {
        let mut form = Form::new(fields.clone());
        form.focus(focus);
        at_every_size(|area, buf, look| {
            let cursor = form.render(area, buf, look, true);
            assert!(
                cursor.is_none_or(|at| area.contains(at)),
                "{cursor:?} in {area}"
            );
        });
    }
}

#[test]
fn a_listing_is_drawn_at_every_size() {
    let columns = [
        Column::new("sheet", 6),
        Column::new("what", 8).growing(1).ranked(1),
        Column::new("figure", 6).aligned(Align::Decimal).ranked(2),
    ];
    let mut rows: Vec<Row> = (0..30)
        .map(|n| {
            Row::new(vec![
                format!("S-{n}").into(),
                WORST.into(),
                Piece::new("1.5", Role::Warn),
            ])
        })
        .collect();
    rows[2].struck = true;
    let mut listing = Listing::new(40);
    listing.step(Step::Down(25));
    at_every_size(|area, buf, look| {
        let loaded = Loaded {
            first: 5,
            rows: &rows,
        };
        listing.render(area, buf, look, &columns, loaded, true, WORST);
        let none = Loaded {
            first: 0,
            rows: &[],
        };
        Listing::new(0).render(area, buf, look, &columns, none, true, WORST);
    });
}

#[test]
fn a_strip_is_drawn_at_every_size() {
    let day = NaiveDate::from_ymd_opt(2026, 3, 4).unwrap();
    let mut happening = Happening::new(day.and_hms_opt(16, 2, 0).unwrap(), WORST);
    happening.figures = vec![WORST.into(), "f/32 at 6 s".into()];
    happening.mark = Some(WORST.into());
    happening.details = vec![("read".into(), vec!["III 8.7".into(), "V 10.3".into()])];
    happening.more = vec![("lens".into(), "L-02".into()), (WORST.into(), WORST.into())];
    happening.foot = "entry #57".into();
    let mut struck = happening.clone();
    struck.struck = Some(WORST.into());
    let life = [happening.clone(), struck, happening];
    let next = ["print".to_owned(), WORST.to_owned()];
    at_every_size(|area, buf, look| {
        let strip = Strip {
            happenings: &life,
            next: &next,
            today: NaiveDate::from_ymd_opt(2027, 1, 1).unwrap(),
        };
        let mut view = StripView::at_last(life.len());
        view.settle(&strip, area);
        let cursor = view.render(&strip, area, buf, look, true);
        assert!(
            cursor.is_none_or(|at| area.contains(at)),
            "{cursor:?} in {area}"
        );
    });
}

#[test]
fn a_ledger_is_drawn_at_every_size() {
    let lines = [
        ledger::Line::Figure(Figure::new(WORST, "2.0 s").with_note(WORST)),
        ledger::Line::Rule,
        ledger::Line::Laid(vec![
            (WORST.to_owned(), Role::Accent),
            (WORST.to_owned(), Role::Rule),
        ]),
        ledger::Line::Figure(Figure::new("bellows", "x2").with_working(WORST)),
        ledger::Line::Figure(Figure::new("give", WORST).with_role(Role::Warn)),
        ledger::Line::Figure(Figure::new("", WORST).with_role(Role::Accent)),
    ];
    at_every_size(|area, buf, look| {
        ledger::render(&lines, usize::from(area.height % 3), area, buf, look);
    });
}

#[test]
fn the_lines_around_a_screen_are_drawn_at_every_size() {
    let offers = offers();
    at_every_size(|area, buf, look| {
        let line = Rect {
            height: area.height.min(1),
            ..area
        };
        let bar = Bar {
            title: WORST,
            screens: &["Sheets", "Rack", "Prints", "Shelf"],
            open: 2,
            end: WORST,
        };
        bar.render(line, buf, look);
        let hints = Hints {
            offers: &offers,
            help: "help",
            begun: None,
        };
        hints.render(line, buf, look);
        Notice::bad(WORST).render(area, buf, look);
        too_small(area, (400, 10), buf, look);
    });
}

#[test]
fn what_opens_over_a_screen_is_drawn_at_every_size() {
    let offers = offers();
    let items: Vec<Item> = (0..7)
        .map(|n| {
            Item::new(n.to_string(), WORST)
                .with_letter('e')
                .with_note(WORST)
        })
        .collect();
    let question = Question {
        title: WORST.into(),
        text: WORST.into(),
        answers: vec![("y".into(), "strike".into()), ("esc".into(), WORST.into())],
    };
    at_every_size(|area, buf, look| {
        let overlay = Overlay {
            title: WORST,
            foot: WORST,
            inner: (30, 5),
        };
        overlay.render(area, buf, look);
        question.render(area, buf, look);
        Menu::new(WORST, items.clone(), Letters::Pick).render(area, buf, look);
        Menu::new(WORST, items.clone(), Letters::Find).render(area, buf, look);
        Help::default().render(&offers, area, buf, look);
    });
}
