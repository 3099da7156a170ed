//! Labels and standing sentences of every screen but the board. Sentences with figures in them are made by the view functions.

use crate::app::settings::Calls;
use crate::app::view::today::Picture;
use crate::domain::ids::Step;
use crate::domain::skill::{GoodFrom, PassGrade, ServeStyle, Skill};

// Everywhere
pub const BACK_TO_TODAY: &str = "Back to today";
pub const BACK_TO_SQUAD: &str = "Back to the squad";
pub const BACK_TO_BOARD: &str = "Back to the board";
pub const BACK_TO_REPORT: &str = "Back to the run";
pub const BACK_TO_PRACTICE: &str = "Back to the practice";
pub const BACK_TO_AFTER: &str = "Back to all practices";
pub const BACK_TO_SHARE: &str = "Back to share";
pub const BACK_TO_PHONE: &str = "Back to this phone";
pub const CONTACTS_EFFORTS: &str = "Efforts noticed";
pub const CONTACTS_EFFORTS_LINE: &str = "Tap one to say whose it was, and what it was.";
pub const EFFORT_WHOSE: &str = "Whose effort it was";
pub const EFFORT_KIND: &str = "What kind of effort it was";
pub const EFFORT_NO_KIND: &str = "no kind given yet";
pub const CLOSE: &str = "Close";
pub const NEXT_DRILL: &str = "Next drill";
pub const SEND_COPY: &str = "Send a copy";
pub const LESS: &str = "less";
pub const MORE: &str = "more";
pub const GONE_TITLE: &str = "Not here";
pub const GONE: &str =
    "This page is about something that isn't on this phone. Perhaps it came with a copy that was taken back.";

// Today
pub const WELCOME_WHAT: &str =
    "One tap a ball at practice: who it was, and how good. Afterwards you read it child by child.";
pub const WELCOME: &str = "First, who plays?";
pub const WELCOME_LINE: &str = "Type the children's names, or paste a list you have. Nicknames do.";
pub const WELCOME_KEY: &str = "List who plays";
pub const WELCOME_CLOSED: &str = "The storage doesn't open";
pub const WELCOME_CLOSED_LINE: &str = "If your squad is stored on this phone, it lies there untouched and can't be read just now. Try again, or type the names of those who play now.";
pub const WELCOME_SAFE: &str = "Everything stays on this phone. It needs no signal.";
pub const DRILLS: &str = "Drills";
pub const NO_DRILLS: &str = "No drill is left. Make one and it waits here, ready to tap.";
pub const DRILL_NEW: &str = "New drill";
pub const CHANGE: &str = "Change";
pub const WHO_IS_HERE: &str = "Who is here";
pub const TAP_AWAY: &str = "Tap a child who is away, and once more when the child comes.";
pub const TAP_AWAY_STATION: &str = "Tap whoever isn’t at your station. In the practice the child is here all the same.";
pub const AWAY: &str = "away";
pub const HERE: &str = "here";
pub const ON_NOW: &str = "on now";
pub const GO_ON: &str = "Go on";
pub const DEMO_BAND: &str = "Demo: an invented squad";
pub const DEMO_FIRST: &str = "Look at a demo first";
pub const RUNS_SO_FAR: &str = "So far";
pub const PRACTICE_LEAVE: &str = "Stop taking part";
pub const PRACTICE_THEIRS: &str = "Another phone began this practice, plans it and ends it. Send a copy of yours, and your counts stand beside the others in it.";
pub const PRACTICE_END: &str = "End practice";
pub const PRACTICE_EMPTY: &str = "Nothing counted yet.";

// Squad
pub const SQUAD: &str = "Squad";
pub const ADD_CHILDREN: &str = "Add children";
pub const SQUAD_EMPTY: &str = "Nobody yet";
pub const SQUAD_EMPTY_LINE: &str =
    "Type or paste the names once, a child a line. They are here at every practice from then on.";
pub const SQUAD_CLOSED: &str = "The squad can't be read just now";
pub const SQUAD_CLOSED_LINE: &str =
    "If names are stored on this phone, they lie there untouched. Try again before you type them anew.";
pub const ARCHIVED: &str = "Archived";
pub const ARCHIVED_LINE: &str = "Not at practice any more; what was counted stays. Tap a name to bring it back.";

// The list
pub const ROSTER: &str = "The list";
pub const ROSTER_LABEL: &str = "A child a line";
pub const ROSTER_HINT: &str = "7 Mira, or #7 Mira, or Mira, 7, or just Mira. Pasted lists are fine too.";
pub const ROSTER_EMPTY: &str = "As you type, this shows how each line was understood.";
pub const ROSTER_PREVIEW: &str = "Understood so far";
pub const ROSTER_NOTHING: &str = "Nothing to add yet";

// A child
pub const NAME: &str = "Name";
pub const NUMBER: &str = "Shirt number";
pub const NUMBER_HINT: &str = "may stay empty";
pub const SERVES: &str = "Serves";
pub const SERVES_HINT: &str = "Noted with every serve until you change it.";
pub const CHILD: &str = "A child";
pub const KEEP: &str = "Keep";
pub const KEPT: &str = "Kept";
pub const ARCHIVE: &str = "Archive";
pub const BRING_BACK: &str = "Bring back";
pub const IS_ARCHIVED: &str = "Archived: not at practice any more. What was counted stays.";

// A drill
pub const DRILL_CHANGE: &str = "Change the drill";
pub const DRILL_NAME: &str = "Its name";
pub const DRILL_NAME_HINT: &str = "What you call it in the gym";
pub const DRILL_SKILL: &str = "What is practised?";
pub const SKILL_PASS: &str = "Passing";
pub const SKILL_SERVE: &str = "Serving";
pub const SKILL_OWN: &str = "Another skill";
pub const SKILL_NAME: &str = "What you call this skill";
pub const SKILL_NAME_HINT: &str = "Setting, blocking, landing …";
pub const DRILL_BOARD: &str = "How do they stand?";
pub const PLACES_PASS: &str = "Passers on the floor";
pub const PLACES_SERVE: &str = "Servers in a row";
pub const ORDER: &str = "Who is next?";
pub const IN_TURN: &str = "One after another";
pub const STAYS: &str = "Stays until you tap a name";
pub const TEN_FOR_ONE: &str = "Ten balls of one child, the least known first";
pub const RECEIVER: &str = "Somebody receives";
pub const RECEIVER_LINE: &str = "Then an ace can be noted too.";
pub const TOLD_OF: &str = "Balls each";
pub const GOAL_ON: &str = "A goal";
pub const GOAL: &str = "Good ones to reach";
pub const PLAYED_FOR: &str = "What is it played for?";
pub const PLAYED_GOAL: &str = "A goal";
pub const PLAYED_ROW: &str = "In a row";
pub const PLAYED_TENS: &str = "Out of ten";
pub const PLAYED_FIRST: &str = "First to ten";
pub const PLAYED_TIME: &str = "Most in the time";
pub const PLAYED_TOGETHER: &str = "Together";
pub const ROW_GOAL_ON: &str = "A row to reach";
pub const ROW_GOAL: &str = "In a row";
pub const BALLS_ON: &str = "So many balls, then it is over";
pub const BALLS: &str = "Balls";
pub const SERIES_BALLS: &str = "Balls in a series";
pub const RACE_POINTS: &str = "Good ones to win";
pub const TIME_LONG: &str = "Minutes on the clock";
pub const WHOSE: &str = "Whose count?";
pub const WHOSE_CHILD: &str = "Each child's own";
pub const WHOSE_GROUP: &str = "The group's";
pub const WHOSE_GROUP_ROW: &str = "The group keeps it alive";
pub const TOGETHER_LINE: &str = "Against the squad's own best in this drill.";
pub const TOGETHER_TOTAL: &str = "All good ones";
pub const TOGETHER_ROW: &str = "One row, kept alive";
pub const FALLS: &str = "A miss costs little";
pub const FALLS_LINE: &str = "The row falls back to the last five, not to nothing: 13 to 10.";
pub const BY_TWO: &str = "Two ahead to win";
pub const BY_TWO_LINE: &str = "It goes on until one group is two good ones ahead.";
pub const GROUPS: &str = "Groups";
pub const GROUPS_ONE: &str = "Everyone is one group.";
pub const GROUPS_LINE: &str = "The practice's groups where they fit, else dealt out when the drill starts.";
pub const ROUNDS_HEAD: &str = "A round";
pub const N_EASY: &str = "Easy balls, together";
pub const N_CHALLENGE: &str = "Challenge balls, a duel";
pub const EARN_ON: &str = "Earn it";
pub const EARN_LINE: &str = "The challenge comes only after enough good easy balls.";
pub const EARN: &str = "Good easy balls needed";
pub const BETWEEN: &str = "Who wins points?";
pub const SIDES: &str = "Passers or servers, as sides";
pub const CHILDREN: &str = "Each child for itself";
pub const SWAP_ON: &str = "Swap places after each round";
pub const END_HEAD: &str = "When is it over?";
pub const END_POINTS: &str = "At so many points";
pub const END_ROUNDS: &str = "After so many rounds";
pub const END_COACH: &str = "When I end it";
pub const POINTS: &str = "Points";
pub const ROUNDS: &str = "Rounds";
pub const GOOD_HEAD: &str = "What counts as good?";
pub const BALL_HEAD: &str = "Which ball?";
pub const BALL_EASY: &str = "Easy";
pub const BALL_CHALLENGE: &str = "Challenge";
pub const CHALLENGE_BY: &str = "What makes a challenge ball?";
pub const CHALLENGE_HARDER: &str = "Served or thrown harder";
pub const CHALLENGE_DISTRACTED: &str = "A partner distracts, touching neither ball nor player";
pub const BALL_STEP: &str = "Step on the ladder";
pub const BALL_STEP_LINE: &str =
    "How hard the ball is, easiest first. Every ball keeps its step, and a child can have its own, set on the board.";
pub const DRILL_KEEP: &str = "Keep this drill";
pub const DRILL_KEPT: &str = "kept, ready to tap";
pub const DRILL_ARCHIVE: &str = "Put this drill away";

/// A board in the words of one who stands in the gym.
pub const fn board(picture: Picture) -> &'static str {
    match picture {
        Picture::Floor => "Passers on the floor",
        Picture::Duel => "Easy balls, then a duel",
        Picture::Line | Picture::ServeLine => "One child at a time",
        Picture::Serve => "Servers as they stand",
        Picture::Told => "Everyone tells at the whistle",
        Picture::Group => "The whole group, no names",
        Picture::Lanes => "Groups at once",
        Picture::Court => "A game",
        Picture::Propped => "Phone propped up",
    }
}

/// The heading over what was taken back.
pub fn taken_back(n: usize) -> String {
    format!("Taken back: {n}")
}

/// An answer to "What counts as good?".
pub const fn good_from(good: GoodFrom) -> &'static str {
    match good {
        GoodFrom::Grade(PassGrade::Stood) => "3 alone: the target stood",
        GoodFrom::Grade(PassGrade::Moved) => "2 or better: moved and caught it",
        GoodFrom::Grade(PassGrade::Chased | PassGrade::Gone) => "1 or better: could be chased",
        GoodFrom::ServeIn => "A serve that is in",
        GoodFrom::FastServeIn => "In, with a fast swing",
        GoodFrom::GoodKey => "What you tap as good",
    }
}

/// Steps are counted from 1 on screen; those below the ladder have a word and no number.
pub fn step(step: Step) -> String {
    super::ladder::below(step).map_or_else(|| (u16::from(step.0) + 1).to_string(), str::to_owned)
}

/// `Step 2: thrown over the net`
pub fn step_in_words(skill: &Skill, at: Step) -> String {
    let (no, word) = (super::ladder::numbered(at), super::ladder::step(skill, at));
    if no.to_lowercase() == word { String::new() } else { format!("{no}: {word}") }
}

/// A serve style on its large key.
pub const fn serve_style(style: ServeStyle) -> &'static str {
    match style {
        ServeStyle::Underhand => "Underhand",
        ServeStyle::Roundhouse => "Roundhouse",
        ServeStyle::StandingOverhead => "Standing overhead",
        ServeStyle::Jump => "Jump",
    }
}

// Contacts
pub const CONTACTS_EMPTY: &str = "Nothing counted in this run yet.";
/// Of a run in which numbers were told: they are no single balls.
pub const CONTACTS_TOLD: &str = "Numbers were told here, no single balls. They stand in the report; on the board a tap on another number puts one right.";
/// Of a match, over its rallies.
pub const CONTACTS_IN_MATCH: &str = "Serves and passes";
pub const RALLIES: &str = "Rallies";
pub const CONTACTS_LINE: &str = "Tap one to put it right.";
pub const CONTACTS_NO_NUMBER: &str = "A ball without a number is nobody's try: it isn't counted.";
pub const TO_BOARD: &str = "To the board";
pub const UNDO: &str = "Undo";
pub const CORRECTED: &str = "corrected";
pub const FIX_WHO: &str = "Who was it?";
pub const FIX_WHAT: &str = "What came of it?";
pub const FIX_STEP: &str = "Step of the ball";
pub const FIX_STEP_LINE: &str = "How hard it was thrown or served: 1 is the softest step on the drill's ladder.";
pub const SHIFT: &str = "Shift from here";
pub const SHIFT_LINE: &str = "From this ball on, everyone one further in line.";
pub const TAKE_BACK: &str = "Take it back";
pub const PUT_BACK: &str = "Put back";
pub const DONE: &str = "Done";

// Reports
pub const CONTACT_LIST: &str = "Every contact";
pub const RUN_REOPEN: &str = "Open the board again";
pub const LONGEST: &str = "The longest";
pub const EFFORTS: &str = "Efforts you noticed";
pub const BESIDE: &str = "Counted at the same time on another phone or window";
pub const BESIDE_LINE: &str = "Perhaps the same balls, so nothing here is added to the figures above.";
pub const RUN_EMPTY: &str = "No contact was counted in this run.";
pub const AFTER: &str = "After";
pub const AFTER_EMPTY: &str = "No practice yet";
pub const AFTER_EMPTY_LINE: &str =
    "Tap a drill under Today. What you count there can be read here, that evening or next year.";
pub const AFTER_CLOSED: &str = "Practices can't be read just now";
pub const AFTER_CLOSED_LINE: &str =
    "What is stored on this phone lies there untouched and is not listed. What you count now is added to it later.";
pub const TO_TODAY: &str = "To today";
pub const PRACTICE_REOPEN: &str = "Open this practice again";
pub const PRACTICE_NO_RUNS: &str = "No drill was run in this practice.";
pub const READING_TITLE: &str = "One moment";
pub const READ_AGAIN: &str = "Try again";
pub const READING: &str = "Fetching this practice from the phone's storage.";
pub const DRILLS_RUN: &str = "What was practised";

// Share
pub const SHARE: &str = "Share";
pub const COPY_WHAT: &str =
    "One file with everything: squad, drills, every ball. It opens in Peppertally on any phone.";
pub const COPY_SEND: &str = "Send it now";
pub const COPY_SHARE: &str = "Send a copy";
pub const PART_OPEN: &str = "A part of it, or a table";
pub const PART_OF: &str = "How much";
pub const PART_COPY: &str = "As a copy for another phone";
pub const CHILD_PAGE: &str = "As a page for the family";
pub const TABLE_CONTACTS: &str = "Every ball as a table (CSV)";
pub const TABLE_CHILDREN: &str = "Every child and practice as a table (CSV)";
pub const TABLE_LINE: &str = "A table opens in any spreadsheet and can’t be taken in again. Numbers told at the whistle are no single balls: they stand in the table by child and practice alone. Names and numbers are in all of these: send them only to whom the children’s families expect.";
pub const COPY_DOWNLOAD: &str = "Save a copy as a file";
pub const COPY_WRITING: &str = "Writing the copy";
pub const FILE_READING: &str = "Reading the file";
pub const OPEN_FILE: &str = "Open a file";
pub const OPEN_LINE: &str =
    "From another phone, or your own older copy. You see what is new before anything is taken in.";
pub const PARCEL_ACCEPT: &str = "Take it in";
pub const PARCEL_ACCEPT_REMOVES: &str = "Take it in, and remove for good";
pub const PARCEL_SURE: &str = "Take it back";
pub const PARCEL_STAYS: &str = "Leave it";
pub const PARCEL_DECLINE: &str = "Leave it";
pub const PARCEL_HEAD: &str = "In this file";
pub const PARCELS: &str = "Files taken in";
pub const PARCEL_BACK: &str = "Take back";
pub const PARCEL_AGAIN: &str = "Take in again";
pub const PARCEL_OUT: &str = "taken back";
pub const COPY_THERE: &str = "It is there";
pub const COPY_NOT_THERE: &str = "It isn't";
pub const ANSWER_SEEN: &str = "All right";
pub const THIS_PHONE: &str = "This phone";
pub const THIS_PHONE_LINE: &str = "Storage, sound, left hand, demo, erase";

// This phone
pub const KEPT_HEAD: &str = "What is kept";
pub const LASTING: &str = "Ask the browser to keep it for good";
pub const SAVE_AGAIN: &str = "Save again now";
pub const ASIDE_HEAD: &str = "Set aside";
pub const ASIDE_LINE: &str =
    "These could not be read. They are kept as they were found and nothing is written over them.";
pub const TELLS_HEAD: &str = "How a tap is told";
pub const SOUND: &str = "Sound";
pub const VOICE: &str = "The phone's voice";
pub const VOICE_LINE: &str = "Says what is chosen under “The phone calls” (phases, swaps, names, the pace, the time), and when something isn't saved.";
pub const VIBRATION: &str = "Vibration";
pub const NO_VIBRATION: &str = "This phone's browser can't vibrate.";
pub const CALLS_HEAD: &str = "The phone calls";
pub const CALLS_LINE: &str = "Said by the phone's own voice where it has one that needs no signal, else a tone: turn on voice or sound above. How a ball went is never said aloud.";
/// Why the switches of some calls rest.
pub const fn calls_silent(reaching: Calls) -> Option<&'static str> {
    match (reaching.names, reaching.swap) {
        (true, _) => None,
        (false, true) => Some("Voice and sound are off: the phone only buzzes."),
        (false, false) => Some("Voice and sound are off, so nothing is called now. What you chose is kept."),
    }
}
pub const CALL_NAME: &str = "Whose turn it is";
pub const CALL_PHASE: &str = "Challenge, and easy again";
pub const CALL_SWAP: &str = "Swap places";
pub const CALL_PACE: &str = "The pace count";
pub const CALL_TIME: &str = "Time";
pub const LEFT: &str = "Left hand";
pub const LEFT_LINE: &str = "Mirrors the board for a left thumb.";
pub const KINDS_HEAD: &str = "Kinds of effort";
pub const KINDS_LINE: &str = "Your own words, offered after you tap Effort.";
pub const KIND_NEW: &str = "A new kind";
pub const KIND_ADD: &str = "Add";
pub const REMOVE: &str = "Remove";
pub const DEVICE: &str = "This phone’s name, if you like";
pub const DEVICE_LINE: &str = "Such as “Ana’s phone”; no child’s name is needed. With it others see who counted what.";
pub const APP_HEAD: &str = "The app";
pub const LICENCES: &str = "Whose code is in it";
pub const LICENCES_LINE: &str = "The libraries it is made with, and their terms.";
pub const UPDATE: &str = "Change to the new version";
pub const UPDATE_LINE: &str =
    "A new version is on this phone already. Changing takes a moment and touches nothing you counted.";
pub const INSTALL_KEY: &str = "Put it on the home screen";
pub const DEMO_HEAD: &str = "Try it without your squad";
pub const DEMO: &str = "Open the demo squad";
pub const DEMO_LINE: &str =
    "An invented squad with a season of practices, in a storage of its own. Yours is not touched.";
pub const DEMO_LEAVE: &str = "Leave the demo";
pub const DEMO_LEAVE_LINE: &str = "Everything here is invented. Leaving removes it without a trace.";
pub const ERASE_HEAD: &str = "Erase";
pub const ERASE: &str = "Erase everything";
pub const ERASE_LINE: &str = "Squad, drills, every practice, settings: gone from this phone, in every tab.";
pub const ERASE_ASK: &str = "Really erase everything?";
pub const ERASE_ASK_LINE: &str = "There is no way back, only a copy you sent earlier. The phone's disk may hold remnants until the browser uses that space again.";
pub const ERASE_SURE: &str = "Erase it all";
pub const ERASE_NO: &str = "Keep everything";

/// The app's version in words.
pub fn version(version: &str) -> String {
    format!("Version {version}")
}

// Install
pub const INSTALL: &str = "On the home screen";
pub const INSTALL_WHY: &str = "A home-screen app keeps its own data. In a browser tab, Safari clears what a page has stored after seven days without a visit; other browsers may do so when the phone runs full.";
pub const INSTALL_DONE: &str = "It is on the home screen.";
pub const INSTALL_DONE_LINE: &str =
    "You opened Peppertally from there, so it keeps its own data and starts without a signal.";
pub const INSTALL_FIRST: &str =
    "Do this before you type the names: on some phones the home-screen app starts with an empty storage of its own.";
pub const INSTALL_TYPED: &str = "You have typed names here already. Send a copy first, put the app on the home screen, then open the copy there: on some phones the home-screen app starts empty.";
pub const INSTALL_TYPED_KEY: &str = "Send a copy first";
pub const INSTALL_LATER: &str = "Later";
pub const IOS: &str = "iPhone and iPad";
pub const IOS_STEPS: [&str; 3] = [
    "In Safari, tap the arrow that points out of a box. If it isn't there, look under the three dots.",
    "Go down the sheet to Add to Home Screen and tap it.",
    "Tap Add. The icon stands among your apps.",
];
pub const ANDROID: &str = "Android";
pub const ANDROID_STEPS: [&str; 3] = [
    "Tap the three dots in a corner of the browser.",
    "Tap Install app, or Add to Home screen.",
    "Say yes. The icon stands among your apps.",
];
pub const OTHER: &str = "A computer, or another phone";
pub const OTHER_STEPS: [&str; 3] = [
    "Open the browser's menu, or look for a small screen with an arrow in the address line.",
    "Choose Install, or Add to Home screen.",
    "Start it from its icon from now on.",
];

pub const RALLIES_LINE: &str =
    "The latest rally first. Who won one may be changed: the score follows, who stands where now stays.";
pub const RALLY_WON: &str = "Who won it";
pub const TAKE_BACK_SHORT: &str = "Take back";

/// `Challengers won it`
pub fn side_had_it(side: &str) -> String {
    format!("{side} won it")
}

pub const GAME_HEAD: &str = "Which game?";
pub const GAME_STAY: &str = "Winners stay";
pub const GAME_MATCH: &str = "Match game";
pub const A_SIDE: &str = "Children a side";
pub const GAME_TO: &str = "Rallies to win a game";
pub const GAME_TO_LINE: &str = "1: every rally is a game. More: a short game.";
pub const NEAR_ONLY: &str = "Points only on the winners' side";
pub const OFF_ON: &str = "After so many wins in a row, off";
pub const OFF_AFTER: &str = "Wins in a row, then off";
pub const SERVES_HEAD: &str = "Who serves?";
pub const SERVES_CHALLENGERS: &str = "The challengers";
pub const SERVES_NEAR: &str = "The winners' side";
pub const SERVES_LAST: &str = "Who won the last";
pub const SECOND_ON: &str = "A second serve";
pub const SECOND_LINE: &str = "A missed serve may be served once more.";
pub const PACED_ON: &str = "The next serve after two seconds";
pub const PACED_LINE: &str = "Ready or not. After a rally “one, two, serve” fill on the net, for the eye: nothing to tap. Where sound or voice is on, the phone says them.";
pub const MATCH_TO: &str = "Points to win, two ahead";

/// The rule-book's two lengths.
pub fn match_usual(to: u16) -> String {
    if to == 15 { "To 15, as a deciding set".to_owned() } else { format!("To {to}, as a set") }
}
pub const NOTE_HEAD: &str = "Noted beside the rallies";
pub const NOTE_SERVES: &str = "Serves";
pub const NOTE_SERVES_LINE: &str = "One more tap a rally: where it went. An ace or a miss says who won it too.";
pub const NOTE_PASSES: &str = "First passes";
pub const NOTE_PASSES_LINE: &str = "Two more taps: who passed, and 3, 2, 1 or 0.";
pub const CAP_ON: &str = "At most so many serves in a row";
pub const CAP: &str = "Serves in a row";
