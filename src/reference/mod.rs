//! What the trade has published, read from `assets/`.
