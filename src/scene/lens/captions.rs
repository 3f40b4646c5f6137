//! The words of the lens: on the stone, on the wall, and below the marks.

use glam::DVec2;

use super::Lens;
use crate::core::instrument::Side;
use crate::core::penumbra::half_width_rad;
use crate::core::reading::{
    NOON_S, NoReading, Reading, SECONDS_PER_RADIAN, blind_half_width_s, hour_angle_of_mark,
    shown_at,
};
use crate::core::shadow::Shade;
use crate::scene::drawing::{Anchor, Stroke, TextStyle, Typeface};
use crate::scene::lettering::{figure, label, text_width};
use crate::scene::numerals::Numeral;
use crate::scene::texture::{arrow_head, cased_line};
use crate::words::figures::{degrees, duration, length, with_unit};

/// Lengths of the scale bar, millimetres, of which the longest that fits is used.
const BARS_MM: [f64; 10] = [500.0, 200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5];
/// Size of what is read, in label sizes.
const READ_LABELS: f64 = 1.3;
/// A time of as many figures as there can be, seconds since midnight.
const WIDEST_TIME_S: u32 = 12 * 3600 + 58 * 60 + 58;
/// Light for which the words beside the soft edge are coloured: they stand on its lit side.
const LIGHT_OF_WORDS: f64 = 0.85;
/// Light for which they are coloured where only the shaded side has room.
const LIGHT_BESIDE_SHADE: f64 = 0.4;
/// Longest scale bar, as a share of the width.
const LONGEST_BAR: f64 = 0.24;

/// The soft edge as it lies in the view.
#[derive(Clone, Copy, Debug)]
pub(super) struct Penumbra {
    pub(super) side: Side,
    /// Time shown where half of the disc is seen.
    pub(super) middle_s: f64,
    pub(super) half_s: f64,
    /// Breadth along the arc, metres.
    breadth_m: f64,
}

impl Lens<'_> {
    /// Where half of the Sun's disc is seen past the style; `None` when no edge falls on stone.
    pub(super) fn half_light_px(&self) -> Option<f64> {
        let penumbra = self.penumbra()?;
        let px = self.window.px(penumbra.side, penumbra.middle_s);
        (0.0..=self.view.size.x).contains(&px).then_some(px)
    }

    /// The soft edge; `None` when the Sun throws none on a quadrant.
    pub(super) fn penumbra(&self) -> Option<Penumbra> {
        use NoReading::{BeyondQuadrantEnd, Night, StyleTooShort, SunUnderHorizon};
        if let Err(
            BeyondQuadrantEnd { .. } | Night { .. } | StyleTooShort { .. } | SunUnderHorizon { .. },
        ) = self.moment.reading
        {
            return None;
        }
        Some(self.penumbra_on(Side::at_hour_angle(self.moment.on_dial.hour_angle_rad)))
    }

    /// The soft edge as a quadrant would show it, were its arc to go on beyond the foot: near noon
    /// some of it lies on either.
    pub(super) fn penumbra_on(&self, side: Side) -> Penumbra {
        let sun = self.moment.on_dial;
        let half_rad = half_width_rad(self.moment.sun.semidiameter_rad, sun.declination_rad);
        let shown = |angle: f64| shown_at(self.instrument, side, angle);
        let middle_s = shown(sun.hour_angle_rad);
        Penumbra {
            side,
            middle_s,
            half_s: shown(sun.hour_angle_rad + half_rad) - middle_s,
            breadth_m: 2.0 * half_rad * self.instrument.built_radius_m(side),
        }
    }

    /// Names what is seen on the stone: full sun, the penumbra and its breadth, the umbra.
    pub(super) fn draw_words_on_stone(&mut self) {
        match self.penumbra() {
            Some(penumbra) if self.view.limits => self.draw_limits(penumbra),
            Some(penumbra) => self.draw_penumbra(penumbra),
            None => {}
        }
        let left = self.border(true, Side::West);
        let right = self.border(false, Side::East);
        self.name_border(left, true);
        // Where nothing changes across the view, one name is enough.
        if self.half_light_px().is_some() || left.map(|at| at.2) != right.map(|at| at.2) {
            self.name_border(right, false);
        }
    }

    /// Place, light and name of the light at the left or right border of the view.
    fn border(&self, at_left: bool, preferred: Side) -> Option<(f64, f64, &'static str)> {
        let (side, time) = [preferred, preferred.other()].into_iter().find_map(|side| {
            let (from_s, to_s) = self.window.visible_s(side)?;
            Some((side, if at_left { from_s } else { to_s }))
        })?;
        let light = self.light_at(side, time);
        let key = match self.light.shade_at(side, hour_angle_of_mark(self.instrument, side, time)) {
            _ if !self.light.is_up() => return None,
            None if light > 0.999 => "lens.full-sun",
            Some(Shade::Wall) if light < 0.001 => "lens.umbra",
            Some(Shade::OwnArc) if light < 0.001 => "lens.own-arc",
            Some(Shade::Turned) if light < 0.001 => "lens.turned",
            _ => return None,
        };
        Some((self.window.px(side, time), light, key))
    }

    /// Names the light at a border of the view.
    fn name_border(&mut self, border: Option<(f64, f64, &'static str)>, at_left: bool) {
        let Some((px, light, key)) = border else { return };
        let inset = 5.0 * self.layout.unit;
        let (anchor, x) =
            if at_left { (Anchor::Start, px + inset) } else { (Anchor::End, px - inset) };
        let at = DVec2::new(x, self.layout.first_line());
        let style = label(self.view.label_px, self.cut(light), anchor);
        let words = self.view.words;
        self.set_on_stone(at, words.say(key), light, style);
    }

    /// The breadth of the soft edge, between two limits, and its middle named.
    fn draw_penumbra(&mut self, penumbra: Penumbra) {
        let unit = self.layout.unit;
        let bracket_y = self.layout.bracket();
        for side in Side::BOTH {
            self.draw_penumbra_bracket(self.penumbra_on(side), bracket_y);
        }
        let px = self.window.px(penumbra.side, penumbra.middle_s);
        let words = self.view.words;
        let time = duration(words, 2.0 * penumbra.half_s);
        let texts = [
            words.fill("lens.penumbra", &[("time", &time)]),
            words.say("lens.penumbra-alone").to_owned(),
        ];
        // In the light the words are easier to read than across the soft edge.
        let (anchor, towards_light) = match penumbra.side {
            Side::West => (Anchor::End, -1.0),
            Side::East => (Anchor::Start, 1.0),
        };
        let base = self.layout.first_line();
        let style = |anchor| label(self.view.label_px, self.view.palette.cut, anchor);
        // Never over the wall.
        let (wall_left, wall_right) = self.window.wall_px();
        let beside = px - 17.0 * unit * towards_light;
        let beside = match penumbra.side {
            Side::West => beside.min(wall_left - 5.0 * unit),
            Side::East => beside.max(wall_right + 5.0 * unit),
        };
        let tries = [(anchor, beside), (Anchor::Middle, px)];
        let _ = tries.into_iter().any(|(anchor, x)| {
            texts.iter().any(|text| {
                self.set_on_stone(DVec2::new(x, base), text, LIGHT_OF_WORDS, style(anchor))
            })
        });
        self.set_beside_half_light(penumbra, &[words.say("lens.half-light")]);
        self.name_breadth(penumbra, bracket_y);
    }

    /// Sets the first text that has room beside the line of half light: where it can be, on its lit
    /// side.
    pub(super) fn set_beside_half_light(&mut self, penumbra: Penumbra, texts: &[&str]) {
        let px = self.window.px(penumbra.side, penumbra.middle_s);
        let outwards = penumbra.side.sign();
        let sides = [(outwards, LIGHT_OF_WORDS), (-outwards, LIGHT_BESIDE_SHADE)];
        let _ = texts.iter().flat_map(|text| sides.map(|side| (text, side))).any(
            |(text, (towards, light))| {
                let x = px + 6.0 * self.layout.unit * towards;
                let anchor = if towards > 0.0 { Anchor::Start } else { Anchor::End };
                let style = label(self.view.label_px, self.view.palette.cut, anchor);
                self.set_on_stone(DVec2::new(x, self.layout.last_line()), text, light, style)
            },
        );
    }

    /// The breadth of the soft edge along the arc, at the shaded end of its bracket or at the other.
    fn name_breadth(&mut self, penumbra: Penumbra, y: f64) {
        let unit = self.layout.unit;
        let Some((from_s, to_s)) = self.window.visible_s(penumbra.side) else { return };
        let text = length(self.view.words, penumbra.breadth_m);
        let text = self.view.words.figure(&text);
        let outwards = penumbra.side.sign();
        let _ = [(-outwards, 0.0), (outwards, 1.0)].into_iter().any(|(towards, light)| {
            let end_s = penumbra.middle_s + towards * penumbra.half_s;
            let px = self.window.px(penumbra.side, end_s) + 6.0 * unit * towards;
            let anchor = if towards > 0.0 { Anchor::Start } else { Anchor::End };
            let style = label(self.view.label_px, self.view.palette.cut, anchor);
            (from_s..=to_s).contains(&end_s)
                && self.set_on_stone(DVec2::new(px, y + 4.5 * unit), &text, light, style)
        });
    }

    /// A line as broad as the soft edge; no end is drawn where the stone ends before it.
    fn draw_penumbra_bracket(&mut self, penumbra: Penumbra, y: f64) {
        let unit = self.layout.unit;
        let Some((from_s, to_s)) = self.window.visible_s(penumbra.side) else { return };
        let (start, end) =
            (penumbra.middle_s - penumbra.half_s, penumbra.middle_s + penumbra.half_s);
        let (left, right) = (start.max(from_s), end.min(to_s));
        if left >= right {
            return;
        }
        let halves = [(left, right.min(penumbra.middle_s)), (left.max(penumbra.middle_s), right)];
        for (from, to) in halves.into_iter().filter(|(from, to)| from < to) {
            let colour = self.cut(self.light_at(penumbra.side, f64::midpoint(from, to)));
            let px = [from, to].map(|time| self.window.px(penumbra.side, time));
            let mut lines = vec![px.map(|x| DVec2::new(x, y))];
            for (time, limit) in [(from, start), (to, end)] {
                if time == limit {
                    let x = self.window.px(penumbra.side, time);
                    lines.push([DVec2::new(x, y - 4.0 * unit), DVec2::new(x, y + 4.0 * unit)]);
                }
            }
            self.drawing.lines(lines, Stroke::solid(colour, 1.2 * unit));
        }
    }

    /// Names the wall between the feet, and XII, which is cut at both of them.
    pub(super) fn name_wall(&mut self, (min, max): (DVec2, DVec2)) {
        let unit = self.layout.unit;
        let palette = self.view.palette;
        let middle = f64::midpoint(min.x, max.x);
        let halo = Some((palette.mid, 4.0 * unit));
        let name = label(self.view.label_px, palette.cut, Anchor::Middle);
        let at = DVec2::new(middle, self.layout.first_line());
        let style = TextStyle { halo, ..name };
        self.letters.set(self.drawing, at, self.view.words.say("lens.wall"), style);
        let at = DVec2::new(middle, self.layout.bottom - self.longest_mark() * 0.6);
        let noon = figure(1.1 * self.view.label_px, palette.cut, Anchor::Middle);
        let style = TextStyle { halo, ..noon };
        let numeral = Numeral::of_hour(self.instrument.numerals(), 12);
        self.letters.set_numeral(self.drawing, at, (&numeral, ""), style);
    }

    /// The mark that is read, in the accent.
    pub(super) fn draw_read_mark(&mut self) {
        let Ok(reading) = &self.moment.reading else { return };
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let px = self.window.px(reading.edge.side, f64::from(reading.shown_s));
        if !(0.0..=self.view.size.x).contains(&px) {
            return;
        }
        let bottom = self.layout.bottom;
        let top = bottom - self.read_mark();
        let line = [DVec2::new(px, top), DVec2::new(px, bottom)];
        cased_line(self.drawing, &line, Stroke::solid(palette.accent, 3.2 * unit), palette.paper);
        let tip = DVec2::new(px, bottom + 2.0 * unit);
        self.drawing.fill(arrow_head(tip, DVec2::Y, 11.0 * unit), palette.accent);
    }

    /// What is read, or why nothing is; the blind interval; and the scale in millimetres.
    pub(super) fn draw_captions_below(&mut self) {
        match &self.moment.reading {
            Ok(reading) => self.draw_reading(&reading.clone()),
            Err(reason) => self.draw_reason(*reason),
        }
        self.draw_blind_bracket();
        self.draw_scale_bar();
    }

    /// Baseline of the words below the marks.
    fn caption_y(&self) -> f64 {
        self.layout.bottom + 21.0 * self.layout.unit
    }

    /// What is read, beside the mark; towards it when it is out of view.
    fn draw_reading(&mut self, reading: &Reading) {
        let unit = self.layout.unit;
        let px = self.window.px(reading.edge.side, f64::from(reading.shown_s));
        let seen = px.clamp(0.0, self.view.size.x);
        if px == seen {
            let below = DVec2::new(seen, self.layout.bottom);
            let half = DVec2::new(3.0, 14.0) * unit;
            self.letters.reserve(below - half, below + half);
        } else {
            let inwards = if px < seen { DVec2::X } else { DVec2::NEG_X };
            let tip = DVec2::new(seen + inwards.x * unit, self.caption_y() - 6.0 * unit);
            let accent = self.view.palette.accent;
            self.drawing.fill(arrow_head(tip, inwards, 11.0 * unit), accent);
        }
        let aside = if px == seen { 13.0 } else { 18.0 } * unit;
        for text in self.reading_texts(reading.shown_s) {
            for (anchor, x) in [(Anchor::Start, seen + aside), (Anchor::End, seen - aside)] {
                let style =
                    figure(READ_LABELS * self.view.label_px, self.view.palette.accent, anchor);
                if self.letters.set(self.drawing, DVec2::new(x, self.caption_y()), &text, style) {
                    return;
                }
            }
        }
    }

    /// The reading in words, longest first.
    fn reading_texts(&self, shown_s: u32) -> Vec<String> {
        let fill = |key: &str, shown_s: u32| {
            let parts = [shown_s / 3600, shown_s / 60 % 60, shown_s % 60].map(|n| n.to_string());
            let [hours, minutes, seconds] = parts.each_ref().map(String::as_str);
            self.view.words.fill(key, &[("h", hours), ("min", minutes), ("s", seconds)])
        };
        let to_seconds = !self.instrument.graduation().smallest_s().is_multiple_of(60);
        let keys = if to_seconds {
            ["lens.read-h-min-s", "lens.read-min-s", "lens.read-bare-s"]
        } else {
            ["lens.read-h-min", "lens.read-min", "lens.read-bare-min"]
        };
        // The hour is told where there is always room for it, not now and then.
        let widest = fill(keys[0], WIDEST_TIME_S);
        let size = READ_LABELS * self.view.label_px;
        let room = self.view.size.x / 2.0 - 26.0 * self.layout.unit;
        let skipped = usize::from(text_width(&widest, Typeface::Serif, size) > room);
        keys.iter().skip(skipped).map(|key| fill(key, shown_s)).collect()
    }

    /// Why there is nothing to read.
    fn draw_reason(&mut self, reason: NoReading) {
        let at = DVec2::new(self.view.size.x / 2.0, self.caption_y());
        let palette = self.view.palette;
        let style = match reason {
            NoReading::Blind { .. } => {
                figure(READ_LABELS * self.view.label_px, palette.accent, Anchor::Middle)
            }
            _ => label(self.view.label_px, palette.ink, Anchor::Middle),
        };
        for text in self.reason_texts(reason) {
            if self.letters.set(self.drawing, at, &text, style) {
                return;
            }
        }
    }

    /// The reason in words, longest first.
    fn reason_texts(&self, reason: NoReading) -> [String; 3] {
        let (key, value) = match reason {
            NoReading::Night { altitude_rad } => ("lens.night", degrees(-altitude_rad)),
            NoReading::SunUnderHorizon { altitude_rad } => {
                ("lens.sun-down", degrees(-altitude_rad))
            }
            NoReading::BeyondQuadrantEnd { .. } | NoReading::StyleTooShort { .. }
                if self.instrument.off_latitude_rad() != 0.0 =>
            {
                ("lens.no-edge", String::new())
            }
            NoReading::BeyondQuadrantEnd { side, .. } => {
                let key = match side {
                    Side::West => "lens.before-quadrant",
                    Side::East => "lens.after-quadrant",
                };
                (key, hour_and_minute(self.window.end_s(side)))
            }
            NoReading::Blind { .. } => (
                "lens.blind-now",
                duration(self.view.words, 2.0 * blind_half_width_s(self.instrument)),
            ),
            NoReading::StyleTooShort { missing_m, .. } => {
                ("lens.too-short", length(self.view.words, missing_m))
            }
        };
        let words = self.view.words;
        ["", "-short", "-bare"]
            .map(|form| words.fill(&format!("{key}{form}"), &[("value", value.as_str())]))
    }

    /// A bracket under the marks that can't be told from XII.
    fn draw_blind_bracket(&mut self) {
        let unit = self.layout.unit;
        let half_s = blind_half_width_s(self.instrument);
        let left = self.window.px(Side::West, NOON_S - half_s);
        let right = self.window.px(Side::East, NOON_S + half_s);
        if left < 0.0 || right > self.view.size.x {
            return;
        }
        let blind_now = matches!(self.moment.reading, Err(NoReading::Blind { .. }));
        let palette = self.view.palette;
        let (top, bottom) = (self.layout.bottom + 2.0 * unit, self.layout.bottom + 6.0 * unit);
        let bracket = [(left, top), (left, bottom), (right, bottom), (right, top)];
        let colour = if blind_now { palette.accent } else { palette.ink_2 };
        let width = if blind_now { 2.2 } else { 1.3 };
        let points = bracket.map(|(x, y)| DVec2::new(x, y));
        self.drawing.line(points, Stroke::solid(colour, width * unit));
        if !blind_now {
            self.name_blind((left, right), &duration(self.view.words, 2.0 * half_s));
        }
    }

    /// Names the bracket under XII, wherever the reading leaves room.
    fn name_blind(&mut self, (left, right): (f64, f64), time: &str) {
        let text = self.view.words.fill("lens.blind", &[("time", time)]);
        let y = self.caption_y();
        let middle = f64::midpoint(left, right);
        let places = [(Anchor::Middle, middle), (Anchor::Start, left), (Anchor::End, right)];
        for (anchor, x) in places {
            let style = label(self.view.label_px, self.view.palette.ink_2, anchor);
            if self.letters.set_within(self.drawing, DVec2::new(x, y), &text, style) {
                return;
            }
        }
    }

    /// A bar of a whole number of millimetres along the arc, where there is room for it.
    fn draw_scale_bar(&mut self) {
        let unit = self.layout.unit;
        let px_per_mm =
            self.window.px_per_s * SECONDS_PER_RADIAN / (self.instrument.radius_m() * 1000.0);
        let longest = self.view.size.x * LONGEST_BAR;
        let fits = BARS_MM.into_iter().find(|bar| bar * px_per_mm <= longest);
        let Some(bar_mm) = fits else { return };
        let bar_px = bar_mm * px_per_mm;
        let colour = self.view.palette.ink_2;
        let text = with_unit(self.view.words, &bar_mm.to_string(), "figures.mm");
        let text = self.view.words.figure(&text);
        let inset = 8.0 * unit;
        let y = self.caption_y();
        let places = [
            (inset, inset + bar_px + 7.0 * unit, Anchor::Start),
            (
                self.view.size.x - inset - bar_px,
                self.view.size.x - inset - bar_px - 7.0 * unit,
                Anchor::End,
            ),
        ];
        for (left, text_x, anchor) in places {
            let min = DVec2::new(left, y - 10.0 * unit);
            let max = DVec2::new(left + bar_px, y + unit);
            let style = label(self.view.label_px, colour, anchor);
            let room = self.letters.is_clear((min - 4.0 * unit, max + 4.0 * unit));
            if room && self.letters.set(self.drawing, DVec2::new(text_x, y), &text, style) {
                let (top, bottom) = (y - 8.0 * unit, y - unit);
                let points = [(min.x, top), (min.x, bottom), (max.x, bottom), (max.x, top)];
                let points = points.map(|(x, y)| DVec2::new(x, y));
                self.drawing.line(points, Stroke::solid(colour, 1.4 * unit));
                self.letters.reserve(min, max);
                return;
            }
        }
    }
}

/// A time of day to the minute, `6:00`.
fn hour_and_minute(time_s: f64) -> String {
    let minutes = (time_s / 60.0).round() as i64;
    format!("{}:{:02}", minutes / 60, minutes % 60)
}
