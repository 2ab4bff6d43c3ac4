//! What the tests of the whole share - a command line that is run within the test, a folder of its own for each test, the
//! demo builds read, builds near them - and the generated parts of the documents.

#![expect(clippy::unwrap_used, clippy::missing_panics_doc, reason = "a test that cannot prepare its files has failed")]

pub mod class_table;
pub mod command_line;
pub mod documents;
pub mod many_parts;
pub mod near;
pub mod near_builds;
pub mod propellers;
pub mod sample;
pub mod scratch;
pub mod suite;
pub mod unpublished;
