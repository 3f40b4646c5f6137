//! The rod held on the style to read the declination: where it is, and where it may go.

use super::keys::Move;
use crate::core::field::FieldError;
use crate::core::instrument::{AxialEnd, Instrument, Side};
use crate::core::moment::Moment;
use crate::core::pointer::{Criterion, Pointer, on_style, place_for_edge_m};

/// Thicknesses offered, metres: a reed, a pencil, a finger, a broomstick, a post.
pub const THICKNESSES_M: [f64; 5] = [0.003, 0.008, Pointer::FINGER_M, 0.03, 0.06];
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
        rod.at_edge(instrument, moment, Criterion::Middle).unwrap_or(rod)
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

    /// The rod held so that its shadow is at the edge within reach, by a criterion; `None` when
    /// the style reaches neither edge.
    #[must_use]
    pub fn at_edge(
        self,
        instrument: &Instrument,
        moment: &Moment,
        criterion: Criterion,
    ) -> Option<Self> {
        let edge = edge_in_reach(instrument, moment)?;
        let axial_m = self.place_m(instrument, moment, edge, criterion);
        on_style(instrument, axial_m).then_some(Self { axial_m, ..self })
    }

    /// Where on the style this rod would have to be held, axial metres.
    #[must_use]
    pub fn place_m(
        &self,
        instrument: &Instrument,
        moment: &Moment,
        edge: AxialEnd,
        criterion: Criterion,
    ) -> f64 {
        let sun = (moment.sun.semidiameter_rad, self.diameter_m);
        place_for_edge_m(instrument, side(moment), edge, criterion, moment.on_dial, sun)
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
    AxialEnd::BOTH
        .into_iter()
        .map(|edge| (edge, finger.place_m(instrument, moment, edge, Criterion::Middle)))
        .filter(|&(_, place_m)| on_style(instrument, place_m))
        .min_by(|a, b| (a.1 - middle).abs().total_cmp(&(b.1 - middle).abs()))
        .map(|(edge, _)| edge)
}

/// South and north end of the style, axial metres.
#[must_use]
pub fn style_ends_m(instrument: &Instrument) -> (f64, f64) {
    (instrument.style_end_m(AxialEnd::South), instrument.style_end_m(AxialEnd::North))
}
