//! Mounts the app, nothing else.
fn main() {
    leptos::mount::mount_to_body(|| leptos::prelude::view! { <p>"Peppertally"</p> });
}
