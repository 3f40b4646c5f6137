//! Leaves out of the page's first program the English words that only its second one says.

use std::path::PathBuf;
use std::{env, fs, io};

const CATALOGUE: &str = "src/words/en.json";

/// What the keys of the second program's words begin with.
const LATER: [&str; 6] = ["answers", "plots", "prepare", "share", "sizes", "tour"];

fn main() -> io::Result<()> {
    println!("cargo::rerun-if-changed={CATALOGUE}");
    println!("cargo::rerun-if-changed=build.rs");
    let text = fs::read_to_string(CATALOGUE)?;
    // The catalogue has one key a line; a test parses what is left.
    let is_later = |line: &&str| {
        let prefix = line.trim_start().strip_prefix('"').and_then(|rest| rest.split('.').next());
        prefix.is_some_and(|prefix| LATER.contains(&prefix))
    };
    let entries = text.lines().filter(|line| line.contains("\": ")).filter(|line| !is_later(line));
    let entries: Vec<&str> = entries.map(|line| line.trim().trim_end_matches(',')).collect();
    let out = env::var_os("OUT_DIR").map(PathBuf::from).unwrap_or_default();
    fs::write(out.join("first.json"), format!("{{{}}}", entries.join(",")))
}
