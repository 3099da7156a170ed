//! How alike two children are as they were entered: by name, with the shirt's number beside. Refuses to say that they are one: that is the
//! coach's word.

use super::super::ids::ShirtNumber;
use super::same::name_key;

/// What a shirt's number says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shirts {
    Same,
    /// One of them has none.
    Unknown,
    Differ,
}

/// What the names say, the closest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Names {
    /// The same but for capitals, accents and signs.
    Same,
    /// The same words in another order.
    Turned,
    OneLetter,
    /// Written otherwise and said alike: Sofie, Sophie.
    Sound,
    /// All of one stands in the other: a first name alone, an initial.
    Part,
    TwoLetters,
}

/// How alike they are; the first are the likeliest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Likeness {
    pub shirts: Shirts,
    pub names: Names,
}

/// A child as it was entered.
pub type Entered<'a> = (&'a str, Option<ShirtNumber>);

/// So short a name differs from many others by a letter.
const LEAST_LETTERS: usize = 4;

/// `None`: nothing speaks for it that they are one. With the same number on the shirt more is let pass; with two different ones the names
/// have to be the same.
///
/// ```
/// use peppertally::domain::ids::ShirtNumber;
/// use peppertally::domain::roster::{Names, likeness};
/// let names = |one: &str, other: &str| likeness((one, None), (other, None)).map(|like| like.names);
/// assert_eq!(names("Zoë Lund", "zoe lund"), Some(Names::Same));
/// assert_eq!(names("Lund, Zoë", "Zoe Lund"), Some(Names::Turned));
/// assert_eq!(names("Mirja", "Mirjam"), Some(Names::OneLetter));
/// assert_eq!(names("Mira", "Mira H."), Some(Names::Part));
/// assert_eq!(names("Sofie", "Sophie"), Some(Names::Sound));
/// assert_eq!(names("Fin", "Finn"), Some(Names::Sound));
/// assert_eq!(names("Mia", "Mea"), None);
/// let shirt = |name, number| (name, Some(ShirtNumber(number)));
/// assert_eq!(likeness(shirt("Katja", 7), shirt("Katya", 9)), None);
/// assert!(likeness(shirt("Katja", 7), shirt("Catya", 7)).is_some());
/// ```
pub fn likeness(one: Entered, other: Entered) -> Option<Likeness> {
    let shirts = match (one.1, other.1) {
        (Some(one), Some(other)) if one == other => Shirts::Same,
        (Some(_), Some(_)) => Shirts::Differ,
        _ => Shirts::Unknown,
    };
    let names = names(&words(one.0), &words(other.0), shirts == Shirts::Same)?;
    let speaks = shirts != Shirts::Differ || names <= Names::Turned;
    speaks.then_some(Likeness { shirts, names })
}

fn names(one: &[String], other: &[String], same_shirt: bool) -> Option<Names> {
    if one.is_empty() || other.is_empty() {
        return None;
    }
    if one == other {
        return Some(Names::Same);
    }
    let (mut one, mut other) = (one.to_vec(), other.to_vec());
    one.sort_unstable();
    other.sort_unstable();
    if one == other {
        return Some(Names::Turned);
    }
    let (text, other_text) = (one.concat(), other.concat());
    let (n, n_other) = (text.chars().count(), other_text.chars().count());
    let apart = if n.abs_diff(n_other) > 2 { usize::MAX } else { strsim::osa_distance(&text, &other_text) };
    let long = n.min(n_other) >= LEAST_LETTERS;
    match apart {
        // Asked first: an initial that was added is one letter, too.
        _ if is_part(&one, &other, same_shirt) || is_part(&other, &one, same_shirt) => Some(Names::Part),
        1 if long || same_shirt => Some(Names::OneLetter),
        _ if sound(&text) == sound(&other_text) => Some(Names::Sound),
        2 if long && same_shirt => Some(Names::TwoLetters),
        _ => None,
    }
}

/// Every word of the one stands in the other, whole or as its first letter; not by first letters alone, unless the shirt says the same.
fn is_part(one: &[String], other: &[String], same_shirt: bool) -> bool {
    let begins = |word: &String, of: &String| word.chars().count() == 1 && of.starts_with(word.as_str());
    let stands = |word: &String| other.iter().any(|of| word == of || begins(word, of) || begins(of, word));
    let whole = one.iter().any(|word| other.contains(word));
    one.len() <= other.len() && one.iter().all(stands) && (whole || same_shirt)
}

/// As it may be said, roughly: ways of writing one sound are one, and no letter stands twice. Common practice, no source; it only asks.
fn sound(text: &str) -> String {
    const ONE: [(&str, &str); 8] =
        [("ph", "f"), ("th", "t"), ("ck", "k"), ("ie", "i"), ("c", "k"), ("q", "k"), ("z", "s"), ("y", "i")];
    let said = ONE.iter().fold(text.to_owned(), |said, (from, to)| said.replace(from, to));
    let mut once: Vec<char> = said.chars().collect();
    once.dedup();
    once.into_iter().collect()
}

/// The words of a name without capitals, accents and signs.
fn words(name: &str) -> Vec<String> {
    let mut plain = String::with_capacity(name.len());
    for c in name_key(name).chars() {
        match c {
            // Letters that Unicode takes apart nowhere, as one types them without their stroke.
            'ø' => plain.push('o'),
            'ł' => plain.push('l'),
            'đ' | 'ð' => plain.push('d'),
            'ı' => plain.push('i'),
            'ß' => plain.push_str("ss"),
            'æ' => plain.push_str("ae"),
            'œ' => plain.push_str("oe"),
            '\u{300}'..='\u{36f}' | '\u{653}'..='\u{655}' | '\u{3099}' | '\u{309a}' => {}
            // Within a name a stroke or an apostrophe parts nothing: Anne-Marie, AnneMarie.
            '-' | '\'' | '’' | '`' => {}
            c if c.is_alphanumeric() => plain.push(c),
            _ => plain.push(' '),
        }
    }
    plain.split_whitespace().map(str::to_owned).collect()
}
