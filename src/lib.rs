//! Peppertally: a tap tally for youth volleyball practice. The code map, in reading order.
