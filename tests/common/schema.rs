//! As much of JSON Schema as the project's own schemas use.

use serde_json::Value;

/// What a value breaks of the part of the schema for it.
pub fn breaks(schema: &Value, value: &Value, path: &str) -> Vec<String> {
    let mut broken = Vec::new();
    let mut when = |is: bool, what: &str| {
        if is {
            broken.push(format!("{path} {what}: {value}"));
        }
    };
    when(schema.get("const").is_some_and(|only| only != value), "is another constant");
    let choices = schema.get("enum").and_then(Value::as_array);
    when(choices.is_some_and(|choices| !choices.contains(value)), "is none of the choices");
    let fits = match schema.get("type").and_then(Value::as_str) {
        Some("object") => value.is_object(),
        Some("array") => value.is_array(),
        Some("string") => value.is_string(),
        Some("number") => value.is_number(),
        Some("integer") => value.as_f64().is_some_and(|number| number.fract() == 0.0),
        _ => true,
    };
    when(!fits, "is of another type");
    let limit = |name: &str| schema.get(name).and_then(Value::as_f64);
    if let Some(number) = value.as_f64() {
        when(limit("minimum").is_some_and(|min| number < min), "is too small");
        when(limit("maximum").is_some_and(|max| number > max), "is too large");
    }
    if let Some(text) = value.as_str() {
        let length = text.chars().count() as f64;
        when(limit("minLength").is_some_and(|min| length < min), "is too short");
        when(limit("maxLength").is_some_and(|max| length > max), "is too long");
    }
    if let Some(items) = value.as_array() {
        when(limit("maxItems").is_some_and(|max| items.len() as f64 > max), "has too many items");
        for item in items {
            broken.extend(breaks(&schema["items"], item, path));
        }
    }
    if let Some(fields) = value.as_object() {
        let required = schema.get("required").and_then(Value::as_array);
        for name in required.into_iter().flatten().filter_map(Value::as_str) {
            if !fields.contains_key(name) {
                broken.push(format!("{path}.{name} is missing"));
            }
        }
        for (name, inside) in fields {
            match schema["properties"].get(name) {
                Some(part) => broken.extend(breaks(part, inside, &format!("{path}.{name}"))),
                None => broken.push(format!("{path}.{name} is not in the schema")),
            }
        }
    }
    broken
}
