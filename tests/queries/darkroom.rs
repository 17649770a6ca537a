//! A logbook in a temporary folder, filled the way a person fills one: by what is typed into the
//! fields of each deed. Invented people, places and pictures.

use std::time::Duration;

use chrono::{DateTime, FixedOffset};
use notchbook::logbook::draft::{Desk, Drafted};
use notchbook::logbook::{
    ActId, Amended, Deed, Draft, EntryId, Kind, Names, Struck, Thing, ThingId, ThingKind,
    tidy_reference,
};
use notchbook::reference::Reference;
use notchbook::store::{AppendError, NewAct, NewEntry, Receipt, Store, write_down};
use notchbook::world::{Scripted, World};

pub(crate) struct Darkroom {
    pub(crate) store: Store,
    pub(crate) world: Scripted,
    pub(crate) reference: Reference,
    _folder: tempfile::TempDir,
}

pub(crate) fn moment(text: &str) -> DateTime<FixedOffset> {
    DateTime::parse_from_rfc3339(text).expect("a time")
}

impl Darkroom {
    /// An empty logbook on the evening of 3 March 2026.
    pub(crate) fn new() -> Darkroom {
        Darkroom::with_world(Scripted::new(moment("2026-03-03T20:00:00+01:00")))
    }

    pub(crate) fn with_world(mut world: Scripted) -> Darkroom {
        let folder = tempfile::tempdir().expect("a temporary folder");
        let path = folder.path().join("winter.notchbook");
        let store = Store::create(&path, &mut world).expect("a new logbook");
        Darkroom {
            store,
            world,
            reference: Reference::built_in().expect("the built-in reference"),
            _folder: folder,
        }
    }

    /// Sets the clock.
    pub(crate) fn at(&mut self, text: &str) -> &mut Self {
        self.world.set(moment(text));
        self
    }

    pub(crate) fn read(&mut self, kind: Kind, typed: &[(&str, &str)]) -> Drafted {
        let mut draft = Draft::new(kind);
        for (key, text) in typed {
            draft.set(key, *text);
        }
        let (now, zone) = (self.world.now(), self.world.zone());
        let world = &mut self.world;
        let mut desk = Desk {
            names: &self.store,
            reference: &self.reference,
            now,
            zone,
            ids: &mut || world.fresh_id(),
        };
        match draft.read(&mut desk) {
            Ok(drafted) => drafted,
            Err(problems) => panic!("{kind} {typed:?}: {problems:?}"),
        }
    }

    /// Logs one thing, and hands back what refuses it.
    pub(crate) fn try_log(
        &mut self,
        kind: Kind,
        typed: &[(&str, &str)],
    ) -> Result<Receipt, AppendError> {
        let drafted = self.read(kind, typed);
        write_down(
            &mut self.store,
            &mut self.world,
            &self.reference,
            vec![drafted],
        )
    }

    /// Logs one thing that must be taken, a minute after the one before; the number of its entry.
    pub(crate) fn log(&mut self, kind: Kind, typed: &[(&str, &str)]) -> i64 {
        self.world.wait(Duration::from_secs(60));
        match self.try_log(kind, typed) {
            Ok(receipt) => receipt.entries[0].row,
            Err(error) => panic!("{kind} {typed:?}: {error}"),
        }
    }

    pub(crate) fn thing(&self, reference: &str) -> Thing {
        self.store
            .find(&ThingKind::ALL, &tidy_reference(reference))
            .unwrap_or_else(|| panic!("no {reference} in the logbook"))
    }

    pub(crate) fn id(&self, reference: &str) -> ThingId {
        self.thing(reference).id
    }

    pub(crate) fn entry_id(&self, row: i64) -> EntryId {
        let entry = self.store.entry_by_row(row).expect("a readable logbook");
        entry.expect("an entry with that number").id
    }

    /// Writes an act made of ready deeds.
    pub(crate) fn act(&mut self, deeds: Vec<Deed>) -> Result<Receipt, AppendError> {
        self.world.wait(Duration::from_secs(60));
        let now = self.world.now();
        let act = NewAct {
            id: ActId(self.world.fresh_id()),
            written: now,
            entries: deeds
                .into_iter()
                .map(|deed| NewEntry {
                    id: EntryId(self.world.fresh_id()),
                    happened: now,
                    deed,
                    over: None,
                    note: None,
                })
                .collect(),
        };
        self.store.append(act, &self.reference)
    }

    pub(crate) fn strike(&mut self, row: i64, reason: &str) -> i64 {
        let struck = Struck {
            entry: self.entry_id(row),
            reason: reason.to_owned(),
            touches: Vec::new(),
        };
        let receipt = self.act(vec![Deed::Struck(struck)]);
        receipt.expect("a strike that is taken").entries[0].row
    }

    pub(crate) fn amend(&mut self, row: i64, reason: &str, change: impl FnOnce(&mut Deed)) -> i64 {
        let entry = self.store.entry_by_row(row).expect("a readable logbook");
        let entry = entry.expect("an entry with that number");
        let mut deed = entry.deed;
        change(&mut deed);
        let amended = Amended {
            entry: entry.id,
            deed: Box::new(deed),
            happened: None,
            reason: reason.to_owned(),
            touches: Vec::new(),
        };
        let receipt = self.act(vec![Deed::Amended(amended)]);
        receipt.expect("an amendment that is taken").entries[0].row
    }

    /// One picture from the box to the matted print on the wall: box F-01, holder H-01, lens L-01,
    /// camera C-01, sheets S-0001 (printed) and S-0002 (its companion), run R-0001 in B-0002 drawn
    /// from B-0001 with fixer B-0003, paper Q-01, print P-0001 in palladium through the developer
    /// B-0004 and the clearing baths B-0005 and B-0006.
    pub(crate) fn winter_quarry() -> Darkroom {
        let mut room = Darkroom::new();
        room.log(
            Kind::BoxAdded,
            &[
                ("film", "FP4 Plus"),
                ("size", "8x10"),
                ("sheets", "25"),
                ("speed", "80"),
                ("emulsion", "4417"),
                ("expiry", "2028-06-01"),
                ("kept", "refrigerator"),
            ],
        );
        room.log(
            Kind::HolderAdded,
            &[("size", "8x10"), ("sides", "2"), ("make", "walnut")],
        );
        room.log(
            Kind::LensAdded,
            &[("name", "Brass Meniscus 240"), ("focal_length", "240 mm")],
        );
        room.log(
            Kind::CameraAdded,
            &[("name", "cherry field camera"), ("size", "8x10")],
        );
        room.log(Kind::Loaded, &[("side", "H-01 A"), ("film_box", "F-01")]);
        room.log(Kind::Loaded, &[("side", "H-01 B"), ("film_box", "F-01")]);
        room.at("2026-03-04T16:01:00+01:00");
        let exposed = [
            ("subject", "north wall, thaw"),
            ("lens", "L-01"),
            ("camera", "C-01"),
            ("aperture", "f/32"),
            ("time", "6 s"),
            ("filter", "orange"),
            ("readings", "III 8.7  V 10.3  VIII 13.9"),
            ("draw", "294 mm"),
            ("place", "upper quarry ledge"),
            ("speed", "80"),
            ("development", "N-1"),
        ];
        let mut first = exposed.to_vec();
        first.push(("side", "H-01 A"));
        room.log(Kind::Exposed, &first);
        let mut second = exposed.to_vec();
        second.extend([("side", "H-01 B"), ("in_front", "diffusion screen")]);
        room.log(Kind::Exposed, &second);
        room.log(
            Kind::Companions,
            &[("sheets", "S-0001 S-0002"), ("bond", "effect")],
        );
        room.at("2026-03-06T19:00:00+01:00");
        room.log(
            Kind::BathMixed,
            &[
                ("name", "Pyrocatechin stock A"),
                ("purpose", "developer"),
                ("volume", "500 ml"),
                ("batch", "bottle 9"),
            ],
        );
        room.log(
            Kind::BathMixed,
            &[
                ("name", "Pyrocatechin working"),
                ("purpose", "developer"),
                ("dilution", "1+100"),
                ("volume", "1 l"),
                ("stock", "B-0001"),
            ],
        );
        room.log(
            Kind::BathMixed,
            &[
                ("name", "Plain hypo"),
                ("purpose", "fixer"),
                ("volume", "2 l"),
                ("capacity", "40"),
            ],
        );
        room.at("2026-03-06T20:05:00+01:00");
        room.log(
            Kind::RunBegun,
            &[
                ("sheets", "S-0001 S-0002"),
                ("developer", "B-0002"),
                ("fixer", "B-0003"),
                ("time", "11m30"),
                ("temperature", "20.6"),
                ("vessel", "tray"),
                ("agitation", "shuffled"),
            ],
        );
        room.at("2026-03-06T20:40:00+01:00");
        room.log(
            Kind::RunEnded,
            &[
                ("run", "R-0001"),
                ("time", "11m40"),
                ("wash", "20 min"),
                ("seen", "even, no marks"),
            ],
        );
        room.at("2026-03-07T09:00:00+01:00");
        room.log(
            Kind::Measured,
            &[
                ("sheet", "S-0001"),
                ("low", "0.31"),
                ("high", "1.86"),
                ("base_fog", "0.08"),
                ("channel", "visual"),
            ],
        );
        room.log(
            Kind::Filed,
            &[("sheet", "S-0001"), ("file_place", "binder 4, page 11")],
        );
        room.at("2026-03-09T10:00:00+01:00");
        room.log(
            Kind::PaperAdded,
            &[
                ("name", "Cotton rag, unbuffered"),
                ("size", "11x14"),
                ("sheets", "25"),
                ("sort", "300 g"),
                ("batch", "lot 77"),
            ],
        );
        for (name, purpose) in [
            ("Potassium oxalate", "developer"),
            ("EDTA, first", "clearing"),
            ("EDTA, second", "clearing"),
        ] {
            room.log(
                Kind::BathMixed,
                &[("name", name), ("purpose", purpose), ("volume", "2 l")],
            );
        }
        room.at("2026-03-12T14:00:00+01:00");
        room.log(
            Kind::PrintBegun,
            &[
                ("negatives", "S-0001"),
                ("process", "palladium"),
                ("paper", "Q-0001"),
                ("size", "11x14"),
                ("title", "North Wall"),
            ],
        );
        for step in palladium_steps() {
            room.log(Kind::PrintStep, step);
        }
        room.at("2026-03-13T09:00:00+01:00");
        room.log(
            Kind::Pressed,
            &[
                ("print", "P-0001"),
                ("temperature", "82"),
                ("dwell", "45 s"),
            ],
        );
        room.log(
            Kind::Matted,
            &[
                ("print", "P-0001"),
                ("outer", "16x20"),
                ("window", "7 1/2 x 9 1/2 in"),
                ("board", "4-ply cotton, ivory"),
            ],
        );
        room.log(
            Kind::Signed,
            &[
                ("print", "P-0001"),
                ("number", "1/12"),
                ("inscription", "North Wall, 2026"),
            ],
        );
        room.log(
            Kind::Placed,
            &[
                ("print", "P-0001"),
                ("whereabouts", "wall"),
                ("place", "stairwell, second landing"),
            ],
        );
        room
    }
}

fn palladium_steps() -> [&'static [(&'static str, &'static str)]; 9] {
    [
        &[
            ("print", "P-0001"),
            ("step", "coat"),
            ("figures.drops-iron", "15"),
            ("figures.drops-metal", "14"),
            ("figures.agent", "sodium chloroplatinate"),
            ("figures.drops-agent", "1"),
        ],
        &[
            ("print", "P-0001"),
            ("step", "dry-coating"),
            ("figures.how", "cool fan"),
        ],
        &[
            ("print", "P-0001"),
            ("step", "expose"),
            ("time", "12 min"),
            ("figures.light", "tubes"),
        ],
        &[
            ("print", "P-0001"),
            ("step", "develop"),
            ("baths", "B-0004"),
            ("time", "1:30"),
            ("temperature", "40"),
        ],
        &[
            ("print", "P-0001"),
            ("step", "clear-1"),
            ("baths", "B-0005"),
            ("time", "5 min"),
        ],
        &[
            ("print", "P-0001"),
            ("step", "clear-2"),
            ("baths", "B-0006"),
            ("time", "5 min"),
        ],
        &[
            ("print", "P-0001"),
            ("step", "clear-3"),
            ("baths", "B-0006"),
            ("time", "5 min"),
        ],
        &[("print", "P-0001"), ("step", "wash"), ("time", "1 h")],
        &[
            ("print", "P-0001"),
            ("step", "dry"),
            ("figures.how", "screen"),
        ],
    ]
}
