//! The constraint graph: properties, the derivations that compute some of them from others, and the rules that judge.
//!
//! Edges join a property with a derivation or rule that reads it, and a derivation with the property that it writes. The
//! order of the derivations and the rules that a slot touches follow from it.

mod picture;
mod property;
mod reach;
mod site;

use std::{cell::RefCell, collections::BTreeMap, collections::BTreeSet, sync::Arc, sync::LazyLock};

use petgraph::{
    algo::toposort,
    graph::{DiGraph, NodeIndex},
    visit::Dfs,
};
use propwright_schema::slot::Slot;

pub use picture::{Dot, Kind, Picture};
pub use property::{Of, Property, build, derived, line, part};
pub(crate) use reach::{Reach, Stage, Touched};
pub(crate) use site::Store;
pub use site::{ON_BOARD, OWN, PACK, PARTNER, Reading, Site};

pub use crate::derive::Model;
use crate::{
    craft::{Craft, Subject},
    derive::{self, Derivation},
    estimated,
    finding::{Because, Claim, Datum, Finding, Missing},
    policy::Policy,
    rules::{self, Rule},
};

/// What a derivation found for one part or for the craft.
#[derive(Debug, Clone)]
pub struct Derived {
    /// The part, if it is one part's.
    pub subject: Option<Subject>,
    /// The value, or what is not known.
    pub known: Result<Datum, Missing>,
    /// What it follows from.
    pub from: Vec<Arc<Because>>,
    /// How many parts it stands for.
    pub count: u32,
}

/// A node: a property, a derivation by its place in the list, or a rule by its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Node {
    Property(Property),
    Derivation(usize),
    Rule(usize),
}

/// The graph of all rules and derivations.
pub struct Graph {
    nodes: DiGraph<Node, ()>,
    properties: BTreeMap<Property, NodeIndex>,
    derivations: Vec<NodeIndex>,
    rules: Vec<NodeIndex>,
    order: Vec<usize>,
}

/// The graph of this program's rules, made once.
pub fn graph() -> &'static Graph {
    static GRAPH: LazyLock<Graph> = LazyLock::new(|| Graph::new(derive::ALL, rules::ALL));
    &GRAPH
}

impl Graph {
    fn new(derivations: &[&Derivation], rules: &[&Rule]) -> Self {
        let mut graph = Self {
            nodes: DiGraph::new(),
            properties: BTreeMap::new(),
            derivations: Vec::new(),
            rules: Vec::new(),
            order: Vec::new(),
        };
        for (at, derivation) in derivations.iter().enumerate() {
            let node = graph.nodes.add_node(Node::Derivation(at));
            graph.read(derivation.reads, node);
            let written = graph.property(derived(derivation.id));
            graph.nodes.add_edge(node, written, ());
            graph.derivations.push(node);
        }
        for (at, rule) in rules.iter().enumerate() {
            let node = graph.nodes.add_node(Node::Rule(at));
            graph.read(rule.reads, node);
            graph.rules.push(node);
        }
        // A cycle would be a slip of this program; a test holds that there is none.
        let sorted = toposort(&graph.nodes, None).unwrap_or_default();
        let derivation = |node: NodeIndex| match graph.nodes.node_weight(node) {
            Some(Node::Derivation(at)) => Some(*at),
            _ => None,
        };
        graph.order = sorted.into_iter().filter_map(derivation).collect();
        graph
    }

    fn property(&mut self, property: Property) -> NodeIndex {
        let nodes = &mut self.nodes;
        *self.properties.entry(property).or_insert_with(|| nodes.add_node(Node::Property(property)))
    }

    fn read(&mut self, properties: &[Property], reader: NodeIndex) {
        for property in properties {
            let read = self.property(*property);
            self.nodes.add_edge(read, reader, ());
        }
    }

    /// The ids of the rules whose findings can change when a part of the slot is exchanged.
    ///
    /// A part that fills several slots touches the rules of each.
    pub fn touched(&self, slot: Slot) -> BTreeSet<&'static str> {
        let starts = self.properties.iter().filter(|(property, _)| property.slot() == Some(slot));
        let mut reached = BTreeSet::new();
        for (_, start) in starts {
            let mut search = Dfs::new(&self.nodes, *start);
            while let Some(node) = search.next(&self.nodes) {
                if let Some(Node::Rule(at)) = self.nodes.node_weight(node) {
                    reached.insert(rules::ALL[*at].id);
                }
            }
        }
        reached
    }

    /// The properties on the ways from facts to a rule: what to light up for its finding.
    pub fn path(&self, rule: &str) -> BTreeSet<Property> {
        let reversed = petgraph::visit::Reversed(&self.nodes);
        let start = rules::ALL.iter().position(|other| other.id == rule).and_then(|at| self.rules.get(at));
        let mut reached = BTreeSet::new();
        let Some(start) = start else { return reached };
        let mut search = Dfs::new(reversed, *start);
        while let Some(node) = search.next(reversed) {
            if let Some(Node::Property(property)) = self.nodes.node_weight(node) {
                reached.insert(*property);
            }
        }
        reached
    }

    /// Runs all derivations in the order in which they follow from one another.
    pub(crate) fn derive(&self, craft: &Craft, policy: &Policy) -> Store {
        let mut store = Store::new();
        for at in &self.order {
            let derivation = derive::ALL[*at];
            let found = (derivation.run)(&Site::new(craft, &store, policy));
            let readings = found.into_iter().map(|one| reading(derivation, one)).collect();
            store.insert(derived(derivation.id), readings);
        }
        store
    }

    /// What every derivation and rule reads without having declared it: an empty list unless this program has a slip.
    pub fn undeclared_reads(&self, craft: &Craft, policy: &Policy) -> Vec<(&'static str, Property)> {
        let store = self.derive(craft, policy);
        let recorded = RefCell::new(BTreeSet::new());
        let site = Site::new(craft, &store, policy).recording(&recorded);
        let mut slips = Vec::new();
        let mut compare = |id: &'static str, declared: &[Property]| {
            let read = recorded.take();
            slips.extend(read.into_iter().filter(|property| !declared.contains(property)).map(|property| (id, property)));
        };
        for derivation in derive::ALL {
            (derivation.run)(&site);
            compare(derivation.id, derivation.reads);
        }
        for rule in rules::ALL {
            rule.check(&site);
            compare(rule.id, rule.reads);
        }
        slips
    }
}

/// Runs the rules that `wanted` lets through.
pub(crate) fn judge(craft: &Craft, store: &Store, policy: &Policy, wanted: impl Fn(&Rule) -> bool) -> Vec<Finding> {
    let site = Site::new(craft, store, policy);
    let chosen = rules::ALL.iter().filter(|rule| wanted(rule));
    let found = chosen.flat_map(|rule| rule.check(&site).into_iter().map(|outcome| Finding { rule: rule.id, outcome }));
    estimated::warned(found.collect(), craft, policy)
}

fn reading(derivation: &Derivation, found: Derived) -> Reading {
    let Derived { subject, known, from, count } = found;
    let claim = match &known {
        Ok(datum) => Claim::Derived {
            subject: subject.clone(),
            title: derivation.title,
            datum: datum.clone(),
            formula: derivation.formula,
            source: derivation.source,
        },
        Err(missing) => Claim::Missing(missing.clone()),
    };
    Reading { subject, known, because: Arc::new(Because { claim, from }), count }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial;
    use propwright_schema::{part::Role, value::Kind, value::Record};

    #[test]
    fn derivations_follow_from_one_another_without_a_circle() {
        assert_eq!(graph().order.len(), derive::ALL.len());
    }

    #[test]
    fn ids_are_unique_and_follow_the_files() {
        let ids: BTreeSet<_> = rules::ALL.iter().map(|rule| rule.id).collect();
        assert_eq!(ids.len(), rules::ALL.len());
        let written: BTreeSet<_> = derive::ALL.iter().map(|derivation| derivation.id).collect();
        assert_eq!(written.len(), derive::ALL.len());
        let all = rules::ALL.iter().flat_map(|rule| rule.reads).chain(derive::ALL.iter().flat_map(|derivation| derivation.reads));
        for property in all.filter(|property| property.of == Of::Derived) {
            assert!(written.contains(property.field), "nothing writes {property}");
        }
    }

    #[test]
    fn every_property_is_a_field_of_its_record() {
        let all = rules::ALL.iter().flat_map(|rule| rule.reads).chain(derive::ALL.iter().flat_map(|derivation| derivation.reads));
        for property in all {
            let known = match property.of {
                Of::Part(slot) => {
                    ["id", "mass_g", "price"].contains(&property.field) || has(Role::fields_of(slot), property.field)
                }
                Of::Line(_) => ["count", "owned", "feed", "uart", "outputs", "between_mm", "listed"].contains(&property.field),
                Of::Build => {
                    let (outer, inner) = property.field.split_once('.').unwrap_or((property.field, ""));
                    match outer {
                        "purpose" => has(propwright_schema::build_list::Purpose::FIELDS, inner),
                        "pilot" => has(propwright_schema::build_list::Pilot::FIELDS, inner),
                        "conditions" => has(propwright_schema::build_list::Conditions::FIELDS, inner),
                        "logged" => has(propwright_schema::measured::Logged::FIELDS, inner),
                        _ => ["packs", "output_limit_percent", "weighed_g", "stand", "unplaced"].contains(&outer),
                    }
                }
                Of::Derived => true,
            };
            assert!(known, "{property}");
        }
    }

    fn has(fields: &[propwright_schema::value::Field], name: &str) -> bool {
        let (outer, inner) = name.split_once('.').map_or((name, None), |(outer, inner)| (outer, Some(inner)));
        fields.iter().any(|field| {
            field.name == outer
                && match (inner, field.kind) {
                    (None, _) => true,
                    (Some(inner), Kind::Record(fields) | Kind::List(&Kind::Record(fields))) => has(fields, inner),
                    _ => false,
                }
        })
    }

    #[test]
    fn examples_read_only_what_is_declared() {
        for rule in rules::ALL {
            for example in [rule.fails, rule.passes] {
                let craft = trial::craft(example.parts, example.build);
                assert_eq!(graph().undeclared_reads(&craft, &Policy::default()), [], "{}", rule.id);
            }
        }
    }
}
