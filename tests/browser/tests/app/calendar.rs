//! The season calendar by touch: a weekly series, a plan for a date, practice on it, a kill in between, the file for another calendar read by
//! another library. No barrier on its screens, in either scheme and at both sizes.

use crate::with_squad;
use browser_tests::{Result, Screen, Stage};
use calcard::icalendar::{ICalendar, ICalendarComponentType, ICalendarProperty, ICalendarValue};

const EVERY_WAY: &str = "axe | dark | axe | light | size 390 844 | axe | size 360 640";

/// The day so many days from the phone's today, as a field for a day holds it.
async fn day(stage: &Stage, n: u32) -> Result<String> {
    let script = format!(
        "(() => {{ const d = new Date(); d.setDate(d.getDate() + {n});
            return [d.getFullYear(), d.getMonth() + 1, d.getDate()].map(n => String(n).padStart(2, '0')).join('-'); }})()"
    );
    Ok(stage.phone.eval(&script).await?.as_str().unwrap_or_default().to_owned())
}

#[tokio::test]
async fn a_date_from_series_to_practice() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    // Ten in the morning: nothing runs over midnight.
    let ten = stage.phone.eval("new Date().setHours(10, 0, 0, 0) - Date.now()").await?;
    stage.check("the clock", &format!("clock {}ms", ten.as_f64().map_or(0, |ms| ms as i64))).await?;
    stage.check("seen by the page", "reload | screen today").await?;
    let weekday = stage.phone.eval("(new Date().getDay() + 6) % 7").await?;
    let (today, tomorrow, until) = (day(&stage, 0).await?, day(&stage, 1).await?, day(&stage, 14).await?);

    let first = [
        (
            "no dates",
            format!(
                "fig next-date = no dates yet | seek calendar | screen calendar | see No dates yet | {EVERY_WAY} | shot calendar-empty"
            ),
        ),
        (
            "the form",
            format!(
                "tap dates-new | screen dates | fig dates-fault = When does it begin? Choose the hour. | disabled dates-keep | {EVERY_WAY}"
            ),
        ),
        (
            "a series",
            format!(
                "tap date-weekly | tap weekday.{weekday} | fig dates-fault = Until when? Choose the last day. | type date-from = {today} | type date-until = {until} | type date-start = 10:30 | type date-place = Hall 2"
            ),
        ),
        ("one out", format!("see Set 3 dates | seek series.1 | see Set 2 dates | {EVERY_WAY} | shot calendar-series")),
        (
            "a way out",
            format!(
                "type date-start = 23:30 | see It would end after midnight | disabled dates-keep | type date-start = 10:30 | enabled dates-keep | tap dates-keep | screen calendar | fig dates-set = 2 dates are set. | {EVERY_WAY}"
            ),
        ),
        (
            "kept",
            format!(
                "kill | screen calendar | seek day.{today} | fig day-hours = 10:30 to 12:00 | fig day-state = no plan yet | {EVERY_WAY} | shot calendar-day"
            ),
        ),
        ("by keys", "key ArrowRight | see Set a date on this day".to_owned()),
    ];
    for (name, steps) in first {
        stage.check(name, &steps).await?;
    }
    let focus = stage.phone.eval("document.activeElement?.dataset?.key").await?;
    assert_eq!(focus.as_str(), Some(format!("day.{tomorrow}").as_str()), "the focus goes along");
    stage.check("back", &format!("key ArrowLeft | fig day-state = no plan yet | seek day-plan | screen plan | see Hall 2 | tap plan-propose | there part.0 | there plan-begin | {EVERY_WAY} | kill | screen plan | there part.0 | tap back | screen calendar | seek day.{today} | fig day-state = planned")).await?;

    stage
        .check("the file", "tap day-close | seek dates-save | see The dates were given to the browser to save | axe")
        .await?;
    let file =
        stage.phone.wait_download("the dates", |name| name.starts_with("practices-") && name.ends_with(".ics")).await?;
    let text = std::fs::read_to_string(&file).expect("the file");
    let events = ICalendar::parse(&text).expect("a calendar").components;
    let events: Vec<_> = events.into_iter().filter(|c| c.component_type == ICalendarComponentType::VEvent).collect();
    let value = |i: usize, name: ICalendarProperty| {
        events[i].entries.iter().find(|entry| entry.name == name).and_then(|entry| entry.values.first()).cloned()
    };
    assert_eq!(events.len(), 2, "{text}");
    assert!(
        matches!(value(0, ICalendarProperty::Description), Some(ICalendarValue::Text(parts)) if parts.starts_with("Arrival game: ")),
        "{text}"
    );
    assert!(
        matches!(value(0, ICalendarProperty::Dtstart), Some(ICalendarValue::PartialDateTime(at)) if (at.hour, at.minute, at.tz_hour) == (Some(10), Some(30), None)),
        "{text}"
    );
    assert_eq!(value(1, ICalendarProperty::Description), None);
    for name in ["Mira", "Tove", "Odile", "Bram", "Juno", "Wren"] {
        assert!(!text.contains(name), "{name} in {text}");
    }

    let practice = [
        ("its plan is the one", "tap tab.today | screen today | fig next-date = Today 10:30, planned | tap next-part | fig part-on = Arrival game".to_owned()),
        ("on", format!("seek calendar | screen calendar | seek day.{today} | fig day-state = on now | axe | tap tab.today | screen today | seek drill.0 | screen run | tap pass.0.3 x 3 | fig saved = saved | tap finish | screen run-report | tap tab.today | screen today")),
        ("over", format!("seek practice-end | screen practice-report | tap tab.today | screen today | seek calendar | screen calendar | seek day.{today} | fig day-state = held | see All 12 were here. | {EVERY_WAY} | shot calendar-held")),
        ("and kept", format!("kill | screen calendar | seek day.{today} | fig day-state = held | seek day-report | screen practice-report")),
    ];
    for (name, steps) in practice {
        stage.check(name, &steps).await?;
    }
    Ok(())
}
