//! Noonwedge: a teaching simulator of the masonry equatorial sundial.
//!
//! Five storeys; an arrow only ever points down:
//!
//! - `web` (browser only): binds the page's elements, runs the animation clock.
//! - [`page`]: the page's state, its messages, its address and its words; pure.
//! - [`paint`]: a drawing list to a canvas, or to SVG text.
//! - [`scene`]: the simulator's state to a drawing list.
//! - [`core`]: time, sky, instrument, shadow, reading; pure, no clock, no I/O.
//!
//! # Frames, signs and units
//!
//! - The **site frame** is right-handed, in metres: `x` east, `y` north, `z` up.
//! - Latitude is positive north, longitude positive east, declination positive north.
//! - **Hour angle** is positive west, zero on the upper meridian, in (−π, π].
//! - Azimuth runs from north through east, in [0, 2π).
//! - The **dial axes** are unit vectors in the site frame: `E` east, `M` where the celestial
//!   equator crosses the upper meridian, `P` the north celestial pole. A body at hour angle H and
//!   declination δ stands at `cos δ cos H · M − cos δ sin H · E + sin δ · P`, in both hemispheres.
//! - Angles are radians inside and carry `_rad`; at the edges degrees (`_deg`). Lengths are metres
//!   (`_m`), durations seconds (`_s`).
//! - Drawings are in CSS pixels, `x` right, `y` down, origin at the top left.

pub mod core;
pub mod page;
pub mod paint;
pub mod scene;
#[cfg(target_arch = "wasm32")]
pub mod web;
pub mod words;
