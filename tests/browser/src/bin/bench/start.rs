//! Owns the time of a cold start without a server: each in a browser started anew, with its service worker, from the navigation to
//! a key of the board that answers. The run that was on is on screen again, as after a phone has thrown the page away in the middle
//! of practice. *Answers* means that a touch on the key has changed the figure and the frame with it is painted.

use super::number;
use super::table::{Line, Times};
use browser_tests::{Phone, Result};
use serde_json::json;

const N_STARTS: usize = 7;
const AIM_S: f64 = 1.5;

pub struct Starts {
    empty: Times,
    full: Times,
}

/// The servers are stopped, and the run of each is on.
pub async fn measure(phone: &mut Phone, empty: &str, full: &str) -> Result<Starts> {
    phone.inject(PROBE).await?;
    let mut starts = Starts { empty: Times::default(), full: Times::default() };
    for n in 0..N_STARTS {
        eprintln!("starts: {} of {N_STARTS}", n + 1);
        // In turns, and neither always first.
        let mut order = [(empty, &mut starts.empty), (full, &mut starts.full)];
        if n % 2 == 1 {
            order.reverse();
        }
        for (url, times) in order {
            times.push(one(phone, url).await?);
        }
    }
    Ok(starts)
}

async fn one(phone: &mut Phone, url: &str) -> Result<f64> {
    phone.close().await?;
    phone.reopen().await?;
    phone.cdp("Page.navigate", json!({ "url": url })).await?;
    let ms = phone.wait_until("a key of the board to answer", "globalThis.__answered ?? null").await?;
    number(&ms)
}

impl Starts {
    pub fn print(&self) {
        let (empty, full) = (self.empty.median(), self.full.median());
        println!("Cold start offline, the run on screen again, to a key that answers (median of {N_STARTS}, in turn)");
        println!("  no contacts {empty:.0} ms, 200,000 {full:.0} ms, ratio {:.2}", full / empty);
        Line::aim("start with 200,000 contacts, s", full / 1000.0, AIM_S);
        println!();
    }
}

/// Touches the key in each frame from the first in which a thumb could, until the figure changes.
const PROBE: &str = r#"(() => {
    const channel = new MessageChannel();
    channel.port1.onmessage = () => { globalThis.__answered = performance.now(); };
    const figure = () => document.querySelector('[data-fig="of"]')?.textContent ?? '';
    let before = null;
    const look = () => {
        if (before !== null && figure() !== before) return channel.port2.postMessage(null);
        requestAnimationFrame(look);
        const key = document.querySelector('[data-key="pass.1.3"]');
        if (!key) return;
        const r = key.getBoundingClientRect();
        if (!key.contains(document.elementFromPoint(r.left + r.width / 2, r.top + r.height / 2))) return;
        before = figure();
        key.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true, isPrimary: true, pointerType: 'touch' }));
    };
    requestAnimationFrame(look);
})()"#;
