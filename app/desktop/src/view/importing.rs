//! The rows of a table on its way into a catalogue, as they are drawn.

use std::collections::BTreeMap;

use propwright_schema::table::{Duplicate, Imported};

/// What becomes of one row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableRow {
    /// Line of the table, counted from 1.
    pub line: u32,
    /// Id of its article; of a row that is refused "refused".
    pub id: String,
    /// What is said of it.
    pub words: String,
    /// Is it there already?
    pub known: bool,
    /// Can it not be used?
    pub refused: bool,
}

/// The rows in the order of the table; only those that are refused or there already where that is asked.
pub fn table_rows(read: &Imported, same: &[Duplicate], only_doubtful: bool) -> Vec<TableRow> {
    let known: BTreeMap<(&str, bool), &Duplicate> = same.iter().map(|one| ((one.part.as_str(), one.kit), one)).collect();
    let taken = read.taken.iter().map(|row| {
        let same = known.get(&(row.id.as_str(), row.kit)).filter(|_| !row.further);
        let words = match same {
            None if row.further => "a further role of the part above".to_owned(),
            None => "new".to_owned(),
            Some(one) if one.part == one.known => "there already".to_owned(),
            Some(one) => format!("looks like {}, which is there", one.known),
        };
        TableRow { line: row.line, id: row.id.clone(), words, known: same.is_some(), refused: false }
    });
    let refused = read.refused.iter().map(|row| {
        let problems = row.problems.iter().map(|problem| {
            let field = problem.field.as_deref().map_or_else(String::new, |field| format!("{field}: "));
            let hint = problem.hint.as_deref().map_or_else(String::new, |hint| format!("; {hint}"));
            format!("{field}{}{hint}", problem.reason)
        });
        let words = problems.collect::<Vec<_>>().join(" · ");
        TableRow { line: row.line, id: "refused".to_owned(), words, known: false, refused: true }
    });
    let mut all: Vec<TableRow> = taken.chain(refused).collect();
    all.sort_by_key(|row| row.line);
    all.retain(|row| !only_doubtful || row.refused || row.known);
    all
}
