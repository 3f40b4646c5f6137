//! Which instrument is shown: one that comes with the project, or one of the person's own.

use std::rc::Rc;

use crate::core::field::FieldError;
use crate::core::instrument::{Instrument, InstrumentSpec, Preset, file};
use crate::core::json::Json;

/// The instrument that is shown.
#[derive(Clone, Debug, PartialEq)]
pub enum Choice {
    /// One that comes with the project, and never changes.
    BuiltIn(&'static Preset),
    /// One of the person's own, as it stands on the shelf.
    Own(Rc<InstrumentSpec>),
}

impl Choice {
    /// Its description.
    #[must_use]
    pub fn spec(&self) -> Rc<InstrumentSpec> {
        match self {
            Self::BuiltIn(preset) => Rc::new(preset.spec()),
            Self::Own(spec) => Rc::clone(spec),
        }
    }

    /// The instrument itself.
    ///
    /// # Errors
    /// None for what the page offers: what can't stand does not come on the shelf.
    pub fn instrument(&self) -> Result<Instrument, FieldError> {
        Instrument::new(self.spec().as_ref().clone())
    }
}

/// The person's own instruments. No two have the same name.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shelf {
    own: Vec<Rc<InstrumentSpec>>,
}

impl Shelf {
    /// All of them, oldest first.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = &Rc<InstrumentSpec>> {
        self.own.iter()
    }

    /// The one with this name.
    #[must_use]
    pub fn by_name(&self, name: &str) -> Option<&Rc<InstrumentSpec>> {
        self.own.iter().find(|own| own.name == name)
    }

    /// Takes an instrument in, under a number if its name is taken; hands it back as it stands.
    pub fn add(&mut self, mut spec: InstrumentSpec) -> Rc<InstrumentSpec> {
        spec.name = self.free_name(&spec.name);
        let own = Rc::new(spec);
        self.own.push(Rc::clone(&own));
        own
    }

    /// Finds an instrument like this one, or takes it in; hands it back, and whether it is new.
    pub fn find_or_add(&mut self, spec: InstrumentSpec) -> (Rc<InstrumentSpec>, bool) {
        match self.own.iter().find(|own| ***own == spec) {
            Some(own) => (Rc::clone(own), false),
            None => (self.add(spec), true),
        }
    }

    /// Puts another instrument in the place of the one with this name.
    pub fn replace(&mut self, name: &str, spec: InstrumentSpec) -> Rc<InstrumentSpec> {
        let own = Rc::new(spec);
        match self.own.iter_mut().find(|own| own.name == name) {
            Some(place) => *place = Rc::clone(&own),
            None => self.own.push(Rc::clone(&own)),
        }
        own
    }

    /// Takes the one with this name away.
    pub fn remove(&mut self, name: &str) {
        self.own.retain(|own| own.name != name);
    }

    /// Takes in what has come to `there` since it was like `known`: another window of the page may
    /// have kept more.
    pub fn take_new(&mut self, there: &Self, known: &Self) {
        for own in there.iter() {
            if known.by_name(&own.name).is_none() && self.by_name(&own.name).is_none() {
                self.own.push(Rc::clone(own));
            }
        }
    }

    /// The name itself, or with the first number that makes it one of its own.
    fn free_name(&self, name: &str) -> String {
        let taken = |name: &str| self.by_name(name).is_some();
        let mut free = name.to_owned();
        let mut number = 2;
        while taken(&free) {
            free = format!("{name} {number}");
            number += 1;
        }
        free
    }

    /// All of them, as a list of what files hold.
    #[must_use]
    pub fn write(&self) -> String {
        let own = self.own.iter().map(|own| file::write(own, file::Layout::Compact));
        format!("[{}]", own.collect::<Vec<_>>().join(",\n"))
    }

    /// Reads such a list; with every fault, each behind the number of its instrument.
    #[must_use]
    pub fn read(text: &str) -> (Self, Vec<FieldError>) {
        let mut shelf = Self::default();
        let Ok(Json::List(list)) = Json::parse(text) else {
            let refused = FieldError::new("the list", "not JSON", "a list of instruments");
            return (shelf, vec![refused]);
        };
        let mut faults = Vec::new();
        for (index, value) in list.iter().enumerate() {
            match file::read_value(value) {
                Ok(spec) => drop(shelf.add(spec)),
                Err(refused) => faults.extend(refused.into_iter().map(|fault| {
                    let field = format!("{}: {}", index + 1, fault.field);
                    FieldError { field: field.into(), ..fault }
                })),
            }
        }
        (shelf, faults)
    }
}
