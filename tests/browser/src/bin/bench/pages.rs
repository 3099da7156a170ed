//! Owns what all pages' numbers cost over a season of twenty children, sixty practices and 200,000 contacts: in the page, in the worker, and what
//! the page did meanwhile. Natively each part by itself; in the browser from the tap on the way to the numbers on screen.
//!
//! The browser slows the page's main thread and not its workers (so its protocol has it), so what the worker takes is told as it is, by
//! itself, and as many times longer as the page was slowed. What the page waits for it is longer by what the page itself is slow to
//! give and to take.

use super::season::Season;
use super::table::{Line, Times};
use super::{SLOWER, go, number};
use browser_tests::{Error, Phone, Result, Site};
use peppertally::app::action::Action;
use peppertally::app::effect::{Effect, Report};
use peppertally::app::model::Model;
use peppertally::app::screen::Screen;
use peppertally::app::update::{act, heard};
use peppertally::app::view::{trust, weeks};
use peppertally::app::work::Job;
use peppertally::app::work::doing::{Found, do_job};
use peppertally::app::writer::Writer;
use std::hint::black_box;
use std::time::Instant;

const N_TURNS: usize = 7;
const AIM_MS: f64 = 500.0;
/// Of the page's main thread: a longer task would be felt under a thumb. What the browser calls long.
const AIM_TASK_MS: f64 = 50.0;

#[derive(Default)]
pub struct Pages {
    n_children: usize,
    /// Natively: what is asked, what the worker does, every page's view.
    asked: Times,
    worked: Times,
    viewed: Times,
    /// In the browser: to the numbers on screen, the worker's start, its work by its own clock and as the page waited for it, the
    /// longest task of the page while it worked and at all.
    shown: Times,
    start: Times,
    worker: Times,
    waited: Times,
    meanwhile: Times,
    task: Times,
}

pub async fn measure(phone: &mut Phone, site: &Site, season: &Season) -> Result<Pages> {
    let mut pages = Pages::default();
    for _ in 0..N_TURNS {
        natively(&mut pages, season)?;
    }
    phone.inject(PROBE).await?;
    for n in 0..N_TURNS {
        eprintln!("pages: {} of {N_TURNS}", n + 1);
        go(phone, "about:blank").await?;
        go(phone, &format!("{}#after", site.base())).await?;
        phone.wait_for("[data-screen=after] [data-key=weeks]").await?;
        // Until nothing more is on its way: the app's bulk, the list.
        phone.wait_until("the page to rest", "document.readyState === 'complete' && __rest()").await?;
        phone.eval("__begin()").await?;
        let done = phone.wait_until("the numbers", "globalThis.__numbers ?? null").await?;
        pages.shown.push(number(&done["shown"])?);
        pages.start.push(number(&done["start"])?);
        pages.worker.push(number(&done["worker"])?);
        pages.waited.push(number(&done["waited"])?);
        pages.meanwhile.push(number(&done["meanwhile"])?);
        pages.task.push(number(&done["task"])?);
    }
    Ok(pages)
}

/// What the page does when the coach goes there, what the worker does, and what every page of the season then shows.
fn natively(pages: &mut Pages, season: &Season) -> Result<()> {
    let at = season.ended();
    let mut model = Model::new(Writer::new(1, "bench".to_owned()), at, false);
    heard(&mut model, Report::Opened(Box::new(season.opened())), at);
    let mut jobs = Vec::new();
    pages.asked.push(timed(|| jobs = act(&mut model, Action::Go(Screen::Weeks(None)), at)));
    let job = jobs.into_iter().find_map(|effect| match effect {
        Effect::Work(job @ Job::Levels { .. }) => Some(job),
        _ => None,
    });
    let Some(job) = job else { return Err(Error::Missing { what: "The page asked for no levels.".to_owned() }) };
    let mut done = None;
    pages.worked.push(timed(|| done = Some(do_job(&job, Found::default()))));
    let Some(done) = done else { return Err(Error::Missing { what: "Nothing was worked out.".to_owned() }) };
    heard(&mut model, Report::Worked { job, answer: done.answer }, at);
    pages.viewed.push(timed(|| {
        black_box(weeks::weeks(&model));
        black_box(weeks::pictures(&model, 0));
        black_box(trust::trust(&model));
        for child in model.squad() {
            black_box(weeks::child_weeks(&model, child.id));
        }
    }));
    pages.n_children = model.squad().len();
    match weeks::weeks(&model).state {
        weeks::State::Known => Ok(()),
        state => Err(Error::Missing { what: format!("The levels are not known: {state:?}.") }),
    }
}

impl Pages {
    pub fn print(&self) {
        let worker = self.worker.median() * SLOWER;
        println!("All pages' numbers over a season, {} children, median of {N_TURNS}", self.n_children);
        println!(
            "  natively: asked {:.1} ms, worked out {:.1} ms, every page's view {:.1} ms",
            self.asked.median(),
            self.worked.median(),
            self.viewed.median()
        );
        println!(
            "  in the browser: on screen after {:.0} ms, of which the worker's start {:.0} ms and its work {:.0} ms, neither slowed; \
             the page waited {:.0} ms for the work",
            self.shown.median(),
            self.start.median(),
            self.worker.median(),
            self.waited.median()
        );
        println!(
            "  the page's longest task {:.0} ms while the worker worked (0: none over 50), {:.0} ms at all, which draws the screen",
            self.meanwhile.median(),
            self.task.median()
        );
        Line::aim("worked out in the worker, as many times slowed, ms", worker, AIM_MS);
        Line::aim("the page's longest task while the worker works, ms", self.meanwhile.median(), AIM_TASK_MS);
        println!();
    }
}

fn timed(f: impl FnOnce()) -> f64 {
    let begun = Instant::now();
    f();
    begun.elapsed().as_secs_f64() * 1000.0
}

/// Times from the tap to the numbers on screen; of that the worker's start (a page that has packed nothing has none yet) and its work; and the
/// page's longest task while the worker worked, and at all.
const PROBE: &str = r#"(() => {
    let last = performance.now(), begun = 0, started = 0, given = 0, answered = 0, worked;
    const tasks = [];
    const Real = Worker;
    globalThis.Worker = class extends Real {
        constructor(...a) {
            super(...a);
            begun = performance.now();
            this.addEventListener('message', () => { started = performance.now() - begun; }, { once: true });
        }
    };
    const post = Real.prototype.postMessage;
    Real.prototype.postMessage = function (...a) {
        if (Array.from(a[0] ?? []).some(text => String(text).startsWith('{"Levels"'))) {
            given = performance.now();
            this.addEventListener('message', event => { answered = performance.now(); worked = event.data[3]; }, { once: true });
        }
        return post.apply(this, a);
    };
    new PerformanceObserver(list => { for (const one of list.getEntries()) { last = performance.now(); tasks.push([one.startTime, one.duration]); } })
        .observe({ entryTypes: ['longtask'] });
    globalThis.__rest = () => performance.now() - last > 1500;
    globalThis.__begin = () => {
        const from = performance.now();
        document.querySelector('[data-key=weeks]').click();
        const look = () => {
            const shown = document.querySelector('[data-screen=weeks]') && !document.querySelector('[data-fig=working]') && answered > 0;
            if (!shown) return requestAnimationFrame(look);
            const took = performance.now() - from;
            const longest = (a, b) => Math.max(0, ...tasks.filter(([at]) => at >= a && at < b).map(([, ms]) => ms));
            setTimeout(() => {
                globalThis.__numbers = { shown: took, start: started, worker: worked, waited: answered - given, meanwhile: longest(given, answered), task: longest(from, Infinity) };
            }, 300);
        };
        requestAnimationFrame(look);
    };
})()"#;
