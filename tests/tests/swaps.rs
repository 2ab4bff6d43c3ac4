//! What a swap can change: over every single swap of every sound build, a rule that the graph does not reach from the swapped
//! slots finds the same as before; nothing is read that was not declared; the order of the slots in a list changes nothing.

use std::collections::BTreeSet;
use std::sync::Arc;

use propwright_engine::{Report, finding::Finding, graph::graph, policy::Policy, rules};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue, slot::Slot};
use propwright_tests::sample;

/// Every list that differs from `build` by the part of one line, with the slots that the old and the new part fill.
fn swaps(catalogue: &Catalogue, build: &BuildList) -> Vec<(BuildList, BTreeSet<Slot>)> {
    let mut found = Vec::new();
    for (at, fitted) in build.parts.iter().enumerate() {
        let fills = |id: &str| {
            let filled = catalogue.part(id).map_or_else(Vec::new, |part| part.filled_from(fitted.slot));
            filled.into_iter().map(|(slot, _)| slot).collect::<BTreeSet<_>>()
        };
        for other in catalogue.for_slot(fitted.slot).filter(|other| other.id != fitted.part) {
            let mut swapped = build.clone();
            other.id.clone_into(&mut swapped.parts[at].part);
            found.push((swapped, &fills(&fitted.part) | &fills(&other.id)));
        }
    }
    found
}

fn of_rule<'a>(report: &'a Report, rule: &str) -> Vec<&'a Finding> {
    let all = report.findings.iter().chain(&report.cautions).chain(&report.advice);
    all.filter(|finding| finding.rule == rule).collect()
}

#[test]
fn a_swap_changes_only_what_it_touches() {
    let catalogue = sample::catalogue();
    for (name, build) in sample::reference() {
        let before = sample::report(&catalogue, &build);
        let swaps = swaps(&catalogue, &build);
        assert!(swaps.len() > 20, "{name}: there is something to swap");
        for (swapped, slots) in swaps {
            let touched: BTreeSet<&str> = slots.iter().flat_map(|slot| graph().touched(*slot)).collect();
            let after = sample::report(&catalogue, &swapped);
            for rule in rules::ALL.iter().filter(|rule| !touched.contains(rule.id)) {
                let (old, new) = (of_rule(&before, rule.id), of_rule(&after, rule.id));
                assert_eq!(old, new, "{name}: {} changed by a swap in {slots:?}", rule.id);
            }
        }
    }
}

#[test]
fn nothing_is_read_undeclared() {
    let (catalogue, policy) = (sample::catalogue(), Policy::default());
    let builds = sample::reference().into_iter().chain(sample::flawed());
    for (name, build) in builds {
        let swapped = swaps(&catalogue, &build).into_iter().map(|(swapped, _)| swapped);
        for build in std::iter::once(build.clone()).chain(swapped) {
            let craft = propwright_engine::craft::Craft::new(&catalogue, &Arc::new(build));
            assert_eq!(graph().undeclared_reads(&craft, &policy), [], "{name}");
        }
    }
}

#[test]
fn the_order_of_slots_changes_nothing() {
    let catalogue = sample::catalogue();
    for (name, build) in sample::reference().into_iter().chain(sample::flawed()) {
        let before = sample::report(&catalogue, &build);
        for turn in 0..build.parts.len() {
            let mut turned = build.clone();
            // Lines of one slot keep their order among one another: they are that slot's first, second, third part.
            turned.parts.sort_by_key(|fitted| (fitted.slot as usize + turn * 7) % Slot::ALL.len());
            let after = sample::report(&catalogue, &turned);
            assert_eq!(before.findings, after.findings, "{name}");
            assert_eq!(before.cautions, after.cautions, "{name}");
            assert_eq!(before.advice, after.advice, "{name}");
            assert_eq!(before.totals, after.totals, "{name}");
        }
    }
}
