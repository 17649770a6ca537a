//! The SQLite store: append, fold, query, trace, search, rebuild.
