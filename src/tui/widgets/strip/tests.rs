use ratatui::style::Modifier;

use super::*;

fn at(text: &str) -> NaiveDateTime {
    NaiveDateTime::parse_from_str(text, "%Y-%m-%d %H:%M").unwrap()
}

fn happening(when: &str, word: &str, figures: &[&str]) -> Happening {
    Happening {
        figures: figures.iter().map(|figure| (*figure).to_owned()).collect(),
        ..Happening::new(at(when), word)
    }
}

fn life() -> Vec<Happening> {
    let mut loaded = happening("2025-12-30 21:32", "loaded", &["H-07 A"]);
    loaded.mark = Some("slide bright out".into());
    let mut exposed = happening("2026-03-04 16:02", "exposed", &["f/32 at 6 s"]);
    exposed.details = vec![(
        "read".into(),
        vec!["III 8.7".into(), "V 10.3".into(), "VIII 13.9".into()],
    )];
    let mut wrong = happening("2026-03-04 16:05", "exposed", &["f/22 at 3 s"]);
    wrong.struck = Some("wrong side".into());
    let mut filed = happening("2026-03-07 00:00", "filed", &["binder 4", "page 11"]);
    filed.timed = false;
    vec![loaded, exposed, wrong, filed]
}

fn drawn(view: StripView, life: &[Happening], size: (u16, u16)) -> (Vec<String>, Buffer) {
    let next = ["print".to_owned(), "note".to_owned()];
    let strip = Strip {
        happenings: life,
        next: &next,
        today: NaiveDate::from_ymd_opt(2026, 3, 9).unwrap(),
    };
    let area = Rect::new(0, 0, size.0, size.1);
    let mut buf = Buffer::empty(area);
    view.render(&strip, area, &mut buf, &Look::plain(), true);
    let rows = area
        .rows()
        .map(|row| {
            let text: String = row
                .columns()
                .map(|at| buf[at.as_position()].symbol())
                .collect();
            text.trim_end().to_owned()
        })
        .collect();
    (rows, buf)
}

#[test]
fn days_are_written_where_they_change_and_years_where_they_differ_from_today() {
    let (rows, _) = drawn(StripView::at_last(4), &life(), (56, 9));
    assert_eq!(
        rows,
        [
            " 2025 ──────────────────────────────────────────────────",
            " 30 Dec 21:32  loaded   H-07 A          slide bright out",
            " 2026 ──────────────────────────────────────────────────",
            " 04 Mar 16:02  exposed  f/32 at 6 s",
            "               read     III 8.7, V 10.3, VIII 13.9",
            "        16:05  exposed  f/22 at 3 s   struck: wrong side",
            "▸07 Mar        filed    binder 4, page 11",
            "               next     print, note",
            "",
        ]
        .map(str::to_owned)
    );
}

#[test]
fn figures_that_find_no_room_go_on_in_the_next_line_and_the_mark_under_them() {
    let life = life();
    let (rows, _) = drawn(
        StripView {
            cursor: 2,
            ..StripView::default()
        },
        &life[1..3],
        (41, 6),
    );
    assert_eq!(
        rows,
        [
            " 04 Mar 16:02  exposed f/32 at 6 s",
            "               read    III 8.7, V 10.3,",
            "                       VIII 13.9",
            "        16:05  exposed f/22 at 3 s",
            "                       struck: wrong side",
            "               next    print, note",
        ]
        .map(str::to_owned)
    );
}

#[test]
fn a_struck_entry_is_crossed_out_and_its_word_is_not() {
    let (rows, buf) = drawn(
        StripView {
            cursor: 2,
            ..StripView::default()
        },
        &life(),
        (56, 9),
    );
    assert!(rows[5].starts_with('▸') && rows[5].ends_with("struck: wrong side"));
    let crossed = |x| buf[(x, 5)].modifier.contains(Modifier::CROSSED_OUT);
    assert!(crossed(15) && crossed(24));
    assert!(!crossed(40) && !crossed(55));
}

#[test]
fn the_window_follows_the_cursor_and_tells_that_there_is_more() {
    let life = life();
    let strip = Strip {
        happenings: &life,
        next: &[],
        today: NaiveDate::from_ymd_opt(2026, 3, 9).unwrap(),
    };
    let area = Rect::new(0, 0, 56, 3);
    let mut view = StripView::at_last(4);
    view.settle(&strip, area);
    assert_eq!(view.first, Anchor { entry: 1, nth: 2 });
    assert!(view.step(4, -2));
    view.settle(&strip, area);
    assert_eq!(view.first, Anchor { entry: 1, nth: 1 });
    assert!(view.step(4, -5) && !view.step(4, -1));
    let (rows, _) = drawn(view, &life, (56, 3));
    assert!(rows[0].starts_with("▸30 Dec"), "{rows:?}");
    assert!(rows[2].starts_with('…'), "{rows:?}");
}

#[test]
fn a_click_puts_the_cursor_on_the_entry_under_it() {
    let life = life();
    let strip = Strip {
        happenings: &life,
        next: &[],
        today: NaiveDate::from_ymd_opt(2026, 3, 9).unwrap(),
    };
    let area = Rect::new(2, 1, 54, 8);
    let mut view = StripView::at_last(4);
    // The line of readings belongs to the exposure.
    assert_eq!(view.click(&strip, area, Position::new(5, 5)), Some(1));
    assert_eq!(view.click(&strip, area, Position::new(5, 1)), None);
    assert_eq!(view.cursor, 1);
}

#[test]
fn a_long_note_is_cut_after_a_few_lines() {
    let life = [happening(
        "2026-03-04 16:02",
        "note",
        &["word "; 1]
            .map(|w| w.repeat(200))
            .each_ref()
            .map(String::as_str),
    )];
    let (rows, _) = drawn(StripView::at_last(1), &life, (40, 12));
    assert!(rows[FIGURE_LINES - 1].ends_with('…'), "{rows:?}");
    assert_eq!(rows[FIGURE_LINES], "               next print, note");
}

fn with_figures() -> Vec<Happening> {
    let mut life = life();
    life[1].more = vec![
        ("lens".into(), "L-02".into()),
        ("light".into(), "daylight, overcast".into()),
    ];
    life[1].foot = "entry #57".into();
    life[3].more = vec![("scan".into(), "reel 4".into())];
    life[3].foot = "entry #60".into();
    life
}

#[test]
fn where_all_of_it_fits_every_entry_tells_everything() {
    let (rows, _) = drawn(StripView::at_last(4), &with_figures(), (72, 12));
    assert!(rows[5].contains("lens L-02   light daylight, overcast"));
    assert!(
        rows.iter()
            .any(|row| row.ends_with("scan reel 4   entry #60"))
    );
    assert!(!rows.iter().any(|row| row.contains("#57")), "{rows:?}");
}

#[test]
fn where_room_is_short_only_the_entry_under_the_cursor_tells_everything() {
    for size in [(72, 8), (50, 12)] {
        let view = StripView {
            cursor: 1,
            ..StripView::default()
        };
        let (rows, _) = drawn(view, &with_figures(), size);
        let text = rows.join("\n");
        assert!(text.contains("lens L-02"), "{text}");
        assert!(text.contains("entry #57"), "{text}");
        assert!(!text.contains("reel 4"), "{text}");
    }
}

#[test]
fn a_long_value_goes_on_under_its_label() {
    let mut one = happening("2026-03-04 16:02", "exposed", &["f/32"]);
    one.more = vec![("place".into(), "a ledge above the old winch house".into())];
    let (rows, _) = drawn(StripView::at_last(1), &[one], (44, 6));
    assert_eq!(
        rows[1..3],
        [
            "               place a ledge above the old",
            "               winch house",
        ]
        .map(str::to_owned)
    );
}

#[test]
fn of_a_long_life_a_page_is_laid_out_and_every_entry_is_reached() {
    let life: Vec<Happening> = (0..3000)
        .map(|minute| {
            let mut one = happening("2026-03-04 00:00", "exposed", &["f/32 at 6 s"]);
            one.when += chrono::TimeDelta::minutes(minute);
            one.more = vec![("lens".into(), "L-02".into())];
            one
        })
        .collect();
    let strip = Strip {
        happenings: &life,
        next: &[],
        today: NaiveDate::from_ymd_opt(2026, 3, 9).unwrap(),
    };
    let area = Rect::new(0, 0, 60, 20);
    assert!(strip.lines(area, 1500).len() < 60);
    let mut view = StripView::at_last(life.len());
    let mut last_row = None;
    for _ in 0..life.len() {
        view.settle(&strip, area);
        let lines = strip.lines(area, view.cursor);
        let first = view.first_line(&lines, 20);
        let on = lines.iter().position(|line| line.of == Some(view.cursor));
        let row = on.expect("the entry at the cursor") - first;
        assert!(row < 20);
        // The window moves only when the cursor comes to its edge.
        if let Some(last) = last_row {
            assert!(row + 1 == last || row == 0, "{row} after {last}");
        }
        last_row = Some(row);
        view.step(life.len(), -1);
    }
}
