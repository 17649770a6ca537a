//! A photographer who never stops working, so that a logbook of any size can be filled.
//!
//! What comes out of a [`Season`] are acts as a person would log them: a box is opened, ten sheets
//! are loaded, exposed, some days later developed in baths mixed that evening, measured and filed,
//! three of them printed in palladium, step by step, and put where they go. Now and then something
//! is noted, amended, struck. Two runs with the same clock give the same acts. Invented pictures and
//! places.

use std::collections::VecDeque;
use std::time::Duration;

use anyhow::Result;
use chrono::DateTime;
use notchbook::logbook::{ActId, Deed, EntryId, Kind, ThingId};
use notchbook::store::{NewAct, NewEntry};
use notchbook::world::{Scripted, World};
use serde_json::{Value, json};

use super::words::{DETAILS, NOTES, PLACES, SUBJECTS, WEATHERS, pick};

/// Holders in the rack, of two sides each.
const HOLDERS: usize = 40;
/// Sheets loaded, exposed and developed together.
const TOGETHER: usize = 10;
/// How many batches wait in their holders before the oldest is developed.
const WAITING: usize = 3;
/// Prints made of each batch.
const PRINTS: usize = 3;

/// One entry that is still to be written.
type Line = (EntryId, Deed);

/// The photographer, the clock, and what is on the shelf.
pub(crate) struct Season {
    world: Scripted,
    ahead: VecDeque<Vec<Line>>,
    batch: usize,
    sides: Vec<ThingId>,
    lenses: Vec<ThingId>,
    camera: Option<ThingId>,
    film: Stock,
    paper: Stock,
    /// The stock that developers are drawn from.
    stock: Option<ThingId>,
    /// The batches that wait for development: sheets with their sides.
    waiting: VecDeque<Vec<(ThingId, ThingId)>>,
    /// Whether the act that was handed out last loaded sheets.
    loaded: bool,
}

/// A box of film or paper, and what is left in it.
#[derive(Default)]
struct Stock {
    thing: Option<ThingId>,
    left: usize,
}

impl Season {
    /// A season that begins with an empty shelf.
    pub(crate) fn begin() -> Result<Season> {
        let morning = DateTime::parse_from_rfc3339("2019-03-04T08:00:00+01:00")?;
        let mut season = Season {
            world: Scripted::new(morning),
            ahead: VecDeque::new(),
            batch: 0,
            sides: Vec::new(),
            lenses: Vec::new(),
            camera: None,
            film: Stock::default(),
            paper: Stock::default(),
            stock: None,
            waiting: VecDeque::new(),
            loaded: false,
        };
        season.set_up()?;
        Ok(season)
    }

    /// The clock, for what has to happen after everything logged so far.
    pub(crate) fn world(&mut self) -> &mut Scripted {
        &mut self.world
    }

    /// Whether the last act loaded sheets that are not exposed yet.
    pub(crate) fn has_just_loaded(&self) -> bool {
        self.loaded
    }

    /// The next act.
    pub(crate) fn next_act(&mut self) -> Result<NewAct> {
        if self.ahead.is_empty() {
            self.work_on()?;
        }
        let lines = self.ahead.pop_front().unwrap_or_default();
        self.world.wait(Duration::from_secs(240));
        let now = self.world.now();
        self.loaded = matches!(lines.first(), Some((_, Deed::Loaded(_))));
        Ok(NewAct {
            id: ActId(self.world.fresh_id()),
            written: now,
            entries: lines
                .into_iter()
                .map(|(id, deed)| NewEntry {
                    id,
                    happened: now,
                    deed,
                    over: None,
                    note: None,
                })
                .collect(),
        })
    }

    /// An act that strikes an entry.
    pub(crate) fn strike(&mut self, entry: EntryId) -> Result<NewAct> {
        let body = json!({"entry": entry, "reason": "a slip of the key", "touches": []});
        let line = self.line(Kind::Struck, &body)?;
        self.ahead.push_front(vec![line]);
        self.next_act()
    }

    fn fresh(&mut self) -> ThingId {
        ThingId(self.world.fresh_id())
    }

    fn line(&mut self, kind: Kind, body: &Value) -> Result<Line> {
        let deed = Deed::from_json(kind, &body.to_string())?;
        Ok((EntryId(self.world.fresh_id()), deed))
    }

    fn alone(&mut self, kind: Kind, body: &Value) -> Result<EntryId> {
        let line = self.line(kind, body)?;
        let id = line.0;
        self.ahead.push_back(vec![line]);
        Ok(id)
    }

    /// Holders, lenses, a camera, a stock of developer.
    fn set_up(&mut self) -> Result<()> {
        for _ in 0..HOLDERS {
            let (holder, a, b) = (self.fresh(), self.fresh(), self.fresh());
            self.alone(
                Kind::HolderAdded,
                &json!({"holder": holder, "size": "8x10 in", "sides": 2, "side_ids": [a, b],
                    "make": "walnut, brass corners"}),
            )?;
            self.sides.extend([a, b]);
        }
        for name in [
            "240 mm, six elements",
            "300 mm process lens",
            "14 in portrait lens",
        ] {
            let lens = self.fresh();
            self.alone(Kind::LensAdded, &json!({"lens": lens, "name": name}))?;
            self.lenses.push(lens);
        }
        let camera = self.fresh();
        self.alone(
            Kind::CameraAdded,
            &json!({"camera": camera, "name": "8x10 flatbed, two rails", "size": "8x10 in"}),
        )?;
        self.camera = Some(camera);
        Ok(())
    }

    /// The work of some days: one batch from box to file, of which three are printed.
    fn work_on(&mut self) -> Result<()> {
        self.world.wait(Duration::from_secs(10 * 3600));
        let batch = self.batch;
        self.batch += 1;
        let fresh_sheets = self.load(batch)?;
        self.expose(batch, &fresh_sheets)?;
        self.waiting.push_back(fresh_sheets);
        if self.waiting.len() > WAITING
            && let Some(oldest) = self.waiting.pop_front()
        {
            self.develop(batch, &oldest)?;
            for nth in 0..PRINTS {
                if let Some((sheet, _)) = oldest.get(nth * 3) {
                    self.print(batch + nth, *sheet)?;
                }
            }
        }
        Ok(())
    }

    fn load(&mut self, batch: usize) -> Result<Vec<(ThingId, ThingId)>> {
        if self.film.left < TOGETHER {
            let film_box = self.fresh();
            self.alone(
                Kind::BoxAdded,
                &json!({"film_box": film_box, "film": "FP4 Plus", "size": "8x10 in", "sheets": 50,
                    "speed": 80, "emulsion": format!("21F {:04}", batch % 9000), "kept": "refrigerator"}),
            )?;
            self.film = Stock {
                thing: Some(film_box),
                left: 50,
            };
        }
        self.film.left -= TOGETHER;
        let mut lines = Vec::new();
        let mut sheets = Vec::new();
        for nth in 0..TOGETHER {
            let side = self.sides[(batch * TOGETHER + nth) % self.sides.len()];
            let sheet = self.fresh();
            lines.push(self.line(
                Kind::Loaded,
                &json!({"side": side, "sheet": sheet, "film_box": self.film.thing}),
            )?);
            sheets.push((sheet, side));
        }
        self.ahead.push_back(lines);
        Ok(sheets)
    }

    fn expose(&mut self, batch: usize, sheets: &[(ThingId, ThingId)]) -> Result<()> {
        let place = pick(PLACES, batch);
        for (nth, (_, side)) in sheets.iter().enumerate() {
            let subject = format!(
                "{}, {}",
                pick(SUBJECTS, batch * 7 + nth / 2),
                pick(DETAILS, batch * 3 + nth)
            );
            let aperture = ["f/16", "f/22", "f/22+1/3", "f/32", "f/45"][(batch + nth) % 5];
            let seconds = [0.066_666, 0.25, 1.0, 6.0, 22.0][(batch * 3 + nth) % 5];
            let lens = self.lenses[batch % 4 % self.lenses.len()];
            let mut body = json!({"side": side, "subject": subject, "lens": lens,
                "camera": self.camera, "aperture": aperture, "time": seconds, "speed": 80,
                "readings": "III 8.7  V 10.3  VIII 13.9", "draw": 294.0, "place": place,
                "weather": pick(WEATHERS, batch + nth), "development": "N-1"});
            if nth % 2 == 1 {
                body["in_front"] = json!("diffusion screen");
            }
            let entry = self.alone(Kind::Exposed, &body)?;
            if nth == 4 {
                body["aperture"] = json!("f/32+1/2");
                self.amend(entry, &body)?;
            }
        }
        if let [(first, _), (second, _), ..] = sheets {
            let set = self.fresh();
            self.alone(
                Kind::Companions,
                &json!({"set": set, "sheets": [first, second], "bond": "effect"}),
            )?;
        }
        Ok(())
    }

    fn amend(&mut self, entry: EntryId, body: &Value) -> Result<()> {
        let deed = json!({"kind": Kind::Exposed.name(), "body": body});
        self.alone(
            Kind::Amended,
            &json!({"entry": entry, "deed": deed, "reason": "read off the wrong ring",
                "touches": []}),
        )?;
        Ok(())
    }

    fn mix(&mut self, name: &str, purpose: &str, stock: Option<ThingId>) -> Result<ThingId> {
        let bath = self.fresh();
        let mut body = json!({"bath": bath, "name": name, "purpose": purpose, "volume": 2000.0});
        if let Some(stock) = stock {
            body["stock"] = json!(stock);
            body["dilution"] = json!("1+31");
        }
        self.alone(Kind::BathMixed, &body)?;
        Ok(bath)
    }

    fn throw_away(&mut self, bath: ThingId) -> Result<()> {
        self.alone(
            Kind::Discarded,
            &json!({"thing": {"kind": "bath", "id": bath}, "reason": "the evening is over"}),
        )?;
        Ok(())
    }

    fn develop(&mut self, batch: usize, sheets: &[(ThingId, ThingId)]) -> Result<()> {
        if batch % 20 == WAITING {
            self.stock = Some(self.mix("pyrocatechin stock A", "developer", None)?);
        }
        let developer = self.mix("pyrocatechin working", "developer", self.stock)?;
        let fixer = self.mix("plain hypo", "fixer", None)?;
        let run = self.fresh();
        let in_run: Vec<Value> = sheets
            .iter()
            .map(|(sheet, side)| json!({"sheet": sheet, "side": side}))
            .collect();
        self.alone(
            Kind::RunBegun,
            &json!({"run": run, "sheets": in_run, "vessel": "tray", "developer": developer,
                "fixer": fixer, "time": 690.0, "temperature": 20.6, "agitation": "shuffled"}),
        )?;
        self.alone(
            Kind::RunEnded,
            &json!({"run": run, "time": 700.0, "wash": 1200.0, "seen": "even, no marks"}),
        )?;
        self.throw_away(developer)?;
        self.throw_away(fixer)?;
        for (nth, (sheet, _)) in sheets.iter().enumerate() {
            let low = 0.2 + 0.01 * f64::from(u8::try_from(nth)?);
            self.alone(
                Kind::Measured,
                &json!({"sheet": sheet, "low": low, "high": 1.86, "base_fog": 0.08}),
            )?;
            let place = format!("binder {}, page {}", batch / 10 + 1, batch % 10 * 10 + nth);
            self.alone(Kind::Filed, &json!({"sheet": sheet, "file_place": place}))?;
        }
        if let [(first, _), (second, _), ..] = sheets {
            for (nth, sheet) in [first, second].into_iter().enumerate() {
                let note = self.alone(
                    Kind::Noted,
                    &json!({"thing": {"kind": "sheet", "id": sheet},
                        "text": pick(NOTES, batch + nth)}),
                )?;
                if nth == 1 {
                    self.alone(
                        Kind::Struck,
                        &json!({"entry": note, "reason": "it was the other sheet", "touches": []}),
                    )?;
                }
            }
        }
        Ok(())
    }

    fn print(&mut self, batch: usize, negative: ThingId) -> Result<()> {
        if self.paper.left == 0 {
            let paper = self.fresh();
            self.alone(
                Kind::PaperAdded,
                &json!({"paper": paper, "name": "cotton rag, unbuffered", "size": "11x14 in",
                    "sheets": 100, "batch": format!("lot {}", batch % 900)}),
            )?;
            self.paper = Stock {
                thing: Some(paper),
                left: 100,
            };
        }
        self.paper.left -= 1;
        let bath = self.mix("potassium oxalate", "developer", None)?;
        let clearing = self.mix("EDTA", "clearing", None)?;
        let print = self.fresh();
        let title = format!("{} {}", pick(SUBJECTS, batch), batch % 12 + 1);
        self.alone(
            Kind::PrintBegun,
            &json!({"print": print, "negatives": [negative], "process": "palladium",
                "paper": self.paper.thing, "size": "11x14 in", "title": title}),
        )?;
        let figures = json!({"drops-iron": "15", "drops-metal": "14"});
        for (step, seconds, baths, figures) in [
            ("coat", None, vec![], figures),
            (
                "dry-coating",
                Some(1800.0),
                vec![],
                json!({"how": "cool fan"}),
            ),
            ("expose", Some(720.0), vec![], json!({"light": "tubes"})),
            ("develop", Some(90.0), vec![bath], json!({})),
            ("clear-1", Some(300.0), vec![clearing], json!({})),
            ("clear-2", Some(300.0), vec![clearing], json!({})),
            ("clear-3", Some(300.0), vec![clearing], json!({})),
            ("wash", Some(3600.0), vec![], json!({})),
            ("dry", None, vec![], json!({"how": "screen"})),
        ] {
            let mut body =
                json!({"print": print, "step": step, "baths": baths, "figures": figures});
            if let Some(seconds) = seconds {
                body["time"] = json!(seconds);
            }
            self.alone(Kind::PrintStep, &body)?;
        }
        self.throw_away(bath)?;
        self.throw_away(clearing)?;
        for (kind, body) in [
            (
                Kind::Pressed,
                json!({"print": print, "temperature": 82.0, "dwell": 45.0}),
            ),
            (
                Kind::Matted,
                json!({"print": print, "outer": "16x20 in", "window": "7.5x9.5 in",
                    "board": "4-ply cotton, ivory"}),
            ),
            (
                Kind::Signed,
                json!({"print": print, "number": format!("{}/12", batch % 12 + 1)}),
            ),
            (
                Kind::Placed,
                json!({"print": print, "whereabouts": "drawer",
                    "place": format!("drawer {}", batch % 8 + 1)}),
            ),
        ] {
            self.alone(kind, &body)?;
        }
        Ok(())
    }
}
