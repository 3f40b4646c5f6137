//! When things happen in the sky: the day's rise, transit and set, the seasons, a given hour angle.

mod day_events;
mod hour_angle;
mod root;
mod seasons;

pub use day_events::{DayEvents, Daylight, STANDARD_ALTITUDE_RAD, day_events};
pub use hour_angle::instant_at_hour_angle;
pub use seasons::{Season, SeasonKind, seasons};
