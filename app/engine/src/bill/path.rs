//! What learning to fly costs: a simulator, a trainer, the next craft, with what is carried over and what breaks.
//!
//! The pilot's shelf goes along from craft to craft: the ground kit of one is drawn for the next, and so is what packs left
//! over. What breaks and wears is an assumption, stated beside the sum.

use std::sync::Arc;

use propwright_schema::{
    build_list::{BuildList, Spare, Training},
    catalogue::Catalogue,
    part::{Part, Role},
    quantity::Money,
    slot::Slot,
};

use super::{Bill, Given, Need, Total, spare::has_arms, stock};
use crate::{
    craft::{Craft, Placed},
    policy::Policy,
    report::evaluate_with,
};

/// What is assumed of a learner's wear (common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Wear {
    /// Hours in a simulator before the first flight; they break nothing.
    pub simulator_h: u32,
    /// What the simulator costs; `None` while nobody said.
    pub simulator_price: Option<Money>,
    /// Hours flown with each craft of the way.
    pub flown_h: u32,
    /// Sets of propellers broken in ten hours on a craft with ducts or guards.
    pub sets_guarded: u32,
    /// The same on an open craft.
    pub sets_open: u32,
    /// Arms broken in ten hours on an open craft, where an arm can be replaced alone.
    pub arms: u32,
    /// Flights after which a pack is worn.
    pub pack_flights: u32,
}

impl Wear {
    /// What a build list assumes; what it does not say is as usual.
    pub fn of(training: Option<&Training>) -> Self {
        let Some(training) = training else { return WEAR };
        Self {
            simulator_h: training.simulator_hours.unwrap_or(WEAR.simulator_h),
            simulator_price: training.simulator_price,
            flown_h: training.hours.unwrap_or(WEAR.flown_h),
            sets_guarded: training.sets_guarded.unwrap_or(WEAR.sets_guarded),
            sets_open: training.sets_open.unwrap_or(WEAR.sets_open),
            arms: training.arms.unwrap_or(WEAR.arms),
            pack_flights: training.pack_flights.unwrap_or(WEAR.pack_flights),
        }
    }
}

/// The usual wear.
pub const WEAR: Wear =
    Wear { simulator_h: 15, simulator_price: None, flown_h: 10, sets_guarded: 2, sets_open: 8, arms: 1, pack_flights: 150 };

/// One craft of the path.
#[derive(Debug, Clone)]
pub struct Stage {
    /// The craft.
    pub build: Arc<BuildList>,
    /// Hours flown with it.
    pub flown_h: u32,
}

/// What one craft of the path costs.
#[derive(Debug, Clone)]
pub struct Step {
    /// Name of the craft.
    pub name: String,
    /// Hours flown with it.
    pub flown_h: u32,
    /// Flights in these hours; `None` while nobody knows how long a flight is: worn packs are then left out.
    pub flights: Option<u32>,
    /// What breaks and wears in these hours, bought with it.
    pub worn: Vec<Spare>,
    /// What is carried over from the shelf and from earlier craft.
    pub carried: Vec<(Arc<Part>, u32)>,
    /// The bill, with what breaks and wears among the spares.
    pub bill: Bill,
}

/// What the whole path costs.
#[derive(Debug, Clone)]
pub struct Course {
    /// The assumptions.
    pub wear: Wear,
    /// The craft in order.
    pub steps: Vec<Step>,
    /// The simulator and all bills together.
    pub total: Total,
}

/// The cost of flying several craft one after the other.
pub fn course(catalogue: &Catalogue, stages: &[Stage], policy: &Policy, given: &Given, wear: Wear) -> Course {
    let mut given = given.clone();
    let mut steps = Vec::new();
    for stage in stages {
        let step = step(catalogue, stage, policy, &given, wear);
        let kept = step.bill.lines.iter().filter(|line| matches!(line.need, Need::Fitted(_)) && line.slot.on_ground());
        given.stock = stock::returned(&stock::after(&given.stock, &step.bill), kept);
        steps.push(step);
    }
    let amounts = steps.iter().flat_map(|step: &Step| step.bill.total.sums.iter().copied()).chain(wear.simulator_price);
    Course { wear, total: Total::of(amounts, given.rates.as_ref()), steps }
}

fn step(catalogue: &Catalogue, stage: &Stage, policy: &Policy, given: &Given, wear: Wear) -> Step {
    let report = evaluate_with(catalogue, &stage.build, policy, given);
    // Both in whole milliseconds.
    let flight = report.figure("time-calm").map(|minutes| minutes.nominal).filter(|time| *time > 0);
    let flown = i64::from(stage.flown_h) * 3_600_000;
    let flights = flight.and_then(|flight| u32::try_from((flown + flight - 1) / flight).ok());
    let worn = worn(&report.craft, stage.flown_h, flights, wear);
    let mut build = BuildList::clone(&stage.build);
    build.spares.extend(worn.iter().cloned());
    let bill = super::bill(catalogue, &Craft::new(catalogue, &Arc::new(build)), given);
    let carried = bill.lines.iter().filter(|line| !line.drawn.is_empty());
    let carried = carried.map(|line| (Arc::clone(&line.part), line.drawn_count())).collect();
    Step { name: stage.build.name.clone(), flown_h: stage.flown_h, flights, worn, carried, bill }
}

/// What breaks and wears in some hours of a craft.
fn worn(craft: &Craft, flown_h: u32, flights: Option<u32>, wear: Wear) -> Vec<Spare> {
    let guarded = craft.in_slot(Slot::Frame).iter().any(|placed| is_guarded(&placed.subject.part));
    let in_ten = |times: u32| flown_h.saturating_mul(times).div_ceil(10);
    let sets = in_ten(if guarded { wear.sets_guarded } else { wear.sets_open });
    let packs = flights.unwrap_or(0) / wear.pack_flights.max(1);
    let spare = |placed: &Placed| {
        let (part, each) = (&placed.subject.part, placed.fitted.count);
        let (count, arm) = match placed.subject.slot {
            Slot::Propeller => (sets.saturating_mul(each), false),
            Slot::Battery => (packs.saturating_mul(each), false),
            Slot::Frame if !guarded && has_arms(part) => (in_ten(wear.arms), true),
            _ => (0, false),
        };
        (count > 0).then(|| Spare { part: part.id.clone(), arm, count, note: None })
    };
    craft.listed().filter_map(spare).collect()
}

fn is_guarded(part: &Part) -> bool {
    let open = propwright_schema::part::Guard::Open;
    part.fills.iter().any(|role| matches!(role, Role::Frame(frame) if frame.guard.is_some_and(|guard| guard != open)))
}
