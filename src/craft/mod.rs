//! Figures of the trade: pure functions and typed quantities.
