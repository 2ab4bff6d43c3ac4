//! Figures of one solve, and the derivations that show them one by one.

use propwright_schema::quantity::UnitInfo;

use super::{Model, gather::Gather, rig::refused};
use crate::{
    band::{Band, Pair, Propagated, PropagationError},
    calibration::Belief,
    finding::{Datum, Missing, Unknown},
    graph::{Derived, Property, Reading, Site, Store, derived},
    interval::Interval,
    models::error::ModelError,
};

/// Figures of one solve in SI units with their spreads, each by the id of the derivation that shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct Solved {
    figures: Vec<(&'static str, Propagated)>,
    working: Vec<(&'static str, Interval)>,
    /// Solved with the inputs as the logs have them, where there are logs; else with those listed.
    as_logged: bool,
}

impl Solved {
    /// Figures in the order of their ids.
    pub(super) fn new<const N: usize>(ids: [&'static str; N], each: [Propagated; N]) -> Self {
        Self { figures: ids.into_iter().zip(each).collect(), working: Vec::new(), as_logged: false }
    }

    /// The same with the figures on the way, by which a reader can follow it.
    pub(super) fn worked(self, working: Vec<(&'static str, Interval)>) -> Self {
        Self { working, ..self }
    }

    /// The same, solved with the inputs as the logs have them.
    pub(super) fn of_the_log(self) -> Self {
        Self { as_logged: true, ..self }
    }

    /// The figures on the way.
    pub(super) fn working(&self) -> &[(&'static str, Interval)] {
        &self.working
    }

    pub(super) fn figure(&self, id: &str) -> Option<&Propagated> {
        self.figures.iter().find(|(known, _)| *known == id).map(|(_, figure)| figure)
    }
}

impl Solved {
    /// The names of the inputs in their order.
    pub(super) fn inputs(&self) -> Vec<&'static str> {
        self.figures.first().map_or_else(Vec::new, |(_, figure)| figure.inputs().collect())
    }
}

/// A solved figure with its spread as the models have it, before any log, by the id of the derivation that shows it.
pub(crate) fn solved_figure<'a>(store: &'a Store, id: &str) -> Option<&'a Propagated> {
    solve_of(store, id)?.figure(id)
}

/// The solve that holds a figure.
fn solve_of<'a>(store: &'a Store, id: &str) -> Option<&'a Solved> {
    let of_solve = |reading: &'a Reading| match &reading.known {
        Ok(Datum::Model(model)) => match &**model {
            Model::Solved(solved) => solved.figure(id).map(|_| solved),
            _ => None,
        },
        _ => None,
    };
    store.values().flatten().find_map(of_solve)
}

/// The same after what the craft logged.
pub(crate) fn calibrated_figure(store: &Store, id: &str) -> Option<Propagated> {
    let belief = store.get(&CALIBRATION).and_then(|readings| readings.first());
    calibrated(solve_of(store, id)?, id, belief)
}

/// What logs say of the inputs; nothing without logs.
pub(super) const CALIBRATION: Property = derived("calibration");

/// What the logs say of the inputs, where there are any.
pub(super) fn belief(gather: &mut Gather) -> Option<Belief> {
    let reading = gather.reading(CALIBRATION)?;
    match &**reading.model().ok()? {
        Model::Calibration(belief) => Some(belief.clone()),
        _ => None,
    }
}

fn calibrated(solved: &Solved, id: &str, belief: Option<&Reading>) -> Option<Propagated> {
    let modelled = solved.figure(id)?;
    let belief = belief.and_then(|reading| reading.model().ok());
    let found = match belief.map(|model| &**model) {
        Some(Model::Calibration(belief)) => belief.after(modelled, solved.as_logged).ok(),
        _ => None,
    };
    Some(found.unwrap_or_else(|| modelled.clone()))
}

/// CT and CP stand at these places among the spreads of every solve, and go together.
pub(super) const THRUST_AND_POWER: Pair = Pair { first: 3, second: 4 };

/// What a failed propagation means for a finding.
pub(super) fn unsolved(error: &PropagationError<ModelError>) -> Missing {
    match error {
        PropagationError::Model(model) => refused(model),
        other => Missing { subject: None, what: Unknown::Outside(other.to_string()) },
    }
}

/// A band in SI units as a figure in a unit.
pub(super) fn figure(band: &Band, unit: &'static UnitInfo) -> Datum {
    // What is chosen, such as a speed to fly at, has no spread.
    if band.low() >= band.high() {
        return Datum::Figure(Interval::nearest(band.nominal(), unit));
    }
    Datum::Figure(Interval::outward(band.low(), band.nominal(), band.high(), unit))
}

/// One figure of the solve that `from` holds.
pub(super) fn shown(site: &Site, from: Property, id: &str, unit: &'static UnitInfo) -> Vec<Derived> {
    let mut gather = Gather::new(site);
    let Some(reading) = gather.reading(from) else { return Vec::new() };
    let strange = || Missing { subject: None, what: Unknown::Outside("not solved".to_owned()) };
    let belief = gather.reading(CALIBRATION);
    let known = reading.model().and_then(|model| match &**model {
        Model::Solved(solved) => {
            let found = calibrated(solved, id, belief.as_ref());
            found.map(|found| figure(&found.band, unit)).ok_or_else(strange)
        }
        _ => Err(strange()),
    });
    gather.one(known)
}

/// Derivations that show the figures of one solve, one line each: constant, id, title, formula, unit.
macro_rules! figures {
    (from $from:expr; $($(#[doc = $doc:literal])+ $constant:ident = $id:literal, $title:literal, $formula:literal, $unit:expr;)+) => {
        $(
            $(#[doc = $doc])+
            pub(crate) const $constant: super::Derivation = super::Derivation {
                id: $id,
                title: $title,
                formula: $formula,
                source: "",
                reads: &[$from, super::solved::CALIBRATION],
                run: |site| super::solved::shown(site, $from, $id, $unit),
            };
        )+
    };
}

pub(super) use figures;
