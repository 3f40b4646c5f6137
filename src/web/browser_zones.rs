//! The browser's own knowledge of time zones.

use std::cell::RefCell;

use js_sys::{Array, Function, Object, Reflect};
use wasm_bindgen::{JsCast, JsValue};

use crate::page::zones::{Zones, offset_in};

/// The zone last asked for, and what writes an instant by its clocks.
#[derive(Debug, Default)]
pub(super) struct BrowserZones {
    last: RefCell<Option<(String, Option<Function>)>>,
}

impl Zones for BrowserZones {
    fn offset_min(&self, zone: &str, unix_ms: i64) -> Option<i32> {
        let mut last = self.last.borrow_mut();
        if last.as_ref().is_none_or(|(of, _)| of != zone) {
            *last = Some((zone.to_owned(), writer(zone)));
        }
        let (_, writer) = last.as_ref()?;
        let text = writer.as_ref()?.call1(&JsValue::UNDEFINED, &JsValue::from(unix_ms as f64));
        offset_in(&text.ok()?.as_string()?)
    }
}

/// What writes an instant by the clocks of a zone; none if the browser does not know the name.
fn writer(zone: &str) -> Option<Function> {
    let options = Object::new();
    Reflect::set(&options, &"timeZone".into(), &zone.into()).ok()?;
    Reflect::set(&options, &"timeZoneName".into(), &"longOffset".into()).ok()?;
    let format = date_format(&Array::of2(&"en-US".into(), &options))?;
    Reflect::get(&format, &"format".into()).ok()?.dyn_into().ok()
}

/// `new Intl.DateTimeFormat(…)`, which throws for a name it does not know.
fn date_format(arguments: &Array) -> Option<JsValue> {
    let class = intl("DateTimeFormat")?;
    Reflect::construct(&class, arguments).ok()
}

/// A function of `Intl`.
fn intl(name: &str) -> Option<Function> {
    let intl = Reflect::get(&js_sys::global(), &"Intl".into()).ok()?;
    Reflect::get(&intl, &name.into()).ok()?.dyn_into().ok()
}

/// The time zone of this device.
pub(super) fn of_device() -> Option<String> {
    let format = date_format(&Array::new())?;
    let resolve: Function =
        Reflect::get(&format, &"resolvedOptions".into()).ok()?.dyn_into().ok()?;
    let options = resolve.call0(&format).ok()?;
    Reflect::get(&options, &"timeZone".into()).ok()?.as_string()
}

/// The names the browser offers; none if it does not tell.
pub(super) fn names() -> Vec<String> {
    let list = intl("supportedValuesOf")
        .and_then(|list| list.call1(&JsValue::UNDEFINED, &"timeZone".into()).ok());
    list.map(|list| Array::from(&list).iter().filter_map(|name| name.as_string()).collect())
        .unwrap_or_default()
}
