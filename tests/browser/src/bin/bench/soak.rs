//! Owns what a long day does to the page's memory: 20,000 taps in twenty runs of four practices, each ended, without the page being loaded again. Told
//! after every thousand: the program's own memory, the script's after a collection, elements and listeners. What is counted stays in memory
//! until the page goes (a day's entries can all be corrected at once), so the program's memory grows by what a contact takes and by nothing
//! else; all the rest is to stay as it was after the first thousand.

use super::number;
use super::table::Line;
use browser_tests::{PhoneKind, Result, Site, Stage};
use serde_json::json;
use std::time::Duration;

const N_RUNS: usize = 20;
const N_TAPS: usize = 1_000;
const RUNS_A_PRACTICE: usize = 5;
/// Of what was there after the first thousand.
const AIM: f64 = 1.1;

/// The program's memory, wherever it is made.
const PROBE: &str = r"for (const name of ['instantiate', 'instantiateStreaming']) {
    const real = WebAssembly[name];
    WebAssembly[name] = async function (...a) {
        const done = await real.apply(this, a);
        globalThis.__memory ??= (done.instance ?? done).exports?.memory;
        return done;
    };
}";

/// Taps all keys of the floor in turn, some each frame, and answers when all are said to be saved.
const TAPS: &str = r#"(n => new Promise((done, no) => {
    const said = what => document.querySelector(`[data-fig=${what}]`)?.innerText;
    const keys = [...document.querySelectorAll('[data-key^="pass."]')];
    if (!keys.length) return no(new Error('no board'));
    let at = 0;
    const some = () => {
        for (let i = 0; i < 20 && at < n; i += 1, at += 1) {
            keys[at % keys.length].dispatchEvent(new PointerEvent('pointerdown', { bubbles: true, button: 0, pointerType: 'touch' }));
        }
        if (at < n) return requestAnimationFrame(some);
        const wait = setInterval(() => {
            if (said('of') === `good of ${n}` && said('saved') === 'saved') { clearInterval(wait); done(1); }
        }, 50);
    };
    some();
}))"#;

#[derive(Clone, Copy)]
struct Taken {
    program: f64,
    script: f64,
    nodes: f64,
    listeners: f64,
}

pub async fn measure() -> Result<()> {
    let kind = PhoneKind { watch_requests: false, ..PhoneKind::default() };
    let mut stage = Stage::of(Site::of_the_app()?, kind).await?;
    stage.phone.limit(Duration::from_secs(180));
    stage.phone.inject(PROBE).await?;
    stage
        .check("a squad", "open | screen today | tap roster | screen roster | type roster = Mira\\nTove\\nOdile\\nBram\\nIva\\nLasse | tap roster-take | screen today | fig saved = saved")
        .await?;
    println!("A day of {} taps in {N_RUNS} runs, the page never loaded again", N_RUNS * N_TAPS);
    println!("  {:>8}{:>14}{:>14}{:>10}{:>12}", "taps", "program kB", "script kB", "nodes", "listeners");
    let mut all: Vec<Taken> = Vec::new();
    for run in 1..=N_RUNS {
        stage.check("a run", "seek drill.0 | screen run | there pass.0.3").await?;
        stage.phone.eval(&format!("{TAPS}({N_TAPS})")).await?;
        stage.check("finished", "tap finish | screen run-report | tap tab.today | screen today").await?;
        if run % RUNS_A_PRACTICE == 0 {
            stage.check("ended", "seek practice-end | screen practice-report | tap tab.today | screen today").await?;
        }
        let taken = taken(&mut stage).await?;
        let kb = |bytes: f64| bytes / 1024.0;
        println!(
            "  {:>8}{:>14.0}{:>14.0}{:>10}{:>12}",
            run * N_TAPS,
            kb(taken.program),
            kb(taken.script),
            taken.nodes,
            taken.listeners
        );
        all.push(taken);
    }
    let (Some(first), Some(last)) = (all.first(), all.last()) else { return Ok(()) };
    let n = ((N_RUNS - 1) * N_TAPS) as f64;
    println!(
        "  a tap leaves {:.0} bytes in the program, {:.0} in the script",
        (last.program - first.program) / n,
        (last.script - first.script) / n
    );
    Line::aim("script's memory to that after the first thousand", last.script / first.script, AIM);
    Line::aim("elements to those after the first thousand", last.nodes / first.nodes, AIM);
    Line::aim("listeners to those after the first thousand", last.listeners / first.listeners, AIM);
    println!();
    Ok(())
}

async fn taken(stage: &mut Stage) -> Result<Taken> {
    stage.phone.cdp("HeapProfiler.collectGarbage", json!({})).await?;
    let counters = stage.phone.cdp("Memory.getDOMCounters", json!({})).await?;
    let script = stage.phone.cdp("Runtime.getHeapUsage", json!({})).await?;
    let program = stage.phone.eval("globalThis.__memory.buffer.byteLength").await?;
    Ok(Taken {
        program: number(&program)?,
        script: number(&script["usedSize"])?,
        nodes: number(&counters["nodes"])?,
        listeners: number(&counters["jsEventListeners"])?,
    })
}
