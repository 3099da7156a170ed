//! The library's file. Its drills' specs are those of a record, so one reader serves; a word or number that this version doesn't
//! know refuses the whole file, because the file and the program come as one build.
//!
//! ```json
//! {"library": 1,
//!  "safety": [{"key": "arms", "line": "A sentence."}],
//!  "drills": [{
//!    "no": 1, "focus": "serving", "level": "beginner", "styles": ["underhand"],
//!    "children": {"least": 4, "most": 20}, "balls": 2, "share": 2, "minutes": {"least": 5, "most": 10}, "net": true,
//!    "purpose": "…", "runs": ["…"], "scored": "…", "easier": ["…"], "harder": ["…"], "ask": ["…, {name}?"],
//!    "safe": ["arms"], "safety": ["a sentence of its own"],
//!    "ground": "court", "places": [{"at": "s", "x": 18, "y": 65, "who": "server"}, {"at": "t", "x": 200, "y": 65, "who": "target"}],
//!    "ways": [{"from": "s", "to": "t", "what": "serve"}],
//!    "spec": {"name": "…", "skill": "serve", "board": "serve-line", "order": "in-turn", "rule": "tally", "…": "as in a record"}
//!  }]}
//! ```
//! `share`: so many children to a ball. `safe` names sentences that several drills share; they stand before the drill's own.

use std::borrow::Cow;

use super::json::{Fields, Misfit};
use super::record::RecordError;
use super::spec::take_spec;
use super::words::{STYLES, Words};
use crate::domain::library::{
    Balls, Floor, FloorPlace, FloorWay, Focus, Ground, Level, Library, LibraryDrill, LibraryNo, Moves, Who,
};
use crate::domain::skill::ServeStyle;

const VERSION: u32 = 1;

const FOCUSES: Words<Focus> = Words(&[
    (Focus::Serving, "serving"),
    (Focus::Passing, "passing"),
    (Focus::Catching, "catching"),
    (Focus::Setting, "setting"),
    (Focus::Effort, "effort"),
    (Focus::Playing, "playing"),
]);

const LEVELS: Words<Level> =
    Words(&[(Level::Beginner, "beginner"), (Level::Between, "between"), (Level::Advanced, "advanced")]);

const GROUNDS: Words<Ground> =
    Words(&[(Ground::Court, "court"), (Ground::Half, "half"), (Ground::Open, "open"), (Ground::Wall, "wall")]);

const WHO: Words<Who> = Words(&[
    (Who::Server, "server"),
    (Who::Passer, "passer"),
    (Who::Setter, "setter"),
    (Who::Target, "target"),
    (Who::Feeder, "feeder"),
    (Who::Getter, "getter"),
    (Who::Player, "player"),
    (Who::Other, "other"),
    (Who::Distracter, "distracter"),
    (Who::Waiting, "waiting"),
    (Who::Coach, "coach"),
    (Who::Mark, "mark"),
    (Who::Store, "store"),
]);

const MOVES: Words<Moves> = Words(&[
    (Moves::Serve, "serve"),
    (Moves::Pass, "pass"),
    (Moves::Set, "set"),
    (Moves::Toss, "toss"),
    (Moves::Roll, "roll"),
    (Moves::Play, "play"),
    (Moves::Run, "run"),
    (Moves::Carry, "carry"),
]);

/// Why the library can't be used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LibraryError {
    /// Of another version of the app.
    Newer,
    /// Not what was written: the drill's number where it is one's.
    Broken { no: Option<u16>, why: RecordError },
}

/// The library of its file's text.
///
/// # Errors
/// [`LibraryError`] for a text that isn't this version's library, whole.
pub fn read(text: &str) -> Result<Library, LibraryError> {
    let around = |why: RecordError| LibraryError::Broken { no: None, why };
    let mut file = Fields::parse(text).map_err(around)?;
    if file.need::<u32>("library").map_err(around)? != VERSION {
        return Err(LibraryError::Newer);
    }
    let mut shared = Vec::new();
    for mut line in file.objects("safety").map_err(around)? {
        shared.push((line.text("key").map_err(around)?, line.text("line").map_err(around)?));
    }
    let mut drills = Vec::new();
    for mut fields in file.objects("drills").map_err(around)? {
        let no: u16 = fields.need("no").map_err(around)?;
        drills.push(drill(no, &mut fields, &shared).map_err(|misfit| match misfit {
            Misfit::Newer => LibraryError::Newer,
            Misfit::Broken(why) => LibraryError::Broken { no: Some(no), why },
        })?);
    }
    Ok(Library { drills })
}

/// Sentences that several drills share, each with its key.
type Shared<'a> = [(Cow<'a, str>, Cow<'a, str>)];

fn drill(no: u16, f: &mut Fields<'_>, shared: &Shared<'_>) -> Result<LibraryDrill, Misfit> {
    let mut safety = Vec::new();
    for key in f.need::<Vec<String>>("safe")? {
        let line = shared.iter().find(|(known, _)| *known == key).map(|(_, line)| line.clone().into_owned());
        safety.push(line.ok_or(RecordError::Misfit { field: "safe" })?);
    }
    safety.extend(f.maybe::<Vec<String>>("safety")?.unwrap_or_default());
    let drill = LibraryDrill {
        no: LibraryNo(no),
        focus: f.word("focus", |word| FOCUSES.known(word))?,
        level: f.word("level", |word| LEVELS.known(word))?,
        styles: styles(f)?,
        children: span(f, "children")?,
        balls: Balls { least: f.need("balls")?, share: f.maybe("share")? },
        minutes: span(f, "minutes")?,
        net: f.mark("net")?,
        purpose: f.text("purpose")?.into_owned(),
        floor: floor(f)?,
        runs: f.need("runs")?,
        scored: f.text("scored")?.into_owned(),
        easier: f.need("easier")?,
        harder: f.need("harder")?,
        ask: f.need("ask")?,
        safety,
        spec: take_spec(f)?,
    };
    match f.rest() {
        None => Ok(drill),
        Some(_) => Err(Misfit::Newer),
    }
}

/// From the least to the most.
fn span(f: &mut Fields<'_>, name: &'static str) -> Result<(u8, u8), Misfit> {
    let mut span = f.object(name)?;
    Ok((span.need("least")?, span.need("most")?))
}

fn styles(f: &mut Fields<'_>) -> Result<Vec<ServeStyle>, Misfit> {
    let words: Vec<String> = f.maybe("styles")?.unwrap_or_default();
    words.iter().map(|word| STYLES.known(word).ok_or(Misfit::Newer)).collect()
}

fn floor(f: &mut Fields<'_>) -> Result<Floor, Misfit> {
    let ground = f.word("ground", |word| GROUNDS.known(word))?;
    let (mut names, mut places, mut ways) = (Vec::new(), Vec::new(), Vec::new());
    for mut place in f.objects("places")? {
        names.push(place.text("at")?);
        let who = place.word("who", |word| WHO.known(word))?;
        places.push(FloorPlace { x: place.need("x")?, y: place.need("y")?, who });
    }
    for mut way in f.objects("ways")? {
        let mut at = |field| {
            let name = way.text(field)?;
            names.iter().position(|known| *known == name).ok_or(RecordError::Misfit { field })
        };
        let (from, to) = (at("from")?, at("to")?);
        ways.push(FloorWay { from, to, what: way.word("what", |word| MOVES.known(word))? });
    }
    Ok(Floor { ground, places, ways })
}

#[cfg(test)]
mod tests {
    use super::*;

    const ONE: &str = r#"{"library":1,"safety":[{"key":"a","line":"Mind the arms."}],"drills":[{"no":7,"focus":"serving","level":"advanced",
        "styles":["jump"],"children":{"least":4,"most":12},"balls":6,"minutes":{"least":5,"most":10},"net":true,"purpose":"P.","runs":["R."],"scored":"S.",
        "easier":["E."],"harder":["H."],"ask":["Where, {name}?"],"safe":["a"],"safety":["Own."],"ground":"court",
        "places":[{"at":"s","x":20,"y":60,"who":"server"},{"at":"t","x":200,"y":60,"who":"target"}],
        "ways":[{"from":"s","to":"t","what":"serve"}],
        "spec":{"name":"N","skill":"serve","board":"serve-line","order":"in-turn","rule":"tally","good_from":"in","feed":"easy","step":0}}]}"#;

    #[test]
    fn one_drill_is_read_whole() {
        let library = read(ONE).unwrap();
        let drill = library.drill(LibraryNo(7)).unwrap();
        assert_eq!(drill.safety, ["Mind the arms.", "Own."]);
        assert_eq!(drill.styles, [ServeStyle::Jump]);
        assert_eq!((drill.floor.places.len(), drill.floor.ways[0].what), (2, Moves::Serve));
        assert_eq!(drill.fault(), None);
    }

    #[test]
    fn what_is_not_this_versions_is_refused_whole() {
        let broken = |from: &str, to: &str| read(&ONE.replace(from, to)).unwrap_err();
        assert_eq!(broken("\"library\":1", "\"library\":2"), LibraryError::Newer);
        for (from, to) in [
            ("advanced", "expert"),
            ("\"jump\"", "\"other\""),
            ("\"target\"", "\"judge\""),
            ("\"net\":true", "\"rope\":1"),
        ] {
            assert_eq!(broken(from, to), LibraryError::Newer, "{to}");
        }
        let of_7 = |field| LibraryError::Broken { no: Some(7), why: RecordError::Misfit { field } };
        assert_eq!(broken("\"to\":\"t\"", "\"to\":\"x\""), of_7("to"));
        assert_eq!(broken("\"safe\":[\"a\"]", "\"safe\":[\"b\"]"), of_7("safe"));
        assert_eq!(broken("\"most\":12", "\"most\":300"), of_7("most"));
        assert!(matches!(broken("}]}", ""), LibraryError::Broken { no: None, .. }));
    }
}
