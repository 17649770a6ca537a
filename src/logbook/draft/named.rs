//! The things a field names, by their references.

use crate::logbook::{Names, Thing, ThingId, ThingKind, tidy_reference};

fn unknown(kinds: &[ThingKind], typed: &str) -> String {
    let kinds: Vec<&str> = kinds.iter().map(|kind| kind.name()).collect();
    let what = if kinds.len() > 4 {
        "thing".to_owned()
    } else {
        kinds.join(" or ")
    };
    format!("there is no {what} called \"{typed}\" in this logbook")
}

/// The thing that is called so. A sheet may also be named by the side it is in, or, in a holder with
/// one side, by the holder.
pub(super) fn any_of(kinds: &[ThingKind], typed: &str, names: &dyn Names) -> Result<Thing, String> {
    let reference = tidy_reference(typed);
    if let Some(thing) = names.find(kinds, &reference) {
        return Ok(thing);
    }
    if !kinds.contains(&ThingKind::Sheet) {
        return Err(unknown(kinds, typed));
    }
    let side = match names.find(&[ThingKind::Side], &reference) {
        Some(side) => side.id,
        None => only_side(&reference, names)?.ok_or_else(|| unknown(kinds, typed))?,
    };
    names
        .life_of(side)
        .and_then(|life| life.side().and_then(|side| side.sheet))
        .map(|sheet| Thing::new(ThingKind::Sheet, sheet))
        .ok_or_else(|| format!("there is no sheet in {reference} now"))
}

/// The side of a holder that has only one; `None` if nothing is called so.
fn only_side(reference: &str, names: &dyn Names) -> Result<Option<ThingId>, String> {
    let Some(holder) = names.find(&[ThingKind::Holder], reference) else {
        return Ok(None);
    };
    let sides = names
        .life_of(holder.id)
        .and_then(|life| life.holder().map(|holder| holder.sides.clone()))
        .unwrap_or_default();
    if let [only] = sides[..] {
        return Ok(Some(only));
    }
    let called: Vec<String> = sides.iter().map(|side| names.reference_of(*side)).collect();
    Err(format!(
        "which side of {reference}: {}?",
        called.join(" or ")
    ))
}

pub(super) fn one_thing(
    kind: ThingKind,
    typed: &str,
    names: &dyn Names,
) -> Result<ThingId, String> {
    if kind == ThingKind::Side
        && names.find(&[kind], &tidy_reference(typed)).is_none()
        && let Some(side) = only_side(&tidy_reference(typed), names)?
    {
        return Ok(side);
    }
    any_of(&[kind], typed, names).map(|thing| thing.id)
}

/// Reads references that stand beside each other. A side has a space in it, so two words are tried
/// as one reference before the first is taken alone.
pub(in crate::logbook) fn several(
    kind: ThingKind,
    typed: &str,
    names: &dyn Names,
) -> Result<Vec<ThingId>, String> {
    let mut found = Vec::new();
    for part in typed.split([',', ';', '+', '\n']) {
        let words: Vec<&str> = part.split_whitespace().collect();
        let mut rest = words.as_slice();
        while let [first, after @ ..] = rest {
            let pair = after
                .split_first()
                .map(|(second, beyond)| (format!("{first} {second}"), beyond));
            let joined =
                pair.and_then(|(pair, beyond)| Some((one_thing(kind, &pair, names).ok()?, beyond)));
            let id = match joined {
                Some((id, beyond)) => {
                    rest = beyond;
                    id
                }
                None => {
                    rest = after;
                    one_thing(kind, first, names)?
                }
            };
            if !found.contains(&id) {
                found.push(id);
            }
        }
    }
    Ok(found)
}
