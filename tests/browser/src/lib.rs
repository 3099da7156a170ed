//! Drives the release build in a real browser (Chromium, Firefox or WebKit), as a phone: this crate owns the phone, the server it loads the app from,
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
//! | module     | in reading order                                              |
//! |------------|---------------------------------------------------------------|
//! | `error`    | what can go wrong, in sentences                               |
//! | `engine`   | which of three engines, and what it can't do                  |
//! | `site`     | the static file server: stops, starts, changes a file, counts |
//! | `http`     | the few lines of HTTP that the server needs                   |
//! | `listen`   | a port that closes with everything open on it                 |
//! | `front`    | before the site, for engines without scripts before a page    |
//! | `gate`     | notices whatever the browser asks of any other host           |
//! | `folder`   | a phone's own folder: profile, downloads                      |
//! | `display`  | a display without a screen, for WebKit's window               |
//! | `process`  | starts driver and browser, and ends exactly those             |
//! | `driver`   | the engine's driver, started again if it ends at once         |
//! | `start`    | what each engine is told when it starts                       |
//! | `phone`    | the phone: starts, opens, dies, comes back                    |
//! | `pose`     | what is put on it: size, dark, slow, clock, scripts           |
//! | `eval`     | running a script in the page                                  |
//! | `look`     | reading the page and waiting for it                           |
//! | `touch`    | thumbs, typing                                                |
//! | `keyboard` | keys, pressed and held                                        |
//! | `watch`    | console errors, requests, accessibility                       |
//! | `faults`   | scripts that make storage fail or record its use              |
//! | `window`   | WebKit's window without a driver, to be killed                |
//! | `film`     | moving codes, and the film of them for a camera               |
//! | `script`   | the text form of a test                                       |
//! | `check`    | runs such a script                                            |

mod check;
mod display;
mod driver;
mod engine;
mod error;
mod eval;
pub mod faults;
pub mod film;
mod folder;
mod front;
mod gate;
mod http;
mod keyboard;
mod listen;
mod look;
mod phone;
mod pose;
mod process;
mod script;
mod site;
mod start;
mod touch;
mod watch;
mod window;

pub use check::{Stage, check};
pub use engine::{Can, Engine, leaves_out, tell};
pub use error::{Error, Result};
pub use http::Request;
pub use phone::{Phone, PhoneKind};
pub use pose::Screen;
pub use process::Killer;
pub use script::{Step, parse};
pub use site::Site;
pub use watch::Transaction;
pub use window::{Home, Window, n_kills};
