#!/usr/bin/env python3
"""Write src/scene/numerals/digits.rs from the digits of three open fonts.

Usage, from the top of the repository, in a Python with `pip install fonttools brotli`:
    npm install --prefix /tmp/fonts @fontsource/noto-serif@5.3.0 \\
        @fontsource/noto-serif-devanagari@5.3.0 @fontsource/noto-naskh-arabic@5.3.0
    python3 scripts/digits.py /tmp/fonts/node_modules > src/scene/numerals/digits.rs

Curves become chords that leave them by TOLERANCE heights at most; the corners are whole
numbers of 1/UNITS of a height. Every digit's largest contour comes first, and outer contours
run counter-clockwise. The licence of the fonts, LICENSES/OFL-1.1.txt, holds for the table too.
"""
import math
import pathlib
import sys

from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

UNITS = 200
# Added to y, so that what reaches below the foot is positive too.
DROP = 30
TOLERANCE = 0.0025
# Clear space at either side of a digit, heights: a font sets all digits equally wide, for columns.
SIDE = 0.07
# Name, what it is, file, digit 0, and the levels of foot and head in the font's units.
SCRIPTS = [
    ("WESTERN", "Western digits", "noto-serif/files/noto-serif-latin-600-normal.woff2",
     0x30, (0, 714)),
    ("DEVANAGARI", "Devanagari digits",
     "noto-serif-devanagari/files/noto-serif-devanagari-devanagari-600-normal.woff2",
     0x966, (-20, 640)),
    ("EASTERN_ARABIC", "Eastern Arabic digits",
     "noto-naskh-arabic/files/noto-naskh-arabic-arabic-700-normal.woff2", 0x660, (0, 605)),
]

HEAD = """\
//! The outlines of digits; written by `scripts/digits.py`, not by hand.
//!
//! Source: the packages `@fontsource/noto-serif`, `@fontsource/noto-serif-devanagari` and
//! `@fontsource/noto-naskh-arabic` 5.3.0. Copyright 2022 The Noto Project Authors, under the SIL
//! Open Font License 1.1 (`LICENSES/OFL-1.1.txt`), which holds for this table as well.

/// A digit: how far the next one stands from it, and its contours, the largest first.
pub(super) struct Digit {{
    pub(super) advance: u8,
    pub(super) contours: &'static [&'static [(u8, u8)]],
}}

/// Height of the digits in units of the tables.
pub(super) const UNITS: f64 = {units}.0;
/// What is added to `y` in the tables.
pub(super) const DROP: f64 = {drop}.0;
"""


def flattened(font, letter, foot, height):
    """How far the next letter stands from this one, and its contours, flattened, in heights
    above the foot."""
    glyphs = font.getGlyphSet()
    pen = DecomposingRecordingPen(glyphs)
    name = font.getBestCmap()[letter]
    glyphs[name].draw(pen)
    scaled = lambda point: (point[0] / height, (point[1] - foot) / height)
    contours = []
    for verb, points in pen.value:
        if verb == "moveTo":
            contours.append([scaled(points[0])])
        elif verb == "lineTo":
            contours[-1].append(scaled(points[0]))
        elif verb == "qCurveTo":
            if points[-1] is None:
                sys.exit(f"{name} has a contour without a point on it")
            handles = [scaled(point) for point in points]
            for index, handle in enumerate(handles[:-1]):
                last = index == len(handles) - 2
                after = handles[index + 1]
                end = after if last else ((handle[0] + after[0]) / 2, (handle[1] + after[1]) / 2)
                contours[-1] += chords(contours[-1][-1], handle, end)
        elif verb != "closePath":
            sys.exit(f"{name} has a {verb}")
    across = [x for contour in contours for x, _ in contour]
    left = min(across) - SIDE
    moved = [[(x - left, y) for x, y in contour] for contour in contours]
    return max(across) + SIDE - left, moved


def chords(start, handle, end):
    """The corners, after the first, of a parabola's chords."""
    bend = math.hypot(*(start[i] - 2 * handle[i] + end[i] for i in (0, 1))) / 4
    count = max(1, math.ceil(math.sqrt(bend / TOLERANCE)))
    at = lambda t: tuple((1 - t) ** 2 * start[i] + 2 * t * (1 - t) * handle[i] + t * t * end[i]
                         for i in (0, 1))
    return [at(k / count) for k in range(1, count + 1)]


def whole(contour):
    """Corners in units of the table, counter-clockwise where the font has them clockwise,
    without those that add nothing."""
    corners = []
    for x, y in reversed(contour):
        corner = (round(x * UNITS), round(y * UNITS) + DROP)
        if not corners or corner != corners[-1]:
            corners.append(corner)
    if corners[0] == corners[-1]:
        corners.pop()
    turns = lambda a, b, c: (b[0] - a[0]) * (c[1] - b[1]) != (b[1] - a[1]) * (c[0] - b[0])
    count = len(corners)
    return [corner for i, corner in enumerate(corners)
            if turns(corners[i - 1], corner, corners[(i + 1) % count])]


def area(corners):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, corners[1:] + corners[:1])) / 2


def main():
    fonts = pathlib.Path(sys.argv[1]) / "@fontsource"
    print(HEAD.format(units=UNITS, drop=DROP))
    tables = []
    for name, title, file, zero, (foot, head) in SCRIPTS:
        font = TTFont(fonts / file)
        lines = [f"/// {title}, 0 to 9.", "#[rustfmt::skip]", f"pub(super) static {name}: [Digit; 10] = ["]
        for digit in range(10):
            advance, contours = flattened(font, zero + digit, foot, head - foot)
            contours = sorted(map(whole, contours), key=lambda it: -abs(area(it)))
            lines.append(f"    Digit {{ advance: {round(advance * UNITS)}, contours: &[")
            for contour in contours:
                corners = ", ".join(f"({x}, {y})" for x, y in contour)
                lines.append(f"        &[{corners}],")
            lines.append("    ] },")
        lines.append("];")
        tables.append("\n".join(lines))
    print("\n\n".join(tables))


main()
