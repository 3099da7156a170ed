//! Mounts the app, and fetches what comes after its first screen; nothing else.

use std::time::Duration;

use leptos::prelude::*;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use peppertally::ui::bulk::{self, Bulk};
use peppertally::{runtime, ui};

fn main() {
    let root = runtime::start();
    let shell = ui::shell::Shell::new(root.model, root.act, root.open_file);
    let bulk = Bulk::fetched_by(fetch);
    leptos::mount::mount_to_body(move || view! { <ui::App shell bulk /> });
    runtime::open();
    bulk.fetch();
}

/// The screens, and what changes the model and carries out what comes of it.
struct Parts {
    draw: bulk::Draw,
    engine: runtime::Engine,
}

/// The cut: what is named in here and nowhere before lies in a bundle of its own.
#[wasm_split(bulk, wasm_split_path = ::leptos::wasm_split, fallible)]
fn bulk_of_the_app() -> Result<Parts, SplitLoaderError> {
    Ok(Parts { draw: bulk::draw, engine: runtime::engine })
}

/// A host that doesn't answer is told of after so long.
const LATE: Duration = Duration::from_secs(20);

fn fetch(bulk: Bulk) {
    set_timeout(move || bulk.is_late(), LATE);
    leptos::task::spawn_local(async move {
        let come = bulk_of_the_app().await;
        let whole = come.is_ok();
        match come {
            Ok(parts) => {
                // First what waits is done, so that the screens find the model as it is.
                runtime::goes_on_with(parts.engine);
                bulk.is_here(parts.draw);
            }
            Err(why) => {
                leptos::logging::warn!("not everything has arrived: {why}");
                bulk.has_failed();
            }
        }
        runtime::arrived(whole);
    });
}
