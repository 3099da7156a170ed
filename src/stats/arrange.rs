//! Sorting in little code. The standard library's sort is compiled anew, some four kilobytes, for every type it is used with; this
//! one sorts places and is compiled once. For short lists only in that it moves each item twice.

use std::cmp::Ordering;

/// The items in order; equal ones stay in the order they came.
///
/// ```
/// use peppertally::stats::arrange::arranged;
/// let words = vec!["swap", "pass", "in", "net"];
/// assert_eq!(arranged(words, |a, b| a.len().cmp(&b.len())), ["in", "net", "swap", "pass"]);
/// ```
pub fn arranged<T>(items: Vec<T>, compare: impl Fn(&T, &T) -> Ordering) -> Vec<T> {
    let places = places(items.len(), &|a, b| compare(&items[a], &items[b]));
    let mut items: Vec<Option<T>> = items.into_iter().map(Some).collect();
    places.into_iter().filter_map(|place| items[place].take()).collect()
}

/// Merge sort from below: runs of 1, 2, 4 … places are merged.
fn places(n: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut from: Vec<usize> = (0..n).collect();
    let mut width = 1;
    while width < n {
        let mut into = Vec::with_capacity(n);
        for start in (0..n).step_by(2 * width) {
            let (middle, end) = ((start + width).min(n), (start + 2 * width).min(n));
            let (mut left, mut right) = (start, middle);
            while left < middle || right < end {
                let take_left =
                    right == end || (left < middle && compare(from[left], from[right]) != Ordering::Greater);
                let next = if take_left { &mut left } else { &mut right };
                into.push(from[*next]);
                *next += 1;
            }
        }
        from = into;
        width *= 2;
    }
    from
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sorts_as_the_standard_library_does() {
        let mut state = 7_u32;
        for n in 0..70 {
            let items: Vec<(u32, usize)> = (0..n)
                .map(|i| {
                    state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                    (state >> 29, i)
                })
                .collect();
            let mut expected = items.clone();
            expected.sort_by_key(|(key, _)| *key);
            assert_eq!(arranged(items, |a, b| a.0.cmp(&b.0)), expected, "{n} items");
        }
    }
}
