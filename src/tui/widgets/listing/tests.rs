use super::*;
use proptest::prelude::*;

const COLUMNS: &[Column] = &[
    Column::new("", 6),
    Column::new("", 8).growing(1),
    Column::new("", 5).aligned(Align::Decimal).ranked(1),
];

fn rows(range: Range<usize>) -> Vec<Row> {
    range
        .map(|n| {
            Row::new(vec![
                format!("S-{n:04}").into(),
                "exposed".into(),
                format!("{}.{}", n % 12, n % 7).into(),
            ])
        })
        .collect()
}

fn drawn(listing: &Listing, rows: &[Row], first: usize, size: (u16, u16)) -> Vec<String> {
    let area = Rect::new(0, 0, size.0, size.1);
    let mut buf = Buffer::empty(area);
    let loaded = Loaded { first, rows };
    listing.render(
        area,
        &mut buf,
        &Look::plain(),
        COLUMNS,
        loaded,
        true,
        "no sheets yet",
    );
    area.rows()
        .map(|row| {
            let text: String = row
                .columns()
                .map(|at| buf[at.as_position()].symbol())
                .collect();
            text.trim_end().to_owned()
        })
        .collect()
}

#[test]
fn the_window_follows_the_cursor() {
    let mut listing = Listing::new(100);
    listing.set_height(10);
    assert!(listing.step(Step::Down(12)));
    assert_eq!(listing.window(10), 3..13);
    listing.step(Step::Up(1));
    assert_eq!(listing.window(10), 3..13);
    listing.step(Step::Last);
    assert_eq!(listing.window(10), 90..100);
    listing.step(Step::PageUp);
    assert_eq!((listing.cursor(), listing.window(10)), (Some(90), 81..91));
    listing.step(Step::First);
    assert!(!listing.step(Step::Up(1)));
}

#[test]
fn the_wheel_moves_the_window_and_takes_the_cursor_along() {
    let mut listing = Listing::new(100);
    listing.set_height(10);
    assert!(listing.scroll(3));
    assert_eq!((listing.cursor(), listing.window(10)), (Some(3), 3..13));
    assert!(listing.scroll(-1));
    assert_eq!((listing.cursor(), listing.window(10)), (Some(3), 2..12));
    listing.scroll(1000);
    assert_eq!(listing.window(10), 90..100);
    assert!(!listing.scroll(1));
}

#[test]
fn rows_to_load_are_asked_for_before_they_are_missing() {
    let mut listing = Listing::new(1_000_000);
    listing.set_height(20);
    assert_eq!(listing.needed(&(0..0)), Some(0..40));
    assert_eq!(listing.needed(&(0..40)), None);
    listing.step(Step::Down(40));
    assert_eq!(listing.needed(&(0..40)), Some(1..61));
    listing.step(Step::Last);
    assert_eq!(listing.needed(&(0..61)), Some(999_960..1_000_000));
}

#[test]
fn the_cursor_stays_on_its_line_when_others_come_in_before() {
    let mut listing = Listing::new(10);
    listing.set_height(5);
    listing.step(Step::Down(2));
    listing.shift(1);
    assert_eq!((listing.cursor(), listing.total()), (Some(3), 11));
    listing.set_total(2);
    assert_eq!(listing.cursor(), Some(1));
    listing.set_total(0);
    assert_eq!(listing.cursor(), None);
}

#[test]
fn lines_are_drawn_in_columns_with_the_cursor_marked() {
    let mut listing = Listing::new(3);
    listing.step(Step::Down(1));
    let all = rows(8..11);
    assert_eq!(
        drawn(&listing, &all, 0, (26, 4)),
        [
            " S-0008  exposed       8.1",
            "▸S-0009  exposed       9.2",
            " S-0010  exposed      10.3",
            "",
        ]
    );
    // Narrow: the figures give way.
    assert_eq!(drawn(&listing, &all, 0, (18, 1)), ["▸S-0009  exposed ┃"]);
}

#[test]
fn rows_that_are_not_loaded_yet_leave_a_mark() {
    let listing = Listing::new(40);
    let some = rows(0..1);
    assert_eq!(
        drawn(&listing, &some, 0, (18, 2)),
        ["▸S-0000  exposed ┃", " …"]
    );
}

#[test]
fn an_empty_list_says_so() {
    assert_eq!(drawn(&Listing::new(0), &[], 0, (20, 1)), [" no sheets yet"]);
}

#[test]
fn a_click_puts_the_cursor_on_the_line_under_it() {
    let mut listing = Listing::new(40);
    listing.set_height(5);
    listing.step(Step::Down(10));
    let area = Rect::new(3, 2, 20, 5);
    assert_eq!(listing.click(area, COLUMNS, Position::new(4, 3)), Some(7));
    assert_eq!(listing.cursor(), Some(7));
    assert_eq!(listing.click(area, COLUMNS, Position::new(1, 3)), None);
}

#[test]
fn a_struck_line_is_crossed_out_and_still_legible() {
    let listing = Listing::new(2);
    let mut all = rows(0..2);
    all[1].struck = true;
    let area = Rect::new(0, 0, 26, 2);
    let mut buf = Buffer::empty(area);
    let loaded = Loaded {
        first: 0,
        rows: &all,
    };
    listing.render(area, &mut buf, &Look::plain(), COLUMNS, loaded, true, "");
    assert!(buf[(1, 1)].modifier.contains(Modifier::CROSSED_OUT));
    assert_eq!(buf[(1, 1)].symbol(), "S");
    assert!(!buf[(1, 0)].modifier.contains(Modifier::CROSSED_OUT));
}

proptest! {
    #[test]
    fn the_cursor_is_always_in_the_list_and_in_view(
        total in 0usize..50,
        height in 0u16..20,
        moves in proptest::collection::vec((0u8..9, 0usize..60), 0..30),
    ) {
        let mut listing = Listing::new(total);
        listing.set_height(height);
        for (kind, n) in moves {
            match kind {
                0 => { listing.step(Step::Up(n)); }
                1 => { listing.step(Step::Down(n)); }
                2 => { listing.step(Step::PageUp); }
                3 => { listing.step(Step::PageDown); }
                4 => { listing.step(Step::To(n)); }
                5 => { listing.scroll(n as isize - 30); }
                6 => listing.set_total(n),
                7 => listing.set_height(n as u16),
                _ => listing.shift(1),
            }
            let window = listing.window(listing.height as u16);
            match listing.cursor() {
                None => prop_assert_eq!(listing.total(), 0),
                Some(cursor) => {
                    prop_assert!(cursor < listing.total());
                    prop_assert!(listing.height == 0 || window.contains(&cursor), "{cursor} {window:?}");
                }
            }
            prop_assert!(window.end <= listing.total());
        }
    }
}
