//! A drawing list as SVG text.
//!
//! Lengths are rounded to [`DECIMALS`] decimals, so that the text of a picture does not change
//! with the last bit of a computation, and can be kept and compared.

use std::fmt::{self, Display, Write};
use std::ops::Range;

use glam::DVec2;

use super::{anchor_word, families};
use crate::scene::drawing::{Colour, Drawing, Mark, Stroke, TextStyle};

/// Decimals of a length in the text: a hundredth of a CSS pixel, finer than any screen or printer.
pub const DECIMALS: usize = 2;
/// Decimals of an opacity and of a gradient's stop.
const SHARE_DECIMALS: usize = 4;

/// Writes a picture as an SVG document of its own. Identifiers are unique within it.
#[must_use]
pub fn write(drawing: &Drawing) -> String {
    let mut out = String::new();
    // Writing to a `String` does not fail.
    let _ = document(&mut out, drawing);
    out
}

/// The whole document.
fn document(out: &mut String, drawing: &Drawing) -> fmt::Result {
    let (width, height) = (number(drawing.size().x), number(drawing.size().y));
    writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
         viewBox=\"0 0 {width} {height}\" stroke-linejoin=\"round\" fill=\"none\">"
    )?;
    for (id, mark) in drawing.marks().iter().enumerate() {
        element(out, drawing, id, mark)?;
    }
    out.push_str("</svg>\n");
    Ok(())
}

/// One mark; its place in the list serves as its identifier.
fn element(out: &mut String, drawing: &Drawing, id: usize, mark: &Mark) -> fmt::Result {
    match mark {
        Mark::Fill { contours, colour } => {
            path(out, drawing, contours, true)?;
            writeln!(out, "{}/>", paint("fill", *colour))
        }
        Mark::Gradient { contours, from, to, stops } => {
            gradient(out, id, (*from, *to), drawing.stops(stops))?;
            path(out, drawing, contours, true)?;
            writeln!(out, " fill=\"url(#g{id})\"/>")
        }
        Mark::Line { contours, closed, stroke } => {
            path(out, drawing, contours, *closed)?;
            writeln!(out, "{}/>", stroke_attributes(stroke))
        }
        Mark::Text { at, text, style } => text_element(out, *at, drawing.text_of(text), style),
        Mark::Clip { contours } => {
            write!(out, "<clipPath id=\"c{id}\">")?;
            path(out, drawing, contours, true)?;
            writeln!(out, "/></clipPath>\n<g clip-path=\"url(#c{id})\">")
        }
        Mark::Unclip => writeln!(out, "</g>"),
    }
}

/// A path without its end, so that attributes can follow.
fn path(out: &mut String, drawing: &Drawing, contours: &Range<usize>, closed: bool) -> fmt::Result {
    out.push_str("<path d=\"");
    for contour in drawing.contours(contours) {
        for (index, point) in contour.iter().enumerate() {
            let command = if index == 0 { 'M' } else { 'L' };
            write!(out, "{command}{} {}", number(point.x), number(point.y))?;
        }
        if closed {
            out.push('Z');
        }
    }
    out.push('"');
    Ok(())
}

/// A gradient in the coordinates of the picture.
fn gradient(
    out: &mut String,
    id: usize,
    (from, to): (DVec2, DVec2),
    stops: &[(f64, Colour)],
) -> fmt::Result {
    write!(
        out,
        "<linearGradient id=\"g{id}\" gradientUnits=\"userSpaceOnUse\" \
         x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\">",
        number(from.x),
        number(from.y),
        number(to.x),
        number(to.y)
    )?;
    for (offset, colour) in stops {
        let offset = rounded(*offset, SHARE_DECIMALS);
        write!(out, "<stop offset=\"{offset}\"{}/>", stop_colour(*colour))?;
    }
    writeln!(out, "</linearGradient>")
}

/// Letters; a halo is a line round them, painted first.
fn text_element(out: &mut String, at: DVec2, text: &str, style: &TextStyle) -> fmt::Result {
    write!(
        out,
        "<text x=\"{}\" y=\"{}\" font-family=\"{}\" font-size=\"{}\" text-anchor=\"{}\"{}",
        number(at.x),
        number(at.y),
        families(style.typeface),
        number(style.size),
        anchor_word(style.anchor),
        paint("fill", style.colour)
    )?;
    if let Some((colour, width)) = style.halo {
        let line = paint("stroke", colour);
        write!(out, "{line} stroke-width=\"{}\" paint-order=\"stroke\"", number(width))?;
    }
    writeln!(out, ">{}{}</text>", own_direction(text), Escaped(text))
}

/// What stands before a text with letters that run from right to left, so that the whole does.
fn own_direction(text: &str) -> &'static str {
    let leftwards = |c: char| ('\u{590}'..='\u{8ff}').contains(&c) && c.is_alphabetic();
    if text.contains(leftwards) { "\u{2067}" } else { "" }
}

/// How a line is drawn.
fn stroke_attributes(stroke: &Stroke) -> String {
    let line = paint("stroke", stroke.colour);
    let dash = stroke.dash.map_or(String::new(), |(dash, gap)| {
        format!(" stroke-dasharray=\"{} {}\"", number(dash), number(gap))
    });
    format!("{line} stroke-width=\"{}\"{dash}", number(stroke.width))
}

/// A colour as the attribute `fill` or `stroke`, with its opacity when it is not solid.
fn paint(attribute: &str, colour: Colour) -> String {
    let solid = format!(" {attribute}=\"{}\"", hex(colour));
    match colour.alpha {
        255 => solid,
        _ => format!("{solid} {attribute}-opacity=\"{}\"", opacity(colour)),
    }
}

/// A colour as the attributes of a gradient's stop.
fn stop_colour(colour: Colour) -> String {
    let solid = format!(" stop-color=\"{}\"", hex(colour));
    match colour.alpha {
        255 => solid,
        _ => format!("{solid} stop-opacity=\"{}\"", opacity(colour)),
    }
}

/// A colour as `#rrggbb`.
fn hex(colour: Colour) -> String {
    let [red, green, blue] = colour.rgb;
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// An opacity from 0 to 1.
fn opacity(colour: Colour) -> String {
    rounded(f64::from(colour.alpha) / 255.0, SHARE_DECIMALS)
}

/// A length in its shortest form.
fn number(value: f64) -> String {
    rounded(value, DECIMALS)
}

/// A number rounded to some decimals, without trailing zeros, and never `-0`.
fn rounded(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        text.as_str()
    };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// Text with the characters replaced that mean something in XML.
struct Escaped<'a>(&'a str);

impl Display for Escaped<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for letter in self.0.chars() {
            match letter {
                '&' => f.write_str("&amp;")?,
                '<' => f.write_str("&lt;")?,
                '>' => f.write_str("&gt;")?,
                '"' => f.write_str("&quot;")?,
                _ => f.write_char(letter)?,
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::drawing::{Anchor, Typeface, rectangle};

    const INK: Colour = Colour::hex(0x2a241d);

    /// A picture with every kind of mark.
    fn sample() -> Drawing {
        let mut drawing = Drawing::new(DVec2::new(40.0, 20.5));
        let square = rectangle(DVec2::new(-0.001, 1.0), DVec2::new(10.0 / 3.0, 4.0));
        drawing.clip(rectangle(DVec2::ZERO, DVec2::new(40.0, 20.0)));
        drawing.fill(square, INK.faded(0.5));
        let ends = (DVec2::ZERO, DVec2::new(40.0, 0.0));
        drawing.gradient(square, ends, [(0.0, INK), (1.0 / 3.0, INK.faded(0.0))]);
        drawing.unclip();
        let dotted = Stroke { dash: Some((2.0, 4.0)), ..Stroke::solid(INK, 1.2) };
        drawing.lines([[DVec2::ZERO, DVec2::ONE], [DVec2::X, DVec2::Y]], dotted);
        drawing.outline(square, Stroke::solid(INK, 1.0));
        let style = TextStyle {
            typeface: Typeface::Serif,
            size: 13.0,
            colour: INK,
            anchor: Anchor::Middle,
            halo: Some((Colour::hex(0xffffff), 3.0)),
        };
        drawing.text(DVec2::new(20.0, 10.0), "a < b & \"c\"", style);
        drawing
    }

    #[test]
    fn a_picture_with_every_mark_is_written_exactly_so() {
        let expected = r##"<svg xmlns="http://www.w3.org/2000/svg" width="40" height="20.5" viewBox="0 0 40 20.5" stroke-linejoin="round" fill="none">
<clipPath id="c0"><path d="M0 0L40 0L40 20L0 20Z"/></clipPath>
<g clip-path="url(#c0)">
<path d="M0 1L3.33 1L3.33 4L0 4Z" fill="#2a241d" fill-opacity="0.502"/>
<linearGradient id="g2" gradientUnits="userSpaceOnUse" x1="0" y1="0" x2="40" y2="0"><stop offset="0" stop-color="#2a241d"/><stop offset="0.3333" stop-color="#2a241d" stop-opacity="0"/></linearGradient>
<path d="M0 1L3.33 1L3.33 4L0 4Z" fill="url(#g2)"/>
</g>
<path d="M0 0L1 1M1 0L0 1" stroke="#2a241d" stroke-width="1.2" stroke-dasharray="2 4"/>
<path d="M0 1L3.33 1L3.33 4L0 4Z" stroke="#2a241d" stroke-width="1"/>
<text x="20" y="10" font-family="'Iowan Old Style','Palatino Linotype',Palatino,'Noto Serif',Georgia,serif" font-size="13" text-anchor="middle" fill="#2a241d" stroke="#ffffff" stroke-width="3" paint-order="stroke">a &lt; b &amp; &quot;c&quot;</text>
</svg>
"##;
        assert_eq!(write(&sample()), expected);
    }

    #[test]
    fn numbers_are_short_and_never_minus_zero() {
        for (value, text) in
            [(-0.004, "0"), (100.0, "100"), (1.005e3, "1005"), (-2.5, "-2.5"), (0.126, "0.13")]
        {
            assert_eq!(number(value), text);
        }
    }
}
