//! The lens, the camera and the film a figure of focus is asked about.
//!
//! For: the recipes of focus and movements, which ask for the same things in the same words. Promises:
//! what was typed goes before what the logbook knows, and what was taken from the logbook or from the
//! reference stands among the steps with what it rests on. Leaves to others: the formulas.

use super::{Answer, Ask, Book, CameraRecord, Given, LensRecord, Line, Problem};
use crate::craft::optics::circle::{BY_1500, by_diagonal};
use crate::craft::optics::conjugates::{Reach, draw_on_rail, from_distance, reach};
use crate::craft::optics::{Distance, Frame};
use crate::craft::{
    Amount, Aperture, Concern, Grounds, LengthUnit, Millimetres, Size, Standing, Step,
};
use crate::reference::Format;

/// A lens of the logbook.
pub(super) const LENS: Ask = Ask::typed(
    "lens",
    "lens",
    "a lens of the logbook, whose numbers stand in for what is not typed, L-02",
)
.from(Book::Lenses);

/// A camera of the logbook.
pub(super) const CAMERA: Ask = Ask::typed(
    "camera",
    "camera",
    "a camera of the logbook, whose bellows and size are then known, C-01",
)
.from(Book::Cameras);

/// The focal length.
pub(super) const FOCAL_LENGTH: Ask = Ask::typed(
    "focal_length",
    "focal length",
    "focal length of the lens, 150 mm",
);

/// The aperture.
pub(super) const APERTURE: Ask = Ask::typed("aperture", "aperture", "aperture that is set, f/22");

/// The format.
pub(super) const FORMAT: Ask = Ask::typed(
    "format",
    "format",
    "format of the film, or the image area itself, 4x5 or 96x120 mm",
)
.from(Book::Formats);

/// The circle of confusion.
pub(super) const CIRCLE: Ask = Ask::typed(
    "circle",
    "circle of confusion",
    "largest blur on the film that still passes for sharp; a 1500th of the diagonal of the format if \
     it is left out, 0.1 mm",
);

/// The magnification.
pub(super) const MAGNIFICATION: Ask = Ask::typed(
    "magnification",
    "magnification",
    "size on the film over real size, nothing for far subjects, 1/4",
);

/// Which way the film stands.
pub(super) const WAY: Ask = Ask::typed(
    "way",
    "way round",
    "which way the film stands in the camera, landscape",
)
.from(Book::Choice(&["landscape", "portrait"]));

/// The pupil ratio.
pub(super) const PUPIL_RATIO: Ask = Ask::typed(
    "pupil_ratio",
    "pupil ratio",
    "width of the opening seen from behind over its width from the front; 1 for most lenses of view \
     cameras, 0.8",
);

/// What a figure is asked about.
pub(super) struct Rig<'a> {
    given: &'a Given<'a>,
    lens: Option<LensRecord>,
    camera: Option<CameraRecord>,
    facts: Vec<Step>,
    /// What the size of the frame rests on, once a format was looked up for it.
    frame_rests_on: Option<Standing>,
}

impl<'a> Rig<'a> {
    /// With the lens and the camera that were named, if any.
    pub(super) fn of(given: &'a Given<'a>) -> Result<Rig<'a>, Problem> {
        Ok(Rig {
            given,
            lens: given.lens()?,
            camera: given.camera()?,
            facts: Vec::new(),
            frame_rests_on: None,
        })
    }

    /// The lens of the logbook that was named.
    pub(super) const fn lens(&self) -> Option<&LensRecord> {
        self.lens.as_ref()
    }

    /// The focal length, typed or of the lens.
    pub(super) fn focal_length(&mut self) -> Result<Millimetres, Problem> {
        self.may_focal_length()?
            .ok_or_else(|| self.given.missing("focal_length"))
    }

    /// The same, where it may be missing.
    pub(super) fn may_focal_length(&mut self) -> Result<Option<Millimetres>, Problem> {
        let typed = self.given.may("focal_length", Millimetres::parse)?;
        Ok(typed.or_else(|| self.of_lens("focal length", |lens| lens.focal_length)))
    }

    /// The image circle at infinity, typed or of the lens.
    pub(super) fn image_circle(&mut self) -> Result<Option<Millimetres>, Problem> {
        let typed = self.given.may("image_circle", Millimetres::parse)?;
        Ok(typed.or_else(|| self.of_lens("image circle", |lens| lens.image_circle)))
    }

    /// The flange focal distance, typed or of the lens.
    pub(super) fn flange(&mut self) -> Result<Option<Millimetres>, Problem> {
        let typed = self.given.may("flange", Millimetres::parse)?;
        Ok(typed.or_else(|| self.of_lens("flange distance", |lens| lens.flange)))
    }

    /// The pupil ratio, typed or of the lens; 1 if neither says.
    pub(super) fn pupil_ratio(&mut self) -> Result<f64, Problem> {
        if let Some(typed) = self.given.number("pupil_ratio")? {
            return Ok(typed);
        }
        let Some((name, ratio)) = self
            .lens
            .as_ref()
            .and_then(|lens| Some((lens.reference.clone(), lens.pupil_ratio?)))
        else {
            return Ok(1.0);
        };
        self.facts.push(
            Step::new("pupil ratio", Amount::number(ratio, "", 3))
                .on(Grounds::own(format!("lens {name}"))),
        );
        Ok(ratio)
    }

    fn of_lens(
        &mut self,
        name: &'static str,
        read: impl Fn(&LensRecord) -> Option<Millimetres>,
    ) -> Option<Millimetres> {
        let lens = self.lens.as_ref()?;
        let length = read(lens)?;
        let grounds = Grounds::own(format!("lens {}", lens.reference));
        self.facts
            .push(Step::new(name, Amount::Length(length)).on(grounds));
        Some(length)
    }

    /// The exact f-number of the aperture that was typed.
    pub(super) fn number(&self) -> Result<f64, Problem> {
        Ok(self.given.must("aperture", Aperture::parse)?.number())
    }

    /// The magnification: typed, by the distance of the subject, or 0 for infinity.
    pub(super) fn magnification(&self, focal_length: Option<Millimetres>) -> Result<f64, Problem> {
        if let Some(typed) = self.given.number("magnification")? {
            if (0.0..=100.0).contains(&typed) {
                return Ok(typed);
            }
            return Err(self.given.problem(
                "magnification",
                "it lies between 0, for infinity, and 100: write 0.25 or 1/4",
            ));
        }
        match (self.given.may("distance", Distance::parse)?, focal_length) {
            (Some(distance), Some(focal_length)) => {
                let found = from_distance(focal_length, distance);
                let found = found.map_err(|why| self.given.problem("distance", why.to_string()))?;
                Ok(found.value.magnification)
            }
            _ => Ok(0.0),
        }
    }

    /// The frame on the film: by the format that was typed, or by the size of the camera. It lies on
    /// its long side unless an area was typed or the way round was.
    pub(super) fn frame(&mut self) -> Result<Option<Frame>, Problem> {
        let found = match self.given.text("format") {
            Some(text) => Some(self.frame_typed(text)?),
            None => self.frame_of_camera()?,
        };
        let way = self.given.choice("way")?;
        Ok(found.map(|frame| match way {
            Some("portrait") => frame.portrait(),
            Some(_) => frame.landscape(),
            None => frame,
        }))
    }

    /// The same, where it must be there.
    pub(super) fn must_frame(&mut self) -> Result<Frame, Problem> {
        self.frame()?.ok_or_else(|| self.given.missing("format"))
    }

    fn frame_typed(&mut self, text: &str) -> Result<Frame, Problem> {
        if let Some(format) = self.given.desk().reference.format(text) {
            return self.frame_of(format);
        }
        let size = Size::parse(text).map_err(|_| {
            self.given.problem(
                "format",
                format!(
                    "\"{text}\" is no format here and no size: write 4x5, 13x18 cm or 96x120 mm"
                ),
            )
        })?;
        // Sizes in inches and centimetres are names of formats; one in millimetres is measured.
        let formats = self.given.desk().reference;
        match formats
            .format_of(size)
            .filter(|_| size.unit() != LengthUnit::Millimetre)
        {
            Some(format) => self.frame_of(format),
            None => {
                let (width, height) = size.mm();
                Frame::new(width, height)
                    .map_err(|why| self.given.problem("format", why.to_string()))
            }
        }
    }

    fn frame_of_camera(&mut self) -> Result<Option<Frame>, Problem> {
        let Some(size) = self.camera.as_ref().and_then(|camera| camera.size) else {
            return Ok(None);
        };
        if let Some(format) = self.given.desk().reference.format_of(size) {
            return self.frame_of(format).map(Some);
        }
        let (width, height) = size.mm();
        Ok(Some(Frame::new(width, height)?.landscape()))
    }

    fn frame_of(&mut self, format: &Format) -> Result<Frame, Problem> {
        let picture = format.picture();
        let (short, long) = (picture.width_mm, picture.height_mm);
        let frame = Frame::new(short, long)?.landscape();
        let shown = |side: f64| Amount::number(side, "", 1);
        self.frame_rests_on = Some(picture.grounds.standing);
        self.facts.push(
            Step::new(
                format!("{} of {}", picture.taken, format.name),
                Amount::words(format!("{} x {} mm", shown(short), shown(long))),
            )
            .on(picture.grounds),
        );
        Ok(frame)
    }

    /// The circle of confusion in millimetres: typed, or a 1500th of the diagonal of the frame.
    pub(super) fn circle(&mut self) -> Result<f64, Problem> {
        if let Some(typed) = self.given.may("circle", Millimetres::parse)? {
            return Ok(typed.value());
        }
        let Some(frame) = self.frame()? else {
            let says = "this is needed, or the format: write 0.1 mm, or 4x5 as the format";
            return Err(self.given.problem("circle", says));
        };
        let circle = by_diagonal(frame, 1500.0);
        self.facts.push(
            Step::new("circle of confusion", Amount::number(circle, "mm", 4))
                .working(format!(
                    "{} / 1500",
                    Amount::number(frame.diagonal(), "mm", 1)
                ))
                .on(self.of_the_frame(BY_1500)),
        );
        Ok(circle)
    }

    /// What a number rests on that follows by `rule` from the size of the frame: no more than that
    /// size itself.
    pub(super) fn of_the_frame(&self, rule: Grounds) -> Grounds {
        match self.frame_rests_on {
            Some(standing) if standing < rule.standing => {
                let size = match standing {
                    Standing::Remembered => "an image area from memory",
                    _ => "the size in the name of the format",
                };
                Grounds::new(standing, format!("{size}, by {}", rule.source))
            }
            _ => rule,
        }
    }

    /// Whether there is something to reckon a circle from.
    pub(super) fn has_circle(&self) -> bool {
        let typed = |key| self.given.text(key).is_some();
        typed("circle")
            || typed("format")
            || self.camera.as_ref().is_some_and(|it| it.size.is_some())
    }

    /// The longest draw of the camera's bellows.
    pub(super) fn longest_draw(&mut self) -> Option<Millimetres> {
        let camera = self.camera.as_ref()?;
        let longest = camera.longest_draw?;
        let grounds = Grounds::own(format!("camera {}", camera.reference));
        self.facts
            .push(Step::new("longest draw", Amount::Length(longest)).on(grounds));
        Some(longest)
    }

    /// The answer with the draw on the rail where the flange distance is known, and with a warning
    /// where the camera's bellows does not give that draw.
    pub(super) fn on_the_rail(
        &mut self,
        mut answer: Answer,
        focal_length: Millimetres,
        magnification: f64,
    ) -> Result<Answer, Problem> {
        let flange = self.flange()?;
        let f = focal_length.value();
        let draw = draw_on_rail(flange.map_or(f, Millimetres::value), f, magnification);
        if let Some(flange) = flange {
            let step =
                Step::new("draw on the rail", Amount::number(draw, "mm", 1)).working(format!(
                    "{flange} + {focal_length} x {}",
                    Amount::number(magnification, "", 4)
                ));
            answer
                .results
                .push(Line::new("draw on the rail", step.amount.clone()));
            answer.steps.push(step);
        }
        let Some(camera) = &self.camera else {
            return Ok(answer);
        };
        let length = |limit: Option<Millimetres>| limit.map(Millimetres::value);
        let short = |by: f64| Amount::number(by, "mm", 0);
        let name = &camera.reference;
        Ok(match reach(draw, length(camera.shortest_draw), length(camera.longest_draw)) {
            Reach::Within => answer,
            Reach::TooShort(by) => answer.remark(
                Concern::Warning,
                format!(
                    "the bellows of {name} ends {} short of this draw: stand further off, take a \
                     shorter lens or an extension",
                    short(by)
                ),
            ),
            Reach::TooLong(by) => answer.remark(
                Concern::Warning,
                format!(
                    "the bellows of {name} stays {} too long when it is pressed together: take a bag \
                     bellows or a recessed board",
                    short(by)
                ),
            ),
        })
    }

    /// The answer with what was taken from the logbook and the reference before its steps.
    pub(super) fn tell(self, mut answer: Answer) -> Answer {
        answer.steps.splice(0..0, self.facts);
        answer
    }
}

#[cfg(test)]
mod tests;
