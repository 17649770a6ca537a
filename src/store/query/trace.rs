//! The trace: from a print to everything behind it, and from a box to everything that came of it.
//!
//! One recursive query collects the lines of descent that are in reach; a thing enters it once, so
//! a circle, which only a damaged file can hold, ends by itself. From these lines the road is told
//! depth first, each thing under the one it was reached from. A thing that is reached a second time,
//! as one stock behind two baths, is named again but not told again.

use std::collections::{HashMap, HashSet};

use rusqlite::Connection;
use uuid::Uuid;

use super::names::Cached;
use super::words;
use crate::logbook::{Names, Thing, ThingId, ThingKind};
use crate::reference::Reference;
use crate::store::error::Fault;
use crate::store::rows::{Fact, TraceStep};
use crate::store::{Store, StoreError};

mod facts;

/// How far the road is followed. A print has about six things behind each other; a chain of stock
/// baths drawn from each other may have some more.
const DEEPEST: u32 = 64;

/// Which way the lines of descent are followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    /// To what a thing came from.
    Up,
    /// To what came of it.
    Down,
}

/// The order in which what is behind a thing is told, by its role.
const ROLES: &[&str] = &[
    "negative",
    "paper",
    "bath",
    "run",
    "developer",
    "stop bath",
    "fixer",
    "stock bath",
    "holder side",
    "holder",
    "lens",
    "camera",
    "film box",
];

/// One line of descent, seen from the thing it is reached from.
struct Strand {
    to: Thing,
    role: String,
    /// The first entry that says so.
    entry: i64,
}

impl Store {
    /// Everything a thing came from, depth first, the thing itself at the top; with what was done
    /// to each on the way. Empty for a thing that is not in this logbook.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn trace_up(
        &self,
        thing: ThingId,
        reference: &Reference,
    ) -> Result<Vec<TraceStep>, StoreError> {
        self.ask_at_once(|db| trace(db, thing, Way::Up, reference))
    }

    /// Everything that came of a thing, depth first, the thing itself at the top. What was done is
    /// told of the thing itself only. Empty for a thing that is not in this logbook.
    ///
    /// # Errors
    /// When the logbook cannot be read.
    pub fn trace_down(
        &self,
        thing: ThingId,
        reference: &Reference,
    ) -> Result<Vec<TraceStep>, StoreError> {
        self.ask_at_once(|db| trace(db, thing, Way::Down, reference))
    }
}

fn trace(
    db: &Connection,
    start: ThingId,
    way: Way,
    reference: &Reference,
) -> Result<Vec<TraceStep>, Fault> {
    let names = Cached::new(db);
    let Some(life) = names.life_of(start) else {
        return names.finish(Vec::new());
    };
    let strands = strands(db, start, way)?;
    let mut told = HashSet::new();
    let mut steps = Vec::new();
    // What is still to be told, the next one last.
    let mut ahead = vec![(0, start, life.thing, String::new())];
    while let Some((depth, via, thing, role)) = ahead.pop() {
        let first = told.insert(thing.id);
        steps.push(step(
            db,
            (depth, via, thing, role),
            first,
            way,
            &names,
            reference,
        )?);
        if first && depth < DEEPEST {
            let further = strands.get(&thing.id).map_or(&[][..], Vec::as_slice);
            ahead.extend(
                further
                    .iter()
                    .rev()
                    .map(|it| (depth + 1, thing.id, it.to, it.role.clone())),
            );
        }
    }
    names.finish(steps)
}

fn step(
    db: &Connection,
    (depth, via, thing, role): (u32, ThingId, Thing, String),
    first: bool,
    way: Way,
    names: &Cached<'_>,
    reference: &Reference,
) -> Result<TraceStep, Fault> {
    let life = names.life_of(thing.id);
    let mut summary = life
        .as_ref()
        .map(|life| words::summary(life, names, reference))
        .unwrap_or_default();
    if way == Way::Up && role == "bath" {
        let steps = facts::steps_with(db, via, thing.id, names, reference)?;
        if !steps.is_empty() {
            summary = format!("{summary}, for {}", steps.join("; "));
        }
    }
    let facts: Vec<Fact> = if first && (way == Way::Up || depth == 0) {
        facts::facts(db, thing, names, reference)?
    } else {
        Vec::new()
    };
    Ok(TraceStep {
        depth,
        thing,
        reference: life.map(|life| life.reference).unwrap_or_default(),
        role,
        via,
        summary,
        facts,
        repeated: !first,
    })
}

/// Every line of descent in reach, by the thing it is reached from, in the order it is told.
fn strands(
    db: &Connection,
    start: ThingId,
    way: Way,
) -> Result<HashMap<ThingId, Vec<Strand>>, Fault> {
    let sql = match way {
        Way::Up => {
            "WITH RECURSIVE reach (thing) AS (
                 SELECT ?1 UNION
                 SELECT link.parent FROM reach CROSS JOIN link ON link.child = reach.thing
             )
             SELECT link.child AS at, link.parent AS other, life.kind, link.role, min(link.entry)
             FROM reach CROSS JOIN link ON link.child = reach.thing CROSS JOIN life ON life.thing = link.parent
             GROUP BY at, other, link.role"
        }
        Way::Down => {
            "WITH RECURSIVE reach (thing) AS (
                 SELECT ?1 UNION
                 SELECT link.child FROM reach CROSS JOIN link ON link.parent = reach.thing
             )
             SELECT link.parent AS at, link.child AS other, life.kind, link.role, min(link.entry)
             FROM reach CROSS JOIN link ON link.parent = reach.thing CROSS JOIN life ON life.thing = link.child
             GROUP BY at, other, link.role"
        }
    };
    let mut select = db.prepare_cached(sql)?;
    let mut rows = select.query([start.0.as_bytes()])?;
    let mut strands: HashMap<ThingId, Vec<Strand>> = HashMap::new();
    while let Some(row) = rows.next()? {
        let id = |bytes: [u8; 16]| ThingId(Uuid::from_bytes(bytes));
        let kind: String = row.get(2)?;
        let Some(kind) = ThingKind::named(&kind) else {
            return Err(Fault::Damaged(format!("the kind of thing \"{kind}\"")));
        };
        strands.entry(id(row.get(0)?)).or_default().push(Strand {
            to: Thing::new(kind, id(row.get(1)?)),
            role: row.get(3)?,
            entry: row.get(4)?,
        });
    }
    for each in strands.values_mut() {
        each.sort_by_key(|it| (rank(way, &it.role), it.entry, it.to.id));
    }
    Ok(strands)
}

fn rank(way: Way, role: &str) -> usize {
    match way {
        Way::Up => ROLES
            .iter()
            .position(|known| *known == role)
            .unwrap_or(ROLES.len()),
        Way::Down => 0,
    }
}
