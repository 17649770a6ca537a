//! Roles of text and the themes that give each role its looks.
//!
//! For: screens name a [`Role`] ("quiet", "doubt") and never a colour.
//!
//! Promises: no role is told from another by colour alone where the difference matters; the plain
//! theme sets no colour at all; in the safelight theme no cell is brighter than the dim red and
//! the ground is black everywhere, whatever a widget asked for, because [`Theme::seal`] goes over
//! the finished picture. Bright black is never used: on many palettes it is invisible.
//!
//! Leaves to others: the words and signs that carry the meaning.

use ratatui::buffer::{Buffer, CellWidth};
use ratatui::layout::{Position, Rect};
use ratatui::style::{Color, Modifier, Style};

/// What a piece of text is, so that a theme can say how it looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Role {
    /// Ordinary text.
    Text,
    /// Text that steps back: dates that repeat, units, explanations.
    Quiet,
    /// Thin lines between parts.
    Rule,
    /// Titles and names of columns.
    Heading,
    /// The item under the cursor.
    Selected,
    /// The one colour that leads the eye.
    Accent,
    /// Something went well.
    Good,
    /// Something wants attention.
    Warn,
    /// Something is wrong.
    Error,
    /// What the log and the world disagree about.
    Doubt,
    /// An entry that was crossed out.
    Struck,
    /// A field that can be filled.
    Field,
    /// The field that is being filled.
    FieldFocus,
    /// A key that can be pressed.
    Key,
}

impl Role {
    /// Every role, for tests and for a page that shows them.
    pub const ALL: [Role; 14] = [
        Role::Text,
        Role::Quiet,
        Role::Rule,
        Role::Heading,
        Role::Selected,
        Role::Accent,
        Role::Good,
        Role::Warn,
        Role::Error,
        Role::Doubt,
        Role::Struck,
        Role::Field,
        Role::FieldFocus,
        Role::Key,
    ];
}

/// The themes a person can choose from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ThemeName {
    /// The terminal's own colours, bold, underline and reverse only.
    Plain,
    /// Colours from the terminal's sixteen, on its own ground.
    Dark,
    /// Dim red on black, for rooms with light-sensitive paper.
    Safelight,
}

impl ThemeName {
    /// Every theme, in the order in which a person steps through them.
    pub const ALL: [ThemeName; 3] = [ThemeName::Plain, ThemeName::Dark, ThemeName::Safelight];

    /// The word used in the settings and on the command line.
    pub const fn word(self) -> &'static str {
        match self {
            ThemeName::Plain => "plain",
            ThemeName::Dark => "dark",
            ThemeName::Safelight => "safelight",
        }
    }

    /// The theme with this word.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|name| name.word() == word)
    }
}

/// What the terminal is able to show.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Depth {
    /// No colour: `NO_COLOR` is set or the terminal is a dumb one.
    Mono,
    /// The sixteen colours of the palette.
    Sixteen,
    /// 256 colours or more, of which those from 16 on do not depend on the palette.
    Many,
}

/// What the environment says about the terminal.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Surroundings {
    /// `NO_COLOR` is set and not empty.
    pub no_color: bool,
    /// `TERM`.
    pub term: String,
    /// `COLORTERM`.
    pub colorterm: String,
    /// `COLORFGBG`, by which some terminals tell their ground.
    pub colorfgbg: String,
}

impl Surroundings {
    /// Reads the environment of this process.
    pub fn from_env() -> Self {
        let read = |name: &str| std::env::var(name).unwrap_or_default();
        Self {
            no_color: !read("NO_COLOR").is_empty(),
            term: read("TERM"),
            colorterm: read("COLORTERM"),
            colorfgbg: read("COLORFGBG"),
        }
    }

    /// How many colours can be relied on.
    pub fn depth(&self) -> Depth {
        const RICH: [&str; 8] = [
            "256color",
            "direct",
            "kitty",
            "alacritty",
            "foot",
            "ghostty",
            "wezterm",
            "rio",
        ];
        if self.no_color || self.term == "dumb" {
            Depth::Mono
        } else if !self.colorterm.is_empty() || RICH.iter().any(|part| self.term.contains(part)) {
            Depth::Many
        } else {
            Depth::Sixteen
        }
    }

    fn light_ground(&self) -> bool {
        matches!(self.colorfgbg.rsplit(';').next(), Some("7" | "15"))
    }
}

/// How each role looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Theme {
    name: ThemeName,
    depth: Depth,
}

/// The reds of the safelight theme: for text, and for what steps back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Reds {
    text: Color,
    quiet: Color,
    ground: Color,
}

/// `#870000`, `#5f0000` and black of the fixed colour cube.
const CUBE_REDS: Reds = Reds {
    text: Color::Indexed(88),
    quiet: Color::Indexed(52),
    ground: Color::Indexed(16),
};

/// The palette has only one dark red.
const PALETTE_REDS: Reds = Reds {
    text: Color::Red,
    quiet: Color::Red,
    ground: Color::Black,
};

impl Theme {
    /// A theme for a terminal of the given depth.
    ///
    /// Without colour, plain and dark are the same. Safelight keeps its red even then: white
    /// light over open paper does more harm than an unwanted colour, so who asks for it by name
    /// gets it.
    pub const fn new(name: ThemeName, depth: Depth) -> Self {
        match (name, depth) {
            (ThemeName::Dark, Depth::Mono) => Self {
                name: ThemeName::Plain,
                depth,
            },
            _ => Self { name, depth },
        }
    }

    /// The theme a person asked for, or the one that suits the terminal best.
    ///
    /// Without a wish that is plain where there is no colour or the ground is known to be light,
    /// else dark.
    pub fn choose(wish: Option<ThemeName>, around: &Surroundings) -> Self {
        let fallback = if around.light_ground() {
            ThemeName::Plain
        } else {
            ThemeName::Dark
        };
        Self::new(wish.unwrap_or(fallback), around.depth())
    }

    /// The next theme of those that differ on this terminal.
    pub fn next(&self) -> Self {
        let at = ThemeName::ALL.iter().position(|name| *name == self.name);
        let (before, after) = ThemeName::ALL.split_at(at.map_or(0, |at| at + 1));
        after
            .iter()
            .chain(before)
            .map(|name| Self::new(*name, self.depth))
            .find(|theme| theme.name != self.name)
            .unwrap_or(*self)
    }

    /// Which theme this is.
    pub const fn name(&self) -> ThemeName {
        self.name
    }

    /// Whether colours are sent at all.
    pub const fn is_coloured(&self) -> bool {
        !matches!(self.name, ThemeName::Plain)
    }

    /// Whether the terminal's own cursor may be shown. It is white on many terminals, so in
    /// safelight the fields draw a caret instead.
    pub const fn shows_cursor(&self) -> bool {
        !matches!(self.name, ThemeName::Safelight)
    }

    /// Foreground and background to clear with, where the theme has a ground of its own.
    pub const fn ground(&self) -> Option<(Color, Color)> {
        match self.name {
            ThemeName::Safelight => {
                let reds = self.reds();
                Some((reds.text, reds.ground))
            }
            ThemeName::Plain | ThemeName::Dark => None,
        }
    }

    const fn reds(&self) -> Reds {
        match self.depth {
            Depth::Many => CUBE_REDS,
            Depth::Mono | Depth::Sixteen => PALETTE_REDS,
        }
    }

    /// How text of this role looks.
    pub const fn style(&self, role: Role) -> Style {
        match self.name {
            ThemeName::Plain => plain(role),
            ThemeName::Dark => dark(role),
            ThemeName::Safelight => safelight(role, self.reds()),
        }
    }

    /// Empties `area`: blanks in ordinary text on the theme's ground.
    ///
    /// A wide sign that reaches into the area from its left edge is taken away, since the terminal
    /// would draw its second half over what comes next.
    #[expect(clippy::disallowed_methods, reason = "a blank hides nothing")]
    pub fn paint_ground(&self, area: Rect, buf: &mut Buffer) {
        let area = area.intersection(buf.area);
        let style = self.style(Role::Text);
        for y in area.top()..area.bottom() {
            if area.left() > buf.area.left() {
                let edge = Position::new(area.left() - 1, y);
                if let Some(cell) = buf.cell_mut(edge)
                    && cell.symbol().cell_width() > 1
                {
                    cell.set_symbol(" ");
                }
            }
            for x in area.left()..area.right() {
                if let Some(cell) = buf.cell_mut(Position::new(x, y)) {
                    cell.reset();
                    cell.set_style(style);
                }
            }
        }
    }

    /// Goes over the finished picture so that the theme's promise holds for every cell.
    pub fn seal(&self, buf: &mut Buffer) {
        match self.name {
            ThemeName::Dark => {}
            ThemeName::Plain => {
                for cell in &mut buf.content {
                    cell.fg = Color::Reset;
                    cell.bg = Color::Reset;
                    cell.underline_color = Color::Reset;
                }
            }
            ThemeName::Safelight => {
                let reds = self.reds();
                // Bold makes palette colours bright on many terminals.
                let brightening = match self.depth {
                    Depth::Many => Modifier::empty(),
                    Depth::Mono | Depth::Sixteen => Modifier::BOLD,
                };
                for cell in &mut buf.content {
                    if cell.fg != reds.quiet {
                        cell.fg = reds.text;
                    }
                    cell.bg = reds.ground;
                    cell.underline_color = Color::Reset;
                    cell.modifier -= Modifier::REVERSED
                        | Modifier::SLOW_BLINK
                        | Modifier::RAPID_BLINK
                        | brightening;
                }
            }
        }
    }
}

const fn plain(role: Role) -> Style {
    let style = Style::new();
    match role {
        Role::Text | Role::Quiet | Role::Rule | Role::Good => style,
        Role::Heading | Role::Accent | Role::Warn | Role::Key => style.add_modifier(Modifier::BOLD),
        Role::Selected => style.add_modifier(Modifier::REVERSED),
        Role::Error => style.add_modifier(Modifier::BOLD.union(Modifier::REVERSED)),
        Role::Doubt => style.add_modifier(Modifier::BOLD.union(Modifier::UNDERLINED)),
        Role::Struck => style.add_modifier(Modifier::CROSSED_OUT),
        Role::Field => style.add_modifier(Modifier::UNDERLINED),
        Role::FieldFocus => style.add_modifier(Modifier::BOLD.union(Modifier::UNDERLINED)),
    }
}

const fn dark(role: Role) -> Style {
    let style = Style::new();
    match role {
        Role::Text => style,
        Role::Quiet | Role::Rule => style.add_modifier(Modifier::DIM),
        Role::Heading => style.add_modifier(Modifier::BOLD),
        Role::Selected => style.add_modifier(Modifier::REVERSED),
        Role::Accent | Role::Key => style.fg(Color::Cyan),
        Role::Good => style.fg(Color::Green),
        Role::Warn => style.fg(Color::Yellow),
        Role::Error => style.fg(Color::Red).add_modifier(Modifier::BOLD),
        Role::Doubt => style.fg(Color::Magenta).add_modifier(Modifier::BOLD),
        Role::Struck => style.add_modifier(Modifier::CROSSED_OUT.union(Modifier::DIM)),
        Role::Field => style.add_modifier(Modifier::UNDERLINED),
        Role::FieldFocus => style.fg(Color::Cyan).add_modifier(Modifier::UNDERLINED),
    }
}

const fn safelight(role: Role, reds: Reds) -> Style {
    let text = Style::new().fg(reds.text).bg(reds.ground);
    let quiet = Style::new().fg(reds.quiet).bg(reds.ground);
    match role {
        Role::Text | Role::Accent | Role::Good => text,
        Role::Quiet | Role::Rule => quiet,
        Role::Struck => quiet.add_modifier(Modifier::CROSSED_OUT),
        Role::Heading | Role::Warn | Role::Error | Role::Key => text.add_modifier(Modifier::BOLD),
        Role::Doubt => text.add_modifier(Modifier::BOLD.union(Modifier::UNDERLINED)),
        Role::Selected | Role::FieldFocus => text.add_modifier(Modifier::UNDERLINED),
        Role::Field => quiet.add_modifier(Modifier::UNDERLINED),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use ratatui::style::Stylize;
    use ratatui::widgets::{Block, Paragraph, Widget};

    fn around(term: &str) -> Surroundings {
        Surroundings {
            term: term.into(),
            ..Surroundings::default()
        }
    }

    #[test]
    fn plain_and_everything_without_colour_set_no_colour() {
        for theme in [
            Theme::new(ThemeName::Plain, Depth::Many),
            Theme::new(ThemeName::Dark, Depth::Mono),
        ] {
            for role in Role::ALL {
                let style = theme.style(role);
                assert_eq!((style.fg, style.bg), (None, None), "{role:?}");
            }
        }
    }

    #[test]
    fn safelight_never_reverses_and_uses_only_reds_on_black() {
        for (depth, reds) in [
            (Depth::Many, CUBE_REDS),
            (Depth::Sixteen, PALETTE_REDS),
            (Depth::Mono, PALETTE_REDS),
        ] {
            let theme = Theme::new(ThemeName::Safelight, depth);
            for role in Role::ALL {
                let style = theme.style(role);
                assert!(
                    [Some(reds.text), Some(reds.quiet)].contains(&style.fg),
                    "{role:?}"
                );
                assert_eq!(style.bg, Some(reds.ground), "{role:?}");
                assert!(!style.add_modifier.contains(Modifier::REVERSED), "{role:?}");
            }
        }
    }

    #[test]
    fn the_safelight_seal_tames_whatever_a_widget_drew() {
        for depth in [Depth::Many, Depth::Sixteen, Depth::Mono] {
            let theme = Theme::new(ThemeName::Safelight, depth);
            let reds = theme.reds();
            let area = Rect::new(0, 0, 20, 4);
            let mut buf = Buffer::empty(area);
            Paragraph::new("bright".white().on_blue().reversed().bold().slow_blink())
                .block(Block::bordered().yellow())
                .render(area, &mut buf);
            theme.seal(&mut buf);
            for cell in buf.content() {
                assert!([reds.text, reds.quiet].contains(&cell.fg));
                assert_eq!(cell.bg, reds.ground);
                assert!(!cell.modifier.contains(Modifier::REVERSED));
                assert!(depth == Depth::Many || !cell.modifier.contains(Modifier::BOLD));
            }
        }
    }

    #[test]
    fn roles_that_must_not_be_confused_differ_without_colour() {
        for depth in [Depth::Many, Depth::Mono] {
            for name in ThemeName::ALL {
                let theme = Theme::new(name, depth);
                let shape = |role| theme.style(role).add_modifier;
                assert_ne!(shape(Role::Selected), shape(Role::Text), "{name:?}");
                assert_ne!(shape(Role::Struck), shape(Role::Text), "{name:?}");
                assert_ne!(shape(Role::Doubt), shape(Role::Text), "{name:?}");
                assert_ne!(shape(Role::Error), shape(Role::Text), "{name:?}");
            }
        }
    }

    #[test]
    fn the_terminal_decides_when_nothing_was_asked_for() {
        let choose = |around: &Surroundings| Theme::choose(None, around).name();
        assert_eq!(choose(&around("xterm-256color")), ThemeName::Dark);
        assert_eq!(choose(&around("dumb")), ThemeName::Plain);
        let mut monochrome = around("xterm-256color");
        monochrome.no_color = true;
        assert_eq!(choose(&monochrome), ThemeName::Plain);
        let mut light = around("rxvt");
        light.colorfgbg = "0;default;15".into();
        assert_eq!(choose(&light), ThemeName::Plain);
    }

    #[test]
    fn depth_is_not_promised_to_a_console_that_may_not_have_it() {
        assert_eq!(around("linux").depth(), Depth::Sixteen);
        assert_eq!(around("xterm").depth(), Depth::Sixteen);
        assert_eq!(around("screen-256color").depth(), Depth::Many);
        assert_eq!(around("xterm-kitty").depth(), Depth::Many);
    }

    #[test]
    fn painting_the_ground_takes_away_a_wide_sign_that_reaches_in() {
        let theme = Theme::new(ThemeName::Dark, Depth::Many);
        let mut buf = Buffer::with_lines(["a漢字b"]);
        theme.paint_ground(Rect::new(2, 0, 9, 1), &mut buf);
        assert_eq!(buf, Buffer::with_lines(["a     "]));
    }
}
