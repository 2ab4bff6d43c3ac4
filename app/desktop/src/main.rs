//! Opens the window or answers a command.
fn main() {}
