//! Mounts the app, nothing else.

use leptos::prelude::*;
use peppertally::{runtime, ui};

fn main() {
    let root = runtime::start();
    let shell = ui::shell::Shell::new(root.model, root.act, root.open_file);
    leptos::mount::mount_to_body(move || view! { <ui::App shell=shell /> });
    runtime::open();
}
