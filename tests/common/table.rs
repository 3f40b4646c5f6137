//! Reference tables: CSV files with `#` comments and a header line.

use std::env;
use std::fs;
use std::path::PathBuf;

/// The folder of the tables if [`FOLDER_VARIABLE`] is not set.
const OWN_FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/reference");

/// The environment variable that names another folder, with the same files and columns.
const FOLDER_VARIABLE: &str = "NOONWEDGE_REFERENCE";

/// A table in memory.
#[derive(Debug)]
pub struct Table {
    path: PathBuf,
    columns: Vec<String>,
    /// Line number in the file, and the cells.
    rows: Vec<(usize, Vec<String>)>,
}

/// One row of a table.
#[derive(Clone, Copy, Debug)]
pub struct Row<'a> {
    table: &'a Table,
    line: usize,
    cells: &'a [String],
}

/// Reads the table of this file name; panics with the path if there is none.
pub fn open(name: &str) -> Table {
    let folder = env::var_os(FOLDER_VARIABLE).unwrap_or_else(|| OWN_FOLDER.into());
    let path = PathBuf::from(folder).join(name);
    let text =
        fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let mut lines = text
        .lines()
        .enumerate()
        .filter(|(_, line)| !line.starts_with('#') && !line.trim().is_empty())
        .map(|(index, line)| (index + 1, cells(line)));
    let (_, columns) = lines.next().unwrap_or_else(|| panic!("{}: no header", path.display()));
    let rows = lines.collect();
    Table { path, columns, rows }
}

fn cells(line: &str) -> Vec<String> {
    line.split(',').map(|cell| cell.trim().into()).collect()
}

impl Table {
    /// The rows, in the order of the file.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|(line, cells)| Row { table: self, line: *line, cells })
    }
}

impl<'a> Row<'a> {
    /// File and line, for messages.
    pub fn place(&self) -> String {
        format!("{}:{}", self.table.path.display(), self.line)
    }

    /// The text of a cell; `None` if it is blank.
    pub fn text(&self, column: &str) -> Option<&'a str> {
        let index = self.table.columns.iter().position(|c| c == column);
        let cell = index.and_then(|index| self.cells.get(index));
        let cell = cell.unwrap_or_else(|| panic!("{}: no column {column}", self.place()));
        (!cell.is_empty()).then_some(cell.as_str())
    }

    /// A cell as a value; `None` if it is blank. Panics if it cannot be read.
    pub fn optional<T: std::str::FromStr>(&self, column: &str) -> Option<T> {
        self.text(column).map(|text| {
            text.parse().unwrap_or_else(|_| panic!("{}: {column} is “{text}”", self.place()))
        })
    }

    /// A cell as a value. Panics if it is blank or cannot be read.
    pub fn value<T: std::str::FromStr>(&self, column: &str) -> T {
        self.optional(column).unwrap_or_else(|| panic!("{}: {column} is blank", self.place()))
    }

    /// A cell as a number. Panics if it is blank or no number.
    pub fn number(&self, column: &str) -> f64 {
        self.value(column)
    }

    /// A decimal number in two parts, before and after the point, so that no digit is lost.
    pub fn two_parts(&self, column: &str) -> (f64, f64) {
        let text: String = self.value(column);
        let (whole, fraction) = text.split_once('.').unwrap_or((&text, "0"));
        match (whole.parse(), format!("0.{fraction}").parse()) {
            (Ok(whole), Ok(fraction)) => (whole, fraction),
            _ => panic!("{}: {column} is “{text}”", self.place()),
        }
    }
}
