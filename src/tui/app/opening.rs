//! What opens: panes, choices, the road, the doubt, the drafts.

use super::App;
use super::deeds::{ACTIONS, Act};
use crate::logbook::{Deed, Draft, EntryId, Kind, Life, Thing, ThingKind};
use crate::store::{SavedDraft, StoreError};
use crate::tui::overlays::Overlay;
use crate::tui::overlays::doubt::{Answer, Doubt};
use crate::tui::overlays::reason::Reason;
use crate::tui::overlays::road::Road;
use crate::tui::pane::Pane;
use crate::tui::timeline::word;
use crate::tui::widgets::help::Help;
use crate::tui::widgets::menu::{Item, Letters, Menu, Picked};
use crate::tui::widgets::message::{Notice, Question};

/// What can be new without a thing at hand.
const NEW: &[Kind] = &[
    Kind::BoxAdded,
    Kind::HolderAdded,
    Kind::BathMixed,
    Kind::PaperAdded,
    Kind::LensAdded,
    Kind::CameraAdded,
    Kind::FilterFound,
    Kind::TimeFound,
    Kind::DevelopmentFound,
    Kind::LightFound,
    Kind::MeterSet,
    Kind::PlaceKept,
    Kind::FilmFound,
    Kind::FormatFound,
    Kind::StripRead,
    Kind::TabletFound,
    Kind::LimitsSet,
];

/// What a kept draft is to become, and of what.
fn draft_in_words(draft: &SavedDraft) -> String {
    let title = draft.draft.kind.title();
    let title = if draft.name.starts_with("amend ") {
        format!("amend: {title}")
    } else {
        title.to_owned()
    };
    match &draft.about {
        Some(about) => format!("{title}  {about}"),
        None => title,
    }
}

/// The question before leaving with drafts.
pub(super) fn leave_question(drafts: &[SavedDraft]) -> Question {
    let mut text = String::from("Typed and not logged, kept for the next time:\n");
    for draft in drafts.iter().take(6) {
        text.push_str(&format!("  {}\n", draft_in_words(draft)));
    }
    if drafts.len() > 6 {
        text.push_str(&format!("  and {} more\n", drafts.len() - 6));
    }
    Question {
        title: "leave?".to_owned(),
        text,
        answers: vec![
            ("y".to_owned(), "leave".to_owned()),
            ("n".to_owned(), "stay".to_owned()),
        ],
    }
}

impl App {
    pub(super) fn open_next(&mut self) -> Result<(), StoreError> {
        let Some(life) = self.at_hand() else {
            self.open_new();
            return Ok(());
        };
        if self.bench.store.is_read_only() {
            self.tell(Notice::warn(
                "the logbook is open read only: nothing can be logged",
            ));
            return Ok(());
        }
        let thing = life.thing;
        let title = format!("{} is {}", life.reference, life.state_word());
        let kinds = &self.timeline().possible;
        let items = self.items_of(kinds);
        if items.is_empty() {
            self.tell(Notice::plain("nothing can come next here"));
            return Ok(());
        }
        self.overlays.push(Overlay::Next {
            menu: Menu::new(title, items, Letters::Pick),
            thing: Some(thing),
        });
        Ok(())
    }

    pub(super) fn open_new(&mut self) {
        let items = self.items_of(NEW);
        self.overlays.push(Overlay::Next {
            menu: Menu::new("something new", items, Letters::Pick),
            thing: None,
        });
    }

    /// Items for kinds of entries. One that has a key of its own on the screens keeps it as its
    /// letter; the others get the first letter of their word that is free.
    fn items_of(&self, kinds: &[Kind]) -> Vec<Item> {
        let own_key = |kind: &Kind| {
            let action = ACTIONS.iter().find(|it| it.act == Act::Log(*kind))?;
            let key = self.keys.key_of(action.id)?;
            let mut letters = key.chars();
            letters.next().filter(|_| letters.next().is_none())
        };
        let mut taken: Vec<char> = kinds.iter().filter_map(own_key).collect();
        kinds
            .iter()
            .map(|kind| {
                // The word of the command, by which refusals call it, stands behind a title that
                // does not hold it.
                let title = kind.title();
                let word = kind.word();
                let plain = title.contains(word) || NEW.contains(kind);
                let item = Item::new(kind.name(), title).with_note(if plain { "" } else { word });
                let free = || {
                    let word = word.trim_start_matches("add-").trim_start_matches("find-");
                    let mut letters = word.chars().chain('a'..='z');
                    letters.find(|it| it.is_ascii_lowercase() && !taken.contains(it))
                };
                match own_key(kind).or_else(free) {
                    Some(letter) => {
                        taken.push(letter);
                        item.with_letter(letter)
                    }
                    None => item,
                }
            })
            .collect()
    }

    /// The keys that work here, and before them the way of a sheet for whoever is new.
    pub(super) fn open_help(&mut self) {
        let on_screen = self.overlays.is_empty();
        let help = if on_screen {
            let key = |id: &str| self.key_of(id);
            let words = format!(
                "add a holder and a box of film ({new}) · in the rack ({rack}) load a side ({load}) · \
                 expose it ({expose}) · develop it ({develop}) and end the run ({end}) · \
                 measure ({measure}) and file ({file}) the negative · begin a print ({print}) · \
                 log its steps ({step}) until it is dry · press, mount, mat ({mat}), sign, place ({place}) it \
                 · trace it back ({road}). {next} always shows what can come next.",
                new = key("new"),
                rack = key("rack"),
                load = key("log.load"),
                expose = key("log.expose"),
                develop = key("log.develop"),
                end = key("log.end-run"),
                measure = key("log.measure"),
                file = key("log.file"),
                print = key("log.print"),
                step = key("log.step"),
                mat = key("log.mat"),
                place = key("log.place"),
                road = key("road"),
                next = key("next"),
            );
            Help::led_by(
                "from film to print",
                words.replace('·', self.look.symbols.dot),
            )
        } else {
            Help::default()
        };
        self.overlays.push(Overlay::Help(help));
    }

    /// Follows the entry at hand: at once where it touches one other thing, else by a choice.
    pub(super) fn open_links(&mut self) -> Result<(), StoreError> {
        let Some(line) = self.timeline().selected() else {
            return Ok(());
        };
        let items: Vec<Item> = line
            .things
            .iter()
            .map(|named| {
                let life = self.bench.life(named.thing);
                let state = life.map(|life| life.state_word()).unwrap_or_default();
                let label = format!("{}  {}", named.reference, named.thing.kind.name());
                Item::new(named.reference.clone(), label).with_note(state)
            })
            .collect();
        match items.as_slice() {
            [] => {
                self.tell(Notice::plain("this entry touches nothing else"));
                return Ok(());
            }
            [one] => {
                let reference = one.id.clone();
                return self.follow_link(&reference);
            }
            _ => {}
        }
        let title = format!("entry #{} touches", line.row);
        self.overlays
            .push(Overlay::Links(Menu::new(title, items, Letters::Find)));
        Ok(())
    }

    pub(super) fn follow_link(&mut self, reference: &str) -> Result<(), StoreError> {
        let thing = self.timeline().selected().and_then(|line| {
            line.things
                .iter()
                .find(|named| named.reference == reference)
                .map(|named| named.thing)
        });
        match thing {
            Some(thing) => self.go_to(thing),
            None => Ok(()),
        }
    }

    pub(super) fn open_pane_at_hand(&mut self, kind: Kind) -> Result<(), StoreError> {
        let life = self.at_hand().cloned();
        self.open_pane(kind, life.as_ref())
    }

    /// Opens the pane of a kind for a thing, with what was typed there before, if anything was.
    pub(super) fn open_pane(&mut self, kind: Kind, life: Option<&Life>) -> Result<(), StoreError> {
        if self.bench.store.is_read_only() {
            self.tell(Notice::warn(
                "the logbook is open read only: nothing can be logged",
            ));
            return Ok(());
        }
        let (draft, last) = self.bench.draft_for(kind, life)?;
        self.open_drafted(draft, last)
    }

    /// Opens a pane over a draft, unless nothing can be logged.
    pub(super) fn open_drafted(
        &mut self,
        draft: Draft,
        last: Option<Deed>,
    ) -> Result<(), StoreError> {
        if self.bench.store.is_read_only() {
            self.tell(Notice::warn(
                "the logbook is open read only: nothing can be logged",
            ));
            return Ok(());
        }
        let pane = Pane::new(draft, last, &self.bench);
        self.show_pane(pane)
    }

    /// Shows a pane, with what was typed into it before, if anything was.
    fn show_pane(&mut self, mut pane: Pane) -> Result<(), StoreError> {
        if let Some(kept) = self.kept_draft(pane.draft_name())? {
            pane.bring_back(kept.draft.typed, &self.bench);
        }
        self.overlays.push(Overlay::Pane(Box::new(pane)));
        self.count_drafts()
    }

    fn kept_draft(&self, name: &str) -> Result<Option<SavedDraft>, StoreError> {
        let kept = self.bench.store.drafts()?;
        Ok(kept.into_iter().find(|kept| kept.name == name))
    }

    pub(super) fn open_drafts(&mut self) -> Result<(), StoreError> {
        let now = self.bench.now();
        let items = self.bench.store.drafts()?.into_iter().map(|draft| {
            let age = crate::logbook::follows::since(draft.changed, now);
            let label = draft_in_words(&draft);
            Item::new(draft.name, label).with_note(age)
        });
        let menu = Menu::new("typed and not logged", items.collect(), Letters::Find);
        self.overlays.push(Overlay::Drafts(menu));
        Ok(())
    }

    pub(super) fn bring_back(&mut self, name: &str) -> Result<(), StoreError> {
        let Some(kept) = self.kept_draft(name)? else {
            return Ok(());
        };
        let entry = name
            .strip_prefix("amend ")
            .and_then(|id| id.parse().ok())
            .map(EntryId);
        if let Some(entry) = entry {
            self.amend(entry)?;
            return Ok(());
        }
        let pane = Pane::kept(kept.name, kept.draft, &self.bench);
        self.overlays.push(Overlay::Pane(Box::new(pane)));
        Ok(())
    }

    pub(super) fn open_doubt(&mut self) -> Result<(), StoreError> {
        let Some(side) = self.side_at_hand() else {
            return Ok(());
        };
        let lines = self
            .bench
            .store
            .timeline(side.thing.id, &self.bench.reference)?;
        if let Some(doubt) = Doubt::about(&side, &lines) {
            self.overlays.push(Overlay::Doubt(doubt));
        }
        Ok(())
    }

    pub(super) fn resolve(&mut self, answer: &Answer) -> Result<(), StoreError> {
        let Some(side) = self.side_at_hand() else {
            return Ok(());
        };
        match answer {
            Answer::LogIsRight => self.open_pane(Kind::SlideRighted, Some(&side)),
            Answer::Late(kind) => {
                self.open_pane(*kind, Some(&side))?;
                self.tell(Notice::plain(
                    "say in \"when\" at what time it happened: before the slide was seen",
                ));
                Ok(())
            }
            Answer::Amend(entry) => self.amend(*entry),
            Answer::Strike(entry) => {
                let what = self.words_on(*entry)?;
                self.overlays
                    .push(ask_why("strike this entry", "", vec![(*entry, what)]));
                Ok(())
            }
        }
    }

    fn words_on(&self, entry: EntryId) -> Result<String, StoreError> {
        let line = self.bench.line_of(entry)?;
        Ok(line.map_or_else(String::new, |line| {
            format!(
                "#{} {}  {}  {}",
                line.row,
                line.happened.format("%-d %b %Y %H:%M"),
                word(line.kind),
                line.telling.headline
            )
        }))
    }

    pub(super) fn open_strike(&mut self) {
        let Some(line) = self.timeline().selected() else {
            return;
        };
        if line.struck.is_some() {
            self.tell(Notice::warn(
                "that entry is struck already; to bring it back, strike the strike",
            ));
            return;
        }
        let what = format!(
            "#{} {}  {}  {}",
            line.row,
            line.happened.format("%-d %b %Y %H:%M"),
            word(line.kind),
            line.telling.headline
        );
        let entry = line.entry;
        self.overlays
            .push(ask_why("strike this entry", "", vec![(entry, what)]));
    }

    pub(super) fn open_undo(&mut self) -> Result<(), StoreError> {
        if self.bench.store.is_read_only() {
            self.tell(Notice::warn("the logbook is open read only"));
            return Ok(());
        }
        let Some(act) = self.bench.store.last_act(&self.bench.reference)? else {
            self.tell(Notice::plain("there is nothing to undo"));
            return Ok(());
        };
        let entries = act
            .entries
            .iter()
            .rev()
            .map(|entry| {
                let what = format!("#{} {}  {}", entry.row, word(entry.kind), entry.headline);
                (entry.entry, what)
            })
            .collect();
        self.overlays
            .push(ask_why("strike what was logged last", "undone", entries));
        Ok(())
    }

    pub(super) fn open_amend(&mut self) -> Result<(), StoreError> {
        let Some(line) = self.timeline().selected() else {
            return Ok(());
        };
        if line.is_remark {
            self.tell(Notice::warn(
                "a strike or an amendment is not amended: strike it, then say it anew",
            ));
            return Ok(());
        }
        if line.struck.is_some() {
            self.tell(Notice::warn(
                "that entry is struck: strike the strike first",
            ));
            return Ok(());
        }
        let entry = line.entry;
        self.amend(entry)
    }

    fn amend(&mut self, entry: EntryId) -> Result<(), StoreError> {
        let settled = self.bench.store.as_it_counts(entry)?;
        let row = self.bench.store.row_of(entry)?;
        let (Some(settled), Some(row)) = (settled, row) else {
            return Ok(());
        };
        let pane = Pane::amending(&settled, row, &self.bench);
        self.show_pane(pane)
    }

    pub(super) fn open_road(&mut self) -> Result<(), StoreError> {
        let Some(life) = self.at_hand() else {
            return Ok(());
        };
        // The road of a side is that of the sheet in it.
        let from = match life.side().and_then(|side| side.sheet) {
            Some(sheet) => Thing::new(ThingKind::Sheet, sheet),
            None => life.thing,
        };
        let name = self
            .bench
            .life(from)
            .map(|life| life.reference)
            .unwrap_or_default();
        let road = Road::behind(from, &name, &self.bench)?;
        self.overlays.push(Overlay::Road(road));
        Ok(())
    }

    /// What a choice in the menu on top means.
    pub(super) fn picked(&mut self, picked: Picked) -> Result<(), StoreError> {
        let id = match picked {
            Picked::Item(id) => id,
            Picked::Closed(why) => {
                self.tell(Notice::warn(why));
                return Ok(());
            }
            Picked::Ignored | Picked::Moved => return Ok(()),
        };
        match self.overlays.pop() {
            Some(Overlay::Next { thing, .. }) => {
                let Some(kind) = Kind::named(&id) else {
                    return Ok(());
                };
                let life = thing.and_then(|thing| self.bench.life(thing));
                self.open_pane(kind, life.as_ref())
            }
            Some(Overlay::Links(_)) => self.follow_link(&id),
            Some(Overlay::Drafts(_)) => self.bring_back(&id),
            Some(Overlay::Figures(_)) => {
                self.open_reckoning(&id);
                Ok(())
            }
            Some(Overlay::Begun(begun)) => self.end_begun(begun.side, &id),
            Some(Overlay::Doubt(doubt)) => match doubt.answer(&id) {
                Some(answer) => self.resolve(&answer.clone()),
                None => Ok(()),
            },
            other => {
                self.overlays.extend(other);
                Ok(())
            }
        }
    }
}

/// Asks why these entries are struck.
fn ask_why(title: &'static str, reason: &str, entries: Vec<(EntryId, String)>) -> Overlay {
    let (ids, what) = entries.into_iter().unzip();
    Overlay::Reason(Reason::new(title, ids, what, reason))
}
