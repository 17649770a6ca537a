//! The hash each entry carries, so that damage to any of its fields is noticed.
//!
//! SQLite does not notice a changed bit in what it stores; this does. The hash is BLAKE3 (32 bytes)
//! over the entry's fields, each written with its length before it, in this order:
//!
//! | field | bytes |
//! |---|---|
//! | the words `notchbook entry 1` | as text |
//! | id, act, machine | 16 each, as in the UUID |
//! | seq | 8, unsigned, most significant first |
//! | happened, written | each 8 + 4: microseconds since 1970, then the offset in minutes, signed, most significant first |
//! | kind | UTF-8 |
//! | v | 4, unsigned, most significant first |
//! | body | UTF-8, the JSON exactly as stored |
//! | strikes, amends | 16 each, as in the UUID, if it is there |
//! | over, note | UTF-8, if it is there |
//!
//! A field that is there is written as its length (8 bytes, unsigned, least significant first)
//! followed by its bytes; one that is not there as eight bytes of `0xFF`. The row number is not
//! part of it: it says where in this file the entry stands, not what it says.

use super::entries::Row;

/// The hash of an entry.
pub(crate) type EntryHash = [u8; 32];

const ABSENT: [u8; 8] = [0xFF; 8];

/// The hash of what a row says.
pub(crate) fn hash(row: &Row) -> EntryHash {
    let mut hasher = blake3::Hasher::new();
    let mut put = |field: Option<&[u8]>| match field {
        Some(bytes) => {
            hasher.update(&(bytes.len() as u64).to_le_bytes());
            hasher.update(bytes);
        }
        None => {
            hasher.update(&ABSENT);
        }
    };
    put(Some(b"notchbook entry 1"));
    put(Some(&row.id));
    put(Some(&row.act));
    put(Some(&row.machine));
    put(Some(&row.seq.to_be_bytes()));
    put(Some(&moment(row.happened_us, row.happened_offset)));
    put(Some(&moment(row.written_us, row.written_offset)));
    put(Some(row.kind.as_bytes()));
    put(Some(&row.v.to_be_bytes()));
    put(Some(row.body.as_bytes()));
    put(row.strikes.as_ref().map(<[u8; 16]>::as_slice));
    put(row.amends.as_ref().map(<[u8; 16]>::as_slice));
    put(row.over.as_deref().map(str::as_bytes));
    put(row.note.as_deref().map(str::as_bytes));
    hasher.finalize().into()
}

fn moment(us: i64, offset: i32) -> [u8; 12] {
    let mut bytes = [0; 12];
    bytes[..8].copy_from_slice(&us.to_be_bytes());
    bytes[8..].copy_from_slice(&offset.to_be_bytes());
    bytes
}
