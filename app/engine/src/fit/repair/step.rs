//! One step of a way out: a change of a build list that a builder can carry out.

use std::{collections::BTreeSet, sync::Arc};

use propwright_schema::{
    build_list::{Arrangement, BuildList, Feed, Fitted},
    part::Part,
    quantity::{Millimetres, Money, Percent},
    slot::Slot,
};

use crate::{bill::price_of, graph::Touched};

/// A line of the list with its part of now.
#[derive(Debug, Clone, PartialEq)]
pub struct At {
    /// The line, counted from 0.
    pub line: usize,
    /// The slot in which it is listed.
    pub slot: Slot,
    /// The part of now.
    pub part: Arc<Part>,
}

/// One step.
#[derive(Debug, Clone, PartialEq)]
pub enum Step {
    /// Another part takes the place of a line's. It keeps count, feed, port and washers of the one before it.
    Swap {
        /// The line.
        at: At,
        /// The part that takes its place.
        to: Arc<Part>,
        /// How many.
        count: u32,
    },
    /// A part joins the list.
    Add {
        /// The slot in which it is listed.
        slot: Slot,
        /// The part.
        part: Arc<Part>,
        /// How many.
        count: u32,
        /// What it is fed from, where that must be said.
        feed: Option<Feed>,
    },
    /// A line is left out.
    Remove(At),
    /// A line is fed from elsewhere.
    Feed {
        /// The line.
        at: At,
        /// Its feed after the step.
        to: Feed,
    },
    /// A line moves to another serial port.
    Uart {
        /// The line.
        at: At,
        /// The port after the step.
        to: u32,
    },
    /// A line's motors hang on other outputs.
    Outputs {
        /// The line.
        at: At,
        /// The outputs after the step.
        to: Vec<u32>,
    },
    /// A line lists more or fewer.
    Count {
        /// The line.
        at: At,
        /// How many after the step.
        to: u32,
    },
    /// Washers of so much in all lie under each head of a line's screws.
    Washers {
        /// The line.
        at: At,
        /// Washers and pads between head and motor after the step; none at 0.
        to: Millimetres,
    },
    /// The packs are connected otherwise.
    Packs(Arrangement),
    /// The motor outputs are limited.
    OutputLimit(Percent),
}

fn filled(part: &Part, slot: Slot) -> impl Iterator<Item = Touched> {
    part.filled_from(slot).into_iter().map(|(slot, _)| Touched::Slot(slot))
}

impl Step {
    /// The line that it changes; absent for what joins the list and for settings of the list as a whole.
    pub const fn line(&self) -> Option<usize> {
        match self {
            Self::Swap { at, .. }
            | Self::Remove(at)
            | Self::Feed { at, .. }
            | Self::Uart { at, .. }
            | Self::Outputs { at, .. }
            | Self::Count { at, .. }
            | Self::Washers { at, .. } => Some(at.line),
            Self::Add { .. } | Self::Packs(_) | Self::OutputLimit(_) => None,
        }
    }

    /// The part that is to be bought, and how many.
    pub const fn buys(&self) -> Option<(&Arc<Part>, u32)> {
        match self {
            Self::Swap { to, count, .. } => Some((to, *count)),
            Self::Add { part, count, .. } => Some((part, *count)),
            Self::Count { at, to } => Some((&at.part, *to)),
            _ => None,
        }
    }

    /// What the new parts cost in whole packs; absent while that is not known, and for steps that buy nothing.
    pub fn price(&self) -> Option<Money> {
        self.buys().and_then(|(part, count)| price_of(part, count))
    }

    /// Can both be carried out?
    pub(super) fn goes_with(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Packs(_), Self::Packs(_)) | (Self::OutputLimit(_), Self::OutputLimit(_)) => false,
            (Self::Add { slot: one, .. }, Self::Add { slot: other, .. }) => one != other,
            _ => match (self.line(), other.line()) {
                (Some(one), Some(another)) => {
                    one != another || self.kind() != other.kind() && !self.removes() && !other.removes()
                }
                _ => true,
            },
        }
    }

    pub(super) const fn kind(&self) -> u8 {
        match self {
            Self::Swap { .. } => 0,
            Self::Add { .. } => 1,
            Self::Remove(_) => 2,
            Self::Feed { .. } => 3,
            Self::Uart { .. } => 4,
            Self::Outputs { .. } => 5,
            Self::Count { .. } => 6,
            Self::Packs(_) => 7,
            Self::OutputLimit(_) => 8,
            Self::Washers { .. } => 9,
        }
    }

    /// Does it ask for something small that no catalogue prices?
    pub const fn is_unpriced(&self) -> bool {
        matches!(self, Self::Washers { to, .. } if to.steps() != 0)
    }

    /// Does a part join the list?
    pub const fn adds(&self) -> bool {
        matches!(self, Self::Add { .. })
    }

    /// Does it leave a line out?
    pub const fn removes(&self) -> bool {
        matches!(self, Self::Remove(_))
    }

    /// What it can change.
    pub(super) fn touches(&self) -> BTreeSet<Touched> {
        match self {
            Self::Swap { at, to, .. } => filled(&at.part, at.slot).chain(filled(to, at.slot)).collect(),
            Self::Add { slot, part, .. } => filled(part, *slot).collect(),
            Self::Remove(at)
            | Self::Feed { at, .. }
            | Self::Uart { at, .. }
            | Self::Outputs { at, .. }
            | Self::Count { at, .. }
            | Self::Washers { at, .. } => filled(&at.part, at.slot).collect(),
            Self::Packs(_) => BTreeSet::from([Touched::Build("packs")]),
            Self::OutputLimit(_) => BTreeSet::from([Touched::Build("output_limit_percent")]),
        }
    }

    fn apply(&self, build: &mut BuildList) {
        let line = self.line().and_then(|line| build.parts.get_mut(line));
        match (self, line) {
            (Self::Swap { to, .. }, Some(fitted)) => {
                *fitted = Fitted { part: to.id.clone(), owned: false, note: None, ..fitted.clone() };
            }
            (Self::Feed { to, .. }, Some(fitted)) => fitted.feed = Some(to.clone()),
            (Self::Uart { to, .. }, Some(fitted)) => fitted.uart = Some(*to),
            (Self::Outputs { to, .. }, Some(fitted)) => fitted.outputs = Some(to.clone()),
            (Self::Count { to, .. }, Some(fitted)) => fitted.count = *to,
            (Self::Washers { to, .. }, Some(fitted)) => fitted.between_mm = Some(*to).filter(|to| to.steps() != 0),
            (Self::Add { slot, part, count, feed }, _) => {
                build.parts.push(Fitted { count: *count, feed: feed.clone(), ..Fitted::new(*slot, &part.id) });
            }
            (Self::Packs(arrangement), _) => build.packs = Some(*arrangement),
            (Self::OutputLimit(limit), _) => build.output_limit_percent = Some(*limit),
            _ => {}
        }
    }
}

/// The list after all steps. Lines keep their places until the last step is done; what is left out goes last.
pub fn applied(steps: &[Step], build: &BuildList) -> BuildList {
    let mut next = build.clone();
    for step in steps {
        step.apply(&mut next);
    }
    let mut out: Vec<usize> = steps.iter().filter(|step| step.removes()).filter_map(Step::line).collect();
    out.sort_unstable();
    out.dedup();
    for line in out.into_iter().rev().filter(|line| *line < build.parts.len()) {
        next.parts.remove(line);
    }
    next.keep_log_of(build);
    next
}

/// What all steps can change.
pub(super) fn touched(steps: &[Step]) -> BTreeSet<Touched> {
    steps.iter().flat_map(Step::touches).collect()
}

/// Can all of the one be carried out together with all of the other?
pub(super) fn go_together(one: &[Step], other: &[Step]) -> bool {
    one.iter().all(|step| other.iter().all(|second| step.goes_with(second)))
}

/// Every part of the steps that leaves some out, but not all.
pub fn proper_subsets(steps: &[Step]) -> Vec<Vec<Step>> {
    let all = 1_usize << steps.len().min(16);
    let part =
        |mask: usize| steps.iter().enumerate().filter(|(at, _)| mask >> at & 1 == 1).map(|(_, step)| step.clone()).collect();
    (1..all.saturating_sub(1)).map(part).collect()
}
