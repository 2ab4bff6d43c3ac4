//! The text of a table: a head and rows, whatever the columns mean.

use csv::{ReaderBuilder, StringRecord};

use crate::diagnostic::Diagnostic;

/// A table as text: a head and rows of cells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    file: String,
    head: Vec<String>,
    records: Vec<Record>,
}

/// A row with its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Record {
    /// Line of the text, counted from 1.
    pub(super) line: u32,
    pub(super) cells: StringRecord,
    /// Does a quotation mark open in it that nothing closes? It then holds all that follows.
    pub(super) torn: bool,
}

/// What to do about a text that is no table.
const AS_CSV: &str = "save the spreadsheet as CSV in UTF-8";

impl Sheet {
    /// Parts a text into cells. Columns are parted by commas, semicolons or tabs, whichever the head holds most of; empty rows
    /// are left out.
    ///
    /// ```
    /// use propwright_schema::table::Sheet;
    /// let sheet = Sheet::read("shop.csv", "Name;Weight\nA;31,9\n\n").unwrap();
    /// assert_eq!((sheet.rows(), sheet.sample(1)), (1, Some("31,9")));
    /// ```
    ///
    /// # Errors
    /// When the text is no table, or has no head.
    pub fn read(file: &str, text: &str) -> Result<Self, Vec<Diagnostic>> {
        Self::parted(file, text, None)
    }

    /// The same of a table in which lines that begin with `#` are remarks.
    pub(super) fn with_remarks(file: &str, text: &str) -> Result<Self, Vec<Diagnostic>> {
        Self::parted(file, text, Some(b'#'))
    }

    fn parted(file: &str, text: &str, remark: Option<u8>) -> Result<Self, Vec<Diagnostic>> {
        let text = text.trim_start_matches('\u{feff}');
        let is_remark = |line: &&str| line.trim().is_empty() || remark.is_some() && line.bytes().next() == remark;
        let first = text.lines().find(|line| !is_remark(line)).unwrap_or_default();
        let many = |sign: &u8| first.bytes().filter(|byte| byte == sign).count();
        let parter = [b',', b';', b'\t'].into_iter().max_by_key(|sign| (many(sign), *sign == b','));
        let mut reader = ReaderBuilder::new();
        reader.delimiter(parter.unwrap_or(b',')).comment(remark).flexible(true);
        let mut reader = reader.from_reader(text.as_bytes());
        let head: Vec<String> = match reader.headers() {
            Ok(head) => head.iter().map(str::to_owned).collect(),
            Err(error) => return Err(problem(file, 1, format!("this is no table: {error}"), AS_CSV)),
        };
        if head.iter().all(|name| name.trim().is_empty()) {
            return Err(problem(file, 1, "the table has no head".to_owned(), "name the columns in the first line"));
        }
        let mut records = Vec::new();
        for record in reader.records() {
            let cells = record.map_err(|error| problem(file, 2, format!("this is no table: {error}"), AS_CSV))?;
            let (line, start) = cells.position().map_or((1, 0), |place| (place.line(), place.byte()));
            let rest = text.get(usize::try_from(start).unwrap_or(0)..).unwrap_or_default();
            if cells.iter().any(|cell| !cell.trim().is_empty()) {
                let torn = is_torn(&cells, rest, head.len());
                let line = u32::try_from(line).unwrap_or(u32::MAX).saturating_add(lines_above(rest, remark));
                records.push(Record { line, cells, torn });
            }
        }
        Ok(Self { file: file.to_owned(), head, records })
    }

    /// The name by which problems call the table.
    pub fn file(&self) -> &str {
        &self.file
    }

    /// The words over the columns, as they are.
    pub fn head(&self) -> &[String] {
        &self.head
    }

    /// How many rows there are.
    pub const fn rows(&self) -> usize {
        self.records.len()
    }

    /// The first cell of a column that holds something.
    pub fn sample(&self, column: usize) -> Option<&str> {
        self.records.iter().filter_map(|record| record.cells.get(column)).map(str::trim).find(|cell| !cell.is_empty())
    }

    pub(super) fn records(&self) -> &[Record] {
        &self.records
    }
}

/// The reader counts a row from the empty lines and remarks above it: how many these are.
fn lines_above(rest: &str, remark: Option<u8>) -> u32 {
    let above = |line: &&str| line.is_empty() || remark.is_some() && line.bytes().next() == remark;
    u32::try_from(rest.lines().take_while(above).count()).unwrap_or(u32::MAX)
}

/// A cell with a line break, or a row cut short, behind a quotation mark that has no fellow up to the end of the text.
fn is_torn(cells: &StringRecord, rest: &str, columns: usize) -> bool {
    let odd = || rest.bytes().filter(|byte| *byte == b'"').count() % 2 == 1;
    (cells.len() < columns || cells.iter().any(|cell| cell.contains('\n'))) && odd() && ends_with(cells, rest)
}

/// Is the last cell what the text ends with?
fn ends_with(cells: &StringRecord, rest: &str) -> bool {
    let last = cells.get(cells.len().saturating_sub(1)).unwrap_or_default();
    rest.trim_end().replace("\"\"", "\"").ends_with(last.trim_end())
}

fn problem(file: &str, line: u32, reason: String, hint: &str) -> Vec<Diagnostic> {
    let (file, hint) = (file.to_owned(), Some(hint.to_owned()));
    vec![Diagnostic { file, line, column: 1, part: None, field: None, reason, hint }]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sign_between_columns_is_that_of_the_head() {
        for text in ["a;b\n1,5;2\n", "a\tb\n1,5\t2\n", "\u{feff}a,b\n\"1,5\",2\n"] {
            let sheet = Sheet::read("t.csv", text).unwrap();
            assert_eq!((sheet.head(), sheet.sample(0)), (&["a".to_owned(), "b".to_owned()][..], Some("1,5")), "{text}");
        }
        assert!(Sheet::read("t.csv", "").is_err() && Sheet::read("t.csv", ",,\n1,2,3\n").is_err());
    }

    #[test]
    fn a_mark_that_nothing_closes_is_noticed() {
        let torn = |text: &str| Sheet::read("t.csv", text).unwrap().records().iter().map(|row| row.torn).collect::<Vec<_>>();
        assert_eq!(torn("a,b\n1,2\n\"3,4\n5,6\n"), [false, true]);
        assert_eq!(torn("a,b\n\"1\n2\",2\n5\",6\n"), [false, false], "a line break in quotation marks, an inch sign");
        assert_eq!(torn("a,b\n1\n5\",6\n"), [false, false], "a short row above an inch sign");
    }

    #[test]
    fn remarks_are_left_out_where_they_are_known() {
        let text = "# stand of May\na;b\n1;2\n# pause\n3;4\n";
        let lines = |sheet: Sheet| sheet.records().iter().map(|row| row.line).collect::<Vec<_>>();
        assert_eq!(lines(Sheet::with_remarks("t.csv", text).unwrap()), [3, 5]);
        assert_eq!(lines(Sheet::read("t.csv", text).unwrap()), [2, 3, 4, 5]);
        assert_eq!(lines(Sheet::read("t.csv", "a\r\n\r\n\n1\n \n2\n").unwrap()), [4, 6], "behind empty lines");
    }
}
