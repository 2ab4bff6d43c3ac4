//! Rows that cannot be used: kept as they were, with what is wrong.

use crate::diagnostic::Diagnostic;

/// A row that cannot be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RefusedRow {
    /// Line of the table, counted from 1.
    pub line: u32,
    /// Its cells as they were.
    pub cells: Vec<String>,
    /// All that is wrong with it.
    pub problems: Vec<Diagnostic>,
    /// Does it only not say what is needed? Else something in it is wrong.
    pub unsaid: bool,
}

/// Head of the column that says what is wrong; it is left out when such a table is read again.
const PROBLEM: &str = "problem";

/// Refused rows as a table of their own, with what is wrong in a last column: mended, it can be read again. A cell that a
/// spreadsheet would take for a formula stands behind an apostrophe, which reading takes off again.
///
/// # Errors
/// When the writer refuses, which it does for nothing that was read.
pub fn set_aside(head: &[String], refused: &[RefusedRow]) -> Result<String, csv::Error> {
    let again = head.last().is_some_and(|last| last.trim() == PROBLEM);
    let head = if again { &head[..head.len() - 1] } else { head };
    let mut writer = csv::WriterBuilder::new().flexible(true).from_writer(Vec::new());
    writer.write_record(head.iter().map(|name| unarmed(name)).chain(std::iter::once(PROBLEM.to_owned())))?;
    for row in refused {
        let problems: Vec<String> = row.problems.iter().map(told).collect();
        let mut cells: Vec<String> = row.cells.iter().map(|cell| unarmed(cell)).collect();
        if again {
            cells.truncate(head.len());
        }
        cells.resize(cells.len().max(head.len()), String::new());
        cells.push(unarmed(&problems.join(" / ")));
        writer.write_record(&cells)?;
    }
    let bytes = writer.into_inner().map_err(|error| std::io::Error::other(error.to_string()))?;
    String::from_utf8(bytes).map_err(|error| std::io::Error::other(error.to_string()).into())
}

/// A cell from elsewhere that no spreadsheet takes for a formula; one behind an apostrophe already stays.
fn unarmed(cell: &str) -> String {
    if cell.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{cell}") } else { cell.to_owned() }
}

fn told(problem: &Diagnostic) -> String {
    let field = problem.field.as_deref().unwrap_or_default();
    format!("{field}: {} ({})", problem.reason, problem.hint.as_deref().unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(cells: &[&str], reason: &str) -> RefusedRow {
        let problem = Diagnostic {
            file: "t.csv".to_owned(),
            line: 2,
            column: 1,
            part: None,
            field: Some("name".to_owned()),
            reason: reason.to_owned(),
            hint: Some("write it".to_owned()),
        };
        let cells = cells.iter().map(|cell| (*cell).to_owned()).collect();
        RefusedRow { line: 2, cells, problems: vec![problem], unsaid: false }
    }

    #[test]
    fn a_formula_set_aside_is_none_any_more() {
        let head = ["name".to_owned(), "note".to_owned()];
        let text = set_aside(&head, &[refused(&["=HYPERLINK(\"x\")", "'-5"], "bad")]).unwrap();
        assert_eq!(text, "name,note,problem\n\"'=HYPERLINK(\"\"x\"\")\",'-5,name: bad (write it)\n");
    }

    #[test]
    fn set_aside_again_there_is_one_column_of_problems() {
        let head = ["name".to_owned(), PROBLEM.to_owned()];
        let text = set_aside(&head, &[refused(&["A", "name: old (x)"], "new"), refused(&["B"], "new")]).unwrap();
        assert_eq!(text, "name,problem\nA,name: new (write it)\nB,name: new (write it)\n");
    }
}
