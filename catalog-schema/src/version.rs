//! The version of the file's form. A file of a later version is refused, an earlier one is read into the current types.

/// The version that this program writes.
pub const CURRENT: u32 = 1;
