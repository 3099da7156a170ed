//! Tests the harness itself, against a tiny page of its own. Owns no test of the app.

use browser_tests::{Error, Phone, PhoneKind, Result, Screen, Site, Stage, faults, needs};
use serde_json::json;
use std::path::Path;
use std::time::Duration;

fn site() -> Result<Site> {
    Site::start(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/harness_page"))
}

async fn stage() -> Result<Stage> {
    let mut stage = Stage::of(site()?, PhoneKind::default()).await?;
    stage.phone.limit(Duration::from_secs(10));
    Ok(stage)
}

#[tokio::test]
async fn steps_do_what_they_say() -> Result<()> {
    let mut stage = stage().await?;
    let script = r#"
        open | screen test | fig taps = 0 | fig kept = 0
        tap left x 3 | fig taps = 3 | fig clicks = 3
        hold left | fig taps = 4 | let-go | fig clicks = 4
        enabled left | disabled off | there left | gone nowhere
        type name = Ünal | value name = Ünal | type name = | value name =
        type kind = b | see kind b | unseen kind a
        key Tab | key k x 2 | fig keys = 2
        scroll far | tap far
        count button = 6 | dark | light | size 320 640
        reload | fig taps = 0
    "#;
    stage.check("steps", script).await
}

/// They make no click, and both count.
#[tokio::test]
async fn two_thumbs_at_once() -> Result<()> {
    needs!(Fingers);
    let mut stage = stage().await?;
    let script =
        "open | both left right | fig taps = 2 | fig clicks = 0 | hold left | fig taps = 3 | let-go | fig clicks = 1";
    stage.check("two thumbs", script).await
}

#[tokio::test]
async fn a_phone_looks_like_one() -> Result<()> {
    needs!(Fingers, Restart, Scheme);
    let site = site()?;
    let mut phone = Phone::start_as(&site.base(), PhoneKind { screen: Screen::SMALL, ..PhoneKind::default() }).await?;
    phone.dark(true).await?;
    phone.clock(3_600_000).await?;
    phone.open("").await?;
    let seen = phone
        .eval(
            "[innerWidth, innerHeight, devicePixelRatio, matchMedia('(pointer: coarse)').matches,
            matchMedia('(hover: none)').matches, matchMedia('(prefers-color-scheme: dark)').matches,
            Math.round((Date.now() - __realDate.now()) / 1000), new Date(0).getTime()]",
        )
        .await?;
    assert_eq!(seen, json!([360, 640, 2, true, true, true, 3600, 0]));
    // The same once more on a second tab, and after a restart.
    phone.second_tab().await?;
    phone.open("").await?;
    let again = "[innerWidth, matchMedia('(prefers-color-scheme: dark)').matches, Math.round((Date.now() - __realDate.now()) / 1000)]";
    assert_eq!(phone.eval(again).await?, json!([360, true, 3600]));
    phone.kill()?;
    phone.reopen().await?;
    phone.open("").await?;
    assert_eq!(phone.eval(again).await?, json!([360, true, 3600]));
    Ok(())
}

#[tokio::test]
async fn what_a_thumb_cannot_reach_is_not_tapped() -> Result<()> {
    let mut stage = stage().await?;
    stage.phone.limit(Duration::from_millis(100));
    stage.phone.open("").await?;
    for (key, why) in [("off", "disabled"), ("under", "covered"), ("far", "outside the view"), ("nowhere", "not there")]
    {
        match stage.phone.tap(&format!("[data-key={key}]")).await {
            Err(Error::Awaited { last, page, .. }) => {
                assert!(last.contains(why), "{key}: {last}");
                assert!(page.contains("A page for the harness"), "{page}");
            }
            other => panic!("{key} was answered by {other:?}"),
        }
    }
    Ok(())
}

#[tokio::test]
async fn what_was_written_strictly_outlives_a_kill() -> Result<()> {
    needs!(Restart);
    let mut stage = stage().await?;
    stage.phone.inject(faults::RECORD_TRANSACTIONS).await?;
    stage.check("before", "open | fig kept = 0 | tap keep x 5 | fig kept = 5").await?;
    let writing: Vec<_> =
        stage.phone.transactions().await?.into_iter().filter(|transaction| transaction.mode == "readwrite").collect();
    assert_eq!(writing.len(), 5);
    assert!(
        writing
            .iter()
            .all(|t| t.durability == "strict" && t.n_writes == 1 && t.committed_at_once && t.end == "complete")
    );

    let first = stage.phone.killer()?;
    assert!(first.n_processes() > 2 && !first.is_gone(), "only {} processes were found", first.n_processes());
    stage.check("killed", "kill | fig kept = 5 | tap keep | fig kept = 6").await?;
    // From another thread, in the middle of tapping: what was shown as kept is there.
    let second = stage.phone.killer()?;
    let killer = second.clone();
    let (start, started) = std::sync::mpsc::channel();
    let killing = std::thread::spawn(move || started.recv().map(|()| killer.fire()));
    let mut shown = 0;
    while stage.phone.tap("[data-key=keep]").await.is_ok() {
        let Ok(text) = stage.phone.text("[data-fig=kept]").await else { break };
        shown = text.parse().unwrap_or(shown);
        if shown > 8 {
            start.send(()).unwrap_or(());
        }
    }
    killing.join().expect("the killing thread").expect("the word to kill");
    stage.phone.kill()?;
    assert!(second.is_gone(), "processes are left of {second:?}");
    stage.phone.reopen().await?;
    stage.phone.open("").await?;
    let kept = stage.phone.wait_text("[data-fig=kept]", "a number", |text| text.parse::<u32>().is_ok()).await?;
    assert!(shown >= 8 && kept.parse::<u32>().is_ok_and(|n| n >= shown), "kept {kept}, shown {shown}");
    Ok(())
}

#[tokio::test]
async fn a_stopped_server_is_noticed_and_a_worker_goes_on() -> Result<()> {
    let mut stage = stage().await?;
    stage.check("with a server", "open | screen test").await?;
    assert_eq!((stage.site.count(""), stage.site.count("page.js")), (1, 1));
    stage.site.stop();
    let reloaded = stage.phone.reload().await;
    assert!(matches!(reloaded, Err(Error::NoPage { .. })), "a stopped server was answered by {reloaded:?}");
    let opened = stage.phone.open("").await;
    assert!(
        matches!(opened, Err(Error::Driver { .. } | Error::NoPage { .. })),
        "a stopped server was answered by {opened:?}"
    );
    stage.site.start_again()?;
    stage.phone.open("").await?;
    let ready = "navigator.serviceWorker.register('sw.js').then(() => navigator.serviceWorker.ready).then(() => true)";
    assert_eq!(stage.phone.eval(ready).await?, json!(true));
    stage.phone.wait_until("the worker to take the page", "!!navigator.serviceWorker.controller").await?;
    stage
        .check("without", "stop-server | reload | screen test | fig taps = 0 | tap left | fig taps = 1 | start-server")
        .await?;
    stage.site.change("page.js", "say('new')");
    stage.site.take_away("page.css");
    let got =
        stage.phone.eval("Promise.all(['page.js?new', 'page.css?new'].map(f => fetch(f).then(r => r.status)))").await?;
    assert_eq!(got, json!([200, 404]));
    Ok(())
}

#[tokio::test]
async fn a_request_elsewhere_is_seen_and_goes_nowhere() -> Result<()> {
    needs!(RequestLog);
    let stage = stage().await?;
    // The page's own policy forbids it, which is an error in the console.
    stage.phone.open("").await?;
    stage.phone.eval("fetch('http://page.invalid/x').catch(() => 0)").await?;
    let errors = stage.phone.console_errors().await?;
    assert!(
        errors.iter().any(|e| e.contains("page policy violation: connect-src http://page.invalid/x")),
        "{errors:?}"
    );
    // The worker has no policy.
    let ready = "navigator.serviceWorker.register('sw.js').then(() => navigator.serviceWorker.ready).then(r => { r.active.postMessage('leave'); return true; })";
    stage.phone.eval(ready).await?;
    let mut elsewhere = Vec::new();
    for _ in 0..500 {
        elsewhere = stage.phone.requests_elsewhere().await?;
        if elsewhere.iter().any(|url| url.contains("worker.invalid")) {
            break;
        }
        tokio::time::sleep(Duration::from_millis(10)).await;
    }
    assert!(elsewhere.iter().any(|url| url.contains("worker.invalid/x")), "{elsewhere:?}");
    let own: Vec<_> = elsewhere.iter().filter(|url| !url.contains(".invalid")).collect();
    assert!(own.is_empty(), "the browser itself asked for {own:?}");
    assert!(stage.phone.request_hosts().await?.iter().any(|host| stage.site.base().contains(host)));
    Ok(())
}

#[tokio::test]
async fn errors_in_the_page_are_caught() -> Result<()> {
    let mut stage = stage().await?;
    stage.phone.open("").await?;
    assert_eq!(stage.phone.console_errors().await?, Vec::<String>::new());
    stage
        .phone
        .eval("(setTimeout(() => reportError(new Error('first'))), Promise.reject(new Error('second')), 1)")
        .await?;
    stage.phone.eval("new Promise(done => setTimeout(done, 20))").await?;
    let errors = stage.phone.console_errors().await?.join("\n");
    assert!(errors.contains("first") && errors.contains("page unhandled rejection: Error: second"), "{errors}");
    // And through a script.
    stage.phone.eval("console.error('third')").await?;
    assert!(matches!(stage.check("console", "open").await, Err(Error::Step { .. })));
    stage.phone.eval("console.error('third')").await?;
    stage.check("console", "errors-ok third | open").await?;
    assert!(matches!(stage.phone.eval("nothing.there").await, Err(Error::Thrown { .. })));
    Ok(())
}

#[tokio::test]
async fn storage_fails_on_demand() -> Result<()> {
    needs!(Protocol);
    let mut stage = stage().await?;
    stage.check("room", "open | fig kept = 0 | tap keep | fig kept = 1").await?;
    // The browser looks at what is left when it starts, and only now and then after that.
    stage.phone.quota(Some(1)).await?;
    stage.check("no room", "kill | fig kept = 1 | tap keep | see not kept: QuotaExceededError").await?;
    stage.phone.quota(None).await?;
    stage.check("room again", "kill | fig kept = 1 | tap keep | fig kept = 2").await?;
    stage.check("closed in order", "tap keep | fig kept = 3").await?;
    stage.phone.close().await?;
    stage.phone.reopen().await?;
    stage.check("and opened", "open | fig kept = 3").await
}

#[tokio::test]
async fn every_fault_fails_as_it_says() -> Result<()> {
    let local = |act: &str| {
        format!("(() => {{ try {{ localStorage.{act}; return 'well'; }} catch (e) {{ return e.name; }} }})()")
    };
    let cases = [
        (
            faults::FULL,
            "fig kept = 0 | tap keep | see not kept: QuotaExceededError",
            "__full = false".to_string(),
            json!(false),
        ),
        (
            faults::LOSABLE_DATABASE,
            "fig kept = 0 | tap keep | fig kept = 1",
            "(__loseDatabase(), 'lost')".to_string(),
            json!("lost"),
        ),
        (faults::DATABASE_WONT_OPEN, "see no database: UnknownError", local("getItem('a')"), json!("well")),
        (
            faults::DATABASE_THROWS,
            "errors-ok did not allow mutations | screen test",
            local("getItem('a')"),
            json!("well"),
        ),
        (
            faults::NO_DATABASE,
            "errors-ok Cannot read properties | errors-ok indexedDB is undefined | errors-ok undefined is not an object | screen test",
            "typeof indexedDB".to_string(),
            json!("undefined"),
        ),
        (faults::NO_LOCAL_STORAGE, "fig kept = 0", local("length"), json!("SecurityError")),
        (faults::FULL_LOCAL_STORAGE, "fig kept = 0", local("setItem('a', 'b')"), json!("QuotaExceededError")),
    ];
    for (fault, script, then, is) in cases {
        let mut stage = stage().await?;
        stage.phone.inject(fault).await?;
        stage.check("fault", &format!("open | {script}")).await?;
        assert_eq!(stage.phone.eval(&then).await?, is, "{fault}");
        match fault {
            faults::FULL => stage.check("room again", "tap keep | fig kept = 1").await?,
            faults::LOSABLE_DATABASE => {
                stage.check("lost", "errors-ok connection is closing | errors-ok closed database | errors-ok is not open | tap keep | fig kept = 1").await?
            }
            _ => {}
        }
    }
    Ok(())
}

#[tokio::test]
async fn a_private_window_forgets_and_a_slow_phone_goes_on() -> Result<()> {
    needs!(Protocol);
    let kind = PhoneKind { private: true, user_agent: Some("Test Phone".to_string()), ..PhoneKind::default() };
    let mut stage = Stage::of(site()?, kind).await?;
    stage.check("private", "open | fig kept = 0 | tap keep | fig kept = 1 | kill | fig kept = 0").await?;
    assert_eq!(stage.phone.eval("navigator.userAgent").await?, json!("Test Phone"));
    // How slow is for a benchmark to say.
    stage.phone.slow_cpu(4.0).await?;
    stage.check("slow", "reload | tap left | fig taps = 1").await?;
    Ok(())
}

#[tokio::test]
async fn barriers_are_found() -> Result<()> {
    let mut stage = stage().await?;
    stage.check("none", "open | screen test | axe | dark | axe").await?;
    stage.phone.eval("document.querySelector('[data-key=left]').textContent = ''").await?;
    let found = stage.phone.axe().await?;
    assert!(found.len() == 1 && found[0].contains("button-name") && found[0].contains("left"), "{found:?}");
    match stage.check("one", "axe").await {
        Err(Error::Step { step, number: 1, .. }) => assert_eq!(step, "axe"),
        other => panic!("answered by {other:?}"),
    }
    Ok(())
}

#[tokio::test]
async fn tabs_hide_each_other_and_windows_do_not() -> Result<()> {
    needs!(HiddenTabs);
    let mut stage = stage().await?;
    stage
        .check(
            "tabs",
            "open | fig kept = 0 | tap keep | fig kept = 1 | tab 2 | open | fig kept = 1 | tap keep | fig kept = 2",
        )
        .await?;
    assert_eq!(stage.phone.eval("document.visibilityState").await?, json!("visible"));
    stage.phone.second_window().await?;
    stage.check("a window", "open | fig kept = 2 | tap keep | fig kept = 3 | tab 2 | tap left | fig taps = 1").await?;
    Ok(())
}

#[tokio::test]
async fn files_go_in_and_out() -> Result<()> {
    let mut stage = stage().await?;
    stage.phone.open("").await?;
    let download = "(() => { const a = document.createElement('a'); a.download = 'out.txt';
        a.href = URL.createObjectURL(new Blob(['hello court'])); document.body.append(a); a.click(); })()";
    stage.phone.eval(download).await?;
    let file = stage.phone.wait_download("named out.txt", |name| name == "out.txt").await?;
    assert_eq!(std::fs::read_to_string(&file).expect("the download"), "hello court");
    stage.check("in", &format!("file file = {} | fig said = hello court", file.display())).await
}

#[tokio::test]
async fn a_sub_path_is_served_like_a_static_host_does() -> Result<()> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/harness_page");
    let site = Site::start_under(folder, "club/tally")?;
    assert!(site.base().ends_with("/club/tally/"));
    let mut stage = Stage::of(site, PhoneKind::default()).await?;
    stage.check("below a path", "open | screen test | tap left | fig taps = 1").await?;
    let statuses =
        "Promise.all(['/', 'none', '/club/tally', 'page.js', '%2e%2e/x'].map(p => fetch(p).then(r => r.status)))";
    assert_eq!(stage.phone.eval(statuses).await?, json!([404, 404, 200, 200, 404]));
    Ok(())
}
