//! Pictures of every screen, everything that opens over one, the panes and the clock: as text, by their looks
//! in each theme, in the red light, and at every small size.
//!
//! Each picture is a [`Scene`]: a logbook and the keys that lead there. Several pictures stand in one
//! snapshot, so that they are read like pages of a book.

use std::fmt::Write as _;

use super::stand::Stand;
use crate::tui::theme::{Role, ThemeName};

mod scenes;

use scenes::{CLOCK, FIGURES, FIRST_STEPS, OVERLAYS, PANES, SCREENS, Scene};

/// All scenes of a group at one size, drawn by `draw`.
fn book(scenes: &[Scene], size: (u16, u16), draw: impl Fn(&Stand) -> String) -> String {
    let mut book = String::new();
    for scene in scenes {
        let stand = scene.stand(size, ThemeName::Plain);
        let _ = writeln!(book, "=== {}\n{}", scene.name, draw(&stand));
    }
    book
}

/// The looks of all scenes of a group at one size in a theme.
fn looks(scenes: &[Scene], size: (u16, u16), theme: ThemeName) -> String {
    let mut book = String::new();
    for scene in scenes {
        let styles = scene.stand(size, theme).styles();
        // A look that has no role would be a look that no theme can promise anything about.
        assert!(!styles.contains('?'), "{}\n{styles}", scene.name);
        let _ = writeln!(book, "=== {}\n{styles}", scene.name);
    }
    book
}

fn keep(name: &str, book: String) {
    insta::with_settings!({
        prepend_module_to_snapshot => false,
        snapshot_path => "pictures",
        omit_expression => true,
    }, {
        insta::assert_snapshot!(name, book);
    });
}

fn keep_group(name: &str, scenes: &[Scene]) {
    for size @ (wide, high) in [(80, 24), (160, 50)] {
        let text = book(scenes, size, Stand::text);
        keep(&format!("{name}_{wide}x{high}"), text);
    }
    for theme in ThemeName::ALL {
        let looks = looks(scenes, (80, 24), theme);
        keep(&format!("{name}_80x24_{}", theme.word()), looks);
    }
}

#[test]
fn the_screens_look_as_they_did() {
    keep_group("screens", SCREENS);
    for theme in ThemeName::ALL {
        let looks = looks(SCREENS, (160, 50), theme);
        keep(&format!("screens_160x50_{}", theme.word()), looks);
    }
}

#[test]
fn what_opens_over_a_screen_looks_as_it_did() {
    keep_group("overlays", OVERLAYS);
}

#[test]
fn the_panes_look_as_they_did() {
    keep_group("panes", PANES);
}

#[test]
fn the_clock_looks_as_it_did() {
    keep_group("clock", CLOCK);
}

#[test]
fn the_figures_look_as_they_did() {
    keep_group("figures", FIGURES);
}

#[test]
fn a_new_logbook_leads_on_as_it_did() {
    keep_group("first_steps", FIRST_STEPS);
}

#[test]
fn in_the_safelight_no_cell_of_any_picture_is_brighter_than_the_dim_red() {
    for scene in [SCREENS, OVERLAYS, PANES, FIGURES, FIRST_STEPS, CLOCK].concat() {
        for size in [(80, 24), (160, 50), (30, 8)] {
            let stand = scene.stand(size, ThemeName::Safelight);
            let look = *stand.app.look();
            let reds = [look.style(Role::Text).fg, look.style(Role::Quiet).fg];
            let (picture, cursor) = stand.picture();
            assert_eq!(cursor, None, "{}: the terminal's own cursor", scene.name);
            for cell in picture.content() {
                let style = cell.style();
                assert!(reds.contains(&style.fg), "{}: {style:?}", scene.name);
                assert_eq!(style.bg, look.style(Role::Text).bg, "{}", scene.name);
                let bright = ratatui::style::Modifier::REVERSED
                    | ratatui::style::Modifier::SLOW_BLINK
                    | ratatui::style::Modifier::RAPID_BLINK;
                assert!(
                    !style.add_modifier.intersects(bright),
                    "{}: {style:?}",
                    scene.name
                );
            }
        }
    }
}

#[test]
fn every_small_size_can_be_drawn_and_taken_back_in_every_scene() {
    for scene in [SCREENS, OVERLAYS, PANES, FIGURES, FIRST_STEPS, CLOCK].concat() {
        let mut stand = scene.stand((80, 24), ThemeName::Plain);
        let around = |stand: &Stand| {
            let text = stand.text();
            let mut lines = text.lines().map(str::to_owned);
            (lines.next(), lines.next_back())
        };
        let before = around(&stand);
        for wide in 0..=60 {
            for high in 0..=20 {
                stand.resize(wide, high);
                let (_, cursor) = stand.picture();
                assert!(
                    cursor.is_none_or(|at| at.x < wide && at.y < high),
                    "{} at {wide} by {high}: {cursor:?}",
                    scene.name
                );
            }
        }
        stand.resize(80, 24);
        assert_eq!(around(&stand), before, "{}", scene.name);
    }
}

#[test]
fn very_wide_and_very_high_windows_can_be_drawn() {
    for scene in [SCREENS, OVERLAYS, PANES, FIGURES, FIRST_STEPS, CLOCK].concat() {
        let mut stand = scene.stand((80, 24), ThemeName::Dark);
        for size in [(200, 60), (400, 20), (41, 200), (300, 100)] {
            stand.resize(size.0, size.1);
            stand.picture();
        }
    }
}

#[test]
fn the_line_of_hints_always_names_the_key_of_the_help_page() {
    for scene in [SCREENS, OVERLAYS, PANES, FIGURES, FIRST_STEPS].concat() {
        for wide in [40, 80, 160] {
            let stand = scene.stand((wide, 24), ThemeName::Plain);
            let text = stand.text();
            let hints = text.lines().last().unwrap_or_default();
            let named = ["? keys", "f1 keys", "esc close", "f1 close"]
                .iter()
                .any(|hint| hints.contains(hint));
            assert!(named, "{} at {wide}: {hints}", scene.name);
        }
    }
}
