//! What an eye at each foot sees: the Sun's disc beside the wall.

use glam::DVec2;

use super::Noon;
use crate::core::instrument::Side;
use crate::scene::drawing::{Anchor, Stroke, rectangle};
use crate::scene::lettering::{figure, label, text_width};
use crate::scene::texture::round;
use crate::words::figures::with_unit;

/// Radius of the disc, in label sizes.
const DISC_LABELS: f64 = 1.1;
/// Half of the window's width and height, in radii of the disc.
const WINDOW: DVec2 = DVec2::new(2.2, 1.25);

impl Noon<'_> {
    /// The two discs, and the share of the Sun that reaches each foot.
    pub(super) fn draw_sights(&mut self) {
        for side in Side::BOTH {
            self.draw_sight(side);
        }
    }

    /// A window on the sky beside the wall: the wall is on the side of the other quadrant.
    fn draw_sight(&mut self, side: Side) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let radius = DISC_LABELS * self.view.label_px;
        let half = WINDOW * radius;
        let outwards = side.sign();
        let border = if side == Side::West { 0.0 } else { self.view.size.x };
        let centre = DVec2::new(border - outwards * (half.x + 2.0 * unit), self.layout.sight_y);
        let (min, max) = (centre - half, centre + half);
        let light = self.foot_light_now(side);
        self.drawing.clip(rectangle(min, max));
        self.drawing.fill(rectangle(min, max), palette.sky_low.mixed(palette.sky_high, 0.6));
        if self.light.is_up() {
            // The wall's edge stands in the middle; the Sun comes from behind it, or goes there.
            let sun_rad = self.moment.on_dial.hour_angle_rad;
            let past = (sun_rad - self.first_mark_rad(side)) / self.sun.half_width_rad();
            // A Sun seen whole stays in the window.
            let away = -past.clamp(-4.0, WINDOW.x - 1.06) * radius;
            self.draw_disc(centre + DVec2::X * away, radius);
        }
        let wall_edge = centre.x;
        let wall_end = centre.x - outwards * half.x;
        let (left, right) = (wall_edge.min(wall_end), wall_edge.max(wall_end));
        let wall = rectangle(DVec2::new(left, min.y), DVec2::new(right, max.y));
        self.drawing.fill(wall, palette.shade);
        self.drawing.unclip();
        let edge = [DVec2::new(wall_edge, min.y), DVec2::new(wall_edge, max.y)];
        self.drawing.line(edge, Stroke::solid(palette.ink, 1.3 * unit));
        self.drawing.outline(rectangle(min, max), Stroke::solid(palette.rule, unit));
        self.letters.reserve(min, max);
        self.name_sight(side, centre.x - outwards * (half.x + 7.0 * unit), light);
    }

    fn draw_disc(&mut self, centre: DVec2, radius: f64) {
        let palette = self.view.palette;
        let rim = round(centre, radius);
        self.drawing.fill(rim.clone(), palette.lit);
        self.drawing.outline(rim, Stroke::solid(palette.cut, 1.2 * self.layout.unit));
    }

    /// The share of the Sun, and which foot sees it.
    fn name_sight(&mut self, side: Side, x: f64, light: f64) {
        let unit = self.layout.unit;
        let (key, anchor) = match side {
            Side::West => ("noon.west-foot", Anchor::Start),
            Side::East => ("noon.east-foot", Anchor::End),
        };
        let share = format!("{:.0}", light * 100.0);
        let share = with_unit(self.view.words, &share, "figures.percent");
        let share = self.view.words.figure(&share);
        let size = 1.25 * self.view.label_px;
        let colour = self.view.palette.ink;
        let at = DVec2::new(x, self.layout.sight_y);
        self.letters.set(self.drawing, at, &share, figure(size, colour, anchor));
        let below = DVec2::new(x, self.layout.sight_y + 15.0 * unit);
        let style = label(self.view.label_px, self.view.palette.ink_2, anchor);
        let words = self.view.words;
        // One form for both feet.
        let room = if side == Side::West {
            self.view.size.x / 2.0 - x
        } else {
            x - self.view.size.x / 2.0
        };
        let long = words.say(key);
        let fits = text_width(long, style.typeface, style.size) < room - 4.0 * unit;
        let short_key = format!("{key}-short");
        let name = if fits { long } else { words.say(&short_key) };
        self.letters.set(self.drawing, below, name, style);
    }
}
