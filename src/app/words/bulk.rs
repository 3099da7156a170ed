//! Of what comes after the first screen: it is on its way, or did not arrive.

pub const COMING: &str = "One moment";
pub const COMING_LINE: &str = "The rest of the app is on its way.";
pub const NOT_ARRIVED: &str = "Not all is here yet";
pub const NOT_ARRIVED_LINE: &str = "The signal may be weak here. Nothing recorded on this phone is lost. Once the whole app is on the phone, it needs no signal.";
pub const FETCH_AGAIN: &str = "Try again";
