//! The steps between the wall's parapets.

use glam::{DVec2, DVec3};

use super::plan::Plan;

/// Narrowest channel with steps, and the slopes at which one can climb, as tangents, metres.
const STEPPED_M: f64 = 0.25;
const SLOPES: (f64, f64) = (0.25, 1.4);
/// Height of a step, metres, and the fewest that make a flight.
const RISE_M: f64 = 0.175;
const FEWEST_STEPS: f64 = 8.0;

/// The flight between the parapets.
#[derive(Clone, Copy, Debug)]
pub(super) struct Steps {
    /// Front of the lowest tread, and its height.
    pub(super) first: DVec2,
    going: f64,
    pub(super) rise: f64,
    pub(super) count: u32,
    /// No tread lies lower than this: the platform's level.
    floor: f64,
}

impl Steps {
    /// The flight of a wall, if a person could climb it.
    pub(super) fn new(plan: &Plan, depth: f64) -> Option<Self> {
        let slope = plan.sin / plan.cos.max(1e-9);
        if 2.0 * plan.half_channel() < STEPPED_M || !(SLOPES.0..=SLOPES.1).contains(&slope) {
            return None;
        }
        let [low, high] = plan.style_ends();
        let plumb = plan.wall_ends().all(|(_, _, outward)| outward.z.abs() < 1e-9);
        if !plumb {
            return None;
        }
        let length = high.x - low.x;
        let count = (length * slope / RISE_M).floor();
        if count < FEWEST_STEPS {
            return None;
        }
        let rise = length * slope / count;
        let first = DVec2::new(low.x, low.y - depth);
        let going = rise / slope;
        Some(Self { first, going, rise, count: count as u32, floor: plan.deck })
    }

    /// `y` of the front of a tread.
    fn front_of(&self, step: u32) -> f64 {
        self.first.x + f64::from(step) * self.going
    }

    /// Height of a tread.
    fn height_of(&self, step: u32) -> f64 {
        (self.first.y + f64::from(step) * self.rise).max(self.floor)
    }

    /// Height of the flight at some `y`.
    pub(super) fn height_at(&self, y: f64) -> f64 {
        let step = ((y - self.first.x) / self.going + 1e-6).floor();
        self.height_of(step.clamp(0.0, f64::from(self.count - 1)) as u32)
    }

    /// What an eye at (y, z) sees of the face below the front of a tread: top, then foot.
    pub(super) fn riser(&self, step: u32, half: f64, eye: DVec2) -> Option<[DVec3; 4]> {
        let (y, top) = (self.front_of(step), self.height_of(step));
        if eye.x >= y {
            return None;
        }
        // The front edge of the step before hides the foot from an eye lower than its tread.
        let hidden = match step.checked_sub(1) {
            Some(before) => self.seen_past(before, eye, y),
            None => top - self.rise,
        };
        let below = step.checked_sub(1).map_or(self.floor, |before| self.height_of(before));
        let foot = hidden.max(below);
        let across = [(-half, top), (half, top), (half, foot), (-half, foot)];
        (foot < top).then(|| across.map(|(x, z)| DVec3::new(x, y, z)))
    }

    /// What an eye at (y, z) sees of a tread: front, then back.
    pub(super) fn tread(&self, step: u32, half: f64, eye: DVec2) -> Option<[DVec3; 4]> {
        let (z, front, back) = (self.height_of(step), self.front_of(step), self.front_of(step + 1));
        if eye.y <= z {
            return None;
        }
        // The front edge of the next step hides the back from an eye beyond it.
        let edge = DVec2::new(back, self.height_of(step + 1));
        let back = if eye.x > back && step + 1 < self.count {
            let rate = (eye.x - edge.x) / (eye.y - edge.y).max(1e-9);
            (edge.x - rate * (edge.y - z)).min(back)
        } else {
            back
        };
        let across = [(-half, front), (half, front), (half, back), (-half, back)];
        (back > front).then(|| across.map(|(x, y)| DVec3::new(x, y, z)))
    }

    /// Height at which the line of sight over a tread's front edge passes some farther `y`.
    fn seen_past(&self, step: u32, eye: DVec2, y: f64) -> f64 {
        let edge = DVec2::new(self.front_of(step), self.height_of(step));
        let way = edge.x - eye.x;
        if way <= 1e-9 { f64::MIN } else { eye.y + (edge.y - eye.y) * (y - eye.x) / way }
    }
}
