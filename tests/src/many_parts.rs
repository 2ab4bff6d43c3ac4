//! A large catalogue in the project's own file format: as many parts as are asked for, the same ones for the same seed.
//!
//! Each part descends from a demo part: figures that makers choose freely (mass, price, KV, resistance, ratings, capacity,
//! pitch) differ by up to 8 %, now and then a word or list comes from another part of the same kind, and what is a standard of
//! the trade (patterns, shafts, threads, plugs) stays. So the kinds come in the shares of the demo catalogue, and about as many
//! parts go together as there.

use std::fmt::Write;

use propwright_schema::{
    part::{Part, Role},
    quantity::{G, Money, Unit, UnitInfo},
    ron_options,
    value::{Field, Kind},
    version,
};
use serde_json::Value;

use crate::sample;

/// The number of parts with which speed is measured.
pub const MANY: usize = 20_000;
/// The seed with which speed is measured.
pub const SEED: u64 = 1;

/// Figures that a maker chooses freely.
const FREE: [&str; 10] = [
    "kv_rpm_per_v",
    "resistance_mohm",
    "no_load_current_a",
    "current_a",
    "current_burst_a",
    "capacity_mah",
    "pitch_in",
    "length_mm",
    "height_mm",
    "lead_length_mm",
];
/// A free figure differs by at most so many per cent.
const APART_PERCENT: u64 = 8;
/// One field in so many comes from another part of the kind.
const FOREIGN: u64 = 24;

/// Numbers that look random and are the same for the same seed: `SplitMix64`, Steele, Lea and Flood, "Fast splittable
/// pseudorandom number generators", OOPSLA 2014.
struct Numbers(u64);

impl Numbers {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, end: u64) -> u64 {
        self.next() % end
    }

    /// Hundredths from 92 to 108.
    fn percent(&mut self) -> u64 {
        100 - APART_PERCENT + self.below(2 * APART_PERCENT + 1)
    }
}

/// A catalogue file of `count` parts.
pub fn catalogue_text(count: usize, seed: u64) -> String {
    let mut text =
        format!("// {count} generated parts, seed {seed}; none of them exists.\n(version: {}, parts: [\n", version::CURRENT);
    for part in parts(count, seed) {
        writeln!(text, "{},", ron_options().to_string(&part).unwrap()).unwrap();
    }
    text + "])\n"
}

/// The same parts as values.
pub fn parts(count: usize, seed: u64) -> Vec<Part> {
    let catalogue = sample::catalogue();
    let demo: Vec<&Part> = catalogue.parts().map(|part| &**part).collect();
    let mut numbers = Numbers(seed);
    (0..count).map(|at| child(demo[at % demo.len()], &demo, at, &mut numbers)).collect()
}

fn child(parent: &Part, demo: &[&Part], at: usize, numbers: &mut Numbers) -> Part {
    let kin: Vec<&&Part> = demo.iter().filter(|other| words(other).eq(words(parent))).collect();
    let draw = numbers.below(kin.len() as u64);
    let other = kin[usize::try_from(draw).unwrap()];
    let mut part = Part {
        id: format!("{}-g{at}", parent.id),
        name: format!("{} G{at}", parent.name),
        price: parent.price.map(|price| varied_price(price, numbers)),
        ..parent.clone()
    };
    let mass = parent.mass_g.map(|mass| varied(mass.decimal(), &G::INFO, numbers.percent()));
    part.mass_g = mass.map(|mass| serde_json::from_value(mass.into()).unwrap());
    let roles = parent.fills.iter().zip(&other.fills);
    part.fills = roles.map(|(role, foreign)| varied_role(role, foreign, numbers)).collect();
    part
}

fn words(part: &Part) -> impl Iterator<Item = &'static str> {
    part.fills.iter().map(Role::word)
}

fn varied_price(price: Money, numbers: &mut Numbers) -> Money {
    let percent = i64::try_from(numbers.percent()).unwrap();
    Money::of(price.minor() * percent / 100, price.unit())
}

/// A figure times `percent`, to four digits or whole steps of its unit, whichever is coarser; both are decimal.
fn varied(figure: f64, unit: &UnitInfo, percent: u64) -> f64 {
    let next = figure * percent as f64 / 100.0;
    let digits = 1000.0 / 10_f64.powf(next.abs().max(1e-9).log10().floor());
    let per_unit = (unit.steps as f64).min(digits);
    (next * per_unit).round() / per_unit
}

fn varied_role(role: &Role, foreign: &Role, numbers: &mut Numbers) -> Role {
    let (mut mine, theirs) = (serde_json::to_value(role).unwrap(), serde_json::to_value(foreign).unwrap());
    let (mine_record, their_record) = (record(&mut mine), theirs.as_object().unwrap().values().next().unwrap());
    for field in role.fields() {
        let (percent, draw) = (numbers.percent(), numbers.below(FOREIGN));
        match (mine_record.get(field.name).cloned(), field.kind) {
            (Some(figure), Kind::Number(unit)) if FREE.contains(&field.name) => {
                let next = within(field, varied(figure.as_f64().unwrap(), unit, percent));
                mine_record[field.name] = next.into();
            }
            (Some(_), Kind::Flag | Kind::Word | Kind::Choice(_) | Kind::List(_)) if draw == 0 => {
                if let Some(theirs) = their_record.get(field.name) {
                    mine_record[field.name] = theirs.clone();
                }
            }
            _ => {}
        }
    }
    serde_json::from_value(mine).unwrap()
}

fn record(role: &mut Value) -> &mut serde_json::Map<String, Value> {
    role.as_object_mut().unwrap().values_mut().next().unwrap().as_object_mut().unwrap()
}

fn within(field: &Field, figure: f64) -> f64 {
    field.plausible.map_or(figure, |(low, high)| figure.clamp(low, high))
}

#[cfg(test)]
mod tests {
    use super::*;
    use propwright_schema::load::load_catalogue;

    #[test]
    fn the_loader_takes_all_of_them() {
        let file = load_catalogue("many.ron", &catalogue_text(2000, SEED)).unwrap();
        assert_eq!(file.parts.len(), 2000);
        let made: Vec<Part> = file.parts.iter().map(|part| (**part).clone()).collect();
        assert_eq!(made, parts(2000, SEED), "the text says the same as the values");
    }

    #[test]
    fn the_same_seed_makes_the_same_parts() {
        assert_eq!(parts(400, 7), parts(400, 7));
        assert_ne!(parts(400, 7), parts(400, 8));
        assert_eq!(parts(400, 7)[..100], parts(100, 7), "more parts begin with the same ones");
    }
}
