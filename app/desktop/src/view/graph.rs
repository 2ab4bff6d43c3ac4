//! The graph as it is shown: narrowed to what is asked for, laid out, with the path of a finding lit.

use std::collections::{BTreeMap, BTreeSet};

use propwright_engine::{
    Report,
    drawing::layers::{Layered, layered},
    finding::Status,
    graph::{Picture, graph},
};

use crate::state::Document;

/// The graph that is shown.
#[derive(Debug, Clone, Default)]
pub struct Drawn {
    /// Its nodes and edges.
    pub picture: Picture,
    /// Where they lie.
    pub layered: Layered,
    /// The nodes on the path of the chosen finding; without a choice, of all that is a mismatch.
    pub lit: BTreeSet<usize>,
}

/// The graph of a document, while it is shown.
pub fn drawn(document: &Document) -> Option<Drawn> {
    let look = document.graph?;
    let status = document.report().map(|report| gravest(report)).unwrap_or_default();
    let wanted = |rule: &str| {
        let of = status.get(rule).copied();
        look.at_least.is_none_or(|least| of.is_some_and(|of| of >= least)) || look.lit == Some(rule)
    };
    let picture = graph().picture().narrowed(wanted, look.slot);
    let broken = || status.iter().filter(|(_, status)| **status == Status::Mismatch).map(|(rule, _)| *rule);
    let chosen: Vec<&str> = look.lit.map_or_else(|| broken().collect(), |rule| vec![rule]);
    let lit = picture.above(chosen.into_iter().filter_map(|rule| picture.rule(rule)));
    Some(Drawn { layered: layered(&picture), picture, lit })
}

/// The gravest status of each rule.
fn gravest(report: &Report) -> BTreeMap<&'static str, Status> {
    let mut status = BTreeMap::new();
    for finding in report.findings.iter().chain(&report.cautions).chain(&report.advice) {
        let known = status.entry(finding.rule).or_insert(Status::Fits);
        *known = finding.status().max(*known);
    }
    status
}
