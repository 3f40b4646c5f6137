//! Tells when a canvas has got another size on the page or on the screen.

use glam::DVec2;
use js_sys::{Array, Reflect};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    Element, ResizeObserver, ResizeObserverBoxOptions, ResizeObserverEntry, ResizeObserverOptions,
    ResizeObserverSize,
};

use super::find::{by_id, window};
use super::surface::Size;

/// Watches one canvas until it is dropped.
#[derive(Debug)]
pub(super) struct SizeWatch {
    observer: ResizeObserver,
    _callback: Closure<dyn FnMut(Array)>,
}

impl SizeWatch {
    /// Watches the canvas with this id, and hands its sizes to `take`.
    pub(super) fn new(id: &str, take: Box<dyn Fn(Size)>) -> Result<Self, JsValue> {
        let canvas: Element = by_id(id)?;
        let callback = Closure::<dyn FnMut(Array)>::new(move |entries: Array| {
            let entry = entries.pop().dyn_into::<ResizeObserverEntry>();
            if let Some(size) = entry.ok().and_then(|entry| measured(&entry)) {
                take(size);
            }
        });
        let observer = ResizeObserver::new(callback.as_ref().unchecked_ref())?;
        let options = ResizeObserverOptions::new();
        if tells_device_pixels()? {
            options.set_box(ResizeObserverBoxOptions::DevicePixelContentBox);
        }
        observer.observe_with_options(&canvas, &options);
        Ok(Self { observer, _callback: callback })
    }
}

impl Drop for SizeWatch {
    fn drop(&mut self) {
        self.observer.disconnect();
    }
}

/// Whether the browser tells sizes in pixels of the screen; asking one that doesn't is an error.
fn tells_device_pixels() -> Result<bool, JsValue> {
    let entry = Reflect::get(&window()?.into(), &JsValue::from_str("ResizeObserverEntry"))?;
    let prototype = Reflect::get(&entry, &JsValue::from_str("prototype"))?;
    Reflect::has(&prototype, &JsValue::from_str("devicePixelContentBoxSize"))
}

/// The size an entry tells.
fn measured(entry: &ResizeObserverEntry) -> Option<Size> {
    let css = first_box(&entry.content_box_size())?;
    let expected = css * window().ok()?.device_pixel_ratio();
    let told = if tells_device_pixels().ok()? {
        first_box(&entry.device_pixel_content_box_size())?
    } else {
        expected
    };
    // Where another screen is only acted, the box may be told in pixels of the real one.
    let device = if (told - expected).abs().max_element() < 2.0 { told } else { expected.round() };
    Some(Size { css, device })
}

fn first_box(boxes: &Array) -> Option<DVec2> {
    let first: ResizeObserverSize = boxes.get(0).dyn_into().ok()?;
    Some(DVec2::new(first.inline_size(), first.block_size()))
}
