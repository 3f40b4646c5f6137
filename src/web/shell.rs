//! Between the browser and the page: what listeners note is done in the next frame, in order.
//!
//! Listeners only note signals. The frame takes the page out of its cell, does everything and
//! puts it back, so that nothing is borrowed while JavaScript runs.

use std::cell::{Cell, RefCell};
use std::rc::{Rc, Weak};

use glam::DVec2;
use wasm_bindgen::JsValue;

use super::app::App;
use super::bind::{self, Bindings};
use super::frame::Frame;
use super::pictures::Picture;
use super::save::Format;
use super::surface::Size;
use crate::page::message::Message;
use crate::page::prepare::Ask;
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
    /// The instruments are to be set side by side, or have been.
    Sizes(bool),
    /// Something is asked of the sheets that prepare a day.
    Prepare(Ask),
    /// The day under a point of the year's curves is to be read, CSS pixels.
    Point(DVec2),
    /// The sheets are to do what only a browser can.
    Sheets(Act),
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

/// The running page.
pub(super) struct Shell {
    signals: RefCell<Vec<Signal>>,
    app: Cell<Option<Box<App>>>,
    frame: Frame,
    bindings: Cell<Option<Bindings>>,
}

thread_local! {
    /// Keeps the page running for as long as the document is there.
    static RUNNING: Cell<Option<Rc<Shell>>> = const { Cell::new(None) };
}

impl Shell {
    /// Builds the page and shows its first frame.
    pub(super) fn start(tag: &str, words: Words) -> Result<(), JsValue> {
        let app = Box::new(App::new(tag, words)?);
        let shell = Rc::new_cyclic(|weak: &Weak<Self>| {
            let weak = weak.clone();
            let run = move |now_ms| {
                if let Some(shell) = weak.upgrade() {
                    shell.run(now_ms);
                }
            };
            Self {
                signals: RefCell::default(),
                app: Cell::new(Some(app)),
                frame: Frame::new(run),
                bindings: Cell::new(None),
            }
        });
        shell.bindings.set(Some(bind::everything(&Notes(Rc::downgrade(&shell)))?));
        shell.frame.request();
        RUNNING.set(Some(shell));
        Ok(())
    }

    /// One frame.
    fn run(&self, now_ms: f64) {
        self.frame.has_come();
        // Taken, not borrowed; after a panic it stays away and the page stands still.
        let Some(mut app) = self.app.take() else { return };
        let signals = self.signals.take();
        let more = app.frame(now_ms, signals);
        self.app.set(Some(app));
        if more {
            self.frame.request();
        }
    }
}

/// Where listeners note signals.
#[derive(Clone)]
pub(super) struct Notes(Weak<Shell>);

impl Notes {
    /// Notes a signal for the next frame.
    pub(super) fn note(&self, signal: Signal) {
        if let Some(shell) = self.0.upgrade() {
            if let Ok(mut signals) = shell.signals.try_borrow_mut() {
                signals.push(signal);
            }
            shell.frame.request();
        }
    }

    /// Notes a wish of the reader.
    pub(super) fn ask(&self, message: Message) {
        self.note(Signal::Ask(message));
    }
}
