//! Which piece of the quadrants the lens shows, and where a time lies in it.

use super::LensView;
use crate::core::instrument::{Instrument, Side};
use crate::core::moment::Moment;
use crate::core::reading::{NOON_S, QUADRANT_ENDS_RAD, shown_at};
use crate::scene::drawing::Typeface;
use crate::scene::lettering::text_width;

/// Smallest divisions in the view, before its limits.
const DIVISIONS_IN_VIEW: f64 = 22.0;
/// Shortest and longest stretch of time in the view, seconds.
const SPAN_S: (f64, f64) = (3.5 * 60.0, 22.0 * 60.0);
/// Least breadth of the wall as drawn, and what is left beside its name, in label sizes.
const WALL_LABELS: f64 = 2.6;
const BESIDE_NAME_LABELS: f64 = 0.4;

/// A view of both quadrants as one band, the wall standing between their feet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Window {
    /// The quadrant in the middle of the view.
    pub side: Side,
    /// Pixels in a second of time.
    pub px_per_s: f64,
    width_px: f64,
    /// West side of the wall.
    wall_left_px: f64,
    wall_breadth_px: f64,
    west: Piece,
    east: Piece,
}

/// What is cut on one quadrant.
#[derive(Clone, Copy, Debug)]
struct Piece {
    /// Time shown at the foot, seconds since midnight.
    foot_s: f64,
    /// Time shown at the upper end.
    end_s: f64,
}

impl Piece {
    fn new(instrument: &Instrument, side: Side) -> Self {
        let end_rad = match side {
            Side::West => QUADRANT_ENDS_RAD.0,
            Side::East => QUADRANT_ENDS_RAD.1,
        };
        let shown = |angle| shown_at(instrument, side, angle);
        Self { foot_s: shown(0.0), end_s: shown(end_rad) }
    }

    /// The nearest time that is on the quadrant.
    fn nearest_s(&self, time_s: f64) -> f64 {
        time_s.clamp(self.foot_s.min(self.end_s), self.foot_s.max(self.end_s))
    }
}

impl Window {
    pub(super) fn new(instrument: &Instrument, moment: &Moment, view: &LensView<'_>) -> Self {
        let span_s = span_s(instrument);
        let width_px = view.size.x.max(1.0);
        let px_per_s = width_px / span_s;
        let name_px = text_width(view.words.say("lens.wall"), Typeface::Sans, view.label_px);
        let wall_breadth_px =
            (WALL_LABELS * view.label_px).max(name_px + BESIDE_NAME_LABELS * view.label_px);
        let pieces = Side::BOTH.map(|side| Piece::new(instrument, side));
        let [west, east] = pieces;
        let (side, centre_s) = centre(instrument, moment, view);
        let piece = if side == Side::West { west } else { east };
        let from_foot_px = (piece.nearest_s(centre_s) - piece.foot_s) * px_per_s;
        // Half way through noon the middle of the wall is in the middle of the view.
        let wall_passed = ((centre_s - NOON_S) / (span_s / 2.0) + 0.5).clamp(0.0, 1.0);
        let wall_left_px = width_px / 2.0 - from_foot_px - wall_passed * wall_breadth_px;
        Self { side, px_per_s, width_px, wall_left_px, wall_breadth_px, west, east }
    }

    fn piece(&self, side: Side) -> Piece {
        match side {
            Side::West => self.west,
            Side::East => self.east,
        }
    }

    /// Time shown at a quadrant's foot, seconds since midnight.
    pub(super) fn foot_s(&self, side: Side) -> f64 {
        self.piece(side).foot_s
    }

    /// Time shown at a quadrant's upper end, seconds since midnight.
    pub(super) fn end_s(&self, side: Side) -> f64 {
        self.piece(side).end_s
    }

    /// West and east side of the wall, CSS pixels.
    pub(super) fn wall_px(&self) -> (f64, f64) {
        (self.wall_left_px, self.wall_left_px + self.wall_breadth_px)
    }

    /// Where a quadrant's foot stands.
    fn foot_px(&self, side: Side) -> f64 {
        match side {
            Side::West => self.wall_px().0,
            Side::East => self.wall_px().1,
        }
    }

    /// Where a time is cut on a quadrant, CSS pixels.
    pub(super) fn px(&self, side: Side, shown_s: f64) -> f64 {
        self.foot_px(side) + (shown_s - self.piece(side).foot_s) * self.px_per_s
    }

    /// First and last time cut on a quadrant that is in view, seconds since midnight.
    pub(super) fn visible_s(&self, side: Side) -> Option<(f64, f64)> {
        let Piece { foot_s, end_s } = self.piece(side);
        let at = |px: f64| foot_s + (px - self.foot_px(side)) / self.px_per_s;
        let from_s = at(0.0).max(foot_s.min(end_s));
        let to_s = at(self.width_px).min(foot_s.max(end_s));
        (from_s < to_s).then_some((from_s, to_s))
    }
}

/// Stretch of time across the view, seconds.
pub(super) fn span_s(instrument: &Instrument) -> f64 {
    let divisions = DIVISIONS_IN_VIEW * f64::from(instrument.graduation().smallest_s());
    divisions.clamp(SPAN_S.0, SPAN_S.1)
}

/// The middle of the view: on which quadrant, and at what time shown there.
fn centre(instrument: &Instrument, moment: &Moment, view: &LensView<'_>) -> (Side, f64) {
    if let Some(centre_s) = view.centre_s.filter(|centre_s| centre_s.is_finite()) {
        return (Side::at_hour_angle(centre_s - NOON_S), centre_s);
    }
    let side = Side::at_hour_angle(moment.on_dial.hour_angle_rad);
    (side, shown_at(instrument, side, moment.on_dial.hour_angle_rad))
}
