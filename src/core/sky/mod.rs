//! The Sun's place, seen from the Earth's centre and from a site.
//!
//! [`apparent_sun`] computes it from the standards of the IAU; [`SunTrack`] gives the same answer
//! faster by interpolation, [`SunGrid`] for every day of a year. [`sun_at_site`] brings it to a [`Site`] and through its [`Air`].

mod air;
pub(crate) mod angle;
mod apparent_sun;
mod direction;
mod earth;
mod earth_series;
mod equation_of_time;
mod site;
mod sun_at_site;
mod sun_grid;
mod sun_track;

pub use air::{Air, refraction_rad};
pub use apparent_sun::{
    ApparentSun, SEMIDIAMETER_AT_1_AU_RAD, apparent_longitude_rad, apparent_sun, obliquity_rad,
};
pub use direction::Direction;
pub use equation_of_time::EquationOfTime;
pub use site::Site;
pub use sun_at_site::{SunAtSite, sun_at_site};
pub use sun_grid::SunGrid;
pub use sun_track::SunTrack;
