//! The pure core: time, sky, instrument, shadow and reading. No clock, no input or output.

pub mod dial;
pub mod field;
pub mod instrument;
pub mod ladder;
pub mod moment;
pub mod penumbra;
pub mod pointer;
pub mod reading;
pub mod shadow;
