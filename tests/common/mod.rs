//! Reference tables, and the largest deviations from them.
#![allow(dead_code, reason = "each test file uses its own part of this")]

pub(crate) mod mesh;

use std::collections::BTreeMap;
use std::path::PathBuf;

/// A table of comma-separated values under comment lines.
pub(crate) struct Table {
    columns: BTreeMap<String, usize>,
    rows: Vec<Vec<String>>,
    name: String,
}

/// One row of a table.
#[derive(Clone, Copy)]
pub(crate) struct Row<'a> {
    table: &'a Table,
    index: usize,
}

impl Table {
    /// Opens a table of `tests/reference/`, or of the folder in `NOONWEDGE_REFERENCE`.
    pub(crate) fn open(name: &str) -> Self {
        let folder = std::env::var_os("NOONWEDGE_REFERENCE").map_or_else(
            || PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference"),
            PathBuf::from,
        );
        let path = folder.join(name);
        let text = std::fs::read_to_string(&path)
            .unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        let mut lines = text
            .lines()
            .filter(|line| !line.starts_with('#') && !line.is_empty())
            .map(|line| line.split(',').map(str::to_owned).collect::<Vec<_>>());
        let header = lines.next().unwrap_or_else(|| panic!("{name} has no header"));
        let columns = header.into_iter().enumerate().map(|(index, name)| (name, index)).collect();
        let rows: Vec<_> = lines.collect();
        assert!(!rows.is_empty(), "{name} has no rows");
        Self { columns, rows, name: name.to_owned() }
    }

    pub(crate) fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        (0..self.rows.len()).map(|index| Row { table: self, index })
    }
}

impl<'a> Row<'a> {
    /// The text of a column.
    pub(crate) fn text(&self, column: &str) -> &'a str {
        let index = self.table.columns.get(column);
        let index = index.unwrap_or_else(|| panic!("{} has no column {column}", self.table.name));
        &self.table.rows[self.index][*index]
    }

    /// The number in a column, if there is one.
    pub(crate) fn optional(&self, column: &str) -> Option<f64> {
        let text = self.text(column);
        (!text.is_empty()).then(|| {
            text.parse().unwrap_or_else(|_| panic!("{self:?}: {column} is {text}, not a number"))
        })
    }

    /// The number in a column.
    pub(crate) fn number(&self, column: &str) -> f64 {
        self.optional(column).unwrap_or_else(|| panic!("{self:?}: {column} is blank"))
    }
}

impl std::fmt::Debug for Row<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} row {}", self.table.name, self.index + 1)
    }
}

/// The largest deviation of each quantity of a table, and whether it stayed within its tolerance.
pub(crate) struct Worst {
    table: &'static str,
    quantities: BTreeMap<&'static str, (f64, f64, usize)>,
}

impl Worst {
    pub(crate) fn new(table: &'static str) -> Self {
        Self { table, quantities: BTreeMap::new() }
    }

    /// Notes a deviation of a quantity and what is allowed for it.
    pub(crate) fn note(&mut self, quantity: &'static str, deviation: f64, allowed: f64) {
        let entry = self.quantities.entry(quantity).or_insert((0.0, allowed, 0));
        // A NaN must count as the worst of all.
        entry.0 = if deviation.is_nan() { f64::INFINITY } else { entry.0.max(deviation.abs()) };
        entry.1 = entry.1.max(allowed);
        entry.2 += 1;
    }

    /// Prints the largest deviations and fails if one is larger than allowed.
    pub(crate) fn finish(self) {
        assert!(!self.quantities.is_empty(), "{}: nothing was compared", self.table);
        let mut beyond = Vec::new();
        for (quantity, (worst, allowed, count)) in &self.quantities {
            println!(
                "{}: {quantity}: {worst:.3e} at most in {count} (allowed {allowed:.1e})",
                self.table
            );
            if worst > allowed {
                beyond.push(*quantity);
            }
        }
        assert!(beyond.is_empty(), "{}: beyond what is allowed: {beyond:?}", self.table);
    }
}
