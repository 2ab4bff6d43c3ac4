//! The propeller models against wind-tunnel figures of 15 research propellers, and a plot of both.
//!
//! Source of the figures: UIUC Propeller Database (J.B. Brandt, R.W. Deters, G.K. Ananda, O.D. Dantsker, M.S. Selig); see
//! `tests/data/propellers/README.md`. Errors are shares of the measured static value.

use std::collections::BTreeMap;
use std::fmt::Write;

use propwright_engine::band::Band;
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

/// Forces of stalled sections that are tried, as multiples of a plate's.
const TRIED: std::ops::RangeInclusive<u32> = 12..=24;

/// One family left out of the fit of the stalled force.
#[derive(Debug, Clone)]
pub struct LeftOut {
    /// Its name.
    pub family: String,
    /// The force that suits the other families and the closed form best, as a multiple of a plate's.
    pub stalled: f64,
    /// What it makes of the left-out propellers: mean error of each at rest.
    pub errors: Vec<(f64, f64)>,
}

/// Errors of CT and CP of each propeller, with its family.
type ByPropeller<'r> = BTreeMap<&'r str, (String, Vec<(f64, f64)>)>;

/// Leaves each family out in turn: the stalled force is fitted to the static states of the others, every propeller counting alike, and
/// as much to the closed form at usual chords, which stands for many more propellers; the left-out family is judged by it.
///
/// # Errors
/// Where a state lies outside of the models.
pub fn left_out() -> Result<Vec<LeftOut>, ModelError> {
    let still: Vec<Row> = rows().into_iter().filter(|row| row.advance == 0.0).collect();
    let family = |row: &Row| row.name.split(' ').next().unwrap_or_default().to_owned();
    let mut families: Vec<String> = still.iter().map(family).collect();
    families.dedup();
    let mut by_force = Vec::new();
    for tenths in TRIED {
        let stalled = f64::from(tenths) / 10.0;
        let mut each: ByPropeller = BTreeMap::new();
        for row in &still {
            let c = bem::stalling(stalled, &row.size, row.rev_per_s, 0.0, &sea_level())?;
            let error = (c.ct / row.measured.ct - 1.0, c.cp / row.measured.cp - 1.0);
            each.entry(&row.name).or_insert_with(|| (family(row), Vec::new())).1.push(error);
        }
        by_force.push((stalled, each, from_closed_form(stalled)?));
    }
    let off = |errors: &[(f64, f64)]| errors.iter().map(|(ct, cp)| ct.abs() + cp.abs()).sum::<f64>() / errors.len() as f64;
    let without = |left: &String| {
        let score = |each: &ByPropeller| {
            let others: Vec<f64> = each.values().filter(|(family, _)| family != left).map(|(_, errors)| off(errors)).collect();
            others.iter().sum::<f64>() / others.len() as f64
        };
        let best = by_force.iter().min_by(|(_, one, a), (_, other, b)| (score(one) + a).total_cmp(&(score(other) + b)));
        let (stalled, each, _) = best?;
        let mean = |errors: &Vec<(f64, f64)>| {
            let sum = errors.iter().fold((0.0, 0.0), |sum, error| (sum.0 + error.0, sum.1 + error.1));
            (sum.0 / errors.len() as f64, sum.1 / errors.len() as f64)
        };
        let errors = each.values().filter(|(family, _)| family == left).map(|(_, errors)| mean(errors)).collect();
        Some(LeftOut { family: left.clone(), stalled: *stalled, errors })
    };
    Ok(families.iter().filter_map(without).collect())
}

/// Mean distance of the blade elements at the usual chord from the closed form, CT and CP together.
fn from_closed_form(stalled: f64) -> Result<f64, ModelError> {
    let mut apart = Vec::new();
    for (diameter, blades) in [(10.0, 2), (6.0, 3)] {
        for pitch in [0.4, 0.5, 0.6, 0.7, 0.8, 0.9] {
            let size = Geometry::inches(diameter, pitch * diameter, blades);
            for reynolds in [3e4, 6e4, 1e5] {
                let turns = reynolds / size.reynolds_75(1.0, &sea_level());
                let (blade, closed) =
                    (bem::stalling(stalled, &size, turns, 0.0, &sea_level())?, size.closed_form(turns, 0.0, &sea_level())?);
                apart.push((blade.ct / closed.ct - 1.0).abs() + (blade.cp / closed.cp - 1.0).abs());
            }
        }
    }
    Ok(mean(&apart))
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
        let within = |band: Band, figure: f64| f64::from(u8::from((band.low()..=band.high()).contains(&figure)));
        let count = counts.entry(row.name).or_default();
        let found = [1.0, within(point.ct, row.measured.ct), within(point.cp, row.measured.cp)];
        count.iter_mut().zip(found).for_each(|(sum, one)| *sum += one);
    }
    Ok(counts.into_iter().map(|(name, [all, ct, cp])| Held { name, ct: ct / all, cp: cp / all }).collect())
}

/// Log spreads of the bands of CT and CP at the median state.
///
/// # Errors
/// Where a row lies outside of the models.
pub fn median_sigmas() -> Result<[f64; 2], ModelError> {
    let (mut ct, mut cp) = (Vec::new(), Vec::new());
    for row in rows() {
        let asked = Asked { geometry: row.size, rev_per_s: row.rev_per_s, density: 1.225, isolated: true };
        let [still, point] = propeller(&asked, &[0.0, row.advance])?[..] else { continue };
        let sigma = |still: Band, band: Band| ((band.high() - band.nominal()) / still.nominal()).ln_1p() / 1.645;
        ct.push(sigma(still.ct, point.ct));
        cp.push(sigma(still.cp, point.cp));
    }
    Ok([ct, cp].map(|mut sigmas| {
        sigmas.sort_by(f64::total_cmp);
        percentile(&sigmas, 50)
    }))
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
    let left = left_out().unwrap_or_default();
    let _ = writeln!(out, "each family left out in turn of the fit of the stalled force, its propellers' mean errors at rest:");
    for LeftOut { family, stalled, errors } in &left {
        let biases = [
            mean(&errors.iter().map(|error| error.0).collect::<Vec<_>>()),
            mean(&errors.iter().map(|error| error.1).collect::<Vec<_>>()),
        ];
        let _ =
            writeln!(out, "{family:10} {stalled:.1} x a plate  CT {:+5.1} %, CP {:+5.1} %", biases[0] * 100.0, biases[1] * 100.0);
    }
    let errors = Errors::of(left.into_iter().flat_map(|left| left.errors));
    let p = |errors: &[f64], percent| percentile(errors, percent) * 100.0;
    let (ct, cp) = (&errors.ct, &errors.cp);
    let _ = writeln!(out, "all left out  CT {:.1} / {:.1} %, CP {:.1} / {:.1} %", p(ct, 68), p(ct, 90), p(cp, 68), p(cp, 90));
    if let Ok([ct, cp]) = median_sigmas() {
        let _ = writeln!(out, "one standard deviation at the median state  CT {:.1} %, CP {:.1} %", ct * 100.0, cp * 100.0);
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
