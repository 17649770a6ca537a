//! The domain: entries, the life of each thing, the order of states, the refusals.
