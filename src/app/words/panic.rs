//! The last screen, after a fault of the app itself.

pub const HEADING: &str = "Something in the app broke";
pub const SAFE: &str =
    "Everything shown as saved is stored on this phone. The last tap may be missing. Load the app again and go on.";
pub const RELOAD: &str = "Load again";
