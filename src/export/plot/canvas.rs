//! The field of a plot, on which lines and signs are drawn.

use super::Pens;

/// A field of cells, each with eight dots, two wide and four high, and perhaps a sign over them.
#[derive(Debug)]
pub(super) struct Canvas {
    wide: usize,
    high: usize,
    pens: Pens,
    dots: Vec<u8>,
    signs: Vec<Option<&'static str>>,
}

/// The bit of each dot of a braille cell: by row, then by column.
const BITS: [[u8; 2]; 4] = [[0x01, 0x08], [0x02, 0x10], [0x04, 0x20], [0x40, 0x80]];

/// The braille cell without any dot.
const BRAILLE: u32 = 0x2800;

impl Canvas {
    /// An empty field.
    pub(super) fn new(wide: usize, high: usize, pens: Pens) -> Canvas {
        Canvas {
            wide,
            high,
            pens,
            dots: vec![0; wide * high],
            signs: vec![None; wide * high],
        }
    }

    /// Draws a line between two places, each a part of the width and of the height, from the left
    /// upper corner.
    pub(super) fn line(&mut self, from: (f64, f64), to: (f64, f64)) {
        let (across, down) = (self.wide * BITS[0].len(), self.high * BITS.len());
        let dot = |part: f64, many: usize| part * many.saturating_sub(1) as f64;
        let (from, to) = (
            (dot(from.0, across), dot(from.1, down)),
            (dot(to.0, across), dot(to.1, down)),
        );
        let steps = (to.0 - from.0).abs().max((to.1 - from.1).abs()).ceil();
        let steps = steps.max(1.0) as usize;
        for step in 0..=steps {
            let part = step as f64 / steps as f64;
            let x = (from.0 + (to.0 - from.0) * part).round() as usize;
            let y = (from.1 + (to.1 - from.1) * part).round() as usize;
            self.dot(x, y);
        }
    }

    fn dot(&mut self, x: usize, y: usize) {
        let (rows, columns) = (BITS.len(), BITS[0].len());
        let bit = BITS
            .get(y % rows)
            .and_then(|row| row.get(x % columns))
            .copied();
        let at = self.index(x / columns, y / rows);
        if let (Some(at), Some(bit)) = (at, bit)
            && let Some(cell) = self.dots.get_mut(at)
        {
            *cell |= bit;
        }
    }

    /// Puts a sign at a place.
    pub(super) fn sign(&mut self, place: (f64, f64), sign: &'static str) {
        let (x, y) = (
            super::scale::at(place.0, self.wide),
            super::scale::at(place.1, self.high),
        );
        let at = self.index(x, y);
        if let Some(cell) = at.and_then(|at| self.signs.get_mut(at)) {
            *cell = Some(sign);
        }
    }

    /// What stands in a cell, if anything does.
    pub(super) fn cell(&self, x: usize, y: usize) -> Option<String> {
        let at = self.index(x, y)?;
        if let Some(sign) = self.signs.get(at).copied().flatten() {
            return Some(sign.to_owned());
        }
        let dots = self.dots.get(at).copied().filter(|dots| *dots > 0)?;
        match self.pens {
            Pens::Fine => char::from_u32(BRAILLE + u32::from(dots)).map(String::from),
            Pens::Ascii => Some("*".to_owned()),
        }
    }

    const fn index(&self, x: usize, y: usize) -> Option<usize> {
        if x < self.wide && y < self.high {
            Some(y * self.wide + x)
        } else {
            None
        }
    }
}
