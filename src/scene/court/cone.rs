//! The cone of a day's rays: through one point of the style they all stand at one angle to the
//! axis, so that the shadow of the point runs on a circle about it, the line of the quadrant.

use std::f64::consts::{FRAC_PI_2, PI};

use glam::DVec3;

use super::guides::{Guides, Kind, Sign, straight};
use super::plan::Arm;
use crate::core::instrument::Side;
use crate::scene::guide::Guide;

/// Parts of the cone's rims, and an hour.
const PARTS: u32 = 48;
const HOUR_RAD: f64 = PI / 12.0;
/// Rays that stand this nearly square to the axis make a plane, radians: half the Sun's disc.
const FLAT_RAD: f64 = 0.0046;

/// The cone through a point of the style's edge.
struct Cone<'a> {
    arm: Arm<'a>,
    /// `s` of its point, and its rise from there to the rim on the Sun's side.
    point: f64,
    rise: f64,
}

impl Cone<'_> {
    /// The rim on the Sun's side at an hour angle.
    fn sunward(&self, hour_angle_rad: f64) -> DVec3 {
        self.on_rim(hour_angle_rad, 1.0)
    }

    /// The other rim, where its light arrives.
    fn shadow(&self, hour_angle_rad: f64) -> DVec3 {
        self.on_rim(hour_angle_rad, -1.0)
    }

    fn on_rim(&self, hour_angle_rad: f64, way: f64) -> DVec3 {
        let (sin, cos) = hour_angle_rad.sin_cos();
        let out = -self.arm.side.sign() * sin * self.arm.radius * way;
        self.arm.point(out, cos * self.arm.radius * way, self.point + self.rise * way)
    }
}

impl Guides<'_> {
    /// About the edge of the style that throws the shadow, through the point that is read there.
    pub(super) fn cone(&mut self) {
        let (hour_angle_rad, declination_rad) = self.on_dial_rad;
        let Some(half) = self.half_day_rad(declination_rad) else {
            self.line(Guide::Cone, Kind::Main, Vec::new());
            return;
        };
        let arm = Arm::new(self.plan, Side::at_hour_angle(hour_angle_rad));
        let rise = arm.radius * declination_rad.tan();
        let apex = self.apex;
        let cone = Cone { arm, point: self.plan.leaning(apex).y, rise };
        // The wall leaves the light of six hours to the quadrant.
        let shaded = half.min(FRAC_PI_2) * arm.side.sign();
        let rim = |from: f64, to: f64| {
            (0..=PARTS).map(move |k| from + (to - from) * f64::from(k) / f64::from(PARTS))
        };
        let sunward: Vec<DVec3> = rim(-half, half).map(|it| cone.sunward(it)).collect();
        let anchors = [24, 12, 36, 6, 42, 18, 30];
        let anchors = anchors.iter().filter_map(|&k| sunward.get(k).copied()).collect();
        self.line(Guide::Cone, Kind::Main, sunward);
        let track = rim(0.0, shaded).map(|it| cone.shadow(it)).collect();
        self.line(Guide::Cone, Kind::Sun, track);
        // A ray an hour, from noon both ways.
        let hours = (half / HOUR_RAD).floor();
        let mut hour = -hours;
        while hour <= hours {
            let at = hour * HOUR_RAD;
            self.line(Guide::Cone, Kind::Thin, straight(apex, cone.sunward(at), 6));
            if at * arm.side.sign() >= 0.0 && at.abs() <= shaded.abs() {
                self.line(Guide::Cone, Kind::Thin, straight(apex, cone.shadow(at), 6));
            }
            hour += 1.0;
        }
        let angle_rad = FRAC_PI_2 - declination_rad.abs();
        let flat = declination_rad.abs() < FLAT_RAD;
        let keys = if flat {
            ["guide.cone.flat", "guide.cone.flat.short"]
        } else {
            ["guide.cone.angle", "guide.cone.angle.short"]
        };
        let texts = keys.map(|key| self.angle_text(key, angle_rad));
        self.signs.push(Sign { guide: Guide::Cone, kind: Kind::Main, texts, anchors });
    }
}
