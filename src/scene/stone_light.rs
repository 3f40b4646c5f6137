//! Light along a quadrant: how much of the Sun's disc each place of its arc sees.
//!
//! The style's soft edge has a closed form; where nothing else touches the disc it is used. A few
//! points round the disc tell where the disc is whole or gone; only between them is its visible
//! part worked out.

use std::f64::consts::{FRAC_PI_2, PI, SQRT_2};

use crate::core::dial::DialAngles;
use crate::core::instrument::{AxialEnd, Instrument, Side};
use crate::core::light::{SunDisc, lit_fraction};
use crate::core::moment::Moment;
use crate::core::order::order_short;
use crate::core::penumbra::half_width_rad;
use crate::core::reading::{hour_angle_of_mark, shown_at};
use crate::core::shadow::{Shade, axial_shift_m, sees_sun, shade_at};

/// Points at which the light of a soft edge is taken: with straight lines between them it is
/// right to better than a step of an 8-bit colour.
const SOFT_POINTS: u32 = 33;
/// Points at which the light is taken along all of a piece, to find other shadows.
const EVEN_POINTS: u32 = 32;
/// Two neighbouring points whose light differs by more get another between them.
const COARSEST_STEP: f64 = 0.084;
/// Least distance of two such points, as a share of the piece: less than a pixel.
const FINEST_SHARE: f64 = 1.0 / 1000.0;

/// The Sun of a moment, as it lights the quadrants.
#[derive(Clone, Copy, Debug)]
pub(super) struct StoneLight<'a> {
    instrument: &'a Instrument,
    disc: SunDisc,
    /// Share of the disc's light that comes from above the horizon, 0 to 1.
    above_horizon: f64,
    /// The style's edge throws its shadow on a quadrant.
    pub(super) edge: bool,
    /// Nothing but the style's edge touches the disc where it is half hidden.
    edge_alone: bool,
    /// The line round the quadrants along which light is looked at, axial metres: in the middle
    /// of the part that the style shadows.
    pub(super) axial_m: f64,
}

impl<'a> StoneLight<'a> {
    /// The light of a moment.
    pub(super) fn new(instrument: &'a Instrument, moment: &Moment) -> Self {
        Self::of(instrument, moment.disc())
    }

    /// The light of a Sun.
    pub(super) fn of(instrument: &'a Instrument, disc: SunDisc) -> Self {
        let SunDisc { centre, semidiameter_rad, limb, .. } = disc;
        let altitude_rad = instrument.frame().towards(centre).z.clamp(-1.0, 1.0).asin();
        let above_horizon = limb.past_edge(altitude_rad / semidiameter_rad);
        let side = Side::at_hour_angle(centre.hour_angle_rad);
        let shadowed = shadowed_m(instrument, side, centre.declination_rad);
        let blur_m = axial_shift_m(instrument, side, centre.declination_rad + semidiameter_rad)
            - axial_shift_m(instrument, side, centre.declination_rad - semidiameter_rad);
        let edge = shadowed.is_some() && centre.hour_angle_rad.abs() <= FRAC_PI_2;
        let broad = shadowed.is_some_and(|(south, north)| north - south > blur_m.abs());
        Self {
            instrument,
            disc,
            above_horizon,
            edge,
            edge_alone: edge && broad && above_horizon >= 1.0,
            axial_m: shadowed.map_or(0.0, |(south, north)| f64::midpoint(south, north)),
        }
    }

    /// Whether some of the disc is above the horizon.
    pub(super) fn is_up(&self) -> bool {
        self.above_horizon > 0.0
    }

    /// Light at an angle from the foot, signed as an hour angle: 0 full shadow, 1 full sun.
    pub(super) fn at(&self, side: Side, angle_rad: f64) -> f64 {
        if !self.is_up() {
            return 0.0;
        }
        let sun = self.disc.centre;
        let clear = side.sign() * (angle_rad - sun.hour_angle_rad) / self.half_width_rad();
        if self.edge_alone && clear.abs() < 1.0 {
            return self.disc.limb.past_edge(clear);
        }
        match self.disc_seen(side, angle_rad) {
            Some(whole) => f64::from(whole) * self.above_horizon,
            None => lit_fraction(self.instrument, &self.disc, side, angle_rad, self.axial_m),
        }
    }

    /// Light at a time that is cut on a quadrant, seconds since midnight.
    pub(super) fn at_mark(&self, side: Side, shown_s: f64) -> f64 {
        self.at(side, hour_angle_of_mark(self.instrument, side, shown_s))
    }

    /// What keeps the Sun's centre from an angle; the horizon is left out.
    pub(super) fn shade_at(&self, side: Side, angle_rad: f64) -> Option<Shade> {
        shade_at(self.instrument, self.disc.centre, side, angle_rad, self.axial_m)
    }

    /// Whether stone hides none or all of the disc; `None` when it may hide a part: told by the
    /// corners of a square round the disc.
    fn disc_seen(&self, side: Side, angle_rad: f64) -> Option<bool> {
        let centre = self.disc.centre;
        let reach_rad = SQRT_2 * self.disc.semidiameter_rad;
        let across_rad = half_width_rad(reach_rad, centre.declination_rad);
        let sees = |across: f64, along: f64| {
            let point = DialAngles {
                hour_angle_rad: centre.hour_angle_rad + across * across_rad,
                declination_rad: centre.declination_rad + along * reach_rad,
            };
            sees_sun(self.instrument, point, side, angle_rad, self.axial_m)
        };
        let middle = sees(0.0, 0.0);
        let corners = [(-1.0, 0.0), (1.0, 0.0), (0.0, -1.0), (0.0, 1.0)];
        corners.into_iter().all(|(across, along)| sees(across, along) == middle).then_some(middle)
    }

    /// Light along a piece of a quadrant, as times shown there and light in order: straight lines
    /// between them show it.
    pub(super) fn profile(&self, side: Side, (from_s, to_s): (f64, f64)) -> Vec<(f64, f64)> {
        let share = |point: u32| f64::from(point) / f64::from(EVEN_POINTS);
        let mut times: Vec<f64> =
            (0..=EVEN_POINTS).map(|point| from_s + (to_s - from_s) * share(point)).collect();
        if self.edge {
            let soft = self.through_soft_edge().map(|angle| shown_at(self.instrument, side, angle));
            times.extend(soft.filter(|time| (from_s..=to_s).contains(time)));
            order_short(&mut times, |a, b| a < b);
        }
        let finest_s = (to_s - from_s) * FINEST_SHARE;
        let mut profile: Vec<(f64, f64)> = Vec::with_capacity(2 * times.len());
        for time in times {
            let next = (time, self.at_mark(side, time));
            if let Some(&last) = profile.last() {
                self.refine(side, last, next, finest_s, &mut profile);
            }
            profile.push(next);
        }
        profile
    }

    /// Adds points between two until their light no longer jumps.
    fn refine(
        &self,
        side: Side,
        before: (f64, f64),
        after: (f64, f64),
        finest_s: f64,
        profile: &mut Vec<(f64, f64)>,
    ) {
        if (after.1 - before.1).abs() < COARSEST_STEP || after.0 - before.0 < finest_s {
            return;
        }
        let time = f64::midpoint(before.0, after.0);
        let middle = (time, self.at_mark(side, time));
        self.refine(side, before, middle, finest_s, profile);
        profile.push(middle);
        self.refine(side, middle, after, finest_s, profile);
    }

    /// Angles closely through the soft edge, closest near its two ends, where the light bends
    /// most; fewer where each of them is costly.
    fn through_soft_edge(&self) -> impl Iterator<Item = f64> {
        let (middle, half) = (self.disc.centre.hour_angle_rad, self.half_width_rad());
        let last = if self.edge_alone { SOFT_POINTS - 1 } else { (SOFT_POINTS - 1) / 2 };
        (0..=last).map(move |point| middle - half * (PI * f64::from(point) / f64::from(last)).cos())
    }

    /// Half width of the style's soft edge, radians.
    fn half_width_rad(&self) -> f64 {
        half_width_rad(self.disc.semidiameter_rad, self.disc.centre.declination_rad)
    }
}

/// South and north end of the part of the breadth that the style can shadow, axial metres.
fn shadowed_m(instrument: &Instrument, side: Side, declination_rad: f64) -> Option<(f64, f64)> {
    let shift = axial_shift_m(instrument, side, declination_rad);
    let [north, south] = AxialEnd::BOTH
        .map(|end| (instrument.style_end_m(end) + shift, instrument.quadrant_edge_m(end)));
    let (south, north) = (south.0.max(south.1), north.0.min(north.1));
    (south < north).then_some((south, north))
}
