//! The reading surface: its light, and the soft edge of the shadow on it.

use std::f64::consts::FRAC_PI_2;

use glam::{DVec2, DVec3};

use super::easel::{Easel, Shapes};
use super::light::Light;
use super::plan::Arm;
use super::view::View;
use crate::core::penumbra::half_width_rad;
use crate::scene::drawing::Colour;

/// Bands that make up the soft edge, at least and at most, and their least width in pixels at rest and
/// in motion.
const BANDS: (f64, f64) = (2.0, 18.0);
const BAND_PX: f64 = 1.3;
const IN_MOTION_PX: f64 = 4.0;
/// Steps of the soft border where the shadow of the style's end lies on the surface.
const BORDERS: (f64, f64) = (1.0, 6.0);
/// Share of the disc below which engraving is drawn as in the shadow.
const LIGHT_INK: f64 = 0.27;
/// Hour angles nearer to the meridian than this count as this, where one divides by their sine.
const NEAR_NOON_RAD: f64 = 1e-4;

/// How the Sun stands to one quadrant.
#[derive(Debug)]
pub(super) struct Surface<'a> {
    pub(super) arm: Arm<'a>,
    pub(super) light: &'a Light<'a>,
    /// Hour angle of the Sun, positive when it throws the style's edge on this quadrant.
    pub(super) sun_rad: f64,
    /// Half width of the penumbra as an hour angle.
    pub(super) half_rad: f64,
    /// Low and high end of the wall in its own plane: `s` at the style, and its slope on `m`.
    ends: [(f64, f64); 2],
}

impl<'a> Surface<'a> {
    pub(super) fn new(arm: Arm<'a>, light: &'a Light<'a>) -> Self {
        let ring = &arm.plan.wall;
        let leaning = |corner: DVec2| arm.plan.leaning(DVec3::new(0.0, corner.x, corner.y));
        let end = |top: DVec2, base: Option<&DVec2>| {
            let fall = leaning(*base.unwrap_or(&top)) - leaning(top);
            (leaning(top).y, if fall.x.abs() > 1e-9 { fall.y / fall.x } else { 0.0 })
        };
        let [low, high] = arm.plan.style_ends();
        Self {
            arm,
            light,
            sun_rad: light.hour_angle_rad * arm.side.sign(),
            half_rad: half_width_rad(light.semidiameter_rad, light.declination_rad),
            ends: [end(low, ring.last()), end(high, ring.get(2))],
        }
    }

    /// Share of the Sun's disc seen from a point of the surface.
    pub(super) fn uncovered(&self, angle_rad: f64, s: f64) -> f64 {
        let past = |limits: Limits, past_edge: f64| beside(past_edge, limits.within(s, self.light));
        let wall = past(self.style_limits(angle_rad), self.past_style(angle_rad));
        let arc = past(self.arc_limits(angle_rad), self.past_arc(angle_rad));
        wall.min(arc)
    }

    /// Engraving in the light and in the shadow.
    pub(super) fn inks(&self) -> [Colour; 2] {
        let share = if self.light.sun_is_up() { 1.0 } else { 0.0 };
        let at = self.sun_rad.abs().min(FRAC_PI_2 / 2.0);
        [share, 0.0].map(|share| self.light.engraving(self.mixed(at, share)))
    }

    /// Which of the inks reads better at a point: that of the light until well into the shadow.
    pub(super) fn ink_at(&self, angle_rad: f64, s: f64) -> usize {
        let light = self.uncovered(angle_rad, s) * self.light.turned(self.arm.normal(angle_rad));
        usize::from(light < LIGHT_INK)
    }

    /// Colour where this share of the disc is seen.
    fn mixed(&self, angle_rad: f64, uncovered: f64) -> Colour {
        let normal = self.arm.normal(angle_rad);
        let umbra = self.light.umbra(normal);
        umbra.mixed(self.light.stone_over(umbra, normal), uncovered)
    }

    /// Share of the disc that clears the style's edge.
    fn past_style(&self, angle_rad: f64) -> f64 {
        self.light.limb.past_edge((angle_rad - self.sun_rad) / self.half_rad)
    }

    /// Share of the disc that clears the quadrant's own arc: its upper end, or its foot when the
    /// Sun is more than six hours away and shines in from below.
    fn past_arc(&self, angle_rad: f64) -> f64 {
        let clear = if self.sun_rad > FRAC_PI_2 {
            angle_rad / 2.0 + FRAC_PI_2 - self.sun_rad
        } else {
            (FRAC_PI_2 - angle_rad) / 2.0 + self.sun_rad
        };
        self.light.limb.past_edge(clear / self.half_rad)
    }

    /// `s` between which the wall shades the surface at an angle: its ends' shadows.
    fn style_limits(&self, angle_rad: f64) -> Limits {
        let sun = self.sun_rad.max(NEAR_NOON_RAD);
        let angle = angle_rad.clamp(0.0, sun);
        let radius = self.arm.radius;
        // Where the ray to the Sun crosses the wall's side, below the style and along it.
        let m = -radius * (sun - angle).sin() / sun.sin();
        let way = radius * angle.sin() / sun.sin();
        let shift = way * self.light.declination_rad.tan();
        let [low, high] = self.ends.map(|(top, slope)| top + slope * m - shift);
        Limits { low, high, soft: self.soft(way) }
    }

    /// `s` between which the quadrant's own upper part shades the surface at an angle.
    fn arc_limits(&self, angle_rad: f64) -> Limits {
        let chord = 2.0 * self.arm.radius * (self.sun_rad - angle_rad).cos();
        let shift = chord * self.light.declination_rad.tan();
        let half = self.arm.plan.half_slab;
        Limits { low: -half - shift, high: half - shift, soft: self.soft(chord) }
    }

    /// Half the breadth along `s` of the soft border of something so far away in the plane square to
    /// the style.
    fn soft(&self, way: f64) -> f64 {
        (way * self.light.semidiameter_rad / self.light.declination_rad.cos().powi(2)).abs()
    }

    /// Paints the surface between two angles, cut at `stations` (rising, both ends included).
    /// `lap` carries the paint a little further below or above, under what is painted next.
    pub(super) fn paint(&self, easel: &mut Easel<'_>, stations: &[f64], lap: (bool, bool)) {
        let (Some(&from), Some(&to)) = (stations.first(), stations.last()) else { return };
        let sliver =
            0.8 / (easel.view.scale_at(self.arm.surface((from + to) / 2.0, 0.0)) * self.arm.radius);
        let from = if lap.0 { from - sliver } else { from };
        let reach = if lap.1 { to + sliver } else { to };
        let sunlit = self.light.sun_is_up();
        let share = if sunlit { 1.0 } else { 0.0 };
        let mut lit = Band::starting(from);
        let dark: Vec<bool> =
            stations.iter().map(|&angle| sunlit && self.in_umbra(angle)).collect();
        for (pair, dark) in stations.windows(2).zip(dark.windows(2)) {
            // No light under full shadow, lest it shine through where two runs meet.
            let share = if dark[0] && dark[1] { 0.0 } else { share };
            let colour = coarse(self.mixed((pair[0] + pair[1]) / 2.0, share), easel.view);
            if lit.colour != Some(colour) {
                self.band(easel, &lit, sliver);
                lit = Band::starting(if pair[0] == stations[0] { from } else { pair[0] });
                lit.colour = Some(colour);
            }
            lit.stations.push(pair[1]);
        }
        self.band(easel, &lit, if lap.1 { sliver } else { 0.0 });
        if sunlit {
            self.paint_shadows(easel, (from, reach), stations);
        }
    }

    /// Whether the surface is in full shadow from side to side at an angle.
    fn in_umbra(&self, angle_rad: f64) -> bool {
        // Where either edge leaves some of the disc, its limits need not be asked for.
        if self.past_style(angle_rad) > 0.0 && self.past_arc(angle_rad) > 0.0 {
            return false;
        }
        let half = self.arm.plan.half_slab;
        [-half, half].iter().all(|&s| self.uncovered(angle_rad, s) == 0.0)
    }

    /// A band of one colour over the whole breadth.
    fn band(&self, easel: &mut Easel<'_>, band: &Band, lap: f64) {
        let Some(colour) = band.colour else { return };
        let half = self.arm.plan.half_slab;
        let breadth = |_: f64| (-half, half);
        easel.fills(|shapes, view| self.strip(shapes, view, &band.stations, lap, breadth), colour);
    }

    /// One contour along the arc between two limits of `s`.
    fn strip(
        &self,
        shapes: &mut Shapes,
        view: &View,
        stations: &[f64],
        lap: f64,
        limits: impl Fn(f64) -> (f64, f64),
    ) {
        let last = stations.last().map(|&last| last + lap);
        let angles = stations.iter().copied().chain(last);
        let back = last.into_iter().chain(stations.iter().rev().copied());
        let there = angles.map(|angle| self.arm.surface(angle, limits(angle).0));
        let and_back = back.map(|angle| self.arm.surface(angle, limits(angle).1));
        shapes.polygon(view, there.chain(and_back));
    }

    /// Lays a translucent tone over a part of the surface.
    pub(super) fn patch(
        &self,
        easel: &mut Easel<'_>,
        (from, to): (f64, f64),
        limits: (f64, f64),
        tone: Colour,
    ) {
        const STEPS: u32 = 6;
        let (from, to) = (from.clamp(0.0, FRAC_PI_2), to.clamp(0.0, FRAC_PI_2));
        if from >= to || tone.alpha == 0 {
            return;
        }
        let place = |k: u32| from + (to - from) * f64::from(k) / f64::from(STEPS);
        let stations: [f64; STEPS as usize + 1] = std::array::from_fn(|k| place(k as u32));
        easel.fills(|shapes, view| self.strip(shapes, view, &stations, 0.0, |_| limits), tone);
    }

    fn paint_shadows(&self, easel: &mut Easel<'_>, range: (f64, f64), stations: &[f64]) {
        let half = self.half_rad;
        if self.sun_rad > -half {
            let edge = (self.sun_rad - half, self.sun_rad + half);
            let shadow = Shadow { umbra: (0.0, edge.0), edge, rising: true };
            self.shadow(easel, range, stations, &shadow, |angle| self.style_limits(angle));
        }
        if self.sun_rad < half {
            let middle = FRAC_PI_2 + 2.0 * self.sun_rad;
            let edge = (middle - 2.0 * half, middle + 2.0 * half);
            let shadow = Shadow { umbra: (edge.1, FRAC_PI_2), edge, rising: false };
            self.shadow(easel, range, stations, &shadow, |angle| self.arc_limits(angle));
        }
        if self.sun_rad > FRAC_PI_2 - half {
            let middle = 2.0 * (self.sun_rad - FRAC_PI_2);
            let edge = (middle - 2.0 * half, middle + 2.0 * half);
            let shadow = Shadow { umbra: (0.0, edge.0), edge, rising: true };
            self.shadow(easel, range, stations, &shadow, |angle| self.arc_limits(angle));
        }
    }

    /// Paints one shadow: its full part, and its soft edge in bands.
    fn shadow(
        &self,
        easel: &mut Easel<'_>,
        range: (f64, f64),
        stations: &[f64],
        shadow: &Shadow,
        limits: impl Fn(f64) -> Limits,
    ) {
        let scale = easel.view.scale_at(self.arm.surface(shadow.middle(), 0.0)) * self.arm.radius;
        let lap = 0.8 / scale;
        let full = within(stations, range, shadow.umbra);
        if full.len() > 1 {
            let middle = (full[0] + full[full.len() - 1]) / 2.0;
            let lap = if shadow.rising && shadow.umbra.1 < range.1 { lap } else { 0.0 };
            let view = easel.view;
            let tone = |share: f64| coarse(self.mixed(middle, share), view);
            self.soft_ended(easel, &full, lap, &limits, |within| tone(1.0 - within));
        }
        let (from, to) = shadow.edge;
        let count = ((to - from) * scale / band_px(easel.view)).clamp(BANDS.0, BANDS.1).round();
        let width = (to - from) / count;
        let mut start = from;
        while start < to - 0.5 * width {
            let band = within(&[], range, (start, start + width));
            let middle = start + width / 2.0;
            if band.len() > 1 {
                let share = shadow.uncovered(middle, self.light);
                let last = start + 1.5 * width > to || band[1] >= range.1;
                let lap = if last { 0.0 } else { lap };
                let tone = |within: f64| self.mixed(middle, beside(share, within));
                self.soft_ended(easel, &band, lap, &limits, tone);
            }
            start += width;
        }
    }

    /// Fills a strip between its limits, with soft borders where they lie on the surface: from the
    /// outside inwards, each fill over what is left of the one before. `tone` is that of a place by
    /// how far it is within the limits, 0 to 1.
    fn soft_ended(
        &self,
        easel: &mut Easel<'_>,
        stations: &[f64],
        lap: f64,
        limits: impl Fn(f64) -> Limits,
        tone: impl Fn(f64) -> Colour,
    ) {
        let half = self.arm.plan.half_slab;
        let ends = stations.iter().map(|&angle| limits(angle));
        let widest = ends.clone().fold(0.0, |widest: f64, it| widest.max(it.soft));
        let bordered = ends.clone().any(|it| it.low + it.soft > -half || it.high - it.soft < half);
        let middle = self.arm.surface(stations.first().copied().unwrap_or_default(), 0.0);
        let breadth_px = 2.0 * widest * easel.view.scale_at(middle);
        let (_, most) = BORDERS;
        let steps = if bordered {
            (breadth_px / band_px(easel.view)).clamp(BORDERS.0, most).round()
        } else {
            0.0
        };
        // A small whole number.
        for step in 0..=steps as u32 {
            let step = f64::from(step);
            let (out, within) = if step < steps {
                let share = |twice: f64| (2.0 * step + twice) / steps - 1.0;
                (share(0.0), self.light.limb.past_edge(share(1.0)))
            } else {
                (1.0, 1.0)
            };
            let cut = |angle: f64| {
                let Limits { low, high, soft } = limits(angle);
                let low = (low + out * soft).clamp(-half, half);
                (low, (high - out * soft).clamp(low, half))
            };
            easel.fills(|shapes, view| self.strip(shapes, view, stations, lap, cut), tone(within));
        }
    }
}

/// Least width of a band, pixels.
fn band_px(view: &View) -> f64 {
    if view.in_motion { IN_MOTION_PX } else { BAND_PX }
}

/// Share of the disc seen where an edge leaves `past_edge` of it, and the shadow's two ends let this
/// edge count `within` of the time.
fn beside(past_edge: f64, within: f64) -> f64 {
    1.0 - (1.0 - past_edge) * within
}

/// Where along `s` a shadow ends.
#[derive(Clone, Copy, Debug)]
struct Limits {
    low: f64,
    high: f64,
    /// Half the breadth of its soft borders there.
    soft: f64,
}

impl Limits {
    /// Share of the Sun's disc from which a place lies within the limits, 0 to 1.
    fn within(&self, s: f64, light: &Light<'_>) -> f64 {
        let soft = self.soft.max(f64::MIN_POSITIVE);
        let past = |inside: f64| light.limb.past_edge(inside / soft);
        past(s - self.low).min(past(self.high - s))
    }
}

/// A band of one colour in the making.
struct Band {
    stations: Vec<f64>,
    colour: Option<Colour>,
}

impl Band {
    fn starting(at: f64) -> Self {
        Self { stations: vec![at], colour: None }
    }
}

/// A shadow along the arc.
struct Shadow {
    /// Where it is full.
    umbra: (f64, f64),
    /// Its soft edge.
    edge: (f64, f64),
    /// Whether the light grows with the angle.
    rising: bool,
}

impl Shadow {
    /// Share of the disc seen at an angle.
    fn uncovered(&self, angle_rad: f64, light: &Light<'_>) -> f64 {
        let off =
            (angle_rad - (self.edge.0 + self.edge.1) / 2.0) * 2.0 / (self.edge.1 - self.edge.0);
        light.limb.past_edge(if self.rising { off } else { -off })
    }

    fn middle(&self) -> f64 {
        ((self.edge.0 + self.edge.1) / 2.0).clamp(0.0, FRAC_PI_2)
    }
}

/// The part of a range inside another, with the stations in it; empty if there is none.
fn within(stations: &[f64], (from, to): (f64, f64), (low, high): (f64, f64)) -> Vec<f64> {
    let (from, to) = (from.max(low), to.min(high));
    if from >= to {
        return Vec::new();
    }
    let inner = stations.iter().copied().filter(|&angle| angle > from && angle < to);
    [from].into_iter().chain(inner).chain([to]).collect()
}

/// A colour rounded so that neighbours that look alike are alike: the more so in motion, where
/// every shape that need not be painted counts.
pub(super) fn coarse(colour: Colour, view: &View) -> Colour {
    let step = if view.in_motion { 4 } else { 2 };
    Colour {
        rgb: colour.rgb.map(|channel| (channel / step * step).saturating_add(step / 2)),
        ..colour
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::dial::DialAngles;
    use crate::core::instrument::{PRESETS, Side};
    use crate::core::moment::{Conditions, Moment};
    use crate::core::shadow::sees_sun;
    use crate::core::sky::SunTrack;
    use crate::core::time::Instant;
    use crate::scene::court::plan::Plan;
    use crate::scene::palette::Theme;

    /// The light as it is painted, against the core's own trace of the ray to the Sun's centre,
    /// through a year in steps that meet every hour.
    #[test]
    fn the_painted_light_is_the_cores() {
        let mut compared = 0;
        for preset in &PRESETS {
            let Ok(instrument) = preset.instrument() else { panic!("a preset is valid") };
            let plan = Plan::new(&instrument);
            for step in 0..300 {
                let instant =
                    Instant::from_unix_ms_saturating((1_767_225_600 + step * 105_731) * 1000);
                let moment = Moment::compute(
                    &instrument,
                    instant,
                    &Conditions::default(),
                    &mut SunTrack::new(),
                );
                if moment.sun.seen.altitude_rad < 0.03 {
                    continue;
                }
                let light = Light::new(&plan, &moment, Theme::Day.palette());
                for side in Side::BOTH {
                    let surface = Surface::new(Arm::new(&plan, side), &light);
                    compared += compare(&surface, &instrument, moment.on_dial);
                }
            }
        }
        assert!(compared > 50_000, "only {compared} points were clear enough to compare");
    }

    fn compare(
        surface: &Surface<'_>,
        instrument: &crate::core::instrument::Instrument,
        sun: DialAngles,
    ) -> usize {
        let plan = surface.arm.plan;
        let mut compared = 0;
        for (angle, s) in
            (1..18).flat_map(|i| (-4..=4).map(move |j| (f64::from(i) * 5.0 + 0.37, j)))
        {
            let (angle, s) = (angle.to_radians(), f64::from(s) * plan.half_breadth / 4.2);
            // The stone has a rim that the core's bare surface has not.
            let rim = plan.half_slab - plan.half_breadth;
            let Limits { low, high, .. } = surface.arc_limits(angle);
            let at_rim = (s - low).abs() < 1.1 * rim || (s - high).abs() < 1.1 * rim;
            let slant = (surface.arm.normal(angle)).dot(surface.light.to_sun);
            let seen = surface.uncovered(angle, s);
            if at_rim || slant.abs() < 0.01 || (0.001..0.999).contains(&seen) {
                continue;
            }
            let lit = seen > 0.5 && slant > 0.0;
            let signed = angle * surface.arm.side.sign();
            let core = sees_sun(instrument, sun, surface.arm.side, signed, s * plan.sigma);
            assert_eq!(
                lit,
                core,
                "{} {:?}: {:.3} rad, {s:.3} m, Sun {sun:?}",
                instrument.spec().name,
                surface.arm.side,
                angle
            );
            compared += 1;
        }
        compared
    }
}
