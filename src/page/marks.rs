//! Where the marks on the pictures stand: while none has moved visibly, nothing need be drawn.

use chrono::NaiveDate;
use glam::{DVec2, DVec3};

use super::dirty::Dirty;
use super::workings::Workings;
use crate::scene::axis::Axis;

/// Parts of a pixel by which a mark has to move to be seen moving.
const PARTS_OF_PIXEL: f64 = 4.0;
/// Below this sine of its altitude the Sun is so low that shadows run over the paving fast and
/// every frame is drawn.
const LOW_SUN: f64 = 0.05;
/// Steps smaller than this on the court pass for slow motion, CSS pixels.
const CREEP_PX: f64 = 0.6;

/// The marks of the court and of both strips.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Marks {
    /// Direction of the Sun when the court was drawn, and how far a shadow on it can move for a
    /// radian of the Sun's, CSS pixels.
    sun: DVec3,
    px_per_rad: f64,
    /// What stands on the court's labels: the reading, and the Sun's altitude in arcminutes.
    labels: (Option<u32>, i64),
    day: (NaiveDate, i64),
    year: (NaiveDate, i64),
}

impl Marks {
    /// Where they stand at the moment worked out. `court` is the size of the court's picture,
    /// CSS pixels; the axis is the day strip's.
    #[must_use]
    pub fn at(workings: &Workings, court: DVec2, zoom: f64, day_axis: &Axis) -> Self {
        let (now, moment) = (workings.now(), workings.moment());
        let day_px = day_axis.px(now.seconds) * PARTS_OF_PIXEL;
        let seen = &moment.sun.seen;
        // The shadow of a point at height h moves by h / sin² a for a radian of altitude a; the
        // instrument takes about a third of the picture's width.
        let sine = seen.altitude_rad.sin().abs().max(LOW_SUN);
        let px_per_rad = court.x * zoom * (0.3 / (sine * sine)).max(0.5);
        Self {
            sun: seen.vector,
            px_per_rad,
            labels: (moment.reading.as_ref().ok().map(|it| it.shown_s), arcmin(seen.altitude_rad)),
            // Pixels are far below the range of i64.
            day: (workings.day().date, day_px.round() as i64),
            year: (now.date, arcmin(moment.sun.sun.declination_rad)),
        }
    }

    /// Whether all that has moved since the court was last to be drawn has moved by less than can
    /// be seen to hop.
    #[must_use]
    pub fn creep_to(&self, now: &Self) -> bool {
        let moved_px = self.sun.distance(now.sun) * now.px_per_rad;
        moved_px < CREEP_PX && self.day.0 == now.day.0
    }

    /// The pictures that have to be drawn again, and the marks as they stand on them then.
    #[must_use]
    pub fn moved_to(&self, now: Self) -> (Dirty, Self) {
        let moved_px = self.sun.distance(now.sun) * now.px_per_rad;
        let court = moved_px * PARTS_OF_PIXEL >= 1.0 || self.labels != now.labels;
        let when = |moved: bool, dirty| if moved { dirty } else { Dirty::NOTHING };
        let dirty = when(court, Dirty::COURT)
            | when(self.day != now.day, Dirty::DAY)
            | when(self.year != now.year, Dirty::YEAR);
        let drawn = if court { now } else { Self { day: now.day, year: now.year, ..*self } };
        (dirty, drawn)
    }
}

/// An angle in whole minutes of arc.
fn arcmin(angle_rad: f64) -> i64 {
    // Angles are far below the range of i64.
    (angle_rad.to_degrees() * 60.0).round() as i64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::state::Shown;

    /// Marks so many seconds after a first visit's moment, on a court 876 pixels wide.
    fn after(seconds: f64) -> Marks {
        let mut shown = Shown::first();
        shown.instant = shown.instant.saturating_plus_seconds(seconds);
        let Ok(workings) = Workings::new(&shown) else { panic!("a first visit") };
        let axis = Axis::along_strip((18_000.0, 68_400.0), 1000.0);
        Marks::at(&workings, DVec2::new(876.0, 516.0), 1.0, &axis)
    }

    #[test]
    fn a_second_moves_nothing_that_can_be_seen_and_a_minute_moves_the_shadow() {
        let (dirty, drawn) = after(0.0).moved_to(after(1.0));
        assert_eq!((dirty, drawn.sun), (Dirty::NOTHING, after(0.0).sun));
        let (dirty, drawn) = after(0.0).moved_to(after(60.0));
        assert!(dirty.has(Dirty::COURT) && dirty.has(Dirty::DAY) && !dirty.has(Dirty::YEAR));
        assert_eq!(drawn, after(60.0));
    }

    #[test]
    fn small_steps_add_up() {
        let mut drawn = after(0.0);
        let mut times = 0;
        for second in 1..=60 {
            let (dirty, next) = drawn.moved_to(after(f64::from(second)));
            drawn = next;
            times += u32::from(dirty.has(Dirty::COURT));
        }
        assert!((5..30).contains(&times), "the court was drawn {times} times in a minute");
    }
}
