//! Hours as they are cut in the stone, as outlines.
//!
//! Coordinates are in heights of the signs: `x` to the right from the left border, `y` up from the
//! foot.

mod digits;
mod roman;

use self::digits::{DROP, Digit, UNITS};
use crate::core::instrument::Script;

/// A closed line.
pub(super) type Contour = Vec<(f64, f64)>;

/// The numeral of an hour.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Numeral {
    /// Its width, with the space that belongs to it at either side.
    pub(super) width: f64,
    /// What it is made of. The first contour of a part runs counter-clockwise, its holes the other
    /// way round; parts may overlap.
    pub(super) parts: Vec<Vec<Contour>>,
}

impl Numeral {
    /// The numeral of an hour of the day, counted from midnight or from noon alike: 12, 1 … 11.
    pub(super) fn of_hour(script: Script, hour: u32) -> Self {
        let hour = match hour % 12 {
            0 => 12,
            hour => hour,
        };
        let digits = match script {
            Script::Roman => return roman::numeral(hour),
            Script::Western => &digits::WESTERN,
            Script::Devanagari => &digits::DEVANAGARI,
            Script::EasternArabic => &digits::EASTERN_ARABIC,
        };
        let mut numeral = Self { width: 0.0, parts: Vec::new() };
        // All these scripts write numbers from left to right, the tens first.
        if hour >= 10 {
            numeral.add(&digits[1]);
        }
        numeral.add(&digits[hour as usize % 10]);
        numeral
    }

    /// Sets a digit at the right end.
    fn add(&mut self, digit: &Digit) {
        let from_table =
            |&(x, y): &(u8, u8)| (self.width + f64::from(x) / UNITS, (f64::from(y) - DROP) / UNITS);
        let contours = digit.contours.iter();
        self.parts.push(contours.map(|it| it.iter().map(from_table).collect()).collect());
        self.width += f64::from(digit.advance) / UNITS;
    }
}

#[cfg(test)]
mod tests;
