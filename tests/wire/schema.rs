//! Every copy against the JSON Schema (draft 2020-12) that others read it by, `public/copy.schema.json`, by a library for it.

use super::{fixtures, header, practice, random};
use boon::{Compiler, Schemas};
use peppertally::domain::entry::Entry;
use peppertally::wire::file;
use proptest::prelude::*;
use serde_json::{Value, json};

/// The first reason why a copy doesn't keep the schema.
fn broken(copy: &Value) -> Option<String> {
    let schema: Value = serde_json::from_str(include_str!("../../public/copy.schema.json")).unwrap();
    let (mut schemas, mut compiler) = (Schemas::new(), Compiler::new());
    compiler.add_resource("copy.schema.json", schema).unwrap();
    let at = compiler.compile("copy.schema.json", &mut schemas).unwrap();
    schemas.validate(copy, at).err().map(|error| error.to_string())
}

fn written(entries: &[Entry]) -> Value {
    serde_json::from_str(&file::write(entries, &header())).unwrap()
}

#[test]
fn every_kind_of_copy_keeps_the_schema() {
    for (name, entries) in fixtures() {
        assert_eq!(broken(&written(&entries)), None, "{name}");
    }
    let invented = practice::invented(3, 200);
    assert_eq!(broken(&written(&[invented.squad, invented.practice].concat())), None);
    assert_eq!(broken(&written(&[])), None);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn any_copy_that_keeps_the_rules_keeps_the_schema(entries in random::entries()) {
        let sound: Vec<Entry> = entries.into_iter().filter(file::keeps_rules).collect();
        prop_assert_eq!(broken(&written(&sound)), None);
    }
}

#[test]
fn what_is_no_copy() {
    let (_, entries) = fixtures().into_iter().next().unwrap();
    let check = |at: &str, value: Value| {
        let mut copy = written(&entries);
        *copy.pointer_mut(at).unwrap_or_else(|| panic!("{at}")) = value;
        assert!(broken(&copy).is_some(), "{at}");
    };
    check("/format", json!("another"));
    check("/version", json!(3));
    check("/series/0/0", json!("xyz"));
    check("/entries/wall/0", json!("now"));
    check("/entries/kind/0", json!([1, 0]));
    check("/contacts/run", json!([1.5]));
    check("/rare/0/device", json!(7));
    check("/rare/1/name", json!("a\u{0}"));
    check("/rare/1/name", json!("x".repeat(241)));
    check("/rare/0", json!({"device": "a", "app": "b"}));
    check("/rare/1", json!({"k": "player-added"}));
    check("/written", json!({"app": "0.1.0"}));
    let mut more = written(&entries);
    more["shoes"] = json!(1);
    assert!(broken(&more).is_some());
}
