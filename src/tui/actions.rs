//! What can be done, declared once.
//!
//! For: an application writes one constant table of [`Action`]s. From it come the dispatch of
//! keys, the line of hints, the help page, the check of the user's own keys and the key table in
//! the documentation.
//!
//! Promises: a mistake in the settings is told in a sentence and the rest works on; the user's own
//! key wins over a default one; two-key sequences work everywhere. [`faults`] is the test of the
//! table itself.
//!
//! Leaves to others: doing the thing (`act` is the application's own enum) and deciding whether it
//! is possible now (`when`).

use std::borrow::Cow;
use std::collections::BTreeMap;

use super::keys::{Chord, KeyError, Keys};
use super::nearest::nearest;

/// Where keys are pressed: a screen, a pane, an overlay, or everywhere.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// What the place is called in messages.
    pub word: &'static str,
    /// Nothing outside the place gets a key while it is open.
    pub modal: bool,
    /// Characters are typed into a field there, so they cannot be keys.
    pub typing: bool,
}

impl Place {
    /// Everywhere.
    pub const GLOBAL: Place = Place::screen("everywhere");

    /// A screen or pane.
    pub const fn screen(word: &'static str) -> Self {
        Self {
            word,
            modal: false,
            typing: false,
        }
    }

    /// An overlay, which takes all keys.
    pub const fn overlay(word: &'static str) -> Self {
        Self {
            word,
            modal: true,
            typing: false,
        }
    }

    /// The same place while a text field has the focus.
    pub const fn with_typing(self) -> Self {
        Self {
            typing: true,
            ..self
        }
    }

    /// Whether keys of both places can be meant at one moment.
    fn meets(self, other: Self) -> bool {
        self == other
            || (self == Self::GLOBAL && !other.modal)
            || (other == Self::GLOBAL && !self.modal)
    }
}

/// Whether an action can be done now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Availability {
    /// It can.
    Yes,
    /// It cannot, for the reason given; pressing its key tells the reason.
    No(Cow<'static, str>),
    /// It makes no sense here and is not offered.
    Hidden,
}

/// One thing that a person can do.
///
/// `C` is what `when` looks at, `A` the application's own name for the deed.
#[derive(Debug)]
pub struct Action<C: 'static, A: Copy + 'static> {
    /// Name in the settings, `"sheets.next"`.
    pub id: &'static str,
    /// What the application does.
    pub act: A,
    /// Where the key works.
    pub places: &'static [Place],
    /// Keys when the user has not chosen others.
    pub keys: &'static [&'static str],
    /// At most [`LABEL_CELLS`] cells, for the line of hints.
    pub label: &'static str,
    /// One full sentence, for the help page.
    pub sentence: &'static str,
    /// Heading on the help page.
    pub group: &'static str,
    /// The lower, the longer the hint stays when room is short.
    pub rank: u8,
    /// Whether it can be done now.
    pub when: fn(&C) -> Availability,
}

/// Room for a label in the line of hints.
pub const LABEL_CELLS: usize = 12;

/// The user's own keys for one action.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rebinding {
    /// Name of the action.
    pub id: String,
    /// The keys as written; none at all takes every key away.
    pub keys: Vec<String>,
}

/// Something in the user's keys that does not work as written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum KeyMapProblem {
    /// No action has this name.
    #[error("keys: there is no action \"{id}\"{}; it is left out", meant(.nearest))]
    UnknownAction {
        /// The name as written.
        id: String,
        /// The name that may have been meant.
        nearest: Option<String>,
    },
    /// A key cannot be read.
    #[error("keys for \"{id}\": {error}; it is left out")]
    Unreadable {
        /// Name of the action.
        id: String,
        /// What is wrong with the key.
        error: KeyError,
    },
    /// Two actions want one key in one place.
    #[error(
        "keys: \"{keys}\" is wanted by \"{kept}\" and by \"{lost}\" ({place}); \"{kept}\" has it"
    )]
    Clash {
        /// The key both want.
        keys: String,
        /// The action that has the key.
        kept: String,
        /// The action that does without.
        lost: String,
        /// Where both would be meant.
        place: &'static str,
    },
    /// The key is a character where characters are typed.
    #[error(
        "keys for \"{id}\": \"{keys}\" is typed into the field there ({place}); choose a key with ctrl or a function key"
    )]
    TypedAway {
        /// Name of the action.
        id: String,
        /// The key that never arrives.
        keys: String,
        /// Where it is typed.
        place: &'static str,
    },
}

fn meant(nearest: &Option<String>) -> String {
    nearest
        .as_ref()
        .map(|name| format!(", perhaps \"{name}\" was meant"))
        .unwrap_or_default()
}

/// What a key press means.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Pressed<A> {
    /// Do this.
    Do(A),
    /// It cannot be done now, for this reason.
    Cannot(Cow<'static, str>),
    /// The beginning of a two-key sequence; the hints show how it can go on.
    Begun,
    /// Nothing; in a place where characters are typed, the field gets the key.
    Nothing,
}

/// What the table says about a key.
enum Found<C: 'static, A: Copy + 'static> {
    Action(&'static Action<C, A>),
    Begun,
    Nothing,
}

/// An action as hints and help show it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    /// Name in the settings.
    pub id: &'static str,
    /// Keys that do it, the first one for hints.
    pub keys: Vec<String>,
    /// Short label.
    pub label: &'static str,
    /// Full sentence.
    pub sentence: &'static str,
    /// Heading.
    pub group: &'static str,
    /// The lower, the more important.
    pub rank: u8,
    /// Whether it can be done now.
    pub available: Availability,
}

/// Which keys do what: the table's defaults and the user's changes.
#[derive(Debug)]
pub struct KeyMap<C: 'static, A: Copy + 'static> {
    actions: &'static [Action<C, A>],
    /// Keys of each action, in the order of the table.
    keys: Vec<Vec<Keys>>,
}

struct Claim {
    action: usize,
    keys: Keys,
}

impl<C, A: Copy> KeyMap<C, A> {
    /// Builds the map. What does not work is left out and told.
    pub fn new(
        actions: &'static [Action<C, A>],
        rebindings: &[Rebinding],
    ) -> (Self, Vec<KeyMapProblem>) {
        let mut problems = Vec::new();
        let mut own: BTreeMap<usize, Vec<Keys>> = BTreeMap::new();
        for rebinding in rebindings {
            let Some(at) = actions.iter().position(|a| a.id == rebinding.id) else {
                problems.push(KeyMapProblem::UnknownAction {
                    id: rebinding.id.clone(),
                    nearest: nearest(&rebinding.id, actions.iter().map(|a| a.id))
                        .map(str::to_owned),
                });
                continue;
            };
            let read = own.entry(at).or_default();
            for text in &rebinding.keys {
                match text.parse() {
                    Ok(keys) => read.push(keys),
                    Err(error) => problems.push(KeyMapProblem::Unreadable {
                        id: rebinding.id.clone(),
                        error,
                    }),
                }
            }
        }
        // The user's own keys come first, so that a default gives way to them.
        let wishes = own
            .iter()
            .flat_map(|(at, keys)| keys.iter().map(move |keys| (*at, *keys)))
            .chain(actions.iter().enumerate().flat_map(|(at, action)| {
                let default = !own.contains_key(&at);
                action
                    .keys
                    .iter()
                    .filter(move |_| default)
                    .filter_map(move |text| text.parse().ok().map(|keys| (at, keys)))
            }));
        let mut claims: Vec<Claim> = Vec::new();
        for (action, keys) in wishes {
            match refuse(actions, &claims, action, keys) {
                Some(problem) => problems.push(problem),
                None => claims.push(Claim { action, keys }),
            }
        }
        let mut keys = vec![Vec::new(); actions.len()];
        for claim in claims {
            if let Some(list) = keys.get_mut(claim.action) {
                list.push(claim.keys);
            }
        }
        (Self { actions, keys }, problems)
    }

    /// What a key means. `places` are the places that have the focus, the innermost first; `begun`
    /// holds the first key of a sequence between two calls.
    ///
    /// The innermost place wins, a hidden action lets its key through to the next. In a place where
    /// characters are typed they are never keys. A second key that does not go on with a sequence
    /// ends it and does nothing, so that no slip does a deed.
    pub fn press(
        &self,
        places: &[Place],
        begun: &mut Option<Chord>,
        chord: Chord,
        context: &C,
    ) -> Pressed<A> {
        match self.find(places, begun.take(), chord, context) {
            Found::Begun => {
                *begun = Some(chord);
                Pressed::Begun
            }
            Found::Nothing => Pressed::Nothing,
            Found::Action(action) => match (action.when)(context) {
                Availability::No(reason) => Pressed::Cannot(reason),
                Availability::Yes | Availability::Hidden => Pressed::Do(action.act),
            },
        }
    }

    fn find(
        &self,
        places: &[Place],
        begun: Option<Chord>,
        chord: Chord,
        context: &C,
    ) -> Found<C, A> {
        if places.first().is_some_and(|place| place.typing) && chord.is_printable() {
            return Found::Nothing;
        }
        for place in places {
            for (action, keys) in self.actions.iter().zip(&self.keys) {
                let hidden = || (action.when)(context) == Availability::Hidden;
                if !action.places.contains(place) || hidden() {
                    continue;
                }
                for keys in keys {
                    match (begun, keys.second) {
                        (None, None) if keys.first == chord => return Found::Action(action),
                        (None, Some(_)) if keys.first == chord => return Found::Begun,
                        (Some(first), Some(second)) if keys.first == first && second == chord => {
                            return Found::Action(action);
                        }
                        _ => {}
                    }
                }
            }
            if place.modal {
                break;
            }
        }
        Found::Nothing
    }

    /// What can be done in these places, in the order of rank; the same action is told once.
    pub fn offers(&self, places: &[Place], context: &C) -> Vec<Offer> {
        let reach = places
            .iter()
            .position(|place| place.modal)
            .map_or(places.len(), |at| at + 1);
        let places = places.get(..reach).unwrap_or(places);
        // An inner place takes a key from the places around it.
        let mut taken: Vec<String> = Vec::new();
        let mut offers: Vec<Offer> = Vec::new();
        for place in places {
            let mut taken_here = Vec::new();
            for (action, keys) in self.actions.iter().zip(&self.keys) {
                let told = offers.iter().any(|offer| offer.id == action.id);
                let available = (action.when)(context);
                if told || !action.places.contains(place) || available == Availability::Hidden {
                    continue;
                }
                let all: Vec<String> = keys.iter().map(Keys::to_string).collect();
                let left: Vec<String> = all
                    .iter()
                    .filter(|keys| !taken.contains(keys))
                    .cloned()
                    .collect();
                if left.is_empty() && !all.is_empty() {
                    continue;
                }
                taken_here.extend(left.iter().cloned());
                offers.push(Offer {
                    id: action.id,
                    keys: left,
                    label: action.label,
                    sentence: action.sentence,
                    group: action.group,
                    rank: action.rank,
                    available,
                });
            }
            taken.extend(taken_here);
        }
        offers.sort_by_key(|offer| offer.rank);
        offers
    }

    /// The first key of an action, to name it in a sentence.
    pub fn key_of(&self, id: &str) -> Option<String> {
        self.keys_of(id).into_iter().next()
    }

    /// Every key of an action.
    pub fn keys_of(&self, id: &str) -> Vec<String> {
        let found = self
            .actions
            .iter()
            .zip(&self.keys)
            .find(|(action, _)| action.id == id);
        found.map_or_else(Vec::new, |(_, keys)| {
            keys.iter().map(Keys::to_string).collect()
        })
    }
}

/// Why `action` cannot have `keys`, if it cannot.
fn refuse<C, A: Copy>(
    actions: &[Action<C, A>],
    claims: &[Claim],
    action: usize,
    keys: Keys,
) -> Option<KeyMapProblem> {
    let this = actions.get(action)?;
    let typed = this.places.iter().find(|place| place.typing);
    if let Some(place) = typed
        && keys.first.is_printable()
    {
        return Some(KeyMapProblem::TypedAway {
            id: this.id.to_owned(),
            keys: keys.to_string(),
            place: place.word,
        });
    }
    claims
        .iter()
        .filter(|claim| claim.keys.collide(keys))
        .find_map(|claim| {
            let other = actions.get(claim.action)?;
            let place = this
                .places
                .iter()
                .find(|place| other.places.iter().any(|there| place.meets(*there)))?;
            Some(KeyMapProblem::Clash {
                keys: keys.to_string(),
                kept: other.id.to_owned(),
                lost: this.id.to_owned(),
                place: place.word,
            })
        })
}

/// What is wrong with a table of actions; for the application's own test.
///
/// A name may stand only once; a label fits its room; a sentence begins with a capital and ends
/// with a full stop; default keys can be read, do not clash and need neither Alt nor Ctrl with
/// Shift.
pub fn faults<C, A: Copy>(actions: &'static [Action<C, A>]) -> Vec<String> {
    let mut faults: Vec<String> = KeyMap::new(actions, &[])
        .1
        .iter()
        .map(KeyMapProblem::to_string)
        .collect();
    for (at, action) in actions.iter().enumerate() {
        let id = action.id;
        if actions.iter().take(at).any(|other| other.id == id) {
            faults.push(format!("{id}: stands twice in the table"));
        }
        let label = crate::export::shown::width(action.label);
        if label == 0 || label > LABEL_CELLS {
            faults.push(format!(
                "{id}: label \"{}\" takes {label} cells",
                action.label
            ));
        }
        let begins = action
            .sentence
            .chars()
            .next()
            .is_some_and(char::is_uppercase);
        if !begins || !action.sentence.ends_with('.') {
            faults.push(format!("{id}: \"{}\" is not a sentence", action.sentence));
        }
        if action.places.is_empty() || action.group.is_empty() {
            faults.push(format!("{id}: has no place or no group"));
        }
        for text in action.keys {
            match text.parse::<Keys>() {
                Err(error) => faults.push(format!("{id}: {error}")),
                Ok(keys) => {
                    let unsure =
                        keys.first.is_unsure() || keys.second.is_some_and(Chord::is_unsure);
                    if unsure {
                        faults.push(format!("{id}: not every terminal can send {text}"));
                    }
                }
            }
        }
    }
    faults
}

#[cfg(test)]
mod tests;
