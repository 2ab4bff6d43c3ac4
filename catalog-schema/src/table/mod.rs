//! Catalogues as tables for spreadsheets (CSV, RFC 4180): one row a role of a part, one row a kit, and back.
//!
//! A table that this program wrote reads as the same catalogue. A table from elsewhere is read by a [`Mapping`] from its columns
//! to fields, guessed from the head and changed by the user; each row that cannot be used is kept aside with every problem.

mod aside;
pub(crate) mod cell;
mod duplicate;
mod head;
mod listed;
mod merge;
mod read;
mod row;
mod rows;
mod sheet;
mod write;

pub use aside::{RefusedRow, set_aside};
pub use duplicate::{Duplicate, duplicates};
pub use head::{Mapping, columns, guess};
pub use listed::{Listed, read_stand, read_stock, write_stand, write_stock};
pub use merge::{Merged, Same, merge};
pub use read::{Import, Imported, TakenRow};
pub use rows::{Rows, rows_of};
pub use sheet::Sheet;
pub use write::{harmless, write_catalogue};

use crate::{
    validate::Remark,
    value::{Field, Value},
};

/// The value of one cell for a field, by which what is typed elsewhere is read too.
///
/// # Errors
/// What is wrong with the cell, and what to do about it.
pub fn cell_value(text: &str, field: &Field) -> Result<Value, Remark> {
    cell::read(text, field, None).map_err(|cell::Fault { reason, hint }| Remark { reason, hint })
}

/// A value as it would be typed into a cell.
pub(crate) fn cell_text(value: &Value) -> String {
    cell::written(value)
}

/// Columns that every kind has, in the order of a written table; `contents` is a kit's.
const ARTICLE: [&str; 17] = [
    "id",
    "name",
    "maker",
    "mass_g",
    "price",
    "priced_on",
    "supplier",
    "link",
    "pieces",
    "retired",
    "source",
    "sources",
    "basis",
    "typed",
    "earlier_prices",
    "note",
    CONTENTS,
];
/// The column that says what is in the box of a kit.
const CONTENTS: &str = "contents";
/// The column that says what a row is.
const KIND: &str = "kind";
/// The kind of a row that is a kit.
const KIT: &str = "kit";
