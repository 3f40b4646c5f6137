//! What the browser has to tell of a tour.

use crate::page::tour::bench::Text;
use crate::page::tour::run::Step;

/// Which tour the panel shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::web::desk) enum Whose {
    /// The speaker's own.
    Own,
    /// The one that comes with the project.
    Shipped,
}

/// What a button of a stop asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::web::desk) enum Act {
    /// To show it, and to edit it.
    Open,
    /// To come earlier.
    Earlier,
    /// To come later.
    Later,
    /// To show another moment, the one of the page.
    Retake,
    /// To go.
    Delete,
}

impl Act {
    /// All of them.
    const ALL: [Self; 5] = [Self::Open, Self::Earlier, Self::Later, Self::Retake, Self::Delete];

    /// Its name in the markup.
    pub(super) fn key(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Earlier => "earlier",
            Self::Later => "later",
            Self::Retake => "retake",
            Self::Delete => "delete",
        }
    }

    /// Finds one by its name.
    pub(super) fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|act| act.key() == key)
    }
}

/// Something the browser has to tell.
#[derive(Clone, Debug)]
pub(in crate::web::desk) enum Signal {
    /// The panel is to be opened, or put away.
    Open(bool),
    /// The panel is to be made small, or large again.
    Fold,
    /// The panel is to show another tour.
    Show(Whose),
    /// A button of a stop is pressed.
    Act(usize, Act),
    /// A text is typed.
    Write(Text, String),
    /// A stop's time is typed.
    Seconds(usize, String),
    /// The clock is to run at a stop, or not.
    Plays(usize, bool),
    /// A stop is to cover the reading, or not.
    Asks(usize, bool),
    /// The page's moment becomes a stop.
    Record,
    /// The last change is to be taken back.
    Undo,
    /// The tour is to be handed over as a file.
    Export,
    /// A file has been read.
    Import(String),
    /// A file is too large to be read.
    TooLarge,
    /// The shipped tour's stops come to the speaker's own.
    Copy,
    /// A projector's window was asked for; whether the browser has opened it.
    Projector(bool),
    /// The tour shown is to be run.
    Run,
    /// The tour that ran before the page was loaded again is to go on.
    Resume,
    /// Another language was chosen in another window.
    Speak,
    /// A step through it.
    Step(Step),
    /// Its time is to stand still, or to go on.
    Hold,
    /// The notes are to be shown, or hidden.
    Notes,
    /// It is over.
    End,
    /// Another window says something.
    Heard(String),
    /// A hand is at this window.
    Touched,
    /// Another window has changed the tour that is kept.
    Kept,
    /// What the browser shows of the page has changed.
    Screen,
}
