//! Instants, the Earth's rotation, and the times of day people keep.
//!
//! # What an instant means
//!
//! An [`Instant`] counts milliseconds as Unix time does: every day has 86 400 s. Which scale it
//! belongs to depends on its date, and [`TimeScale::Civil`] turns it into the two scales the sky
//! needs, UT1 (the Earth's rotation) and TT (the uniform time of the ephemeris):
//!
//! | dates | the instant is | UT1 | TT |
//! | --- | --- | --- | --- |
//! | 1972-01-01 to 2026-12-31 | UTC | UTC | UTC + leap seconds + 32.184 s |
//! | all others, 1700 to 2200 | UT1 | itself | UT1 + ΔT, see [`delta_t_s`] |
//!
//! Before 1972 there was no UTC of today's kind, and after 2026 no leap second is known, so no
//! UTC can be named in advance. In the UTC years UT1 is taken equal to UTC, since the measured
//! difference is not carried here. **This costs up to 0.9 s of time**: an hour angle may be wrong
//! by up to 13.5″ and a computed transit, rise or set by up to 0.9 s. Where the difference is
//! known, [`TimeScale::KnownDeltaT`] takes it.
//!
//! TDB, the argument of the ephemeris, is taken equal to TT: they differ by less than 2 ms, which
//! moves the Sun by less than 0.0001″.
//!
//! The calendar is Gregorian at all dates.

mod civil_offset;
mod delta_t;
mod earth_time;
mod error;
mod instant;
mod iso;
mod leap_seconds;
mod scale;
mod zone_table;

pub use civil_offset::CivilOffset;
pub use delta_t::{decimal_year, delta_t_s};
pub use earth_time::EarthTime;
pub use error::TimeError;
pub use instant::Instant;
pub use leap_seconds::{UTC_BEGIN, UTC_END, tt_minus_utc_s};
pub use scale::TimeScale;
pub use zone_table::ZoneTable;

/// Seconds in a day.
pub const SECONDS_PER_DAY: f64 = 86_400.0;

/// The Julian date of 1970-01-01T00:00, from which Unix time counts.
pub const UNIX_EPOCH_JD: f64 = 2_440_587.5;
