//! Scenes: the simulator's state turned into drawing lists. No browser here.

pub mod axis;
pub mod camera;
pub mod caption;
#[cfg(test)]
mod checks;
pub mod court;
pub mod day_strip;
pub mod drawing;
pub mod extent;
pub mod guide;
pub mod lens;
pub mod lettering;
pub mod noon;
pub mod numerals;
pub mod palette;
pub mod scale;
pub mod sizes;
mod stone_light;
pub mod strip;
mod texture;
pub mod year_plots;
pub mod year_strip;
