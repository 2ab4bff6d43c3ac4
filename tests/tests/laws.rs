//! Laws of the rules: in the direction that a rule declares, a figure never makes its finding graver.
//!
//! A figure of a record or of the list is changed in the text of the rule's own examples. For a derived figure all numbers of
//! an example are scaled at random, and two crafts are compared whenever one has the better figure throughout.
#![expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]

use std::{ops::Range, sync::Arc};

use proptest::prelude::*;
use propwright_engine::{
    finding::{Because, Claim, Datum, Finding, Status},
    graph::{Of, Property},
    interval::Interval,
    policy::Policy,
    report::every_finding,
    rules::{self, Example, Law, Rule},
};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue, part::Part, quantity::UNITS, ron_options, slot::Slot};

/// The findings of a rule on a craft given as text; `None` when the text holds a figure that no record keeps.
fn findings(rule: &Rule, parts: &str, build: &str) -> Option<Vec<Finding>> {
    let parts: Vec<Arc<Part>> = ron_options().from_str(&format!("[{parts}]")).ok()?;
    let build: BuildList = ron_options().from_str(&format!("(version: 1, name: \"law\", {build})")).ok()?;
    let catalogue: Catalogue = parts.into_iter().collect();
    let all = every_finding(&catalogue, &Arc::new(build), &Policy::default());
    Some(all.into_iter().filter(|finding| finding.rule == rule.id).collect())
}

fn statuses(rule: &Rule, parts: &str, build: &str) -> Option<Vec<Status>> {
    Some(findings(rule, parts, build)?.iter().map(Finding::status).collect())
}

/// The places of the numbers of a field, or of all fields with a unit when none is wanted: counts stay what they are.
fn numbers(text: &str, wanted: Option<&str>) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    for (colon, _) in text.match_indices(": ") {
        let name = text[..colon].rsplit(|letter: char| !letter.is_alphanumeric() && letter != '_').next().unwrap_or_default();
        let start = colon + 2;
        let number = |letter: char| letter.is_ascii_digit() || letter == '.' || letter == '-';
        let length = text[start..].find(|letter| !number(letter)).unwrap_or(text.len() - start);
        if length > 0 && wanted.map_or_else(|| with_unit(name), |wanted| wanted == name) {
            found.push(start..start + length);
        }
    }
    found
}

/// Does a field of that name hold a figure with a unit? One without is a count.
fn with_unit(name: &str) -> bool {
    UNITS.iter().any(|unit| name.ends_with(unit.suffix))
}

/// The text with the numbers at some places multiplied, to a hundredth; to a whole number of one and more for counts.
fn scaled(text: &str, places: &[Range<usize>], counts: bool, factor: impl Fn(usize) -> f64) -> String {
    let mut out = text.to_owned();
    for (at, place) in places.iter().enumerate().rev() {
        let value: f64 = text[place.clone()].parse().unwrap();
        let product = value * factor(at);
        let fine = if counts { product.round().max(1.0) } else { (product * 100.0).round() / 100.0 };
        out.replace_range(place.clone(), &fine.to_string());
    }
    out
}

/// The stretches of the text that describe the role of a slot, such as all between the brackets of `Esc(…)`.
fn roles(parts: &str, slot: Slot) -> Vec<Range<usize>> {
    let typed: Vec<Arc<Part>> = ron_options().from_str(&format!("[{parts}]")).unwrap();
    let debug = typed.iter().find_map(|part| part.role(slot)).map(|role| format!("{role:?}"));
    let Some(debug) = debug else { return Vec::new() };
    let opening = format!("{}(", debug.split('(').next().unwrap());
    let stretch = |(at, _): (usize, &str)| {
        let start = at + opening.len();
        let mut depth = 1;
        let end = parts[start..].find(|letter| {
            depth += i32::from(letter == '(') - i32::from(letter == ')');
            depth == 0
        });
        start..start + end.unwrap()
    };
    parts.match_indices(&opening).map(stretch).collect()
}

/// Parts and build with a property multiplied by a factor; `None` when the example does not tell it.
fn with(example: &Example, property: Property, factor: f64) -> Option<(String, String)> {
    let field = property.field.rsplit('.').next().unwrap();
    let text = if property.slot().is_some() { example.parts } else { example.build };
    let mut places = numbers(text, Some(field));
    if let Of::Part(slot) = property.of {
        let roles = roles(example.parts, slot);
        places.retain(|place| roles.iter().any(|role| role.contains(&place.start)));
    }
    let changed = scaled(text, &places, !with_unit(field), |_| factor);
    let both = if property.slot().is_some() { (changed, example.build.to_owned()) } else { (example.parts.to_owned(), changed) };
    (!places.is_empty()).then_some(both)
}

/// The property in whose direction a rule gets better, and whether that is upward.
const fn direction(rule: &Rule) -> Option<(Property, bool)> {
    match rule.law {
        Law::MoreIsBetter(property) => Some((property, true)),
        Law::LessIsBetter(property) => Some((property, false)),
        Law::Match => None,
    }
}

fn directed(derived: bool) -> Vec<(&'static Rule, Property, bool)> {
    let each = rules::ALL.iter().filter_map(|rule| direction(rule).map(|(property, more)| (*rule, property, more)));
    each.filter(|(_, property, _)| (property.of == Of::Derived) == derived).collect()
}

#[test]
fn an_example_tells_the_figure_of_its_rules_law() {
    for (rule, property, _) in directed(false) {
        let told = [rule.fails, rule.passes].iter().any(|example| with(example, property, 1.0).is_some());
        assert!(told, "no example of {} tells {property}", rule.id);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_better_figure_never_makes_a_finding_graver(at in any::<prop::sample::Index>(), fails in any::<bool>(), base in 0.3..3.0, better in 1.0..4.0) {
        let all = directed(false);
        let (rule, property, more) = all[at.index(all.len())];
        let example = if fails { rule.fails } else { rule.passes };
        let further = if more { base * better } else { base / better };
        let text = |factor| with(&example, property, factor);
        let (Some(first), Some(second)) = (text(base), text(further)) else { return Ok(()) };
        let (before, after) = (statuses(rule, &first.0, &first.1), statuses(rule, &second.0, &second.1));
        let (Some(before), Some(after)) = (before, after) else { return Ok(()) };
        // Beyond the models' range nothing is known, for better or worse.
        prop_assume!(!before.iter().chain(&after).any(|status| *status == Status::Unstated));
        prop_assert!(after.iter().max() <= before.iter().max(), "{}: {property} from {first:?} to {second:?}: {before:?}, {after:?}", rule.id);
    }

    #[test]
    fn a_better_derived_figure_never_makes_a_finding_graver(at in any::<prop::sample::Index>(), fails in any::<bool>(), draws in prop::collection::vec(0.7..1.4, 80)) {
        let all = directed(true);
        let (rule, property, more) = all[at.index(all.len())];
        let example = if fails { rule.fails } else { rule.passes };
        let mut seen: Vec<(Interval, Status)> = Vec::new();
        for chosen in draws.chunks(20) {
            let factor = |at: usize| chosen.get(at).copied().unwrap_or(1.0);
            let figures = numbers(example.parts, None);
            let parts = scaled(example.parts, &figures, false, factor);
            // An example without figures is varied by how many of each part there are.
            let counts = if figures.is_empty() { numbers(example.build, Some("count")) } else { Vec::new() };
            let build = scaled(example.build, &counts, true, factor);
            let Some(found) = findings(rule, &parts, &build) else { continue };
            // A rule with several lines says one sentence a line about the same figure: the gravest counts.
            let mut gravest: Vec<(Interval, Status)> = Vec::new();
            for (figure, status) in found.iter().filter_map(|finding| Some((figure_of(finding, property)?, finding.status()))) {
                match gravest.iter_mut().find(|(known, _)| *known == figure) {
                    Some((_, known)) => *known = status.max(*known),
                    None => gravest.push((figure, status)),
                }
            }
            seen.extend(gravest);
        }
        prop_assume!(seen.len() > 1);
        for (one, one_status) in &seen {
            for (other, other_status) in &seen {
                let better = if more { above(one, other) } else { above(other, one) };
                prop_assert!(!better || one_status <= other_status, "{}: {one:?} {one_status:?}, {other:?} {other_status:?}", rule.id);
            }
        }
    }
}

/// Is a figure at least as large at its low end, its nominal and its high end?
fn above(one: &Interval, other: &Interval) -> bool {
    one.low >= other.low && one.nominal >= other.nominal && one.high >= other.high
}

/// The derived figure on which a finding rests, told by the title of its derivation.
fn figure_of(finding: &Finding, property: Property) -> Option<Interval> {
    let derivation = propwright_engine::derive::ALL.iter().find(|derivation| derivation.id == property.field)?;
    finding.outcome.facts.iter().find_map(|(_, because): &(_, Arc<Because>)| match &because.claim {
        Claim::Derived { title, datum: Datum::Figure(figure), .. } if *title == derivation.title => Some(*figure),
        _ => None,
    })
}
