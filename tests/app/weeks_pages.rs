//! A child's page over the weeks, the squad's and a drill's: days beyond chance, the change since a day, grades, serves, carry-over, effort, rows,
//! load. Practices begin on Sunday 29 November 2026.

use crate::phone::{Phone, pass};
use peppertally::app::action::Action;
use peppertally::app::groups::GroupsTap;
use peppertally::app::screen::Screen;
use peppertally::app::settings::How;
use peppertally::app::view::report;
use peppertally::app::view::weeks::chart::{Chart, Way};
use peppertally::app::view::weeks::kinds::since;
use peppertally::app::view::weeks::{ChildWeeks, DrillWeeks, child_weeks, drill_weeks, pictures, weeks};
use peppertally::app::words::weeks::days as day_words;
use peppertally::domain::drill::{DrillSpec, MatchGame, Rule};
use peppertally::domain::ids::{DrillId, Place};
use peppertally::domain::skill::{Outcome, ServeOutcome, ServeStyle};
use peppertally::domain::summary::Count;

const SQUAD: &str = "Mira\nTove\nOdile";

fn of(phone: &mut Phone, name: &str) -> ChildWeeks {
    let player = phone.player(name);
    phone.act(Action::Go(Screen::Weeks(Some(player))));
    child_weeks(&phone.model, player).expect("a child of the squad")
}

fn days_later(phone: &mut Phone, days: usize) {
    (0..days).for_each(|_| phone.next_day());
    phone.act(Action::Go(Screen::Today));
}

fn end(phone: &mut Phone) {
    phone.act(Action::Finish);
    phone.end_practice();
}

/// A practice in which Mira has these grades, over and over, and the two beside her a good and a bad one by turns.
fn passes(phone: &mut Phone, grades: &[u8], times: usize) {
    phone.drill(0);
    for _ in 0..times {
        for (i, grade) in grades.iter().enumerate() {
            phone.act(Action::PlaceTapped(Place(0), pass(*grade)));
            for place in [1, 2] {
                phone.act(Action::PlaceTapped(Place(place), pass(if i % 2 == 0 { 3 } else { 0 })));
            }
        }
    }
    end(phone);
}

fn serve(phone: &mut Phone, outcome: ServeOutcome, fast: bool) {
    phone.act(Action::OutcomeTapped(Outcome::Serve { outcome, fast }));
}

fn style(phone: &mut Phone, name: &str, style: ServeStyle) {
    let player = phone.player(name);
    phone.act(Action::Go(Screen::Child(player)));
    phone.act(Action::ChildStyleChosen(style));
    phone.act(Action::ChildKept);
    phone.act(Action::Go(Screen::Today));
}

fn drill_id(phone: &Phone, index: usize) -> DrillId {
    phone.model.base.drills()[index].0
}

fn on_page(phone: &mut Phone, drill: DrillId) -> DrillWeeks {
    phone.act(Action::Go(Screen::DrillWeeks(drill)));
    drill_weeks(&phone.model, drill).expect("a drill")
}

/// Twelve of 24 on seven days and none of 24 on one: that day is more than chance, the others are within it, though 24 days of three children were
/// looked at. What is better is asked about as well.
#[test]
fn a_day_beyond_chance_is_marked() {
    for (odd, asked) in [(0, "what was different?"), (3, "what went so well?")] {
        let mut phone = Phone::with_squad(SQUAD);
        for week in 0..8 {
            let grades = if week == 4 { [odd, odd] } else { [3, 0] };
            passes(&mut phone, &grades, 12);
            days_later(&mut phone, 7);
        }
        let mira = of(&mut phone, "Mira");
        let chart = mira.kinds[0].chart.as_ref().expect("eight days");
        let marked: Vec<bool> = chart.days.iter().map(|day| day.marked).collect();
        assert_eq!(marked, [false, false, false, false, true, false, false, false], "{odd}");
        let good = if odd == 0 { "0 of 24" } else { "24 of 24" };
        assert!(
            chart.days[4].says.starts_with(&format!("{good}. More than chance, which brings")),
            "{}",
            chart.days[4].says
        );
        assert!(chart.days[4].says.ends_with(asked), "{}", chart.days[4].says);
        assert_eq!(chart.days[0].says, "12 of 24. Within chance.");
        assert_eq!(chart.days[4].day, "Sunday 27 December 2026");
        // The bar is of what the day was held against: a day within chance lies within its bar, this one beside it.
        let number = |text: &str| text.parse::<f64>().expect("a number");
        for (at, day) in chart.days.iter().enumerate() {
            let (low, high) = day.reach.split_once(' ').and_then(|(_, bar)| bar.split_once('V')).expect("a bar");
            let is_within = (number(high)..=number(low)).contains(&number(&day.y));
            assert_eq!(is_within, at != 4, "{odd}: {day:?}");
        }
        let tove = of(&mut phone, "Tove");
        assert!(tove.kinds[0].chart.iter().flat_map(|chart| &chart.days).all(|day| !day.marked));
    }
}

/// The strips that answer to a touch lie side by side over the whole width, and keys lead from day to day and no further.
#[test]
fn every_day_of_a_chart_can_be_touched() {
    let mut phone = Phone::with_squad(SQUAD);
    for days in [7, 1, 13, 0] {
        passes(&mut phone, &[3, 0], 3);
        days_later(&mut phone, days);
    }
    let chart = of(&mut phone, "Mira").kinds[0].chart.clone().expect("days");
    let number = |text: &str| text.parse::<f64>().expect("a number");
    let mut from = -12.0;
    for day in &chart.days {
        assert!((number(&day.from) - from).abs() < 0.11, "{} {from}", day.from);
        from += number(&day.wide);
        assert!(number(&day.from) <= number(&day.x) && number(&day.x) <= from + 0.11);
    }
    assert!((from - 332.0).abs() < 0.3, "{from}");
    // 29 November to 20 December, a third of the way on 6 December.
    assert_eq!((chart.days.len(), chart.days[1].x.as_str(), chart.last.as_str()), (4, "106.7", "20 December"));
    let led = |at, way| Chart::led(chart.days.len(), at, way);
    assert_eq!((led(0, Way::Earlier), led(0, Way::Later), led(3, Way::Later)), (0, 1, 3));
    assert_eq!((led(1, Way::First), led(1, Way::Last), Chart::led(0, 0, Way::Last)), (0, 3, 0));
}

/// Three runs of a drill on one day, at either end or between: each has a place of its own and a strip that can be touched.
#[test]
fn runs_of_one_day_stand_side_by_side() {
    let mut phone = Phone::with_squad(SQUAD);
    for (runs, later) in [(3, 7), (3, 14), (3, 0)] {
        (0..runs).for_each(|_| passes(&mut phone, &[3, 0], 2));
        days_later(&mut phone, later);
    }
    let drill = drill_id(&phone, 0);
    let chart = on_page(&mut phone, drill).chart.expect("three days");
    let number = |text: &str| text.parse::<f64>().expect("a number");
    let xs: Vec<f64> = chart.days.iter().map(|day| number(&day.x)).collect();
    // A third of the way on the second day; eight apart, the last ones to the left of the edge.
    assert_eq!(xs, [0.0, 8.0, 16.0, 106.7, 114.7, 122.7, 304.0, 312.0, 320.0]);
    assert!(chart.days.iter().all(|day| number(&day.wide) > 7.9), "{:?}", chart.days);
}

/// The change since a day that the coach touches: a range and a chance. Mira has none good for three weeks and then all.
#[test]
fn the_change_since_a_day() {
    let mut phone = Phone::with_squad(SQUAD);
    for week in 0..6 {
        passes(&mut phone, &[if week < 3 { 0 } else { 3 }], 24);
        days_later(&mut phone, 7);
    }
    let kind = of(&mut phone, "Mira").kinds[0].no;
    let mira = phone.player("Mira");
    let told = |at| since(&phone.model, mira, kind, at);
    assert_eq!(told(5).as_deref(), Some(day_words::LATEST));
    let first = told(0).expect("six weeks ago");
    assert!(
        first.starts_with("Since then: ") && first.ends_with("in 10 more good. That it is more is nearly sure."),
        "{first}"
    );
    assert_eq!((told(6), since(&phone.model, mira, 9, 0)), (None, None));
}

#[test]
fn changes_and_chances_in_words() {
    let told = [
        (
            (-0.12, 0.31, 0.7),
            "Since then: between 1 in 10 fewer and 3 in 10 more good. The chance that it is more: 7 in 10.",
        ),
        ((0.12, 0.31, 0.99), "Since then: 1 to 3 in 10 more good. That it is more is nearly sure."),
        ((-0.31, -0.12, 0.01), "Since then: 1 to 3 in 10 fewer good. That it is less is nearly sure."),
        ((-0.04, 0.3, 0.9), "Since then: between the same and 3 in 10 more good. The chance that it is more: 9 in 10."),
        ((-0.03, 0.03, 0.5), "Since then: hardly any change. As likely more as less."),
        ((0.18, 0.21, 0.97), "Since then: about 2 in 10 more good. That it is more is nearly sure."),
    ];
    for ((low, high, up), wanted) in told {
        assert_eq!(day_words::since(low, high, up), wanted);
    }
    let once: Vec<String> = [0.049, 0.012, 0.004, 0.0004, 0.0, f64::MIN_POSITIVE].map(day_words::once_in).to_vec();
    // 1 / 0.049 = 20.4, 1 / 0.012 = 83, 1 / 0.004 = 250, 1 / 0.0004 = 2500.
    assert_eq!(once[..4], ["once in 20", "once in 80", "once in 300", "once in 3,000"]);
    assert_eq!(once[4..], ["once in 10,000 or less", "once in 10,000 or less"]);
}

/// November: 3, 3, 2, 0. The next month 1 four times. A mean only for who asks: (3 + 3 + 2 + 0) / 4 = 2.0.
#[test]
fn grades_month_by_month() {
    let mut phone = Phone::with_squad(SQUAD);
    passes(&mut phone, &[3, 3, 2, 0], 1);
    days_later(&mut phone, 7);
    passes(&mut phone, &[1], 4);
    let grades = of(&mut phone, "Mira").grades.expect("passes");
    let months: Vec<(&str, [u32; 4])> = grades.months.iter().map(|m| (m.title.as_str(), m.parts)).collect();
    assert_eq!(months, [("December 2026", [0, 0, 4, 0]), ("November 2026", [2, 1, 0, 1])]);
    assert_eq!(grades.months[1].line, "4 passes: 2\u{a0}stood, 1\u{a0}moved, 1\u{a0}gone");
    let means: Vec<&str> = grades.means.iter().map(|(_, mean)| mean.as_str()).collect();
    assert_eq!(means, ["1.0", "2.0"]);
}

/// Two months of a path: in November none of 6 fast and 3 in, in December 3 of 6 fast and 2 in. By style and by distance the same balls are summed.
#[test]
fn a_path_of_serves() {
    use ServeOutcome::{In, Long, Net, Wide};
    let mut phone = Phone::with_squad("Mira");
    style(&mut phone, "Mira", ServeStyle::Underhand);
    phone.drill(3);
    [In, In, In, Long, Long, Net].into_iter().for_each(|to| serve(&mut phone, to, false));
    end(&mut phone);
    days_later(&mut phone, 7);
    style(&mut phone, "Mira", ServeStyle::StandingOverhead);
    phone.drill(3);
    [In, In, Long, Wide, Wide, Net].into_iter().enumerate().for_each(|(i, to)| serve(&mut phone, to, i % 2 == 0));
    end(&mut phone);
    let mira = of(&mut phone, "Mira");
    let serves = mira.serves.expect("serves");
    let path = serves.path.expect("two months");
    // Half fast is as far right as the field goes, a third in is a third up: 150 (1 - 1/3).
    let places: Vec<(&str, &str, bool)> = path.stops.iter().map(|s| (s.x.as_str(), s.y.as_str(), s.latest)).collect();
    assert_eq!(places, [("0.0", "75.0", false), ("320.0", "100.0", true)]);
    assert!(
        path.label.contains("November 2026: at least 0 of 6 fast, 3 in; December 2026: at least 3 of 6 fast, 2 in")
    );
    let months: Vec<_> = serves.months.iter().map(|(no, m)| (*no, m.title.as_str(), m.parts)).collect();
    assert_eq!(months, [(Some(2), "December 2026", [2, 1, 2, 1]), (Some(1), "November 2026", [3, 2, 0, 1])]);
    assert_eq!(serves.months[0].1.more.as_deref(), Some("at least 3 fast swings"));
    let styles: Vec<&str> = serves.styles.iter().map(|s| s.title.as_str()).collect();
    assert_eq!(styles, ["underhand", "standing overhead"]);
    assert_eq!((serves.distances.len(), serves.distances[0].title.as_str()), (1, "from 3 m"));
    assert_eq!(serves.distances[0].parts, [5, 3, 2, 2]);
    // Of the underhand serves nothing is claimed.
    let load = mira.load.expect("was there");
    assert_eq!(
        load.lines,
        ["Last practice, today: at least 6 overhead swings.", "This week: at least 6 overhead swings."]
    );
}

/// Jumps are swings too; a week begins on Monday; in a match serves count as well. Of a child without a style nothing is claimed.
#[test]
fn swings_and_jumps_are_at_least() {
    let mut phone = Phone::with_squad("Mira\nTove");
    style(&mut phone, "Mira", ServeStyle::Jump);
    phone.drill(3);
    // Mira and Tove by turns.
    (0..6).for_each(|_| serve(&mut phone, ServeOutcome::In, false));
    end(&mut phone);
    let load = of(&mut phone, "Mira").load.expect("was there");
    assert_eq!(load.lines[1], "This week: at least 3 overhead swings, 3 of them with a jump.");
    assert_eq!(of(&mut phone, "Tove").load.expect("was there").lines, ["No overhead swing noted in 8 weeks."]);
    phone.act(Action::Go(Screen::Weeks(None)));
    let everyone = weeks(&phone.model).load;
    assert_eq!(everyone, [("Mira".to_owned(), "at least 3 overhead swings, 3 of them with a jump".to_owned())]);
    // Sunday's are last week's on Monday.
    days_later(&mut phone, 1);
    let load = of(&mut phone, "Mira").load.expect("was there");
    assert_eq!(load.lines[0], "Last practice, 29 November: at least 3 overhead swings, 3 of them with a jump.");
    assert_eq!(load.lines[1], "This week: none noted.");
    assert_eq!(weeks(&phone.model).load, []);
    let weeks = load.weeks.expect("swings");
    assert_eq!(weeks.rows[1].0, "week of 23 November");
    assert_eq!((weeks.columns.len(), weeks.columns[6].n.as_str(), weeks.columns[7].n.as_str()), (8, "3", ""));
    assert_eq!(weeks.columns[6].high, weeks.columns[6].part, "all of them with a jump");
    // Nine weeks on nothing is told of then.
    days_later(&mut phone, 63);
    assert_eq!(of(&mut phone, "Mira").load, None);
}

/// Six of six in drills, none of six in a match. Wilson's ranges are 0.61 to 1 and 0 to 0.39: the gap is from 10 in 10 down to
/// 1 - √(0.39² + 0.39²) = 0.45, 4 or 5 in 10.
#[test]
fn from_drill_to_match() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram\nIva\nLasse\nRuna");
    let runa = phone.player("Runa");
    phone.act(Action::PresenceTapped(runa));
    phone.drill(3);
    (0..36).for_each(|_| serve(&mut phone, ServeOutcome::In, false));
    phone.act(Action::Finish);
    phone.act(Action::Groups(GroupsTap::How(How::ByHand)));
    let (id, spec) = phone.model.base.drills().into_iter().map(|(id, s)| (id, s.clone())).nth(13).expect("a match");
    phone.act(Action::Go(Screen::Drill(Some(id))));
    let rule = MatchGame { a_side: 3, serves: true, passes: false, ..MatchGame::default() };
    phone.act(Action::DrillDrafted(DrillSpec { rule: Rule::MatchGame(rule), ..spec }));
    phone.act(Action::DrillKept);
    phone.drill(13);
    // Every serve is lost, so the sides and then all six come round.
    (0..36).for_each(|_| serve(&mut phone, ServeOutcome::Net, false));
    phone.act(Action::Finish);
    let mira = of(&mut phone, "Mira");
    let gap = &mira.match_gaps[0];
    assert_eq!(gap.counted, "Serving: 6 of 6 in drills, 0 of 6 noted in matches");
    assert_eq!(gap.line, "In matches 4 to 10 in 10 fewer are good.");
    // There is one kind of feed: nothing to hold against it. And nothing of who was away.
    assert_eq!((mira.gaps, of(&mut phone, "Runa").match_gaps), (Vec::new(), Vec::new()));
}

/// Moments and kinds, week by week; who was there twice and wasn't noticed is named for the coach, in the squad's order.
#[test]
fn effort_is_what_was_noticed() {
    let mut phone = Phone::with_squad(SQUAD);
    for week in 0..2 {
        phone.drill(0);
        for place in [0, 1, 2] {
            phone.act(Action::PlaceTapped(Place(place), pass(0)));
            if place == 1 {
                phone.act(Action::EffortTapped);
            }
        }
        phone.act(Action::Finish);
        let Screen::RunReport(run) = phone.model.screen else { panic!("report") };
        let effort = report::contacts(&phone.model, run).expect("a list").efforts[0].effort;
        let kind = (week == 1).then(|| "dived".to_owned());
        let tove = phone.player("Tove");
        phone.act(Action::EffortGiven(effort, Some(tove), kind));
        phone.end_practice();
        days_later(&mut phone, 7);
    }
    let tove = of(&mut phone, "Tove").effort;
    assert_eq!(tove.line.as_deref(), Some("2 efforts noticed in 6 weeks."));
    assert_eq!(tove.kinds.len(), 2);
    assert!(tove.kinds.contains(&("dived".to_owned(), 1)) && tove.kinds.contains(&("no kind given".to_owned(), 1)));
    let weeks_of = tove.weeks.expect("two weeks");
    // Sundays, and it is one: nothing this week, one in each of the two weeks before.
    let counts: Vec<&str> = weeks_of.rows.iter().take(4).map(|(_, n)| n.as_str()).collect();
    assert_eq!(counts, ["0", "1", "1", "0"]);
    let unseen = weeks(&phone.model).not_noticed.expect("two of three");
    assert_eq!(unseen.names, ["Mira", "Odile"]);
    // The summary of a packed practice has the same: a page that has just been opened tells the same.
    let now = phone.model.now.wall_ms;
    phone.restart();
    phone.wait(0, now - phone.model.now.wall_ms);
    assert_eq!(of(&mut phone, "Tove").effort.kinds, tove.kinds);
    assert_eq!(
        weeks(&phone.model).not_noticed.map(|unseen| unseen.names),
        Some(vec!["Mira".to_owned(), "Odile".to_owned()])
    );
}

/// The longest row of each practice: 2 (of 1, 1, 0, 1), then 3. Said with its day, and nothing is called hot.
#[test]
fn rows_are_shown() {
    let mut phone = Phone::with_squad(SQUAD);
    passes(&mut phone, &[3, 3, 0, 3], 1);
    let rows = of(&mut phone, "Mira").rows.expect("balls");
    assert_eq!((rows.line.as_str(), rows.columns.is_none()), ("Its longest: 2 in a row, on 29 November.", true));
    days_later(&mut phone, 1);
    passes(&mut phone, &[3, 3, 3, 0], 1);
    let rows = of(&mut phone, "Mira").rows.expect("balls");
    assert_eq!(rows.line, "Its longest: 3 in a row, on 30 November.");
    let columns = rows.columns.expect("two practices");
    assert_eq!(columns.rows, [("30 November".to_owned(), "3".to_owned()), ("29 November".to_owned(), "2".to_owned())]);
    assert_eq!((columns.columns[0].high.as_str(), columns.columns[1].high.as_str()), ("48.0", "72.0"), "2 : 3");
}

/// Every run with its range and its ball, the easier ball first; a run of good ones alone has no rate.
#[test]
fn a_drill_over_the_weeks() {
    let mut phone = Phone::with_squad(SQUAD);
    let drill = drill_id(&phone, 0);
    let none = on_page(&mut phone, drill);
    assert_eq!((none.line.as_str(), none.chart.is_none(), none.runs.len()), ("Not played yet", true, 0));
    phone.act(Action::Go(Screen::Today));
    passes(&mut phone, &[3, 0], 5);
    let one = on_page(&mut phone, drill);
    assert_eq!((one.line.as_str(), one.chart.is_none()), ("One run, on 29 November.", true));
    days_later(&mut phone, 7);
    passes(&mut phone, &[3, 3], 5);
    let two = on_page(&mut phone, drill);
    assert_eq!(two.line, "2 runs since 29 November.");
    let chart = two.chart.expect("two days");
    // Three children with 10 balls each: 15 of 30; then 10 + 5 + 5 = 20.
    assert_eq!(chart.days[0].says, "15 of 30, about 3 to 7 in 10; tossed.");
    assert_eq!(chart.days[1].says, "20 of 30, about 5 to 8 in 10; tossed.");
    assert_eq!(two.balls, [("tossed".to_owned(), "2 runs: 35 of 60, about 5 to 7 in 10".to_owned())]);
    assert_eq!(two.runs[0].day, "6 December");
    assert_eq!((two.together, drill_weeks(&phone.model, drill_id(&phone, 1)).map(|d| d.runs.len())), (None, Some(0)));
    // One that isn't here.
    let gone = DrillId(phone.player("Mira").0);
    assert_eq!(drill_weeks(&phone.model, gone), None);
}

/// What all reached together, by the same rule as last time.
#[test]
fn together_over_the_weeks() {
    let mut phone = Phone::with_squad(SQUAD);
    let at =
        phone.model.base.drills().iter().position(|(_, s)| matches!(s.rule, Rule::InRow(_))).expect("a row together");
    let drill = drill_id(&phone, at);
    let rule = Rule::Together(peppertally::domain::rule::Together { row: true, balls: None, to_beat: None });
    let spec = DrillSpec { rule, ..phone.model.base.drill(drill).expect("it").clone() };
    phone.act(Action::Go(Screen::Drill(Some(drill))));
    phone.act(Action::DrillDrafted(spec));
    phone.act(Action::DrillKept);
    for n in [4, 2] {
        phone.drill(at);
        (0..n).for_each(|_| phone.act(Action::OutcomeTapped(pass(3))));
        phone.act(Action::OutcomeTapped(pass(0)));
        end(&mut phone);
        days_later(&mut phone, 1);
    }
    let together = on_page(&mut phone, drill).together.expect("two runs");
    assert_eq!(together.line, "Best so far: 4 in a row together.");
    assert_eq!(
        together.columns.expect("two").rows,
        [("30 November".to_owned(), "2".to_owned()), ("29 November".to_owned(), "4".to_owned())]
    );
}

/// None good for weeks, all good for weeks, and a hundred thousand balls in a day: every figure is one, and no day of many alike is beyond chance.
#[test]
fn pages_at_the_edges() {
    let mut phone = Phone::with_squad(SQUAD);
    for _ in 0..4 {
        phone.drill(0);
        for _ in 0..10 {
            phone.act(Action::PlaceTapped(Place(0), pass(0)));
            phone.act(Action::PlaceTapped(Place(1), pass(3)));
        }
        end(&mut phone);
        days_later(&mut phone, 7);
    }
    for (name, now) in [("Mira", "0 to"), ("Tove", "all")] {
        let view = of(&mut phone, name);
        let kind = &view.kinds[0];
        assert!(kind.chart.iter().flat_map(|chart| &chart.days).all(|day| !day.marked), "{name}");
        assert!(kind.now.contains(now) || kind.now.contains("to 10 in") || kind.now.contains("none"), "{}", kind.now);
        let all = format!("{view:?}");
        assert!(!all.contains("NaN") && !all.contains("inf"), "{all}");
    }
    // Odile was there and has no ball.
    let odile = of(&mut phone, "Odile");
    assert!(odile.kinds.is_empty() && odile.grades.is_none() && odile.rows.is_none() && odile.serves.is_none());
    phone.act(Action::Go(Screen::Today));
    let ids: Vec<_> = phone.model.packed.keys().copied().collect();
    for (id, good) in ids.into_iter().zip([60_000, 60_100, 20_000, 60_050]) {
        let packed = phone.model.packed.get_mut(&id).expect("it");
        for lot in packed.summary.runs.iter_mut().flat_map(|run| &mut run.lots) {
            lot.count = Count::new(good, 100_000).expect("a count");
            lot.outcomes = [100_000 - good, 0, 0, good];
        }
    }
    let view = of(&mut phone, "Mira");
    let chart = view.kinds[0].chart.as_ref().expect("four days");
    assert_eq!((view.kinds[0].from.as_str(), chart.days.len()), ("From 400000 balls on 4 days.", 4));
    let all = format!("{view:?}");
    assert!(!all.contains("NaN") && !all.contains("inf"), "{all}");
    assert!(since(&phone.model, view.player, 0, 0).is_some_and(|told| told.starts_with("Since then: ")));
}

/// A practice of a day to come (a clock is wrong) is in nothing that is told, and breaks nothing.
#[test]
fn a_practice_of_tomorrow_is_left_out() {
    let mut phone = Phone::with_squad(SQUAD);
    days_later(&mut phone, 3);
    passes(&mut phone, &[3, 3], 3);
    phone.wait(0, -3 * 86_400_000);
    let mira = of(&mut phone, "Mira");
    assert!(mira.kinds.is_empty() && mira.grades.is_none() && mira.rows.is_none() && mira.load.is_none());
    assert_eq!(mira.effort.line, None);
    let drill = drill_id(&phone, 0);
    assert_eq!(on_page(&mut phone, drill).runs.len(), 0);
}

/// The demo's season on every page: no figure is none, no sentence is empty.
#[test]
fn the_demo_on_every_page() {
    let mut phone = Phone::demo();
    phone.act(Action::Go(Screen::Weeks(None)));
    let all = weeks(&phone.model);
    let of_kinds: Vec<_> = (0..all.kinds.len()).map(|kind| pictures(&phone.model, kind)).collect();
    assert!(pictures(&phone.model, all.kinds.len()).is_empty());
    for (at, child) in all.children.into_iter().enumerate() {
        assert!(of_kinds.iter().any(|pictures| pictures[at].is_some()), "{}", child.name);
        let view = child_weeks(&phone.model, child.player).expect("a child");
        let all = format!("{view:?}");
        assert!(!all.contains("NaN") && !all.contains("inf"), "{all}");
        assert!(view.grades.is_some() && view.serves.is_some() && view.rows.is_some() && view.load.is_some());
        for kind in &view.kinds {
            let n = kind.chart.as_ref().map_or(0, |chart| chart.days.len());
            for at in 0..n {
                assert!(since(&phone.model, child.player, kind.no, at).is_some_and(|says| !says.is_empty()));
            }
        }
    }
    let drills: Vec<DrillId> = phone.model.base.drills().into_iter().map(|(id, _)| id).collect();
    let played = drills.iter().filter(|drill| on_page(&mut phone, **drill).chart.is_some()).count();
    assert!(played >= 7, "{played}");
}
