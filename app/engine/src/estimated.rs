//! Figures that the user estimates for a build: they stand where nobody published one, are called estimates wherever they are
//! told, widen every band that rests on them, and can warn, never forbid.

use std::{collections::BTreeMap, sync::Arc};

use propwright_schema::{
    part::{Basis, Part},
    slot::Slot,
    value::{Describe as _, Field, Value},
};

use crate::{
    craft::{Craft, Subject},
    finding::{Because, Claim, Datum, Finding, Origin, Status},
    fit::repair::Fault,
    graph::{Of, Store, graph},
    interval::Interval,
    policy::Policy,
};

/// An estimate of the list, and what became of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimated {
    /// The part in its slot.
    pub subject: Subject,
    /// Word of the role that has the field; none for the mass.
    pub role: Option<&'static str>,
    /// The field.
    pub field: &'static Field,
    /// What was estimated.
    pub value: Value,
    /// The figure that counts in its place, and who vouches for it when it is not the maker; absent while the estimate counts.
    pub instead: Option<(Value, Option<Basis>)>,
}

impl Estimated {
    /// The estimate as a fact.
    pub fn fact(&self) -> Arc<Because> {
        let (subject, basis) = (Some(self.subject.clone()), Some(Basis::Estimate));
        let datum = Datum::Value(self.value.clone());
        Because::plain(Claim::Fact { subject, field: self.field.name, datum, basis, origin: Origin::Build })
    }
}

/// Every estimate of a craft's list, once a part.
pub fn estimates(craft: &Craft) -> Vec<Estimated> {
    let mut told = Vec::new();
    for estimate in &craft.build.estimates {
        let Some(placed) = craft.listed().find(|placed| placed.fitted.part == estimate.part) else { continue };
        for (role, field, value) in estimate.figures() {
            let slot =
                placed.subject.part.filled_from(placed.subject.slot).into_iter().find(|(_, filled)| Some(filled.word()) == role);
            let of_slot = slot.and_then(|(slot, _)| craft.of_line(placed.line).find(|other| other.subject.slot == slot));
            let subject = of_slot.map_or(&placed.subject, |other| &other.subject).clone();
            let counts = craft.is_estimated(&subject.part, role, field.name);
            let held = held(&subject.part, role, field.name).filter(|_| !counts);
            let instead = held.map(|held| (held, subject.part.basis_of(field.name)));
            told.push(Estimated { subject, role, field, value, instead });
        }
    }
    told
}

fn held(part: &Part, role: Option<&str>, field: &str) -> Option<Value> {
    match role {
        None => part.mass_g.map(|mass| mass.value()),
        Some(word) => part.fills.iter().find(|role| role.word() == word)?.get(field),
    }
}

fn put(part: &mut Part, role: Option<&str>, field: &str, value: Option<&Value>) -> bool {
    match role {
        None => {
            part.mass_g = value.and_then(propwright_schema::quantity::Grams::from_value);
            true
        }
        Some(word) => part.fills.iter_mut().find(|role| role.word() == word).is_some_and(|role| role.set(field, value)),
    }
}

/// Lets the estimates of the list stand where the parts' records say nothing.
pub(crate) fn assume(craft: &mut Craft) {
    let build = Arc::clone(&craft.build);
    for estimate in &build.estimates {
        let lines = build.parts.iter().enumerate().filter(|(_, fitted)| fitted.part == estimate.part);
        for (line, _) in lines {
            let Some(placed) = craft.of_line(line).next() else { continue };
            let mut part = (*placed.subject.part).clone();
            for (role, field, value) in estimate.figures() {
                if held(&part, role, field.name).is_none() && put(&mut part, role, field.name, Some(&value)) {
                    part.basis.insert(field.name.to_owned(), Basis::Estimate);
                    craft.estimated.insert((part.id.clone(), role, field.name));
                }
            }
            craft.replace(line, &Arc::new(part));
        }
    }
}

/// The same craft without the estimates of its list; none when it has none that counts.
fn without(craft: &Craft) -> Option<Craft> {
    let mut bare = craft.clone();
    let mut any = false;
    for (line, fitted) in craft.build.parts.iter().enumerate() {
        let Some(placed) = craft.of_line(line).next() else { continue };
        let mut part = (*placed.subject.part).clone();
        for estimate in craft.build.estimates.iter().filter(|estimate| estimate.part == fitted.part) {
            for (role, field, _) in estimate.figures() {
                if !craft.is_estimated(&part, role, field.name) {
                    continue;
                }
                any |= put(&mut part, role, field.name, None);
                part.basis.remove(field.name);
            }
        }
        bare.replace(line, &Arc::new(part));
    }
    bare.estimated.clear();
    any.then_some(bare)
}

/// A mismatch that is none without the estimates is told as tight: an estimate can warn, never forbid.
///
/// Only what a rule reads decides; where the same parts do not go together without the estimates either, they excuse nothing.
pub(crate) fn warned(mut findings: Vec<Finding>, craft: &Craft, policy: &Policy) -> Vec<Finding> {
    if craft.estimated.is_empty() || !findings.iter().any(Finding::forbids) {
        return findings;
    }
    let Some(bare) = without(craft) else { return findings };
    let mut known: BTreeMap<&'static str, Vec<Fault>> = BTreeMap::new();
    for finding in findings.iter_mut().filter(|finding| finding.forbids()) {
        if !reads_estimates(craft, finding.rule) {
            continue;
        }
        let faults = known.entry(finding.rule).or_insert_with_key(|rule| {
            let judged = graph().toward(rule).run(&bare, policy, &mut Store::new());
            judged.iter().filter(|finding| finding.forbids()).map(Fault::of).collect()
        });
        if !faults.contains(&Fault::of(finding)) {
            finding.outcome.verdict.status = Status::Tight;
        }
    }
    findings
}

/// Does a rule read, by whatever way, a figure that is estimated?
fn reads_estimates(craft: &Craft, rule: &str) -> bool {
    graph().path(rule).iter().any(|property| {
        let Of::Part(slot) = property.of else { return false };
        let field = property.field.split('.').next().unwrap_or(property.field);
        craft.in_slot(slot).iter().any(|placed| craft.basis_of(&placed.subject, field).1)
    })
}

/// Half the width of a band from P5 to P95 in standard deviations.
const BAND: f64 = 1.645;

/// One standard deviation of an estimate, by its field, else by its dimension. Windings, no-load currents, packs, drag areas and
/// burst ratings as wide as the program's own estimates of them; all else common practice, no source.
pub(crate) fn sigma(slot: Slot, field: &str, dimension: &str) -> f64 {
    match (slot, field, dimension) {
        (Slot::Battery, "resistance_mohm", _) => 0.30,
        (_, "no_load_current_a", _) | (_, _, "area") => 0.25,
        (_, _, "resistance") => 0.20,
        (_, _, "current" | "burst current" | "charge rate") => 0.30,
        _ => OTHER_SIGMA,
    }
}

/// Of masses, lengths, volts and all that is no current and no resistance.
pub(crate) const OTHER_SIGMA: f64 = 0.10;

/// A figure with the band of an estimate: `x·exp(±1.645·s)`, rounded outward; a count has none.
pub(crate) fn widened(figure: Interval, slot: Slot, field: &str) -> Interval {
    if figure.unit.dimension == "count" {
        return figure;
    }
    let factor = (BAND * sigma(slot, field, figure.unit.dimension)).exp();
    let si = figure.si();
    let (one, other) = (si / factor, si * factor);
    Interval::outward(one.min(other), si, one.max(other), figure.unit)
}
