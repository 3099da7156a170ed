//! Tables for a spreadsheet: read back by the same crate's reader, held against the summary's own totals.

use super::practice;
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{EntryId, Revision, RunId};
use peppertally::domain::replay::base::Base;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::summary::PracticeSummary;
use peppertally::wire::table::Table;
use std::collections::BTreeMap;

/// Lines by the names of their columns.
type Lines = Vec<BTreeMap<String, String>>;

fn tables(entries: &[Entry]) -> (Lines, Lines, PracticeSummary) {
    let base = Base::fold(entries);
    let practice = base.practices().remove(0);
    let of = |run: &RunId| entries.iter().filter(|e| e.fact.run(e.id) == Some(*run)).cloned().collect();
    let runs: Vec<RunState> = practice.runs.iter().filter_map(|run| RunState::fold(of(run))).collect();
    let summary = PracticeSummary::of(&practice, runs.iter());
    let mut contacts = Table::of_contacts().unwrap();
    runs.iter().for_each(|run| contacts.run(&base, &practice, run).unwrap());
    let mut children = Table::of_children(None).unwrap();
    children.practice(&base, &summary).unwrap();
    (lines(&contacts.finish().unwrap()), lines(&children.finish().unwrap()), summary)
}

fn lines(bytes: &[u8]) -> Lines {
    let text = bytes.strip_prefix(b"\xef\xbb\xbf").expect("a byte order mark");
    let mut reader = csv::ReaderBuilder::new().from_reader(text);
    let head: Vec<String> = reader.headers().unwrap().iter().map(str::to_owned).collect();
    let line = |record: csv::StringRecord| head.iter().cloned().zip(record.iter().map(str::to_owned)).collect();
    reader.records().map(|record| line(record.unwrap())).collect()
}

fn sum(lines: &Lines, column: &str, wanted: impl Fn(&BTreeMap<String, String>) -> bool) -> u32 {
    lines.iter().filter(|line| wanted(line)).map(|line| line[column].parse::<u32>().unwrap_or(0)).sum()
}

#[test]
fn both_tables_add_up_to_the_summary() {
    let invented = practice::invented(7, 120);
    let (contacts, children, summary) = tables(&[invented.squad, invented.practice].concat());
    let everyone = summary.runs.iter().fold((0, 0), |(tries, good), run| {
        let judged = run.everyone.easy + run.everyone.challenge;
        (tries + judged.tries(), good + judged.good())
    });
    let counts = |line: &BTreeMap<String, String>| line["stands"] == "1" && line["beside"] == "0";
    assert_eq!(sum(&contacts, "good", counts), everyone.1);
    let n_judged = contacts.iter().filter(|line| counts(line) && !line["good"].is_empty()).count();
    assert_eq!(n_judged as u32, everyone.0);
    for child in &children {
        let its = |line: &BTreeMap<String, String>| counts(line) && line["player"] == child["player"];
        assert_eq!(sum(&contacts, "good", its).to_string(), child["good"], "{}", child["name"]);
    }
    assert_eq!(children.len(), 12);
    assert_eq!(sum(&children, "told_tries", |_| true), 120);
}

#[test]
fn a_taken_back_contact_has_a_line_that_stands_for_nothing() {
    let invented = practice::invented(7, 40);
    let mut entries = [invented.squad, invented.practice].concat();
    let before = tables(&entries).0;
    let (id, run) = entries
        .iter()
        .find_map(|e| match &e.fact {
            Fact::ContactNoted { run, .. } => Some((e.id, *run)),
            _ => None,
        })
        .unwrap();
    let mut taken = entries.last().unwrap().clone();
    taken.id = EntryId::new(99, 0);
    taken.fact = Fact::EntryTakenBack { run: Some(run), target: id, revision: Revision(1), back: true };
    entries.push(taken);
    let after = tables(&entries).0;
    let line = |lines: &Lines| lines.iter().find(|line| line["id"] == id.to_string()).cloned().unwrap();
    let marks = |line: &BTreeMap<String, String>| (line["stands"].clone(), line["taken"].clone());
    let ((stood, had), (stands, has)) = (marks(&line(&before)), marks(&line(&after)));
    assert_eq!((stood.as_str(), had.as_str(), stands.as_str()), ("1", "", "0"));
    assert!(has.starts_with("0000000001-") && has.ends_with("-0000000000000063.00000000"), "{has}");
    assert_eq!(before.len(), after.len());
}

#[test]
fn texts_are_quoted_and_no_formula() {
    let check = |name: &str, cell: &str| {
        let invented = practice::invented(7, 4);
        let mut entries = [invented.squad, invented.practice].concat();
        for entry in &mut entries {
            if let Fact::PlayerAdded { name: had, .. } = &mut entry.fact {
                *had = name.to_owned();
            }
        }
        let (contacts, children, _) = tables(&entries);
        assert!(contacts.iter().all(|line| line["player"].is_empty() || line["name"] == cell), "{contacts:?}");
        assert!(!children.is_empty() && children.iter().all(|line| line["name"] == cell), "{children:?}");
    };
    check("Mira, \"Mi\"\nZwei", "Mira, \"Mi\"\nZwei");
    check("=1+1", "'=1+1");
    check("+49", "'+49");
    check("-2", "'-2");
    check("@SUM(A1)", "'@SUM(A1)");
    check("\tx", "'\tx");
    check("Zoé", "Zoé");
}

/// The very bytes of a small table, by RFC 4180: lines end in CRLF, a quote inside quotes is doubled.
#[test]
fn the_bytes_by_the_standard() {
    let invented = practice::invented(7, 4);
    let base = Base::fold(&invented.squad);
    let mut summary = tables(&[invented.squad.clone(), invented.practice].concat()).2;
    summary.title = "a \"b\", c".into();
    summary.runs.truncate(1);
    summary.runs[0].order.truncate(1);
    summary.runs[0].children.clear();
    summary.runs[0].touches.clear();
    let mut children = Table::of_children(None).unwrap();
    children.practice(&base, &summary).unwrap();
    let text = String::from_utf8(children.finish().unwrap()).unwrap();
    let rows: Vec<&str> = text.split("\r\n").collect();
    assert_eq!(rows.len(), 3, "{text}");
    assert!(rows[0].starts_with("\u{feff}practice,practice_start,title,player,name,number,tries,good,"), "{}", rows[0]);
    assert!(rows[1].contains(",\"a \"\"b\"\", c\","), "{}", rows[1]);
    assert_eq!(rows[2], "");
}
