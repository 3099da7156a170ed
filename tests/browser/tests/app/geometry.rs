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
