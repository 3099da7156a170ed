//! What is seldom done stands by itself in the program. A browser translates a function whole when it is first called, and makes room for all it
//! might hold at every call; where everything that may be asked for is one function, the first tap and the first screen wait for all of it.

/// Does it, and is never made a part of whoever asks for it.
#[inline(never)]
pub fn apart<T>(work: impl FnOnce() -> T) -> T {
    work()
}
