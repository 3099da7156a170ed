//! The worker's program: serves jobs, nothing else.

fn main() {
    peppertally::beside::jobs::serve();
}
