//! Deeds with little in them, and what a person who amends one leaves unsaid.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use notchbook::craft::sun::Coordinates;
use notchbook::craft::{
    Capacity, Celsius, Density, ExposureValue, FilmSpeed, Millilitres, Seconds, Size, Stops,
};
use notchbook::logbook::*;

/// The day on which all begins.
pub(crate) fn first_day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 3, 2).expect("a day")
}
/// The film in every box.
pub(crate) const FILM: &str = "Plain Pan";
/// What is in every bath.
pub(crate) const DEVELOPER: &str = "plain developer";

pub(crate) fn size(text: &str) -> Size {
    Size::parse(text).expect("a size")
}

pub(crate) fn density(value: f64) -> Density {
    Density::new(value).expect("a density")
}

pub(crate) fn reason() -> String {
    "it was like that".to_owned()
}

pub(crate) fn film_box(id: ThingId, reference: &str, of: &str, sheets: u32) -> Deed {
    Deed::BoxAdded(BoxAdded {
        film_box: id,
        reference: reference.to_owned(),
        film: FILM.to_owned(),
        size: size(of),
        sheets,
        speed: None,
        emulsion: None,
        expiry: None,
        kept: None,
    })
}

pub(crate) fn holder(id: ThingId, reference: &str, of: &str, side_ids: Vec<ThingId>) -> Deed {
    Deed::HolderAdded(HolderAdded {
        holder: id,
        reference: reference.to_owned(),
        size: size(of),
        sides: u32::try_from(side_ids.len()).expect("few sides"),
        side_ids,
        make: None,
    })
}

pub(crate) fn lens(id: ThingId, reference: &str) -> Deed {
    Deed::LensAdded(LensAdded {
        lens: id,
        reference: reference.to_owned(),
        name: "240 mm".to_owned(),
        focal_length: None,
        widest: None,
        smallest: None,
        shutter: None,
        image_circle: None,
        pupil_ratio: None,
        flange: None,
        serial: None,
    })
}

pub(crate) fn time(text: &str) -> Seconds {
    Seconds::parse(text).expect("a time")
}

pub(crate) fn test_shutter(lens: ThingId) -> ShutterTested {
    ShutterTested {
        lens,
        mark: time("1/60"),
        timings: vec![time("1/52"), time("1/55")],
        aperture: None,
        instrument: None,
    }
}

/// Something that is found out.
pub(crate) fn found(kind: Kind, finding: ThingId, reference: &str) -> Deed {
    let reference = reference.to_owned();
    match kind {
        Kind::FilterFound => Deed::FilterFound(FilterFound {
            finding,
            reference,
            filter: "orange".to_owned(),
            stops: Stops::new(2.0).expect("stops"),
            film: None,
            light: None,
        }),
        Kind::TimeFound => Deed::TimeFound(TimeFound {
            finding,
            reference,
            film: "Plain Pan".to_owned(),
            metered: time("10 s"),
            needed: time("20 s"),
            development: None,
        }),
        Kind::FilmFound => Deed::FilmFound(FilmFound {
            finding,
            reference,
            film: "Plain Pan".to_owned(),
            speed: FilmSpeed::new(80).ok(),
            maker: None,
            kind: None,
        }),
        Kind::FormatFound => Deed::FormatFound(FormatFound {
            finding,
            reference,
            size: size("4x5"),
            name: None,
            image: Some(size("96x120 mm")),
            cut: None,
            depth: None,
            tolerance: None,
        }),
        Kind::DevelopmentFound => Deed::DevelopmentFound(DevelopmentFound {
            finding,
            reference,
            film: "Plain Pan".to_owned(),
            developer: "metol, fresh".to_owned(),
            dilution: None,
            temperature: Celsius::new(20.0).expect("a temperature"),
            time: time("9 min"),
            agitation: None,
            speed: None,
            contrast: None,
            gradient: None,
        }),
        Kind::LightFound => Deed::LightFound(LightFound {
            finding,
            reference,
            scene: "the weir".to_owned(),
            value: ExposureValue::new(11.0).expect("a value"),
        }),
        Kind::MeterSet => Deed::MeterSet(MeterSet {
            finding,
            reference,
            reflected: Some(12.5),
            incident: None,
        }),
        Kind::PlaceKept => Deed::PlaceKept(PlaceKept {
            finding,
            reference,
            name: "the ford".to_owned(),
            coordinates: Coordinates::new(46.5, 8.2).expect("a place"),
            zone: None,
        }),
        Kind::TabletFound => Deed::TabletFound(TabletFound {
            finding,
            reference,
            name: "the tablet in the drawer".to_owned(),
            densities: [0.05, 0.35, 0.65, 0.95].map(density).to_vec(),
            channel: None,
            instrument: None,
        }),
        Kind::LimitsSet => Deed::LimitsSet(LimitsSet {
            finding,
            reference,
            series: "tank line".to_owned(),
            first: None,
            gradient: Some(0.6),
            gradient_within: None,
            speed: None,
            speed_within: None,
            base_fog: None,
            base_fog_within: None,
        }),
        other => unreachable!("{other} finds nothing out"),
    }
}

/// A strip of an 11-step tablet that was read, on nothing yet.
pub(crate) fn strip(finding: ThingId, reference: &str) -> StripRead {
    let read = [1.6, 1.4, 1.2, 1.0, 0.84, 0.65, 0.47, 0.3, 0.19, 0.14, 0.13];
    StripRead {
        finding,
        reference: reference.to_owned(),
        sheet: None,
        film: None,
        bath: None,
        run: None,
        developer: None,
        dilution: None,
        time: None,
        temperature: None,
        series: None,
        tablet: Some(TabletUsed::Steps(11)),
        bare: None,
        readings: read.map(|value| Some(density(value))).to_vec(),
        base_fog: None,
        channel: None,
        instrument: None,
        joined: None,
    }
}

/// Takes the meaning out of something that is found out, where it has one to lose.
pub(crate) fn spoil(found: &mut Deed) {
    match found {
        Deed::FilterFound(what) => what.stops = Stops::new(-1.0).expect("stops"),
        Deed::TimeFound(what) => what.needed = time("5 s"),
        Deed::FilmFound(what) => what.speed = None,
        Deed::FormatFound(what) => what.image = None,
        Deed::DevelopmentFound(what) => what.gradient = Some(40.0),
        Deed::MeterSet(what) => what.reflected = None,
        Deed::StripRead(what) => what.readings.fill(None),
        Deed::TabletFound(what) => what.densities.truncate(3),
        Deed::LimitsSet(what) => what.gradient = None,
        _ => {}
    }
}

pub(crate) fn camera(id: ThingId, reference: &str) -> Deed {
    Deed::CameraAdded(CameraAdded {
        camera: id,
        reference: reference.to_owned(),
        name: "field camera".to_owned(),
        size: None,
        shortest_draw: None,
        longest_draw: None,
    })
}

pub(crate) fn paper(id: ThingId, reference: &str, sheets: u32) -> Deed {
    Deed::PaperAdded(PaperAdded {
        paper: id,
        reference: reference.to_owned(),
        name: "Plain Rag".to_owned(),
        size: size("11x14"),
        sheets,
        sort: None,
        batch: None,
    })
}

pub(crate) fn bath(
    id: ThingId,
    reference: &str,
    stock: Option<ThingId>,
    capacity: Option<Capacity>,
) -> Deed {
    Deed::BathMixed(BathMixed {
        bath: id,
        reference: reference.to_owned(),
        name: DEVELOPER.to_owned(),
        purpose: Purpose::Developer,
        dilution: None,
        volume: None,
        stock,
        behind: None,
        temperature: None,
        formula: None,
        have: None,
        concentrate: None,
        capacity,
        keeps: None,
        least: None,
        batch: None,
    })
}

pub(crate) fn ml(value: f64) -> Millilitres {
    Millilitres::new(value).expect("a volume")
}

pub(crate) fn split(bath: ThingId, part: ThingId, reference: &str, volume: f64) -> Deed {
    Deed::BathSplit(BathSplit {
        bath,
        part,
        reference: reference.to_owned(),
        volume: ml(volume),
        poured: None,
    })
}

pub(crate) fn clear(bath: ThingId, seconds: f64) -> Deed {
    Deed::ClearingTested(ClearingTested {
        bath,
        time: Seconds::new(seconds).expect("a time"),
        film: None,
        fresh: None,
        temperature: None,
    })
}

pub(crate) fn rotate(first: ThingId, second: Option<ThingId>, next: Option<ThingId>) -> Deed {
    Deed::BathsRotated(BathsRotated {
        first,
        second,
        next,
        changes: None,
    })
}

pub(crate) fn load(sheet: ThingId, reference: &str, film_box: ThingId, side: ThingId) -> Deed {
    Deed::Loaded(Loaded {
        side,
        sheet,
        reference: reference.to_owned(),
        film_box,
        again: false,
        size: None,
    })
}

pub(crate) fn load_again(sheet: ThingId, film_box: ThingId, side: ThingId) -> Deed {
    Deed::Loaded(Loaded {
        side,
        sheet,
        reference: String::new(),
        film_box,
        again: true,
        size: None,
    })
}

pub(crate) fn unload(side: ThingId) -> Deed {
    Deed::Unloaded(Unloaded {
        side,
        sheet: None,
        film_box: None,
        kept: None,
    })
}

pub(crate) fn expose(side: ThingId, again: bool) -> Exposed {
    Exposed {
        side: Some(side),
        again,
        ..Exposed::default()
    }
}

pub(crate) fn begin_exposure(side: ThingId, again: bool) -> ExposureBegun {
    ExposureBegun {
        side,
        sheet: None,
        again,
        planned_aperture: None,
        planned_time: None,
    }
}

pub(crate) fn drop_exposure(side: ThingId) -> ExposureDropped {
    ExposureDropped {
        side,
        sheet: None,
        reason: reason(),
    }
}

pub(crate) fn begin_run(id: ThingId, sheets: &[ThingId], developer: Option<ThingId>) -> RunBegun {
    let in_run = |sheet: &ThingId| SheetInRun {
        sheet: *sheet,
        side: None,
    };
    RunBegun {
        run: id,
        reference: String::new(),
        sheets: sheets.iter().map(in_run).collect(),
        vessel: None,
        developer,
        dilution: None,
        contrast: None,
        time: None,
        temperature: None,
        agitation: None,
        sequence: None,
        stop: None,
        fixer: None,
        other_baths: Vec::new(),
        area: None,
        reckoning: None,
    }
}

pub(crate) fn begin_step(thing: Thing, step: &str, bath: Option<ThingId>) -> StepBegun {
    StepBegun {
        thing,
        step: step.to_owned(),
        time: Some(time("1m")),
        bath,
        temperature: None,
        agitation: None,
        uses: None,
        area: None,
    }
}

pub(crate) fn change_step(thing: Thing, change: Change) -> StepChanged {
    StepChanged {
        thing,
        change,
        more: (change == Change::MoreTime).then(|| time("30 s")),
        temperature: (change == Change::Temperature)
            .then(|| Celsius::parse("21").expect("a temperature")),
        time: None,
        steps: Vec::new(),
    }
}

pub(crate) fn end_step(thing: Thing) -> Deed {
    Deed::StepEnded(StepEnded {
        thing,
        time: None,
        temperature: None,
        seen: None,
    })
}

pub(crate) fn end_run(run: ThingId) -> RunEnded {
    RunEnded {
        run,
        sheets: Vec::new(),
        time: None,
        temperature: None,
        wash: None,
        seen: None,
    }
}

pub(crate) fn measure(sheet: ThingId, low: f64, high: f64) -> Deed {
    Deed::Measured(Measured {
        sheet,
        low: density(low),
        high: density(high),
        base_fog: None,
        patches: Vec::new(),
        channel: None,
        instrument: None,
    })
}

pub(crate) fn see_fault(sheet: ThingId) -> Deed {
    Deed::FaultSeen(FaultSeen {
        sheet,
        fault: "air bells".to_owned(),
        cause: None,
        place: None,
        harm: None,
    })
}

pub(crate) fn scan(sheet: ThingId) -> Deed {
    Deed::Scanned(Scanned {
        sheet,
        scan: "scans/1.tif".to_owned(),
        resolution: None,
        instrument: None,
    })
}

pub(crate) fn file(sheet: ThingId) -> Deed {
    Deed::Filed(Filed {
        sheet,
        file_place: "binder 4".to_owned(),
        scan: None,
    })
}

pub(crate) fn begin_print(id: ThingId, negatives: Vec<ThingId>, process: &str) -> PrintBegun {
    PrintBegun {
        print: id,
        reference: String::new(),
        negatives,
        process: process.to_owned(),
        paper: None,
        paper_sheets: 1,
        size: None,
        title: None,
    }
}

pub(crate) fn step(print: ThingId, step: &str, baths: Vec<ThingId>) -> Deed {
    Deed::PrintStep(PrintStep {
        print,
        step: step.to_owned(),
        baths,
        area: None,
        time: None,
        temperature: None,
        figures: BTreeMap::new(),
    })
}

pub(crate) fn place(print: ThingId, whereabouts: Whereabouts) -> Deed {
    Deed::Placed(Placed {
        print,
        whereabouts,
        place: None,
        due: None,
        price: None,
    })
}

pub(crate) fn lose(thing: Thing) -> Deed {
    Deed::Lost(Lost {
        thing,
        side: None,
        reason: reason(),
    })
}

pub(crate) fn discard(thing: Thing) -> Deed {
    Deed::Discarded(Discarded {
        thing,
        side: None,
        reason: reason(),
    })
}

pub(crate) fn retire(thing: Thing) -> Deed {
    Deed::Retired(Retired {
        thing,
        sides: Vec::new(),
        reason: reason(),
    })
}

/// A deed of the finish of a print.
pub(crate) fn finish(kind: Kind, print: ThingId) -> Deed {
    match kind {
        Kind::Pressed => Deed::Pressed(Pressed {
            print,
            temperature: None,
            dwell: None,
            between: None,
        }),
        Kind::Mounted => Deed::Mounted(Mounted {
            print,
            board: "4-ply".to_owned(),
            adhesive: None,
            temperature: None,
            dwell: None,
        }),
        Kind::Matted => Deed::Matted(Matted {
            print,
            outer: size("16x20"),
            window: size("8x10"),
            raised: None,
            board: None,
        }),
        Kind::Attached => Deed::Attached(Attached {
            print,
            hold: Hold::Hinges,
            material: None,
        }),
        Kind::Signed => Deed::Signed(Signed {
            print,
            inscription: None,
            number: None,
            written_on: None,
        }),
        Kind::Framed => Deed::Framed(Framed {
            print,
            frame: "ash".to_owned(),
            glazing: None,
        }),
        Kind::Unframed => Deed::Unframed(Unframed {
            print,
            reason: None,
        }),
        Kind::Labelled => Deed::Labelled(Labelled {
            print,
            text: "North Wall".to_owned(),
            written_on: None,
        }),
        Kind::Spoiled => Deed::Spoiled(Spoiled {
            print,
            reason: reason(),
        }),
        other => unreachable!("{other} is no finish"),
    }
}

/// The deed without what the logbook filled in, as a person says it who amends it.
pub(crate) fn unsaid(deed: &Deed) -> Deed {
    let mut deed = deed.clone();
    match &mut deed {
        Deed::Loaded(what) => what.size = None,
        Deed::Unloaded(what) => {
            what.sheet = None;
            what.film_box = None;
        }
        Deed::ExposureBegun(what) => what.sheet = None,
        Deed::ExposureDropped(what) => what.sheet = None,
        Deed::Exposed(what) if what.side.is_some() => what.sheet = None,
        Deed::Fogged(what) => what.side = None,
        Deed::Lost(what) => what.side = None,
        Deed::Discarded(what) => what.side = None,
        Deed::PrintStep(what) => what.area = None,
        Deed::BathSplit(what) => what.poured = None,
        Deed::BathsRotated(what) => {
            what.second = None;
            what.changes = None;
        }
        Deed::RunBegun(what) => {
            what.area = None;
            for each in &mut what.sheets {
                each.side = None;
            }
        }
        Deed::StripRead(what) => {
            if what.sheet.is_some() {
                what.film = None;
                what.run = None;
                what.bath = None;
            }
            if what.sheet.is_some() || what.bath.is_some() {
                what.developer = None;
            }
        }
        Deed::StepBegun(what) => {
            what.uses = None;
            what.area = None;
        }
        Deed::StepEnded(what) => what.time = None,
        Deed::RunEnded(what) => what.sheets.clear(),
        Deed::Retired(what) => what.sides.clear(),
        _ => {}
    }
    deed
}
