//! What an exchange of parts in some slots can change, and how only that is computed again.

use std::collections::BTreeSet;

use petgraph::{graph::NodeIndex, visit::Dfs};
use propwright_schema::slot::Slot;

use super::{Graph, Node, Store, judge, reading};
use crate::{
    craft::Craft,
    derive,
    finding::Finding,
    graph::{Of, Property, Site, derived},
    policy::Policy,
    rules,
};

/// What a change of a build list touches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Touched {
    /// The parts and lines of a slot.
    Slot(Slot),
    /// A field of the list as a whole.
    Build(&'static str),
}

/// Derivations in their order, and the rules that read nothing later.
#[derive(Debug, Clone, Default)]
pub(crate) struct Stage {
    derivations: Vec<usize>,
    rules: BTreeSet<&'static str>,
}

/// All that an exchange in some slots reaches, in two stages: plain algebra and comparisons, then what solves a model.
#[derive(Debug, Clone, Default)]
pub(crate) struct Reach {
    /// Plain algebra and comparisons.
    pub(crate) quick: Stage,
    /// What solves a model or rests on one.
    pub(crate) solved: Stage,
}

impl Graph {
    /// What an exchange of parts in these slots reaches.
    pub(crate) fn reach(&self, slots: &BTreeSet<Slot>) -> Reach {
        self.reach_of(&slots.iter().copied().map(Touched::Slot).collect())
    }

    /// What a change reaches.
    pub(crate) fn reach_of(&self, touched: &BTreeSet<Touched>) -> Reach {
        let of = |property: &Property| match property.of {
            Of::Part(slot) | Of::Line(slot) => Some(Touched::Slot(slot)),
            Of::Build => Some(Touched::Build(property.field)),
            Of::Derived => None,
        };
        let starts = self.properties.iter().filter(|(property, _)| of(property).is_some_and(|one| touched.contains(&one)));
        let reached = self.below(starts.map(|(_, start)| *start));
        let late = self.below(self.solving());
        let mut reach = Reach::default();
        for node in self.order.iter().map(|at| self.derivations[*at]).chain(self.rules.iter().copied()) {
            if !reached.contains(&node) {
                continue;
            }
            let stage = if late.contains(&node) { &mut reach.solved } else { &mut reach.quick };
            match self.nodes.node_weight(node) {
                Some(Node::Derivation(at)) => stage.derivations.push(*at),
                Some(Node::Rule(at)) => {
                    stage.rules.insert(rules::ALL[*at].id);
                }
                _ => {}
            }
        }
        reach
    }

    /// What a rule's findings rest on, and the rule itself, in one stage.
    pub(crate) fn toward(&self, rule: &'static str) -> Stage {
        let path = self.path(rule);
        let needed = |at: &usize| path.contains(&derived(derive::ALL[*at].id));
        Stage { derivations: self.order.iter().copied().filter(needed).collect(), rules: BTreeSet::from([rule]) }
    }

    /// The derivations by which models enter.
    fn solving(&self) -> impl Iterator<Item = NodeIndex> {
        let each = derive::ALL.iter().zip(&self.derivations);
        each.filter(|(derivation, _)| derive::MODELS_ENTER.contains(&derivation.id)).map(|(_, node)| *node)
    }

    fn below(&self, starts: impl Iterator<Item = NodeIndex>) -> BTreeSet<NodeIndex> {
        let mut reached = BTreeSet::new();
        for start in starts {
            let mut search = Dfs::new(&self.nodes, start);
            while let Some(node) = search.next(&self.nodes) {
                reached.insert(node);
            }
        }
        reached
    }
}

impl Reach {
    /// Is the rule judged again?
    pub(crate) fn judges(&self, rule: &str) -> bool {
        self.quick.rules.contains(rule) || self.solved.rules.contains(rule)
    }
}

impl Stage {
    /// Runs the derivations of the stage again and then its rules; all else in the store stays.
    pub(crate) fn run(&self, craft: &Craft, policy: &Policy, store: &mut Store) -> Vec<Finding> {
        for at in &self.derivations {
            let derivation = derive::ALL[*at];
            let found = (derivation.run)(&Site::new(craft, store, policy));
            let readings = found.into_iter().map(|one| reading(derivation, one)).collect();
            store.insert(derived(derivation.id), readings);
        }
        judge(craft, store, policy, |rule| self.rules.contains(rule.id))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::graph::graph;

    #[test]
    fn the_stages_hold_what_is_touched() {
        for slot in Slot::ALL {
            let reach = graph().reach(&BTreeSet::from([*slot]));
            let both: BTreeSet<&str> = reach.quick.rules.union(&reach.solved.rules).copied().collect();
            assert_eq!(both, graph().touched(*slot), "{slot}");
        }
    }

    #[test]
    fn nothing_quick_reads_what_comes_later() {
        let all: BTreeSet<Slot> = Slot::ALL.iter().copied().collect();
        let Reach { quick, solved } = graph().reach(&all);
        let later: BTreeSet<&str> = solved.derivations.iter().map(|at| derive::ALL[*at].id).collect();
        assert!(later.contains("in-the-air") && later.contains("full-throttle"));
        let reads = |at: &usize| derive::ALL[*at].reads;
        let of_rules = rules::ALL.iter().filter(|rule| quick.rules.contains(rule.id)).flat_map(|rule| rule.reads);
        for property in quick.derivations.iter().flat_map(reads).chain(of_rules) {
            assert!(!later.contains(property.field), "{property}");
        }
    }
}
