//! One child's own data for its family: a page that any browser shows, without a script and without any other child; and its balls as a
//! table. It can't be taken in again. What the coach wrote for itself, notes and questions, isn't in it.

use super::super::named::Named;
use super::super::words::{counts, family as words};
use crate::domain::drill::Board;
use crate::domain::ids::PlayerId;
use crate::domain::replay::base::{Base, Player, Practice};
use crate::domain::replay::part::Effort;
use crate::domain::replay::run::RunState;
use crate::domain::skill::Outcome;
use crate::domain::summary::Counts;
use crate::domain::time::Stamp;
use crate::wire::table::{Fault, of_words};

/// The page, practice after practice.
pub struct Page<'a> {
    base: &'a Base,
    child: &'a Player,
    practices: Vec<String>,
}

impl<'a> Page<'a> {
    pub fn of(base: &'a Base, child: &'a Player) -> Page<'a> {
        Page { base, child, practices: Vec::new() }
    }

    /// One that the child wasn't in leaves nothing.
    pub fn practice(&mut self, practice: &Practice, runs: &[RunState]) {
        let (base, child) = (self.base, self.child.id);
        let rows: Vec<(String, String)> = runs.iter().filter_map(|run| row(base, child, run)).collect();
        let noticed = runs.iter().flat_map(|run| &run.main.efforts).filter(|effort| effort.player == Some(child));
        let efforts = efforts(base, child, noticed);
        if rows.is_empty() && efforts.is_none() {
            return;
        }
        let mut out = String::new();
        tag(&mut out, "h2", &counts::when_ever(practice.started));
        efforts.iter().for_each(|line| tag(&mut out, "p", line));
        if !rows.is_empty() {
            out.push_str("<table><tr>");
            words::DRILLS.iter().for_each(|head| tag(&mut out, "th", head));
            out.push_str("</tr>");
            for (name, what) in rows {
                out.push_str("<tr>");
                tag(&mut out, "th", &name);
                tag(&mut out, "td", &what);
                out.push_str("</tr>");
            }
            out.push_str("</table>");
        }
        self.practices.push(out);
    }

    pub fn finish(self, written: Stamp) -> String {
        let mut out = String::from(HEAD);
        tag(&mut out, "title", &words::title(&self.child.name));
        out.push_str("</head><body>");
        tag(&mut out, "h1", &self.child.name);
        let when = counts::when_ever(written);
        tag(&mut out, "p", &words::what(&self.child.name, self.practices.len(), &when));
        self.practices.iter().for_each(|practice| out.push_str(practice));
        tag(&mut out, "p", words::ABOUT);
        out.push_str("</body></html>\n");
        out
    }
}

/// The child's balls, a line each in words: none that was taken back, none that another page counted of the same run.
pub struct Balls<'a> {
    base: &'a Base,
    child: &'a Player,
    lines: Vec<Vec<String>>,
}

impl<'a> Balls<'a> {
    pub fn of(base: &'a Base, child: &'a Player) -> Balls<'a> {
        Balls { base, child, lines: Vec::new() }
    }

    pub fn practice(&mut self, runs: &[RunState]) {
        for run in runs {
            let name = drill(&run.spec.name, self.child.id, self.base);
            let its = run.main.contacts.iter().filter(|counted| counted.contact.player == Some(self.child.id));
            for counted in its {
                let contact = &counted.contact;
                // In a match nobody gives the balls.
                let ball = match run.spec.board {
                    Board::Court => String::new(),
                    _ => words::ball(&run.spec.skill, contact.feed, run.main.transition().is_some()),
                };
                // Where good balls alone are counted, each is.
                let good = match contact.outcome {
                    Outcome::Counted => Some(true),
                    outcome => contact.good_from.judge(outcome),
                };
                self.lines.push(vec![
                    self.child.name.clone(),
                    counted.at.day().to_string(),
                    counts::time(counted.at),
                    name.clone(),
                    ball,
                    words::came(contact.outcome),
                    words::good(good).to_owned(),
                    words::seen_by(contact.self_scored).to_owned(),
                ]);
            }
        }
    }

    /// # Errors
    /// [`Fault`] where there is no room for it.
    pub fn finish(self) -> Result<Vec<u8>, Fault> {
        of_words(&words::BALLS, self.lines)
    }
}

/// A drill as the family may read of it.
pub fn drill(name: &str, child: PlayerId, base: &Base) -> String {
    without_others(name, child, base).unwrap_or_else(|| words::A_DRILL.to_owned())
}

/// What somebody wrote, unless another child's name stands in it.
pub fn without_others(text: &str, child: PlayerId, base: &Base) -> Option<String> {
    (!Named::but(base, child).stand_in(text)).then(|| text.to_owned())
}

/// Nothing may be loaded and nothing may run, whatever a name says.
const HEAD: &str = "<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\">\
<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\
<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\
<style>body{font:1.0625rem/1.5 system-ui,sans-serif;max-width:40rem;margin:0 auto;padding:1rem;color:#17242d;background:#fffaf1}\
h1{margin-bottom:0}h2{margin:1.5rem 0 .25rem;font-size:1.125rem}table{border-collapse:collapse;width:100%}\
th,td{text-align:start;vertical-align:top;padding:.25rem .5rem .25rem 0;border-top:1px solid #d3bc92}th{font-weight:600;width:45%}</style>";

/// A drill: its name, and what was counted of the child.
fn row(base: &Base, child: PlayerId, run: &RunState) -> Option<(String, String)> {
    let tally = run.main.by_child.get(&child).map(Counts::of).unwrap_or_default();
    let touches = run.main.touches.of(child);
    let mut parts: Vec<String> = Vec::new();
    if tally.n_noted() > 0 {
        parts.push(words::counted(&tally));
    }
    parts.extend(words::touches(touches, tally.n_noted()));
    (!parts.is_empty()).then(|| (drill(&run.spec.name, child, base), parts.join(" ")))
}

fn efforts<'a>(base: &Base, child: PlayerId, noticed: impl Iterator<Item = &'a Effort>) -> Option<String> {
    let kinds: Vec<Option<String>> =
        noticed.map(|effort| without_others(effort.kind.as_deref()?, child, base)).collect();
    (!kinds.is_empty()).then(|| words::efforts(&kinds))
}

fn tag(out: &mut String, name: &str, text: &str) {
    out.push('<');
    out.push_str(name);
    out.push('>');
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
    out.push_str("</");
    out.push_str(name);
    out.push('>');
}
