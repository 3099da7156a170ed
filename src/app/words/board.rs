//! Labels of the board.
