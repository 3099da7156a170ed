//! Drives the release build in a real Chromium, as a phone: this crate owns the phone, the server it loads the app from,
//! and the short text form in which browser tests are written. It knows nothing of the app but three attributes:
//! `data-screen` on a screen's root, `data-key` on everything that can be tapped, `data-fig` on every live figure
//! (and `data-field` on what is typed into). It refuses to wait for seconds: it waits for conditions, with a limit.
//!
//! A browser can be told that it is offline, but that doesn't reach its service worker. So offline means here that the
//! server is stopped ([`Site::stop`]).
//!
//! ```no_run
//! # async fn example() -> browser_tests::Result<()> {
//! browser_tests::check("ten good passes", "open | tap drill.passing | tap pass.1.3 x 10 | see saved | fig tries = 10").await
//! # }
//! ```
//!
//! | module    | in reading order                                              |
//! |-----------|---------------------------------------------------------------|
//! | `error`   | what can go wrong, in sentences                               |
//! | `site`    | the static file server: stops, starts, changes a file, counts |
//! | `http`    | the few lines of HTTP that the server needs                   |
//! | `listen`  | a port that closes with everything open on it                 |
//! | `gate`    | notices whatever the browser asks of any other host           |
//! | `process` | starts driver and browser, and ends exactly those             |
//! | `phone`   | the phone: starts, opens, dies, comes back                    |
//! | `pose`    | what is put on it: size, dark, slow, clock, scripts           |
//! | `look`    | reading the page and waiting for it                           |
//! | `touch`   | thumbs, keys, typing                                          |
//! | `watch`   | console errors, requests, accessibility                       |
//! | `faults`  | scripts that make storage fail or record its use              |
//! | `script`  | the text form of a test                                       |
//! | `check`   | runs such a script                                            |

mod check;
mod error;
pub mod faults;
mod gate;
mod http;
mod listen;
mod look;
mod phone;
mod pose;
mod process;
mod script;
mod site;
mod touch;
mod watch;

pub use check::{Stage, check};
pub use error::{Error, Result};
pub use http::Request;
pub use phone::{Phone, PhoneKind};
pub use pose::Screen;
pub use process::Killer;
pub use script::{Step, parse};
pub use site::Site;
pub use watch::Transaction;
