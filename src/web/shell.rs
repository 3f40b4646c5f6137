//! Between the browser and a program of the page: what listeners note is done in the next frame, in
//! order.
//!
//! Listeners only note signals. The frame takes the program out of its cell, does everything and
//! puts it back, so that nothing is borrowed while JavaScript runs.

use std::any::Any;
use std::cell::{Cell, RefCell};
use std::rc::{Rc, Weak};

use wasm_bindgen::JsValue;

use super::binder::{Binder, Bindings};
use super::frame::Frame;

/// A program of the page.
pub(super) trait Program: 'static {
    /// What the browser has to tell it.
    type Signal;

    /// One frame; tells whether another is needed without anybody asking.
    fn frame(&mut self, now_ms: f64, signals: Vec<Self::Signal>) -> bool;
}

/// A running program.
pub(super) struct Shell<P: Program> {
    signals: RefCell<Vec<P::Signal>>,
    program: Cell<Option<Box<P>>>,
    frame: Frame,
    bindings: Cell<Option<Bindings>>,
}

thread_local! {
    /// Keeps the program running for as long as the document is there.
    static RUNNING: Cell<Option<Rc<dyn Any>>> = const { Cell::new(None) };
}

impl<P: Program> Shell<P> {
    /// Makes a program, binds it and shows its first frame.
    pub(super) fn start(
        make: impl FnOnce(Notes<P::Signal>) -> Result<P, JsValue>,
        bind: impl FnOnce(&mut Binder<P::Signal>) -> Result<(), JsValue>,
    ) -> Result<(), JsValue> {
        let shell = Rc::new_cyclic(|weak: &Weak<Self>| {
            let weak = weak.clone();
            let run = move |now_ms| {
                if let Some(shell) = weak.upgrade() {
                    shell.run(now_ms);
                }
            };
            Self {
                signals: RefCell::default(),
                program: Cell::new(None),
                frame: Frame::new(run),
                bindings: Cell::new(None),
            }
        });
        let noting = Rc::downgrade(&shell);
        let notes = Notes(Rc::new(move |signal| {
            if let Some(shell) = noting.upgrade() {
                shell.note(signal);
            }
        }));
        shell.program.set(Some(Box::new(make(notes.clone())?)));
        let mut binder = Binder::new(notes);
        bind(&mut binder)?;
        shell.bindings.set(Some(binder.bindings()));
        shell.frame.request();
        RUNNING.set(Some(shell));
        Ok(())
    }

    fn note(&self, signal: P::Signal) {
        if let Ok(mut signals) = self.signals.try_borrow_mut() {
            signals.push(signal);
        }
        self.frame.request();
    }

    /// One frame.
    fn run(&self, now_ms: f64) {
        self.frame.has_come();
        // Taken, not borrowed; after a panic it stays away and the page stands still.
        let Some(mut program) = self.program.take() else { return };
        let signals = self.signals.take();
        let more = program.frame(now_ms, signals);
        self.program.set(Some(program));
        if more {
            self.frame.request();
        }
    }
}

/// Where listeners note signals.
pub(super) struct Notes<S>(Rc<dyn Fn(S)>);

impl<S> Clone for Notes<S> {
    fn clone(&self) -> Self {
        Self(Rc::clone(&self.0))
    }
}

impl<S> Notes<S> {
    /// Notes a signal for the next frame.
    pub(super) fn note(&self, signal: S) {
        (self.0)(signal);
    }
}
