use super::*;
use proptest::prelude::*;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Rect};
use ratatui::text::Line;
use ratatui::widgets::{Block, List, Paragraph, Row, Table, Widget, Wrap};

/// Written apart from the filter's own table: what must never arrive anywhere.
fn forbidden(c: char) -> bool {
    let code = u32::from(c);
    c.is_control()
        || matches!(
            c,
            '\u{AD}'
                | '\u{34F}'
                | '\u{61C}'
                | '\u{115F}'
                | '\u{1160}'
                | '\u{17B4}'
                | '\u{17B5}'
                | '\u{3164}'
                | '\u{FEFF}'
                | '\u{FFA0}'
        )
        || [
            (0x180B, 0x180F),
            (0x200B, 0x200F),
            (0x2028, 0x202E),
            (0x2060, 0x206F),
            (0xE000, 0xF8FF),
            (0xFDD0, 0xFDEF),
            (0xFE00, 0xFE0F),
            (0xFFF0, 0xFFFB),
            (0x1BCA0, 0x1BCA3),
            (0x1D173, 0x1D17A),
            (0xE0000, 0xE0FFF),
            (0xF0000, 0x10FFFF),
        ]
        .iter()
        .any(|(from, to)| (*from..=*to).contains(&code))
        || code & 0xFFFF >= 0xFFFE
}

fn every_scalar() -> impl Iterator<Item = char> {
    (0..=0x10_FFFF).filter_map(char::from_u32)
}

/// Ways in which hostile text has reached terminals before.
const PAYLOADS: &[&str] = &[
    "\x1b[31mred",
    "\x1b]52;c;ZXZpbA==\x07",
    "\x1b]0;title\x1b\\",
    "\x1b[6n",
    "\u{9b}31m",
    "\u{9d}52;c;x\u{9c}",
    "a\0b",
    "a\x07b",
    "a\x08\x08b",
    "a\x7fb",
    "a\tb",
    "a\rb",
    "a\nb",
    "a\u{202e}gnp.exe",
    "a\u{2066}b\u{2069}",
    "a\u{200b}b",
    "\u{feff}a",
    "a\u{ad}b",
    "a\u{200d}b",
    "a\u{2028}b\u{2029}",
    "a\u{e0041}\u{e007f}",
    "\u{e000}\u{f0000}",
    "\u{fdd0}\u{ffff}\u{10ffff}",
];

#[test]
fn no_scalar_passes_that_a_terminal_would_obey_or_hide() {
    for c in every_scalar() {
        let raw = format!("a{c}b");
        for out in [shown(&raw), shown_line(&raw)] {
            let bad = out.chars().find(|out| forbidden(*out) && *out != '\n');
            assert_eq!(bad, None, "U+{:04X} gave {out:?}", u32::from(c));
            assert!(width(&out) >= 2, "U+{:04X} gave {out:?}", u32::from(c));
        }
        assert!(!shown_line(&raw).contains('\n'));
    }
}

#[test]
fn every_scalar_is_harmless_in_a_list_which_filters_least_itself() {
    let scalars: Vec<char> = every_scalar().collect();
    for chunk in scalars.chunks(4096) {
        let lines: Vec<String> = chunk
            .chunks(64)
            .map(|row| row.iter().flat_map(|c| [*c, '.']).collect::<String>())
            .map(|raw| shown_line(&raw).into_owned())
            .collect();
        let height = u16::try_from(lines.len()).unwrap_or(u16::MAX);
        let area = Rect::new(0, 0, 320, height);
        let mut buffer = Buffer::empty(area);
        List::new(lines.iter().map(String::as_str)).render(area, &mut buffer);
        assert_clean(&buffer);
    }
}

#[test]
fn payloads_are_visible_and_harmless_through_table_list_title_and_paragraph() {
    let flood = format!("e{}", "\u{301}".repeat(50));
    let all = PAYLOADS.iter().copied().chain([flood.as_str()]);
    for payload in all {
        let text = shown(payload);
        let line = shown_line(payload);
        let mut terminal = Terminal::new(TestBackend::new(60, 12)).unwrap();
        terminal
            .draw(|frame| {
                let [a, b, c, d] = frame.area().layout(&ratatui::layout::Layout::vertical(
                    [Constraint::Length(3); 4],
                ));
                let table = Table::new(
                    [Row::new([line.as_ref(), "x"])],
                    [Constraint::Length(40), Constraint::Length(2)],
                );
                frame.render_widget(table, a);
                frame.render_widget(List::new([line.as_ref()]), b);
                frame.render_widget(Block::bordered().title(Line::raw(line.as_ref())), c);
                frame.render_widget(Paragraph::new(text.as_ref()).wrap(Wrap { trim: false }), d);
            })
            .unwrap();
        let buffer = terminal.backend().buffer();
        assert_clean(buffer);
        let first_row: String = (0..40).map(|x| buffer[(x, 0)].symbol()).collect();
        assert!(
            first_row.contains(line.as_ref()),
            "{line:?} in {first_row:?}"
        );
    }
}

fn assert_clean(buffer: &Buffer) {
    for cell in buffer.content() {
        let symbol = cell.symbol();
        assert!(!symbol.contains(forbidden), "{symbol:?}");
        let marks = symbol.chars().filter(|c| is_mark(*c)).count();
        assert!(marks <= MARKS_PER_BASE, "{symbol:?}");
    }
}

#[test]
fn controls_are_written_with_a_caret_and_others_by_number() {
    assert_eq!(shown("\x1b[0m\0\x7f"), "^[[0m^@^?");
    assert_eq!(shown("\u{9b}"), "<U+009B>");
    assert_eq!(shown("a\u{202e}b"), "a<U+202E>b");
    assert_eq!(shown("\u{10fffd}"), "<U+10FFFD>");
    assert_eq!(shown_line("a\r\nb"), "a^M↵b");
    assert_eq!(shown_line("1\t2"), "1 2");
}

#[test]
fn ordinary_text_is_returned_as_it_is() {
    for text in [
        "f/22+1/3",
        "Größe 20°C, µ ≤ ½",
        "e\u{301}te\u{301}",
        "ภาษาไทย",
        "हिन्दी",
        "한국어",
        "ハﾟ",
        "two\nlines",
        "👩\u{200d}🔬 in the lab",
        "👩🏽\u{200d}❤\u{fe0f}\u{200d}💋\u{200d}👨🏿",
        "❤\u{fe0f}",
        "1\u{fe0f}\u{20e3}",
        "🇨🇭",
    ] {
        assert!(
            matches!(shown(text), Cow::Borrowed(_)),
            "{text:?} → {:?}",
            shown(text)
        );
    }
}

#[test]
fn joiners_and_presentation_marks_outside_emoji_are_visible() {
    assert_eq!(shown("a\u{200d}b"), "a<U+200D>b");
    assert_eq!(shown("👩\u{200d}b"), "👩<U+200D>b");
    assert_eq!(shown("a\u{200d}👩"), "a<U+200D>👩");
    assert_eq!(shown("a\u{fe0f}"), "a<U+FE0F>");
    assert_eq!(shown("1\u{fe0f}"), "1<U+FE0F>");
    assert_eq!(shown("❤\u{fe0f}\u{fe0f}"), "❤\u{fe0f}<U+FE0F>");
}

#[test]
fn floods_are_counted_instead_of_drawn() {
    let flood = format!("e{}!", "\u{301}".repeat(50));
    assert_eq!(
        shown(&flood),
        format!("e{}<+46 marks>!", "\u{301}".repeat(4))
    );
    let tones = format!("👩{}", "🏽".repeat(9));
    assert_eq!(shown(&tones), format!("👩{}<+5 marks>", "🏽".repeat(4)));
    let chain = ["👩"; 50].join("\u{200d}");
    let longest = shown(&chain)
        .graphemes(true)
        .map(|g| g.chars().count())
        .max();
    assert_eq!(longest, Some(2 * JOINS_PER_SEQUENCE + 1));
}

#[test]
fn a_mark_without_a_base_is_written_by_number() {
    assert_eq!(shown("\u{301}a"), "<U+0301>a");
    assert_eq!(shown("a\n\u{301}"), "a\n<U+0301>");
    assert_eq!(shown("\x1b\u{301}"), "^[<U+0301>");
}

#[test]
#[expect(clippy::disallowed_methods, reason = "ratatui itself is asked")]
fn width_is_what_ratatui_draws() {
    for text in [
        "abc",
        "漢字",
        "e\u{301}",
        "ｶﾞ",
        "👩🏽\u{200d}🔬",
        "1\u{fe0f}\u{20e3}",
        "हिन्दी",
        "",
    ] {
        let mut buffer = Buffer::empty(Rect::new(0, 0, 40, 1));
        let (end, _) = buffer.set_stringn(0, 0, text, 40, ratatui::style::Style::new());
        assert_eq!(width(text), usize::from(end), "{text:?}");
    }
}

#[test]
fn fitting_never_splits_a_grapheme() {
    assert_eq!(fit("漢字漢字", 4), "漢…");
    assert_eq!(fit("e\u{301}e\u{301}e\u{301}", 2), "e\u{301}…");
    assert_eq!(fit("abc", 0), "");
    assert_eq!(fit("abc", 1), "…");
    assert_eq!(pad("漢字漢字", 6), "漢字… ");
    assert_eq!(pad_start("1.55", 6), "  1.55");
}

proptest! {
    #[test]
    fn filtering_twice_changes_nothing_more(text in "(\\PC|[\\x00-\\x20]|[\u{200b}-\u{200f}]|[\u{300}-\u{304}]|[👩❤🏽\u{fe0f}\u{200d}1\u{20e3}]){0,24}") {
        let once = shown(&text).into_owned();
        prop_assert_eq!(shown(&once), once.as_str());
        let line = shown_line(&text).into_owned();
        prop_assert_eq!(shown_line(&line), line.as_str());
    }

    #[test]
    fn fitted_text_is_never_wider_than_asked(text in "\\PC{0,20}", cells in 0usize..30) {
        let line = shown_line(&text);
        prop_assert!(width(&fit(&line, cells)) <= cells);
        prop_assert_eq!(width(&pad(&line, cells)), cells);
    }
}
