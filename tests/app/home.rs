//! The note home: what stands in it, what never does, who is never in it, and that what the coach changes stays.

use crate::phone::{Phone, pass};
use peppertally::app::action::Action;
use peppertally::app::effect::{Effect, Report};
use peppertally::app::home::{HomeTap, MOST_DRAFTS, Piece, Sheet, Way, sheet};
use peppertally::app::joining::JoiningTap;
use peppertally::app::notes::{ListTap, NotesTap};
use peppertally::app::screen::Screen;
use peppertally::app::view::home::{HomeView, home};
use peppertally::app::words::home as words;
use peppertally::domain::ids::{Place, PlayerId, Step};
use peppertally::domain::skill::{Feed, FeedKind, Outcome, ServeOutcome, Skill};

const SQUAD: &str = "Mira\nTove\nOdile";

fn open(phone: &mut Phone, name: &str) -> PlayerId {
    let player = phone.player(name);
    phone.act(Action::Go(Screen::Home(player)));
    player
}

fn view(phone: &Phone) -> HomeView {
    let Screen::Home(player) = phone.model.screen else { panic!("{:?}", phone.model.screen) };
    home(&phone.model, player).expect("a child of the squad")
}

fn tap(phone: &mut Phone, tap: HomeTap) {
    phone.act(Action::Home(tap));
}

fn texts(phone: &Phone) -> Vec<String> {
    view(phone).lines.into_iter().map(|line| line.text).collect()
}

fn gone(phone: &mut Phone, way: Way) -> Option<Sheet> {
    phone.effects.clear();
    tap(phone, HomeTap::Goes(way));
    phone.effects.iter().find_map(|effect| match effect {
        Effect::NoteHome { sheet, .. } => Some((**sheet).clone()),
        _ => None,
    })
}

fn practise(phone: &mut Phone, times: usize, grades: [u8; 3]) {
    phone.drill(0);
    for _ in 0..times {
        for (place, grade) in (0..).zip(grades) {
            phone.act(Action::PlaceTapped(Place(place), pass(grade)));
        }
    }
    phone.act(Action::Finish);
    phone.end_practice();
}

#[test]
fn nothing_is_told_of_one_who_never_came() {
    let mut phone = Phone::with_squad(SQUAD);
    open(&mut phone, "Mira");
    assert!(view(&phone).nothing);
    assert_eq!(gone(&mut phone, Way::CopyText), None);
    let player = phone.player("Mira");
    assert_eq!(Screen::from_address(&Screen::Home(player).address()), Some(Screen::Home(player)));
}

/// Effort first, then being there, the balls, a question with the name last. No progress out of one evening.
#[test]
fn effort_first_and_a_question_last() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.act(Action::EffortTapped);
    let effort = phone.model.board.effort.expect("an effort");
    let mira = phone.player("Mira");
    phone.act(Action::EffortGiven(effort, Some(mira), Some("dived".to_owned())));
    (0..9).for_each(|_| phone.act(Action::PlaceTapped(Place(0), pass(3))));
    phone.act(Action::Finish);
    phone.end_practice();
    open(&mut phone, "Mira");
    assert_eq!(
        texts(&phone),
        [
            "Effort was noticed: dived.",
            "Mira was at practice once in the last six weeks.",
            "10 balls were practised in these weeks that the phone knows of: Passing.",
            "To ask on the way home: “What was the most fun, Mira?”",
        ]
    );
    let text = sheet(&phone.model, mira).text();
    assert!(text.starts_with("Volleyball practice: Mira\nSunday 29 November 2026\n\n"), "{text}");
    assert!(text.ends_with("much that matters isn’t."), "{text}");
    // The same once it lies packed: kinds of effort stand in its summary, so no practice is read for them.
    let (screen, had) = (phone.model.screen, texts(&phone));
    phone.act(Action::Go(Screen::After));
    phone.restart();
    assert!(phone.model.packed.values().any(|packed| !packed.read), "it lies packed");
    phone.effects.clear();
    phone.act(Action::Go(screen));
    assert_eq!(texts(&phone), had);
    let reads = |effect: &Effect| matches!(effect, Effect::Work(peppertally::app::work::Job::Read { .. }));
    assert!(!phone.effects.iter().any(reads), "{:?}", phone.effects);
}

/// A change that stands is told; where less is good nothing is.
#[test]
fn only_more_is_told() {
    let mut phone = Phone::with_squad(SQUAD);
    for week in 0..6 {
        let late = week >= 3;
        practise(&mut phone, 12, [if late { 3 } else { 0 }, if late { 0 } else { 3 }, 1]);
        if week < 5 {
            (0..7).for_each(|_| phone.next_day());
        }
        phone.act(Action::Go(Screen::Today));
    }
    open(&mut phone, "Mira");
    let progress = |phone: &Phone| view(phone).lines.into_iter().find(|line| line.piece == Piece::Progress);
    let mira = progress(&phone).expect("three weeks of none, three of all").text;
    assert!(mira.starts_with("Passing, tossed: about ") && mira.contains(" in 10 more are good than on "), "{mira}");
    open(&mut phone, "Tove");
    let tove = texts(&phone).join("\n");
    assert_eq!(progress(&phone), None, "{tove}");
    assert!(!tove.to_lowercase().contains("fewer") && !tove.to_lowercase().contains("less"), "{tove}");
}

/// No practice for weeks: nothing is said of being there, for nobody was; the question is asked all the same.
#[test]
fn nobody_is_missed_at_practices_that_were_not_held() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 4, [3, 0, 0]);
    (0..50).for_each(|_| phone.next_day());
    phone.act(Action::Go(Screen::Today));
    open(&mut phone, "Mira");
    let lines = view(&phone).lines;
    assert_eq!(lines.iter().map(|line| line.piece).collect::<Vec<_>>(), [Piece::Question], "{:?}", texts(&phone));
    assert!(!texts(&phone).join(" ").to_lowercase().contains("miss"), "{:?}", texts(&phone));
}

/// Once a week, so that the last six weeks have as many practices each time: every note has another question than the one before.
#[test]
fn another_question_after_every_practice() {
    let mut phone = Phone::with_squad(SQUAD);
    let mut asked = Vec::new();
    for _ in 0..10 {
        practise(&mut phone, 1, [3, 3, 3]);
        open(&mut phone, "Mira");
        asked.push(texts(&phone).pop().expect("a question"));
        (0..7).for_each(|_| phone.next_day());
        phone.act(Action::Go(Screen::Today));
    }
    assert!(asked.windows(2).all(|two| two[0] != two[1]), "{asked:#?}");
}

/// Serves from a step, six rounds or fewer of them all.
fn serve(phone: &mut Phone, rounds: usize, step: u8) {
    phone.drill(3);
    let mira = phone.player("Mira");
    phone.act(Action::StepChosen(mira, Step(step)));
    for _ in 0..rounds * 3 {
        phone.act(Action::OutcomeTapped(Outcome::Serve { outcome: ServeOutcome::In, fast: false }));
    }
    phone.act(Action::Finish);
    phone.end_practice();
}

/// Two serves from further back in one practice and four in the next: it is so since the first of the two, 18 January 2027, and not since
/// today. Where one was tried months before, no day is named.
#[test]
fn a_step_on_is_dated_by_its_first_ball() {
    let on = |tried: bool| {
        let mut phone = Phone::with_squad(SQUAD);
        serve(&mut phone, 6, 1);
        if tried {
            phone.act(Action::Go(Screen::Today));
            serve(&mut phone, 1, 2);
        }
        (0..50).for_each(|_| phone.next_day());
        phone.act(Action::Go(Screen::Today));
        serve(&mut phone, 2, 2);
        (0..7).for_each(|_| phone.next_day());
        phone.act(Action::Go(Screen::Today));
        serve(&mut phone, 4, 2);
        open(&mut phone, "Mira");
        texts(&phone)
    };
    let first = on(false);
    assert!(first.contains(&"Serving: from 6 m since 18 January; before it was from 4.5 m.".to_owned()), "{first:#?}");
    let tried = on(true);
    assert!(tried.contains(&"Serving: from 6 m now; before it was from 4.5 m.".to_owned()), "{tried:#?}");
}

/// Six good ones in a row, weeks after four: own against own. As many again is no news.
#[test]
fn a_longer_row_is_its_own() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 4, [3, 0, 0]);
    (0..50).for_each(|_| phone.next_day());
    phone.act(Action::Go(Screen::Today));
    practise(&mut phone, 6, [3, 0, 0]);
    open(&mut phone, "Mira");
    assert!(
        texts(&phone).contains(&"Passing: 6 good ones in a row, the longest so far.".to_owned()),
        "{:?}",
        texts(&phone)
    );
    open(&mut phone, "Tove");
    assert!(!texts(&phone).iter().any(|line| line.contains("in a row")), "{:?}", texts(&phone));
}

/// What the coach changes or leaves out is what goes, and stays over a kill; the child beside has its own.
#[test]
fn the_coachs_words_stay() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 3, [3, 2, 1]);
    let mira = open(&mut phone, "Mira");
    tap(&mut phone, HomeTap::Opened(Piece::There));
    tap(&mut phone, HomeTap::Typed("Mira came, and helped to carry the balls.".to_owned()));
    assert!(view(&phone).open.expect("open").composed.is_some());
    tap(&mut phone, HomeTap::Closed);
    tap(&mut phone, HomeTap::Out(Piece::Practised, true));
    tap(&mut phone, HomeTap::Opened(Piece::Own));
    tap(&mut phone, HomeTap::Typed("We are looking for somebody with a net.".to_owned()));
    phone.restart();
    phone.act(Action::Go(Screen::Home(mira)));
    assert_eq!(view(&phone).out.len(), 1);
    let gone = gone(&mut phone, Way::CopyText).expect("it goes");
    assert_eq!(
        gone.lines[..2],
        ["Mira came, and helped to carry the balls.", "We are looking for somebody with a net."]
    );
    assert_eq!((gone.lines.len(), gone.asks), (3, true));
    open(&mut phone, "Tove");
    assert!(!view(&phone).changed);
    phone.act(Action::Go(Screen::Home(mira)));
    tap(&mut phone, HomeTap::Out(Piece::Practised, false));
    tap(&mut phone, HomeTap::Anew);
    assert!(!view(&phone).changed);
    assert!(!phone.settings.as_ref().expect("settings").contains("carry the balls"));
}

/// Words for a child that turns out to be another one are that other's, changed on and put back as one.
#[test]
fn words_for_one_entered_twice_are_not_lost() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 3, [3, 2, 1]);
    phone.restart_elsewhere();
    phone.act(Action::RosterTyped("Mirja".to_owned()));
    phone.act(Action::RosterTaken);
    let (mira, mirja) = (phone.player("Mira"), phone.player("Mirja"));
    phone.act(Action::Go(Screen::Home(mirja)));
    tap(&mut phone, HomeTap::Opened(Piece::Own));
    tap(&mut phone, HomeTap::Typed("Bring the blue shirt.".to_owned()));
    tap(&mut phone, HomeTap::Closed);
    phone.act(Action::Joining(JoiningTap::Same { stays: mira, also: mirja }));
    phone.act(Action::Go(Screen::Home(mira)));
    assert!(texts(&phone).iter().any(|line| line.contains("blue shirt")), "{:?}", texts(&phone));
    tap(&mut phone, HomeTap::Out(Piece::There, true));
    assert!(texts(&phone).iter().any(|line| line.contains("blue shirt")));
    tap(&mut phone, HomeTap::Anew);
    assert!(!texts(&phone).iter().any(|line| line.contains("blue shirt")));
}

/// While another child is named nothing goes, by whatever way; the coach is told who, and no word is changed for her.
#[test]
fn another_childs_name_stays_here() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 3, [3, 2, 1]);
    open(&mut phone, "Mira");
    for words in ["Mira and Tove cheered.", "with TOVE", "Tove’s ball", "(odile)"] {
        tap(&mut phone, HomeTap::Opened(Piece::Own));
        tap(&mut phone, HomeTap::Typed(words.to_owned()));
        for way in [Way::CopyText, Way::ShareText, Way::Print, Way::SavePicture, Way::SharePicture] {
            assert_eq!(gone(&mut phone, way), None, "{words}");
        }
        let view = view(&phone);
        assert!(view.fault.as_ref().is_some_and(|fault| fault.contains("Tove") || fault.contains("Odile")), "{words}");
        assert!(view.lines.iter().any(|line| line.text == words && line.named), "{words} is as she typed it");
    }
    tap(&mut phone, HomeTap::Out(Piece::Own, true));
    assert!(gone(&mut phone, Way::CopyText).is_some());
}

/// A child that is called like a word doesn't stop what the phone itself says; its name in the coach's own words does.
#[test]
fn a_name_that_is_a_word() {
    let mut phone = Phone::with_squad("Mira\nFun\nPractice");
    practise(&mut phone, 3, [3, 2, 1]);
    open(&mut phone, "Mira");
    assert_eq!(view(&phone).fault, None);
    tap(&mut phone, HomeTap::Opened(Piece::There));
    tap(&mut phone, HomeTap::Typed("Mira was at practice, gladly.".to_owned()));
    assert_eq!(view(&phone).fault, None, "the word stood there before");
    tap(&mut phone, HomeTap::Typed("Mira was at practice with Fun.".to_owned()));
    assert!(view(&phone).fault.is_some());
}

/// Two of one name: its own name is no other's.
#[test]
fn two_of_one_name() {
    let mut phone = Phone::with_squad("Mira\nMira Lo\nTove");
    practise(&mut phone, 3, [3, 2, 1]);
    open(&mut phone, "Mira");
    tap(&mut phone, HomeTap::Opened(Piece::Own));
    tap(&mut phone, HomeTap::Typed("Mira, well done.".to_owned()));
    assert_eq!(view(&phone).fault, None);
}

/// A question of the coach's own that names a child is asked of no other at home.
#[test]
fn no_question_names_another() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 3, [3, 2, 1]);
    phone.act(Action::Go(Screen::Ask));
    phone.act(Action::Notes(NotesTap::OwnOf(true)));
    phone.act(Action::Notes(NotesTap::Own(ListTap::Typed("What did Tove call?".to_owned()))));
    phone.act(Action::Notes(NotesTap::Own(ListTap::Kept)));
    phone.act(Action::Notes(NotesTap::Own(ListTap::Typed("Where did you look?".to_owned()))));
    phone.act(Action::Notes(NotesTap::Own(ListTap::Kept)));
    open(&mut phone, "Mira");
    let mut asked = Vec::new();
    for _ in 0..8 {
        asked.push(texts(&phone).pop().expect("a question"));
        tap(&mut phone, HomeTap::OtherQuestion);
    }
    assert!(asked.iter().any(|line| line.contains("Where did you look, Mira?")), "{asked:?}");
    assert!(asked.iter().all(|line| !line.contains("Tove") && line.ends_with(", Mira?”")), "{asked:?}");
}

/// Emptied it is left out; all left out, nothing goes.
#[test]
fn all_of_it_may_be_left_out() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 3, [3, 2, 1]);
    open(&mut phone, "Mira");
    tap(&mut phone, HomeTap::Opened(Piece::There));
    tap(&mut phone, HomeTap::Typed(String::new()));
    assert!(view(&phone).lines.iter().any(|line| line.piece == Piece::There && line.open), "its field stays");
    // Whether it is closed or the screen left meanwhile, it can be had back.
    let screen = phone.model.screen;
    phone.act(Action::Go(Screen::After));
    phone.act(Action::Go(screen));
    assert_eq!(view(&phone).out.len(), 1);
    tap(&mut phone, HomeTap::Out(Piece::There, false));
    assert!(texts(&phone)[0].starts_with("Mira was at practice"), "{:?}", texts(&phone));
    tap(&mut phone, HomeTap::Opened(Piece::There));
    tap(&mut phone, HomeTap::Typed(String::new()));
    tap(&mut phone, HomeTap::Closed);
    assert_eq!(view(&phone).out.len(), 1);
    for line in view(&phone).lines {
        tap(&mut phone, HomeTap::Out(line.piece, true));
    }
    assert_eq!(view(&phone).fault.as_deref(), Some(words::EMPTY));
    assert_eq!(gone(&mut phone, Way::Print), None);
}

/// Emptied and sent at once, without closing it first: it stays left out after a kill.
#[test]
fn what_is_closed_by_sending_is_kept() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 3, [3, 2, 1]);
    let mira = open(&mut phone, "Mira");
    tap(&mut phone, HomeTap::Opened(Piece::There));
    tap(&mut phone, HomeTap::Typed(String::new()));
    assert!(gone(&mut phone, Way::CopyText).is_some());
    phone.restart();
    phone.act(Action::Go(Screen::Home(mira)));
    assert_eq!(view(&phone).out.len(), 1);
    let home = &phone.model.settings.home;
    assert!(home[0].pieces.iter().all(|own| own.out && own.said.is_none()), "{home:?}");
}

/// What became of it is said, and nothing is called sent that the browser didn't say.
#[test]
fn what_became_of_it() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 3, [3, 2, 1]);
    let player = open(&mut phone, "Mira");
    let mut said = |way, left| {
        phone.report(Report::HomeLeft { way, player, name: "mira-2026-11-29.png".to_owned(), left });
        view(&phone).answer.map(|answer| (answer.text, answer.refused))
    };
    assert_eq!(said(Way::CopyText, Ok(true)), Some((words::COPIED.to_owned(), false)));
    assert_eq!(said(Way::SharePicture, Ok(false)), None, "the sheet was closed");
    assert_eq!(said(Way::Print, Ok(true)), None, "nobody tells");
    let (text, refused) = said(Way::SavePicture, Err("NotAllowedError: no".to_owned())).expect("said");
    assert!(refused && text.contains("NotAllowedError"), "{text}");
    let (text, _) = said(Way::SavePicture, Ok(true)).expect("said");
    assert!(text.contains("mira-2026-11-29.png"), "{text}");
}

/// The picture of one takes its time, another's note is open by then: the answer is of the one that went.
#[test]
fn an_answer_is_of_the_note_that_went() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 3, [3, 2, 1]);
    let mira = open(&mut phone, "Mira");
    phone.effects.clear();
    tap(&mut phone, HomeTap::Goes(Way::SavePicture));
    let went = phone.effects.iter().find_map(|effect| match effect {
        Effect::NoteHome { player, name, .. } => Some((*player, name.clone())),
        _ => None,
    });
    let (player, name) = went.expect("it goes");
    assert_eq!(player, mira);
    open(&mut phone, "Tove");
    let report = |left| Report::HomeLeft { way: Way::SavePicture, player, name: name.clone(), left };
    phone.report(report(Ok(true)));
    let text = view(&phone).answer.expect("said").text;
    assert_eq!(text, "The note of Mira: The picture was given to the browser to save: mira-2026-11-29.png.");
    phone.report(report(Err("NotAllowedError: no".to_owned())));
    let text = view(&phone).answer.expect("said").text;
    assert!(text.starts_with("The note of Mira: ") && text.contains("NotAllowedError"), "{text}");
}

/// Of more notes than are remembered: first those of children who left go, then those without own words; own words never without a word.
#[test]
fn own_words_are_never_dropped_without_a_word() {
    let names: Vec<String> = (1..=MOST_DRAFTS + 3).map(|n| format!("Child{n}")).collect();
    let mut phone = Phone::with_squad(&names.join("\n"));
    phone.drill(0);
    phone.act(Action::Finish);
    phone.end_practice();
    let own = |phone: &mut Phone, name: &str| {
        let child = open(phone, name);
        tap(phone, HomeTap::Opened(Piece::Own));
        tap(phone, HomeTap::Typed(format!("Words for {name}.")));
        assert!(phone.model.settings.home.iter().any(|draft| draft.child == child.0.to_string()), "{name}");
        view(phone).answer.map(|answer| answer.text)
    };
    let kept = |phone: &Phone, name: &str| {
        let id = phone.player(name).0.to_string();
        phone.model.settings.home.iter().any(|draft| draft.child == id)
    };
    for (i, name) in names[..MOST_DRAFTS].iter().enumerate() {
        // The third has another question and no words.
        if i == 2 {
            open(&mut phone, name);
            tap(&mut phone, HomeTap::OtherQuestion);
        } else {
            assert_eq!(own(&mut phone, name), None);
        }
    }
    let second = phone.player("Child2");
    phone.act(Action::ChildArchived(second, true));
    assert_eq!(own(&mut phone, &names[MOST_DRAFTS]), None);
    let has_second = phone.model.settings.home.iter().any(|draft| draft.child == second.0.to_string());
    assert_eq!((has_second, kept(&phone, "Child1"), kept(&phone, "Child3")), (false, true, true));
    assert_eq!(own(&mut phone, &names[MOST_DRAFTS + 1]), None);
    assert_eq!((kept(&phone, "Child1"), kept(&phone, "Child3")), (true, false));
    let said = own(&mut phone, &names[MOST_DRAFTS + 2]).expect("it is said");
    assert_eq!(said, "The phone keeps your words for 60 notes: those for Child1, the oldest, are gone.");
    assert!(!kept(&phone, "Child1"));
    tap(&mut phone, HomeTap::Typed("And more words.".to_owned()));
    tap(&mut phone, HomeTap::Closed);
    assert_eq!(view(&phone).answer.map(|answer| answer.text), Some(said), "it outlives the next letter");
}

/// The demo keeps nothing of the coach's own notes.
#[test]
fn the_demo_has_its_own() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 3, [3, 2, 1]);
    open(&mut phone, "Mira");
    tap(&mut phone, HomeTap::Opened(Piece::Own));
    tap(&mut phone, HomeTap::Typed("Of my own.".to_owned()));
    let demo = Phone::demo_on(&phone);
    assert!(demo.model.settings.home.is_empty());
}

/// Every sentence that can come, in every outcome: no word of a verdict, of a rank or of less, and no number without what it is of.
#[test]
fn no_word_of_a_verdict() {
    let feed = |kind, step| Feed { kind, step: Step(step) };
    let skills = [Skill::Pass, Skill::Serve, Skill::Own("Setting".to_owned())];
    let mut all: Vec<String> = Vec::new();
    for n in [1, 2, 3, 41, 100_000] {
        all.push(words::efforts(n, &[]));
        all.push(words::efforts(n, &["dived".to_owned(), "ran for it".to_owned()]));
        all.extend(words::was_there("Mira", n as usize));
        all.push(words::practised(n, &["passing".to_owned()]));
        all.push(words::practised(n, &[]));
    }
    for skill in &skills {
        for likely in [0.0, 0.02, 0.1, 0.5, 1.0] {
            for kind in [FeedKind::Easy, FeedKind::Challenge] {
                for by_one_line in [true, false] {
                    let kind = words::kind(skill, feed(kind, 2), by_one_line);
                    all.push(words::more(&kind, "3 September", likely));
                }
            }
        }
        for (now, before) in [(1, 0), (4, 0), (0, 254), (9, 3)] {
            all.push(words::step(skill, Step(now), Step(before), Some("3 September")));
            all.push(words::step(skill, Step(now), Step(before), None));
        }
        all.push(words::row(skill, 7));
    }
    all.extend(words::QUESTIONS.iter().map(|q| words::question(q)));
    all.push(words::FOOT.to_owned());
    let verdicts = [
        "bad",
        "weak",
        "poor",
        "fail",
        "worse",
        "worst",
        "fewer",
        "less",
        "only ok",
        "lazy",
        "must",
        "should",
        "best",
        "better",
        "level",
        "rank",
        "lack",
        "fault",
        "mistake",
        "miss ",
        "missed a",
        "never",
        "not good",
        "behind",
        "average",
        "talent",
        "than others",
        "than the",
        "squad",
        "group",
        "score",
    ];
    for line in &all {
        // A place on the court.
        let low = line.to_lowercase().replace("behind the line", "from the back");
        for word in verdicts {
            let stands = low.split(|c: char| !c.is_alphabetic() && c != ' ').any(|part| part.contains(word));
            assert!(!stands || low.contains("but less"), "“{word}” in “{line}”");
        }
        let last = line.trim_end_matches(['.', '”', '?']);
        assert!(
            !last.ends_with(|c: char| c.is_ascii_digit()) || low.contains("before it was"),
            "a number ends “{line}”"
        );
        assert!(!line.contains("NaN") && !line.contains("inf"), "{line}");
    }
}
