//! The whole report of a build: findings, cautions, advice, totals.

use std::sync::Arc;

use propwright_schema::{
    build_list::BuildList,
    catalogue::Catalogue,
    quantity::{MPerS, Money, Unit},
    slot::Slot,
};

pub use crate::flight::{Deciding, Flight, Mixes, Radius, Times, Told, TurnBack};
use crate::{
    band::Contribution,
    bill::{self, Bill, Given},
    craft::{Craft, Placed},
    explain,
    finding::{Because, Finding, Status},
    flight,
    graph::{self, Reading, Store, derived},
    interval::Interval,
    measured,
    policy::Policy,
    purpose,
    rules::Weight,
};

/// What the build adds up to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Totals {
    /// What is left to pay, one amount a currency; parts on the shelf are left out.
    pub cost: Vec<Money>,
    /// Slots with a part that has no price and is not owned.
    pub unpriced: Vec<Slot>,
    /// Slots on the craft with a part whose mass nobody published; while there are any, the sums are not known.
    pub unweighed: Vec<Slot>,
    /// Mass without packs and payload.
    pub dry_mass: Option<Interval>,
    /// Mass at take-off: dry, packs, payload, and the allowance for wire, solder and screws.
    pub takeoff_mass: Option<Interval>,
}

/// The report of one build.
#[derive(Debug, Clone)]
pub struct Report {
    /// The craft that was judged.
    pub craft: Craft,
    /// Findings that can forbid, gravest first.
    pub findings: Vec<Finding>,
    /// Cautions about law, transport and hazards.
    pub cautions: Vec<Finding>,
    /// Advice on purpose, pilot and place.
    pub advice: Vec<Finding>,
    /// All findings, silent ones included, that hang on purpose, pilot or conditions; gravest first.
    pub asked: Vec<Finding>,
    /// Mass and price.
    pub totals: Totals,
    /// The figures of the flight; `None` when they cannot be solved, and then the rule `flies` says why.
    pub flight: Option<Flight>,
    /// What is bought, line by line, and what is drawn from the shelf.
    pub bill: Bill,
    /// What was measured and stands for a model's or a maker's figure, or calibrates one: facts for [`crate::explain::headline`].
    pub measured: Vec<Arc<Because>>,
    /// All derived values with their reasons, for the working of a figure.
    pub(crate) store: Store,
}

/// Judges a build as a whole.
///
/// Pure: the same catalogue, build and policy give the same report, in whatever order the slots are listed.
pub fn evaluate(catalogue: &Catalogue, build: &Arc<BuildList>, policy: &Policy) -> Report {
    evaluate_with(catalogue, build, policy, &Given::default())
}

/// The same with the user's shelf and rates: parts on the shelf are not paid, and what was measured of them stands for the
/// maker's figures.
pub fn evaluate_with(catalogue: &Catalogue, build: &Arc<BuildList>, policy: &Policy, given: &Given) -> Report {
    let (craft, bill) = bill::crafted(catalogue, build, given);
    let graph = graph::graph();
    let store = graph.derive(&craft, policy);
    let mut all = graph::judge(&craft, &store, policy, |_| true);
    all.sort_by_key(|finding| std::cmp::Reverse(finding.status()));
    let of = |wanted: Weight| all.iter().filter(move |finding| explain::weight(finding) == wanted).cloned();
    let speaks = |finding: &Finding| matches!(finding.status(), Status::Mismatch | Status::Tight);
    let (measured, modelled) = measured::without(&craft);
    let wind = craft.build.conditions.wind_ms.map(|wind| Interval::exact(wind.steps(), &MPerS::INFO));
    let mut flight = flight::flight(&store, wind);
    if let (Some(flight), Some(modelled)) = (&mut flight, modelled) {
        flight::beside(flight, &graph.derive(&modelled, policy));
    }
    if let Some(flight) = flight.as_mut().filter(|_| !craft.estimated.is_empty()) {
        flight::mark_estimated(flight, &store);
    }
    Report {
        measured,
        findings: of(Weight::Finding).collect(),
        cautions: of(Weight::Caution).filter(speaks).collect(),
        advice: of(Weight::Advice).filter(speaks).collect(),
        asked: all.iter().filter(|finding| purpose::is_asked(finding)).cloned().collect(),
        flight,
        totals: totals(&craft, &store, &bill),
        bill,
        craft,
        store,
    }
}

/// All that the rules find on a build, fits and silent advice included: for tests and help.
pub fn every_finding(catalogue: &Catalogue, build: &Arc<BuildList>, policy: &Policy) -> Vec<Finding> {
    let craft = Craft::new(catalogue, build);
    graph::judge(&craft, &graph::graph().derive(&craft, policy), policy, |_| true)
}

impl Report {
    /// The values of a derivation by its id, with their reasons.
    pub fn derived(&self, id: &'static str) -> &[Reading] {
        self.store.get(&derived(id)).map_or(&[], Vec::as_slice)
    }

    /// The one value of a derivation as a figure, when it is known.
    pub fn figure(&self, id: &'static str) -> Option<Interval> {
        self.derived(id).first().and_then(|reading| reading.figure().ok())
    }

    /// Does a derived value rest on a figure that the user estimated?
    pub fn rests_on_estimates(&self, id: &'static str) -> bool {
        !self.craft.estimated.is_empty() && self.derived(id).first().is_some_and(|reading| reading.because.is_own_estimate())
    }

    /// What each uncertain input adds to the spread of a figure of the flight, by the figure's id, greatest first.
    pub fn contributions(&self, id: &str) -> Vec<Contribution> {
        flight::contributions(&self.store, id)
    }

    /// How many empty slots findings want filled.
    pub fn to_choose(&self) -> usize {
        self.findings.iter().filter_map(Finding::vacant).count()
    }

    /// How many findings about parts that are there weigh so: what is not chosen yet is no conflict.
    pub fn count_chosen(&self, status: Status) -> usize {
        self.findings.iter().filter(|finding| finding.vacant().is_none() && finding.status() == status).count()
    }

    /// How many findings weigh so.
    pub fn count(&self, status: Status) -> usize {
        self.findings.iter().filter(|finding| finding.status() == status).count()
    }
}

fn totals(craft: &Craft, store: &Store, bill: &Bill) -> Totals {
    let figure = |id| store.get(&derived(id)).and_then(|readings| readings.first()?.figure().ok());
    let unweighed = |placed: &&Placed| placed.subject.part.mass_g.is_none() && !placed.subject.slot.on_ground();
    let mut totals = Totals {
        cost: bill.total.amounts.clone(),
        unpriced: bill.unpriced().map(|line| line.slot).collect(),
        unweighed: craft.listed().filter(unweighed).map(|placed| placed.subject.slot).collect(),
        dry_mass: figure("dry-mass"),
        takeoff_mass: figure("takeoff-mass"),
    };
    totals.unpriced.dedup();
    totals.unweighed.dedup();
    totals
}
