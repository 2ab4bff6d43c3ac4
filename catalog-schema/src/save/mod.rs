//! Types to text. Records that were not edited keep their bytes, comments between records stay where they are, and an edited
//! record changes only in the fields that were edited.
//!
//! What was loaded and what shall be saved are both put into the shortest text of their kind, and the two are compared: where
//! they agree, the file's own bytes stay; where they differ, the new value is written in the file's habit. The result is read
//! back before it is handed out.

mod layout;
mod matching;
mod splice;

use serde::{Serialize, de::DeserializeOwned};

use crate::{build_list::BuildList, catalogue::CatalogueFile, rates::Rates, ron_options, stock::Stock};

/// Why a value could not be put into text; the file on disk is then better left as it is.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SaveError {
    /// The serialiser refused.
    #[error("the content could not be put into text: {0}")]
    Unwritable(#[from] ron::Error),
    /// The text, read again, says something else.
    #[error("the text written does not read as the content that it was made from")]
    Unlike,
}

/// The text of a catalogue. `original` is the text from which `before` was loaded, `None` for a new file.
///
/// # Errors
/// When the content does not survive the way to text and back; never for what was loaded or passes the checks.
pub fn write_catalogue(original: Option<&str>, before: &CatalogueFile, after: &CatalogueFile) -> Result<String, SaveError> {
    write(original, before, after)
}

/// The text of a build list. `original` is the text from which `before` was loaded, `None` for a new file.
///
/// # Errors
/// When the content does not survive the way to text and back; never for what was loaded or passes the checks.
pub fn write_build(original: Option<&str>, before: &BuildList, after: &BuildList) -> Result<String, SaveError> {
    write(original, before, after)
}

/// The text of a shelf. `original` is the text from which `before` was loaded, `None` for a new file.
///
/// # Errors
/// When the content does not survive the way to text and back; never for what was loaded or passes the checks.
pub fn write_stock(original: Option<&str>, before: &Stock, after: &Stock) -> Result<String, SaveError> {
    write(original, before, after)
}

/// The text of exchange rates. `original` is the text from which `before` was loaded, `None` for a new file.
///
/// # Errors
/// When the content does not survive the way to text and back; never for what was loaded or passes the checks.
pub fn write_rates(original: Option<&str>, before: &Rates, after: &Rates) -> Result<String, SaveError> {
    write(original, before, after)
}

fn write<T: Serialize + DeserializeOwned + PartialEq>(
    original: Option<&str>,
    before: &T,
    after: &T,
) -> Result<String, SaveError> {
    let after_text = ron_options().to_string(after)?;
    let same = |text: &String| ron_options().from_str::<T>(text).is_ok_and(|read| read == *after);
    if let Some(original) = original {
        let before_text = ron_options().to_string(before)?;
        let spliced = splice::file(original, &before_text, &after_text);
        if same(&spliced) {
            return Ok(spliced);
        }
    }
    Some(layout::file(&after_text)).filter(same).ok_or(SaveError::Unlike)
}
