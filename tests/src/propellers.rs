//! The propeller models against wind-tunnel figures of 15 research propellers, and a plot of both.
//!
//! Source of the figures: UIUC Propeller Database (J.B. Brandt, R.W. Deters, G.K. Ananda, O.D. Dantsker, M.S. Selig); see
//! `tests/data/propellers/README.md`. Errors are shares of the measured static value.

use std::collections::BTreeMap;
use std::fmt::Write;

use propwright_engine::models::{
    atmosphere::Air,
    bem,
    error::ModelError,
    predict::{Asked, propeller},
    propeller::{Coefficients, Geometry},
};

const FIGURES: &str = include_str!("../data/propellers/research.csv");

/// One measured state.
#[derive(Debug, Clone)]
pub struct Row {
    /// Family, diameter, pitch, blades.
    pub name: String,
    /// Its size, with the chord at 75 % radius.
    pub size: Geometry,
    /// Speed, rev/s.
    pub rev_per_s: f64,
    /// Advance ratio.
    pub advance: f64,
    /// What was measured.
    pub measured: Coefficients,
}

/// All states.
pub fn rows() -> Vec<Row> {
    FIGURES.lines().skip(1).map(row).collect()
}

fn row(line: &str) -> Row {
    let field: Vec<&str> = line.split(',').collect();
    let number = |i: usize| field[i].parse::<f64>().unwrap();
    let size = Geometry::inches(number(1), number(2), field[3].parse().unwrap());
    Row {
        name: field[..4].join(" "),
        size: Geometry { chord_75_m: Some(number(4) * size.diameter_m / 2.0), ..size },
        rev_per_s: number(5) / 60.0,
        advance: number(6),
        measured: Coefficients { ct: number(7), cp: number(8) },
    }
}

/// Relative errors of CT and CP, each sorted by size.
pub struct Errors {
    /// Of CT.
    pub ct: Vec<f64>,
    /// Of CP.
    pub cp: Vec<f64>,
}

impl Errors {
    fn of(pairs: impl Iterator<Item = (f64, f64)>) -> Self {
        let (mut ct, mut cp): (Vec<f64>, Vec<f64>) = pairs.unzip();
        ct.sort_by(|a, b| a.abs().total_cmp(&b.abs()));
        cp.sort_by(|a, b| a.abs().total_cmp(&b.abs()));
        Self { ct, cp }
    }
}

/// The error that `percent` of the cases stay below.
pub fn percentile(sorted: &[f64], percent: usize) -> f64 {
    sorted[(sorted.len() * percent).div_ceil(100) - 1].abs()
}

/// The mean of errors with their signs.
pub fn mean(errors: &[f64]) -> f64 {
    errors.iter().sum::<f64>() / errors.len() as f64
}

/// A model of a row.
pub type Model = fn(&Row) -> Coefficients;

/// Errors at rest.
pub fn static_errors(model: Model) -> Errors {
    Errors::of(rows().iter().filter(|row| row.advance == 0.0).map(|row| {
        let c = model(row);
        (c.ct / row.measured.ct - 1.0, c.cp / row.measured.cp - 1.0)
    }))
}

/// Errors at rest, their mean over the speeds of each propeller.
pub fn static_errors_by_propeller(model: Model) -> Errors {
    Errors::of(static_groups(model, |row| row.name.clone()).into_iter().map(|group| (group.ct, group.cp)))
}

/// The mean errors at rest of the rows that have something in common.
#[derive(Debug, Clone)]
pub struct Group {
    /// What they have in common.
    pub name: String,
    /// How many they are.
    pub rows: usize,
    /// Mean error of CT.
    pub ct: f64,
    /// Mean error of CP.
    pub cp: f64,
}

/// Mean errors at rest by what rows have in common, in the order of its name.
pub fn static_groups(model: Model, common: fn(&Row) -> String) -> Vec<Group> {
    let mut groups: BTreeMap<String, Group> = BTreeMap::new();
    for row in rows().iter().filter(|row| row.advance == 0.0) {
        let c = model(row);
        let empty = || Group { name: common(row), rows: 0, ct: 0.0, cp: 0.0 };
        let group = groups.entry(common(row)).or_insert_with(empty);
        group.rows += 1;
        group.ct += c.ct / row.measured.ct - 1.0;
        group.cp += c.cp / row.measured.cp - 1.0;
    }
    let mean = |group: Group| {
        let count = group.rows as f64;
        Group { ct: group.ct / count, cp: group.cp / count, ..group }
    };
    groups.into_values().map(mean).collect()
}

/// Family and diameter in inches.
pub fn family_and_size(row: &Row) -> String {
    row.name.split(' ').take(2).collect::<Vec<_>>().join(" ") + " in"
}

fn reynolds(row: &Row) -> String {
    let re = row.size.reynolds_75(row.rev_per_s, &sea_level());
    let at = [1e4, 2e4, 3e4, 5e4].iter().position(|limit| re < *limit).unwrap_or(4);
    ["Re below 10 000", "Re 10 000 to 20 000", "Re 20 000 to 30 000", "Re 30 000 to 50 000", "Re above 50 000"][at].to_owned()
}

fn pitch(row: &Row) -> String {
    let share = row.size.pitch_m / row.size.diameter_m;
    let at = [0.4, 0.6, 0.7, 0.8].iter().position(|limit| share < *limit).unwrap_or(4);
    ["P/D below 0.4", "P/D 0.4 to 0.6", "P/D 0.6 to 0.7", "P/D 0.7 to 0.8", "P/D above 0.8"][at].to_owned()
}

/// Errors over advance ratio.
pub fn moving_errors(model: Model) -> Errors {
    let all = rows();
    let still = |moving: &Row| {
        let same = all.iter().filter(|row| row.advance == 0.0 && row.name == moving.name);
        let away = |row: &&Row| (row.rev_per_s - moving.rev_per_s).abs();
        same.min_by(|one, other| away(one).total_cmp(&away(other))).unwrap().measured
    };
    Errors::of(all.iter().filter(|row| row.advance > 0.0 && row.measured.ct > 0.0).map(|row| {
        let (c, rest) = (model(row), still(row));
        ((c.ct - row.measured.ct) / rest.ct, (c.cp - row.measured.cp) / rest.cp)
    }))
}

fn sea_level() -> Air {
    Air::standard(0.0).unwrap()
}

/// Blade elements with the chord known.
pub fn blade_element(row: &Row) -> Coefficients {
    bem::coefficients(&row.size, row.rev_per_s, row.advance, &sea_level()).unwrap()
}

/// Blade elements by size alone.
pub fn blade_element_without_chord(row: &Row) -> Coefficients {
    let size = Geometry { chord_75_m: None, ..row.size };
    bem::coefficients(&size, row.rev_per_s, row.advance, &sea_level()).unwrap()
}

/// The closed form by size alone.
pub fn closed_form(row: &Row) -> Coefficients {
    let size = Geometry { chord_75_m: None, ..row.size };
    let advance = row.advance.min(1.05 * size.zero_thrust_advance());
    size.closed_form(row.rev_per_s, advance, &sea_level()).unwrap()
}

/// Shares of a propeller's states that lie within the bands of CT and CP.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// The propeller.
    pub name: String,
    /// Share of its CT.
    pub ct: f64,
    /// Share of its CP.
    pub cp: f64,
}

/// How well the bands hold, propeller by propeller.
///
/// # Errors
/// Where a row lies outside of the models.
pub fn held() -> Result<Vec<Held>, ModelError> {
    let mut counts: BTreeMap<String, [f64; 3]> = BTreeMap::new();
    for row in rows() {
        let asked = Asked { geometry: row.size, rev_per_s: row.rev_per_s, density: 1.225, isolated: true };
        let [point] = propeller(&asked, &[row.advance])?[..] else { continue };
        let within =
            |band: propwright_engine::band::Band, figure: f64| f64::from(u8::from((band.low()..=band.high()).contains(&figure)));
        let count = counts.entry(row.name).or_default();
        let found = [1.0, within(point.ct, row.measured.ct), within(point.cp, row.measured.cp)];
        count.iter_mut().zip(found).for_each(|(sum, one)| *sum += one);
    }
    Ok(counts.into_iter().map(|(name, [all, ct, cp])| Held { name, ct: ct / all, cp: cp / all }).collect())
}

/// The figures of all models as lines of text.
pub fn summary() -> String {
    let mut out = "errors as shares of the measured static value, P68/P90, bias; 15 propellers below 10 500 rpm\n".to_owned();
    let models: [(&str, Model); 3] = [
        ("blade elements, chord known", blade_element),
        ("blade elements, size alone", blade_element_without_chord),
        ("closed form, size alone", closed_form),
    ];
    for (name, model) in models {
        let (by_propeller, still, moving) = (static_errors_by_propeller(model), static_errors(model), moving_errors(model));
        for (state, errors) in [("at rest, by propeller", by_propeller), ("at rest, every speed", still), ("over J", moving)] {
            for (what, errors) in [("CT", &errors.ct), ("CP", &errors.cp)] {
                let (p68, p90, bias) = (percentile(errors, 68) * 100.0, percentile(errors, 90) * 100.0, mean(errors) * 100.0);
                let _ = writeln!(out, "{name:28} {state:22} {what}  {p68:5.1} / {p90:5.1} %, {bias:+5.1} %");
            }
        }
    }
    let _ = writeln!(out, "mean error at rest with the chord known, by what the states have in common:");
    for common in [family_and_size, reynolds, pitch] {
        for Group { name, rows, ct, cp } in static_groups(blade_element, common) {
            let _ = writeln!(out, "{name:24} {rows:3} states  CT {:+5.1} %, CP {:+5.1} %", ct * 100.0, cp * 100.0);
        }
    }
    let _ = writeln!(out, "states within the P5-P95 band with the chord known, propeller by propeller:");
    for held in held().unwrap_or_default() {
        let _ = writeln!(out, "{:24} CT {:3.0} %, CP {:3.0} %", held.name, held.ct * 100.0, held.cp * 100.0);
    }
    out
}

/// Side of a panel and its margin, in the picture's units.
const SIDE: f64 = 320.0;
const MARGIN: f64 = 60.0;

/// The plot of blade elements with the chord known against the measurements: CT left, CP right, the static states filled.
pub fn plot() -> String {
    let (width, height) = (2.0 * (SIDE + MARGIN) + MARGIN, SIDE + 2.0 * MARGIN);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" font-family=\"sans-serif\" font-size=\"12\">\n\
         <title>Propeller model against wind-tunnel measurement</title>\n<rect width=\"100%\" height=\"100%\" fill=\"#F6F4EE\"/>\n"
    );
    panel(&mut out, MARGIN, "CT", 0.26, 0.12, |c| c.ct);
    panel(&mut out, 2.0 * MARGIN + SIDE, "CP", 0.18, 0.18, |c| c.cp);
    out + "</svg>\n"
}

fn panel(out: &mut String, left: f64, what: &str, most: f64, sigma: f64, of: fn(&Coefficients) -> f64) {
    let x = |figure: f64| left + figure / most * SIDE;
    let y = |figure: f64| MARGIN + SIDE - figure / most * SIDE;
    let factor = (1.645 * sigma).exp();
    let (top, right) = (y(most), x(most));
    let _ = writeln!(
        out,
        "<path d=\"M{:.1} {:.1}L{:.1} {top:.1}L{right:.1} {top:.1}L{right:.1} {:.1}Z\" fill=\"#E9E5DA\"/>\n\
         <path d=\"M{:.1} {:.1}L{right:.1} {top:.1}\" stroke=\"#1F4E79\"/>\n\
         <rect x=\"{left:.1}\" y=\"{top:.1}\" width=\"{SIDE}\" height=\"{SIDE}\" fill=\"none\" stroke=\"#5D6470\"/>",
        x(0.0),
        y(0.0),
        x(most / factor),
        y(most / factor),
        x(0.0),
        y(0.0)
    );
    for row in rows() {
        let (measured, model) = (of(&row.measured), of(&blade_element(&row)));
        let (fill, radius) = if row.advance == 0.0 { ("#22252A", 3.5) } else { ("none", 2.0) };
        if measured > 0.0 && model > 0.0 {
            let _ = writeln!(
                out,
                "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"{radius}\" fill=\"{fill}\" stroke=\"#5D6470\" stroke-width=\"0.7\"/>",
                x(measured),
                y(model)
            );
        }
    }
    for step in (1..).take_while(|step| f64::from(*step) * 0.05 <= most) {
        let figure = f64::from(step) * 0.05;
        let _ = writeln!(
            out,
            "<text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"middle\" fill=\"#22252A\">{figure:.2}</text>",
            x(figure),
            y(0.0) + 18.0
        );
        let _ = writeln!(
            out,
            "<text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"end\" fill=\"#22252A\">{figure:.2}</text>",
            x(0.0) - 6.0,
            y(figure) + 4.0
        );
    }
    let _ = writeln!(
        out,
        "<text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"middle\" fill=\"#22252A\">{what} measured</text>\n\
         <text x=\"{left:.1}\" y=\"{:.1}\" fill=\"#22252A\">{what} by blade elements; band P5 to P95, filled: at rest</text>",
        left + SIDE / 2.0,
        y(0.0) + 38.0,
        top - 10.0
    );
}
