//! Tables of one kind of row: what lies on the shelf, and rows of a thrust stand.
//!
//! They are read as catalogues are: columns guessed from the head, units behind a figure or in the head, decimal commas, and
//! each row that cannot be used kept aside with every problem. A table that this program wrote reads as the same rows.

use std::collections::BTreeMap;

use super::{
    aside::{RefusedRow, set_aside},
    cell::{self, Fault},
    head::{Mapping, guess_among},
    row::Row,
    sheet::Sheet,
    write::harmless,
};
use crate::{
    description::{CYCLES, MASS, PIECES, RESISTANCE},
    diagnostic::Diagnostic,
    measured::StandRow,
    quantity::{Grams, Milliohms},
    stock::{Condition, Stock, StockItem},
    validate,
    value::{Describe, Field, Kind, Record, Value},
};

/// What a table of one kind of row holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Listed<T> {
    /// The rows that can be used.
    pub rows: Vec<T>,
    /// The other rows.
    pub refused: Vec<RefusedRow>,
    /// The head, for the rows that are kept aside.
    pub head: Vec<String>,
    /// Which field each column holds.
    pub mapping: Mapping,
}

impl<T> Listed<T> {
    /// The refused rows as a table of their own; see [`set_aside`].
    ///
    /// # Errors
    /// As [`set_aside`].
    pub fn set_aside(&self) -> Result<String, csv::Error> {
        set_aside(&self.head, &self.refused)
    }
}

const fn word(name: &'static str, about: &'static str) -> Field {
    Field { name, about, kind: Kind::Word, plausible: None }
}

/// The columns of a shelf.
const SHELF: [Field; 8] = [
    word("part", "The part's id."),
    PIECES,
    Field { name: "condition", about: "Its condition.", kind: Condition::KIND, plausible: None },
    MASS,
    RESISTANCE,
    CYCLES,
    word("fitted_in", "The craft that it is built into."),
    word("note", "Where it lies, or what happened to it."),
];

/// What people call the columns of a shelf.
const SAID_OF_SHELF: [(&str, &str); 12] = [
    ("id", "part"),
    ("article", "part"),
    ("item", "part"),
    ("pieces", "count"),
    ("quantity", "count"),
    ("number", "count"),
    ("state", "condition"),
    ("weight", "mass_g"),
    ("internalresistance", "resistance_mohm"),
    ("craft", "fitted_in"),
    ("builtinto", "fitted_in"),
    ("place", "note"),
];

/// What people call the columns of a stand's table.
const SAID_OF_STAND: [(&str, &str); 8] = [
    ("throttle", "output_percent"),
    ("output", "output_percent"),
    ("voltage", "volts_v"),
    ("rpm", "speed_rpm"),
    ("thrust", "thrust_gf"),
    ("thrustg", "thrust_gf"),
    ("prop", "propeller"),
    ("amps", "current_a"),
];

/// Reads what lies on a shelf from a table. `file` is the name by which problems call it.
///
/// ```
/// use propwright_schema::table::read_stock;
/// let shelf = read_stock("shelf.csv", "Part;Quantity;Weight (oz)\npack-4s;2;6,5\n;1;\n").unwrap();
/// assert_eq!((shelf.rows[0].count, shelf.rows[0].mass_g.unwrap().to_string()), (2, "184.272 g".to_owned()));
/// assert_eq!(shelf.refused[0].line, 3);
/// ```
///
/// # Errors
/// When the text is no table.
pub fn read_stock(file: &str, text: &str) -> Result<Listed<StockItem>, Vec<Diagnostic>> {
    let sheet = Sheet::read(file, text)?;
    Ok(listed(&sheet, of_shelf(sheet.head()), item))
}

/// Reads rows of a thrust stand from a table; lines that begin with `#` are left out. `file` is the name by which problems call
/// it.
///
/// ```
/// use propwright_schema::table::read_stand;
/// let stand = read_stand("stand.csv", "Throttle;Voltage;Thrust\n100;22,2;1510\n50;22,9;much\n").unwrap();
/// assert_eq!((stand.rows.len(), stand.refused.len()), (1, 1));
/// ```
///
/// # Errors
/// When the text is no table.
pub fn read_stand(file: &str, text: &str) -> Result<Listed<StandRow>, Vec<Diagnostic>> {
    let sheet = Sheet::with_remarks(file, text)?;
    Ok(listed(&sheet, of_stand(sheet.head()), |row| Some(stand_row(row))))
}

/// A shelf as a table: columns that no row fills are left out.
///
/// # Errors
/// When the writer refuses, which it does for nothing that a shelf can hold.
pub fn write_stock(stock: &Stock) -> Result<String, csv::Error> {
    let rows = stock.items.iter().map(|item| {
        let word = |word: &Option<String>| word.clone().map(Value::Word);
        [
            ("part", Some(Value::Word(item.part.clone()))),
            ("count", Some(item.count.value())),
            ("condition", item.condition.map(|condition| condition.value())),
            ("mass_g", item.mass_g.map(|mass| mass.value())),
            ("resistance_mohm", item.resistance_mohm.map(|ohm| ohm.value())),
            ("cycles", item.cycles.map(|cycles| cycles.value())),
            ("fitted_in", word(&item.fitted_in)),
            ("note", word(&item.note)),
        ]
        .into_iter()
        .filter_map(|(name, value)| Some((name, value?)))
        .collect()
    });
    written(&SHELF, &rows.collect::<Vec<_>>())
}

/// Rows of a thrust stand as a table: columns that no row fills are left out.
///
/// # Errors
/// When the writer refuses, which it does for nothing that such rows can hold.
pub fn write_stand(rows: &[StandRow]) -> Result<String, csv::Error> {
    let each =
        rows.iter().map(|row| StandRow::FIELDS.iter().filter_map(|field| Some((field.name, row.get(field.name)?))).collect());
    written(StandRow::FIELDS, &each.collect::<Vec<_>>())
}

/// What the columns of a shelf's table hold.
pub(super) fn of_shelf(head: &[String]) -> Mapping {
    guessed(head, &SHELF, &SAID_OF_SHELF)
}

/// What the columns of a stand's table hold.
pub(super) fn of_stand(head: &[String]) -> Mapping {
    guessed(head, StandRow::FIELDS, &SAID_OF_STAND)
}

fn guessed(head: &[String], fields: &[Field], said: &[(&str, &'static str)]) -> Mapping {
    let names: Vec<&'static str> = fields.iter().map(|field| field.name).collect();
    let mut mapping = guess_among(head, &names, said);
    for unit in mapping.units.iter_mut().flatten().filter(|unit| *unit == "gf") {
        // A gram of force holds a gram.
        "g".clone_into(unit);
    }
    mapping
}

fn listed<T>(sheet: &Sheet, mapping: Mapping, make: impl Fn(&mut Row<'_>) -> Option<T>) -> Listed<T> {
    let (mut rows, mut refused) = (Vec::new(), Vec::new());
    for record in sheet.records() {
        let mut row = Row::of(sheet.file(), record, &mapping);
        let made = make(&mut row).filter(|_| row.problems.is_empty());
        rows.extend(made);
        refused.extend(row.refused());
    }
    Listed { rows, refused, head: sheet.head().to_vec(), mapping }
}

fn item(row: &mut Row<'_>) -> Option<StockItem> {
    let [_, count, condition, mass, resistance, cycles, ..] = &SHELF;
    let Some(part) = row.text("part") else {
        row.unsaid("part", Fault::new("the row names no part", "write the part's id as in its catalogue"));
        return None;
    };
    let item = StockItem {
        part,
        count: row.value(count).and_then(|count| u32::from_value(&count)).unwrap_or(1),
        condition: row.value(condition).and_then(|word| Condition::from_value(&word)),
        mass_g: row.value(mass).and_then(|mass| Grams::from_value(&mass)),
        resistance_mohm: row.value(resistance).and_then(|ohm| Milliohms::from_value(&ohm)),
        cycles: row.value(cycles).and_then(|cycles| u32::from_value(&cycles)),
        fitted_in: row.text("fitted_in"),
        note: row.text("note"),
    };
    row.issues(validate::stock_item(&item));
    Some(item)
}

fn stand_row(row: &mut Row<'_>) -> StandRow {
    let mut read = StandRow::default();
    for field in StandRow::FIELDS {
        if let Some(value) = row.value(field) {
            read.set(field.name, Some(&value));
        }
    }
    if row.problems.is_empty() && read == StandRow::default() {
        row.unsaid("volts_v", Fault::new("the row holds no figure of a stand", "name the columns by what they hold"));
    }
    row.issues(validate::stand_row(&read));
    read
}

fn written(fields: &[Field], rows: &[BTreeMap<&'static str, Value>]) -> Result<String, csv::Error> {
    let filled = |field: &&Field| rows.iter().any(|row| row.contains_key(field.name));
    let columns: Vec<&Field> =
        fields.iter().enumerate().filter(|(at, field)| *at == 0 || filled(field)).map(|(_, field)| field).collect();
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(columns.iter().map(|field| field.name))?;
    let cell = |value: &Value| match value {
        Value::Word(_) => harmless(&cell::written(value)),
        figure => cell::written(figure),
    };
    for row in rows {
        writer.write_record(columns.iter().map(|field| row.get(field.name).map_or_else(String::new, cell)))?;
    }
    let bytes = writer.into_inner().map_err(|error| std::io::Error::other(error.to_string()))?;
    String::from_utf8(bytes).map_err(|error| std::io::Error::other(error.to_string()).into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shelf_comes_back_with_what_looks_like_formulas() {
        let mut item = StockItem::new("pack-4s", 3);
        item.condition = Some(Condition::Worn);
        item.cycles = Some(40);
        item.resistance_mohm = Some(Milliohms::parse("11.2").unwrap());
        item.note = Some("=SUM(A1), \"left\" drawer; 'top'".to_owned());
        item.fitted_in = Some("'- Ridge".to_owned());
        let stock = Stock { items: vec![item, StockItem::new("m3x8", 40)], ..Stock::default() };
        let text = write_stock(&stock).unwrap();
        assert!(text.contains("'=SUM") && text.contains("''- Ridge"), "{text}");
        let read = read_stock("shelf.csv", &text).unwrap();
        assert_eq!((read.rows, read.refused), (stock.items, Vec::new()));
    }

    #[test]
    fn rows_of_a_stand_come_back() {
        let text = "motor,volts_v,current_a,thrust_gf\n'=m,22.2,34.1,1510\n,23,12,800\n";
        let read = read_stand("stand.csv", text).unwrap();
        assert_eq!(read.rows[0].motor.as_deref(), Some("=m"));
        assert_eq!(write_stand(&read.rows).unwrap(), text);
    }

    #[test]
    fn heads_of_a_stand_are_known() {
        let text = "Throttle (%);Voltage (V);Amps;RPM;Thrust (gf);Prop\n100;22,2;34,1;24100;1510;p\n";
        let read = read_stand("stand.csv", text).unwrap();
        assert_eq!(read.refused, []);
        let row = &read.rows[0];
        assert!(StandRow::FIELDS.iter().skip(1).all(|field| row.get(field.name).is_some()), "{row:?}");
    }

    #[test]
    fn a_bad_row_says_where_and_what() {
        let read = read_stock("s.csv", "part,count,condition\np,many,new\np,2,shiny\np,2,used\n").unwrap();
        assert_eq!(read.rows.len(), 1);
        let places: Vec<_> = read.refused.iter().flat_map(|row| &row.problems).map(|one| (one.line, one.column)).collect();
        assert_eq!(places, [(2, 2), (3, 3)]);
    }
}
