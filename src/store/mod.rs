//! IndexedDB and local storage: bytes in, bytes out. Knows no entry.
