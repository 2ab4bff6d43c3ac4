//! Rows of a thrust stand from a table as spreadsheets write it.
//!
//! The first line names the columns by the fields of [`StandRow`] in any order: `output_percent,volts_v,current_a,speed_rpm,thrust_gf`, and
//! `motor` and `propeller` where the table holds several. Cells are parted by commas, semicolons or tabs; beside semicolons and
//! tabs a comma is a decimal point. Empty cells are not measured; lines that start with `#` and empty lines are left out.

use crate::{
    diagnostic::{Diagnostic, did_you_mean},
    measured::StandRow,
    quantity::{Quantity, Unit},
    validate,
    value::Record,
};

/// Reads a table of a thrust stand. `file` is the name by which problems call it.
///
/// ```
/// use propwright_schema::load::load_stand;
/// let rows = load_stand("stand.csv", "volts_v;current_a;speed_rpm;thrust_gf\n22,2;34,1;24100;1510\n").unwrap();
/// assert_eq!(rows[0].volts_v.unwrap().decimal(), 22.2);
/// ```
///
/// # Errors
/// Every problem of the table, in its order.
pub fn load_stand(file: &str, text: &str) -> Result<Vec<StandRow>, Vec<Diagnostic>> {
    let mut table = Table { file, parter: ',', columns: Vec::new(), problems: Vec::new() };
    let mut rows = Vec::new();
    for (line, content) in (1..).zip(text.lines()) {
        let content = content.trim_end_matches('\r');
        if content.trim().is_empty() || content.starts_with('#') {
            continue;
        }
        if table.columns.is_empty() {
            table.head(line, content);
        } else {
            rows.push(table.row(line, content));
        }
    }
    if rows.is_empty() && table.problems.is_empty() {
        table.problem((1, 1), None, "the table holds no row".to_owned(), "write a line of column names and a line a throttle");
    }
    if table.problems.is_empty() { Ok(rows) } else { Err(table.problems) }
}

struct Table<'t> {
    file: &'t str,
    parter: char,
    columns: Vec<&'static str>,
    problems: Vec<Diagnostic>,
}

impl Table<'_> {
    fn problem(&mut self, (line, column): (u32, u32), field: Option<&str>, reason: String, hint: &str) {
        let (file, field) = (self.file.to_owned(), field.map(str::to_owned));
        self.problems.push(Diagnostic { file, line, column, part: None, field, reason, hint: Some(hint.to_owned()) });
    }

    fn head(&mut self, line: u32, content: &str) {
        self.parter = [';', '\t'].into_iter().find(|parter| content.contains(*parter)).unwrap_or(',');
        for (place, name) in cells(content, self.parter) {
            let known = StandRow::FIELDS.iter().find(|field| field.name == name);
            if known.is_none() {
                let names = StandRow::FIELDS.iter().map(|field| field.name);
                let all = names.clone().collect::<Vec<_>>().join(", ");
                let hint = did_you_mean(name, names)
                    .map_or_else(|| format!("the columns are {all}"), |meant| format!("did you mean {meant}?"));
                self.problem((line, place), Some(name), format!("there is no column \"{name}\""), &hint);
            }
            self.columns.push(known.map_or("", |field| field.name));
        }
    }

    fn row(&mut self, line: u32, content: &str) -> StandRow {
        let mut row = StandRow::default();
        for (at, (place, cell)) in cells(content, self.parter).into_iter().enumerate() {
            let Some(name) = self.columns.get(at).copied() else {
                self.problem((line, place), None, format!("\"{cell}\" stands in no column"), "name the column in the first line");
                break;
            };
            if cell.is_empty() || name.is_empty() {
                continue;
            }
            let decimal = if self.parter == ',' { cell.to_owned() } else { cell.replace(',', ".") };
            if let Err(reason) = put(&mut row, name, cell, &decimal) {
                self.problem((line, place), Some(name), reason, "write the figure without its unit, such as 22.2");
            }
        }
        for issue in validate::stand_row(&row) {
            let field = issue.path.iter().find_map(|step| match step {
                validate::Step::Key(key) => Some(key.clone()),
                validate::Step::Item(_) => None,
            });
            self.problem((line, 1), field.as_deref(), issue.reason, &issue.hint);
        }
        row
    }
}

fn put(row: &mut StandRow, name: &str, cell: &str, decimal: &str) -> Result<(), String> {
    match name {
        "motor" => row.motor = Some(cell.to_owned()),
        "propeller" => row.propeller = Some(cell.to_owned()),
        "output_percent" => row.output_percent = Some(figure(decimal)?),
        "volts_v" => row.volts_v = Some(figure(decimal)?),
        "current_a" => row.current_a = Some(figure(decimal)?),
        "speed_rpm" => row.speed_rpm = Some(figure(decimal)?),
        _ => row.thrust_gf = Some(figure(decimal)?),
    }
    Ok(())
}

fn figure<U: Unit>(text: &str) -> Result<Quantity<U>, String> {
    Quantity::parse(text).map_err(|error| error.to_string())
}

/// The cells of a line, each with its column from 1.
fn cells(line: &str, parter: char) -> Vec<(u32, &str)> {
    let mut start = 0;
    let mut found = Vec::new();
    for cell in line.split(parter) {
        let column = line[..start].chars().count() + 1;
        found.push((u32::try_from(column).unwrap_or(u32::MAX), cell.trim().trim_matches('"').trim()));
        start += cell.len() + parter.len_utf8();
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEAD: &str = "output_percent,volts_v,current_a,speed_rpm,thrust_gf";

    #[test]
    fn reads_commas_semicolons_and_tabs() {
        let comma = load_stand("f", &format!("{HEAD}\n100,22.2,34.1,24100,1510\n")).unwrap();
        let semicolon = load_stand("f", &format!("{}\r\n100;22,2;34,1;24100;1510\r\n", HEAD.replace(',', ";"))).unwrap();
        let tab = load_stand("f", &format!("# bench\n\n{}\n100\t22,2\t34.1\t24100\t1510\n", HEAD.replace(',', "\t"))).unwrap();
        assert_eq!(comma, semicolon);
        assert_eq!(comma, tab);
        assert_eq!(comma[0].thrust_gf.unwrap().steps(), 1_510_000);
    }

    #[test]
    fn an_empty_cell_is_not_measured() {
        let rows = load_stand("f", &format!("{HEAD}\n,22.2,34.1,24100,1510\n")).unwrap();
        assert_eq!(rows[0].output_percent, None);
    }

    #[test]
    fn tells_every_problem_with_its_place() {
        let found = load_stand("f.csv", "volt_v,current_a,speed_rpm,thrust_gf\n22.2,much,24100,1510\n22.2,30,24100,1510,7\n")
            .unwrap_err();
        let places: Vec<(u32, u32)> = found.iter().map(|problem| (problem.line, problem.column)).collect();
        assert_eq!(places, [(1, 1), (2, 6), (3, 20)]);
        assert!(found[0].hint.as_ref().is_some_and(|hint| hint.contains("volts_v")));
        assert!(found.iter().all(|problem| problem.file == "f.csv" && problem.hint.is_some()));
    }

    #[test]
    fn an_implausible_figure_is_refused() {
        let found = load_stand("f", &format!("{HEAD}\n100,22.2,34.1,24.1,1510\n")).unwrap_err();
        assert_eq!(found[0].field.as_deref(), Some("speed_rpm"));
        assert!(load_stand("f", "").is_err() && load_stand("f", HEAD).is_err());
    }
}
