//! JSON objects that keep what they don't know. `Fields` reads an object and gives out the fields that nobody asked for;
//! `Object` writes one and takes such fields back in. Knows no volleyball. Numbers are never read into floating point.

use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
use serde_json::value::RawValue;
use std::borrow::Cow;
use std::fmt;

use super::record::RecordError;

/// Why a value was not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Misfit {
    /// A word that this version doesn't know: a newer version's, to be kept as it is.
    Newer,
    Broken(RecordError),
}

impl From<RecordError> for Misfit {
    fn from(error: RecordError) -> Self {
        Misfit::Broken(error)
    }
}

/// A field's name, or any text, borrowed where it holds no escape.
#[derive(serde::Deserialize)]
pub(super) struct Text<'a>(#[serde(borrow)] pub Cow<'a, str>);

struct Field<'a> {
    name: Cow<'a, str>,
    value: &'a RawValue,
    taken: bool,
}

/// The fields of one object, in the order they came. What was not taken is the rest.
pub(super) struct Fields<'a> {
    list: Vec<Field<'a>>,
    /// The rest of nested objects.
    deep: Vec<(&'static str, String)>,
}

impl<'a> Fields<'a> {
    pub fn parse(text: &'a str) -> Result<Self, RecordError> {
        let fields: Fields<'a> = serde_json::from_str(text).map_err(|error| parse_error(text, &error))?;
        let mut names: Vec<&str> = fields.list.iter().map(|field| field.name.as_ref()).collect();
        names.sort_unstable();
        match names.windows(2).find(|pair| pair[0] == pair[1]) {
            Some(pair) => Err(RecordError::Twice { field: pair[0].to_owned() }),
            None => Ok(fields),
        }
    }

    pub fn has(&self, name: &str) -> bool {
        self.list.iter().any(|field| field.name == name)
    }

    /// The names that nobody took yet.
    pub fn untaken(&self) -> impl Iterator<Item = &str> {
        self.list.iter().filter(|field| !field.taken).map(|field| field.name.as_ref())
    }

    /// The raw text of a field, taken out of the rest.
    pub fn raw(&mut self, name: &str) -> Option<&'a str> {
        let field = self.list.iter_mut().find(|field| !field.taken && field.name == name)?;
        field.taken = true;
        Some(field.value.get())
    }

    /// `None` where the field is absent; `null` is no value.
    pub fn maybe<T: Deserialize<'a>>(&mut self, name: &'static str) -> Result<Option<T>, RecordError> {
        match self.raw(name) {
            None => Ok(None),
            Some(raw) => match serde_json::from_str(raw) {
                Ok(value) => Ok(Some(value)),
                Err(_) => Err(RecordError::Misfit { field: name }),
            },
        }
    }

    pub fn need<T: Deserialize<'a>>(&mut self, name: &'static str) -> Result<T, RecordError> {
        self.maybe(name)?.ok_or(RecordError::Missing { field: name })
    }

    pub fn text(&mut self, name: &'static str) -> Result<Cow<'a, str>, RecordError> {
        self.need::<Text<'a>>(name).map(|text| text.0)
    }

    /// A mark that is false where it is absent.
    pub fn mark(&mut self, name: &'static str) -> Result<bool, RecordError> {
        Ok(self.maybe(name)?.unwrap_or(false))
    }

    /// A choice by its word. A word that `known` doesn't have is a newer version's.
    pub fn maybe_word<T>(
        &mut self,
        name: &'static str,
        known: impl Fn(&str) -> Option<T>,
    ) -> Result<Option<T>, Misfit> {
        match self.maybe::<Text<'a>>(name)? {
            None => Ok(None),
            Some(word) => known(&word.0).map(Some).ok_or(Misfit::Newer),
        }
    }

    pub fn word<T>(&mut self, name: &'static str, known: impl Fn(&str) -> Option<T>) -> Result<T, Misfit> {
        self.maybe_word(name, known)?.ok_or(Misfit::Broken(RecordError::Missing { field: name }))
    }

    /// A nested object. What `read` leaves of it belongs to the rest of this one, under the same name.
    pub fn nested<T>(
        &mut self,
        name: &'static str,
        read: impl FnOnce(&mut Fields<'a>) -> Result<T, Misfit>,
    ) -> Result<T, Misfit> {
        let raw = self.raw(name).ok_or(RecordError::Missing { field: name })?;
        let mut inner = Fields::parse(raw).map_err(|_| RecordError::Misfit { field: name })?;
        let value = read(&mut inner)?;
        if let Some(rest) = inner.rest() {
            self.deep.push((name, rest));
        }
        Ok(value)
    }

    /// A nested object whose rest is passed over.
    pub fn object(&mut self, name: &'static str) -> Result<Fields<'a>, RecordError> {
        Fields::parse(self.raw(name).ok_or(RecordError::Missing { field: name })?)
    }

    /// A list of objects.
    pub fn objects(&mut self, name: &'static str) -> Result<Vec<Fields<'a>>, RecordError> {
        let list: Vec<&RawValue> = self.need(name)?;
        list.into_iter().map(|raw| Fields::parse(raw.get())).collect()
    }

    /// As if nothing but `kept` had been taken.
    pub fn restore(&mut self, kept: &[&str]) {
        self.deep.clear();
        for field in &mut self.list {
            field.taken = kept.contains(&field.name.as_ref());
        }
    }

    /// The fields that nobody took, as an object, each value as it was written.
    pub fn rest(&self) -> Option<String> {
        let mut object = Object::default();
        for field in self.list.iter().filter(|field| !field.taken) {
            object.push_raw(field.name.to_string(), field.value.get().to_owned());
        }
        for (name, rest) in &self.deep {
            object.push_raw((*name).to_owned(), rest.clone());
        }
        (!object.is_empty()).then(|| object.to_string())
    }
}

impl<'de> Deserialize<'de> for Fields<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct ObjectVisitor;
        impl<'de> Visitor<'de> for ObjectVisitor {
            type Value = Fields<'de>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("an object")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
                let mut list = Vec::new();
                while let Some((Text(name), value)) = map.next_entry::<Text<'de>, &'de RawValue>()? {
                    list.push(Field { name, value, taken: false });
                }
                Ok(Fields { list, deep: Vec::new() })
            }
        }
        deserializer.deserialize_map(ObjectVisitor)
    }
}

/// Where a text stopped being an object, or that it ended too soon.
fn parse_error(text: &str, error: &serde_json::Error) -> RecordError {
    let lines_before = text.split_inclusive('\n').take(error.line().saturating_sub(1));
    let at = lines_before.map(str::len).sum::<usize>() + error.column();
    // The parser takes the first half of a number for a wrong one.
    let in_number = at + 1 >= text.len() && text.ends_with(['-', '+', '.', 'e', 'E']);
    if error.is_eof() || in_number { RecordError::CutOff } else { RecordError::NotAnObject { at } }
}

enum Value {
    Raw(String),
    Nested(Object),
}

/// An object being written, its fields in the order they are pushed.
#[derive(Default)]
pub(super) struct Object {
    list: Vec<(String, Value)>,
}

impl Object {
    /// Where a text goes that should be an object and isn't, or that would write a known field a second time.
    const UNREADABLE: &'static str = "unreadable";

    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    pub fn number(&mut self, name: &str, value: impl Into<i128>) {
        self.push_raw(name.to_owned(), value.into().to_string());
    }

    pub fn text(&mut self, name: &str, text: &str) {
        self.push_raw(name.to_owned(), quoted(text));
    }

    pub fn yes_no(&mut self, name: &str, value: bool) {
        self.push_raw(name.to_owned(), value.to_string());
    }

    /// Written only where it is true.
    pub fn mark(&mut self, name: &str, value: bool) {
        if value {
            self.yes_no(name, true);
        }
    }

    pub fn nested(&mut self, name: &str, inner: Object) {
        self.list.push((name.to_owned(), Value::Nested(inner)));
    }

    pub fn array(&mut self, name: &str, items: impl IntoIterator<Item = String>) {
        let items: Vec<String> = items.into_iter().collect();
        self.push_raw(name.to_owned(), format!("[{}]", items.join(",")));
    }

    pub fn push_raw(&mut self, name: String, json: String) {
        self.list.push((name, Value::Raw(json)));
    }

    /// Takes kept fields back in, deep ones to where they came from. Nothing is dropped: a text that is no object of new
    /// fields (no reader gives out such a one) is written as text.
    pub fn merge(&mut self, kept: &str) {
        match Fields::parse(kept) {
            Ok(fields) if self.can_merge(&fields) => self.merge_fields(fields),
            _ => self.text(Self::UNREADABLE, kept),
        }
    }

    fn inner(&self, name: &str) -> Option<&Value> {
        self.list.iter().find(|(known, _)| known == name).map(|(_, value)| value)
    }

    fn can_merge(&self, fields: &Fields<'_>) -> bool {
        fields.list.iter().all(|field| match self.inner(&field.name) {
            None => true,
            Some(Value::Raw(_)) => false,
            Some(Value::Nested(inner)) => Fields::parse(field.value.get()).is_ok_and(|deep| inner.can_merge(&deep)),
        })
    }

    fn merge_fields(&mut self, fields: Fields<'_>) {
        // No name comes twice, so what was pushed here needs no search.
        let n_known = self.list.len();
        for field in fields.list {
            let nested = self.list.iter_mut().take(n_known).find_map(|(name, value)| match value {
                Value::Nested(inner) if *name == field.name => Some(inner),
                _ => None,
            });
            match nested {
                Some(inner) => inner.merge(field.value.get()),
                None => self.push_raw(field.name.into_owned(), field.value.get().to_owned()),
            }
        }
    }
}

impl fmt::Display for Object {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("{")?;
        for (i, (name, value)) in self.list.iter().enumerate() {
            let comma = if i == 0 { "" } else { "," };
            write!(f, "{comma}{}:", quoted(name))?;
            match value {
                Value::Raw(json) => f.write_str(json)?,
                Value::Nested(inner) => write!(f, "{inner}")?,
            }
        }
        f.write_str("}")
    }
}

/// A text as a JSON string.
pub(super) fn quoted(text: &str) -> String {
    // A text always serialises.
    serde_json::to_string(text).unwrap_or_default()
}
