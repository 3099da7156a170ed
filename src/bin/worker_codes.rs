//! The program of the worker of codes: makes and reads them, nothing else.

fn main() {
    peppertally::beside::codes::serve();
}
