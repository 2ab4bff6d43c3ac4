//! What might remove a mismatch, the cheapest first: wiring and settings where the rule looks at them, then other parts, parts
//! that are added, and last what is left out. Nothing here is judged yet.

use std::collections::BTreeSet;

use propwright_schema::{
    build_list::{Arrangement, Feed},
    catalogue::Catalogue,
    part::Part,
    quantity::{Millimetres, Percent},
    slot::Slot,
    value::Value,
};

use super::{
    super::{closeness::distance, place::Place},
    conflict::{at, lines_told},
    step::{At, Step},
};
use crate::{
    craft::{Craft, Placed},
    derive::feed::{ALWAYS_ON_PACK, BOARDS, FED},
    finding::Finding,
    graph::{Of, Property, graph},
    rules::{self, Rule},
};

/// What a way out costs, the dearest trouble first.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cost {
    /// Lines left out whose slot nothing new fills.
    pub removed: usize,
    /// New parts whose price is not known, or is in another currency than most.
    pub unpriced: usize,
    /// Price of the new parts in whole packs, in the smallest coin of the list's first currency.
    pub minor: i64,
    /// Steps.
    pub steps: usize,
}

impl Cost {
    /// The cost of steps for a list that is paid in `currency`.
    pub fn of(steps: &[Step], currency: Option<&str>) -> Self {
        let mut cost = Self { steps: steps.len(), ..Self::default() };
        for step in steps {
            cost.removed += usize::from(step.removes() && !is_replaced(step, steps));
            match step.price() {
                Some(price) if currency.is_none_or(|home| home == price.currency()) => {
                    cost.minor = cost.minor.saturating_add(price.minor());
                }
                _ => cost.unpriced += usize::from(step.buys().is_some() || step.is_unpriced()),
            }
        }
        cost
    }
}

/// Does another part that is bought do what the one that is left out did?
fn is_replaced(out: &Step, steps: &[Step]) -> bool {
    let Step::Remove(at) = out else { return false };
    steps.iter().filter_map(Step::buys).any(|(part, _)| part.role(at.slot).is_some())
}

/// Ways out of one kind, of which the cheapest few are told.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Family {
    Wiring(usize),
    Setting(&'static str),
    Swap(usize),
    Add(Slot),
    Regulator(usize),
    Remove(usize),
}

impl Family {
    /// How many of it are told.
    pub(super) const fn told(&self) -> usize {
        match self {
            Self::Setting(_) | Self::Remove(_) | Self::Regulator(_) => 1,
            Self::Wiring(_) | Self::Swap(_) | Self::Add(_) => 2,
        }
    }
}

/// Steps that might do.
#[derive(Debug, Clone)]
pub(super) struct Candidate {
    pub(super) steps: Vec<Step>,
    pub(super) family: Family,
    pub(super) cost: Cost,
    /// How far the new part is from the old one, in thousandths.
    apart: u32,
}

/// All that might remove a mismatch of a craft, the cheapest first.
pub(super) fn candidates(catalogue: &Catalogue, craft: &Craft, finding: &Finding, currency: Option<&str>) -> Vec<Candidate> {
    let Some(rule) = rules::by_id(finding.rule) else { return Vec::new() };
    let hunt = Hunt { catalogue, craft, finding, rule, path: graph().path(finding.rule), told: told(craft, finding) };
    let mut all: Vec<(Vec<Step>, Family, u32)> = Vec::new();
    hunt.wiring(&mut all);
    hunt.settings(&mut all);
    hunt.swaps(&mut all);
    hunt.additions(&mut all);
    hunt.removals(&mut all);
    let mut all: Vec<Candidate> = all
        .into_iter()
        .map(|(steps, family, apart)| Candidate { cost: Cost::of(&steps, currency), steps, family, apart })
        .collect();
    all.sort_by_key(|candidate| (candidate.cost, candidate.apart));
    all
}

/// Output limits that are tried, in per cent; the least cut comes first.
const LIMITS: [f64; 10] = [95.0, 90.0, 85.0, 80.0, 75.0, 70.0, 65.0, 60.0, 55.0, 50.0];
/// Counts that are tried.
const COUNTS: [u32; 8] = [1, 2, 3, 4, 5, 6, 8, 12];
/// Washers that are tried, mm: one of 0.3 mm (M2) or 0.5 mm (M2.5, M3) by ISO 7089, or several of them.
const WASHERS: [f64; 6] = [0.3, 0.5, 0.6, 1.0, 1.5, 2.0];
/// Serial ports that are tried.
const PORTS: std::ops::RangeInclusive<u32> = 1..=10;

/// The lines that the reason of a finding tells of.
fn told(craft: &Craft, finding: &Finding) -> BTreeSet<usize> {
    let mut told = BTreeSet::new();
    for (_, because) in &finding.outcome.facts {
        lines_told(craft, because, &mut told);
    }
    told
}

struct Hunt<'a> {
    catalogue: &'a Catalogue,
    craft: &'a Craft,
    finding: &'a Finding,
    rule: &'static Rule,
    path: BTreeSet<Property>,
    told: BTreeSet<usize>,
}

type Found = Vec<(Vec<Step>, Family, u32)>;

impl Hunt<'_> {
    /// The lines that the finding is about, those in the way first.
    fn about(&self) -> Vec<&Placed> {
        let of = |subject: &crate::craft::Subject| self.craft.in_slot(subject.slot).get(subject.index);
        let mut lines: Vec<&Placed> = Vec::new();
        for placed in self.finding.outcome.subjects.iter().filter_map(of) {
            if !lines.iter().any(|known| known.line == placed.line) {
                lines.push(placed);
            }
        }
        lines
    }

    /// Those, and all in the slots that the rule joins.
    fn joined(&self) -> Vec<&Placed> {
        let mut lines = self.about();
        for placed in self.rule.slots.iter().flat_map(|slot| self.craft.in_slot(*slot)) {
            if !lines.iter().any(|known| known.line == placed.line) {
                lines.push(placed);
            }
        }
        lines
    }

    fn reads_line(&self, slot: Slot, field: &str) -> bool {
        self.path.iter().any(|property| property.of == Of::Line(slot) && property.field == field)
    }

    fn reads_build(&self, field: &str) -> bool {
        self.path.iter().any(|property| property.of == Of::Build && property.field == field)
    }

    /// The listed parts of the reason whose line the rule reads in this field.
    fn wired(&self, field: &'static str) -> impl Iterator<Item = &Placed> {
        let listed = self.craft.listed().filter(|placed| self.told.contains(&placed.line));
        listed.filter(move |placed| self.reads_line(placed.subject.slot, field))
    }

    fn wiring(&self, found: &mut Found) {
        for placed in self.wired("feed").filter(|placed| can_be_moved(placed.subject.slot)) {
            let sources = std::iter::once(Feed::Pack).chain(rails(self.craft).into_iter().map(Feed::Rail));
            for to in sources.filter(|to| placed.fitted.feed.as_ref() != Some(to)) {
                found.push((vec![Step::Feed { at: at(placed), to }], Family::Wiring(placed.line), 0));
            }
        }
        for placed in self.wired("uart") {
            for to in PORTS.filter(|to| placed.fitted.uart != Some(*to)) {
                found.push((vec![Step::Uart { at: at(placed), to }], Family::Wiring(placed.line), 0));
            }
        }
        found.extend(self.washers());
        if self.reads_line(Slot::Motor, "outputs") {
            found.extend(self.renumbered());
        }
        let reads_count = self.rule.reads.iter().any(|property| property.field == "count");
        for placed in self.about().into_iter().filter(|placed| reads_count && placed.listed_here) {
            let motors = self.craft.in_slot(Slot::Motor).iter().map(|placed| placed.fitted.count).sum();
            let counts = COUNTS.into_iter().chain((!COUNTS.contains(&motors)).then_some(motors));
            for to in counts.filter(|to| *to > 0 && *to != placed.fitted.count) {
                found.push((vec![Step::Count { at: at(placed), to }], Family::Wiring(placed.line), 0));
            }
        }
    }

    /// Washers more under the heads of the motor screws, the thinnest first, or none.
    fn washers(&self) -> Found {
        let mut found = Found::new();
        for placed in self.wired("between_mm") {
            let now = placed.fitted.between_mm.map_or(0.0, Millimetres::decimal);
            let none = (now > 0.0).then_some(0.0);
            for (order, to) in (0..).zip(none.into_iter().chain(WASHERS.map(|more| now + more))) {
                let step = Millimetres::from_decimal(to).map(|to| Step::Washers { at: at(placed), to });
                found.extend(step.ok().map(|step| (vec![step], Family::Setting("washers"), order)));
            }
        }
        found
    }

    /// The motors on the first outputs, in the order of the list.
    fn renumbered(&self) -> Option<(Vec<Step>, Family, u32)> {
        let mut next = 1;
        let mut steps = Vec::new();
        for placed in self.craft.in_slot(Slot::Motor).iter().filter(|placed| placed.listed_here) {
            let to: Vec<u32> = (next..).take(placed.fitted.count.min(32) as usize).collect();
            next += placed.fitted.count;
            if placed.fitted.outputs.as_ref() != Some(&to) {
                steps.push(Step::Outputs { at: at(placed), to });
            }
        }
        (!steps.is_empty()).then_some((steps, Family::Setting("outputs"), 0))
    }

    fn settings(&self, found: &mut Found) {
        let packs: u32 = self.craft.in_slot(Slot::Battery).iter().map(|placed| placed.fitted.count).sum();
        if self.reads_build("packs") && packs > 1 {
            for to in Arrangement::ALL.iter().filter(|to| self.craft.build.packs != Some(**to)) {
                found.push((vec![Step::Packs(*to)], Family::Setting("packs"), 0));
            }
        }
        if self.reads_build("output_limit_percent") {
            let now = self.craft.build.output_limit_percent.map_or(100.0, Percent::decimal);
            let limits = LIMITS.into_iter().filter(|limit| *limit < now).filter_map(|limit| Percent::from_decimal(limit).ok());
            for (order, to) in (0..).zip(limits) {
                found.push((vec![Step::OutputLimit(to)], Family::Setting("output limit"), order));
            }
        }
    }

    fn swaps(&self, found: &mut Found) {
        for placed in self.joined() {
            let at = at(placed);
            let Some(old) = self.craft.build.parts.get(at.line) else { continue };
            let count = old.count;
            for to in self.sold(at.slot).filter(|to| to.id != at.part.id) {
                let apart = distance(&at.part, to, at.slot).map_or(1000, thousandths);
                let mut steps = vec![Step::Swap { at: at.clone(), to: to.clone(), count }];
                steps.extend(self.made_idle(&at, to));
                found.push((steps, Family::Swap(at.line), apart));
            }
        }
    }

    /// What a part with several roles makes idle: the lines of the slots that it fills besides.
    fn made_idle(&self, at: &At, to: &Part) -> Vec<Step> {
        let filled = to.filled_from(at.slot).into_iter().map(|(slot, _)| slot).filter(|slot| *slot != at.slot);
        let idle = filled.flat_map(|slot| self.craft.in_slot(slot)).filter(|placed| placed.listed_here && placed.line != at.line);
        idle.map(|placed| Step::Remove(self::at(placed))).collect()
    }

    fn sold(&self, slot: Slot) -> impl Iterator<Item = &std::sync::Arc<Part>> {
        self.catalogue.for_slot(slot).filter(|part| !part.retired)
    }

    fn additions(&self, found: &mut Found) {
        for slot in self.rule.slots.iter().filter(|slot| self.craft.in_slot(**slot).is_empty()) {
            for part in self.sold(*slot) {
                found.push((vec![self.add(*slot, part, None)], Family::Add(*slot), 0));
            }
        }
        for placed in self.wired("feed").filter(|placed| can_be_moved(placed.subject.slot)) {
            for part in self.sold(Slot::Regulator) {
                for rail in rails_of(part, Slot::Regulator) {
                    let steps = vec![
                        self.add(Slot::Regulator, part, Some(Feed::Pack)),
                        Step::Feed { at: at(placed), to: Feed::Rail(rail) },
                    ];
                    found.push((steps, Family::Regulator(placed.line), 0));
                }
            }
        }
    }

    fn add(&self, slot: Slot, part: &std::sync::Arc<Part>, feed: Option<Feed>) -> Step {
        let put = Place { slot, line: None }.put(self.craft, &part.id);
        let count = put.build.parts.get(put.line).map_or(1, |fitted| fitted.count);
        Step::Add { slot, part: part.clone(), count, feed }
    }

    /// What is not needed to fly, or is there more than once. What the craft carries is never left out: it flies for that.
    fn removals(&self, found: &mut Found) {
        let needed = rules::by_id("needed-to-fly").map_or(&[][..], |rule| rule.slots);
        for placed in self.about() {
            let At { slot, .. } = at(placed);
            let several = self.craft.in_slot(slot).len() > 1;
            if slot != Slot::Payload && slot != Slot::MotorScrew && (several || !needed.contains(&slot)) {
                found.push((vec![Step::Remove(at(placed))], Family::Remove(placed.line), 0));
            }
        }
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a distance lies between 0 and 1")]
fn thousandths(distance: f64) -> u32 {
    (distance * 1000.0) as u32
}

/// What hangs on the pack in any case has no other feed.
fn can_be_moved(slot: Slot) -> bool {
    FED.iter().skip(ALWAYS_ON_PACK).any(|fed| *fed == slot)
}

/// The names of all rails of the craft, each once.
fn rails(craft: &Craft) -> Vec<String> {
    let boards = BOARDS.iter().flat_map(|slot| craft.in_slot(*slot));
    let mut names: Vec<String> = Vec::new();
    for name in boards.flat_map(|placed| rails_of(&placed.subject.part, placed.subject.slot)) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

fn rails_of(part: &Part, slot: Slot) -> Vec<String> {
    let rails = part.role(slot).and_then(|role| role.get("rails"));
    let names = |rails: &Value| -> Vec<String> {
        rails.items().iter().filter_map(|rail| rail.field("name")?.word().map(str::to_owned)).collect()
    };
    rails.as_ref().map(names).unwrap_or_default()
}
