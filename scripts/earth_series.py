#!/usr/bin/env python3
"""Write src/core/sky/earth_series.rs from the coefficients of the routine epv00.

Usage, from the top of the repository:
    python3 scripts/earth_series.py > src/core/sky/earth_series.rs

The coefficients are read from the source of the crate `sofars` (as locked in
Cargo.lock), whose own `epv00` gives no answer outside 1900-2100. A term
A cos(B + C t) becomes the pair (A cos B, -A sin B) at the rate C, and the terms
of x, y and z that share a rate share a row, so that one sine and cosine serve
all three. Rows whose amplitudes are all below MINOR_AU are written in single
precision, which halves the table in the site's program. Rows that stay below SLIGHT_AU
over REACH_YEARS from J2000.0 are left out: of the Earth's place those that move the Sun
by 0.011 seconds of arc at most, all together; of the Sun's own motion, which serves for
aberration only, those that move it by 0.00001.
"""
import json
import math
import pathlib
import re
import subprocess

HEAD = """\
//! The coefficients of the Earth's motion; written by `scripts/earth_series.py`, not by hand.
//!
//! Source: the IAU SOFA routine `epv00` (a simplified VSOP2000, X. Moisson and P. Bretagnon,
//! Celes. Mechanics & Dyn. Astron. 80 (2001) 205-213), as carried by the crate `sofars` {version}
//! (MIT). Rows of `[rate, cos x, cos y, cos z, sin x, sin y, sin z]`: rate in radians per Julian
//! year, amplitudes in au (per yearᵖ in the p-th table), ecliptic axes of the theory.

#![allow(clippy::excessive_precision, reason = "nine digits are written throughout")]

/// One row: the rate, then the amplitudes of its cosine and of its sine for x, y, z.
pub(super) type Row<Number> = [Number; 7];

/// Rows that multiply one power of time: the large ones, and the many with amplitudes below
/// {minor} au, for which single precision costs less than 1e-10 au over 1900–2100 (a test compares
/// with `epv00`) and in proportion beyond.
pub(super) struct Table {{
    pub(super) major: &'static [Row<f64>],
    pub(super) minor: &'static [Row<f32>],
}}

/// A series: the rows that multiply t⁰, t¹ and t², t in Julian years from J2000.0.
pub(super) type Series = [Table; 3];
"""
MINOR_AU = 1e-7
SLIGHT_AU = {"e": 3e-9, "s": 1e-7}
REACH_YEARS = 300
NAMES = {"e": ("SUN_TO_EARTH", "The Earth as seen from the Sun."),
         "s": ("BARYCENTRE_TO_SUN", "The Sun as seen from the barycentre of the Solar System.")}


def source():
    """Version and text of the crate's epv00."""
    text = subprocess.check_output(["cargo", "metadata", "--format-version", "1"], text=True)
    package = next(p for p in json.loads(text)["packages"] if p["name"] == "sofars")
    root = pathlib.Path(package["manifest_path"]).parent
    return package["version"], (root / "src/eph/epv00.rs").read_text()


def rows(text, body, power):
    """The merged rows of one body and one power of t, in order of first appearance."""
    merged = {}
    for axis, name in enumerate("xyz"):
        match = re.search(rf"const {body}{power}{name}: \[f64; (\d+)\] = \[(.*?)\];", text, re.S)
        values = [float(v) for v in match[2].replace("\n", " ").split(",") if v.strip()]
        assert len(values) == int(match[1])
        for a, b, c in zip(*[iter(values)] * 3):
            row = merged.setdefault(c, [0.0] * 6)
            row[axis] += a * math.cos(b)
            row[3 + axis] -= a * math.sin(b)
    rows = [[rate, *row] for rate, row in merged.items()]
    return [row for row in rows if max(map(abs, row[1:])) * REACH_YEARS**power > SLIGHT_AU[body]]


def major(x):
    """As many digits as the published coefficients carry: thirteen."""
    return repr(float(f"{x:.13g}")) if x else "0.0"


def minor(x):
    """As many digits as tell one number of single precision from the next: nine."""
    return repr(float(f"{x:.9g}")) if x else "0.0"


def table(name, write, rows):
    print(f"        {name}: &[")
    for row in rows:
        print("            [" + ", ".join(map(write, row)) + "],")
    print("        ],")


def main():
    version, text = source()
    print(HEAD.format(version=version, minor=MINOR_AU), end="")
    for body, (name, doc) in NAMES.items():
        print(f"\n/// {doc}\n#[rustfmt::skip]\npub(super) const {name}: Series = [")
        for power in range(3):
            all_rows = rows(text, body, power)
            is_minor = lambda row: max(map(abs, row[1:])) < MINOR_AU
            print("    Table {")
            table("major", major, [row for row in all_rows if not is_minor(row)])
            table("minor", minor, [row for row in all_rows if is_minor(row)])
            print("    },")
        print("];")


if __name__ == "__main__":
    main()
