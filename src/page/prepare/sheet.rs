//! A sheet to read or to print: a title, tables, notes.

/// A table. Its first column names the rows.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Table {
    /// What it is about; empty when the sheet's title says so.
    pub caption: String,
    /// Names of the columns; empty when there is nothing to name.
    pub head: Vec<String>,
    /// The cells, row by row.
    pub rows: Vec<Vec<String>>,
    /// What is said under it; may be empty.
    pub note: String,
}

/// A sheet.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sheet {
    /// Its title.
    pub title: String,
    /// Instrument, place and clock.
    pub place: String,
    /// Its tables.
    pub tables: Vec<Table>,
    /// Sentences under the tables.
    pub notes: Vec<String>,
}
