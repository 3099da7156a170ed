//! When two names are the same to a reader: capitals don't matter, nor whether an accent is one character with its letter or
//! one of its own. Different accents do. Refuses to change the name itself.

/// Equal for names that read the same.
///
/// ```
/// use peppertally::domain::roster::name_key;
/// assert_eq!(name_key("JOSÉ"), name_key("jose\u{301}"));
/// assert_ne!(name_key("José"), name_key("Jose"));
/// ```
pub fn name_key(name: &str) -> String {
    let mut key = String::with_capacity(name.len());
    name.chars().flat_map(char::to_lowercase).for_each(|c| take_apart(c, &mut key));
    key
}

/// Canonical decomposition (Unicode Standard Annex 15) of the small letters in [`MARKED`] and of Korean syllables.
fn take_apart(c: char, key: &mut String) {
    if let Some(syllable) = u32::from(c).checked_sub(0xac00).filter(|&s| s < 11_172) {
        // The Unicode Standard, 3.12: 21 vowels and 28 tails (the first is none).
        let jamo = [0x1100 + syllable / 588, 0x1161 + syllable % 588 / 28, 0x11a7 + syllable % 28];
        key.extend(jamo.into_iter().filter(|&j| j != 0x11a7).filter_map(char::from_u32));
        return;
    }
    let marked =
        if c.is_ascii() { None } else { MARKED.iter().find_map(|(mark, pairs)| Some((*mark, base(c, pairs)?))) };
    match marked {
        Some((mark, letter)) => {
            take_apart(letter, key);
            key.push(mark);
        }
        None => key.push(c),
    }
}

fn base(c: char, pairs: &str) -> Option<char> {
    let mut chars = pairs.chars();
    while let (Some(whole), Some(letter)) = (chars.next(), chars.next()) {
        if whole == c {
            return Some(letter);
        }
    }
    None
}

/// A mark, and by turns a letter that has it and the letter without: Latin with Vietnamese, Greek, Cyrillic, Arabic, kana, from
/// the Unicode Character Database.
#[rustfmt::skip]
const MARKED: [(char, &str); 24] = [
    ('\u{300}', "àaèeìiòoùuǜüǹnѐеѝиầâằăềêồôờơừưỳy"),
    ('\u{301}', "áaéeíióoúuýyćcĺlńnŕrśsźzǘüǵgǻåǽæǿøΐϊάαέεήηίιΰϋόούυώωѓгќкấâắăếêốôớơứư"),
    ('\u{302}', "âaêeîiôoûuĉcĝgĥhĵjŝsŵwŷyậạệẹộọ"),
    ('\u{303}', "ãañnõoĩiũuẫâẵăẽeễêỗôỡơữưỹy"),
    ('\u{304}', "āaēeīiōoūuǖüǟäǡȧǣæǭǫȫöȭõȱȯȳy"),
    ('\u{306}', "ăaĕeğgĭiŏoŭuйиўуặạ"),
    ('\u{307}', "ċcėeġgżzȧaȯo"),
    ('\u{308}', "äaëeïiöoüuÿyϊιϋυёеїі"),
    ('\u{309}', "ảaẩâẳăẻeểêỉiỏoổôởơủuửưỷy"),
    ('\u{30a}', "åaůu"),
    ('\u{30b}', "őoűu"),
    ('\u{30c}', "čcďděeľlňnřršsťtžzǎaǐiǒoǔuǚüǧgǩkǯʒǰjȟh"),
    ('\u{30f}', "ȁaȅeȉiȍoȑrȕu"),
    ('\u{311}', "ȃaȇeȋiȏoȓrȗu"),
    ('\u{31b}', "ơoưu"),
    ('\u{323}', "ạaẹeịiọoợơụuựưỵy"),
    ('\u{326}', "șsțt"),
    ('\u{327}', "çcģgķkļlņnŗrşsţtȩe"),
    ('\u{328}', "ąaęeįiųuǫo"),
    ('\u{653}', "آا"),
    ('\u{654}', "أاؤوئي"),
    ('\u{655}', "إا"),
    ('\u{3099}', "がかぎきぐくげけごこざさじしずすぜせぞそだたぢちづつでてどとばはびひぶふべへぼほゔうゞゝガカギキグクゲケゴコザサジシズスゼセゾソダタヂチヅツデテドトバハビヒブフベヘボホヴウヷワヸヰヹヱヺヲヾヽ"),
    ('\u{309a}', "ぱはぴひぷふぺへぽほパハピヒプフペヘポホ"),
];
