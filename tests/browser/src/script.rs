//! Owns the text form of a browser test: steps one a line, or separated by ` | `. A line that opens with `#` is a remark.
//! Refuses a step that it doesn't know, before anything is run.
//!
//! | step                              | meaning                                                               |
//! |-----------------------------------|-----------------------------------------------------------------------|
//! | `open`, `open #/squad`            | opens the app at this place                                           |
//! | `screen board`                    | waits until this screen is shown                                      |
//! | `tap pass.1.3`, `tap undo x 10`   | taps the key, so many times                                           |
//! | `both pass.1.3 pass.2.0`          | two thumbs on two keys at once                                        |
//! | `hold reveal`, `let-go`           | puts a thumb down on the key, and takes it away                       |
//! | `scroll finish`                   | brings the key into view                                              |
//! | `seek drill.4`                    | brings the key into view and taps it                                  |
//! | `there x`, `gone x`               | waits until the key is shown, is not shown                            |
//! | `enabled x`, `disabled x`         | waits until the key can be used, can't be used                        |
//! | `see saved`, `unseen saved`       | waits until the page says this, no longer says it                     |
//! | `fig tries = 14`                  | waits until the figure reads so, with single spaces                   |
//! | `type name = Mira`                | puts this into the field; `\n` is a new line                          |
//! | `value name = Mira`               | waits until this is in the field                                      |
//! | `file copy = path`                | chooses the file for the field                                        |
//! | `key Enter`, `key 3 x 2`          | presses a key of a keyboard                                           |
//! | `count .row = 3`                  | waits until so many elements are there                                |
//! | `reload`, `kill`                  | loads the page again; kills the browser and comes back to the page    |
//! | `stop-server`, `start-server`     | takes the signal away, brings it back                                 |
//! | `dark`, `light`, `size 360 640`   | the phone's scheme, its view                                          |
//! | `tab 2`                           | goes to the tab; opens it when it is the next one                     |
//! | `clock 1h`, `clock 500ms`         | sets the wall clock so far ahead of the real one; units ms, s, min, h, d |
//! | `later 6s`                        | lets so long pass by the page's monotonic clock, at once             |
//! | `axe`                             | no barrier is on the screen                                           |
//! | `shot board`                      | keeps a picture                                                       |
//! | `errors-ok text`                  | from here on console errors with this text are expected               |

use crate::error::{Error, Result};

#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Step {
    Open(String),
    Screen(String),
    Tap(String, u32),
    Both(String, String),
    Hold(String),
    LetGo,
    Scroll(String),
    Seek(String),
    There(String),
    Gone(String),
    Enabled(String),
    Disabled(String),
    See(String),
    Unseen(String),
    Fig(String, String),
    Type(String, String),
    Value(String, String),
    File(String, String),
    Key(String, u32),
    Count(String, usize),
    Reload,
    Kill,
    StopServer,
    StartServer,
    Dark(bool),
    Size(u32, u32),
    Tab(usize),
    Clock(i64),
    Later(i64),
    Axe,
    Shot(String),
    ErrorsOk(String),
}

/// Reads a script: each step with the words it was written in.
pub fn parse(script: &str) -> Result<Vec<(String, Step)>> {
    script
        .lines()
        .filter(|line| !line.trim_start().starts_with('#'))
        .flat_map(|line| line.split(" | "))
        .map(str::trim)
        .filter(|step| !step.is_empty())
        .map(|step| Ok((step.to_string(), read(step)?)))
        .collect()
}

fn read(step: &str) -> Result<Step> {
    let wrong = |why: &str| Error::Script { step: step.to_string(), why: why.to_string() };
    let (word, rest) = step.split_once(' ').map_or((step, ""), |(word, rest)| (word, rest.trim()));
    let one = || if rest.is_empty() { Err(wrong("it needs to say of what")) } else { Ok(rest.to_string()) };
    let none = |then: Step| if rest.is_empty() { Ok(then) } else { Err(wrong("nothing may follow it")) };
    let pair = || {
        let (of, is) = rest.split_once('=').ok_or_else(|| wrong("it needs \" = \""))?;
        Ok((of.trim().to_string(), is.trim().to_string()))
    };
    let number = |text: &str| text.parse().map_err(|_| wrong("it needs a whole number"));
    let times = || match one()?.rsplit_once(" x ") {
        Some((of, n)) if n.parse::<u32>().is_ok() => Ok((of.trim().to_string(), number(n)?)),
        _ => Ok((rest.to_string(), 1)),
    };
    Ok(match word {
        "open" => Step::Open(rest.to_string()),
        "screen" => Step::Screen(one()?),
        "tap" => times().map(|(key, n)| Step::Tap(key, n))?,
        "both" => {
            let (a, b) = rest.split_once(' ').ok_or_else(|| wrong("it needs two keys"))?;
            Step::Both(a.to_string(), b.trim().to_string())
        }
        "hold" => Step::Hold(one()?),
        "let-go" => none(Step::LetGo)?,
        "scroll" => Step::Scroll(one()?),
        "seek" => Step::Seek(one()?),
        "there" => Step::There(one()?),
        "gone" => Step::Gone(one()?),
        "enabled" => Step::Enabled(one()?),
        "disabled" => Step::Disabled(one()?),
        "see" => Step::See(one()?),
        "unseen" => Step::Unseen(one()?),
        "fig" => pair().map(|(of, is)| Step::Fig(of, is))?,
        "type" => pair().map(|(of, is)| Step::Type(of, is.replace("\\n", "\n")))?,
        "value" => pair().map(|(of, is)| Step::Value(of, is.replace("\\n", "\n")))?,
        "file" => pair().map(|(of, is)| Step::File(of, is))?,
        "key" => times().map(|(key, n)| Step::Key(key, n))?,
        "count" => {
            // The selector may hold an equals sign of its own.
            let (css, n) = rest.rsplit_once('=').ok_or_else(|| wrong("it needs \" = \""))?;
            Step::Count(css.trim().to_string(), n.trim().parse().map_err(|_| wrong("it needs a whole number"))?)
        }
        "reload" => none(Step::Reload)?,
        "kill" => none(Step::Kill)?,
        "stop-server" => none(Step::StopServer)?,
        "start-server" => none(Step::StartServer)?,
        "dark" => none(Step::Dark(true))?,
        "light" => none(Step::Dark(false))?,
        "size" => {
            let (width, height) = rest.split_once(' ').ok_or_else(|| wrong("it needs width and height"))?;
            Step::Size(number(width)?, number(height.trim())?)
        }
        "tab" => Step::Tab(rest.parse().map_err(|_| wrong("it needs the tab's number"))?),
        "clock" => Step::Clock(milliseconds(rest).ok_or_else(|| wrong("it needs a number with ms, s, min, h or d"))?),
        "later" => Step::Later(milliseconds(rest).ok_or_else(|| wrong("it needs a number with ms, s, min, h or d"))?),
        "axe" => none(Step::Axe)?,
        "shot" => Step::Shot(one()?),
        "errors-ok" => Step::ErrorsOk(one()?),
        _ => return Err(wrong("no such step is known")),
    })
}

fn milliseconds(text: &str) -> Option<i64> {
    let unit_at = text.find(|c: char| c.is_ascii_alphabetic())?;
    let (number, unit) = text.split_at(unit_at);
    let one = match unit {
        "ms" => 1,
        "s" => 1000,
        "min" => 60_000,
        "h" => 3_600_000,
        "d" => 86_400_000,
        _ => return None,
    };
    number.trim().parse::<i64>().ok()?.checked_mul(one)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_read_from_bars_and_lines() {
        let steps = parse("open | tap pass.1.3 x 10 | see saved\n  # a remark\n fig tries = 10 of 12\n").unwrap();
        let steps: Vec<Step> = steps.into_iter().map(|(_, step)| step).collect();
        let text = str::to_string;
        assert_eq!(
            steps,
            [
                Step::Open(String::new()),
                Step::Tap(text("pass.1.3"), 10),
                Step::See(text("saved")),
                Step::Fig(text("tries"), text("10 of 12")),
            ]
        );
    }

    #[test]
    fn every_form_is_read_as_meant() {
        let cases = [
            ("open #/squad", Step::Open("#/squad".into())),
            ("tap player.Max x", Step::Tap("player.Max x".into(), 1)),
            ("both a b", Step::Both("a".into(), "b".into())),
            ("type list = 7 Mira\\n8 Jo", Step::Type("list".into(), "7 Mira\n8 Jo".into())),
            ("type name =", Step::Type("name".into(), String::new())),
            ("count [data-key=\"a\"] = 2", Step::Count("[data-key=\"a\"]".into(), 2)),
            ("size 360 640", Step::Size(360, 640)),
            ("clock 2h", Step::Clock(7_200_000)),
            ("clock -5 min", Step::Clock(-300_000)),
            ("later 6s", Step::Later(6_000)),
            ("key ArrowLeft x 2", Step::Key("ArrowLeft".into(), 2)),
        ];
        for (written, meant) in cases {
            assert_eq!(read(written).unwrap(), meant, "{written}");
        }
    }

    #[test]
    fn what_is_not_understood_is_refused() {
        for wrong in ["tip x", "tap", "fig tries 3", "size 300", "kill now", "clock 5", "both a", "count a = many"] {
            assert!(matches!(read(wrong), Err(Error::Script { .. })), "{wrong}");
        }
    }
}
