//! What is typed, as it may be kept: without control characters, which no file may bring, and no longer than it may be.

/// In one line.
pub fn plain(text: &str, most: usize) -> String {
    cut(text, most, false)
}

/// With its ends of lines.
pub fn lines(text: &str, most: usize) -> String {
    cut(text, most, true)
}

fn cut(text: &str, most: usize, lines: bool) -> String {
    text.chars().filter(|c| !c.is_control() || lines && *c == '\n').take(most).collect()
}
