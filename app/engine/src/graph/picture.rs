//! The graph as data that can be drawn: nodes by their names, edges by the places of the nodes.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

use petgraph::{graph::NodeIndex, visit::EdgeRef};
use propwright_schema::slot::Slot;

use super::{Graph, Node, Of, Property, derived};
use crate::{
    craft::Subject,
    derive, explain,
    finding::{Because, Claim, Missing, Origin, Unknown},
    rules,
};

/// What a node is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A slot of the list.
    Slot,
    /// A field of a part, of a line or of the list as a whole.
    Property,
    /// A computed value.
    Derivation,
    /// A rule.
    Rule,
}

/// A node.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dot {
    /// Its name, one of a kind among nodes of its kind: a slot's word, `motor.kv_rpm_per_v`, a derivation's or a rule's id.
    pub key: String,
    /// What it is.
    pub kind: Kind,
    /// What it is called.
    pub title: String,
    /// The slot of a slot or of a property of its part.
    pub slot: Option<Slot>,
}

/// Nodes and the edges along which facts flow, from slots to rules.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Picture {
    /// The nodes.
    pub dots: Vec<Dot>,
    /// Edges by the places of their ends in `dots`.
    pub edges: Vec<(usize, usize)>,
}

impl Graph {
    /// The whole graph. A derivation and the property that it writes are one node.
    pub fn picture(&self) -> Picture {
        let mut picture = Picture::default();
        let mut slots: BTreeMap<Slot, usize> = BTreeMap::new();
        let mut places: BTreeMap<NodeIndex, usize> = BTreeMap::new();
        for index in self.nodes.node_indices() {
            let Some(dot) = self.nodes.node_weight(index).and_then(dot) else { continue };
            let slot = dot.slot;
            let at = picture.put(dot);
            places.insert(index, at);
            if let Some(slot) = slot {
                let from = *slots.entry(slot).or_insert_with(|| picture.put(slot_dot(slot)));
                picture.edges.push((from, at));
            }
        }
        // What a derivation writes stands where the derivation does.
        for (at, derivation) in self.derivations.iter().enumerate() {
            let written = derive::ALL.get(at).and_then(|known| self.properties.get(&derived(known.id)));
            if let (Some(written), Some(place)) = (written, places.get(derivation).copied()) {
                places.insert(*written, place);
            }
        }
        for edge in self.nodes.edge_references() {
            if let (Some(from), Some(to)) = (places.get(&edge.source()), places.get(&edge.target()))
                && from != to
            {
                picture.edges.push((*from, *to));
            }
        }
        picture
    }
}

fn slot_dot(slot: Slot) -> Dot {
    Dot { key: slot.word().to_owned(), kind: Kind::Slot, title: slot.title().to_owned(), slot: Some(slot) }
}

/// A property with what it belongs to: `motor: KV`, `motor as listed: count`, `list: use`.
fn title(property: &Property) -> String {
    let field = explain::field_words(property.field);
    match property.of {
        Of::Part(slot) => format!("{}: {field}", explain::slot_words(slot)),
        Of::Line(slot) => format!("{} as listed: {field}", explain::slot_words(slot)),
        Of::Build => format!("list: {field}"),
        Of::Derived => field,
    }
}

/// Kind and key of the node of what a claim states; none for thresholds and assumptions, which no node stands for.
fn named(claim: &Claim) -> Option<(Kind, String)> {
    let property = |subject: &Option<Subject>, field: &'static str, listed: bool| {
        let of = match subject {
            Some(subject) if listed => Of::Line(subject.slot),
            Some(subject) => Of::Part(subject.slot),
            None => Of::Build,
        };
        (Kind::Property, Property { of, field }.to_string())
    };
    match claim {
        Claim::Fact { subject, field, origin, .. } => Some(property(subject, field, *origin == Origin::Line)),
        Claim::Derived { title, .. } => {
            let derivation = derive::ALL.iter().find(|derivation| derivation.title == *title)?;
            Some((Kind::Derivation, derivation.id.to_owned()))
        }
        Claim::Missing(Missing { subject, what }) => match what {
            Unknown::Field(field) => Some(property(subject, field, false)),
            Unknown::Line(field) => Some(property(subject, field, true)),
            Unknown::Empty(slot) => Some((Kind::Slot, slot.word().to_owned())),
            Unknown::Infeasible(_) | Unknown::Outside(_) => None,
        },
        Claim::Threshold { .. } | Claim::Assumption { .. } => None,
    }
}

/// The dot of a node; none for what a derivation writes.
fn dot(node: &Node) -> Option<Dot> {
    match node {
        Node::Property(property) if property.of == Of::Derived => None,
        Node::Property(property) => {
            Some(Dot { key: property.to_string(), kind: Kind::Property, title: title(property), slot: property.slot() })
        }
        Node::Derivation(at) => derive::ALL.get(*at).map(|derivation| Dot {
            key: derivation.id.to_owned(),
            kind: Kind::Derivation,
            title: derivation.title.to_owned(),
            slot: None,
        }),
        Node::Rule(at) => rules::ALL.get(*at).map(|rule| Dot {
            key: rule.id.to_owned(),
            kind: Kind::Rule,
            title: rule.title.to_owned(),
            slot: None,
        }),
    }
}

impl Picture {
    fn put(&mut self, dot: Dot) -> usize {
        self.dots.push(dot);
        self.dots.len() - 1
    }

    /// The places from which a node is reached, itself included: the path of a finding of that rule.
    pub fn above(&self, starts: impl IntoIterator<Item = usize>) -> BTreeSet<usize> {
        self.reached(starts, |(from, to)| (to, from))
    }

    /// The places of what a step of a reason speaks of and rests on, with the slots of the parts in it.
    pub fn told(&self, step: &Arc<Because>) -> BTreeSet<usize> {
        let names = self.dots.iter().enumerate().map(|(at, dot)| ((dot.kind, dot.key.as_str()), at));
        let places: BTreeMap<(Kind, &str), usize> = names.collect();
        let (mut seen, mut open, mut told) = (BTreeSet::new(), vec![step], BTreeSet::new());
        while let Some(step) = open.pop() {
            let slot = step.subject().map(|subject| (Kind::Slot, subject.slot.word().to_owned()));
            let here = named(&step.claim).into_iter().chain(slot);
            told.extend(here.filter_map(|(kind, key)| places.get(&(kind, key.as_str())).copied()));
            open.extend(step.from.iter().filter(|below| seen.insert(Arc::as_ptr(below))));
        }
        told
    }

    /// The places that are reached from some, those included.
    pub fn below(&self, starts: impl IntoIterator<Item = usize>) -> BTreeSet<usize> {
        self.reached(starts, |edge| edge)
    }

    fn reached(&self, starts: impl IntoIterator<Item = usize>, turn: fn((usize, usize)) -> (usize, usize)) -> BTreeSet<usize> {
        let mut onward: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (from, to) in self.edges.iter().copied().map(turn) {
            onward.entry(from).or_default().push(to);
        }
        let mut open: Vec<usize> = starts.into_iter().collect();
        let mut reached = BTreeSet::new();
        while let Some(next) = open.pop() {
            if reached.insert(next) {
                open.extend(onward.get(&next).into_iter().flatten());
            }
        }
        reached
    }

    /// What is left when only these rules are wanted, and only what depends on a slot: rules, and all on the ways to them.
    #[must_use]
    pub fn narrowed(&self, wanted: impl Fn(&str) -> bool, slot: Option<Slot>) -> Self {
        let starts = |find: &dyn Fn(&Dot) -> bool| {
            self.dots.iter().enumerate().filter(|(_, dot)| find(dot)).map(|(at, _)| at).collect::<Vec<_>>()
        };
        let within = match slot {
            None => (0..self.dots.len()).collect(),
            Some(slot) => self.below(starts(&|dot| dot.kind == Kind::Slot && dot.slot == Some(slot))),
        };
        let rules = starts(&|dot| dot.kind == Kind::Rule && wanted(&dot.key)).into_iter().filter(|at| within.contains(at));
        let kept: Vec<usize> = self.above(rules).intersection(&within).copied().collect();
        let place: BTreeMap<usize, usize> = kept.iter().enumerate().map(|(new, old)| (*old, new)).collect();
        let edges = self.edges.iter().filter_map(|(from, to)| Some((*place.get(from)?, *place.get(to)?)));
        Self { dots: kept.iter().filter_map(|at| self.dots.get(*at).cloned()).collect(), edges: edges.collect() }
    }

    /// The place of a rule by its id.
    pub fn rule(&self, id: &str) -> Option<usize> {
        self.dots.iter().position(|dot| dot.kind == Kind::Rule && dot.key == id)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        graph::graph,
        rules::{
            five_inch::{five_inch, five_inch_build},
            trial,
        },
    };

    #[test]
    fn the_picture_holds_the_path_of_every_rule() {
        let picture = graph().picture();
        for rule in rules::ALL {
            let above = picture.above(picture.rule(rule.id));
            let told: BTreeSet<&str> = above.iter().map(|at| picture.dots[*at].key.as_str()).collect();
            for property in graph().path(rule.id) {
                assert!(told.contains(property.to_string().as_str()), "{}: {property}", rule.id);
            }
        }
    }

    #[test]
    fn a_property_says_what_it_belongs_to() {
        let picture = graph().picture();
        let title = |key: &str| picture.dots.iter().find(|dot| dot.key == key).map(|dot| dot.title.as_str()).unwrap();
        assert_eq!(title("motor.kv_rpm_per_v"), "motors: KV");
        assert_eq!(title("gps line.uart"), "GPS as listed: UART");
        assert_eq!(title("build.purpose.usage"), "list: purpose usage");
        let properties = picture.dots.iter().filter(|dot| dot.kind == Kind::Property);
        let titles: BTreeSet<&str> = properties.clone().map(|dot| dot.title.as_str()).collect();
        assert!(titles.len() > properties.count() * 95 / 100, "names hardly repeat");
    }

    #[test]
    fn a_step_lights_itself_and_what_it_rests_on() {
        let report = trial::report(five_inch!(), five_inch_build!());
        let picture = graph().picture();
        for working in report.workings() {
            let told: BTreeSet<&str> = picture.told(&working.because).iter().map(|at| picture.dots[*at].key.as_str()).collect();
            if working.id != crate::working::COST {
                assert!(told.contains(working.id), "{}: {told:?}", working.id);
                let above = picture.above(picture.dots.iter().position(|dot| dot.key == working.id));
                let keys: BTreeSet<&str> = above.iter().map(|at| picture.dots[*at].key.as_str()).collect();
                assert!(told.is_subset(&keys), "{}: {:?}", working.id, told.difference(&keys));
            }
        }
    }

    #[test]
    fn names_are_one_of_a_kind() {
        let picture = graph().picture();
        let names: BTreeSet<(Kind, &str)> = picture.dots.iter().map(|dot| (dot.kind, dot.key.as_str())).collect();
        assert_eq!(names.len(), picture.dots.len());
        assert!(names.len() > 300, "{}", names.len());
    }

    #[test]
    fn narrowing_leaves_the_ways_to_what_is_wanted() {
        let whole = graph().picture();
        let narrow = whole.narrowed(|rule| rule == "motor-pattern", None);
        let keys: BTreeSet<&str> = narrow.dots.iter().map(|dot| dot.key.as_str()).collect();
        assert_eq!(keys, BTreeSet::from(["frame", "frame.motor_patterns", "motor", "motor.pattern", "motor-pattern"]));
        assert_eq!(narrow.edges.len(), 4);
        let of_motor = whole.narrowed(|_| true, Some(Slot::Motor));
        let rules: BTreeSet<&str> =
            of_motor.dots.iter().filter(|dot| dot.kind == Kind::Rule).map(|dot| dot.key.as_str()).collect();
        assert_eq!(rules, graph().touched(Slot::Motor));
    }
}
