//! The pure core: time, sky, instrument, shadow and reading. No clock, no input or output.
