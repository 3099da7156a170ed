//! Drives the release build in a real browser.
