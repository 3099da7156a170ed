//! Files that come by other ways than the input: dropped, shared with the app, opened with it. Each ends at the same question, nothing is taken in
//! by itself, and nothing leaves the phone.

use browser_tests::{PhoneKind, Result, Screen, Site, Stage};

const COPY: &str = include_str!("../../../../lock/tests/fixtures/content.json");

async fn phone() -> Result<Stage> {
    let mut stage = Stage::of(Site::of_the_app()?, PhoneKind { screen: Screen::SMALL, ..PhoneKind::default() }).await?;
    stage.check("a phone", "open | screen today | tap tab.squad | screen squad").await?;
    Ok(stage)
}

/// `new File(…)` with the copy in it.
fn file(name: &str) -> String {
    let text = serde_json::to_string(COPY).expect("text");
    format!("new File([{text}], '{name}', {{ type: 'application/json' }})")
}

#[tokio::test]
async fn dropped_anywhere() -> Result<()> {
    let mut stage = phone().await?;
    let drag = format!(
        "globalThis.__dragged = new DataTransfer(); __dragged.items.add({}); __dragged.items.add({});
        globalThis.__drag = (kind) => document.querySelector('main').dispatchEvent(new DragEvent(kind, {{ dataTransfer: __dragged, bubbles: true, cancelable: true }}));
        __drag('dragenter')",
        file("anas.json"),
        file("another.json"),
    );
    stage.phone.eval(&drag).await?;
    stage.check("over it", "see Let go to look at the file. | shot drop").await?;
    stage.phone.eval("__drag('dragleave')").await?;
    stage.check("away again", "unseen Let go to look at the file. | screen squad").await?;
    let taken = stage.phone.eval("__drag('dragenter'); [!__drag('dragover'), !__drag('drop')]").await?;
    assert_eq!(taken, serde_json::json!([true, true]), "the browser doesn't open it in place of the app");
    stage.check("let go", "screen share | unseen Let go to look | see anas.json | there parcel-accept | see only the first was opened | axe
        tap parcel-accept | see Taken in.").await?;
    // Words that are dragged about in a field are no file.
    let words = "const t = new DataTransfer(); t.setData('text/plain', 'Mira'); document.body.dispatchEvent(new DragEvent('dragenter', { dataTransfer: t, bubbles: true, cancelable: true }))";
    let passed = stage.phone.eval(words).await?;
    assert_eq!(passed, true, "not taken");
    stage.check("words", "unseen Let go to look at the file.").await
}

/// What another app shares is posted to an address that the offline worker alone answers: no server sees it, and none need be there.
#[tokio::test]
async fn shared_with_the_app() -> Result<()> {
    let mut stage = phone().await?;
    stage
        .phone
        .wait_until(
            "everything to be kept",
            "document.documentElement.dataset.offline === 'ready' && navigator.serviceWorker.controller",
        )
        .await?;
    // A page of this origin that posts as a phone's share sheet does.
    stage.site.change("poster.html", "<!doctype html><title>poster</title><link rel=icon href=icons/icon.svg><form method=post enctype=multipart/form-data action=receive><input type=file name=copy multiple></form>");
    let post = |files: &[String]| {
        let add: String = files.iter().map(|file| format!("t.items.add({file});")).collect();
        format!(
            "(() => {{ const t = new DataTransfer(); {add} document.querySelector('input').files = t.files; document.querySelector('form').submit(); }})()"
        )
    };
    stage.phone.open("poster.html").await?;
    stage.check("no signal", "stop-server").await?;
    stage.phone.eval(&post(&[file("anas copy – Tuesday.json")])).await?;
    stage.check("shared", "screen share | see anas copy – Tuesday.json | there parcel-accept | gone lock-open").await?;
    let left = "caches.keys().then(names => names.filter(name => name.startsWith('received')).length)";
    assert_eq!(stage.phone.eval(left).await?, 0, "it was taken out, and lies nowhere else");
    stage.check("once", "reload | screen share | gone parcel-accept | start-server").await?;
    assert_eq!(stage.site.count("receive"), 0, "no server has seen it");

    // Several: the first. Larger than anything that is read: said, and not kept.
    stage.phone.open("poster.html").await?;
    stage.phone.eval(&post(&[file("one.json"), file("two.json")])).await?;
    stage.check("several", "screen share | see one.json | see only the first was opened | tap parcel-decline").await?;
    stage.phone.open("poster.html").await?;
    stage.phone.eval(&post(&["new File([new Uint8Array(100_000_001)], 'large.json')".to_owned()])).await?;
    stage.check("too large", "screen share | see This file is larger than 100 MB | tap close").await?;
    // No room for it: that is said, once.
    stage.phone.open("poster.html").await?;
    stage.phone.quota(Some(1_000)).await?;
    stage.phone.eval(&post(&["new File([new Uint8Array(5_000_000)], 'some.json')".to_owned()])).await?;
    stage.check("no room", "screen share | see could not be kept").await?;
    stage.phone.quota(None).await?;
    stage.check("once", "reload | screen share | unseen could not be kept").await
}

/// Where a browser starts the app with a file, it hands it over through its queue of launches.
#[tokio::test]
async fn opened_with_the_app() -> Result<()> {
    let mut stage = phone().await?;
    let queue = format!(
        "Object.defineProperty(globalThis, 'launchQueue', {{ configurable: true, value: {{ setConsumer(take) {{ globalThis.__launch = take; take({{ files: [{{ getFile: async () => {} }}] }}); }} }} }})",
        file("anas.json")
    );
    stage.phone.inject(&queue).await?;
    stage.check("with a file", "reload | screen share | see anas.json | there parcel-accept | tap parcel-decline | tap tab.today | screen today").await?;
    // Again while it is open; and a start without a file.
    stage
        .phone
        .eval(&format!(
            "__launch({{ files: [] }}); __launch({{}}); __launch({{ files: [{{ getFile: async () => {} }}] }})",
            file("again.json")
        ))
        .await?;
    stage.check("again", "screen share | see again.json | there parcel-accept").await
}
