//! Where the keys are: large enough, apart, within a thumb's reach, and reachable at all however the phone is held or set.

use crate::{BOTH, HOME, with_squad};
use browser_tests::{Error, Result, Screen, Stage};

/// What is wrong with the board on screen at a thumb: a line each.
const MEASURE: &str = r#"(() => {
    const wrong = [];
    // Names and told rows scroll within a frame of their own; what it cuts off at its edge is no key at present.
    const shown = e => {
        const b = e.getBoundingClientRect(), f = e.closest('.names, .told')?.getBoundingClientRect();
        return !f || (b.top >= f.top - 0.1 && b.bottom <= f.bottom + 0.1);
    };
    const all = [...document.querySelectorAll('.run-court [data-key], .run-foot [data-key]')].filter(shown);
    const boxes = all.map(e => [e, e.getBoundingClientRect()]);
    for (const [e, b] of boxes) {
        const name = e.dataset.key;
        const least = e.matches('.name-key, .told-key, .stand') ? 48 : 64;
        if (b.height < least - 0.1) wrong.push(`${name} is only ${b.height} high`);
        // A half of a court is as high as two thumbs: its middle is what has to be within reach.
        const reached = e.matches('.game-side') ? (b.top + b.bottom) / 2 : b.top;
        if (reached < innerHeight / 3 - 0.1 && !e.matches('.told-key, .stand')) wrong.push(`${name} begins at ${b.top}, above the lower two thirds`);
        if (!e.matches('.told-key, .told-next') && (b.bottom > innerHeight + 0.1 || b.left < 0 || b.right > innerWidth + 0.1)) wrong.push(`${name} ends outside the view`);
        for (const [f, c] of boxes) {
            if (e === f || e.dataset.key > f.dataset.key) continue;
            const across = Math.max(c.left - b.right, b.left - c.right), down = Math.max(c.top - b.bottom, b.top - c.bottom);
            const apart = Math.max(across, down);
            if (apart < 7.9) wrong.push(`${name} and ${f.dataset.key} are ${apart} apart`);
        }
    }
    const page = document.scrollingElement;
    if (!document.querySelector('.told')) {
        if (page.scrollHeight > innerHeight) wrong.push(`the page scrolls: ${page.scrollHeight} of ${innerHeight}`);
        for (const e of document.querySelectorAll('.run *')) {
            if (e.matches('.run-serve .names')) continue;
            if (e.scrollHeight > e.clientHeight + 1 && /auto|scroll/.test(getComputedStyle(e).overflowY)) wrong.push(`${e.className} scrolls`);
        }
    }
    if (page.scrollWidth > innerWidth) wrong.push(`the page is wider than the view: ${page.scrollWidth}`);
    return wrong;
})()"#;

/// Keys that no scrolling brings under a thumb, and pages wider than the view.
const REACH: &str = r#"(() => {
    const wrong = [];
    const page = document.scrollingElement;
    if (page.scrollWidth > innerWidth) wrong.push(`the page is wider than the view: ${page.scrollWidth} of ${innerWidth}`);
    for (const e of document.querySelectorAll('[data-key]')) {
        if (!e.checkVisibility() || e.closest('[inert]')) continue;
        const reached = ['center', 'start', 'end'].some(block => {
            e.scrollIntoView({ block, inline: 'center', behavior: 'instant' });
            const b = e.getBoundingClientRect();
            const hit = document.elementFromPoint(b.x + b.width / 2, b.y + b.height / 2);
            return hit && (e === hit || e.contains(hit) || hit.closest('label')?.contains(e));
        });
        if (!reached) wrong.push(`${e.dataset.key} is not reached`);
    }
    scrollTo(0, 0);
    return wrong;
})()"#;

/// Words that are cut off by what they stand in or by the view, and keys or names that lie over one another. What scrolls, what only
/// a screen reader hears, and the line over the figures where a low screen gives it up, are left out.
const CUT: &str = r#"(() => {
    const wrong = [];
    const run = document.querySelector('.run');
    const out = '.visually-hidden, .strip-chips, .game-teams, .told, .names.is-long, .run-serve:not(.run-standing) .names, [inert]';
    const low = document.querySelector('.run-call')?.clientHeight === 0;
    const words = document.createTreeWalker(run, NodeFilter.SHOW_TEXT);
    for (let text; (text = words.nextNode());) {
        const e = text.parentElement, own = getComputedStyle(e);
        if (!text.data.trim() || e.closest(out) || own.clipPath !== 'none' || !e.checkVisibility({ visibilityProperty: true })) continue;
        if (low && e.matches('.run-call')) continue;
        const range = document.createRange();
        range.selectNodeContents(text);
        // Capitals and figures, without the air of the line.
        const half = parseFloat(own.fontSize) * 0.36;
        for (const b of [...range.getClientRects()].filter(b => b.width > 0)) {
            const middle = (b.top + b.bottom) / 2;
            const beyond = f => b.left < f.left - 1 || b.right > f.right + 1 || middle - half < f.top - 1 || middle + half > f.bottom + 1;
            let frame = beyond({ left: 0, top: 0, right: innerWidth, bottom: innerHeight }) ? 'the view' : null;
            for (let f = e; !frame && f !== run; f = f.parentElement) {
                const s = getComputedStyle(f);
                if (/inline$|contents/.test(s.display) || !/hidden|clip|auto|scroll/.test(s.overflow) && !/strict|paint|content/.test(s.contain)) continue;
                if (beyond(f.getBoundingClientRect())) frame = f.className;
            }
            if (frame) { wrong.push(`“${text.data.trim()}” is cut off by ${frame}`); break; }
        }
    }
    const keys = [...run.querySelectorAll('[data-key], .game-token, .game-net')].filter(e => e.checkVisibility({ visibilityProperty: true })
        && !e.closest('.strip, .game-notes, .told, .names, .cover'));
    keys.forEach((e, at) => keys.slice(at + 1).forEach(f => {
        const b = e.getBoundingClientRect(), c = f.getBoundingClientRect();
        if (e.contains(f) || f.contains(e)) return;
        const over = Math.min(Math.min(b.right, c.right) - Math.max(b.left, c.left), Math.min(b.bottom, c.bottom) - Math.max(b.top, c.top));
        if (over > 1) wrong.push(`${e.dataset.key ?? e.className} and ${f.dataset.key ?? f.className} lie over one another`);
    }));
    return wrong;
})()"#;

async fn nothing(stage: &Stage, script: &str, what: String) -> Result<()> {
    stage
        .phone
        .wait_until("the page to be still", "document.getAnimations().every(a => a.playState !== 'running')")
        .await?;
    let found = stage.phone.eval(script).await?;
    let list: Vec<String> = found.as_array().into_iter().flatten().map(ToString::to_string).collect();
    if list.is_empty() { Ok(()) } else { Err(Error::Found { what, list }) }
}

/// Every ready drill's board, with a tap on it; the told board scrolls.
const BOARDS: [(usize, &str); 14] = [
    (0, "pass.0.3"),
    (1, "pass.0.3"),
    (2, "pass-3"),
    (3, "serve-in"),
    (4, "serve-in"),
    (5, "told.0.7"),
    (6, "good"),
    (7, "good"),
    (8, "pass-3"),
    (9, "serve-in"),
    (10, "lane.1"),
    (11, "good"),
    (12, "side.bottom"),
    (13, "side.top"),
];

/// Groups at once: no rate is told there, so the calm says nothing.
const LANES: usize = 10;

#[tokio::test]
async fn keys_are_under_the_thumb() -> Result<()> {
    let mut list = Vec::new();
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        for (drill, key) in BOARDS {
            stage.check("board", &format!("seek drill.{drill} | screen run | seek {key}")).await?;
            // Where only good ones are counted and in a game nobody's rate is told, so there is no calm view.
            let calm = match drill {
                LANES | 12 | 13 => "later 13s | gone effort-close",
                _ => "later 13s | gone effort-close | see Everyone",
            };
            for (state, steps) in [("", ""), ("effort", "tap effort"), ("calm", calm)] {
                stage.check(state, steps).await?;
                let what = format!("Board {drill} {state} at {} × {}", screen.width, screen.height);
                match nothing(&stage, MEASURE, what).await {
                    Err(Error::Found { what, list: found }) => {
                        list.extend(found.iter().map(|f| format!("{what}: {f}")))
                    }
                    other => other?,
                }
            }
            stage.check("home", HOME).await?;
        }
    }
    if list.is_empty() { Ok(()) } else { Err(Error::Found { what: "Keys are not under the thumb".to_string(), list }) }
}

/// Narrow, with text twice as large, on its side: scrolling is allowed, a key out of reach is not.
#[tokio::test]
async fn no_key_is_out_of_reach() -> Result<()> {
    let mut list = Vec::new();
    let mut stage = with_squad(Screen::SMALL).await?;
    let places = [
        "tap tab.squad | screen squad",
        "tap tab.after | screen after",
        "tap tab.share | screen share",
        "tap tab.today | screen today | seek library | screen library | seek seek-more | seek pick.net.without",
        "seek library.1 | screen library-drill | there start",
        "tap back | screen library | seek list.mine | screen my-drills",
        "tap tab.today | screen today",
    ];
    let shapes = [
        ("320 wide", 320, 640, "100%"),
        ("text at 200 %", 360, 640, "200%"),
        ("on its side", 640, 360, "100%"),
        ("320 wide, 200 %", 320, 640, "200%"),
    ];
    let mut states: Vec<String> = places.iter().map(ToString::to_string).collect();
    for (drill, key) in BOARDS {
        states.push(format!("seek drill.{drill} | screen run | seek {key} | fig saved = saved"));
        states.push(HOME.to_string());
    }
    for steps in states {
        stage.check("to", &format!("size 360 640 | {steps}")).await?;
        for (shape, width, height, text) in shapes {
            stage.check(shape, &format!("size {width} {height}")).await?;
            stage.phone.eval(&format!("document.documentElement.style.fontSize = '{text}'; 0")).await?;
            match nothing(&stage, REACH, format!("{shape}, after {steps}")).await {
                Err(Error::Found { what, list: found }) => list.extend(found.iter().map(|f| format!("{what}: {f}"))),
                other => other?,
            }
            stage.phone.eval("document.documentElement.style.fontSize = ''; 0").await?;
        }
    }
    if list.is_empty() { Ok(()) } else { Err(Error::Found { what: "Keys are out of reach".to_string(), list }) }
}

/// On every shape of phone: no word cut off, no key over another. Names, figures and sentences as a practice has them.
#[tokio::test]
async fn nothing_is_cut_off() -> Result<()> {
    let mut list = Vec::new();
    let mut stage = with_squad(Screen::SMALL).await?;
    let shapes = [("narrow", 320, 568), ("small", 360, 640), ("tall", 390, 844), ("on its side", 640, 360)];
    for (drill, key) in BOARDS {
        // A row's goal is reached, and its words stand longest; first to ten isn't over yet.
        let more = if drill == LANES { 8 } else { 12 };
        stage
            .check(
                "to",
                &format!(
                    "size 360 640 | seek drill.{drill} | screen run | seek {key} | tap {key} x {more} | fig saved = saved"
                ),
            )
            .await?;
        for (shape, width, height) in shapes {
            stage.check(shape, &format!("size {width} {height}")).await?;
            match nothing(&stage, CUT, format!("{shape}, board {drill}")).await {
                Err(Error::Found { what, list: found }) => list.extend(found.iter().map(|f| format!("{what}: {f}"))),
                other => other?,
            }
        }
        stage.check("home", &format!("size 360 640 | {HOME}")).await?;
    }
    if list.is_empty() { Ok(()) } else { Err(Error::Found { what: "Something is cut off".to_string(), list }) }
}
