//! Steps for all mismatches where no set of single ways settles them, since one way hinders another: a way out of one mismatch,
//! then one out of those that are left on the changed list, and so on.

use std::sync::Arc;

use propwright_schema::build_list::BuildList;

use super::{
    super::bench::Means,
    search::Repair,
    step::{Step, applied},
};
use crate::finding::Finding;

/// How many mismatches are settled one after another.
const MOST: usize = 8;

/// How far it has come.
pub(super) struct OneByOne {
    steps: Vec<Step>,
    base: Arc<BuildList>,
    settled: usize,
}

/// What one more way comes to.
pub(super) enum Next {
    /// There is more to do.
    More,
    /// No mismatch is left after these steps.
    Done(Vec<Step>),
    /// What is left has no way out in one step.
    Stuck,
}

impl OneByOne {
    pub(super) fn new(base: &Arc<BuildList>) -> Self {
        Self { steps: Vec::new(), base: Arc::clone(base), settled: 0 }
    }

    /// Settles one mismatch of the list after the steps so far.
    pub(super) fn next(&mut self, means: Means) -> Next {
        let report = means.evaluate(&Arc::new(applied(&self.steps, &self.base)));
        let left = report.findings.iter().filter(|finding| Finding::forbids(finding)).count();
        if left == 0 {
            return Next::Done(std::mem::take(&mut self.steps));
        }
        if self.settled >= MOST {
            return Next::Stuck;
        }
        self.settled += 1;
        let mut repair = Repair::new(means, &report);
        // What leaves a line out would shift the lines of later steps: it comes last, or not at all.
        let keeps_lines = |steps: &[Step]| left == 1 || !steps.iter().any(Step::removes);
        let way = (0..repair.found().mismatches.len()).find_map(|at| repair.first(at, keeps_lines));
        let Some(way) = way else { return Next::Stuck };
        for step in way.steps {
            self.take(step);
        }
        Next::More
    }

    /// A step takes the place of an earlier one that changes the same of the same line.
    fn take(&mut self, step: Step) {
        let same = |known: &&mut Step| known.kind() == step.kind() && known.line() == step.line() && !step.adds();
        match (self.steps.iter_mut().find(same), step) {
            (Some(Step::Swap { to, count, .. }), Step::Swap { to: next, count: many, .. }) => {
                *to = next;
                *count = many;
            }
            (Some(known), step) => *known = step,
            (None, step) => self.steps.push(step),
        }
    }
}
