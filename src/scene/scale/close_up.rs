//! The scale round the rod, enlarged, and under it the rod's shadow in the same measure.

use glam::DVec2;

use super::Scale;
use super::overview::degree_text;
use crate::core::instrument::AxialEnd;
use crate::core::order::order_short;
use crate::core::pointer::{Criterion, SCALE_DIVISION_ARCMIN, graduation_m, scale_at};
use crate::scene::drawing::{Anchor, Stroke, TextStyle, Typeface, rectangle};
use crate::scene::lettering::{label, text_width};
use crate::scene::texture::{arrow_head, cased_line, hatch};
use crate::words::figures::signed_degrees;

/// Graduations closer together than this are left out, CSS pixels.
const CLOSEST_PX: f64 = 3.0;
/// Minutes of arc in a degree, and in a half.
const DEGREE_ARCMIN: i32 = 60;
const HALF_ARCMIN: i32 = 30;
/// Rank of the zero of a scale.
const ZERO_RANK: i32 = 3600;
/// Nearest that the middle's place is told apart from that of the true declination, CSS pixels.
const SAME_PX: f64 = 4.0;

impl Scale<'_> {
    pub(super) fn draw_close_up(&mut self) {
        self.draw_close_stone();
        self.draw_close_rod();
        self.reserve_index();
        // The scale that is read comes first: where there is room for one row of numbers, it is its own.
        let mut edges = AxialEnd::BOTH;
        order_short(&mut edges, |&a, &b| self.is_on_edge(a) && !self.is_on_edge(b));
        for edge in edges {
            self.draw_true(edge);
            self.draw_aims(edge);
            self.name_scale(edge);
            self.draw_graduation(edge);
        }
        self.draw_close_quadrant();
        self.draw_index();
    }

    /// Leads from the rod's place in the overview to the enlarged scale.
    pub(super) fn draw_beam(&mut self) {
        let unit = self.layout.unit;
        let left = self.axis.px(self.close.min).max(0.0);
        let right = self.axis.px(self.close.max).min(self.view.size.x);
        let (top, bottom) = (self.layout.style_y, self.layout.close_scale.0);
        let colour = self.view.palette.ink_2.faded(0.1);
        let beam = [
            DVec2::new(left, top),
            DVec2::new(right.max(left + unit), top),
            DVec2::new(self.view.size.x, bottom),
            DVec2::new(0.0, bottom),
        ];
        self.drawing.fill(beam, colour);
    }

    /// The style's top where it is, hatching where it has ended.
    fn draw_close_stone(&mut self) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let (top, bottom) = self.layout.close_scale;
        let (south, north) = self.style_m();
        let all = (DVec2::new(0.0, top), DVec2::new(self.view.size.x, bottom));
        hatch(self.drawing, all, 7.0 * unit, Stroke::solid(palette.hair, unit));
        let left = self.close.px(south).clamp(0.0, self.view.size.x);
        let right = self.close.px(north).clamp(0.0, self.view.size.x);
        let stone = rectangle(DVec2::new(left, top), DVec2::new(right, bottom));
        self.drawing.fill(stone, palette.lit);
        self.drawing.outline(stone, Stroke::solid(palette.ink, 1.3 * unit));
    }

    /// The rod over the scale, as broad as it is.
    fn draw_close_rod(&mut self) {
        let palette = self.view.palette;
        let (top, bottom) = self.layout.close_scale;
        let half = self.view.pointer.diameter_m() / 2.0;
        let middle = self.view.pointer.axial_m();
        let left = self.close.px(middle - half);
        let right = self.close.px(middle + half);
        let rod = rectangle(DVec2::new(left, top), DVec2::new(right, bottom));
        self.drawing.fill(rod, palette.accent.faded(0.16));
        let sides = [left, right].map(|x| [DVec2::new(x, top), DVec2::new(x, bottom)]);
        let stroke = Stroke::solid(palette.cut.faded(0.45), self.layout.unit);
        self.drawing.lines(sides, stroke);
    }

    /// Keeps letters off the line in the middle of the rod.
    fn reserve_index(&mut self) {
        let px = self.close.px(self.view.pointer.axial_m());
        let half = 2.5 * self.layout.unit;
        let (top, bottom) = (self.layout.close_scale.0, self.layout.close_quadrant.0);
        self.letters.reserve(DVec2::new(px - half, top), DVec2::new(px + half, bottom));
    }

    /// The side of the enlarged scale on which an edge's graduations stand, and inwards from it.
    fn scale_side(&self, edge: AxialEnd) -> (f64, f64) {
        match edge {
            AxialEnd::North => (self.layout.close_scale.0, 1.0),
            AxialEnd::South => (self.layout.close_scale.1, -1.0),
        }
    }

    /// The graduations of one scale, tens of minutes and degrees.
    fn draw_graduation(&mut self, edge: AxialEnd) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let (foot, inwards) = self.scale_side(edge);
        let reach = (self.layout.close_scale.1 - self.layout.close_scale.0) / 52.0;
        let step = self.close_step_arcmin();
        for (length, width, rank) in
            [(6.5, 0.9, 10), (9.0, 1.1, 30), (12.0, 2.0, 60), (12.0, 4.0, ZERO_RANK)]
        {
            let lines: Vec<_> = self
                .close_marks(edge, step)
                .filter(|(arcmin, _)| rank_of(*arcmin) == rank)
                .map(|(_, px)| {
                    [DVec2::new(px, foot), DVec2::new(px, foot + inwards * length * reach)]
                })
                .collect();
            self.drawing.lines(lines, Stroke::solid(palette.cut, width * unit));
        }
        let numbers: Vec<_> = self.close_marks(edge, HALF_ARCMIN).collect();
        let is_degree = |(arcmin, _): &(i32, f64)| rank_of(*arcmin) >= DEGREE_ARCMIN;
        let mut numbers = numbers;
        order_short(&mut numbers, |a, b| is_degree(a) && !is_degree(b));
        for (arcmin, px) in numbers {
            self.number_mark(edge, arcmin, px, 12.0 * reach);
        }
    }

    /// Minutes of arc between two graduations that are drawn.
    fn close_step_arcmin(&self) -> i32 {
        let minute_px =
            self.instrument.radius_m() * (1.0_f64 / 60.0).to_radians() * self.close.px_per_unit();
        let ten = SCALE_DIVISION_ARCMIN as i32;
        let steps = [ten, HALF_ARCMIN, DEGREE_ARCMIN, 5 * DEGREE_ARCMIN];
        let apart = |step: &i32| f64::from(*step) * minute_px >= CLOSEST_PX;
        steps.into_iter().find(apart).unwrap_or(10 * DEGREE_ARCMIN)
    }

    /// Graduations in view on a scale: minutes of arc and place.
    fn close_marks(&self, edge: AxialEnd, step: i32) -> impl Iterator<Item = (i32, f64)> {
        let [from, to] = [self.close.min, self.close.max].map(|place| {
            scale_at(self.instrument, edge, place).to_degrees() * 60.0 / f64::from(step)
        });
        let (south, north) = self.style_m();
        (from.ceil() as i32..=to.floor() as i32).filter_map(move |index| {
            let arcmin = index * step;
            let angle = (f64::from(arcmin) / 60.0).to_radians();
            let place = graduation_m(self.instrument, edge, angle);
            (south..=north).contains(&place).then(|| (arcmin, self.close.px(place)))
        })
    }

    /// The number of a graduation: degrees, or minutes past the degree.
    fn number_mark(&mut self, edge: AxialEnd, arcmin: i32, px: f64, mark: f64) {
        let size = self.view.label_px;
        let (foot, inwards) = self.scale_side(edge);
        let gap = 3.0 * self.layout.unit;
        let y = if inwards > 0.0 { foot + mark + gap + 0.75 * size } else { foot - mark - gap };
        let text = match arcmin % DEGREE_ARCMIN {
            0 => degree_text(arcmin / DEGREE_ARCMIN),
            rest => format!("{}′", rest.abs()),
        };
        let palette = self.view.palette;
        let halo = Some((palette.lit.faded(0.85), 2.5 * self.layout.unit));
        let style = TextStyle { halo, ..label(size, palette.cut, Anchor::Middle) };
        self.letters.set(self.drawing, DVec2::new(px, y), &text, style);
    }

    /// Baseline of the row of words outside an edge's graduations.
    fn words_y(&self, edge: AxialEnd) -> f64 {
        match edge {
            AxialEnd::North => self.layout.close_scale.0 - 5.0 * self.layout.unit,
            AxialEnd::South => self.layout.close_scale.1 + 13.5 * self.layout.unit,
        }
    }

    /// Names a scale by the edge of the quadrant for which it was cut.
    fn name_scale(&mut self, edge: AxialEnd) {
        let key = match edge {
            AxialEnd::North => "scale.north-edge",
            AxialEnd::South => "scale.south-edge",
        };
        let text = self.view.words.say(key);
        let y = self.words_y(edge);
        let ends = [(2.0, Anchor::Start), (self.view.size.x - 2.0, Anchor::End)];
        for (x, anchor) in ends {
            let style = label(self.view.label_px, self.view.palette.ink, anchor);
            if self.letters.set(self.drawing, DVec2::new(x, y), text, style) {
                return;
            }
        }
    }

    /// Where the rod would be for each way to judge that its shadow is at an edge.
    fn draw_aims(&mut self, edge: AxialEnd) {
        let unit = self.layout.unit;
        let (foot, inwards) = self.scale_side(edge);
        let outwards = DVec2::Y * -inwards;
        let ways =
            [(Criterion::Middle, "scale.middle"), (Criterion::LastTrace, "scale.last-trace")];
        let in_view = |px: &f64| (0.0..=self.view.size.x).contains(px);
        let aims = ways.map(|(criterion, key)| {
            let place = self.place_for(edge, criterion)?;
            Some((criterion, key, self.close.px(place))).filter(|(.., px)| in_view(px))
        });
        for (criterion, _, px) in aims.into_iter().flatten() {
            let tip = DVec2::new(px, foot) + outwards * unit;
            self.draw_aim_head(criterion, tip, outwards);
        }
        for (criterion, key, px) in aims.into_iter().flatten() {
            for text in self.aim_texts(edge, criterion, key, px) {
                if self.name_aim((px, self.words_y(edge)), &text) {
                    break;
                }
            }
        }
    }

    /// The words for an aim, longest first: the middle reads the true declination, the last trace
    /// so much beside it.
    fn aim_texts(&self, edge: AxialEnd, criterion: Criterion, key: &str, px: f64) -> Vec<String> {
        let words = self.view.words;
        let name = words.say(key).to_owned();
        let true_rad = self.moment.sun.sun.declination_rad;
        let long = match criterion {
            Criterion::Middle => {
                let off_px = px - self.close.px(graduation_m(self.instrument, edge, true_rad));
                (off_px.abs() < SAME_PX).then(|| words.say("scale.middle-true").to_owned())
            }
            Criterion::LastTrace => {
                let read_rad = scale_at(self.instrument, edge, self.close.value(px));
                let bias = signed_degrees(read_rad - true_rad);
                Some(words.fill("scale.last-trace-bias", &[("bias", &bias)]))
            }
        };
        long.into_iter().chain([name]).collect()
    }

    /// The graduation of the Sun's true declination, and how far the last trace reads beside it.
    fn draw_true(&mut self, edge: AxialEnd) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let place = graduation_m(self.instrument, edge, self.moment.sun.sun.declination_rad);
        let px = self.close.px(place);
        let (foot, inwards) = self.scale_side(edge);
        let outer = foot - inwards * 11.0 * unit;
        let in_view = |px: f64| (0.0..=self.view.size.x).contains(&px);
        if !in_view(px) || self.patch.is_none() {
            return;
        }
        let line = [DVec2::new(px, foot + inwards * 16.0 * unit), DVec2::new(px, outer)];
        let dash = Some((3.0 * unit, 2.0 * unit));
        self.drawing.line(line, Stroke { dash, ..Stroke::solid(palette.ink, 1.6 * unit) });
        if let Some(trace) = self.place_for(edge, Criterion::LastTrace) {
            let trace_px = self.close.px(trace).clamp(0.0, self.view.size.x);
            let ends = [px, trace_px].map(|x| DVec2::new(x, foot - inwards * 1.5 * unit));
            self.drawing.line(ends, Stroke::solid(palette.accent, 3.0 * unit));
        }
    }

    /// An arrow head: full for the middle of the shadow, hollow for its last trace.
    fn draw_aim_head(&mut self, criterion: Criterion, tip: DVec2, outwards: DVec2) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let head = arrow_head(tip, outwards, 9.0 * unit);
        let fill = match criterion {
            Criterion::Middle => palette.accent,
            Criterion::LastTrace => palette.paper,
        };
        self.drawing.fill(head, fill);
        self.drawing.outline(head, Stroke::solid(palette.accent, 1.5 * unit));
        let [_, left, right] = head;
        self.letters.reserve(left.min(right).min(tip), left.max(right).max(tip));
    }

    /// Names an aim on whichever side of its arrow is free.
    fn name_aim(&mut self, (px, y): (f64, f64), text: &str) -> bool {
        let aside = 10.0 * self.layout.unit;
        for (x, anchor) in [(px + aside, Anchor::Start), (px - aside, Anchor::End)] {
            let style = label(self.view.label_px, self.view.palette.ink_2, anchor);
            if self.letters.set(self.drawing, DVec2::new(x, y), text, style) {
                return true;
            }
        }
        false
    }

    /// The quadrant under the rod's shadow, in the measure of the scale above it.
    fn draw_close_quadrant(&mut self) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let (top, bottom) = self.layout.close_quadrant;
        let Some(patch) = self.patch else { return };
        // Brought under the rod along the ray.
        let carried_m = self.view.pointer.axial_m() - patch.middle_m;
        let close = self.close;
        let px = |place: f64| close.px(place + carried_m);
        let all = (DVec2::new(0.0, top), DVec2::new(self.view.size.x, bottom));
        hatch(self.drawing, all, 7.0 * unit, Stroke::solid(palette.hair, unit));
        let (south, north) = self.quadrant_m();
        let from = south.max(self.close.min - carried_m);
        let to = north.min(self.close.max - carried_m);
        if from < to {
            let min = DVec2::new(px(from), top);
            let max = DVec2::new(px(to), bottom);
            let stops = self.stone_stops((from, to));
            self.drawing.gradient(rectangle(min, max), (min, DVec2::new(max.x, top)), stops);
            let rule = Stroke::solid(palette.rule.faded(0.6), unit);
            self.drawing.outline(rectangle(min, max), rule);
        }
        let limits = (px(patch.limits_m.0), px(patch.limits_m.1));
        if self.layout.profile.is_none() {
            self.name_depth((px(from), px(to)), limits, patch.peak_cover);
        }
        let edges = [south, north].map(px).into_iter().filter(|x| (0.0..=all.1.x).contains(x));
        let edges: Vec<_> =
            edges.map(|x| [DVec2::new(x, top - 3.0 * unit), DVec2::new(x, bottom)]).collect();
        self.drawing.lines(edges, Stroke::solid(palette.ink, 2.0 * unit));
        self.measure_patch(limits);
        if let Some((core_south, core_north)) = patch.core_m {
            self.measure_core((px(core_south), px(core_north)));
        }
        self.draw_profile(&patch, carried_m);
    }

    /// How much of the Sun the rod hides where its shadow is deepest, on stone beside it.
    fn name_depth(&mut self, stone: (f64, f64), shadow: (f64, f64), peak_cover: f64) {
        let share = format!("{:.0}", peak_cover * 100.0);
        let text = self.view.words.fill("scale.depth", &[("share", &share)]);
        let size = self.view.label_px;
        let width = text_width(&text, Typeface::Sans, size);
        let (top, bottom) = self.layout.close_quadrant;
        let y = f64::midpoint(top, bottom) + 0.35 * size;
        let gap = 6.0 * self.layout.unit;
        for (left, anchor) in
            [(shadow.0 - gap - width, Anchor::End), (shadow.1 + gap, Anchor::Start)]
        {
            let on_stone = stone.0 <= left && left + width <= stone.1;
            let x = if anchor == Anchor::End { left + width } else { left };
            let style = label(size, self.view.palette.cut, anchor);
            if on_stone && self.letters.set(self.drawing, DVec2::new(x, y), &text, style) {
                return;
            }
        }
    }

    /// A line under the shadow as long as it is with its soft edges.
    fn measure_patch(&mut self, (left, right): (f64, f64)) {
        let unit = self.layout.unit;
        let y = self.layout.close_quadrant.1 + 5.0 * unit;
        let tick = 3.5 * unit;
        let lines = [
            [DVec2::new(left, y), DVec2::new(right, y)],
            [DVec2::new(left, y - tick), DVec2::new(left, y + tick)],
            [DVec2::new(right, y - tick), DVec2::new(right, y + tick)],
        ];
        self.drawing.lines(lines, Stroke::solid(self.view.palette.ink_2, 1.2 * unit));
    }

    /// Within it, a thicker line as long as the full shadow.
    fn measure_core(&mut self, (left, right): (f64, f64)) {
        let unit = self.layout.unit;
        let y = self.layout.close_quadrant.1 + 5.0 * unit;
        let stroke = Stroke::solid(self.view.palette.ink, 3.6 * unit);
        self.drawing.line([DVec2::new(left, y), DVec2::new(right, y)], stroke);
    }

    /// The line in the middle of the rod, down to the middle of its shadow.
    fn draw_index(&mut self) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let px = self.close.px(self.view.pointer.axial_m());
        let (top, bottom) = self.layout.close_scale;
        let stroke = Stroke::solid(palette.accent, 2.0 * unit);
        let line = [DVec2::new(px, top), DVec2::new(px, bottom)];
        cased_line(self.drawing, &line, stroke, palette.paper);
        if self.patch.is_some() {
            let dash = Some((4.0 * unit, 3.0 * unit));
            let line = [DVec2::new(px, bottom), DVec2::new(px, self.layout.close_quadrant.0)];
            cased_line(self.drawing, &line, Stroke { dash, ..stroke }, palette.paper);
        }
    }
}

/// 60 for a whole degree, 30 for a half, 10 for the rest; zero stands out.
fn rank_of(arcmin: i32) -> i32 {
    if arcmin == 0 {
        return ZERO_RANK;
    }
    [DEGREE_ARCMIN, HALF_ARCMIN].into_iter().find(|rank| arcmin % rank == 0).unwrap_or(10)
}
