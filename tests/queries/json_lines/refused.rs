//! What is not taken in, and why; and that nothing but what was carried ever comes in.

use notchbook::export::jsonl::{ImportError, read_lines, write_lines};
use notchbook::logbook::{Deed, Kind, Noted};
use notchbook::store::{Finding, Manner, Store, StoreError, Stored};
use proptest::prelude::*;

use super::{elsewhere, eventful, export, import, projections, stored};
use crate::darkroom::Darkroom;

const HEADER: &str =
    r#"{"notchbook":1,"schema":1,"machine":"00000000-0000-0000-0000-000000000000"}"#;

#[test]
fn a_changed_line_is_noticed_and_nothing_is_taken_in() {
    let room = eventful();
    let text = export(&room.store);
    let changed = text.replace("binder 4, page 11", "binder 4, page 12");
    assert_ne!(changed, text);
    let line = 1 + text
        .lines()
        .position(|line| line.contains("\"kind\":\"filed\""))
        .expect("a filing") as u64;
    let mut other = elsewhere();
    let outcome = import(&mut other, &changed, Manner::AllOrNothing);
    assert_eq!(outcome.taken, 0);
    let refused = outcome
        .not_taken
        .iter()
        .find(|it| it.line == line)
        .expect("the line");
    assert!(refused.why.contains("hash"), "{}", refused.why);
    assert_eq!(stored(&other.store), []);
    assert_eq!(projections(&other), projections(&elsewhere()));

    let outcome = import(&mut other, &changed, Manner::KeepWhatFits);
    assert!(outcome.not_taken.iter().any(|it| it.line == line));
    assert_eq!(
        outcome.taken as usize + outcome.not_taken.len(),
        text.lines().count() - 1
    );
    let checked = other.store.check(&other.reference).expect("a check");
    assert!(
        checked
            .findings
            .iter()
            .all(|finding| matches!(finding, Finding::Missing { .. })),
        "{:?}",
        checked.findings
    );
}

#[test]
fn an_id_with_other_content_is_listed_and_left_alone() {
    let mut room = Darkroom::winter_quarry();
    let text = export(&room.store);
    let before = stored(&room.store);
    // The same id with other content and a hash that is right for it.
    let mut forged = before[10].clone();
    forged.note = Some("something else".to_owned());
    let line = text.lines().nth(11).expect("a line");
    let hash = line.find(",\"hash\"").expect("a hash");
    let line = format!(
        "{},\"note\":\"something else\",\"hash\":\"{}\"}}",
        &line[..hash],
        right_hash(&mut forged)
    );
    let outcome = import(
        &mut room,
        &format!("{HEADER}\n{line}\n"),
        Manner::KeepWhatFits,
    );
    assert_eq!(outcome.taken, 0);
    assert_eq!(outcome.not_taken.len(), 1);
    assert_eq!(outcome.not_taken[0].line, 2);
    assert!(
        outcome.not_taken[0].why.contains("#11"),
        "{}",
        outcome.not_taken[0].why
    );
    assert_eq!(stored(&room.store), before);
}

/// Gives an entry the hash that is right for it, reckoned as the store's documentation says.
fn right_hash(stored: &mut Stored) -> String {
    let mut hasher = blake3::Hasher::new();
    let mut put = |field: Option<&[u8]>| match field {
        Some(bytes) => {
            hasher.update(&(bytes.len() as u64).to_le_bytes());
            hasher.update(bytes);
        }
        None => {
            hasher.update(&[0xff; 8]);
        }
    };
    let time = |at: chrono::DateTime<chrono::FixedOffset>| {
        let mut bytes = at.timestamp_micros().to_be_bytes().to_vec();
        bytes.extend((at.offset().local_minus_utc() / 60).to_be_bytes());
        bytes
    };
    put(Some(b"notchbook entry 1"));
    put(Some(stored.id.0.as_bytes()));
    put(Some(stored.act.0.as_bytes()));
    put(Some(stored.machine.0.as_bytes()));
    put(Some(&stored.seq.to_be_bytes()));
    put(Some(&time(stored.happened)));
    put(Some(&time(stored.written)));
    put(Some(stored.kind.as_bytes()));
    put(Some(&stored.form.to_be_bytes()));
    put(Some(stored.body.as_bytes()));
    put(stored.strikes.as_ref().map(|it| &it.0.as_bytes()[..]));
    put(stored.amends.as_ref().map(|it| &it.0.as_bytes()[..]));
    put(stored.over.as_deref().map(str::as_bytes));
    put(stored.note.as_deref().map(str::as_bytes));
    let hash = hasher.finalize();
    stored.hash = hash.into();
    assert!(stored.is_intact());
    hash.to_hex().to_string()
}

#[test]
fn a_copied_logbook_that_went_on_by_itself_is_told_apart() {
    let mut room = Darkroom::winter_quarry();
    let entries = stored(&room.store).len();
    room.log(Kind::Noted, &[("thing", "P-0001"), ("text", "here")]);
    // As the copy would have written it: same machine, same number, another entry.
    let mut copied = stored(&room.store)[entries].clone();
    let text = export(&room.store);
    let line = text.lines().last().expect("a line");
    let line = line.replace(
        &copied.id.to_string(),
        &uuid::Uuid::from_u128(77).to_string(),
    );
    copied.id = notchbook::logbook::EntryId(uuid::Uuid::from_u128(77));
    let hash = line.find("\"hash\"").expect("a hash");
    let line = format!(
        "{}\"hash\":\"{}\"}}",
        &line[..hash],
        right_hash(&mut copied)
    );
    let outcome = import(
        &mut room,
        &format!("{HEADER}\n{line}\n"),
        Manner::AllOrNothing,
    );
    assert_eq!(outcome.taken, 0);
    let why = &outcome.not_taken[0].why;
    assert!(why.contains("copied"), "{why}");
}

#[test]
fn a_file_that_was_cut_off_is_noticed() {
    let room = eventful();
    let text = export(&room.store);
    let whole_lines: String = text
        .lines()
        .take(9)
        .map(|line| format!("{line}\n"))
        .collect();
    let half_a_line = &text[..text.len() - 100];
    for cut in [whole_lines.as_str(), half_a_line] {
        let mut other = elsewhere();
        let outcome = import(&mut other, cut, Manner::AllOrNothing);
        assert_eq!(outcome.taken, 0);
        assert!(!outcome.not_taken.is_empty());
        assert_eq!(stored(&other.store), []);
        let outcome = import(&mut other, cut, Manner::KeepWhatFits);
        assert!(outcome.taken > 5, "{outcome:?}");
        assert!(!outcome.not_taken.is_empty());
    }
}

#[test]
fn an_act_comes_in_whole_or_not_at_all() {
    let mut room = Darkroom::new();
    room.log(
        Kind::BoxAdded,
        &[("film", "FP4 Plus"), ("size", "4x5"), ("sheets", "9")],
    );
    let one = room.read(Kind::HolderAdded, &[("size", "4x5"), ("sides", "2")]);
    let other = room.read(Kind::HolderAdded, &[("size", "5x7"), ("sides", "2")]);
    room.act(vec![one.deed, other.deed]).expect("an act of two");
    let text = export(&room.store).replace("5x7 in", "8x10 in");
    let mut empty = elsewhere();
    let outcome = import(&mut empty, &text, Manner::KeepWhatFits);
    assert_eq!(outcome.taken, 1);
    let lines: Vec<u64> = outcome.not_taken.iter().map(|it| it.line).collect();
    assert_eq!(lines, [3, 4]);
    assert!(outcome.not_taken[0].why.contains("line 4"));
    assert!(empty.store.rack().expect("a rack").is_empty());
}

#[test]
fn what_does_not_fit_the_logbook_is_refused_in_a_sentence() {
    let room = Darkroom::winter_quarry();
    let text = export(&room.store);
    // A logbook with a holder H-01 of its own.
    let mut other = elsewhere();
    other.log(Kind::HolderAdded, &[("size", "4x5"), ("sides", "2")]);
    let before = stored(&other.store);
    let outcome = import(&mut other, &text, Manner::AllOrNothing);
    assert_eq!(outcome.taken, 0);
    let refused = &outcome.not_taken[0];
    assert_eq!(refused.line, 3);
    assert!(refused.why.contains("H-01 is taken"), "{}", refused.why);
    assert_eq!(stored(&other.store), before);
}

#[test]
fn other_files_are_told_from_an_export() {
    let mut room = Darkroom::new();
    for text in [
        "",
        "\n\n",
        "hello",
        "{}",
        "[1,2]",
        "{\"id\":\"x\"}\n",
        "{\"notchbook\":\"one\"}",
        "\u{0}\u{1}\u{2}",
    ] {
        let error = read_lines(
            &mut room.store,
            &mut text.as_bytes(),
            Manner::KeepWhatFits,
            &room.reference,
        )
        .expect_err("it is no export");
        assert!(matches!(error, ImportError::NotOurs), "{text:?}: {error}");
    }
    let newer = "{\"notchbook\":2,\"machine\":{\"new\":\"form\"}}\n";
    let error = read_lines(
        &mut room.store,
        &mut newer.as_bytes(),
        Manner::AllOrNothing,
        &room.reference,
    )
    .expect_err("it is newer");
    assert!(matches!(error, ImportError::Newer { found: 2 }), "{error}");
}

#[test]
fn broken_lines_are_listed_with_their_numbers() {
    let room = Darkroom::winter_quarry();
    let text = export(&room.store);
    let mut lines: Vec<Vec<u8>> = text.lines().map(|line| line.as_bytes().to_vec()).collect();
    let count = lines.len() as u64;
    lines.push(b"not json".to_vec());
    lines.push(b"".to_vec());
    lines.push(b"\xff\xfe".to_vec());
    lines.push(vec![b'x'; 700_000]);
    lines.push(lines[1].replace(b"\"form\":1", b"\"form\":1,\"colour\":3"));
    let file = lines.join(&b'\n');
    let mut other = elsewhere();
    let outcome = read_lines(
        &mut other.store,
        &mut file.as_slice(),
        Manner::KeepWhatFits,
        &other.reference,
    )
    .expect("an import");
    assert_eq!(outcome.taken, count - 1);
    let numbers: Vec<u64> = outcome.not_taken.iter().map(|it| it.line).collect();
    let bad: Vec<u64> = [1, 3, 4, 5].iter().map(|more| count + more).collect();
    assert_eq!(numbers[..4], bad);
    assert_eq!(
        numbers.len(),
        5,
        "and the number of entries is not what the header says"
    );
}

#[test]
fn damaged_entries_are_written_out_named_and_not_taken_in() {
    let room = Darkroom::winter_quarry();
    let db = rusqlite::Connection::open(room.store.path()).expect("a connection");
    db.execute_batch(
        "DROP TRIGGER entry_is_never_changed;
         UPDATE entry SET body = replace(body, '4417', '4418') WHERE row = 1;",
    )
    .expect("damage");
    drop(db);
    let mut out = Vec::new();
    let exported = write_lines(&room.store, &mut out).expect("an export");
    assert_eq!(exported.damaged, [1]);
    let text = String::from_utf8(out).expect("text");
    assert!(text.contains("4418"), "nobody is locked in by damage");
    let outcome = import(&mut elsewhere(), &text, Manner::AllOrNothing);
    assert_eq!(outcome.not_taken[0].line, 2);
    assert!(outcome.not_taken[0].why.contains("hash"));
}

#[test]
fn nothing_is_taken_in_by_a_logbook_that_is_open_for_reading() {
    let room = Darkroom::winter_quarry();
    let text = export(&room.store);
    let mut reader = Store::open_read_only(room.store.path()).expect("a reader");
    let error = read_lines(
        &mut reader,
        &mut text.as_bytes(),
        Manner::AllOrNothing,
        &room.reference,
    )
    .expect_err("it cannot be written");
    assert!(
        matches!(error, ImportError::Store(StoreError::ReadOnly { .. })),
        "{error}"
    );
}

/// A logbook with a lens and a note for each text.
fn with_notes(texts: &[String]) -> Darkroom {
    let mut room = Darkroom::new();
    room.log(Kind::LensAdded, &[("name", "Brass Meniscus 240")]);
    let lens = room.thing("L-01");
    let notes = texts.iter().map(|text| {
        let text = text.clone();
        Deed::Noted(Noted { thing: lens, text })
    });
    room.act(notes.collect()).expect("notes");
    room
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn any_text_comes_back_as_it_was(texts in prop::collection::vec(any::<String>(), 1..12)) {
        let room = with_notes(&texts);
        let text = export(&room.store);
        prop_assert_eq!(text.lines().count(), texts.len() + 2);
        let mut other = elsewhere();
        let outcome = import(&mut other, &text, Manner::AllOrNothing);
        prop_assert_eq!(outcome.not_taken, vec![]);
        prop_assert_eq!(stored(&other.store), stored(&room.store));
    }

    #[test]
    fn no_change_of_a_byte_brings_in_anything_else(
        at in any::<prop::sample::Index>(),
        byte in any::<u8>(),
        cut in any::<prop::sample::Index>(),
        cuts in any::<bool>(),
    ) {
        let room = with_notes(&["one".to_owned(), "two \u{1F4F7}".to_owned()]);
        let mut bytes = export(&room.store).into_bytes();
        let at = at.index(bytes.len());
        bytes[at] = byte;
        if cuts {
            bytes.truncate(cut.index(bytes.len()));
        }
        let mut other = elsewhere();
        let before = stored(&room.store);
        let outcome = read_lines(
            &mut other.store,
            &mut bytes.as_slice(),
            Manner::KeepWhatFits,
            &other.reference,
        );
        let after = stored(&other.store);
        prop_assert!(after.iter().all(|entry| before.contains(entry)));
        if let Ok(outcome) = outcome {
            prop_assert!(!outcome.not_taken.is_empty() || after.len() == before.len());
        }
    }
}

trait Replace {
    fn replace(&self, from: &[u8], to: &[u8]) -> Vec<u8>;
}

impl Replace for Vec<u8> {
    fn replace(&self, from: &[u8], to: &[u8]) -> Vec<u8> {
        let at = self
            .windows(from.len())
            .position(|window| window == from)
            .expect("it is there");
        [&self[..at], to, &self[at + from.len()..]].concat()
    }
}
