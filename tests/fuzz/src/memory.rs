//! Counts what is allocated, and the most that was allocated at once since it was asked to begin.

use std::alloc::{GlobalAlloc, Layout, System};
use std::sync::atomic::{AtomicUsize, Ordering::Relaxed};

pub struct Counted;

static NOW: AtomicUsize = AtomicUsize::new(0);
static MOST: AtomicUsize = AtomicUsize::new(0);

fn more(n: usize) {
    let now = NOW.fetch_add(n, Relaxed) + n;
    MOST.fetch_max(now, Relaxed);
}

// Safety: as the system's own; the counters allocate nothing.
unsafe impl GlobalAlloc for Counted {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        more(layout.size());
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, at: *mut u8, layout: Layout) {
        NOW.fetch_sub(layout.size(), Relaxed);
        unsafe { System.dealloc(at, layout) }
    }

    unsafe fn realloc(&self, at: *mut u8, layout: Layout, size: usize) -> *mut u8 {
        // Old and new may both be there for a moment.
        more(size);
        NOW.fetch_sub(layout.size(), Relaxed);
        unsafe { System.realloc(at, layout, size) }
    }
}

/// Does something, and gives the most bytes that were allocated for it at once.
pub fn most<T>(what: impl FnOnce() -> T) -> (T, usize) {
    let before = NOW.load(Relaxed);
    MOST.store(before, Relaxed);
    let done = what();
    (done, MOST.load(Relaxed).saturating_sub(before))
}
