//! Tests of the numerals.

use super::*;

/// Twice the area inside a contour, positive counter-clockwise.
fn area(contour: &Contour) -> f64 {
    let next = contour.iter().cycle().skip(1);
    contour.iter().zip(next).map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum()
}

/// How often a point is gone round, by the non-zero rule's count.
fn turns(contours: &[Contour], (x, y): (f64, f64)) -> i32 {
    let mut turns = 0;
    for contour in contours {
        let next = contour.iter().cycle().skip(1);
        for (a, b) in contour.iter().zip(next) {
            let left = (b.0 - a.0) * (y - a.1) - (x - a.0) * (b.1 - a.1);
            match (a.1 <= y, b.1 <= y) {
                (true, false) if left > 0.0 => turns += 1,
                (false, true) if left < 0.0 => turns -= 1,
                _ => {}
            }
        }
    }
    turns
}

fn tables() -> [&'static [Digit; 10]; 3] {
    [&digits::WESTERN, &digits::DEVANAGARI, &digits::EASTERN_ARABIC]
}

/// A digit as a numeral of its own.
fn alone(digit: &Digit) -> Numeral {
    let mut numeral = Numeral { width: 0.0, parts: Vec::new() };
    numeral.add(digit);
    numeral
}

/// Least and greatest `x` and `y`.
fn bounds(numeral: &Numeral) -> [f64; 4] {
    let corners = numeral.parts.iter().flatten().flatten();
    corners.fold([f64::MAX, f64::MIN, f64::MAX, f64::MIN], |[a, b, c, d], &(x, y)| {
        [a.min(x), b.max(x), c.min(y), d.max(y)]
    })
}

#[test]
fn every_digit_has_a_sane_box_and_is_full_outside_and_empty_inside() {
    for (script, table) in tables().into_iter().enumerate() {
        for (value, digit) in table.iter().enumerate() {
            let told = format!("digit {value} of table {script}");
            let numeral = alone(digit);
            let [left, right, foot, head] = bounds(&numeral);
            assert!(left > 0.05 && right < numeral.width - 0.05, "{told}: {left} {right}");
            assert!(foot >= -0.15 && head <= 1.1, "{told}: {foot} {head}");
            // Naughts are small in two of the scripts.
            let least = if value == 0 { 0.3 } else { 0.8 };
            assert!(head - foot > least, "{told}: {foot} {head}");
            let contours = &numeral.parts[0];
            for (index, contour) in contours.iter().enumerate() {
                let area = area(contour);
                assert!(contour.len() >= 3 && area.abs() > 0.01, "{told}: {area}");
                assert!(index > 0 || area > 0.0, "{told} runs the wrong way round");
                let next = contour.iter().cycle().skip(1);
                assert!(contour.iter().zip(next).all(|(a, b)| a != b), "{told} stands still");
            }
        }
    }
}

#[test]
fn counters_are_holes_and_strokes_are_not() {
    let [western, devanagari, arabic] = tables();
    let holes = |digit: &Digit| {
        let numeral = alone(digit);
        let contours = &numeral.parts[0];
        let middle = |contour: &Contour| {
            let sum = contour.iter().fold((0.0, 0.0), |sum, at| (sum.0 + at.0, sum.1 + at.1));
            (sum.0 / contour.len() as f64, sum.1 / contour.len() as f64)
        };
        let inner = contours.iter().skip(1).filter(|contour| area(contour) < 0.0);
        inner.filter(|contour| turns(contours, middle(contour)) == 0).count()
    };
    let count = |table: &[Digit; 10]| table.iter().map(holes).collect::<Vec<_>>();
    assert_eq!(count(western), [1, 0, 0, 0, 1, 0, 1, 0, 2, 1]);
    assert_eq!(holes(&devanagari[0]), 1);
    assert_eq!(count(arabic), [0, 0, 0, 0, 0, 1, 0, 0, 0, 1]);
    // The stem of a Western 1, and of an Eastern Arabic one.
    assert_eq!(turns(&alone(&western[1]).parts[0], (0.45, 0.5)), 1);
    assert_eq!(turns(&alone(&arabic[1]).parts[0], (0.31, 0.3)), 1);
}

#[test]
fn hours_count_from_midnight_and_from_noon_alike() {
    for script in Script::ALL {
        for hour in 0..=12 {
            let numeral = Numeral::of_hour(script, hour);
            assert_eq!(Numeral::of_hour(script, hour + 12), numeral);
            let [left, right, foot, head] = bounds(&numeral);
            assert!(left >= 0.0 && right <= numeral.width, "{script:?} {hour}");
            assert!((0.75..1.2).contains(&(head - foot)), "{script:?} {hour}: {foot} {head}");
        }
        let numerals: Vec<_> = (1..=12).map(|hour| Numeral::of_hour(script, hour)).collect();
        for (index, numeral) in numerals.iter().enumerate() {
            assert!(!numerals[..index].contains(numeral), "{script:?} {}", index + 1);
        }
    }
}

#[test]
fn tens_stand_left_of_ones() {
    for (script, table) in Script::ALL[1..].iter().zip(tables()) {
        let twelve = Numeral::of_hour(*script, 12);
        assert_eq!(twelve.parts[0], alone(&table[1]).parts[0], "{script:?}");
        assert_eq!(twelve.width, alone(&table[1]).width + alone(&table[2]).width);
        assert_eq!(Numeral::of_hour(*script, 0), twelve);
        let ones = bounds(&Numeral { width: 0.0, parts: twelve.parts[1..].to_vec() });
        assert!(ones[0] > alone(&table[1]).width, "{script:?}");
    }
}

#[test]
fn masons_cut_four_strokes_for_four() {
    let parts = |hour| Numeral::of_hour(Script::Roman, hour).parts.len();
    assert_eq!([1, 2, 3, 4].map(parts), [1, 2, 3, 4]);
    assert!(Numeral::of_hour(Script::Roman, 8).width > Numeral::of_hour(Script::Roman, 6).width);
}
