//! Drag, pinch, wheel and double tap on the court and on the lens.

use std::cell::RefCell;
use std::rc::Rc;

use glam::DVec2;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Event, HtmlElement, PointerEvent, WheelEvent};

use super::bind::Binder;
use super::find::by_id;
use super::signal::Signal;
use crate::page::keys::CameraKey;
use crate::page::message::Message;

/// How far a drag across the court turns it, radians per CSS pixel.
const TURN_RAD_PER_PX: f64 = 0.006;
/// How much a wheel zooms, per CSS pixel of scrolling.
const WHEEL_ZOOM: f64 = 0.0015;
/// How much a pinch on a trackpad zooms, which arrives as a wheel with Control held.
const TRACKPAD_ZOOM: f64 = 0.01;
/// CSS pixels in a line and in a page of scrolling, where the wheel counts in those.
const LINE_PX: f64 = 16.0;
const PAGE_PX: f64 = 400.0;
/// Two taps within this time are a double tap, milliseconds.
const DOUBLE_TAP_MS: f64 = 320.0;
/// A hand that has rested for so long before it lets go throws nothing, milliseconds; and the time
/// over which its speed is taken.
const REST_MS: f64 = 60.0;
const SPEED_MS: f64 = 40.0;
/// Fingers move a little in a tap, CSS pixels.
const TAP_SLIP_PX: f64 = 24.0;

/// One pointer on the surface.
#[derive(Clone, Copy, Debug)]
struct Held {
    id: i32,
    at: DVec2,
}

/// What the pointers do.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Motion {
    /// One pointer has moved by so much.
    Drag(DVec2),
    /// Two pointers have spread by a factor about their middle, CSS pixels.
    Pinch(f64, DVec2),
}

/// The pointers that hold a surface.
#[derive(Debug, Default)]
struct Hands {
    held: Vec<Held>,
    /// When and where the last tap was.
    last_tap: Option<(f64, DVec2)>,
    down: Option<DVec2>,
    /// How fast a single pointer moves, CSS pixels a millisecond, and when it last did.
    speed: DVec2,
    moved_ms: f64,
}

impl Hands {
    fn press(&mut self, id: i32, at: DVec2) {
        self.held.retain(|held| held.id != id);
        self.held.push(Held { id, at });
        self.down = (self.held.len() == 1).then_some(at);
        self.speed = DVec2::ZERO;
    }

    fn shift(&mut self, id: i32, at: DVec2, now_ms: f64) -> Option<Motion> {
        let other = self.held.iter().find(|held| held.id != id).map(|held| held.at);
        let held = self.held.iter_mut().find(|held| held.id == id)?;
        let before = std::mem::replace(&mut held.at, at);
        match other {
            None => {
                let by = at - before;
                let passed_ms = now_ms - std::mem::replace(&mut self.moved_ms, now_ms);
                let speed = by / passed_ms.max(1.0);
                self.speed = self.speed.lerp(speed, (passed_ms / SPEED_MS).clamp(0.0, 1.0));
                Some(Motion::Drag(by))
            }
            Some(other) => {
                self.speed = DVec2::ZERO;
                let (was, is) = (before.distance(other), at.distance(other));
                (was > 1.0).then(|| Motion::Pinch(is / was, (at + other) / 2.0))
            }
        }
    }

    /// The speed with which a pointer lets go, CSS pixels a second.
    fn throw(&self, now_ms: f64) -> DVec2 {
        let rested = now_ms - self.moved_ms > REST_MS || !self.held.is_empty();
        if rested { DVec2::ZERO } else { self.speed * 1000.0 }
    }

    /// Lets go; tells whether it was the second tap of two.
    fn release(&mut self, id: i32, at: DVec2, now_ms: f64) -> bool {
        self.held.retain(|held| held.id != id);
        let tapped = self.down.take().is_some_and(|down| down.distance(at) < TAP_SLIP_PX);
        let before = self.last_tap.take();
        if !tapped {
            return false;
        }
        let doubled = before.is_some_and(|(then_ms, there)| {
            now_ms - then_ms < DOUBLE_TAP_MS && there.distance(at) < TAP_SLIP_PX
        });
        if !doubled {
            self.last_tap = Some((now_ms, at));
        }
        doubled
    }
}

/// What a surface makes of its gestures.
#[derive(Clone, Copy)]
struct Meaning {
    motion: fn(Motion, &HtmlElement) -> Option<Signal>,
    home: fn() -> Message,
    /// A hand has let go with this speed, CSS pixels a second, or laid hold with none.
    left: fn(DVec2) -> Message,
}

/// Drag turns, pinch and wheel zoom, double tap goes home.
pub(super) fn court(binder: &mut Binder) -> Result<(), JsValue> {
    let hold: HtmlElement = by_id("court-hold")?;
    let motion = |motion: Motion, hold: &HtmlElement| match motion {
        Motion::Drag(by) => Some(Signal::Ask(Message::Orbit(by * TURN_RAD_PER_PX))),
        Motion::Pinch(by, about) => Some(Signal::Ask(Message::Zoom(by, from_middle(about, hold)))),
    };
    let home = || Message::CameraKey(CameraKey::Home);
    let left = |speed| Message::Coast(speed * TURN_RAD_PER_PX);
    pointers(binder, &hold, Meaning { motion, home, left })?;
    let surface = hold.clone();
    binder.on(&hold, "wheel", move |event| {
        let event: &WheelEvent = event.dyn_ref()?;
        event.prevent_default();
        let unit = match event.delta_mode() {
            WheelEvent::DOM_DELTA_LINE => LINE_PX,
            WheelEvent::DOM_DELTA_PAGE => PAGE_PX,
            _ => 1.0,
        };
        let rate = if event.ctrl_key() { TRACKPAD_ZOOM } else { WHEEL_ZOOM };
        let by = (-event.delta_y() * unit * rate).exp();
        let about = from_middle(client(event), &surface);
        Some(Signal::Ask(Message::Zoom(by, about)))
    })
}

/// Drag moves the lens along the arc, double tap lets it follow the edge again.
pub(super) fn lens(binder: &mut Binder) -> Result<(), JsValue> {
    let hold: HtmlElement = by_id("lens-hold")?;
    let motion = |motion: Motion, _: &HtmlElement| match motion {
        Motion::Drag(by) => Some(Signal::DragLens(by.x)),
        Motion::Pinch(..) => None,
    };
    pointers(
        binder,
        &hold,
        Meaning { motion, home: || Message::LensHome, left: |_| Message::Settle },
    )
}

/// Listens to the pointers on a surface.
fn pointers(binder: &mut Binder, hold: &HtmlElement, meaning: Meaning) -> Result<(), JsValue> {
    let hands = Rc::new(RefCell::new(Hands::default()));
    let (surface, pressed) = (hold.clone(), hands.clone());
    binder.on(hold, "pointerdown", move |event| {
        let event: &PointerEvent = event.dyn_ref()?;
        // Buttons on the surface keep their presses; so does the secondary button of a mouse.
        if event.button() != 0 || is_on_button(event) {
            return None;
        }
        // A pointer that has gone already can't be captured, and need not be.
        let _: Result<(), JsValue> = surface.set_pointer_capture(event.pointer_id());
        pressed.try_borrow_mut().ok()?.press(event.pointer_id(), client(event));
        Some(Signal::Ask((meaning.left)(DVec2::ZERO)))
    })?;
    let (surface, moved) = (hold.clone(), hands.clone());
    binder.on(hold, "pointermove", move |event| {
        let event: &PointerEvent = event.dyn_ref()?;
        let (id, at, now_ms) = (event.pointer_id(), client(event), event.time_stamp());
        let motion = moved.try_borrow_mut().ok()?.shift(id, at, now_ms)?;
        (meaning.motion)(motion, &surface)
    })?;
    for kind in ["pointerup", "pointercancel"] {
        let released = hands.clone();
        binder.on(hold, kind, move |event| {
            let event: &PointerEvent = event.dyn_ref()?;
            let (id, at, now_ms) = (event.pointer_id(), client(event), event.time_stamp());
            let mut hands = released.try_borrow_mut().ok()?;
            let doubled = hands.release(id, at, now_ms);
            let left = || (meaning.left)(hands.throw(now_ms));
            Some(Signal::Ask(if doubled { (meaning.home)() } else { left() }))
        })?;
    }
    Ok(())
}

/// Where a mouse or a finger is, CSS pixels of the window.
fn client(event: &web_sys::MouseEvent) -> DVec2 {
    DVec2::new(event.client_x().into(), event.client_y().into())
}

/// Whether an event began on a button or a slider.
fn is_on_button(event: &Event) -> bool {
    let target = event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok());
    target.is_some_and(|target| matches!(target.closest("button, input"), Ok(Some(_))))
}

/// A point of the window as an offset from a surface's middle, in shares of its size.
fn from_middle(at: DVec2, hold: &HtmlElement) -> DVec2 {
    let bounds = hold.get_bounding_client_rect();
    let size = DVec2::new(bounds.width(), bounds.height()).max(DVec2::ONE);
    (at - DVec2::new(bounds.left(), bounds.top())) / size - DVec2::splat(0.5)
}
