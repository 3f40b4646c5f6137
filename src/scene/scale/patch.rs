//! The shadow of the rod on the quadrant: a core, if the rod is thick enough, and soft edges.

use crate::core::instrument::{Instrument, Side};
use crate::core::light::SunDisc;
use crate::core::moment::Moment;
use crate::core::pointer::Pointer;

/// Places at which the shadow's depth is taken.
const PLACES: u32 = 40;
/// Halvings by which the limit of what is seen is found: to a millionth of the shadow.
const HALVINGS: u32 = 20;

/// The rod's shadow along the axis of the quadrant.
#[derive(Clone, Copy, Debug)]
pub(super) struct Patch<'a> {
    instrument: &'a Instrument,
    pointer: &'a Pointer,
    side: Side,
    disc: SunDisc,
    /// Middle of the shadow, axial metres.
    pub(super) middle_m: f64,
    /// South and north limit with the soft edges, axial metres.
    pub(super) limits_m: (f64, f64),
    /// South and north limit of the full shadow, if there is one.
    pub(super) core_m: Option<(f64, f64)>,
    /// Largest part of the Sun's disc that the rod hides, 0 to 1.
    pub(super) peak_cover: f64,
}

impl<'a> Patch<'a> {
    pub(super) fn new(instrument: &'a Instrument, moment: &Moment, pointer: &'a Pointer) -> Self {
        let disc = moment.disc();
        let side = Side::at_hour_angle(disc.centre.hour_angle_rad);
        let shadow = pointer.shadow(instrument, side, &disc);
        Self {
            instrument,
            pointer,
            side,
            disc,
            middle_m: shadow.shadow_m,
            limits_m: shadow.patch_m,
            core_m: shadow.core_m,
            peak_cover: shadow.peak_cover,
        }
    }

    /// Share of the Sun's disc that the rod hides from a place on the quadrant, 0 to 1.
    pub(super) fn cover_at(&self, axial_m: f64) -> f64 {
        self.pointer.cover_at(self.instrument, self.side, &self.disc, axial_m)
    }

    /// Places through the shadow, south to north, close enough for straight lines between them.
    pub(super) fn places_m(&self) -> Vec<f64> {
        let (south, north) = self.limits_m;
        let at = |index: u32| south + (north - south) * f64::from(index) / f64::from(PLACES);
        (0..=PLACES).map(at).collect()
    }

    /// South and north limit of what is seen of the shadow, when the eye sees it as long as the
    /// rod covers `least_cover` of the Sun; `None` when it never does.
    pub(super) fn seen_m(&self, least_cover: f64) -> Option<(f64, f64)> {
        if self.peak_cover <= least_cover {
            return None;
        }
        let (south, north) = self.limits_m;
        Some((self.trace_m(south, least_cover), self.trace_m(north, least_cover)))
    }

    /// Where the shadow fades out of sight between its middle and a limit.
    fn trace_m(&self, limit_m: f64, least_cover: f64) -> f64 {
        let (mut seen, mut gone) = (self.middle_m, limit_m);
        for _ in 0..HALVINGS {
            let place = f64::midpoint(seen, gone);
            if self.cover_at(place) > least_cover {
                seen = place;
            } else {
                gone = place;
            }
        }
        f64::midpoint(seen, gone)
    }
}
