//! What happens to a print, from the first coat to the wall.

use notchbook::logbook::{Deed, ThingId, Whereabouts};
use notchbook::reference::Work;

use super::super::steps::{Says, is_complete, may_follow};
use super::{Can, Load, Print, PrintIs, Timed, World, comes_in, must, there};

impl World<'_> {
    pub(super) fn print_ends(&mut self, id: ThingId, end: PrintIs, over: bool) -> Can {
        let print = there(&mut self.prints, id)?;
        let is = print.is;
        let usual = match end {
            PrintIs::Discarded => !matches!(is, PrintIs::Lost | PrintIs::Discarded) && !print.away,
            _ => !matches!(is, PrintIs::Spoiled | PrintIs::Lost | PrintIs::Discarded),
        };
        must(over || usual, "it is gone or away")?;
        print.is = end;
        Ok(())
    }

    pub(super) fn print_happens(&mut self, deed: &Deed, over: bool) -> Can {
        let need = |is_so: bool, why: &'static str| must(is_so || over, why);
        use PrintIs::{Dry, Framed, InProcess, Matted, Mounted, Pressed};
        let id = match deed {
            Deed::PrintBegun(what) => {
                must(!what.negatives.is_empty(), "it needs a negative")?;
                for id in &what.negatives {
                    let sheet = there(&mut self.sheets, *id)?;
                    need(sheet.is_negative(), "it is no negative")?;
                    sheet.prints += 1;
                }
                if let Some(paper) = what.paper {
                    let paper = there(&mut self.papers, paper)?;
                    let enough = !paper.used_up && paper.left >= what.paper_sheets;
                    need(enough, "too little paper is left")?;
                    paper.left = paper.left.saturating_sub(what.paper_sheets);
                }
                let print = Print {
                    is: InProcess,
                    process: what.process.clone(),
                    size: what.size,
                    paper: what.paper,
                    paper_sheets: what.paper_sheets,
                    steps: Vec::new(),
                    away: false,
                    was_before_frame: Matted,
                    timed: Timed::default(),
                };
                return comes_in(&mut self.prints, what.print, print);
            }
            Deed::PrintStep(what) => {
                let mut baths = what.baths.clone();
                baths.sort_unstable();
                baths.dedup();
                for bath in baths {
                    let load = Load {
                        sheets: 1,
                        area: what.area.map(|area| area.value()),
                        develops: false,
                    };
                    self.goes_through(bath, load, over)?;
                }
                return self.step(what.print, &what.step, over);
            }
            Deed::Spoiled(what) => return self.print_ends(what.print, PrintIs::Spoiled, over),
            Deed::Pressed(what) => what.print,
            Deed::Mounted(what) => what.print,
            Deed::Matted(what) => what.print,
            Deed::Attached(what) => what.print,
            Deed::Signed(what) => what.print,
            Deed::Framed(what) => what.print,
            Deed::Unframed(what) => what.print,
            Deed::Labelled(what) => what.print,
            Deed::Placed(what) => what.print,
            _ => unreachable!("not about a print"),
        };
        let print = there(&mut self.prints, id)?;
        let is = print.is;
        let one_of = |states: &[PrintIs]| need(states.contains(&is), "not in this state");
        if !matches!(deed, Deed::Placed(_)) {
            need(!print.away, "it is away")?;
        }
        match deed {
            Deed::Pressed(_) => {
                one_of(&[Dry, Pressed, Mounted])?;
                print.is = if is == Mounted { Mounted } else { Pressed };
            }
            Deed::Mounted(_) => {
                one_of(&[Dry, Pressed])?;
                print.is = Mounted;
            }
            Deed::Matted(_) => {
                one_of(&[Dry, Pressed, Mounted, Matted])?;
                print.is = Matted;
            }
            Deed::Attached(_) => one_of(&[Dry, Pressed, Matted])?,
            Deed::Signed(_) => one_of(&[Dry, Pressed, Mounted, Matted])?,
            Deed::Labelled(_) => one_of(&[Dry, Pressed, Mounted, Matted, Framed])?,
            Deed::Framed(_) => {
                one_of(&[Mounted, Matted])?;
                if is != Framed {
                    let whole = matches!(is, Dry | Pressed | Mounted | Matted);
                    print.was_before_frame = if whole { is } else { Matted };
                }
                print.is = Framed;
            }
            Deed::Unframed(_) => {
                one_of(&[Framed])?;
                if is == Framed {
                    print.is = print.was_before_frame;
                }
            }
            Deed::Placed(what) => {
                let back = what.whereabouts == Whereabouts::Returned;
                must(!back || print.away, "it was not away")?;
                one_of(&[Dry, Pressed, Mounted, Matted, Framed])?;
                print.away = matches!(
                    what.whereabouts,
                    Whereabouts::Exhibited
                        | Whereabouts::Lent
                        | Whereabouts::Given
                        | Whereabouts::Sold
                );
            }
            _ => unreachable!("handled above"),
        }
        Ok(())
    }

    /// Whether a step may be done to a print now.
    pub(super) fn may_be_done(&mut self, print: ThingId, step: &str, over: bool) -> Can {
        let need = |is_so: bool, why: &'static str| must(is_so || over, why);
        let reference = self.reference;
        let print = there(&mut self.prints, print)?;
        let process = reference.process(&print.process);
        let process = process.expect("the acts name built-in processes");
        let says = may_follow(process, &print.steps, step);
        must(says != Says::Unknown, "no such step")?;
        need(says == Says::Fine, "the step is out of its order")?;
        need(!print.away, "it is away")?;
        let spotting = process
            .steps
            .iter()
            .any(|known| known.id == step && known.work == Work::Finish);
        need(
            match print.is {
                PrintIs::InProcess | PrintIs::Dry | PrintIs::Pressed => true,
                PrintIs::Mounted => spotting,
                _ => false,
            },
            "it goes into no bath any more",
        )
    }

    fn step(&mut self, print: ThingId, step: &str, over: bool) -> Can {
        self.may_be_done(print, step, over)?;
        let print = there(&mut self.prints, print)?;
        let process = self.reference.process(&print.process);
        let process = process.expect("the acts name built-in processes");
        if print.timed.under_way.as_deref() == Some(step) {
            print.timed.end();
        }
        print.steps.push(step.to_owned());
        let complete = is_complete(process, &print.steps);
        match print.is {
            PrintIs::InProcess if complete => print.is = PrintIs::Dry,
            PrintIs::Dry | PrintIs::Pressed if !complete => print.is = PrintIs::InProcess,
            _ => {}
        }
        Ok(())
    }
}
