//! What was logged, or would be, in a line each.

use serde_json::{Value, json};

use super::answer::Answer;
use super::trouble::Trouble;
use crate::logbook::history::target;
use crate::logbook::telling::tell;
use crate::logbook::{Deed, Draft, Entry, Life, Names, Thing, ThingId, ThingKind, cautions};
use crate::reference::Reference;
use crate::store::{Receipt, Store};

/// An entry in words.
pub(super) struct Told {
    /// What it is about.
    pub(super) subject: String,
    /// The figures that matter most.
    pub(super) figures: String,
    /// What came into being, or the sheet it was, where the subject does not say so.
    pub(super) also: Option<String>,
}

impl Told {
    /// Tells a deed.
    pub(super) fn of(deed: &Deed, names: &dyn Names, reference: &Reference) -> Told {
        let created = deed.creates().map(|(_, reference)| reference.to_owned());
        let about = deed
            .kind()
            .about()
            .map(|key| Draft::of(deed, names).get(key).to_owned())
            .filter(|text| !text.is_empty());
        let sheet = match deed {
            Deed::Exposed(exposed) => exposed.sheet,
            Deed::Unloaded(unloaded) => unloaded.sheet,
            Deed::Loaded(loaded) => Some(loaded.sheet),
            _ => None,
        };
        let subject = about.or_else(|| created.clone()).unwrap_or_default();
        let also = sheet
            .map(|sheet| names.reference_of(sheet))
            .or(created)
            .filter(|also| *also != subject);
        let headline = tell(deed, names, reference).headline;
        // Some headlines begin with the subject, which has been said.
        let figures = headline
            .strip_prefix(&subject)
            .map(|rest| rest.trim_start_matches([',', ' ']))
            .unwrap_or(&headline);
        Told {
            figures: figures.to_owned(),
            subject,
            also,
        }
    }

    /// `exposed H-07 A: f/32 at 6 s (S-0042)`
    pub(super) fn line(&self, deed: &Deed) -> String {
        let mut line = deed.kind().name().to_owned();
        if !self.subject.is_empty() {
            line.push(' ');
            line.push_str(&self.subject);
        }
        if !self.figures.is_empty() {
            line.push_str(": ");
            line.push_str(&self.figures);
        }
        if let Some(also) = &self.also
            && !self.figures.contains(also.as_str())
        {
            line.push_str(&format!(" ({also})"));
        }
        line
    }
}

/// A deed in a line. A strike or an amendment is told with the entry it is about.
fn line(
    deed: &Deed,
    names: &dyn Names,
    store: &Store,
    reference: &Reference,
) -> Result<String, Trouble> {
    let about = match target(deed) {
        None => None,
        Some(id) => store.row_of(id)?.zip(store.as_it_counts(id)?),
    };
    let (row, then, reason) = match (deed, about) {
        (Deed::Struck(struck), Some((row, was))) => (row, was.deed, &struck.reason),
        (Deed::Amended(amended), Some((row, _))) => (row, (*amended.deed).clone(), &amended.reason),
        _ => return Ok(Told::of(deed, names, reference).line(deed)),
    };
    let told = Told::of(&then, names, reference).line(&then);
    Ok(format!("{} #{row} {told}: {reason}", deed.kind()))
}

/// An entry as a JSON object; `row` is its number, once it has one.
pub(super) fn entry_document(
    row: Option<i64>,
    entry: &Entry,
    names: &dyn Names,
    reference: &Reference,
) -> Value {
    let told = Told::of(&entry.deed, names, reference);
    let created = entry.deed.creates().map(
        |(thing, reference)| json!({ "kind": thing.kind, "id": thing.id, "reference": reference }),
    );
    let things: Vec<Value> = entry
        .deed
        .touches()
        .into_iter()
        .map(|thing| thing_document(thing, names))
        .collect();
    json!({
        "row": row,
        "entry": row.map(|_| entry.id),
        "kind": entry.kind().name(),
        "about": told.subject,
        "headline": tell(&entry.deed, names, reference).headline,
        "happened": entry.happened,
        "created": created,
        "things": things,
        "over": entry.over,
        "note": entry.note,
    })
}

/// A thing with what it is called.
pub(super) fn thing_document(thing: Thing, names: &dyn Names) -> Value {
    json!({
        "kind": thing.kind,
        "id": thing.id,
        "reference": names.reference_of(thing.id),
    })
}

/// The cautions for deeds that are about to be logged, each once, the closing sentence last.
pub(super) fn caution_lines<'a>(
    deeds: impl Iterator<Item = &'a Deed>,
    names: &dyn Names,
    reference: &Reference,
) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for deed in deeds {
        for caution in cautions(deed, names, reference) {
            let line = format!("caution: {}: {}", caution.title, caution.words);
            if !lines.contains(&line) {
                lines.push(line);
            }
        }
    }
    if !lines.is_empty() {
        lines.push(reference.closing().to_owned());
    }
    lines
}

/// What was logged, entry by entry, read back from the logbook.
pub(super) fn receipt(
    store: &Store,
    reference: &Reference,
    written: &Receipt,
) -> Result<Answer, Trouble> {
    let mut answer = Answer::default();
    let mut documents = Vec::new();
    for one in &written.entries {
        let Some(entry) = store.entry_by_row(one.row)? else {
            continue;
        };
        let line = line(&entry.deed, store, store, reference)?;
        answer.line(format!("#{} {line}", one.row));
        documents.push(entry_document(Some(one.row), &entry, store, reference));
    }
    let answer = answer.with("written", true);
    Ok(answer
        .with("act", written.act.to_string())
        .with("entries", documents))
}

/// What would be logged: nothing was written.
pub(super) fn rehearsal(
    entries: &[Entry],
    lives: &[Life],
    store: &Store,
    reference: &Reference,
) -> Result<Answer, Trouble> {
    let names = Rehearsed {
        lives,
        names: store,
    };
    let mut answer = Answer::default();
    let mut documents = Vec::new();
    for entry in entries {
        let line = line(&entry.deed, &names, store, reference)?;
        answer.line(format!("would be logged: {line}"));
        documents.push(entry_document(None, entry, &names, reference));
    }
    answer.line("nothing was written");
    Ok(answer.with("written", false).with("entries", documents))
}

/// The names of a logbook with an act that was judged and not written.
struct Rehearsed<'a> {
    lives: &'a [Life],
    names: &'a dyn Names,
}

impl Names for Rehearsed<'_> {
    fn find(&self, kinds: &[ThingKind], reference: &str) -> Option<Thing> {
        let mut lives = self.lives.iter().map(|life| (life.thing, &life.reference));
        lives
            .find(|(thing, called)| kinds.contains(&thing.kind) && *called == reference)
            .map(|(thing, _)| thing)
            .or_else(|| self.names.find(kinds, reference))
    }

    fn life_of(&self, thing: ThingId) -> Option<Life> {
        let judged = self.lives.iter().find(|life| life.thing.id == thing);
        judged.cloned().or_else(|| self.names.life_of(thing))
    }
}
