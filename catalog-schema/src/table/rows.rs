//! What the rows of a table are, by its head.

use super::{
    head::guess,
    listed::{of_shelf, of_stand},
    sheet::Sheet,
};
use crate::diagnostic::Diagnostic;

/// What the rows of a table are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rows {
    /// Parts and kits.
    Articles,
    /// What lies on a shelf.
    Shelf,
    /// Steps of a thrust stand.
    Stand,
}

/// What the head of a table says that its rows are: what names an article or its kind holds articles; thrust at a step is a
/// stand's; a part with its count is the shelf's.
///
/// ```
/// use propwright_schema::table::{Rows, rows_of};
/// assert_eq!(rows_of("a.csv", "Throttle;Thrust\n100;1510\n"), Ok(Rows::Stand));
/// assert_eq!(rows_of("b.csv", "Part;Quantity\npack-4s;2\n"), Ok(Rows::Shelf));
/// assert_eq!(rows_of("c.csv", "Name;KV\nMoorhen;1820\n"), Ok(Rows::Articles));
/// ```
///
/// # Errors
/// When the text is no table.
pub fn rows_of(file: &str, text: &str) -> Result<Rows, Vec<Diagnostic>> {
    // The head alone, below remarks, decides.
    let first = text.lines().find(|line| !line.trim().is_empty() && !line.starts_with('#')).unwrap_or_default();
    let sheet = Sheet::read(file, first)?;
    let head = sheet.head();
    let holds =
        |fields: &[Option<String>], names: &[&str]| names.iter().all(|name| fields.iter().flatten().any(|field| field == name));
    let articles = guess(head).fields;
    Ok(if holds(&articles, &["name"]) || holds(&articles, &["kind"]) {
        Rows::Articles
    } else if holds(&of_stand(head).fields, &["thrust_gf"]) {
        Rows::Stand
    } else if holds(&of_shelf(head).fields, &["part", "count"]) {
        Rows::Shelf
    } else {
        Rows::Articles
    })
}
