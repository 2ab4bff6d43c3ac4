//! What a part, a kit, a catalogue, a build list, a shelf, a file of rates and a policy are, and how they are read from text and written back.
//!
//! No file is opened here: text comes in, text goes out. A figure that nobody published is absent, never zero.

pub mod build_list;
pub mod catalogue;
mod description;
pub mod diagnostic;
pub mod estimate;
pub mod first;
pub mod kit;
pub mod load;
pub mod look_up;
pub mod measured;
mod outline;
pub mod part;
pub mod pattern;
pub mod quantity;
pub mod rates;
pub mod save;
pub mod slot;
pub mod stock;
pub mod table;
pub mod thresholds;
pub mod typed;
pub mod validate;
pub mod value;
pub mod version;

/// How text is read: `Some` is left out around published figures, and a role's fields stand directly in its brackets.
pub fn ron_options() -> ron::Options {
    let extensions = ron::extensions::Extensions::IMPLICIT_SOME | ron::extensions::Extensions::UNWRAP_VARIANT_NEWTYPES;
    ron::Options::default().with_default_extension(extensions)
}
