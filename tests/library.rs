//! The library as it is shipped: every drill whole, ready to be run, drawn on its floor, and safe to read out.

use peppertally::app::view::library::drawing;
use peppertally::app::words::drills::STARTERS;
use peppertally::domain::drill::{DrillSpec, MAX_NAME};
use peppertally::domain::library::{
    Floor, FloorPlace, Focus, Ground, Have, Level, Library, LibraryDrill, NAME_SLOT, Who,
};
use peppertally::domain::roles;
use peppertally::domain::skill::ServeStyle;
use peppertally::wire::library;

fn shipped() -> Library {
    library::read(include_str!("../public/library.json")).expect("the library that is shipped")
}

/// Every drill of which something isn't so.
fn all(is: impl Fn(&LibraryDrill) -> bool) {
    let wrong: Vec<String> =
        shipped().drills.iter().filter(|drill| !is(drill)).map(|d| format!("{} {}", d.no.0, d.spec.name)).collect();
    assert_eq!(wrong, Vec::<String>::new());
}

fn is_sentence(text: &str) -> bool {
    text.len() >= 8 && text.trim() == text && text.ends_with(['.', '”', '!', '?']) && !text.contains("  ")
}

#[test]
fn there_are_enough_for_every_skill_level_and_serve() {
    let library = shipped();
    let n = |is: &dyn Fn(&LibraryDrill) -> bool| library.drills.iter().filter(|drill| is(drill)).count();
    assert!(library.drills.len() >= 24, "{}", library.drills.len());
    for style in ServeStyle::ALL {
        assert!(n(&|d| d.focus == Focus::Serving && d.styles.contains(&style)) >= 3, "{style:?}");
    }
    for focus in Focus::ALL {
        assert!(n(&|d| d.focus == focus) >= 3, "{focus:?}");
    }
    for level in Level::ALL {
        assert!(n(&|d| d.level == level) >= 4, "{level:?}");
    }
    for net in [true, false] {
        assert!(n(&|d| d.net == net) >= 10, "net {net}");
    }
    for children in 8..=20 {
        let fit = Have { children: Some(children), ..Have::default() };
        let least = if children <= 12 { 15 } else { 6 };
        assert!(n(&|d| d.fits(&fit)) >= least, "{children} children: {}", n(&|d| d.fits(&fit)));
    }
}

#[test]
fn every_drill_is_ready_to_be_run() {
    all(|drill| drill.fault().is_none());
    all(|drill| drill.spec.name.chars().count() <= MAX_NAME / 2);
    let names: std::collections::BTreeSet<String> =
        shipped().drills.iter().map(|drill| drill.spec.name.to_lowercase()).collect();
    let numbers: std::collections::BTreeSet<u16> = shipped().drills.iter().map(|drill| drill.no.0).collect();
    assert_eq!((names.len(), numbers.len()), (shipped().drills.len(), shipped().drills.len()), "told apart");
    // As it would be kept: else one that was taken would differ from its page once its form was kept.
    all(|drill| roles::kept_to_floor(drill.spec.clone()) == drill.spec && drill.spec.rule.as_kept() == drill.spec.rule);
    // A drill that every squad finds ready didn't come from here.
    let starters = DrillSpec::starters(|i| STARTERS[i].to_owned());
    let claimed: Vec<&str> =
        starters.iter().filter(|spec| shipped().source_of(spec).is_some()).map(|spec| spec.name.as_str()).collect();
    assert_eq!(claimed, Vec::<&str>::new());
    // What a drill needs fits what its board and rule ask for.
    all(|drill| drill.spec.rule.a_side().is_none_or(|a_side| drill.children.0 >= 2 * a_side));
    all(|drill| drill.spec.on_floor.groups.is_none_or(|groups| drill.children.0 >= groups));
}

#[test]
fn every_field_says_something() {
    all(|drill| is_sentence(&drill.purpose) && is_sentence(&drill.scored));
    all(|drill| drill.runs.len() >= 3 && drill.runs.iter().all(|text| is_sentence(text)));
    all(|drill| drill.easier.len() >= 2 && drill.harder.len() >= 2);
    all(|drill| drill.easier.iter().chain(&drill.harder).chain(&drill.safety).all(|text| is_sentence(text)));
    all(|drill| (drill.focus == Focus::Serving) != drill.styles.is_empty());
}

/// The child's name is the last word of a question, so that everyone listens until it falls.
#[test]
fn every_question_ends_with_the_name() {
    all(|drill| drill.ask.len() >= 2);
    all(|drill| drill.ask.iter().all(|ask| ask.ends_with(&format!(", {NAME_SLOT}?")) && ask.matches('{').count() == 1));
}

#[test]
fn every_drill_says_what_to_watch() {
    let says = |drill: &LibraryDrill, what: &str| drill.safety.iter().any(|line| line.contains(what));
    all(|drill| drill.safety.len() >= 2);
    all(|drill| drill.focus != Focus::Serving || (says(drill, "Shoulders are warm") && says(drill, "Swinging arms")));
    all(|drill| says(drill, "ball underfoot"));
    all(|drill| {
        !drill.styles.contains(&ServeStyle::Jump) || drill.level != Level::Advanced || says(drill, "both feet")
    });
    let distracted = |d: &LibraryDrill| d.spec.on_floor.challenge != Default::default();
    all(|drill| !distracted(drill) || says(drill, "touches neither ball nor player"));
    assert!(shipped().drills.iter().filter(|drill| distracted(drill)).count() >= 2);
}

/// Shapes that lie on each other can't be told apart; nobody waits or stands in the net.
#[test]
fn every_floor_can_be_read() {
    all(|drill| !drill.floor.ways.is_empty() && drill.floor.places.len() >= 3);
    all(|drill| drill.net == matches!(drill.floor.ground, Ground::Court | Ground::Half));
    all(|drill| {
        let at = &drill.floor.places;
        at.iter()
            .enumerate()
            .all(|(i, a)| at.iter().skip(i + 1).all(|b| a.x.abs_diff(b.x).pow(2) + a.y.abs_diff(b.y).pow(2) >= 15 * 15))
    });
    all(|drill| {
        let net = match drill.floor.ground {
            Ground::Court => 120,
            Ground::Half => 184,
            Ground::Open | Ground::Wall => return true,
        };
        drill.floor.places.iter().all(|place| place.x.abs_diff(net) >= 12)
    });
}

/// What is drawn stays within the frame, and says in words what it shows.
#[test]
fn every_drawing_stays_in_its_frame_and_has_words() {
    let (width, height) = (i32::from(Floor::WIDTH) * 10, i32::from(Floor::HEIGHT) * 10);
    let inside = |(x, y): (i32, i32)| (0..=width).contains(&x) && (0..=height).contains(&y);
    all(|drill| {
        let drawn = drawing(&drill.floor);
        drawn
            .ways
            .iter()
            .all(|way| inside(way.from) && inside(way.to) && way.head.iter().all(|at| inside(*at)) && inside(way.no_at))
            && !drawn.steps.is_empty()
            && drawn.steps.iter().all(|step| is_sentence(step))
            && !drawn.what.is_empty()
    });
    // Every kind that is drawn is named once.
    all(|drill| {
        let drawn = drawing(&drill.floor);
        drill.floor.places.iter().all(|place| {
            let of_kind = drawn.marks.iter().filter(|mark| mark.who == place.who);
            place.who == Who::Waiting || of_kind.filter(|mark| mark.label.is_some()).count() == 1
        })
    });
}

/// A word at the upper edge, where a neighbour below would have it go above: a floor that is allowed is drawn, its words within.
#[test]
fn words_stay_within_the_frame() {
    let place = |x, y, who| FloorPlace { x, y, who };
    for y in Floor::MARGIN..=Floor::HEIGHT - Floor::MARGIN {
        for beside in [y.saturating_sub(20).max(Floor::MARGIN), (y + 20).min(Floor::HEIGHT - Floor::MARGIN)] {
            let places = vec![place(100, y, Who::Passer), place(104, beside, Who::Target)];
            let drawn = drawing(&Floor { ground: Ground::Open, places, ways: Vec::new() });
            for (word, (_, at)) in drawn.marks.iter().filter_map(|mark| mark.label) {
                assert!(
                    (80..=i32::from(Floor::HEIGHT) * 10).contains(&at),
                    "{word} at {at}, shapes at {y} and {beside}"
                );
            }
        }
    }
}
