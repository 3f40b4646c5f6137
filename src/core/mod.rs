//! The pure core: time, sky, instrument, shadow and reading. No clock, no input or output.

pub mod almanac;
pub mod day;
pub mod day_card;
pub mod decimal;
pub mod dial;
pub mod error_budget;
pub mod field;
pub mod instrument;
pub mod json;
pub mod ladder;
pub mod light;
pub mod moment;
pub mod noon;
pub mod order;
pub mod penumbra;
pub mod pointer;
pub mod reading;
pub mod resolution;
pub mod shadow;
pub mod sky;
pub mod time;
pub mod year;
pub mod year_table;
