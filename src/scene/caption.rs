//! A caption under a picture that leaves the page: what is shown, when, and what is read.

use glam::DVec2;

use super::drawing::{Anchor, Drawing, TextStyle, Typeface, rectangle};
use super::lettering::text_width;
use super::palette::Palette;

/// Distance of lines, and the border about them, in sizes of the type.
const LINE: f64 = 1.4;
const BORDER: f64 = 0.8;
/// What parts two parts of the caption on one line.
const BETWEEN: &str = " · ";

/// Adds a band with a caption to the foot of a picture; its parts share lines where there is room.
pub fn add(drawing: &mut Drawing, parts: &[String], palette: &Palette, type_px: f64) {
    let size = drawing.size();
    let lines = lines(parts, size.x - 2.0 * BORDER * type_px, type_px);
    let height = (lines.len() as f64 * LINE + BORDER) * type_px;
    drawing.heighten(height);
    // Over whatever reaches beyond the picture's foot.
    let low = DVec2::new(0.0, size.y);
    drawing.fill(rectangle(low, drawing.size()), palette.paper);
    let style = TextStyle {
        typeface: Typeface::Sans,
        size: type_px,
        colour: palette.ink,
        anchor: Anchor::Start,
        halo: None,
    };
    for (index, line) in lines.iter().enumerate() {
        let baseline = (BORDER / 2.0 + index as f64 * LINE + 1.0) * type_px;
        drawing.text(low + DVec2::new(BORDER * type_px, baseline), line, style);
    }
}

/// Parts put together into lines no wider than this, if no part is.
fn lines(parts: &[String], width_px: f64, type_px: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for part in parts {
        let longer = lines.last().map(|line| format!("{line}{BETWEEN}{part}"));
        let fits = longer.filter(|it| text_width(it, Typeface::Sans, type_px) <= width_px);
        match (lines.last_mut(), fits) {
            (Some(line), Some(longer)) => *line = longer,
            _ => lines.push(part.clone()),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::paint::svg;
    use crate::scene::palette::Theme;

    #[test]
    fn a_caption_is_written_under_the_picture_on_as_many_lines_as_it_needs() {
        let parts = ["Terrace dial", "18 October 2026", "9 h 52 min"].map(str::to_owned);
        for (width, count) in [(800.0, 1), (240.0, 2), (130.0, 3)] {
            let mut drawing = Drawing::new(DVec2::new(width, 100.0));
            add(&mut drawing, &parts, Theme::Day.palette(), 14.0);
            assert_eq!(drawing.size().x, width);
            let text = svg::write(&drawing);
            assert_eq!(text.matches("</text>").count(), count, "{width}: {text}");
            assert!(parts.iter().all(|part| text.contains(part.as_str())));
            assert!((drawing.size().y - 100.0 - (count as f64 * 1.4 + 0.8) * 14.0).abs() < 1e-9);
        }
    }
}
