//! The file that holds a tour: JSON, times in seconds. `docs/tour.schema.json` describes it.

use super::moment::Moment;
use super::{
    LONGEST_CAPTION, LONGEST_NAME, LONGEST_NOTES, MOST_STOPS, SECONDS, Seconds, Stop, Tour, tidy,
};
use crate::core::field::{FieldError, quoted};
use crate::core::json::{Json, NotJson, written};

/// What `format` says in every such file.
pub const FORMAT: &str = "noonwedge-tour";
/// What `version` says.
pub const VERSION: &str = "1";
/// The largest file that is looked at, bytes.
pub const LARGEST: usize = 2 * 1024 * 1024;
/// The fields of a file.
pub const HEAD: [&str; 4] = ["format", "version", "name", "stops"];
/// The fields of a stop.
pub const STOP: [&str; 6] = ["moment", "caption", "notes", "seconds", "plays", "asks"];

/// Writes a tour down.
#[must_use]
pub fn write(tour: &Tour) -> String {
    let stops: Vec<String> = tour.stops.iter().map(stop).collect();
    let stops = if stops.is_empty() {
        String::new()
    } else {
        format!("\n    {}\n  ", stops.join(",\n    "))
    };
    format!(
        "{{\n  \"format\": \"{FORMAT}\",\n  \"version\": {VERSION},\n  \"name\": {},\n  \"stops\": [{stops}]\n}}\n",
        written(&tour.name)
    )
}

/// One stop, without what goes without saying.
fn stop(stop: &Stop) -> String {
    let mut fields = vec![("moment", written(stop.moment.text()))];
    for (name, text) in [("caption", &stop.caption), ("notes", &stop.notes)] {
        if !text.is_empty() {
            fields.push((name, written(text)));
        }
    }
    fields.extend(stop.seconds.map(|seconds| ("seconds", seconds.get().to_string())));
    let switches = [("plays", stop.plays), ("asks", stop.asks)].into_iter().filter(|(_, on)| *on);
    fields.extend(switches.map(|(name, _)| (name, "true".to_owned())));
    let fields: Vec<String> =
        fields.iter().map(|(name, value)| format!("\n      \"{name}\": {value}")).collect();
    format!("{{{}\n    }}", fields.join(","))
}

/// Reads a tour.
///
/// # Errors
/// Every fault of the text, each with the path of the field; stops are counted from nought.
pub fn read(text: &str) -> Result<Tour, Vec<FieldError>> {
    if text.len() > LARGEST {
        let given = format!("{} bytes long", text.len());
        let allowed = format!("{LARGEST} bytes long at most");
        return Err(vec![FieldError::new("the file", given, allowed)]);
    }
    let file = match Json::parse(text) {
        Ok(file @ Json::Object(_)) => file,
        Ok(other) => return Err(vec![FieldError::new("the file", other.shown(), "an object")]),
        Err(NotJson { line, column }) => {
            let given = format!("broken in line {line}, column {column}");
            return Err(vec![FieldError::new("the file", given, "JSON")]);
        }
    };
    let mut reader = Reader { faults: Vec::new() };
    reader.is_ours(&file);
    // Of something else the other fields would only say the same.
    if !reader.faults.is_empty() {
        return Err(reader.faults);
    }
    let tour = reader.tour(&file);
    if reader.faults.is_empty() { Ok(tour) } else { Err(reader.faults) }
}

/// A file on its way to a tour.
struct Reader {
    faults: Vec<FieldError>,
}

impl Reader {
    fn refuse(&mut self, path: String, value: &Json, allowed: &str) {
        self.faults.push(FieldError::new(path, value.shown(), allowed));
    }

    fn is_ours(&mut self, file: &Json) {
        for (name, allowed) in [("format", FORMAT), ("version", VERSION)] {
            match file.get(name) {
                Some(Json::Text(text)) if text == allowed && name == "format" => {}
                Some(Json::Number(number)) if number == allowed && name == "version" => {}
                Some(value) => self.refuse(name.to_owned(), value, allowed),
                None => self.faults.push(FieldError::new(name, "missing", allowed)),
            }
        }
    }

    fn tour(&mut self, file: &Json) -> Tour {
        self.known("", file, &HEAD);
        let name = self.text("", file, "name", LONGEST_NAME);
        let allowed = format!("a list of at most {MOST_STOPS} stops");
        let stops = match file.get("stops") {
            Some(Json::List(stops)) if stops.len() <= MOST_STOPS => {
                stops.iter().enumerate().map(|(index, it)| self.stop(index, it)).collect()
            }
            Some(Json::List(stops)) => {
                let given = format!("a list of {}", stops.len());
                self.faults.push(FieldError::new("stops", given, allowed));
                Vec::new()
            }
            Some(value) => {
                self.refuse("stops".to_owned(), value, &allowed);
                Vec::new()
            }
            None => {
                self.faults.push(FieldError::new("stops", "missing", allowed));
                Vec::new()
            }
        };
        Tour { name, stops }
    }

    fn stop(&mut self, index: usize, stop: &Json) -> Stop {
        let path = format!("stops[{index}]");
        if !matches!(stop, Json::Object(_)) {
            self.refuse(path, stop, "an object");
            return Stop::default();
        }
        let path = path + ".";
        self.known(&path, stop, &STOP);
        Stop {
            moment: self.moment(&path, stop),
            caption: self.text(&path, stop, "caption", LONGEST_CAPTION),
            notes: self.text(&path, stop, "notes", LONGEST_NOTES),
            seconds: self.seconds(&path, stop),
            plays: self.switch(&path, stop, "plays"),
            asks: self.switch(&path, stop, "asks"),
        }
    }

    /// A text; without it, the empty one.
    fn text(&mut self, path: &str, of: &Json, name: &str, longest: usize) -> String {
        match value(of, name) {
            Some(Json::Text(text)) if text.chars().count() <= longest => return tidy(text),
            Some(value) => {
                let allowed = format!("a text of at most {longest} letters");
                self.refuse(format!("{path}{name}"), value, &allowed);
            }
            None => {}
        }
        String::new()
    }

    fn moment(&mut self, path: &str, stop: &Json) -> Moment {
        let path = format!("{path}moment");
        match stop.get("moment") {
            Some(Json::Text(text)) => {
                match Moment::read(text) {
                    Ok(moment) => return moment,
                    Err(refused) => self.faults.extend(refused.into_iter().map(|it| FieldError {
                        field: format!("{path}: {}", it.field).into(),
                        ..it
                    })),
                }
            }
            Some(value) => self.refuse(path, value, "a text"),
            None => self.faults.push(FieldError::new(path, "missing", "a text")),
        }
        Moment::default()
    }

    fn seconds(&mut self, path: &str, stop: &Json) -> Option<Seconds> {
        let value = value(stop, "seconds")?;
        let seconds = value.number().and_then(|number| Seconds::new(number).ok());
        if seconds.is_none() {
            let allowed = format!("a whole number from {} to {}", SECONDS.0, SECONDS.1);
            self.refuse(format!("{path}seconds"), value, &allowed);
        }
        seconds
    }

    /// A switch; without it, off.
    fn switch(&mut self, path: &str, stop: &Json, name: &str) -> bool {
        match value(stop, name) {
            Some(Json::Bool(on)) => *on,
            Some(value) => {
                self.refuse(format!("{path}{name}"), value, "true or false");
                false
            }
            None => false,
        }
    }

    /// Names every field that has no place there.
    fn known(&mut self, path: &str, of: &Json, names: &[&str]) {
        let Json::Object(fields) = of else { return };
        for (name, _) in fields.iter().filter(|(name, _)| !names.contains(&name.as_str())) {
            let allowed = format!("one of {}", names.join(", "));
            self.faults.push(FieldError::new(
                format!("{path}{}", quoted(name)),
                "unknown",
                allowed,
            ));
        }
    }
}

/// The value of a field; null is as good as nothing.
fn value<'a>(of: &'a Json, name: &str) -> Option<&'a Json> {
    of.get(name).filter(|value| **value != Json::Null)
}
