//! What the browser has to tell the desk.

use glam::DVec2;

use crate::page::answers::Question;
use crate::page::prepare::Ask;
use crate::web::surface::Size;
use crate::words::Words;

/// A picture of the desk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Picture {
    /// The year in curves.
    Year,
    /// The instruments side by side.
    Sizes,
    /// The code of the link.
    Code,
}

/// Something the browser has to tell.
#[derive(Clone, Debug)]
pub(super) enum Signal {
    /// The page's language has come, or has not.
    Language(Option<Words>),
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
    /// The answers are to be opened, or put away.
    Answers(bool),
    /// A question is asked, or put away.
    Question(Question),
    /// What was shown before the first question is to be shown again.
    BackFromAnswers,
    /// The link is to be shown, or put away.
    Share(bool),
    /// Something is to be done with the link.
    Link(Link),
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

/// What is done with the link.
#[derive(Clone, Copy, Debug)]
pub(super) enum Link {
    /// It is copied.
    Copy,
    /// The browser has copied it, or has refused.
    Copied(bool),
    /// The system is asked to share it.
    Share,
    /// Its code is saved as a file.
    Save,
}
