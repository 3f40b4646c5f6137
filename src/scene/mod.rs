//! Scenes: the simulator's state turned into drawing lists. No browser here.

pub mod camera;
pub mod court;
pub mod drawing;
pub mod palette;
