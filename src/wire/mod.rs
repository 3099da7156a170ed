//! Versioned JSON: the record of one entry, the file of a whole copy. Types of their own, converted to and from `domain`.
