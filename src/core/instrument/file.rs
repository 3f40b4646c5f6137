//! The file that holds an instrument: JSON, lengths in metres, angles in degrees, the unit in each
//! name. `docs/instrument.schema.json` describes it.

use super::quantity::{unfit, unfit_texts};
use super::{EndFaces, InstrumentSpec, QUANTITIES, Quantity, Script, SummerTime};
use crate::core::field::{FieldError, quoted};
use crate::core::json::{Json, NotJson, written};

/// What `format` says in every such file.
pub const FORMAT: &str = "noonwedge-instrument";
/// What `version` says.
pub const VERSION: u64 = 1;
/// The largest file that is looked at, bytes.
pub const LARGEST: usize = 64 * 1024;

/// The groups of a file, in their order.
const GROUPS: [&str; 5] = ["site", "clock", "gnomon", "quadrants", "alignment"];
/// The fields beside the groups.
const HEAD: [&str; 3] = ["format", "version", "name"];
/// The fields in groups that are not numbers.
const OTHERS: [&str; 5] = [
    "clock.summer_time",
    "clock.time_zone",
    "gnomon.end_faces",
    "quadrants.divisions",
    "quadrants.numerals",
];
/// The quantities on which the limits of others depend.
const GROUND: [&str; 4] =
    ["site.latitude_deg", "quadrants.radius_m", "quadrants.breadth_m", "quadrants.plinth_m"];

/// How a file is laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Layout {
    /// Every field, on lines of its own.
    Full,
    /// On one line, without what goes without saying.
    Compact,
}

/// Writes an instrument down.
#[must_use]
pub fn write(spec: &InstrumentSpec, layout: Layout) -> String {
    let full = layout == Layout::Full;
    let (gap, comma) = if full { (" ", ",\n    ") } else { ("", ",") };
    let entries = entries(spec, full);
    let groups = GROUPS.iter().filter_map(|group| {
        let inside = entries.iter().filter_map(|(path, value)| {
            let name = path.strip_prefix(group)?.strip_prefix('.')?;
            Some(format!("\"{name}\":{gap}{value}"))
        });
        let inside: Vec<String> = inside.collect();
        let (open, close) = if full { ("{\n    ", "\n  }") } else { ("{", "}") };
        let inside = inside.join(comma);
        (!inside.is_empty()).then(|| format!("\"{group}\":{gap}{open}{inside}{close}"))
    });
    let head = [
        format!("\"format\":{gap}\"{FORMAT}\""),
        format!("\"version\":{gap}{VERSION}"),
        format!("\"name\":{gap}{}", written(&spec.name)),
    ];
    let parts: Vec<String> = head.into_iter().chain(groups).collect();
    if full {
        format!("{{\n  {}\n}}\n", parts.join(",\n  "))
    } else {
        format!("{{{}}}", parts.join(","))
    }
}

/// Every field of the groups with its value; what goes without saying only when asked for.
fn entries(spec: &InstrumentSpec, full: bool) -> Vec<(&'static str, String)> {
    let mut entries: Vec<(&'static str, String)> = Vec::new();
    for quantity in &QUANTITIES {
        let value = quantity.get(spec);
        if full || quantity.usual != Some(value) {
            entries.push((quantity.path, value.to_string()));
        }
    }
    if full || spec.summer_time != SummerTime::default() {
        entries.push(("clock.summer_time", written(spec.summer_time.key())));
    }
    if let Some(zone) = &spec.time_zone {
        entries.push(("clock.time_zone", written(zone)));
    }
    if full || spec.end_faces != EndFaces::default() {
        entries.push(("gnomon.end_faces", written(spec.end_faces.key())));
    }
    let divisions: Vec<String> = spec.divisions.iter().map(ToString::to_string).collect();
    entries.push(("quadrants.divisions", format!("[{}]", divisions.join(","))));
    if full || spec.numerals != Script::default() {
        entries.push(("quadrants.numerals", written(spec.numerals.key())));
    }
    entries
}

/// Reads an instrument.
///
/// # Errors
/// Every fault of the text, each with the path of the field.
pub fn read(text: &str) -> Result<InstrumentSpec, Vec<FieldError>> {
    if text.len() > LARGEST {
        let given = format!("{} bytes long", text.len());
        let allowed = format!("{LARGEST} bytes long at most");
        return Err(vec![FieldError::new("the file", given, allowed)]);
    }
    // Some editors put a mark before the text.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    match Json::parse(text) {
        Ok(value) => read_value(&value),
        Err(NotJson { line, column }) => {
            let given = format!("not JSON at line {line}, column {column}");
            Err(vec![FieldError::new("the file", given, "an instrument's description in JSON")])
        }
    }
}

/// Reads an instrument from JSON that is read already.
///
/// # Errors
/// Every fault, each with the path of the field.
pub fn read_value(value: &Json) -> Result<InstrumentSpec, Vec<FieldError>> {
    let Json::Object(_) = value else {
        let allowed = "an object with format, version and the rest";
        return Err(vec![FieldError::new("the file", value.shown(), allowed)]);
    };
    let mut reader = Reader { file: value, spec: InstrumentSpec::default(), faults: Vec::new() };
    // A file of another kind would have nothing but faults.
    if reader.is_ours() {
        reader.name();
        reader.numbers();
        reader.others();
        reader.unknown();
        reader.fit();
    }
    if reader.faults.is_empty() { Ok(reader.spec) } else { Err(reader.faults) }
}

/// A file on its way to a description.
struct Reader<'a> {
    file: &'a Json,
    spec: InstrumentSpec,
    faults: Vec<FieldError>,
}

impl<'a> Reader<'a> {
    fn refuse(
        &mut self,
        path: impl Into<std::borrow::Cow<'static, str>>,
        value: &Json,
        allowed: &str,
    ) {
        self.faults.push(FieldError::new(path, value.shown(), allowed));
    }

    fn miss(&mut self, path: &'static str, allowed: &str) {
        self.faults.push(FieldError::new(path, "missing", allowed));
    }

    fn is_ours(&mut self) -> bool {
        for (path, allowed) in [("format", FORMAT), ("version", "1")] {
            match self.file.get(path) {
                Some(Json::Text(text)) if text == allowed && path == "format" => {}
                Some(Json::Number(number)) if number == allowed && path == "version" => {}
                Some(value) => self.refuse(path, value, allowed),
                None => self.miss(path, allowed),
            }
        }
        self.faults.is_empty()
    }

    /// The value at a path of group and name; null is as good as nothing.
    fn value(&self, path: &str) -> Option<&'a Json> {
        let (group, name) = path.split_once('.')?;
        self.file.get(group)?.get(name).filter(|value| **value != Json::Null)
    }

    fn name(&mut self) {
        match self.file.get("name") {
            Some(Json::Text(name)) => self.spec.name = name.trim().to_owned(),
            Some(value) => self.refuse("name", value, "a text"),
            None => self.miss("name", "a text"),
        }
    }

    fn numbers(&mut self) {
        for quantity in &QUANTITIES {
            let (min, max) = quantity.range;
            let allowed = format!("from {min} to {max}");
            match (self.value(quantity.path), quantity.usual) {
                (Some(value), _) => match value.number() {
                    Some(number) if (min..=max).contains(&number) && is_whole(quantity, number) => {
                        quantity.set(&mut self.spec, number);
                    }
                    _ if quantity.kind == super::Kind::Offset => {
                        self.refuse(quantity.path, value, &format!("{allowed} in whole minutes"));
                    }
                    _ => self.refuse(quantity.path, value, &allowed),
                },
                (None, Some(usual)) => quantity.set(&mut self.spec, usual),
                (None, None) => self.miss(quantity.path, &allowed),
            }
        }
    }

    /// Which of some words stands at a path: its index in them.
    fn chosen(&mut self, path: &'static str, keys: &[&str]) -> Option<usize> {
        let value = self.value(path)?;
        let at = keys.iter().position(|key| value.text() == Some(key));
        if at.is_none() {
            self.refuse(path, value, &one_of(keys));
        }
        at
    }

    fn others(&mut self) {
        if let Some(at) = self.chosen("clock.summer_time", &SummerTime::ALL.map(SummerTime::key)) {
            self.spec.summer_time = SummerTime::ALL[at];
        }
        if let Some(at) = self.chosen("gnomon.end_faces", &EndFaces::ALL.map(EndFaces::key)) {
            self.spec.end_faces = EndFaces::ALL[at];
        }
        if let Some(at) = self.chosen("quadrants.numerals", &Script::ALL.map(Script::key)) {
            self.spec.numerals = Script::ALL[at];
        }
        match self.value("clock.time_zone") {
            Some(Json::Text(zone)) => self.spec.time_zone = Some(zone.clone()),
            Some(value) => self.refuse("clock.time_zone", value, "a text"),
            None => {}
        }
        let parts = |value: &Json| -> Option<Vec<u32>> {
            let Json::List(list) = value else { return None };
            let whole = |part: &Json| match part {
                Json::Number(number) => number.parse().ok(),
                _ => None,
            };
            list.iter().map(whole).collect()
        };
        let allowed = "a list of whole numbers, like [4, 15, 3]";
        match self.value("quadrants.divisions") {
            Some(value) => match parts(value) {
                Some(parts) => self.spec.divisions = parts,
                None => self.refuse("quadrants.divisions", value, allowed),
            },
            None => self.miss("quadrants.divisions", allowed),
        }
    }

    /// Names every field that has no place in a file.
    fn unknown(&mut self) {
        let Json::Object(fields) = self.file else { return };
        for (name, value) in fields {
            match value {
                _ if HEAD.contains(&name.as_str()) => {}
                Json::Object(group) if GROUPS.contains(&name.as_str()) => {
                    for (inside, _) in group {
                        self.check_known(&format!("{name}.{inside}"));
                    }
                }
                _ if GROUPS.contains(&name.as_str()) => {
                    self.refuse(name.clone(), value, "an object")
                }
                _ => self.faults.push(FieldError::new(
                    at(name),
                    "unknown",
                    one_of(&HEAD) + ", " + &GROUPS.join(", "),
                )),
            }
        }
    }

    fn check_known(&mut self, path: &str) {
        let known = || QUANTITIES.iter().map(|quantity| quantity.path).chain(OTHERS);
        if known().any(|known| known == path) {
            return;
        }
        let group = path.split_once('.').map_or(path, |(group, _)| group);
        let names: Vec<&str> =
            known().filter_map(|known| known.strip_prefix(group)?.strip_prefix('.')).collect();
        let allowed = one_of(&names);
        self.faults.push(FieldError::new(at(path), "unknown", allowed));
    }

    /// Looks whether the parts fit each other, as far as they could be read.
    fn fit(&mut self) {
        let told: Vec<String> = self.faults.iter().map(|fault| fault.field.to_string()).collect();
        let told = |path: &str| told.iter().any(|told| told == path);
        let texts = unfit_texts(&self.spec).into_iter().filter(|(path, _)| !told(path));
        self.faults.extend(texts.map(|(path, fault)| FieldError { field: path.into(), ..fault }));
        if GROUND.iter().any(|path| told(path)) {
            return;
        }
        let spec = &self.spec;
        let unfit = unfit(spec).filter(|quantity| !told(quantity.path));
        self.faults.extend(unfit.map(|it| it.refusal_in_file(spec, it.get(spec))));
    }
}

/// Whether a number is whole where it has to be.
fn is_whole(quantity: &Quantity, number: f64) -> bool {
    quantity.kind != super::Kind::Offset || number.fract() == 0.0
}

/// A path of somebody else's making, cut short.
fn at(path: &str) -> String {
    quoted(path)
}

/// "one of a, b".
fn one_of(keys: &[&str]) -> String {
    format!("one of {}", keys.join(", "))
}
