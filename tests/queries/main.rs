//! What a filled logbook says when it is asked: lists, the rack, timelines, the trace, search, and
//! the whole of it as lines of JSON, out and in.

mod darkroom;
mod json_lines;
mod lists;
mod rack;
mod search;
mod timeline;
mod trace;
