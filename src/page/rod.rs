//! The rod held on the style to read the declination: where it is, and where it may go.

use super::keys::Move;
use crate::core::field::FieldError;
use crate::core::instrument::{AxialEnd, Instrument, Side};
use crate::core::moment::Moment;
use crate::core::order::order_short;
use crate::core::pointer::{Criterion, Pointer, on_style, place_for_edge_m, place_for_trace_m};
use crate::core::shadow::axial_shadow_m;

/// Thicknesses offered, metres: a reed, a pencil, a finger, a broomstick, a post.
pub const THICKNESSES_M: [f64; 5] = [0.003, 0.008, Pointer::FINGER_M, 0.03, 0.06];
/// Most that the eye can be taken to need, as a part of the Sun's disc that is hidden.
pub const MOST_COVER: f64 = 0.3;
/// How far an arrow key slides the rod, metres.
const STEP_M: f64 = 0.001;
/// How many steps make a large one.
const LEAP: f64 = 20.0;

/// A rod, not yet checked against an instrument.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rod {
    /// Axial coordinate of its middle, metres.
    pub axial_m: f64,
    /// Its thickness, metres.
    pub diameter_m: f64,
}

impl Rod {
    /// A finger held where the middle of its shadow lies on the edge of the quadrant.
    #[must_use]
    pub fn at_start(instrument: &Instrument, moment: &Moment) -> Self {
        let rod = Self { axial_m: 0.0, diameter_m: Pointer::FINGER_M };
        let Some(edge) = edge_in_reach(instrument, moment) else { return rod };
        let place = rod.place_m(instrument, moment, edge, Criterion::Middle, 0.0);
        place.map_or(rod, |axial_m| Self { axial_m, ..rod })
    }

    /// The pointer it makes on an instrument.
    ///
    /// # Errors
    /// When it is not on the style, or not a rod.
    pub fn pointer(&self, instrument: &Instrument) -> Result<Pointer, FieldError> {
        Pointer::new(instrument, self.axial_m, self.diameter_m)
    }

    /// The rod slid along the style, no farther than its ends. Values are axial millimetres.
    #[must_use]
    pub fn moved(self, instrument: &Instrument, by: Move) -> Self {
        let (south, north) = style_ends_m(instrument);
        let axial_m = match by {
            Move::To(millimetres) => millimetres / 1000.0,
            Move::Steps(steps) => self.axial_m + f64::from(steps) * STEP_M,
            Move::Leaps(leaps) => self.axial_m + f64::from(leaps) * LEAP * STEP_M,
            Move::First => south,
            Move::Last => north,
        };
        Self { axial_m: axial_m.clamp(south, north), ..self }
    }

    /// The edge of the quadrant that the middle of the rod's shadow is nearest to: the one whose
    /// scale is read.
    #[must_use]
    pub fn edge(&self, instrument: &Instrument, moment: &Moment) -> AxialEnd {
        let declination_rad = moment.on_dial.declination_rad;
        let shadow_m = axial_shadow_m(instrument, side(moment), self.axial_m, declination_rad);
        let off = |edge: AxialEnd| (instrument.quadrant_edge_m(edge) - shadow_m).abs();
        if off(AxialEnd::North) <= off(AxialEnd::South) { AxialEnd::North } else { AxialEnd::South }
    }

    /// The rod held so that its shadow is at the nearest edge within reach, by a criterion;
    /// `None` when the style reaches neither edge, or the eye sees no trace of the shadow.
    #[must_use]
    pub fn at_edge(
        self,
        instrument: &Instrument,
        moment: &Moment,
        criterion: Criterion,
        least_cover: f64,
    ) -> Option<Self> {
        let nearest = self.edge(instrument, moment);
        let mut edges = AxialEnd::BOTH;
        order_short(&mut edges, |&a, &b| a == nearest && b != nearest);
        let place = |edge| self.place_m(instrument, moment, edge, criterion, least_cover);
        let axial_m = edges.into_iter().find_map(place)?;
        Some(Self { axial_m, ..self })
    }

    /// Where on the style this rod has to be held, axial metres; `None` where there is no style,
    /// or when the eye sees no trace of the shadow. `least_cover` (0 to 1) is the part of the
    /// Sun's disc that has to be hidden for the eye to see it.
    #[must_use]
    pub fn place_m(
        &self,
        instrument: &Instrument,
        moment: &Moment,
        edge: AxialEnd,
        criterion: Criterion,
        least_cover: f64,
    ) -> Option<f64> {
        let (side, sun) = (side(moment), moment.on_dial);
        let size = (moment.sun.semidiameter_rad, self.diameter_m);
        let axial_m = match criterion {
            Criterion::Middle => place_for_edge_m(instrument, side, edge, criterion, sun, size),
            Criterion::LastTrace if !self.is_seen(instrument, moment, least_cover) => return None,
            Criterion::LastTrace => {
                let disc = moment.disc();
                place_for_trace_m(instrument, side, edge, least_cover, &disc, self.diameter_m)
            }
        };
        on_style(instrument, axial_m).then_some(axial_m)
    }

    /// Whether the eye sees the darkest part of the shadow.
    #[must_use]
    pub fn is_seen(&self, instrument: &Instrument, moment: &Moment, least_cover: f64) -> bool {
        let Ok(pointer) = self.pointer(instrument) else { return false };
        let shadow = pointer.shadow(instrument, side(moment), &moment.disc());
        shadow.peak_cover > least_cover
    }
}

/// The side on which the rod's shadow falls.
#[must_use]
pub fn side(moment: &Moment) -> Side {
    Side::at_hour_angle(moment.on_dial.hour_angle_rad)
}

/// The edge of the quadrant that a rod on the style can reach today: of two, the one for which
/// it is held nearer to the middle of the style.
#[must_use]
pub fn edge_in_reach(instrument: &Instrument, moment: &Moment) -> Option<AxialEnd> {
    let (south, north) = style_ends_m(instrument);
    let middle = (south + north) / 2.0;
    let finger = Rod { axial_m: 0.0, diameter_m: Pointer::FINGER_M };
    let place = |edge| finger.place_m(instrument, moment, edge, Criterion::Middle, 0.0);
    AxialEnd::BOTH
        .into_iter()
        .filter_map(|edge| Some((edge, place(edge)?)))
        .min_by(|a, b| (a.1 - middle).abs().total_cmp(&(b.1 - middle).abs()))
        .map(|(edge, _)| edge)
}

/// South and north end of the style, axial metres.
#[must_use]
pub fn style_ends_m(instrument: &Instrument) -> (f64, f64) {
    (instrument.style_end_m(AxialEnd::South), instrument.style_end_m(AxialEnd::North))
}
