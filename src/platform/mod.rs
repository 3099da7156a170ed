//! The phone: clock, device, files and sharing, voice, sound, vibration, wake lock, app update. Knows no entry and no
//! screen. Every call says what happened; whatever a browser may lack is asked for by name first.

pub mod app_update; // how the offline worker stands, and the coach's consent to a new version
pub mod beside; // a text that lies beside the app
pub mod camera; // its picture, live and read
pub mod channel; // messages between tabs
pub mod clock; // wall time, monotonic time, random bits
pub mod device; // what kind of phone, how it shows the app, lasting storage, vibration
pub mod files; // downloading, sharing, reading a chosen file
pub mod hash; // the browser's own SHA-256
pub mod locks; // one holder among all tabs
pub mod page; // shown, hidden, left; its address; reload
pub mod panic; // the last screen
pub mod picture; // a sheet drawn as a picture
pub mod sound; // four short tones
pub mod squares; // black and white on a canvas
pub mod timer; // ticks for the page's life
pub mod voice; // the phone's own voice
pub mod wake_lock; // the screen stays on
pub mod ways_in; // files dropped, opened with the app, shared with it
pub mod worker; // a second program beside the page

mod js; // asking an object for what it may not have

pub use js::Fault;
