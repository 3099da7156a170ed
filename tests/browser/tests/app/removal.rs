//! A child removed for good, in a real browser: held, and then nothing of it in the database, the small store, or a copy.

use crate::{HOME, with_squad};
use browser_tests::{Phone, Result, Screen};

/// Everything that the origin stores, as one text.
async fn stored(phone: &Phone) -> Result<String> {
    let dump = "new Promise((done, no) => { const r = indexedDB.open('peppertally'); r.onerror = no; r.onsuccess = async () => {
        const db = r.result; let all = JSON.stringify(localStorage);
        for (const name of db.objectStoreNames) {
            const values = await new Promise((yes, no) => { const q = db.transaction(name).objectStore(name).getAll(); q.onsuccess = () => yes(q.result); q.onerror = no; });
            all += values.map(v => v instanceof Uint8Array ? new TextDecoder().decode(v) : v).join('\\n');
        }
        db.close(); done(all);
    }; })";
    Ok(phone.eval(dump).await?.as_str().unwrap_or_default().to_string())
}

/// A practice packed, another one on, a note: all of Mira.
#[tokio::test]
async fn nothing_of_it_is_stored() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("practised", &format!("seek drill.0 | screen run | tap pass.0.3 x 3 | fig saved = saved | {HOME} | tap tab.after | screen after
        tap practice.0 | screen practice-report | seek practice-end | there practice-reopen | tap tab.today | screen today
        seek drill.0 | screen run | tap pass.0.3 x 2 | tap pass.1.2 | fig saved = saved")).await?;
    stage.check("not in mid-run", "open #/squad | screen squad | tap child.0 | screen child | seek child-remove | see Remove Mira for good? | see A drill is on. | gone child-remove-hold | axe").await?;
    assert!(stored(&stage.phone).await?.contains("Mira"));
    stage
        .check(
            "finished",
            &format!(
                "seek child-remove-no | there child-remove | open #/ | screen today | tap go-on | screen run | {HOME}"
            ),
        )
        .await?;
    stage.check("asked", "tap tab.squad | screen squad | tap child.0 | screen child | seek child-remove | see Remove Mira for good? | there child-remove-hold").await?;
    let one_look = "(() => { const box = s => document.querySelector(s).getBoundingClientRect();
        return box('[data-fig=removal] h2').top >= 0 && box('[data-key=child-remove-hold]').bottom <= box('.foot button').top; })()";
    stage.phone.wait_until("what goes and the key to stand in one look", one_look).await?;
    stage.check("held", "axe | shot removal
        dark | shot removal-dark | light | scroll child-remove-hold | tap child-remove-hold | there child-remove-hold | hold child-remove-hold | screen squad | let-go | count .row-key = 11").await?;
    let gone = "new Promise((done, no) => { const r = indexedDB.open('peppertally'); r.onerror = no; r.onsuccess = () => {
        const q = r.result.transaction('blocks').objectStore('blocks').getAll(); q.onsuccess = () => { r.result.close();
            done(q.result.length > 0 && q.result.every(v => new TextDecoder().decode(v).includes('removed'))); }; }; })";
    stage.phone.wait_until("the packed practice to be gone through", gone).await?;
    let left = stored(&stage.phone).await?;
    assert!(!left.contains("Mira"), "{}", &left[left.find("Mira").unwrap_or(0).saturating_sub(200)..]);
    stage.check("over a restart", "kill | open #/squad | screen squad | count .row-key = 11 | tap tab.share | screen share | seek copy-download | see The copy was given").await?;
    let path = stage.phone.wait_download("a copy", |name| name.ends_with(".json")).await?;
    let copy = std::fs::read_to_string(path).expect("the copy");
    assert!(copy.contains("child-removed") && !copy.contains("Mira"));
    stage.check("all is sound", "open #/health | screen health | seek check | see All is well").await
}
