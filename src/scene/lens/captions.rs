//! The words of the lens: on the stone, on the wall, and below the marks.

use glam::DVec2;

use super::Lens;
use crate::core::instrument::Side;
use crate::core::penumbra::half_width_rad;
use crate::core::reading::{
    NOON_S, NoReading, Reading, SECONDS_PER_RADIAN, blind_half_width_s, shown_at,
};
use crate::scene::drawing::{Anchor, Stroke};
use crate::scene::lettering::{figure, label};
use crate::scene::texture::{arrow_head, cased_line};
use crate::words::figures::{degrees, duration, length};

/// Lengths of the scale bar, millimetres, of which the longest that fits is used.
const BARS_MM: [f64; 10] = [500.0, 200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5];
/// Longest scale bar, as a share of the width.
const LONGEST_BAR: f64 = 0.24;

/// The soft edge as it lies in the view.
#[derive(Clone, Copy, Debug)]
struct Penumbra {
    side: Side,
    /// Time shown where half of the disc is seen.
    middle_s: f64,
    half_s: f64,
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
    fn penumbra(&self) -> Option<Penumbra> {
        use NoReading::{BeyondQuadrantEnd, Night, StyleTooShort, SunUnderHorizon};
        if let Err(
            BeyondQuadrantEnd { .. } | Night { .. } | StyleTooShort { .. } | SunUnderHorizon { .. },
        ) = self.moment.reading
        {
            return None;
        }
        let sun = self.moment.on_dial;
        let side = Side::at_hour_angle(sun.hour_angle_rad);
        let half_rad = half_width_rad(self.moment.sun.semidiameter_rad, sun.declination_rad);
        let shown = |angle: f64| shown_at(self.instrument, side, angle);
        let middle_s = shown(sun.hour_angle_rad);
        Some(Penumbra {
            side,
            middle_s,
            half_s: shown(sun.hour_angle_rad + half_rad) - middle_s,
            breadth_m: 2.0 * half_rad * self.instrument.built_radius_m(side),
        })
    }

    /// Names what is seen on the stone: full sun, the penumbra and its breadth, the umbra.
    pub(super) fn draw_words_on_stone(&mut self) {
        if let Some(penumbra) = self.penumbra() {
            self.draw_penumbra(penumbra);
        }
        for (at_left, side) in [(true, Side::West), (false, Side::East)] {
            self.name_border(at_left, side);
        }
    }

    /// Names the light at the left or right border of the view.
    fn name_border(&mut self, at_left: bool, preferred: Side) {
        let other = if preferred == Side::West { Side::East } else { Side::West };
        let on_view = [preferred, other].into_iter().find_map(|side| {
            let (from_s, to_s) = self.window.visible_s(side)?;
            Some((side, if at_left { from_s } else { to_s }))
        });
        let Some((side, time)) = on_view else { return };
        let light = self.light_at(side, time);
        let key = match self.moment.reading {
            Err(NoReading::Night { .. } | NoReading::SunUnderHorizon { .. }) => return,
            _ if light > 0.999 => "lens.full_sun",
            _ if light < 0.001 => "lens.umbra",
            _ => return,
        };
        let inset = 8.0 * self.layout.unit;
        let px = self.window.px(side, time);
        let (anchor, x) =
            if at_left { (Anchor::Start, px + inset) } else { (Anchor::End, px - inset) };
        let at = DVec2::new(x, self.layout.top + 16.0 * self.layout.unit);
        let style = label(self.view.label_px, self.cut(light), anchor);
        let words = self.view.words;
        self.set_on_stone(at, words.say(key), light, style);
    }

    /// The breadth of the soft edge, between two limits, and its middle named.
    fn draw_penumbra(&mut self, penumbra: Penumbra) {
        let unit = self.layout.unit;
        let y = self.layout.top + 26.0 * unit;
        self.draw_penumbra_bracket(penumbra, y);
        let px = self.window.px(penumbra.side, penumbra.middle_s);
        let time = duration(2.0 * penumbra.half_s);
        let breadth = length(penumbra.breadth_m);
        let values = [("time", time.as_str()), ("breadth", breadth.as_str())];
        let words = self.view.words;
        let texts = ["lens.penumbra_and_breadth", "lens.penumbra", "lens.penumbra_alone"];
        let texts = texts.map(|key| words.fill(key, &values));
        // In the light the words are easier to read than across the soft edge.
        let (anchor, towards_light) = match penumbra.side {
            Side::West => (Anchor::End, -1.0),
            Side::East => (Anchor::Start, 1.0),
        };
        let base = self.layout.top + 16.0 * unit;
        let tries = [(anchor, px - 8.0 * unit * towards_light), (Anchor::Middle, px)];
        let style = |anchor| label(self.view.label_px, self.view.palette.cut, anchor);
        let places: Vec<_> = texts
            .iter()
            .flat_map(|text| tries.map(|(anchor, x)| (text, style(anchor), DVec2::new(x, base))))
            .collect();
        let _ = places.into_iter().any(|(text, style, at)| self.set_on_stone(at, text, 0.8, style));
        let at = DVec2::new(px + 6.0 * unit * towards_light, base + 26.0 * unit);
        self.set_on_stone(at, words.say("lens.half_light"), 0.8, style(anchor));
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
        let numeral = figure(1.1 * self.view.label_px, palette.cut, Anchor::Middle);
        let numeral_y = self.layout.bottom - self.longest_mark() * 0.6;
        let texts = [
            (self.view.words.say("lens.wall"), self.layout.top + 16.0 * unit, name),
            ("XII", numeral_y, numeral),
        ];
        for (text, y, style) in texts {
            let style = crate::scene::drawing::TextStyle { halo, ..style };
            // On the wall's own place, which is kept free of all other words.
            let (left, right) =
                crate::scene::lettering::text_box(DVec2::new(middle, y), text, &style);
            if left.x >= 0.0 && right.x <= self.view.size.x {
                self.drawing.text(DVec2::new(middle, y), text, style);
            }
        }
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
        let top = bottom - self.shortest_mark().max(12.0 * unit);
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
        if px != seen {
            let inwards = if px < seen { DVec2::X } else { DVec2::NEG_X };
            let tip = DVec2::new(seen + inwards.x * unit, self.caption_y() - 6.0 * unit);
            let accent = self.view.palette.accent;
            self.drawing.fill(arrow_head(tip, inwards, 11.0 * unit), accent);
            self.letters.reserve(tip - 11.0 * unit, tip + 11.0 * unit);
        } else {
            let below = DVec2::new(seen, self.layout.bottom);
            let half = DVec2::new(7.0, 14.0) * unit;
            self.letters.reserve(below - half, below + half);
        }
        let beside = [(Anchor::Start, 13.0 * unit), (Anchor::End, -13.0 * unit)];
        for text in self.reading_texts(reading.shown_s) {
            for (anchor, aside) in beside {
                let style = figure(1.3 * self.view.label_px, self.view.palette.accent, anchor);
                let at = DVec2::new(seen + aside, self.caption_y());
                if self.letters.set(self.drawing, at, &text, style) {
                    return;
                }
            }
        }
    }

    /// The reading in words, longest first.
    fn reading_texts(&self, shown_s: u32) -> Vec<String> {
        let words = self.view.words;
        let parts = [
            ("h", (shown_s / 3600).to_string()),
            ("min", (shown_s / 60 % 60).to_string()),
            ("s", (shown_s % 60).to_string()),
        ];
        let values = parts.each_ref().map(|(name, value)| (*name, value.as_str()));
        let seconds = !self.instrument.graduation().smallest_s().is_multiple_of(60);
        let keys: &[&str] = if seconds {
            &["lens.read_h_min_s", "lens.read_min_s", "lens.read_bare_s"]
        } else {
            &["lens.read_h_min", "lens.read_min", "lens.read_bare_min"]
        };
        // On a wide view the hour is told too; a narrow one has the figures beside it.
        let first = usize::from(self.view.size.x < 36.0 * self.view.label_px);
        keys.iter().skip(first).map(|key| words.fill(key, &values)).collect()
    }

    /// Why there is nothing to read.
    fn draw_reason(&mut self, reason: NoReading) {
        let at = DVec2::new(self.view.size.x / 2.0, self.caption_y());
        let palette = self.view.palette;
        let style = match reason {
            NoReading::Blind { .. } => {
                figure(1.3 * self.view.label_px, palette.accent, Anchor::Middle)
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
    fn reason_texts(&self, reason: NoReading) -> [String; 2] {
        let (key, values) = match reason {
            NoReading::Night { altitude_rad } => ("lens.night", degrees(-altitude_rad)),
            NoReading::SunUnderHorizon { altitude_rad } => {
                ("lens.sun_down", degrees(-altitude_rad))
            }
            NoReading::BeyondQuadrantEnd { side: Side::West, .. } => {
                ("lens.before_quadrant", String::new())
            }
            NoReading::BeyondQuadrantEnd { side: Side::East, .. } => {
                ("lens.after_quadrant", String::new())
            }
            NoReading::Blind { .. } => {
                ("lens.blind_now", duration(2.0 * blind_half_width_s(self.instrument)))
            }
            NoReading::StyleTooShort { missing_m, .. } => ("lens.too_short", length(missing_m)),
        };
        let words = self.view.words;
        let values = [("value", values.as_str())];
        [words.fill(key, &values), words.fill(&format!("{key}_short"), &values)]
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
            let text = self.view.words.fill("lens.blind", &[("time", &duration(2.0 * half_s))]);
            let at = DVec2::new(f64::midpoint(left, right), self.caption_y());
            let style = label(self.view.label_px, palette.ink_2, Anchor::Middle);
            self.letters.set_within(self.drawing, at, &text, style);
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
        let text = format!("{bar_mm} mm");
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
