//! Letters on a picture: how wide they are at most, and a place where they touch nothing.

use glam::DVec2;

use super::drawing::{Anchor, Colour, Drawing, Stroke, TextStyle, Typeface};
use super::numerals::Numeral;

/// Height of letters above the baseline, in sizes, for every family in use.
const ASCENT: f64 = 0.78;
/// Depth of letters below the baseline, in sizes.
const DESCENT: f64 = 0.22;
/// Height of numerals, in sizes: that of capitals in the families in use.
const NUMERAL: f64 = 0.7;
/// Clear space kept at either side of a text, in sizes.
const CLEARANCE: f64 = 0.22;

/// Width of a text, CSS pixels: not less than that of any family in use, nor much more.
#[must_use]
pub fn text_width(text: &str, typeface: Typeface, size: f64) -> f64 {
    text.chars().map(|letter| advance(letter, typeface)).sum::<f64>() * size
}

/// Advance of a letter, in sizes: the widest of the families, rounded up.
fn advance(letter: char, typeface: Typeface) -> f64 {
    let either = |sans, serif| if typeface == Typeface::Serif { serif } else { sans };
    match letter {
        mark if is_mark(mark) => 0.0,
        ' ' => 0.27,
        'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '’' | '′' => 0.34,
        'I' => either(0.35, 0.41),
        'f' | 't' | 'r' | '-' | '(' | ')' | '°' | '″' => 0.47,
        's' | 'c' | 'z' => 0.52,
        'm' | 'M' => 0.98,
        'w' | '−' | '+' => 0.86,
        'W' => 1.05,
        'A'..='Z' => either(0.78, 0.82),
        // Joined letters are narrower than those that stand alone: what is taken for one is right for
        // words, and no less than they need.
        'أ' | 'إ' | 'آ' | 'ا' => 0.31,
        'ب' | 'ت' | 'ث' | 'ل' | 'ن' | 'ي' | 'ئ' => 0.5,
        'س' | 'ش' | 'ص' | 'ض' | 'ط' | 'ظ' => 1.0,
        '،' | '؛' | '٫' | '।' | 'ा' | 'ि' | 'ी' | 'ो' | 'ौ' => 0.34,
        'आ' | 'ओ' | 'औ' => 1.05,
        'अ' | 'ऊ' | 'क' | 'ख' | 'छ' | 'ज' | 'झ' | 'ण' | 'फ' | 'भ' => 0.8,
        'क'..='ह' => 0.66,
        _ => 0.63,
    }
}

/// Whether a letter takes no room of its own: marks above and below others, signs of direction.
pub(super) fn is_mark(letter: char) -> bool {
    matches!(
        letter,
        '\u{64b}'..='\u{65f}'
        | '\u{900}'..='\u{902}'
        | '\u{93c}'
        | '\u{941}'..='\u{948}'
        | '\u{94d}'
        | '\u{200b}'..='\u{200f}'
        | '\u{202a}'..='\u{202e}'
        | '\u{2066}'..='\u{2069}'
    )
}

/// The places of a picture that are still free for letters.
#[derive(Debug)]
pub(super) struct Lettering {
    min: DVec2,
    max: DVec2,
    taken: Vec<(DVec2, DVec2)>,
}

impl Lettering {
    /// Letters may stand anywhere on a picture of this size.
    pub(super) fn new(size: DVec2) -> Self {
        Self { min: DVec2::ZERO, max: size, taken: Vec::new() }
    }

    /// Keeps letters away from a rectangle.
    pub(super) fn reserve(&mut self, min: DVec2, max: DVec2) {
        self.taken.push((min, max));
    }

    /// Sets a text if it is neither cut off nor in the way of another; tells whether it was set.
    pub(super) fn set(
        &mut self,
        drawing: &mut Drawing,
        at: DVec2,
        text: &str,
        style: TextStyle,
    ) -> bool {
        let free = self.take(at, text, &style);
        if free {
            drawing.text(at, text, style);
        }
        free
    }

    /// Sets several texts if there is room for all of them, else none.
    pub(super) fn set_all(
        &mut self,
        drawing: &mut Drawing,
        texts: &[(DVec2, String, TextStyle)],
    ) -> bool {
        let before = self.taken.len();
        let free = texts.iter().all(|(at, text, style)| self.take(*at, text, style));
        if free {
            for (at, text, style) in texts {
                drawing.text(*at, text, *style);
            }
        } else {
            self.taken.truncate(before);
        }
        free
    }

    /// Sets a numeral, with some words after it, as [`Self::set`] sets a text.
    pub(super) fn set_numeral(
        &mut self,
        drawing: &mut Drawing,
        at: DVec2,
        (numeral, words): (&Numeral, &str),
        style: TextStyle,
    ) -> bool {
        let height = NUMERAL * style.size;
        let mut width = numeral.width * height;
        let mut whole = width;
        if !words.is_empty() {
            width += text_width(" ", style.typeface, style.size);
            whole = width + text_width(words, style.typeface, style.size);
        }
        let place = box_of(at, whole, &style);
        let free = self.take_box(place, &style);
        if free {
            let left = place.0.x;
            let corner = |&(x, y): &(f64, f64)| DVec2::new(left + x * height, at.y - y * height);
            let contours = || numeral.parts.iter().flatten();
            if let Some((colour, width)) = style.halo {
                let closed = contours().map(|it| it.iter().chain(it.first()).map(corner));
                drawing.lines(closed, Stroke::solid(colour, width));
            }
            drawing.fill_all(contours().map(|it| it.iter().map(corner)), style.colour);
            if !words.is_empty() {
                let style = TextStyle { anchor: Anchor::Start, ..style };
                drawing.text(DVec2::new(left + width, at.y), words, style);
            }
        }
        free
    }

    /// Takes the place of a text, without setting it, if it is free; tells whether it was.
    pub(super) fn take(&mut self, at: DVec2, text: &str, style: &TextStyle) -> bool {
        self.take_box(text_box(at, text, style), style)
    }

    /// Takes a rectangle for letters of a style, if it is free; tells whether it was.
    fn take_box(&mut self, (min, max): (DVec2, DVec2), style: &TextStyle) -> bool {
        // A hundredth of a pixel of play, so that a text may stand exactly at the border.
        let inside = min.cmpge(self.min - 0.01).all() && max.cmple(self.max + 0.01).all();
        let free = inside && self.is_free((min, max), style.size * CLEARANCE);
        if free {
            self.taken.push((min, max));
        }
        free
    }

    /// Sets a text as near to its place as it can stand without being cut off at the sides.
    pub(super) fn set_within(
        &mut self,
        drawing: &mut Drawing,
        at: DVec2,
        text: &str,
        style: TextStyle,
    ) -> bool {
        let (min, max) = text_box(at, text, &style);
        let shift = (self.min.x - min.x).max(0.0) + (self.max.x - max.x).min(0.0);
        self.set(drawing, at + DVec2::X * shift, text, style)
    }

    /// Whether nothing stands in a rectangle yet.
    pub(super) fn is_clear(&self, rectangle: (DVec2, DVec2)) -> bool {
        self.is_free(rectangle, 0.0)
    }

    fn is_free(&self, (min, max): (DVec2, DVec2), clearance: f64) -> bool {
        let apart = |&(other_min, other_max): &(DVec2, DVec2)| {
            min.x - clearance >= other_max.x
                || max.x + clearance <= other_min.x
                || min.y >= other_max.y
                || max.y <= other_min.y
        };
        self.taken.iter().all(apart)
    }
}

/// The rectangle a text fills.
pub(super) fn text_box(at: DVec2, text: &str, style: &TextStyle) -> (DVec2, DVec2) {
    box_of(at, text_width(text, style.typeface, style.size), style)
}

/// The rectangle that letters of a width fill.
fn box_of(at: DVec2, width: f64, style: &TextStyle) -> (DVec2, DVec2) {
    let left = match style.anchor {
        Anchor::Start => at.x,
        Anchor::Middle => at.x - width / 2.0,
        Anchor::End => at.x - width,
    };
    let top = at.y - ASCENT * style.size;
    (DVec2::new(left, top), DVec2::new(left + width, at.y + DESCENT * style.size))
}

/// A plain style for labels.
pub(super) fn label(size: f64, colour: Colour, anchor: Anchor) -> TextStyle {
    TextStyle { typeface: Typeface::Sans, size, colour, anchor, halo: None }
}

/// A plain style for figures and names.
pub(super) fn figure(size: f64, colour: Colour, anchor: Anchor) -> TextStyle {
    TextStyle { typeface: Typeface::Serif, ..label(size, colour, anchor) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::Script;
    use crate::scene::checks::assert_legible;
    use crate::scene::drawing::Mark;

    const INK: Colour = Colour::hex(0);

    #[test]
    fn a_numeral_takes_its_own_width_and_that_of_the_words_after_it() {
        let size = DVec2::new(200.0, 40.0);
        let style = label(20.0, INK, Anchor::Start);
        for script in Script::ALL {
            let numeral = Numeral::of_hour(script, 12);
            let width = 14.0 * numeral.width;
            let (mut drawing, mut letters) = (Drawing::new(size), Lettering::new(size));
            let at = DVec2::new(10.0, 25.0);
            assert!(letters.set_numeral(&mut drawing, at, (&numeral, "40"), style));
            let set = drawing.marks().len();
            let inside = DVec2::new(10.0 + width - 3.0, 25.0);
            assert!(!letters.set(&mut drawing, inside, "1", style), "{script:?}");
            assert!(!letters.set_numeral(&mut drawing, at, (&numeral, ""), style), "{script:?}");
            assert_eq!(drawing.marks().len(), set);
            let Some(Mark::Text { at: words, .. }) = drawing.marks().last() else {
                panic!("{script:?}: the words come last")
            };
            let space = text_width(" ", Typeface::Sans, 20.0);
            assert!((words.x - 10.0 - width - space).abs() < 1e-9, "{script:?}");
            let after = words.x + text_width("40", Typeface::Sans, 20.0) + 5.0;
            assert!(letters.set(&mut drawing, DVec2::new(after, 25.0), "1", style), "{script:?}");
        }
    }

    #[test]
    fn a_second_text_on_the_same_place_is_refused_and_beside_it_is_set() {
        let size = DVec2::new(200.0, 40.0);
        let (mut drawing, mut letters) = (Drawing::new(size), Lettering::new(size));
        let style = label(13.0, INK, Anchor::Start);
        assert!(letters.set(&mut drawing, DVec2::new(10.0, 20.0), "one", style));
        assert!(!letters.set(&mut drawing, DVec2::new(20.0, 20.0), "two", style));
        assert!(letters.set(&mut drawing, DVec2::new(60.0, 20.0), "two", style));
        assert!(!letters.set(&mut drawing, DVec2::new(190.0, 20.0), "three", style));
        assert!(letters.set_within(&mut drawing, DVec2::new(190.0, 20.0), "three", style));
        assert_legible(&drawing, "sample");
    }
}
