//! What the worker found is put where it belongs; what a later change has overtaken is dropped.

use std::sync::Arc;

use propwright_engine::finding::Status;

use crate::{
    state::{App, Judged},
    view,
    worker::{Answer, Outcome},
};

pub(super) fn take(app: &mut App, answer: Answer) {
    let Some(document) = app.document_mut(answer.document) else { return };
    if answer.revision != document.revision {
        return;
    }
    match answer.outcome {
        Outcome::Report(report) => {
            document.judged = Judged::Done(Arc::new(*report));
            document.judged_revision = Some(answer.revision);
        }
        Outcome::Failed(reason) => document.judged = Judged::Failed(reason),
        Outcome::Trial(place, part, trial) => {
            if let Some(picker) = document.picker.as_mut().filter(|picker| picker.place == place) {
                let leaves = picker.only_fitting && trial.status == Status::Mismatch;
                picker.trials.insert(part.clone(), Some(*trial));
                if leaves {
                    picker.parts.retain(|other| other.id != part);
                }
            }
            return;
        }
    }
    document.bench = view::bench(document);
}
