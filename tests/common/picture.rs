//! Two SVG texts compared: the same marks, with numbers that may differ by a hair.

/// One piece of a text: a number, a colour, or letters between them.
#[derive(Debug, PartialEq)]
enum Piece<'a> {
    Number(f64),
    Colour([u8; 3]),
    Letters(&'a str),
}

/// How far two pictures may be apart.
#[derive(Clone, Copy, Debug)]
pub struct Tolerance {
    /// Lengths in the picture, pixels, and all other numbers.
    pub length: f64,
    /// Each channel of a colour, of 255.
    pub channel: u8,
}

/// The first difference of two pictures in words, and how many lines differ; `None` if there is
/// none.
pub fn difference(expected: &str, drawn: &str, tolerance: Tolerance) -> Option<String> {
    let (expected, drawn): (Vec<&str>, Vec<&str>) =
        (expected.lines().collect(), drawn.lines().collect());
    let faults: Vec<(usize, String)> = expected
        .iter()
        .zip(&drawn)
        .enumerate()
        .filter_map(|(index, (was, is))| Some((index + 1, in_line(was, is, tolerance)?)))
        .collect();
    let (more, fewer) = (drawn.len(), expected.len());
    let lines = (more != fewer).then(|| format!("{more} marks' lines where {fewer} were expected"));
    let first = faults.first().map(|(line, fault)| format!("line {line}: {fault}"));
    let count = (faults.len() > 1).then(|| format!("{} lines differ", faults.len()));
    let parts: Vec<String> = [lines, first, count].into_iter().flatten().collect();
    (!parts.is_empty()).then(|| parts.join("; "))
}

fn in_line(was: &str, is: &str, tolerance: Tolerance) -> Option<String> {
    if was == is {
        return None;
    }
    let (expected, drawn) = (pieces(was), pieces(is));
    let pair = expected.iter().zip(&drawn).find(|(was, is)| !alike(was, is, tolerance));
    match pair {
        Some((was, is)) => {
            let mark: String = is_of(&drawn).chars().take(48).collect();
            Some(format!("{is:?} where {was:?} was expected, in “{mark}…”"))
        }
        None if expected.len() != drawn.len() => {
            Some(format!("{} pieces where {} were expected", drawn.len(), expected.len()))
        }
        None => None,
    }
}

/// The letters of a line, by which a mark is known.
fn is_of(pieces: &[Piece<'_>]) -> String {
    let letters = pieces.iter().map(|piece| match piece {
        Piece::Letters(letters) => letters,
        _ => "·",
    });
    letters.collect()
}

fn alike(was: &Piece<'_>, is: &Piece<'_>, tolerance: Tolerance) -> bool {
    match (was, is) {
        (Piece::Number(a), Piece::Number(b)) => (a - b).abs() <= tolerance.length,
        (Piece::Colour(a), Piece::Colour(b)) => {
            a.iter().zip(b).all(|(a, b)| a.abs_diff(*b) <= tolerance.channel)
        }
        (was, is) => was == is,
    }
}

fn pieces(line: &str) -> Vec<Piece<'_>> {
    let (mut pieces, mut rest) = (Vec::new(), line);
    while !rest.is_empty() {
        let (piece, length) = first_piece(rest);
        pieces.push(piece);
        rest = &rest[length..];
    }
    pieces
}

fn first_piece(text: &str) -> (Piece<'_>, usize) {
    if let Some(colour) = text.strip_prefix('#').and_then(|digits| digits.get(..6))
        && let Ok(rgb) = u32::from_str_radix(colour, 16)
    {
        let [_, red, green, blue] = rgb.to_be_bytes();
        return (Piece::Colour([red, green, blue]), 7);
    }
    let is_part = |letter: char| letter.is_ascii_digit() || matches!(letter, '.' | '-');
    let length = text.find(|letter| !is_part(letter)).unwrap_or(text.len());
    if let Ok(number) = text[..length].parse() {
        return (Piece::Number(number), length);
    }
    let begins = |(at, letter): (usize, char)| at > 0 && (letter == '#' || is_part(letter));
    let end = text.char_indices().find(|&it| begins(it)).map_or(text.len(), |(at, _)| at);
    (Piece::Letters(&text[..end]), end)
}

/// The comparison itself: what it lets pass, and what it finds.
pub fn check_itself() {
    let tolerance = Tolerance { length: 0.05, channel: 2 };
    let line = "<path d=\"M-1.5 2L3 4Z\" fill=\"#aabb0c\"/>\n<text x=\"2\">9:52:40</text>";
    let same = line.replace("1.5", "1.54").replace("aabb0c", "aabc0e");
    assert_eq!(difference(line, &same, tolerance), None);
    for (what, instead) in
        [("1.5", "1.56"), ("bb0c", "bb0f"), ("L3", "M3"), ("L3 4", ""), (":40", ":20"), ("Z", "")]
    {
        let other = line.replace(what, instead);
        assert!(difference(line, &other, tolerance).is_some(), "“{what}” may be “{instead}”");
    }
    let shorter = line.lines().next().unwrap_or_default();
    assert!(difference(line, shorter, tolerance).is_some());
}
