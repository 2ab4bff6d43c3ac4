//! What differs between two builds in mass, price and figures, with bands.
//!
//! Two figures of two builds share most of their errors: the same pack, the same frame, the same scale. Only the errors of the
//! parts that are exchanged widen the change, besides those whose effect differs between the two
//! ([`crate::band::Propagated::change_to`]). A change whose band holds zero is none.

use std::collections::BTreeMap;

use propwright_schema::{
    quantity::{G, Money, Unit},
    slot::Slot,
};

use crate::{
    bill::{self, Bill, kit::unpriced_apart},
    craft::{Craft, Placed},
    derive::{LISTED_SIGMA, solved_figure},
    graph::{Store, derived},
    interval::Interval,
    report::Report,
};

/// A figure that is compared from build to build.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figure {
    /// Its key in files for other programs: the unit is in the name.
    pub key: &'static str,
    /// Its derivation.
    pub id: &'static str,
    /// What it is, in the trade's words.
    pub title: &'static str,
}

/// The figures that are compared, besides mass and price.
pub const FIGURES: [Figure; 7] = [
    Figure { key: "calm_min", id: "time-calm", title: "calm flight" },
    Figure { key: "thrust_to_weight", id: "thrust-to-weight", title: "thrust to weight" },
    Figure { key: "hover_duty", id: "hover-duty", title: "duty in hover" },
    Figure { key: "hover_current_a", id: "hover-current", title: "current in hover" },
    Figure { key: "full_throttle_current_a", id: "battery-burst", title: "full throttle" },
    Figure { key: "motor_full_throttle_current_a", id: "motor-burst", title: "each motor" },
    Figure { key: "top_speed_kmh", id: "top-speed", title: "top speed" },
];

/// The part behind each uncertain input; take-off mass is apart.
const BEHIND: [(&str, Slot); 8] = [
    ("KV", Slot::Motor),
    ("motor resistance", Slot::Motor),
    ("no-load current", Slot::Motor),
    ("propeller thrust", Slot::Propeller),
    ("propeller power", Slot::Propeller),
    ("pack resistance", Slot::Battery),
    ("pack capacity", Slot::Battery),
    ("drag area", Slot::Frame),
];
/// The input that all parts are behind.
const ALL_PARTS: &str = "take-off mass";

/// Half the width of a band from P5 to P95 in standard deviations.
const BAND: f64 = 1.645;
/// Share of a solved figure below which a change is none; air and hands differ more. Common practice, no source.
const NOTICED: f64 = 0.005;

/// By how much a figure changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Delta {
    /// The change with its band.
    pub by: Interval,
    /// Is it smaller than its band, so that it may be none?
    pub none: bool,
}

/// What changes from one build to another.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// Mass at take-off; absent while one of the two is not known.
    pub mass: Option<Delta>,
    /// What is more or less to pay, one amount a currency, none where nothing changes; absent while a price is not known.
    pub cost: Option<Vec<Money>>,
    /// The figures in the order of [`FIGURES`]; absent while one of the two is not known.
    pub figures: [Option<Delta>; FIGURES.len()],
}

impl Change {
    /// Each figure with its change.
    pub fn each(&self) -> impl Iterator<Item = (&'static Figure, Option<Delta>)> {
        FIGURES.iter().zip(self.figures)
    }
}

/// A craft with its bill and what is derived of it.
#[derive(Clone, Copy)]
pub(crate) struct State<'a> {
    pub(crate) craft: &'a Craft,
    pub(crate) bill: &'a Bill,
    pub(crate) store: &'a Store,
}

impl<'a> From<&'a Report> for State<'a> {
    fn from(report: &'a Report) -> Self {
        Self { craft: &report.craft, bill: &report.bill, store: &report.store }
    }
}

impl State<'_> {
    fn figure(&self, id: &'static str) -> Option<Interval> {
        self.store.get(&derived(id))?.first()?.figure().ok()
    }
}

/// Mass and price alone: what is known of a part before a model is solved for it.
pub(crate) fn outline(before: State, after: State) -> Change {
    Change { mass: mass(before, after), cost: cost(before.bill, after.bill), figures: [None; FIGURES.len()] }
}

/// All that changes.
pub(crate) fn change(before: State, after: State) -> Change {
    let outline = outline(before, after);
    let common = mass_in_common(before, outline.mass);
    let same = |name: &str| match BEHIND.iter().find(|(input, _)| *input == name) {
        Some((_, slot)) => f64::from(u8::from(parts(before.craft, *slot).eq(parts(after.craft, *slot)))),
        None if name == ALL_PARTS => common,
        None => 0.0,
    };
    Change { figures: FIGURES.map(|figure| delta(before, after, figure.id, same)), ..outline }
}

fn parts(craft: &Craft, slot: Slot) -> impl Iterator<Item = &str> {
    craft.in_slot(slot).iter().map(|placed| placed.subject.part.id.as_str())
}

fn delta(before: State, after: State, id: &'static str, same: impl Fn(&str) -> f64) -> Option<Delta> {
    let unit = after.figure(id)?.unit;
    let (was, is) = (solved_figure(before.store, id)?, solved_figure(after.store, id)?);
    let band = was.change_to(is, same).ok()?;
    let by = Interval::outward(band.low(), band.nominal(), band.high(), unit);
    let small = band.nominal().abs() < NOTICED * was.band.nominal();
    Some(Delta { by, none: small || holds_zero(&by) })
}

const fn holds_zero(by: &Interval) -> bool {
    by.low <= 0 && by.high >= 0
}

fn mass(before: State, after: State) -> Option<Delta> {
    let (was, is) = (before.figure("takeoff-mass")?, after.figure("takeoff-mass")?);
    let by = is.nominal.saturating_sub(was.nominal) as f64 * G::INFO.si_per_step;
    let each = exchanged(before.craft, after.craft).into_iter().filter_map(|exchanged| exchanged.weight());
    let half = if by == 0.0 { 0.0 } else { BAND * LISTED_SIGMA * each.map(|mass| mass * mass).sum::<f64>().sqrt() };
    let by = Interval::outward(by - half, by, by + half, &G::INFO);
    Some(Delta { by, none: holds_zero(&by) })
}

/// Correlation of the errors of the two masses: all but what the exchanged parts bring.
fn mass_in_common(before: State, change: Option<Delta>) -> f64 {
    let (Some(mass), Some(change)) = (before.figure("takeoff-mass"), change) else { return 0.0 };
    let (whole, exchanged) = ((mass.high - mass.low) as f64, (change.by.high - change.by.low) as f64);
    if whole > 0.0 { (1.0 - (exchanged / whole).powi(2) / 2.0).max(0.0) } else { 1.0 }
}

fn cost(before: &Bill, after: &Bill) -> Option<Vec<Money>> {
    if unpriced_apart(before, after).is_empty() { bill::differences(&after.total, &before.total) } else { None }
}

/// A part of which one of two crafts has more than the other.
struct Exchanged<'c> {
    placed: &'c Placed,
    /// How many more the second one has; negative for less.
    more: i64,
}

impl Exchanged<'_> {
    /// Mass in flight, kg; none of what stays on the ground.
    fn weight(&self) -> Option<f64> {
        let mass = self.placed.subject.part.mass_g.filter(|_| !self.placed.subject.slot.on_ground())?;
        Some(mass.steps() as f64 * G::INFO.si_per_step * self.more as f64)
    }
}

fn exchanged<'c>(before: &'c Craft, after: &'c Craft) -> Vec<Exchanged<'c>> {
    let mut each: BTreeMap<(Slot, &str), Exchanged> = BTreeMap::new();
    let both = before.listed().map(|placed| (placed, -1)).chain(after.listed().map(|placed| (placed, 1)));
    for (placed, sign) in both {
        let known = each.entry((placed.subject.slot, &placed.subject.part.id));
        known.or_insert(Exchanged { placed, more: 0 }).more += sign * i64::from(placed.fitted.count);
    }
    each.into_values().filter(|exchanged| exchanged.more != 0).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        derive,
        graph::graph,
        policy::Policy,
        rules::five_inch::{five_inch, five_inch_build},
        rules::trial,
    };

    fn between(before: &str, after: &str, build: &str) -> Change {
        change_of(before, after, build, build)
    }

    fn figure(change: &Change, key: &str) -> Delta {
        change.each().find(|(figure, _)| figure.key == key).unwrap().1.unwrap()
    }

    #[test]
    fn every_figure_is_derived_and_every_input_has_its_part() {
        let craft = trial::craft(five_inch!(), five_inch_build!());
        let store = graph().derive(&craft, &Policy::default());
        for figure in FIGURES {
            assert!(derive::ALL.iter().any(|derivation| derivation.id == figure.id), "{}", figure.id);
            let solved = solved_figure(&store, figure.id).unwrap();
            for input in &solved.contributions {
                let known = input.name == ALL_PARTS || BEHIND.iter().any(|(name, _)| *name == input.name);
                assert!(known, "{}", input.name);
            }
        }
    }

    #[test]
    fn the_same_craft_changes_nothing() {
        let change = between(five_inch!(), five_inch!(), five_inch_build!());
        assert_eq!(change.cost, Some(Vec::new()));
        assert!(change.mass.unwrap().none);
        assert!(change.each().all(|(_, delta)| delta.unwrap() == Delta { by: delta.unwrap().by, none: true }));
    }

    #[test]
    fn a_small_sure_change_is_told_and_a_large_unsure_one_is_none() {
        // A frame 60 g heavier: the errors of motors, propellers and pack are the same in both.
        let heavier = five_inch!().replace(r#"id: "f", name: "Frame", mass_g: 118"#, r#"id: "h", name: "Heavy", mass_g: 178"#);
        let build = five_inch_build!();
        let change = change_of(five_inch!(), &heavier, build, &build.replace(r#"part: "f""#, r#"part: "h""#));
        let calm = figure(&change, "calm_min");
        assert!(!calm.none && calm.by.high < 0, "{calm:?}");
        // Another propeller of the same size: its thrust and power are unknown by 17 %, whatever the nominals say.
        let other = five_inch!().replace(r#"id: "p", name: "Propeller", mass_g: 4"#, r#"id: "q", name: "Other", mass_g: 4.2"#);
        let change = change_of(five_inch!(), &other, build, &build.replace(r#"part: "p""#, r#"part: "q""#));
        assert!(figure(&change, "calm_min").none);
        assert!(!change.mass.unwrap().none || change.mass.unwrap().by.low <= 0);
    }

    fn change_of(before: &str, after: &str, old: &str, new: &str) -> Change {
        let [one, other] = [trial::report(before, old), trial::report(after, new)];
        change((&one).into(), (&other).into())
    }

    #[test]
    fn prices_are_told_by_currency_or_not_at_all() {
        let parts = r#"(id: "a", name: "A", price: "10.00 EUR", fills: [Gps()]), (id: "b", name: "B", price: "12.50 EUR", fills: [Gps()]),
            (id: "c", name: "C", price: "9.00 GBP", fills: [Gps()]), (id: "d", name: "D", fills: [Gps()])"#;
        let build = |id: &str| format!("parts: [(slot: Gps, part: \"{id}\")]");
        let cost = |from: &str, to: &str| change_of(parts, parts, &build(from), &build(to)).cost;
        let money = |text: &str| text.parse::<Money>().unwrap();
        assert_eq!(cost("a", "b"), Some(vec![money("2.50 EUR")]));
        assert_eq!(cost("a", "c"), Some(vec![money("-10.00 EUR"), money("9.00 GBP")]));
        assert_eq!(cost("a", "d"), None, "what nobody priced is not free");
        assert_eq!(cost("a", "a"), Some(Vec::new()));
    }
}
