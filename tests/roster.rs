//! Lists as coaches type and paste them, line by line, and what is understood of each.

use peppertally::domain::drill::MAX_NAME;
use peppertally::domain::ids::ShirtNumber;
use peppertally::domain::roster::{LineNo, Note, What, Why, clean_name, name_key, read, write};
use proptest::prelude::*;

/// Reads each text as a list of one line and compares what was understood.
fn check(cases: &[(&str, What)]) {
    for (text, expected) in cases {
        let reading = read(text);
        assert_eq!(reading.lines.len(), 1, "{text:?}");
        assert_eq!(&reading.lines[0].what, expected, "{text:?}");
        assert_eq!(reading.typed(), *text);
    }
}

fn child(name: &str, number: u16) -> What {
    What::Child { name: name.to_owned(), number: Some(ShirtNumber(number)) }
}

fn only(name: &str) -> What {
    What::Child { name: name.to_owned(), number: None }
}

#[test]
fn common_forms() {
    let mira = || child("Mira", 7);
    check(&[
        ("Mira", only("Mira")),
        ("7 Mira", mira()),
        ("#7 Mira", mira()),
        ("# 7 Mira", mira()),
        ("#7Mira", mira()),
        ("Mira, 7", mira()),
        ("Mira 7", mira()),
        ("Mira #7", mira()),
        ("Mira#7", mira()),
        ("7. Mira", mira()),
        ("7.Mira", mira()),
        ("Mira.7", mira()),
        ("7) Mira", mira()),
        ("7: Mira", mira()),
        ("7;Mira", mira()),
        ("7\tMira", mira()),
        ("Mira\t7", mira()),
        ("7 - Mira", mira()),
        ("7-Mira", mira()),
        ("Mira – 7", mira()),
        ("Mira: 7", mira()),
        ("Mira (7)", mira()),
        ("Mira (#7)", mira()),
        ("(7) Mira", mira()),
        ("[7] Mira", mira()),
        ("No. 7 Mira", mira()),
        ("no 7 Mira", mira()),
        ("Nr. 7: Mira", mira()),
        ("Mira, No. 7", mira()),
        ("Mira nr 7", mira()),
        ("№7 Mira", mira()),
        ("Nº 7 Mira", mira()),
        ("07 Mira", mira()),
        ("0 Mira", child("Mira", 0)),
        ("999 Mira", child("Mira", 999)),
        ("7 Mira.", child("Mira.", 7)),
        ("Mira, 7.", mira()),
        ("7 Mira K.", child("Mira K.", 7)),
        ("Mira K. 7", child("Mira K.", 7)),
        ("Kerr, Mira, 7", child("Kerr, Mira", 7)),
        ("Mira, 7, K.", child("Mira, K.", 7)),
        ("Kerr, Mira", only("Kerr, Mira")),
    ]);
}

#[test]
fn spaces_bullets_and_what_can_not_be_seen() {
    let mira = || child("Mira", 7);
    check(&[
        (" ", What::Blank),
        ("\n", What::Blank),
        ("\u{feff}\r\n", What::Blank),
        ("\u{a0}\t\u{3000}", What::Blank),
        ("  7    Mira  \r\n", mira()),
        ("7\u{a0}Mira\u{a0}\n", mira()),
        ("7\u{3000}Mira", mira()),
        ("7\u{2009}Mira\r", mira()),
        ("\u{feff}7 Mira", mira()),
        ("7 Mi\u{ad}ra", mira()),
        ("7\u{0} Mira\u{7}", mira()),
        ("- Mira", only("Mira")),
        ("- 7 Mira", mira()),
        ("* 7 Mira", mira()),
        ("• Mira", only("Mira")),
        ("\t•\tMira 7", mira()),
        ("— Mira", only("Mira")),
        ("- [ ] Mira", only("Mira")),
        ("[x] 7 Mira", mira()),
        ("☑\u{fe0f} Mira", only("Mira")),
        ("# Mira", only("Mira")),
        ("Anna  Lena", only("Anna Lena")),
    ]);
}

#[test]
fn spreadsheets() {
    let mira = || child("Mira", 7);
    check(&[
        ("\"Mira\"", only("Mira")),
        ("\"7\",\"Mira\"", mira()),
        ("\"Mira\";\"7\"", mira()),
        ("7,Mira", mira()),
        ("7,Mira,,", mira()),
        (",Mira", only("Mira")),
        ("Mira,", only("Mira")),
        ("Mira;;", only("Mira")),
        ("\t7\tMira\t", mira()),
        ("7\tMira\tK.", child("Mira K.", 7)),
        ("Mira\tK.\t7", child("Mira K.", 7)),
        ("| 7 | Mira |", mira()),
        ("\"Mira, 7\"", mira()),
        ("\"7 Mira\"", mira()),
        ("7,\"Kerr, Mira\"", child("Kerr, Mira", 7)),
        ("7,\"Mira \"\"Mimi\"\" K.\"", child("Mira \"Mimi\" K.", 7)),
        ("7,\"Mira 2\"", child("Mira 2", 7)),
        (",\"No. 7\"", only("No. 7")),
        ("7 Mira \"Mimi\"", child("Mira \"Mimi\"", 7)),
        ("\"Mimi\" Mira, 7", child("\"Mimi\" Mira", 7)),
        ("“Mira”, 7", mira()),
        ("\"Mira", only("Mira")),
        ("Mira\"", only("Mira")),
        ("'Mira", only("'Mira")),
    ]);
}

#[test]
fn every_script() {
    check(&[
        ("7 Zoë", child("Zoë", 7)),
        ("7 Zoe\u{308}", child("Zoe\u{308}", 7)),
        ("Đặng Thảo 12", child("Đặng Thảo", 12)),
        ("7 מירה", child("מירה", 7)),
        ("מירה 7", child("מירה", 7)),
        ("\u{200f}מירה\u{200f} 7\u{200e}", child("מירה", 7)),
        ("\u{202b}7 מירה\u{202c}", child("מירה", 7)),
        ("\u{2067}מירה\u{2069}, #7", child("מירה", 7)),
        ("ليلى ٧", child("ليلى", 7)),
        ("٧ ليلى", child("ليلى", 7)),
        ("ليلى، ١٢", child("ليلى", 12)),
        ("۱۲ مه\u{200c}سا", child("مه\u{200c}سا", 12)),
        ("７ 花子", child("花子", 7)),
        ("花子　１２", child("花子", 12)),
        ("花子（７）", child("花子", 7)),
        ("＃７ 花子", child("花子", 7)),
        ("७ मीरा", child("मीरा", 7)),
        ("7 Мира", child("Мира", 7)),
        ("7 김민지", child("김민지", 7)),
        ("7 Mira 🏐", child("Mira 🏐", 7)),
        ("🦊", only("🦊")),
        ("🦊 7", child("🦊", 7)),
        ("👩\u{200d}🚀 Jo 7", child("👩\u{200d}🚀 Jo", 7)),
        ("7\u{fe0f}\u{20e3} Mira", child("Mira", 7)),
        ("7\u{fe0f}\u{20e3}Mira", child("Mira", 7)),
    ]);
}

#[test]
fn digits_that_belong_to_a_name() {
    check(&[
        ("Mira2", only("Mira2")),
        ("7 Mira2", child("Mira2", 7)),
        ("7Mira", only("7Mira")),
        ("2nd Mira", only("2nd Mira")),
        ("7 2nd Mira", child("2nd Mira", 7)),
        ("Mira 7 K", only("Mira 7 K")),
        ("Mira '09", only("Mira '09")),
        ("Noa 7", child("Noa", 7)),
        ("Bruno. 7", child("Bruno.", 7)),
        ("Kim No 7", child("Kim No", 7)),
        ("花子7", only("花子7")),
        ("<img src=x onerror=alert(1)>", only("<img src=x onerror=alert(1)>")),
    ]);
}

#[test]
fn what_is_not_understood() {
    let cases: &[(&str, Why)] = &[
        ("7", Why::NumberOnly),
        ("#7", Why::NumberOnly),
        ("No. 7", Why::NumberOnly),
        ("7 -", Why::NumberOnly),
        ("7 !!", Why::NumberOnly),
        ("- 7,", Why::NumberOnly),
        ("\"7\"", Why::NumberOnly),
        ("1000 Mira", Why::NumberTooBig),
        ("Mira 01712345678", Why::NumberTooBig),
        ("4294967303 Mira", Why::NumberTooBig), // 2 to the 32nd, and 7
        ("7 9 Mira", Why::TwoNumbers),
        ("7 Mira 9", Why::TwoNumbers),
        ("Mira 7 9", Why::TwoNumbers),
        ("7, 9", Why::TwoNumbers),
        ("7, Mira, 9", Why::TwoNumbers),
        ("7, Mira 9", Why::TwoNumbers),
        ("1. 7 Mira", Why::TwoNumbers),
        ("7 Mira, 9 Jo", Why::TwoNumbers),
        ("Mira 7; Jo 9", Why::TwoNumbers),
        ("Mira 2014-05-03", Why::TwoNumbers),
        ("Mira, 03.05.2014", Why::TwoNumbers),
        ("Mira 3/5/14", Why::TwoNumbers),
        ("---", Why::SignsOnly),
        ("#", Why::SignsOnly),
        ("??", Why::SignsOnly),
        (",,,", Why::SignsOnly),
        ("\"\"", Why::SignsOnly),
        ("\"", Why::SignsOnly),
    ];
    check(&cases.iter().map(|&(text, why)| (text, What::NotUnderstood(why))).collect::<Vec<_>>());

    let longest = "é".repeat(MAX_NAME);
    check(&[
        (&format!("7 {longest}"), child(&longest, 7)),
        (&format!("7 {longest}é"), What::NotUnderstood(Why::NameTooLong)),
    ]);
}

#[test]
fn a_whole_list() {
    let text = "\u{feff}7 Mira\r\n\r\nJo\n 7 Ada\rmira, 12\u{2028}12\n\n7 JO";
    let reading = read(text);
    let got: Vec<_> = reading.lines.iter().map(|l| (l.no.0, l.shown(), &l.what, l.notes.as_slice())).collect();
    let same_mira = [Note::SameName(LineNo(1))];
    let same_seven = [Note::SameNumber(LineNo(1))];
    let both = [Note::SameName(LineNo(3)), Note::SameNumber(LineNo(1))];
    assert_eq!(
        got,
        [
            (1, "\u{feff}7 Mira", &child("Mira", 7), &[][..]),
            (2, "", &What::Blank, &[]),
            (3, "Jo", &only("Jo"), &[]),
            (4, " 7 Ada", &child("Ada", 7), &same_seven),
            (5, "mira, 12", &child("mira", 12), &same_mira),
            (6, "12", &What::NotUnderstood(Why::NumberOnly), &[]),
            (7, "", &What::Blank, &[]),
            (8, "7 JO", &child("JO", 7), &both),
        ]
    );
    assert_eq!(reading.typed(), text);
    assert_eq!(read("").lines, []);
}

#[test]
fn names_that_read_the_same() {
    for (a, b, same) in [
        ("Mira", "MIRA", true),
        ("Zoë", "Zoe\u{308}", true),
        ("Zoë", "Zoe", false),
        ("ÅSA", "a\u{30a}sa", true),
        ("Thế", "The\u{302}\u{301}", true),
        ("Ậ", "a\u{323}\u{302}", true),
        ("Йо", "и\u{306}о", true),
        ("أمل", "ا\u{654}مل", true),
        ("김", "\u{1100}\u{1175}\u{11b7}", true),
        ("가", "\u{1100}\u{1161}", true),
        ("がく", "か\u{3099}く", true),
        ("Ø", "O", false),
        ("7", "7", true),
    ] {
        assert_eq!(name_key(a) == name_key(b), same, "{a:?} {b:?}");
    }
}

/// Text with much of what lists are made of, so that odd meetings of signs come often.
fn list_text() -> impl Strategy<Value = String> {
    let pieces = prop::sample::select(vec![
        "Mira", "Jo", "é", "e\u{301}", "מירה", "ليلى", "花子", "🦊", "7", "12", "1000", "٧", "７", "#", "No.", "no",
        "nr", ".", ",", ";", ":", "-", "–", "(", ")", "[", "]", "\"", "“", "”", "'", "|", "\t", " ", "  ", "\u{a0}",
        "\n", "\r\n", "\r", "\u{2028}", "\u{feff}", "\u{200f}", "\u{202e}", "\u{fe0f}", "\u{20e3}", "•", "*", "/",
        "\0", "½", "²",
    ]);
    prop_oneof![prop::collection::vec(pieces, 0..14).prop_map(|p| p.concat()), any::<String>()]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn nothing_typed_is_lost(text in list_text()) {
        prop_assert_eq!(read(&text).typed(), text);
    }

    #[test]
    fn a_list_written_reads_the_same(text in list_text()) {
        let reading = read(&text);
        let children: Vec<_> = reading.children().collect();
        let again = read(&write(children.iter().copied()));
        prop_assert_eq!(again.children().collect::<Vec<_>>(), children);
        for (name, _) in again.children() {
            prop_assert_eq!(clean_name(name), Ok(name.to_owned()));
        }
    }

    /// Names of the edit screen, which may hold anything that `clean_name` allows.
    #[test]
    fn any_name_written_reads_the_same(text in list_text(), number in prop::option::of(0u16..=999)) {
        if let Ok(name) = clean_name(&text) {
            let number = number.map(ShirtNumber);
            let again = read(&write([(name.as_str(), number)]));
            prop_assert_eq!(again.children().collect::<Vec<_>>(), [(name.as_str(), number)]);
        }
    }
}
