//! Roman numerals as outlines: thick and thin strokes with bracketed serifs.

use super::Numeral;

/// Breadth of the thick and the thin strokes, and of serifs.
const THICK: f64 = 0.165;
const THIN: f64 = 0.075;
const SERIF: f64 = 0.055;
/// How far serifs reach past a thick stroke, and how high their brackets climb.
const REACH: f64 = 0.075;
const BRACKET: f64 = 0.06;

/// Advance of a letter.
fn advance(letter: char) -> f64 {
    match letter {
        'I' => 0.40,
        'V' => 0.80,
        _ => 0.82,
    }
}

/// Hours from XII, as masons cut them (IIII, not IV).
const HOURS: [&str; 12] =
    ["XII", "I", "II", "III", "IIII", "V", "VI", "VII", "VIII", "IX", "X", "XI"];

/// The numeral of an hour.
pub(super) fn numeral(hour: u32) -> Numeral {
    let mut parts = Vec::new();
    let mut each = |stroke: &[(f64, f64)]| parts.push(vec![stroke.to_vec()]);
    let mut x = 0.0;
    for letter in HOURS[hour as usize % 12].chars() {
        match letter {
            'I' => stem(x + advance(letter) / 2.0, &mut each),
            'V' => {
                leg((x + 0.17, 1.0), (x + 0.42, 0.0), THICK, &mut each);
                leg((x + 0.66, 1.0), (x + 0.42, 0.0), THIN, &mut each);
                serif(x + 0.17, 1.0, THICK, &mut each);
                serif(x + 0.66, 1.0, THIN, &mut each);
            }
            _ => {
                leg((x + 0.16, 1.0), (x + 0.66, 0.0), THICK, &mut each);
                leg((x + 0.64, 1.0), (x + 0.18, 0.0), THIN, &mut each);
                for y in [0.0, 1.0] {
                    let thick_left = y > 0.5;
                    serif(x + 0.17, y, if thick_left { THICK } else { THIN }, &mut each);
                    serif(x + 0.65, y, if thick_left { THIN } else { THICK }, &mut each);
                }
            }
        }
        x += advance(letter);
    }
    Numeral { width: x, parts }
}

/// An upright stroke with brackets at foot and head.
fn stem(x: f64, each: &mut impl FnMut(&[(f64, f64)])) {
    let (half, wide) = (THICK / 2.0, THICK / 2.0 + REACH);
    let (low, high) = (SERIF + BRACKET, 1.0 - SERIF - BRACKET);
    each(&[
        (x - wide, 0.0),
        (x + wide, 0.0),
        (x + wide, SERIF),
        (x + half + 0.02, SERIF + 0.015),
        (x + half, low),
        (x + half, high),
        (x + half + 0.02, 1.0 - SERIF - 0.015),
        (x + wide, 1.0 - SERIF),
        (x + wide, 1.0),
        (x - wide, 1.0),
        (x - wide, 1.0 - SERIF),
        (x - half - 0.02, 1.0 - SERIF - 0.015),
        (x - half, high),
        (x - half, low),
        (x - half - 0.02, SERIF + 0.015),
        (x - wide, SERIF),
    ]);
}

/// A slanting stroke of a given level breadth.
fn leg(top: (f64, f64), foot: (f64, f64), breadth: f64, each: &mut impl FnMut(&[(f64, f64)])) {
    let half = breadth / 2.0;
    each(&[
        (foot.0 - half, foot.1),
        (foot.0 + half, foot.1),
        (top.0 + half, top.1),
        (top.0 - half, top.1),
    ]);
}

/// A level serif at the foot or the head of a stroke.
fn serif(x: f64, y: f64, breadth: f64, each: &mut impl FnMut(&[(f64, f64)])) {
    let wide = breadth / 2.0 + REACH;
    let (low, high) = if y > 0.5 { (y - SERIF, y) } else { (y, y + SERIF) };
    each(&[(x - wide, low), (x + wide, low), (x + wide, high), (x - wide, high)]);
}
