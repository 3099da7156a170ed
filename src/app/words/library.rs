//! The library's own words: labels, what a drill needs, how its floor reads aloud. What the drills say stands in their file.

use super::capital;
use super::counts::plural;
use super::screens::serve_style;
use crate::domain::drill::MAX_NAME;
use crate::domain::library::{Floor, Focus, Ground, Have, Level, LibraryDrill, Moves, Who};

pub const LIBRARY: &str = "Drill library";
pub const LIBRARY_SHORT: &str = "Library";
pub const MINE: &str = "My drills";
pub const LISTS: &str = "Which drills";
pub const BACK: &str = "Back to the library";
pub const PAGE: &str = "How it runs";
pub const PAGE_LINE: &str = "Its page in the library: drawing, steps, questions";

pub const SEARCH: &str = "Search";
pub const SEARCH_HINT: &str = "toss, target, fast …";
pub const FOR_WHAT: &str = "What for";
pub const WHAT_YOU_HAVE: &str = "What you have";
pub const CHILDREN: &str = "Children";
pub const BALLS: &str = "Balls";
pub const MINUTES: &str = "Minutes";
pub const NET: &str = "Net";
pub const LEVEL: &str = "Level";
pub const WITH_NET: &str = "With a net";
pub const WITHOUT_NET: &str = "Without";
pub const SHOW_ALL: &str = "Show all";
pub const NOTHING: &str = "Nothing fits all of that";
pub const NOTHING_LINE: &str = "Fewer answers, or another word, and there is more to choose from.";

pub const IN_MINE: &str = "in my drills";
pub const TAKE: &str = "Take into my drills";
pub const TAKEN: &str = "In your drills: it waits under Today, one tap from its board.";
pub const CHANGE_MINE: &str = "Change mine";
pub const START: &str = "Start now";

pub const RUNS: &str = "How it runs";
pub const SCORED: &str = "How it is scored";
pub const EASIER: &str = "Easier";
pub const HARDER: &str = "Harder";
pub const ASK: &str = "Questions to ask";
pub const ASK_LINE: &str = "Say the child's name last: everyone listens until it falls.";
pub const NAME: &str = "the child's name";
pub const SAFETY: &str = "Watch out";
/// On every page, after the drill's own.
pub const ALWAYS: [&str; 2] = [
    "Water within reach; in the heat shorter rounds, shade and more pauses. Whoever is dizzy or hurt stops at once.",
    "Local rules, and people who are qualified for it, come before anything written here.",
];
pub const BALL_WAY: &str = "the ball";
pub const RUN_WAY: &str = "a child runs";

pub const READING: &str = "Opening the library.";
pub const NOT_FETCHED: &str = "The library couldn't be opened: it isn't on this phone yet, and there is no signal to fetch it. Your own drills and everything counted are safe.";
pub const BROKEN: &str = "The library on this phone can't be read. Your own drills and everything counted are safe. Try again with a signal, or load the app anew.";
pub const OTHER_VERSION: &str = "The library belongs to another version of the app. Close all its windows and open it again. Your own drills and everything counted are safe.";
pub const NO_SUCH: &str = "There is no such drill in this version's library.";

pub const MINE_EMPTY: &str = "No drill of yours fits that";
pub const AWAY: &str = "Put away";
pub const AWAY_LINE: &str = "What was counted in them stays.";
pub const BRING_BACK: &str = "Bring back";
pub const COPY: &str = "Copy";
pub const PUT_AWAY: &str = "Put away";
pub const COPY_THIS: &str = "Copy this drill";

pub const fn focus(focus: Focus) -> &'static str {
    match focus {
        Focus::Serving => "Serving",
        Focus::Passing => "Passing",
        Focus::Catching => "Catching",
        Focus::Setting => "Setting",
        Focus::Effort => "Effort",
        Focus::Playing => "Playing",
    }
}

pub const fn level(level: Level) -> &'static str {
    match level {
        Level::Beginner => "Beginners",
        Level::Between => "In between",
        Level::Advanced => "Advanced",
    }
}

/// `Serving, beginners: underhand`
pub fn kind(drill: &LibraryDrill) -> String {
    let kind = format!("{}, {}", focus(drill.focus), level(drill.level).to_lowercase());
    match drill.styles.len() {
        0 => kind,
        4 => format!("{kind}: any serve"),
        _ => format!("{kind}: {}", styles(drill)),
    }
}

/// `standing overhead, jump`
pub fn styles(drill: &LibraryDrill) -> String {
    drill.styles.iter().map(|it| serve_style(*it).to_lowercase()).collect::<Vec<_>>().join(", ")
}

/// `Beginners, 5–10 min, 4–16 children, net`
pub fn card_facts(drill: &LibraryDrill) -> String {
    let net = if drill.net { "net" } else { "no net" };
    format!("{}, {} min, {} children, {net}", level(drill.level), span(drill.minutes), span(drill.children))
}

/// What it needs, a label and its answer.
pub fn facts(drill: &LibraryDrill) -> Vec<(&'static str, String)> {
    let balls = match drill.balls.share {
        Some(share) => format!("1 for {share}"),
        None => drill.balls.least.to_string(),
    };
    vec![
        (CHILDREN, span(drill.children)),
        (BALLS, balls),
        (MINUTES, span(drill.minutes)),
        (NET, if drill.net { "yes" } else { "no" }.to_owned()),
    ]
}

fn span((least, most): (u8, u8)) -> String {
    if least == most { least.to_string() } else { format!("{least}\u{2013}{most}") }
}

/// `9 of 30 drills`
pub fn count(n_found: usize, n_all: usize) -> String {
    if n_found == n_all { plural(n_all, "drill", "drills") } else { format!("{n_found} of {n_all} drills") }
}

/// `12 children, 6 balls, 10 minutes, no net`
pub fn have(have: &Have) -> Option<String> {
    let some = |n: Option<u8>, one: &str, more: &str| n.map(|n| plural(usize::from(n), one, more));
    let parts = [
        some(have.children, "child", "children"),
        some(have.balls, "ball", "balls"),
        some(have.minutes, "minute", "minutes"),
        have.net.map(|net| if net { "a net" } else { "no net" }.to_owned()),
        have.level.map(|it| level(it).to_lowercase()),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    (!parts.is_empty()).then(|| parts.join(", "))
}

/// No longer than a name may be: a long one gives way, so that the copy is told apart from it.
pub fn copy_of(name: &str) -> String {
    const ANOTHER: &str = ", another";
    let cut = |room: usize| {
        let kept: String = name.chars().take(room).collect();
        format!("{}{ANOTHER}", kept.trim_end())
    };
    let room = MAX_NAME - ANOTHER.len();
    let copy = cut(room);
    // That of such a copy, whose end it takes away first.
    if copy == name { cut(room - 1) } else { copy }
}

/// What is drawn, named.
pub const fn who(who: Who) -> &'static str {
    match who {
        Who::Server => "server",
        Who::Passer => "passer",
        Who::Setter => "setter",
        Who::Target => "target",
        Who::Feeder => "feeder",
        Who::Getter => "ball-getter",
        Who::Player => "player",
        Who::Other => "other side",
        Who::Distracter => "distracts",
        Who::Waiting => "next in line",
        Who::Coach => "coach",
        Who::Mark => "mark",
        Who::Store => "balls",
    }
}

/// `The server serves to the target.`
pub fn way(what: Moves, from: Who, to: Who) -> String {
    let does = match what {
        Moves::Serve if matches!(to, Who::Mark) => "serves at",
        Moves::Serve => "serves to",
        Moves::Pass => "passes to",
        Moves::Set => "sets to",
        Moves::Toss => "tosses to",
        Moves::Roll => "rolls a ball to",
        Moves::Play => "plays it over to",
        Moves::Run => "runs to",
        Moves::Carry => "takes the ball to",
    };
    match (from, to) {
        // What lands at a mark is taken on by whoever served it there.
        (Who::Mark, to) => format!("From the mark, the ball goes with its child to {}.", the(to)),
        (from, to) if from == to => format!("{} {does} another {}.", capital(the(from)), who(to)),
        (from, to) => format!("{} {does} {}.", capital(the(from)), the(to)),
    }
}

fn the(it: Who) -> &'static str {
    match it {
        Who::Server => "the server",
        Who::Passer => "the passer",
        Who::Setter => "the setter",
        Who::Target => "the target",
        Who::Feeder => "the feeder",
        Who::Getter => "the ball-getter",
        Who::Player => "the player",
        Who::Other => "the other side",
        Who::Distracter => "the one who distracts",
        Who::Waiting => "the end of the line",
        Who::Coach => "the coach",
        Who::Mark => "the mark",
        Who::Store => "the store of balls",
    }
}

/// `From above: a court with a net, 2 servers, 1 target.`
pub fn floor(floor: &Floor) -> String {
    const ALL: [(Who, &str, &str); 13] = [
        (Who::Server, "server", "servers"),
        (Who::Passer, "passer", "passers"),
        (Who::Setter, "setter", "setters"),
        (Who::Target, "target", "targets"),
        (Who::Feeder, "feeder", "feeders"),
        (Who::Getter, "ball-getter", "ball-getters"),
        (Who::Player, "player", "players"),
        (Who::Other, "on the other side", "on the other side"),
        (Who::Distracter, "who distracts", "who distract"),
        (Who::Waiting, "next in line", "next in line"),
        (Who::Coach, "coach", "coaches"),
        (Who::Mark, "mark", "marks"),
        (Who::Store, "store of balls", "stores of balls"),
    ];
    let ground = match floor.ground {
        Ground::Court => "a court with a net",
        Ground::Half => "one half of a court, up to the net",
        Ground::Open => "open floor",
        Ground::Wall => "open floor before a wall",
    };
    let mut parts = vec![ground.to_owned()];
    for (who, one, more) in ALL {
        let n = floor.places.iter().filter(|place| place.who == who).count();
        parts.extend((n > 0).then(|| plural(n, one, more)));
    }
    format!("From above: {}.", parts.join(", "))
}
