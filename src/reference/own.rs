//! Films and formats of the user's own, laid over those of the reference.
//!
//! For: whoever looks up a film or a format. What was found out is handed in ([`Reference::lay_over`])
//! and from then on [`Reference::film`], [`Reference::format`] and the lists tell the user's own figures
//! first; what was not found out stays as it was published. Promises: a finding changes no figure it
//! does not speak of, of several findings the later goes before the earlier figure by figure, and every
//! figure that comes from one says so with its day. Leaves to others: which findings there are.

use std::sync::OnceLock;

use chrono::NaiveDate;

use super::format::{FormatUnit, HolderDepth, Sides};
use super::naming;
use super::standing::{Origin, Standing};
use super::{Film, FilmKind, Format, Reference, SAME_SIZE};
use crate::craft::development::contrast::Grain;
use crate::craft::{FilmSpeed, Grounds, LengthUnit, Millimetres, Size, trimmed};

/// A film as the user found it.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnFilm {
    /// Its name; one that the reference knows means that film.
    pub name: String,
    /// Its speed.
    pub speed: Option<FilmSpeed>,
    /// Its maker.
    pub maker: Option<String>,
    /// To what colours it answers.
    pub kind: Option<FilmKind>,
    /// The day.
    pub on: NaiveDate,
}

/// A format as the user measured it.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnFormat {
    /// The size in its name; one that the reference knows means that format.
    pub size: Size,
    /// What it is called.
    pub name: Option<String>,
    /// What the holder leaves open.
    pub image: Option<Size>,
    /// The size the sheets are cut to.
    pub cut: Option<Size>,
    /// From the face of the holder to its septum.
    pub depth: Option<Millimetres>,
    /// By how much holders differ from that either way.
    pub tolerance: Option<Millimetres>,
    /// The day.
    pub on: NaiveDate,
}

/// What is laid over the reference, and what the lists come to with it once they are asked for.
#[derive(Debug, Clone, Default)]
pub(super) struct Own {
    films: Vec<OwnFilm>,
    formats: Vec<OwnFormat>,
    all_films: OnceLock<Vec<Film>>,
    all_formats: OnceLock<Vec<Format>>,
}

impl Reference {
    /// Lays the user's own films and formats over the reference, latest last, in place of what was
    /// laid over it before.
    pub fn lay_over(&mut self, films: Vec<OwnFilm>, formats: Vec<OwnFormat>) {
        if self.own.films != films || self.own.formats != formats {
            self.own = Own {
                films,
                formats,
                ..Own::default()
            };
        }
    }

    /// All films; those the user alone knows come last.
    pub fn films(&self) -> &[Film] {
        let published = &self.whole().films;
        if self.own.films.is_empty() {
            return published;
        }
        self.own.all_films.get_or_init(|| {
            let mut films = published.clone();
            for own in &self.own.films {
                lay_film(&mut films, own);
            }
            films
        })
    }

    /// All formats, smallest first.
    pub fn formats(&self) -> &[Format] {
        let published = &self.whole().formats;
        if self.own.formats.is_empty() {
            return published;
        }
        self.own.all_formats.get_or_init(|| {
            let mut formats = published.clone();
            for own in &self.own.formats {
                lay_format(&mut formats, own);
            }
            formats
        })
    }
}

/// Where an own figure comes from.
fn found(on: NaiveDate) -> String {
    format!("found on {on}")
}

fn lay_film(films: &mut Vec<Film>, own: &OwnFilm) {
    match naming::whole(films, &own.name) {
        Some(film) => tell_film(film, own),
        None => {
            let mut film = Film {
                // Folded, because a name need not have a letter that an id of a file may have.
                id: naming::folded(&own.name),
                name: own.name.trim().to_owned(),
                maker: String::new(),
                also: Vec::new(),
                kind: FilmKind::Panchromatic,
                // Nobody said so: most film is.
                kind_rests: Some(Grounds::usual()),
                grain: Grain::Classic,
                speed: None,
                source: found(own.on),
                standing: Standing::Own,
                note: String::new(),
                origin: Origin::Logbook,
            };
            tell_film(&mut film, own);
            films.push(film);
        }
    }
}

fn tell_film(film: &mut Film, own: &OwnFilm) {
    if let Some(speed) = own.speed {
        // The kind rests where it did.
        let before = Grounds::new(film.standing, film.source.clone());
        film.kind_rests.get_or_insert(before);
        film.speed = Some(speed.value());
        film.source = found(own.on);
        film.standing = Standing::Own;
    }
    if let Some(maker) = &own.maker {
        film.maker.clone_from(maker);
    }
    if let Some(kind) = own.kind {
        film.kind = kind;
        film.kind_rests = Some(Grounds::own(found(own.on)));
    }
}

fn lay_format(formats: &mut Vec<Format>, own: &OwnFormat) {
    if let Some(format) = formats.iter_mut().find(|it| it.is_of(own.size)) {
        tell_format(format, own);
        return;
    }
    let mut format = of_size(own.size);
    tell_format(&mut format, own);
    let area = |format: &Format| {
        let (width, height) = format.nominal_mm();
        width * height
    };
    let place = formats.partition_point(|other| area(other) <= area(&format));
    formats.insert(place, format);
}

/// A format of which no more than its size is known.
fn of_size(size: Size) -> Format {
    let (unit, per_unit, ending) = match size.unit() {
        LengthUnit::Inch => (FormatUnit::Inch, 1.0, ""),
        LengthUnit::Centimetre => (FormatUnit::Centimetre, 1.0, "cm"),
        LengthUnit::Millimetre => (FormatUnit::Centimetre, 0.1, "cm"),
    };
    let (one, other) = (size.width() * per_unit, size.height() * per_unit);
    let (width, height) = (one.min(other), one.max(other));
    let by_size = format!("{}x{}", trimmed(width, 4), trimmed(height, 4));
    Format {
        id: format!("{by_size}{ending}"),
        name: format!("{by_size} {ending}").trim_end().to_owned(),
        width,
        height,
        unit,
        cut: None,
        image: None,
        holder: None,
        usual: Vec::new(),
        origin: Origin::Logbook,
    }
}

fn tell_format(format: &mut Format, own: &OwnFormat) {
    let sides = |size: Size| {
        let (one, other) = size.mm();
        Sides {
            width_mm: one.min(other),
            height_mm: one.max(other),
            source: found(own.on),
            standing: Standing::Own,
        }
    };
    if let Some(name) = &own.name {
        format.name.clone_from(name);
    }
    if let Some(image) = own.image {
        format.image = Some(sides(image));
    }
    if let Some(cut) = own.cut {
        format.cut = Some(sides(cut));
    }
    if let Some(depth) = own.depth {
        let inches = |length: Millimetres| length.value() / LengthUnit::Inch.in_mm();
        format.holder = Some(HolderDepth {
            depth_in: inches(depth),
            // What was printed of other holders says nothing of this one.
            tolerance_in: own.tolerance.map(inches),
            source: found(own.on),
            standing: Standing::Own,
        });
    }
}

impl Format {
    /// Whether sheets of this nominal size, either way round, are of this format.
    pub fn is_of(&self, size: Size) -> bool {
        let (one, other) = size.mm();
        let (width, height) = self.nominal_mm();
        let near = |nominal: f64, side: f64| (nominal - side).abs() < SAME_SIZE;
        near(width, one.min(other)) && near(height, one.max(other))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    fn film(name: &str, speed: Option<u32>) -> OwnFilm {
        OwnFilm {
            name: name.to_owned(),
            speed: speed.and_then(|speed| FilmSpeed::new(speed).ok()),
            maker: None,
            kind: None,
            on: day("2026-02-01"),
        }
    }

    fn format(size: &str) -> OwnFormat {
        OwnFormat {
            size: Size::parse(size).unwrap(),
            name: None,
            image: None,
            cut: None,
            depth: None,
            tolerance: None,
            on: day("2026-02-01"),
        }
    }

    fn with(films: Vec<OwnFilm>, formats: Vec<OwnFormat>) -> Reference {
        let mut reference = Reference::on_demand();
        reference.lay_over(films, formats);
        reference
    }

    #[test]
    fn an_own_speed_of_a_known_film_goes_before_the_published_one_however_it_is_written() {
        let published = Reference::on_demand();
        let reference = with(vec![film("FP4+", Some(80))], Vec::new());
        let own = reference.film("ilford fp4 plus").unwrap();
        assert_eq!((own.id.as_str(), own.speed), ("fp4-plus", Some(80)));
        let (speed, grounds) = own.rated().unwrap();
        assert_eq!(speed.value(), 80);
        assert_eq!(grounds, Grounds::own("found on 2026-02-01"));
        assert_eq!(own.maker, "Ilford", "what was not found out stays");
        let kind = own.kind_rests.as_ref().unwrap();
        assert_eq!(
            kind.standing,
            Standing::Published,
            "so does what it rests on"
        );
        assert_eq!(reference.films().len(), published.films().len());
        assert!(reference.laws_of(own).next().is_some());
    }

    #[test]
    fn what_was_said_of_the_kind_alone_leaves_the_speed_as_it_was_published() {
        let kind = OwnFilm {
            kind: Some(FilmKind::Orthochromatic),
            ..film("HP5 Plus", None)
        };
        let reference = with(vec![kind], Vec::new());
        let film = reference.film("HP5").unwrap();
        assert_eq!(
            (film.speed, film.standing),
            (Some(400), Standing::Published)
        );
        assert_eq!(film.kind, FilmKind::Orthochromatic);
        assert_eq!(film.kind_rests.as_ref().unwrap().standing, Standing::Own);
    }

    #[test]
    fn a_film_that_only_the_user_knows_is_found_and_the_later_finding_counts() {
        let later = OwnFilm {
            maker: Some("Northlight".to_owned()),
            on: day("2026-03-01"),
            ..film("plain pan", Some(50))
        };
        let reference = with(
            vec![
                film("Plain Pan", Some(80)),
                later,
                film("\u{5bcc}\u{58eb} 2", None),
            ],
            Vec::new(),
        );
        for typed in ["Plain Pan", "plain-pan", "northlight plain pan", "plainpan"] {
            let film = reference.film(typed).unwrap();
            assert_eq!((film.name.as_str(), film.speed), ("Plain Pan", Some(50)));
            assert_eq!(film.source, "found on 2026-03-01");
        }
        assert!(reference.same_film("Plain Pan", "PLAIN PAN"));
        assert!(reference.film("\u{5bcc}\u{58eb}2").is_some());
    }

    #[test]
    fn the_beginning_of_a_known_name_is_another_film() {
        let reference = with(vec![film("HP", Some(50))], Vec::new());
        assert_eq!(reference.film("HP").unwrap().speed, Some(50));
        assert_eq!(reference.film("HP5").unwrap().speed, Some(400));
    }

    #[test]
    fn own_figures_of_a_format_go_before_the_published_ones_one_by_one() {
        let own = OwnFormat {
            image: Size::parse("121x97 mm").ok(),
            depth: Millimetres::new(4.9).ok(),
            ..format("5x4")
        };
        let published = Reference::on_demand();
        let reference = with(Vec::new(), vec![own]);
        let format = reference.format("4x5").unwrap();
        let picture = format.picture();
        assert_eq!((picture.width_mm, picture.height_mm), (97.0, 121.0));
        assert_eq!(picture.grounds, Grounds::own("found on 2026-02-01"));
        assert_eq!(format.cut, published.format("4x5").unwrap().cut);
        let holder = format.holder.as_ref().unwrap();
        assert!((holder.depth_in * 25.4 - 4.9).abs() < 1e-9);
        assert_eq!(
            (holder.tolerance_in, holder.standing),
            (None, Standing::Own)
        );
    }

    #[test]
    fn a_format_of_ones_own_stands_among_the_others_by_its_size_and_its_name() {
        let own = OwnFormat {
            name: Some("whole plate".to_owned()),
            cut: Size::parse("164x215 mm").ok(),
            ..format("8.5x6.5")
        };
        let reference = with(Vec::new(), vec![own, format("60x80 mm")]);
        for typed in ["whole plate", "6.5x8.5", "6.5x8.5 in", "8.5x6.5 in"] {
            assert_eq!(reference.format(typed).unwrap().id, "6.5x8.5", "{typed}");
        }
        let ids: Vec<&str> = reference
            .formats()
            .iter()
            .map(|it| it.id.as_str())
            .collect();
        let at = ids.iter().position(|id| *id == "6.5x8.5").unwrap();
        assert_eq!(ids.get(at - 1), Some(&"13x18cm"));
        assert!(ids.contains(&"6x8cm"));
        assert_eq!(reference.format("6x8 cm").unwrap().name, "6x8 cm");
    }

    #[test]
    fn what_is_laid_over_takes_the_place_of_what_was_laid_over_before() {
        let mut reference = with(vec![film("FP4", Some(80))], Vec::new());
        assert_eq!(reference.film("FP4").unwrap().speed, Some(80));
        reference.lay_over(Vec::new(), Vec::new());
        assert_eq!(reference.film("FP4").unwrap().speed, Some(125));
    }
}
