//! Columns of whole numbers. A column that seldom changes costs next to nothing: eight equal values or more are written as one
//! pair of value and count. Counts are claims: nothing is allocated from one, values are given out one at a time.

use serde::de::{Deserialize, Deserializer, Error, SeqAccess, Visitor};
use std::fmt;

/// A column: JSON numbers, and pairs `[value,count]` for equal values in a row. Written by `push`, read by `next`.
#[derive(Default)]
pub(super) struct Runs {
    /// Value and how many are left of it.
    list: Vec<(i64, u64)>,
    at: usize,
}

impl Runs {
    /// So many equal values become a pair.
    const PAIR_FROM: u64 = 8;

    pub fn push(&mut self, value: i64) {
        match self.list.last_mut() {
            Some((last, count)) if *last == value => *count += 1,
            _ => self.list.push((value, 1)),
        }
    }

    pub fn next(&mut self) -> Option<i64> {
        let (value, left) = self.list.get_mut(self.at)?;
        *left -= 1;
        let value = *value;
        if *left == 0 {
            self.at += 1;
        }
        Some(value)
    }

    pub fn is_done(&self) -> bool {
        self.at >= self.list.len()
    }
}

impl fmt::Display for Runs {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("[")?;
        let mut comma = "";
        for &(value, count) in &self.list {
            if count >= Self::PAIR_FROM {
                write!(f, "{comma}[{value},{count}]")?;
                comma = ",";
                continue;
            }
            for _ in 0..count {
                write!(f, "{comma}{value}")?;
                comma = ",";
            }
        }
        f.write_str("]")
    }
}

impl<'de> Deserialize<'de> for Runs {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let items: Vec<Item> = Vec::deserialize(deserializer)?;
        Ok(Runs { list: items.into_iter().map(|item| (item.value, item.count)).collect(), at: 0 })
    }
}

struct Item {
    value: i64,
    /// At least 1.
    count: u64,
}

impl<'de> Deserialize<'de> for Item {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct ItemVisitor;
        impl<'de> Visitor<'de> for ItemVisitor {
            type Value = Item;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a number, or a pair of number and count")
            }
            fn visit_i64<E: Error>(self, value: i64) -> Result<Item, E> {
                Ok(Item { value, count: 1 })
            }
            fn visit_u64<E: Error>(self, value: u64) -> Result<Item, E> {
                let value = i64::try_from(value).map_err(|_| E::custom("too large"))?;
                Ok(Item { value, count: 1 })
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Item, A::Error> {
                let value = seq.next_element()?;
                let count = seq.next_element()?;
                match (value, count, seq.next_element::<i64>()?) {
                    (Some(value), Some(count), None) if count > 0 => Ok(Item { value, count }),
                    _ => Err(A::Error::custom("not a pair of number and count")),
                }
            }
        }
        deserializer.deserialize_any(ItemVisitor)
    }
}

/// A column that is mostly nothing: left out where all its values are 0, and read as zeros where it is missing.
#[derive(Default)]
pub(super) struct Rest(Runs);

impl Rest {
    pub fn push(&mut self, value: i64) {
        self.0.push(value);
    }

    /// Never ends where nothing was written.
    pub fn next(&mut self) -> Option<i64> {
        if self.0.list.is_empty() { Some(0) } else { self.0.next() }
    }

    pub fn is_done(&self) -> bool {
        self.0.is_done()
    }

    fn has_something(&self) -> bool {
        self.0.list.iter().any(|(value, _)| *value != 0)
    }
}

impl<'de> Deserialize<'de> for Rest {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Runs::deserialize(deserializer).map(Rest)
    }
}

/// A column as it is written, if it is: `,"name":[…]`.
pub(super) trait Column {
    fn written(&self) -> Option<&dyn fmt::Display>;
}

impl Column for Runs {
    fn written(&self) -> Option<&dyn fmt::Display> {
        Some(self)
    }
}

impl Column for Plain {
    fn written(&self) -> Option<&dyn fmt::Display> {
        Some(self)
    }
}

impl Column for Rest {
    fn written(&self) -> Option<&dyn fmt::Display> {
        self.has_something().then_some(&self.0)
    }
}

/// A column that spells out each value, so that whoever claims a million entries has to send a million numbers.
#[derive(Default, serde::Deserialize)]
#[serde(transparent)]
pub(super) struct Plain {
    list: Vec<i64>,
    #[serde(skip)]
    at: usize,
}

impl Plain {
    pub fn push(&mut self, value: i64) {
        self.list.push(value);
    }

    pub fn next(&mut self) -> Option<i64> {
        let value = *self.list.get(self.at)?;
        self.at += 1;
        Some(value)
    }

    pub fn len(&self) -> usize {
        self.list.len()
    }

    pub fn is_done(&self) -> bool {
        self.at >= self.list.len()
    }
}

impl fmt::Display for Plain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("[")?;
        for (i, value) in self.list.iter().enumerate() {
            let comma = if i == 0 { "" } else { "," };
            write!(f, "{comma}{value}")?;
        }
        f.write_str("]")
    }
}

/// Declares the columns of a section: a struct with one field a column, read whole or not at all.
macro_rules! section {
    ($(#[$meta:meta])* $name:ident { $($(#[$of:meta])* $column:ident: $kind:ty),* $(,)? }) => {
        $(#[$meta])*
        #[derive(Default, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        pub(super) struct $name {
            $($(#[$of])* pub $column: $kind,)*
        }

        impl $name {
            /// Whether every value has been given out.
            pub fn is_done(&self) -> bool {
                $(self.$column.is_done())&&*
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                let mut open = "{";
                $(
                    if let Some(column) = $crate::wire::column::Column::written(&self.$column) {
                        write!(f, "{open}\"{}\":{column}", stringify!($column))?;
                        open = ",";
                    }
                )*
                f.write_str(if open == "{" { "{}" } else { "}" })
            }
        }
    };
}
pub(super) use section;

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(values: &[i64], text: &str) {
        let mut column = Runs::default();
        values.iter().for_each(|value| column.push(*value));
        assert_eq!(column.to_string(), text);
        let mut read: Runs = serde_json::from_str(text).unwrap();
        let back: Vec<i64> = std::iter::from_fn(|| read.next()).collect();
        assert_eq!(back, values);
        assert!(read.is_done());
    }

    #[test]
    fn equal_values_in_a_row_become_a_pair() {
        check(&[], "[]");
        check(&[7], "[7]");
        check(&[7, 7, 7], "[7,7,7]");
        check(&[1, 7, 7, 7, 7, 7, 7, 7, 7, -2], "[1,[7,8],-2]");
        check(&[i64::MIN, i64::MAX], "[-9223372036854775808,9223372036854775807]");
    }

    #[test]
    fn what_is_no_column() {
        for text in ["[[1,0]]", "[[1]]", "[[1,2,3]]", "[1.0]", "[9223372036854775808]", "[null]", "[[1,-1]]", "{}"] {
            assert!(serde_json::from_str::<Runs>(text).is_err(), "{text}");
        }
    }

    #[test]
    fn an_absurd_count_allocates_nothing() {
        let mut column: Runs = serde_json::from_str("[[3,18446744073709551615]]").unwrap();
        assert_eq!(column.next(), Some(3));
        assert!(!column.is_done());
    }
}
