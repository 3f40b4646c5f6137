//! A drawing list as one row of numbers and one text, for `canvas.js` to carry out.

use std::ops::Range;

use crate::scene::drawing::{Anchor, Colour, Drawing, Mark, Stroke, TextStyle, Typeface};

/// The typefaces in the order of their numbers.
pub(super) const TYPEFACES: [Typeface; 2] = [Typeface::Sans, Typeface::Serif];

/// A drawing as `canvas.js` reads it. Packing another keeps the memory.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Packed {
    /// Marks one after the other: a number for its kind, then what the kind asks for.
    numbers: Vec<f64>,
    /// All letters.
    text: String,
    /// How many units of UTF-16 the text has, as the browser counts letters.
    units: usize,
}

impl Packed {
    /// Takes the place of what was packed before.
    pub fn pack(&mut self, drawing: &Drawing) {
        self.numbers.clear();
        self.text.clear();
        self.units = 0;
        for mark in drawing.marks() {
            self.mark(drawing, mark);
        }
    }

    /// The marks as numbers.
    #[must_use]
    pub fn numbers(&self) -> &[f64] {
        &self.numbers
    }

    /// The letters of all texts.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    fn mark(&mut self, drawing: &Drawing, mark: &Mark) {
        match mark {
            Mark::Fill { contours, colour } => {
                self.numbers.extend([0.0, number(*colour)]);
                self.path(drawing, contours);
            }
            Mark::Gradient { contours, from, to, stops } => {
                self.numbers.extend([1.0, from.x, from.y, to.x, to.y, stops.len() as f64]);
                let stops = drawing.stops(stops);
                self.numbers.extend(stops.iter().flat_map(|&(at, colour)| [at, number(colour)]));
                self.path(drawing, contours);
            }
            Mark::Line { contours, closed, stroke } => {
                let (dash, gap) = stroke.dash.unwrap_or_default();
                self.numbers.extend([2.0, f64::from(u8::from(*closed))]);
                self.stroke(stroke);
                self.numbers.extend([dash, gap]);
                self.path(drawing, contours);
            }
            Mark::Text { at, text, style } => {
                self.numbers.extend([3.0, at.x, at.y]);
                self.letters(drawing.text_of(text), style);
            }
            Mark::Clip { contours } => {
                self.numbers.push(4.0);
                self.path(drawing, contours);
            }
            Mark::Unclip => self.numbers.push(5.0),
        }
    }

    fn letters(&mut self, letters: &str, style: &TextStyle) {
        let from = self.units;
        self.text.push_str(letters);
        self.units += letters.encode_utf16().count();
        let typeface = TYPEFACES.iter().position(|&it| it == style.typeface).unwrap_or_default();
        let anchor = match style.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => 1.0,
            Anchor::End => 2.0,
        };
        self.numbers.extend([from as f64, self.units as f64, style.size, typeface as f64, anchor]);
        self.numbers.extend([number(style.colour), f64::from(u8::from(style.halo.is_some()))]);
        if let Some((colour, width)) = style.halo {
            self.stroke(&Stroke::solid(colour, width));
        }
    }

    fn stroke(&mut self, stroke: &Stroke) {
        self.numbers.extend([number(stroke.colour), stroke.width]);
    }

    /// The contours: how many, then for each how many points, and the points.
    fn path(&mut self, drawing: &Drawing, contours: &Range<usize>) {
        let count = self.numbers.len();
        self.numbers.push(0.0);
        let mut kept = 0;
        for contour in drawing.contours(contours).filter(|contour| !contour.is_empty()) {
            kept += 1;
            self.numbers.push(contour.len() as f64);
            self.numbers.extend(contour.iter().flat_map(|point| [point.x, point.y]));
        }
        self.numbers[count] = f64::from(kept);
    }
}

/// A colour as the number 0xRRGGBBAA.
fn number(colour: Colour) -> f64 {
    let [red, green, blue] = colour.rgb;
    f64::from(u32::from_be_bytes([red, green, blue, colour.alpha]))
}

#[cfg(test)]
mod tests {
    use glam::DVec2;

    use super::*;

    const INK: Colour = Colour::hex(0x2d_25_22);

    fn packed(draw: impl FnOnce(&mut Drawing)) -> Packed {
        let mut drawing = Drawing::new(DVec2::splat(10.0));
        draw(&mut drawing);
        let mut packed = Packed::default();
        packed.pack(&drawing);
        packed
    }

    #[test]
    fn a_fill_is_its_colour_and_its_contours() {
        let triangle = [(1.0, 2.0), (3.0, 4.0), (5.0, 6.0)].map(DVec2::from);
        let packed = packed(|drawing| drawing.fill(triangle, INK));
        let colour = f64::from(0x2d25_22ff_u32);
        assert_eq!(packed.numbers(), [0.0, colour, 1.0, 3.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0]);
    }

    #[test]
    fn an_empty_contour_is_no_contour() {
        let packed = packed(|drawing| {
            drawing.fill_all([vec![], vec![DVec2::ONE; 3]], INK);
        });
        assert_eq!(packed.numbers()[2..4], [1.0, 3.0]);
    }

    #[test]
    fn letters_are_counted_as_the_browser_counts_them() {
        let style = TextStyle {
            typeface: Typeface::Serif,
            size: 14.0,
            colour: INK,
            anchor: Anchor::Middle,
            halo: None,
        };
        let packed = packed(|drawing| {
            drawing.text(DVec2::ZERO, "6𝟔 h", style);
            drawing.text(DVec2::ZERO, "δ", style);
        });
        assert_eq!(packed.text(), "6𝟔 hδ");
        // Six units: the figure beyond the basic plane counts twice.
        let places: Vec<_> = packed.numbers().chunks(10).map(|text| (text[3], text[4])).collect();
        assert_eq!(places, [(0.0, 5.0), (5.0, 6.0)]);
    }
}
