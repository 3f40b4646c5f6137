//! What the browser has to tell the page's first program.

use super::pictures::Picture;
use super::save::Format;
use super::surface::Size;
use crate::page::message::Message;
use crate::words::Words;

/// Something the browser has to tell.
#[derive(Debug)]
pub(super) enum Signal {
    /// The reader asks for something.
    Ask(Message),
    /// A canvas has got another size.
    Size(Picture, Size),
    /// The page has come into sight, or gone.
    InSight(bool),
    /// The lens was dragged by so many CSS pixels.
    DragLens(f64),
    /// A language has come, or has not; by its tag.
    Language(String, Option<Words>),
    /// A field has been left: it shows again what is.
    LeftField,
    /// An instrument is chosen from the list.
    Instrument(String),
    /// A picture is to be saved; without a name, the one beside the court.
    Save(Option<Picture>, Format),
    /// The help is to be opened, or has been read.
    Help(bool),
    /// The address is to be written at once.
    TellAddress,
}
