//! Owns how fast a practice goes from one phone's screen to another's camera: 300 contacts, ten pictures a second, every fifth lost, by a film in place of
//! the camera. Told from the first picture to the copy that is whole, and what the worker needs for a picture.

use super::number;
use super::season::Season;
use super::table::{Line, Times};
use browser_tests::film::{codes, film};
use browser_tests::{Error, PhoneKind, Result, Screen, Site, Stage};
use peppertally::wire::moving;
use std::path::PathBuf;
use std::time::Duration;

const AIM_S: f64 = 20.0;
const A_SECOND: f64 = 10.0;
/// The first is lost, or the second, and so on.
const N_TURNS: usize = 5;
/// Then the film begins anew.
const N_ROUNDS: u64 = 12;

pub struct Codes {
    n_contacts: usize,
    n_bytes: usize,
    n_codes: u16,
    whole_ms: Times,
    picture_ms: Times,
}

pub async fn measure() -> Result<Codes> {
    let season = Season::of_one_practice();
    let n_bytes = season.copy().len();
    let mut first = stage(None).await?;
    season.put_into(&first.phone, &first.site).await?;
    first
        .check("shown", "tap tab.share | screen share | seek show | screen show | tap show-start | there show-pause")
        .await?;
    let says = first.phone.eval("document.querySelector('[data-fig=round]').textContent").await?;
    let n_codes = says.as_str().and_then(|says| says.split(' ').next()?.parse().ok());
    let n_codes: u16 = n_codes.ok_or_else(|| Error::Missing { what: format!("How many codes there are: {says}.") })?;
    let shown = codes(&first.phone, n_codes.into()).await?;
    if shown.len() != usize::from(n_codes) {
        return Err(Error::Missing { what: format!("{} of {n_codes} codes were drawn.", shown.len()) });
    }
    drop(first);
    let mut told = Codes {
        n_contacts: season.n_contacts,
        n_bytes,
        n_codes,
        whole_ms: Times::default(),
        picture_ms: Times::default(),
    };
    let path = std::env::temp_dir().join(format!("peppertally-bench-{}.y4m", std::process::id()));
    for turn in 0..N_TURNS {
        eprintln!("codes: {} of {N_TURNS}", turn + 1);
        // As the phone shows them: each once a round, in another order every time.
        let rounds = (0..N_ROUNDS).flat_map(|nth| moving::round(n_codes, nth)).enumerate();
        let pictures: Vec<_> = rounds.map(|(at, code)| (at % 5 != turn).then(|| &shown[usize::from(code)])).collect();
        film(&path, &pictures)?;
        let mut second = stage(Some(path.clone())).await?;
        second.phone.inject(PROBE).await?;
        second
            .check("looks", "open | screen today | tap tab.share | screen share | seek read | screen read | tap camera | screen share | there parcel-accept")
            .await?;
        let found = second.phone.eval("__codes").await?;
        told.whole_ms.push(number(&found["whole"])?);
        for took in found["pictures"].as_array().into_iter().flatten() {
            told.picture_ms.push(number(took)?);
        }
    }
    std::fs::remove_file(&path).map_err(|error| Error::Missing { what: format!("The film: {error}.") })?;
    Ok(told)
}

async fn stage(camera: Option<PathBuf>) -> Result<Stage> {
    let kind = PhoneKind { screen: Screen::TALL, camera, watch_requests: false, ..PhoneKind::default() };
    let mut stage = Stage::of(Site::of_the_app()?, kind).await?;
    stage.phone.limit(Duration::from_secs(90));
    Ok(stage)
}

impl Codes {
    pub fn print(&self) {
        let whole_s = self.whole_ms.median() / 1000.0;
        println!(
            "A practice of {} contacts from screen to camera, {A_SECOND} pictures a second, every fifth lost",
            self.n_contacts
        );
        println!(
            "  {} codes of a copy of {:.1} kB; whole after {whole_s:.1} s (median of {N_TURNS}), {:.1} s (slowest): {:.2} kB a second",
            self.n_codes,
            self.n_bytes as f64 / 1000.0,
            self.whole_ms.p99() / 1000.0,
            self.n_bytes as f64 / 1000.0 / whole_s
        );
        println!(
            "  the worker needs {:.1} ms for a picture (median), {:.1} ms (p99), not slowed",
            self.picture_ms.median(),
            self.picture_ms.p99()
        );
        Line::aim("whole, s, slowest", self.whole_ms.p99() / 1000.0, AIM_S);
        println!();
    }
}

/// From the first picture that the worker is given to the copy; and what it needs for each.
const PROBE: &str = r#"(() => {
    let first = 0, given = 0;
    globalThis.__codes = { whole: 0, pictures: [] };
    const Real = Worker;
    globalThis.Worker = class extends Real {
        constructor(...a) {
            super(...a);
            if (!String(a[0]).includes('codes')) return;
            this.addEventListener('message', e => {
                if (e.data[0] !== 'answer' || !given) return;
                __codes.pictures.push(performance.now() - given);
                if (e.data.length > 3) __codes.whole = performance.now() - first;
            });
        }
    };
    const post = Real.prototype.postMessage;
    Real.prototype.postMessage = function (...a) {
        if (Array.from(a[0] ?? []).some(part => part instanceof Uint8Array || part instanceof Uint8ClampedArray || part instanceof ArrayBuffer)) {
            given = performance.now();
            first ||= given;
        }
        return post.apply(this, a);
    };
})()"#;
