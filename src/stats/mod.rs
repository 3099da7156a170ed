//! Pure numbers. Knows no volleyball, no browser, no time.
