//! The pure core: time, sky, instrument, shadow and reading. No clock, no input or output.

pub mod almanac;
pub mod sky;
pub mod time;
