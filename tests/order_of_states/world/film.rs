//! What happens to film, from the holder to the files.

use notchbook::craft::Size;
use notchbook::logbook::{Deed, Slide, ThingId};

use super::{
    Can, Load, No, Run, Sheet, SheetIs, Side, SideIs, Timed, World, comes_in, must, there,
};

fn fits(takes: Size, sheet: Size) -> bool {
    let ((a, b), (c, d)) = (takes.mm(), sheet.mm());
    let same = |x: f64, y: f64| (x - y).abs() < 1.5;
    (same(a, c) && same(b, d)) || (same(a, d) && same(b, c))
}

impl World<'_> {
    pub(super) fn film_happens(&mut self, deed: &Deed, over: bool) -> Can {
        let need = |is_so: bool, why: &'static str| must(is_so || over, why);
        match deed {
            Deed::Loaded(what) => {
                let film_box = there(&mut self.boxes, what.film_box)?;
                need(!film_box.used_up && film_box.left > 0, "none is left")?;
                film_box.left = film_box.left.saturating_sub(1);
                let size = what.size.unwrap_or(film_box.size);
                let side = there(&mut self.sides, what.side)?;
                need(side.is == SideIs::Empty, "the side is not empty")?;
                need(fits(side.takes, size), "it does not fit")?;
                *side = Side {
                    is: SideIs::Loaded,
                    takes: side.takes,
                    sheet: Some(what.sheet),
                    had_light: false,
                    in_doubt: false,
                };
                if !what.again {
                    let sheet = Sheet {
                        is: SheetIs::Loaded,
                        film_box: what.film_box,
                        side: Some(what.side),
                        exposures: 0,
                        run: None,
                        in_run: None,
                        set: None,
                        prints: 0,
                    };
                    return comes_in(&mut self.sheets, what.sheet, sheet);
                }
                let sheet = there(&mut self.sheets, what.sheet)?;
                need(sheet.is == SheetIs::InBox, "it is not in its box")?;
                need(sheet.film_box == what.film_box, "it is in another box")?;
                sheet.is = if sheet.exposures == 0 {
                    SheetIs::Loaded
                } else {
                    SheetIs::Exposed
                };
                sheet.film_box = what.film_box;
                sheet.side = Some(what.side);
                Ok(())
            }
            Deed::Unloaded(what) => {
                let id = what.sheet.ok_or(No("no sheet is in it"))?;
                self.leaves(
                    what.side,
                    id,
                    |side| matches!(side, SideIs::Loaded | SideIs::Exposed | SideIs::Fogged),
                    true,
                    over,
                )?;
                if let Some(film_box) = what.film_box {
                    let film_box = there(&mut self.boxes, film_box)?;
                    film_box.left += 1;
                    film_box.used_up = false;
                }
                let sheet = self.sheet_in(id, Some(what.side))?;
                let usual = matches!(
                    sheet.is,
                    SheetIs::Loaded | SheetIs::Exposed | SheetIs::Fogged
                );
                need(usual, "it is in no holder")?;
                sheet.is = match sheet.is {
                    SheetIs::Loaded => SheetIs::InBox,
                    SheetIs::Fogged => SheetIs::Fogged,
                    _ => SheetIs::Held,
                };
                sheet.side = None;
                sheet.film_box = what.film_box.unwrap_or(sheet.film_box);
                Ok(())
            }
            Deed::Exposed(what) => {
                for (tools, tool) in [
                    (&mut self.lenses, what.lens),
                    (&mut self.cameras, what.camera),
                ] {
                    if let Some(tool) = tool {
                        let tool = there(tools, tool)?;
                        need(!tool.retired, "it is out of use")?;
                        tool.exposures += 1;
                    }
                }
                let id = what.sheet.ok_or(No("no sheet is in it"))?;
                if let Some(side) = what.side {
                    let side = there(&mut self.sides, side)?;
                    must(side.sheet == Some(id), "another sheet is in it")?;
                    need(!side.in_doubt, "it is in doubt")?;
                    need(
                        matches!(side.is, SideIs::Loaded | SideIs::Open)
                            || (side.is == SideIs::Exposed && what.again),
                        "it was exposed",
                    )?;
                    side.is = SideIs::Exposed;
                    side.had_light = true;
                    side.in_doubt = false;
                }
                let sheet = self.sheet_in(id, what.side)?;
                need(
                    matches!(sheet.is, SheetIs::Loaded | SheetIs::Open)
                        || (sheet.is == SheetIs::Exposed && what.again),
                    "it was exposed, or is in no holder",
                )?;
                sheet.is = SheetIs::Exposed;
                sheet.exposures += 1;
                Ok(())
            }
            Deed::ExposureBegun(what) => {
                let id = what.sheet.ok_or(No("no sheet is in it"))?;
                let side = there(&mut self.sides, what.side)?;
                must(side.sheet == Some(id), "another sheet is in it")?;
                need(!side.in_doubt, "it is in doubt")?;
                need(
                    side.is == SideIs::Loaded || (side.is == SideIs::Exposed && what.again),
                    "it was exposed, or the shutter is open",
                )?;
                side.is = SideIs::Open;
                side.in_doubt = false;
                let sheet = self.sheet_in(id, Some(what.side))?;
                need(
                    sheet.is == SheetIs::Loaded || (sheet.is == SheetIs::Exposed && what.again),
                    "it was exposed, or the shutter is open",
                )?;
                sheet.is = SheetIs::Open;
                Ok(())
            }
            Deed::ExposureDropped(what) => {
                let id = what.sheet.ok_or(No("no sheet is in it"))?;
                let side = there(&mut self.sides, what.side)?;
                must(side.sheet == Some(id), "another sheet is in it")?;
                must(side.is == SideIs::Open, "the shutter is not open")?;
                side.is = if side.had_light {
                    SideIs::Exposed
                } else {
                    SideIs::Loaded
                };
                let sheet = self.sheet_in(id, Some(what.side))?;
                must(sheet.is == SheetIs::Open, "the shutter is not open")?;
                sheet.is = if sheet.exposures > 0 {
                    SheetIs::Exposed
                } else {
                    SheetIs::Loaded
                };
                Ok(())
            }
            Deed::SlideSeen(what) => {
                let side = there(&mut self.sides, what.side)?;
                need(side.is != SideIs::Retired, "it is out of use")?;
                side.in_doubt = match side.is {
                    SideIs::Loaded => what.shows == Slide::Dark,
                    SideIs::Exposed => what.shows == Slide::Bright,
                    _ => false,
                };
                Ok(())
            }
            Deed::SlideRighted(what) => {
                let side = there(&mut self.sides, what.side)?;
                must(side.in_doubt, "it is not in doubt")?;
                side.in_doubt = false;
                Ok(())
            }
            Deed::Fogged(what) => {
                if let Some(side) = what.side {
                    let side = there(&mut self.sides, side)?;
                    must(side.sheet == Some(what.sheet), "another sheet is in it")?;
                    need(
                        matches!(side.is, SideIs::Loaded | SideIs::Open | SideIs::Exposed),
                        "no good sheet is in it",
                    )?;
                    side.is = SideIs::Fogged;
                    side.in_doubt = false;
                }
                let sheet = self.sheet_in(what.sheet, what.side)?;
                need(
                    matches!(
                        sheet.is,
                        SheetIs::InBox
                            | SheetIs::Loaded
                            | SheetIs::Open
                            | SheetIs::Exposed
                            | SheetIs::Held
                            | SheetIs::Developing
                            | SheetIs::Negative
                            | SheetIs::Filed
                    ),
                    "light harms it no more",
                )?;
                sheet.is = SheetIs::Fogged;
                Ok(())
            }
            Deed::Companions(what) => {
                let mut distinct = what.sheets.clone();
                distinct.sort_unstable();
                distinct.dedup();
                must(distinct.len() >= 2, "two at least")?;
                must(self.sets.insert(what.set), "it is there already")?;
                for id in distinct {
                    let sheet = there(&mut self.sheets, id)?;
                    need(sheet.set.is_none(), "it is linked already")?;
                    need(
                        matches!(
                            sheet.is,
                            SheetIs::Loaded
                                | SheetIs::Open
                                | SheetIs::Exposed
                                | SheetIs::Held
                                | SheetIs::Developing
                                | SheetIs::Negative
                                | SheetIs::Filed
                        ),
                        "there is no picture on it",
                    )?;
                    sheet.set = Some(what.set);
                }
                Ok(())
            }
            Deed::RunBegun(what) => {
                for each in &what.sheets {
                    if let Some(side) = each.side {
                        self.leaves(side, each.sheet, |side| side == SideIs::Exposed, true, over)?;
                    }
                    let sheet = self.sheet_in(each.sheet, each.side)?;
                    need(
                        matches!(sheet.is, SheetIs::Exposed | SheetIs::Held),
                        "it does not wait for development",
                    )?;
                    sheet.is = SheetIs::Developing;
                    sheet.side = None;
                    sheet.run = Some(what.run);
                    sheet.in_run = Some(what.run);
                }
                let sheets = u32::try_from(what.sheets.len()).expect("few sheets");
                let mut baths: Vec<ThingId> = [what.developer, what.stop, what.fixer]
                    .into_iter()
                    .flatten()
                    .chain(what.other_baths.iter().copied())
                    .collect();
                baths.sort_unstable();
                baths.dedup();
                for bath in &baths {
                    let load = Load {
                        sheets,
                        area: what.area.map(|area| area.value()),
                        develops: what.developer == Some(*bath),
                    };
                    self.goes_through(*bath, load, over)?;
                }
                let run = Run {
                    sheets: what.sheets.iter().map(|each| each.sheet).collect(),
                    developer: what.developer,
                    ended: false,
                    baths,
                    area: what.area,
                    timed: Timed::default(),
                };
                comes_in(&mut self.runs, what.run, run)
            }
            Deed::RunEnded(what) => {
                let run = there(&mut self.runs, what.run)?;
                need(!run.ended, "it has ended")?;
                run.ended = true;
                run.timed.end();
                for id in &what.sheets {
                    let sheet = there(&mut self.sheets, *id)?;
                    must(sheet.in_run == Some(what.run), "it is not in this run")?;
                    sheet.in_run = None;
                    if sheet.is == SheetIs::Developing {
                        sheet.is = SheetIs::Negative;
                    }
                }
                Ok(())
            }
            Deed::Measured(what) => {
                let sheet = there(&mut self.sheets, what.sheet)?;
                need(sheet.is_negative(), "it is no negative")
            }
            Deed::FaultSeen(what) => {
                let sheet = there(&mut self.sheets, what.sheet)?;
                let shows = sheet.is_negative() || sheet.is == SheetIs::Fogged;
                need(shows, "no fault of it can be seen yet")
            }
            Deed::Scanned(what) => {
                let sheet = there(&mut self.sheets, what.sheet)?;
                need(sheet.is_negative(), "it is no negative")
            }
            Deed::Filed(what) => {
                let sheet = there(&mut self.sheets, what.sheet)?;
                need(sheet.is_negative(), "it is no negative")?;
                sheet.is = SheetIs::Filed;
                Ok(())
            }
            _ => unreachable!("not about film"),
        }
    }

    /// A sheet leaves the side it is in.
    fn leaves(
        &mut self,
        side: ThingId,
        sheet: ThingId,
        usual: impl Fn(SideIs) -> bool,
        risky: bool,
        over: bool,
    ) -> Can {
        let side = there(&mut self.sides, side)?;
        must(side.sheet == Some(sheet), "another sheet is in it")?;
        must(over || !risky || !side.in_doubt, "it is in doubt")?;
        must(over || usual(side.is), "no such sheet is in it")?;
        *side = Side {
            is: SideIs::Empty,
            takes: side.takes,
            sheet: None,
            had_light: false,
            in_doubt: false,
        };
        Ok(())
    }

    /// The sheet, which must be in the side that is said, or in none if none is said.
    fn sheet_in(&mut self, id: ThingId, side: Option<ThingId>) -> Result<&mut Sheet, No> {
        let sheet = there(&mut self.sheets, id)?;
        must(sheet.side == side, "it is somewhere else")?;
        Ok(sheet)
    }

    pub(super) fn sheet_ends(
        &mut self,
        id: ThingId,
        side: Option<ThingId>,
        end: SheetIs,
        over: bool,
    ) -> Can {
        if let Some(side) = side {
            let holds = |side| side != SideIs::Empty && side != SideIs::Retired;
            self.leaves(side, id, holds, false, over)?;
        }
        let sheet = self.sheet_in(id, side)?;
        let gone = matches!(sheet.is, SheetIs::Lost | SheetIs::Discarded);
        must(over || !gone, "it is gone")?;
        sheet.is = end;
        sheet.side = None;
        Ok(())
    }
}
