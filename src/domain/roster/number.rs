//! A shirt number at either end of a run of text: digits of any script, a sign before, a bracket around, a mark between it and
//! the name. Owns where a number may stand; refuses to say whether it is one a shirt can carry.

/// What stands in a text besides a number at its edge.
pub(super) struct Parted<'a> {
    pub number: Option<u32>,
    pub name: &'a str,
    /// There is another number, at the other edge or beside the first.
    pub more: bool,
}

/// Parts a single-spaced text.
pub(super) fn part(text: &str) -> Parted<'_> {
    let (number, more, name) = match (front(text), back(text)) {
        (Some((number, rest)), _) => (Some(number), front(rest).is_some() || back(rest).is_some(), rest),
        (None, Some((number, rest))) => (Some(number), back(rest).is_some(), rest),
        (None, None) => (None, false, text),
    };
    Parted { number, name, more }
}

/// The number, if there is nothing else.
pub(super) fn alone(text: &str) -> Option<u32> {
    front(text).filter(|(_, rest)| rest.is_empty()).map(|(number, _)| number)
}

pub(super) fn is_digit(c: char) -> bool {
    digit(c).is_some()
}

/// Words that announce a number, in small letters, longest first. A lone "no" behind a name is not among them: it may be
/// the child's family name.
const WORDS: [&str; 9] = ["número", "numéro", "nummer", "number", "num", "nr", "no", "n°", "nº"];
const SIGNS: [char; 3] = ['#', '＃', '№'];
const OPEN: [char; 3] = ['(', '[', '（'];
const CLOSE: [char; 3] = [')', ']', '）'];
/// What makes a digit a key cap picture.
const KEYCAP: [char; 2] = ['\u{fe0f}', '\u{20e3}'];

fn front(text: &str) -> Option<(u32, &str)> {
    let inner = text.strip_prefix(OPEN).map(str::trim_start);
    let is_open = inner.is_some();
    let unsigned = without_sign_front(inner.unwrap_or(text));
    let signed = unsigned.is_some();
    let digits = unsigned.or(inner).unwrap_or(text);
    let after = digits.trim_start_matches(is_digit);
    let number = value(&digits[..digits.len() - after.len()])?;
    let mut rest = after.trim_start_matches(KEYCAP);
    let keycap = rest.len() < after.len();
    if is_open {
        rest = rest.trim_start().strip_prefix(CLOSE)?;
    }
    let parted = is_open || signed || keycap || rest.is_empty() || rest.starts_with(is_mark);
    parted.then(|| (number, rest.trim_start_matches(is_mark)))
}

fn back(text: &str) -> Option<(u32, &str)> {
    let text = text.trim_end_matches(|c| is_mark(c) && !CLOSE.contains(&c));
    let inner = text.strip_suffix(CLOSE);
    let digits = inner.unwrap_or(text).trim_end().trim_end_matches(KEYCAP);
    let before = digits.trim_end_matches(is_digit);
    let number = value(&digits[before.len()..])?;
    let unsigned = without_sign_back(before);
    let mut rest = unsigned.unwrap_or(before);
    if inner.is_some() {
        rest = rest.trim_end().strip_suffix(OPEN)?;
    }
    let parted = inner.is_some() || unsigned.is_some() || rest.is_empty() || rest.ends_with(is_mark);
    // In "Mira K. 7" the stop belongs to the name, in "Mira.7" it parts the two.
    let rest = rest.strip_suffix(['.', '．']).unwrap_or(rest);
    parted.then(|| (number, rest.trim_end_matches(|c| is_mark(c) && !matches!(c, '.' | '．') && !CLOSE.contains(&c))))
}

fn without_sign_front(text: &str) -> Option<&str> {
    let rest = text.strip_prefix(SIGNS).or_else(|| {
        WORDS.iter().find_map(|word| {
            let head = text.get(..word.len())?;
            (head.to_lowercase() == *word).then(|| &text[word.len()..])
        })
    })?;
    let rest = rest.strip_prefix('.').unwrap_or(rest).trim_start();
    rest.starts_with(is_digit).then_some(rest)
}

fn without_sign_back(text: &str) -> Option<&str> {
    let text = text.trim_end();
    if let Some(rest) = text.strip_suffix(SIGNS) {
        return Some(rest);
    }
    let (word, dotted) = text.strip_suffix('.').map_or((text, false), |t| (t, true));
    let rest = WORDS.iter().filter(|&&w| dotted || w != "no").find_map(|w| {
        let start = word.len().checked_sub(w.len())?;
        (word.get(start..)?.to_lowercase() == *w).then(|| &word[..start])
    })?;
    // The word stands by itself: "Bruno. 7" announces nothing.
    (rest.is_empty() || rest.ends_with(is_mark) || rest.ends_with(OPEN)).then_some(rest)
}

/// What may stand between a number and a name.
fn is_mark(c: char) -> bool {
    " .．:：,;،؛，、；)]）-–—−|/=".contains(c)
}

/// `None` without a digit. Too many digits stay too big.
fn value(digits: &str) -> Option<u32> {
    digits.chars().try_fold(None, |sum: Option<u32>, c| {
        Some(Some(sum.unwrap_or(0).saturating_mul(10).saturating_add(digit(c)?)))
    })?
}

/// The value of a decimal digit of the scripts in use on phones (Unicode, general category Nd).
fn digit(c: char) -> Option<u32> {
    const ZEROS: [u32; 18] = [
        0x30, 0x660, 0x6f0, 0x966, 0x9e6, 0xa66, 0xae6, 0xb66, 0xbe6, 0xc66, 0xce6, 0xd66, 0xe50, 0xed0, 0x1040,
        0x17e0, 0x1810, 0xff10,
    ];
    ZEROS.iter().filter_map(|&zero| u32::from(c).checked_sub(zero)).find(|&d| d < 10)
}
