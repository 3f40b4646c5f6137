//! What the browser has to tell the desk.

use glam::DVec2;

use crate::page::prepare::Ask;
use crate::web::surface::Size;

/// A picture of the desk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Picture {
    /// The year in curves.
    Year,
    /// The instruments side by side.
    Sizes,
}

/// Something the browser has to tell.
#[derive(Clone, Debug)]
pub(super) enum Signal {
    /// The page's address is another.
    Address,
    /// A canvas has got another size.
    Size(Picture, Size),
    /// The instruments are to be set side by side, or have been.
    Sizes(bool),
    /// Something is asked of the sheets that prepare a day.
    Prepare(Ask),
    /// The day under a point of the year's curves is to be read, CSS pixels.
    Point(DVec2),
    /// The sheets are to do what only a browser can.
    Sheets(Act),
    /// Something of a tour.
    Tour(super::tour::Signal),
}

/// What a browser does with the sheets.
#[derive(Clone, Copy, Debug)]
pub(super) enum Act {
    /// Puts them away.
    Close,
    /// Prints the one on top.
    Print,
    /// Saves the year.
    Csv,
    /// Goes to the day that is read.
    Go,
}
