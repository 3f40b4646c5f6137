//! The whole style with its two scales, and the quadrant in true measure below it.

use glam::DVec2;

use super::{SCALE_END_DEG, Scale};
use crate::core::instrument::AxialEnd;
use crate::core::pointer::{Criterion, graduation_m};
use crate::scene::drawing::{Anchor, Stroke, Typeface, rectangle};
use crate::scene::lettering::{label, text_width};
use crate::scene::texture::{arrow_head, cased_line, hatch, round};

/// Degrees between two marks, and between two numbers, of which the finest with room is used.
const MARK_STEPS_DEG: [i32; 3] = [1, 2, 5];
const NUMBER_STEPS_DEG: [i32; 3] = [5, 10, 20];

impl Scale<'_> {
    pub(super) fn draw_overview(&mut self) {
        self.draw_wall();
        self.draw_squares();
        self.reserve_ray();
        for edge in AxialEnd::BOTH {
            self.draw_scale_marks(edge);
        }
        self.draw_missing_style();
        self.draw_quadrant();
        self.draw_ray();
        for edge in AxialEnd::BOTH {
            self.draw_aim(edge);
        }
        self.draw_rod();
        self.name_ends();
    }

    /// Thickness of the wall's upper part as drawn.
    fn wall_depth(&self) -> f64 {
        28.0 * self.layout.unit
    }

    /// The upper part of the wall, as far as it is in view.
    fn draw_wall(&mut self) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let (south, north) = self.style_m();
        let left = self.axis.px(south).max(0.0);
        let right = self.axis.px(north).min(self.view.size.x);
        let min = DVec2::new(left, self.layout.style_y);
        let max = DVec2::new(right, self.layout.style_y + self.wall_depth());
        let fade = [(0.0, palette.mid), (0.7, palette.mid), (1.0, palette.mid.faded(0.0))];
        let ends = (min, DVec2::new(min.x, max.y));
        self.drawing.gradient(rectangle(min, max), ends, fade);
        let line = [min, DVec2::new(right, min.y)];
        self.drawing.line(line, Stroke::solid(palette.ink, 1.8 * unit));
    }

    /// Lines square to the style from the quadrant's edges to the zeros of the two scales.
    fn draw_squares(&mut self) {
        let unit = self.layout.unit;
        let (south, north) = self.quadrant_m();
        let dash = Some((4.0 * unit, 3.0 * unit));
        let stroke = Stroke { dash, ..Stroke::solid(self.view.palette.rule, unit) };
        let lines = [south, north].map(|edge| {
            let px = self.axis.px(edge);
            [DVec2::new(px, self.layout.style_y), DVec2::new(px, self.layout.quadrant.0)]
        });
        self.drawing.lines(lines, stroke);
    }

    /// Pixels in a degree near the scale's zero, where its degrees are shortest.
    fn px_per_degree(&self) -> f64 {
        self.instrument.radius_m() * 1_f64.to_radians() * self.axis.px_per_unit()
    }

    /// The scale of one edge: the north edge's above the style's edge, the south edge's below.
    fn draw_scale_marks(&mut self, edge: AxialEnd) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let upwards = -edge.sign();
        let degree_px = self.px_per_degree();
        let fits = |step: &i32, room: f64| f64::from(*step) * degree_px >= room;
        let marks = MARK_STEPS_DEG.into_iter().find(|step| fits(step, 3.0)).unwrap_or(10);
        let room = 1.35 * text_width("20°", Typeface::Sans, self.view.label_px);
        let numbers = NUMBER_STEPS_DEG.into_iter().find(|step| fits(step, room)).unwrap_or(20);
        let (mut zero, mut long, mut short) = (Vec::new(), Vec::new(), Vec::new());
        for degree in -SCALE_END_DEG..=SCALE_END_DEG {
            let Some(px) = self.scale_px(edge, degree) else { continue };
            let numbered = degree % numbers == 0;
            let line = |length: f64| {
                let y = self.layout.style_y;
                [DVec2::new(px, y), DVec2::new(px, y + upwards * length * unit)]
            };
            match degree {
                0 => zero.push(line(11.0)),
                _ if numbered => long.push(line(9.0)),
                _ if degree % 5 == 0 => short.push(line(7.0)),
                _ if degree % marks == 0 => short.push(line(4.5)),
                _ => {}
            }
            if numbered {
                self.number_degree(degree, px, upwards);
            }
        }
        self.drawing.lines(short, Stroke::solid(palette.ink, 0.8 * unit));
        self.drawing.lines(long, Stroke::solid(palette.ink, 1.5 * unit));
        self.drawing.lines(zero, Stroke::solid(palette.ink, 3.0 * unit));
    }

    /// Where a whole degree is cut, if there is style there.
    fn scale_px(&self, edge: AxialEnd, degree: i32) -> Option<f64> {
        let place = graduation_m(self.instrument, edge, f64::from(degree).to_radians());
        let (south, north) = self.style_m();
        (south..=north).contains(&place).then(|| self.axis.px(place))
    }

    fn number_degree(&mut self, degree: i32, px: f64, upwards: f64) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let size = self.view.label_px;
        let y = self.layout.style_y
            + if upwards < 0.0 { -12.0 * unit } else { 11.0 * unit + 0.78 * size };
        let colour = if upwards < 0.0 { palette.ink } else { palette.cut };
        let style = label(size, colour, Anchor::Middle);
        self.letters.set(self.drawing, DVec2::new(px, y), &degree_text(degree), style);
    }

    /// Hatches where the scales would go on but the style does not.
    fn draw_missing_style(&mut self) {
        let unit = self.layout.unit;
        let (south, north) = self.style_m();
        let gaps = [(self.axis.min, south), (north, self.axis.max)];
        for (from_m, to_m) in gaps.into_iter().filter(|(from, to)| from < to) {
            let (left, right) = (self.axis.px(from_m), self.axis.px(to_m));
            let field = (
                DVec2::new(left, self.layout.style_y - 9.0 * unit),
                DVec2::new(right, self.layout.style_y + 9.0 * unit),
            );
            let stroke = Stroke::solid(self.view.palette.rule, 1.2 * unit);
            hatch(self.drawing, field, 7.0 * unit, stroke);
            let text = self.view.words.say("scale.no-style");
            let at = DVec2::new(f64::midpoint(left, right), field.1.y + 1.1 * self.view.label_px);
            let style = label(self.view.label_px, self.view.palette.ink_2, Anchor::Middle);
            if text_width(text, Typeface::Sans, self.view.label_px) <= right - left {
                self.letters.set(self.drawing, at, text, style);
            }
        }
    }

    /// The quadrant's breadth with the rod's shadow on it.
    fn draw_quadrant(&mut self) {
        let palette = self.view.palette;
        let (south, north) = self.quadrant_m();
        let (top, bottom) = self.layout.quadrant;
        let min = DVec2::new(self.axis.px(south), top);
        let max = DVec2::new(self.axis.px(north), bottom);
        let stops = self.stone_stops((south, north));
        self.drawing.gradient(rectangle(min, max), (min, DVec2::new(max.x, min.y)), stops);
        let ink = Stroke::solid(palette.ink, 1.3 * self.layout.unit);
        self.drawing.outline(rectangle(min, max), ink);
        let words = self.view.words;
        let text = words.say("scale.quadrant");
        let unit = self.layout.unit;
        let places = [
            (DVec2::new(max.x + 7.0 * unit, bottom - 3.0 * unit), Anchor::Start),
            (DVec2::new(min.x - 7.0 * unit, bottom - 3.0 * unit), Anchor::End),
        ];
        // On the side to which the ray does not go.
        let ray_goes_north = self.patch.is_some_and(|patch| patch.middle_m > 0.0);
        let [north_place, south_place] = places;
        let order =
            if ray_goes_north { [south_place, north_place] } else { [north_place, south_place] };
        for (at, anchor) in order {
            let style = label(self.view.label_px, palette.ink_2, anchor);
            if self.letters.set(self.drawing, at, text, style) {
                break;
            }
        }
    }

    /// The ray through the middle of the rod: where it comes from at the top of the view, the rod,
    /// and where it meets the quadrant.
    fn ray(&self) -> Option<[DVec2; 3]> {
        let patch = self.patch?;
        let rod = DVec2::new(self.axis.px(self.view.pointer.axial_m()), self.layout.style_y);
        let shadow = DVec2::new(self.axis.px(patch.middle_m), self.layout.quadrant.0);
        let back = (rod - shadow) * ((rod.y - 2.0 * self.layout.unit) / (shadow.y - rod.y));
        Some([rod + back, rod, shadow])
    }

    /// Keeps letters off the ray, piece by piece.
    fn reserve_ray(&mut self) {
        const PIECES: u32 = 10;
        let Some(ray) = self.ray() else { return };
        let pad = DVec2::splat(2.0 * self.layout.unit);
        for pair in ray.windows(2) {
            let [from, to] = pair else { continue };
            for piece in 0..PIECES {
                let at = |index: u32| from.lerp(*to, f64::from(index) / f64::from(PIECES));
                let (start, end) = (at(piece), at(piece + 1));
                self.letters.reserve(start.min(end) - pad, start.max(end) + pad);
            }
        }
    }

    fn draw_ray(&mut self) {
        let Some([from, rod, shadow]) = self.ray() else { return };
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let corner = DVec2::new(self.view.size.x, self.layout.quadrant.1);
        self.drawing.clip(rectangle(DVec2::ZERO, corner));
        let stroke = Stroke::solid(palette.accent, 1.8 * unit);
        cased_line(self.drawing, &[from, rod], stroke, palette.paper);
        let dash = Some((7.0 * unit, 4.0 * unit));
        cased_line(self.drawing, &[rod, shadow], Stroke { dash, ..stroke }, palette.paper);
        self.drawing.unclip();
    }

    /// The rod, end on.
    fn draw_rod(&mut self) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let radius = (self.view.pointer.diameter_m() / 2.0 * self.axis.px_per_unit())
            .clamp(3.0 * unit, 9.0 * unit);
        let px = self.axis.px(self.view.pointer.axial_m());
        let centre = DVec2::new(px, self.layout.style_y - radius);
        self.drawing.fill(round(centre, radius + 1.5 * unit), palette.paper);
        self.drawing.fill(round(centre, radius), palette.accent);
    }

    /// Where the rod is to be held so that the middle of its shadow is on an edge.
    fn draw_aim(&mut self, edge: AxialEnd) {
        let Some(place) = self.place_for(edge, Criterion::Middle) else { return };
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let towards = DVec2::Y * -edge.sign();
        let tip = DVec2::new(self.axis.px(place), self.layout.style_y) + towards * unit;
        let head = arrow_head(tip, towards, 7.0 * unit);
        self.drawing.outline(head, Stroke::solid(palette.paper, 3.0 * unit));
        self.drawing.fill(head, palette.accent);
    }

    /// North and south, at the ends of the view.
    fn name_ends(&mut self) {
        let size = self.view.label_px;
        let y = self.layout.quadrant.1 - 3.0 * self.layout.unit;
        let words = self.view.words;
        let ends = [
            ("scale.south", 2.0, Anchor::Start),
            ("scale.north", self.view.size.x - 2.0, Anchor::End),
        ];
        for (key, x, anchor) in ends {
            let style = label(size, self.view.palette.ink_2, anchor);
            self.letters.set(self.drawing, DVec2::new(x, y), words.say(key), style);
        }
    }
}

/// A whole number of degrees as it is cut.
pub(super) fn degree_text(degree: i32) -> String {
    let sign = if degree < 0 { "−" } else { "" };
    format!("{sign}{}°", degree.abs())
}
