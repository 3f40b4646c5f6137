//! Why there is nothing to read, as a small picture beside the words.
//!
//! End on, the dial is the wall between its two quadrants, west at the left; from the side it is
//! the style over the quadrant, north at the right; against the sky it is the horizon.

use std::f64::consts::FRAC_PI_2;

use glam::DVec2;

use super::Lens;
use crate::core::instrument::{AxialEnd, Instrument, Side};
use crate::core::reading::{NoReading, hour_angle_of_mark};
use crate::core::shadow::{Shade, axial_shift_m};
use crate::scene::drawing::{Anchor, Stroke, rectangle};
use crate::scene::lettering::{label, text_box};
use crate::scene::texture::{arrow_head, cased_line, hatch, round};

/// Breadth of the picture, as a share of its height, and of the view at most.
const BREADTH: f64 = 1.65;
const SHARE_OF_VIEW: f64 = 0.46;
/// Least height at which the picture can be understood, in label sizes.
const LEAST_LABELS: f64 = 5.0;

/// The frame of the small picture.
#[derive(Clone, Copy, Debug)]
struct Panel {
    min: DVec2,
    max: DVec2,
    unit: f64,
}

impl Panel {
    fn size(&self) -> DVec2 {
        self.max - self.min
    }

    /// A place in the frame, as shares of its width and height from the upper left.
    fn at(&self, x: f64, y: f64) -> DVec2 {
        self.min + self.size() * DVec2::new(x, y)
    }
}

/// The dial end on, in the frame: from the style, which is at the top of the wall.
#[derive(Clone, Copy, Debug)]
struct EndOn {
    /// Middle of the wall's top.
    top: DVec2,
    /// Pixels in a radius of the quadrants.
    radius: f64,
    /// Half of the wall's thickness, pixels.
    half_wall: f64,
}

impl EndOn {
    fn new(panel: &Panel, instrument: &Instrument) -> Self {
        let wall_r = (instrument.wall_thickness_m() / instrument.radius_m()).clamp(0.06, 0.5);
        let size = panel.size();
        let radius = (size.x * 0.78 / (2.0 + wall_r)).min(size.y * 0.58);
        let top = panel.at(0.5, 0.32);
        Self { top, radius, half_wall: wall_r * radius / 2.0 }
    }

    /// A style edge.
    fn style(&self, side: Side) -> DVec2 {
        self.top + DVec2::X * (side.sign() * self.half_wall)
    }

    /// A point of a quadrant's surface at an angle from the foot, signed as an hour angle.
    fn on_arc(&self, side: Side, angle_rad: f64, radii: f64) -> DVec2 {
        let (sin, cos) = angle_rad.sin_cos();
        self.style(side) + DVec2::new(sin, cos) * (self.radius * radii)
    }
}

/// Towards the Sun as seen end on: west is at the left.
fn to_sun(hour_angle_rad: f64) -> DVec2 {
    let (sin, cos) = hour_angle_rad.sin_cos();
    DVec2::new(-sin, -cos)
}

impl Lens<'_> {
    /// Draws why there is nothing to read, or why the stone in view is dark.
    pub(super) fn draw_why(&mut self) {
        use NoReading::{BeyondQuadrantEnd, Blind, Night, StyleTooShort, SunUnderHorizon};
        let middle_px = self.view.size.x / 2.0;
        match self.moment.reading {
            Err(Blind { .. }) => {}
            Err(Night { altitude_rad } | SunUnderHorizon { altitude_rad }) => {
                self.in_panel(false, |lens, panel| lens.draw_horizon(panel, altitude_rad));
            }
            Err(StyleTooShort { end, missing_m }) => {
                self.in_panel(false, |lens, panel| lens.draw_short_style(panel, end, missing_m));
            }
            Err(BeyondQuadrantEnd { side, .. }) => {
                let end_px = self.window.px(side, self.window.end_s(side));
                let at_left = if (0.0..=2.0 * middle_px).contains(&end_px) {
                    side == Side::West
                } else {
                    false
                };
                self.in_panel(at_left, Self::draw_beyond_end);
            }
            Ok(_) => self.draw_why_dark(),
        }
    }

    /// Where the dial reads, but the lens looks at stone that gets no light: what is in the way.
    fn draw_why_dark(&mut self) {
        let side = self.window.side;
        let Some((from_s, to_s)) = self.window.visible_s(side) else { return };
        let time = f64::midpoint(from_s, to_s);
        let angle = hour_angle_of_mark(self.instrument, side, time);
        let shade = self.light.shade_at(side, angle);
        let all_dark = [from_s, time, to_s].iter().all(|&time| self.light_at(side, time) < 0.001);
        if all_dark && matches!(shade, Some(Shade::OwnArc | Shade::Turned)) {
            self.in_panel(false, |lens, panel| lens.draw_blocked(panel, side, angle));
        }
    }

    /// Makes room for the small picture at the left or right of the band, and draws it.
    fn in_panel(&mut self, at_left: bool, draw: impl FnOnce(&mut Self, &Panel)) {
        let unit = self.layout.unit;
        let margin = 5.0 * unit;
        let height = self.layout.band_height() - 2.0 * margin;
        let width = (BREADTH * height).min(SHARE_OF_VIEW * self.view.size.x);
        if height < LEAST_LABELS * self.view.label_px || width < height {
            return;
        }
        let x = if at_left { margin } else { self.view.size.x - margin - width };
        let min = DVec2::new(x, self.layout.top + margin);
        let panel = Panel { min, max: min + DVec2::new(width, height), unit };
        let frame = rectangle(panel.min, panel.max);
        self.drawing.fill(frame, self.view.palette.panel);
        self.drawing.clip(frame);
        draw(self, &panel);
        self.drawing.unclip();
        self.drawing.outline(frame, Stroke::solid(self.view.palette.rule, 1.3 * unit));
        self.letters.reserve(panel.min, panel.max);
    }

    /// Words in the small picture, if they have room in it.
    fn set_in_panel(&mut self, panel: &Panel, at: DVec2, key: &str, anchor: Anchor) {
        let style = label(self.view.label_px, self.view.palette.ink, anchor);
        let text = self.view.words.say(key);
        let (min, max) = text_box(at, text, &style);
        if min.cmpge(panel.min + 1.0).all() && max.cmple(panel.max - 1.0).all() {
            self.letters.set(self.drawing, at, text, style);
        }
    }

    /// The Sun under the horizon, as many of its own breadths as there is room for.
    fn draw_horizon(&mut self, panel: &Panel, altitude_rad: f64) {
        let palette = self.view.palette;
        let unit = panel.unit;
        let (left, right) = (panel.at(0.0, 0.4), panel.at(1.0, 0.4));
        self.drawing.fill(rectangle(left, panel.max), palette.ground_shade);
        let radius = 0.13 * panel.size().y;
        let depth = (-altitude_rad / self.moment.sun.semidiameter_rad * radius)
            .min(panel.max.y - left.y - 1.4 * radius);
        let centre = DVec2::new(panel.at(0.5, 0.0).x, left.y + depth);
        self.draw_sun(centre, radius);
        // Its way up to the horizon, for a Sun that is right under it.
        let drop = [centre - DVec2::Y * radius, DVec2::new(centre.x, left.y)];
        if depth > radius {
            let dash = Some((4.0 * unit, 3.0 * unit));
            self.drawing.line(drop, Stroke { dash, ..Stroke::solid(palette.cut, 1.3 * unit) });
        }
        self.drawing.line([left, right], Stroke::solid(palette.ink, 2.0 * unit));
        let at = DVec2::new(left.x + 6.0 * unit, left.y - 5.0 * unit);
        self.set_in_panel(panel, at, "lens.why-horizon", Anchor::Start);
    }

    /// The Sun's disc.
    fn draw_sun(&mut self, centre: DVec2, radius: f64) {
        let palette = self.view.palette;
        let rim = round(centre, radius);
        self.drawing.fill(rim.clone(), palette.lit);
        self.drawing.outline(rim, Stroke::solid(palette.cut, 1.3 * self.layout.unit));
    }

    /// The dial end on: wall and quadrants.
    fn draw_dial(&mut self, dial: &EndOn) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        for side in Side::BOTH {
            let end = side.sign() * FRAC_PI_2;
            let arc = |radii: f64| {
                (0..=16).map(move |step| dial.on_arc(side, end * f64::from(step) / 16.0, radii))
            };
            let back: Vec<DVec2> = arc(1.13).collect();
            let stone: Vec<DVec2> = arc(1.0).chain(back.into_iter().rev()).collect();
            self.drawing.fill(stone.iter().copied(), palette.mid);
            self.drawing.outline(stone, Stroke::solid(palette.ink, 1.2 * unit));
        }
        let min = dial.top - DVec2::X * dial.half_wall;
        let max = dial.top + DVec2::new(dial.half_wall, 1.13 * dial.radius);
        self.drawing.fill(rectangle(min, max), palette.mid);
        self.drawing.outline(rectangle(min, max), Stroke::solid(palette.ink, 1.2 * unit));
    }

    /// The Sun beyond six hours from the wall's plane: its light passes over the near quadrant's
    /// end, and meets the far one from behind.
    fn draw_beyond_end(&mut self, panel: &Panel) {
        let dial = EndOn::new(panel, self.instrument);
        let sun_rad = self.moment.on_dial.hour_angle_rad;
        let side = Side::at_hour_angle(sun_rad);
        let towards = to_sun(sun_rad);
        self.draw_dial(&dial);
        // Over the style's edge and away over the quadrant's end.
        let edge = dial.style(side);
        let far = edge - towards * (dial.radius * 1.25);
        self.draw_ray(edge + towards * (3.0 * dial.radius), far);
        let end = dial.on_arc(side, side.sign() * FRAC_PI_2, 1.06);
        let anchor = if side == Side::West { Anchor::Start } else { Anchor::End };
        let at = DVec2::new(
            if side == Side::West { panel.min.x } else { panel.max.x }
                + 5.0 * panel.unit * -side.sign(),
            far.y.min(end.y) - 7.0 * panel.unit,
        );
        self.set_in_panel(panel, at, "lens.why-over", anchor);
        // Onto the back of the other quadrant.
        let other = if side == Side::West { Side::East } else { Side::West };
        let back = dial.on_arc(other, other.sign() * 0.28 * std::f64::consts::PI, 1.13);
        self.draw_ray(back + towards * (3.0 * dial.radius), back);
    }

    /// A ray that ends at a point, with a head there.
    fn draw_ray(&mut self, from: DVec2, to: DVec2) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let back = (from - to).normalize_or_zero();
        let stroke = Stroke::solid(palette.accent, 1.8 * unit);
        cased_line(self.drawing, &[from, to + back * (6.0 * unit)], stroke, palette.panel);
        self.drawing.fill(arrow_head(to, back, 9.0 * unit), palette.accent);
    }

    /// A point of the stone, and what stands between it and the Sun.
    fn draw_blocked(&mut self, panel: &Panel, side: Side, angle_rad: f64) {
        let palette = self.view.palette;
        let dial = EndOn::new(panel, self.instrument);
        let sun_rad = self.moment.on_dial.hour_angle_rad;
        let towards = to_sun(sun_rad);
        self.draw_dial(&dial);
        let point = dial.on_arc(side, angle_rad, 1.0);
        // A chord that leaves the circle at reading h towards H is 2 R cos(H − h) long.
        let chord = 2.0 * dial.radius * (sun_rad - angle_rad).cos();
        let (stopped, stops_at) = if chord > 0.0 {
            (point + towards * chord, point + towards * (chord + 0.13 * dial.radius))
        } else {
            (point, point + towards * (0.13 * dial.radius))
        };
        self.draw_ray(stops_at + towards * (3.0 * dial.radius), stops_at);
        let dash = Some((4.0 * panel.unit, 3.0 * panel.unit));
        let stroke = Stroke { dash, ..Stroke::solid(palette.accent, 1.3 * panel.unit) };
        self.drawing.line([point, stopped], stroke);
        let half = DVec2::splat(3.0 * panel.unit);
        self.drawing.fill(rectangle(point - half, point + half), palette.ink);
    }

    /// The style from the side, too short for the ray that would reach the quadrant.
    fn draw_short_style(&mut self, panel: &Panel, end: AxialEnd, missing_m: f64) {
        let palette = self.view.palette;
        let unit = panel.unit;
        let (instrument, sun) = (self.instrument, self.moment.on_dial);
        let side = Side::at_hour_angle(sun.hour_angle_rad);
        let shift_m = axial_shift_m(instrument, side, sun.declination_rad);
        let [north, south] = AxialEnd::BOTH.map(|end| instrument.style_end_m(end));
        let [north_edge, south_edge] = AxialEnd::BOTH.map(|end| instrument.quadrant_edge_m(end));
        let ends_at = instrument.style_end_m(end);
        let needed = ends_at + end.sign() * missing_m;
        let from = south_edge.min(needed).min(ends_at + shift_m).max(-2.0 * instrument.radius_m());
        let to = north_edge.max(needed).max(ends_at + shift_m).min(2.0 * instrument.radius_m());
        let px = |place_m: f64| panel.at(0.1 + 0.8 * (place_m - from) / (to - from), 0.0).x;
        let (style_y, quadrant_y) = (panel.at(0.0, 0.34).y, panel.at(0.0, 0.8).y);
        let (left, right) = (px(south).max(panel.min.x), px(north).min(panel.max.x));
        let wall_min = DVec2::new(left, style_y);
        let wall_max = DVec2::new(right.max(left), style_y + 9.0 * unit);
        self.drawing.fill(rectangle(wall_min, wall_max), palette.mid);
        self.drawing.outline(rectangle(wall_min, wall_max), Stroke::solid(palette.ink, 1.2 * unit));
        let missing = [ends_at, needed].map(px);
        let field = (
            DVec2::new(missing[0].min(missing[1]), style_y),
            DVec2::new(missing[0].max(missing[1]), style_y + 9.0 * unit),
        );
        hatch(self.drawing, field, 5.0 * unit, Stroke::solid(palette.accent, 1.2 * unit));
        let quadrant = rectangle(
            DVec2::new(px(south_edge), quadrant_y),
            DVec2::new(px(north_edge), quadrant_y + 9.0 * unit),
        );
        self.drawing.fill(quadrant, palette.lit);
        self.drawing.outline(quadrant, Stroke::solid(palette.ink, 1.2 * unit));
        // The ray over the style's end comes down beside the quadrant.
        let over = DVec2::new(px(ends_at), style_y);
        let lands = DVec2::new(px(ends_at + shift_m), quadrant_y);
        self.draw_ray(over + (over - lands) * 2.0, lands);
        let x = panel.min.x + 6.0 * unit;
        let at = DVec2::new(x, style_y - 5.0 * unit);
        self.set_in_panel(panel, at, "lens.why-style", Anchor::Start);
        let at = DVec2::new(x, quadrant_y - 5.0 * unit);
        self.set_in_panel(panel, at, "lens.why-quadrant", Anchor::Start);
    }
}
