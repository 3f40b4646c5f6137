//! Everything that can be asked of the page.

use glam::DVec2;

use super::choice::Choice;
use super::edit::Edit;
use super::history::Gesture;
use super::keys::{CameraKey, Move};
use super::speed::Speed;
use super::travel::Way;
use crate::core::ladder::Rounding;
use crate::core::light::LimbDarkening;
use crate::core::pointer::Criterion;
use crate::core::time::Instant;
use crate::scene::camera::Standpoint;
use crate::scene::guide::Guide;
use crate::scene::palette::Theme;

/// One wish of the person at the page, or of the browser.
#[derive(Clone, Debug, PartialEq)]
pub enum Message {
    /// Show what an address says.
    Address(String),
    /// Show another instrument, at the same date and local apparent time.
    Instrument(Choice),
    /// Change the instrument, or do something with it.
    Edit(Edit),
    /// Let the air bend the light, or not.
    Refraction(bool),
    /// Let the Sun's disc be this bright towards its limb.
    Limb(LimbDarkening),
    /// Round the corrections so.
    Round(Rounding),
    /// Use these colours.
    Theme(Theme),
    /// Play at this speed.
    Speed(Speed),
    /// Play, or pause.
    PlayPause,
    /// Go to the present, and follow it.
    Now(Instant),
    /// Open the slow pass through noon.
    PassNoon,
    /// Close it.
    CloseNoon,
    /// Move the handle of the day strip; values are local apparent time in seconds.
    Day(Move),
    /// Move the handle of the year strip; values are days of the year from 1.
    Year(Move),
    /// Go to an equinox or a solstice, 0 to 3 in the order of the year.
    Season(usize),
    /// Go to a date typed as `YYYY-MM-DD`, at the same clock time.
    TypedDate(String),
    /// Go to a clock time typed as `HH:MM:SS`, on the same date.
    TypedTime(String),
    /// See the court from here.
    Standpoint(Standpoint),
    /// Turn the camera, radians to the right and upwards.
    Orbit(DVec2),
    /// Let the camera go on turning with this speed, radians a second; at rest with none.
    Coast(DVec2),
    /// Bring the court nearer by a factor, about a point given from the middle of the picture as
    /// a share of its size.
    Zoom(f64, DVec2),
    /// Turn or zoom by key.
    CameraKey(CameraKey),
    /// Lay a guide over the court, or take it away.
    Guide(Guide, bool),
    /// Move the lens; values are local apparent time in seconds.
    Lens(Move),
    /// Mark the limits of the soft edge in the lens, or not.
    Limits(bool),
    /// Let the lens follow the shadow's edge.
    LensHome,
    /// Hold a rod on the style, or take it away.
    Rod(bool),
    /// Slide the rod; values are axial millimetres.
    RodTo(Move),
    /// Hold a rod of another thickness, metres.
    RodThickness(f64),
    /// Set what the eye sees of a shadow; values are parts of the Sun's disc hidden, per cent.
    LeastCover(Move),
    /// Hold the rod where its shadow is at the edge, by a criterion.
    RodAt(Criterion),
    /// Travel, or stay at home.
    Travel(bool),
    /// Go along the meridian; values are degrees of latitude.
    TravelTo(Move),
    /// Go to a typed latitude.
    TravelTyped(String),
    /// Go home.
    TravelHome,
    /// Travel in this way.
    TravelBy(Way),
    /// Present, or return to the whole page.
    Present(bool),
    /// Take the last step back.
    Undo,
    /// A gesture has ended.
    Settle,
    /// Some time has passed, seconds; and what the clock shows.
    Tick(f64, Instant),
    /// Put the messages away.
    Dismiss,
    /// Keep motion to a minimum, or not.
    ReduceMotion(bool),
}

impl Message {
    /// The gesture of which this may be one small part.
    #[must_use]
    pub fn gesture(&self) -> Option<Gesture> {
        match self {
            Self::Day(_) => Some(Gesture::Day),
            Self::Year(_) => Some(Gesture::Year),
            Self::Lens(_) => Some(Gesture::Lens),
            Self::RodTo(_) => Some(Gesture::Rod),
            Self::TravelTo(_) => Some(Gesture::Travel),
            Self::LeastCover(_) => Some(Gesture::LeastCover),
            Self::Edit(edit) => edit.field().map(Gesture::Field),
            Self::Orbit(_) | Self::Zoom(..) => Some(Gesture::Court),
            Self::CameraKey(CameraKey::Turn(..) | CameraKey::Zoom(_)) => Some(Gesture::Court),
            _ => None,
        }
    }

    /// Whether undo should be able to take it back.
    #[must_use]
    pub fn can_be_undone(&self) -> bool {
        !matches!(
            self,
            Self::Undo
                | Self::Settle
                | Self::Coast(_)
                | Self::Tick(..)
                | Self::Dismiss
                | Self::ReduceMotion(_)
        )
    }
}
