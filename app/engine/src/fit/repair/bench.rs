//! Judging changed lists against the list as it is: what a change does not reach is computed once.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

use propwright_schema::build_list::BuildList;

use super::{
    super::{
        bench::Means,
        change::{Change, State, change},
        standing::Before,
    },
    fault::{Fault, Faults},
    step::{Step, applied, touched},
};
use crate::{
    explain,
    finding::{Finding, Status},
    graph::{Reach, Store, Touched, graph},
    report::Report,
    rules::Weight,
};

/// The list as it is, with a store for each set of what changes touch.
pub(super) struct Bench<'a> {
    pub(super) means: Means<'a>,
    pub(super) base: &'a Report,
    pub(super) before: Faults,
    standing: Before,
    stores: BTreeMap<BTreeSet<Touched>, (Reach, Store)>,
}

/// What was found of a changed list.
pub(super) struct Judged {
    /// The list.
    pub(super) build: Arc<BuildList>,
    /// What is wrong with it, as far as it was judged.
    pub(super) after: Faults,
    /// What is graver than before without being a mismatch, and what changes; absent where the goal is missed.
    pub(super) reached: Option<(Vec<Finding>, Change)>,
}

impl<'a> Bench<'a> {
    pub(super) fn new(means: Means<'a>, base: &'a Report) -> Self {
        let (before, standing) = (Faults::of(&base.findings), Before::of(&base.findings));
        Self { means, base, before, standing, stores: BTreeMap::new() }
    }

    /// Judges the list after the steps. Models are solved only when plain comparison leaves the goal open: that all of
    /// `removed` are gone and nothing new is wrong.
    pub(super) fn judge(&mut self, steps: &[Step], removed: &BTreeSet<Fault>) -> Judged {
        let build = Arc::new(applied(steps, &self.base.craft.build));
        let (craft, bill) = self.means.craft(&build);
        let base = self.base;
        let (reach, store) = self.stores.entry(touched(steps)).or_insert_with_key(|touched| {
            let reach = graph().reach_of(touched);
            (reach, base.store.clone())
        });
        let unreached: Vec<&Finding> = base.findings.iter().filter(|finding| !reach.judges(finding.rule)).collect();
        let mut found = reach.quick.run(&craft, self.means.policy, store);
        let so_far = Faults::of(unreached.iter().copied().chain(&found));
        if !so_far.is_way_out(&self.before, removed) {
            return Judged { build, after: so_far, reached: None };
        }
        found.extend(reach.solved.run(&craft, self.means.policy, store));
        let after = Faults::of(unreached.into_iter().chain(&found));
        let reached = after.is_way_out(&self.before, removed).then(|| {
            let [before, now] = [State::from(base), State { craft: &craft, bill: &bill, store }];
            let worse = |finding: &Finding| {
                matches!(finding.status(), Status::Tight | Status::Unstated)
                    && explain::weight(finding) == Weight::Finding
                    && self.standing.worsened(finding)
            };
            let mut worse: Vec<Finding> = found.iter().filter(|finding| worse(finding)).cloned().collect();
            worse.sort_by_key(|finding| std::cmp::Reverse(finding.status()));
            (worse, change(before, now))
        });
        Judged { build, after, reached }
    }
}
