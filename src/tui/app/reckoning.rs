//! The finder of figures and the pane that reckons one.

use super::App;
use crate::figures;
use crate::tui::event::Effect;
use crate::tui::overlays::Overlay;
use crate::tui::reckoning::Reckoning;
use crate::tui::widgets::menu::{Item, Letters, Menu};
use crate::tui::widgets::message::Notice;

/// Cells in which the word of a figure stands before its title.
const WORD: usize = 11;

impl App {
    /// Lets a figure be found by its word, its title or its chapter; the cursor is on the last one.
    pub(super) fn open_figures(&mut self) {
        let longest = figures::all().map(|recipe| recipe.word.len()).max();
        let longest = longest.unwrap_or(0).min(WORD);
        let items = figures::all().map(|recipe| {
            let label = format!("{:longest$}  {}", recipe.word, recipe.title);
            Item::new(recipe.word, label).with_note(recipe.chapter.word())
        });
        let mut menu = Menu::new("reckon a figure", items.collect(), Letters::Find);
        let open = match self.overlays.last() {
            Some(Overlay::Reckon(open)) => Some(open.word()),
            _ => self.reckoned.last(),
        };
        if let Some(word) = open {
            menu.select(word);
        }
        self.overlays.push(Overlay::Figures(menu));
    }

    /// Opens the pane of a figure, with what was typed there before in this session.
    pub(super) fn open_reckoning(&mut self, word: &str) {
        let Some(recipe) = figures::named(word) else {
            return;
        };
        // A figure that is looked for while another is open takes its place.
        if let Some(Overlay::Reckon(open)) = self.overlays.last() {
            self.reckoned.keep(open);
            self.overlays.pop();
        }
        let typed = self.reckoned.of(recipe.word);
        let reckoning = Reckoning::new(recipe, &typed, &self.bench);
        self.overlays.push(Overlay::Reckon(Box::new(reckoning)));
    }

    /// The pane on top, if a figure is being reckoned.
    fn reckoning(&mut self) -> Option<&mut Reckoning> {
        match self.overlays.last_mut() {
            Some(Overlay::Reckon(reckoning)) => Some(reckoning),
            _ => None,
        }
    }

    /// Fills in the example of the figure.
    pub(super) fn show_example(&mut self) {
        if let Some(Overlay::Reckon(reckoning)) = self.overlays.last_mut() {
            reckoning.show_example(&self.bench);
        }
    }

    /// Puts the main result on the clipboard.
    pub(super) fn copy_result(&mut self) -> Vec<Effect<()>> {
        let Some(text) = self.reckoning().and_then(|it| it.main_result()) else {
            self.tell(Notice::plain("there is no result to copy yet"));
            return Vec::new();
        };
        self.tell(Notice::good(format!("copied: {text}")));
        vec![Effect::Copy(text)]
    }
}
