//! Checks of a policy file: figures that are some, names that exist, values in their order.

use super::{Issue, LONGEST_NAME, LONGEST_NOTE, Step, text};
use crate::{
    diagnostic::{Diagnostic, did_you_mean},
    load,
    thresholds::{KnownThreshold, PolicyFile, ThresholdEdit},
};

/// Largest magnitude of a threshold, in its unit.
const LARGEST: f64 = 1e6;

/// What is wrong with an edit by itself.
pub(crate) fn threshold(edit: &ThresholdEdit) -> Vec<Issue> {
    let found = [
        text("name", Some(&edit.name), LONGEST_NAME),
        text("note", edit.note.as_ref(), LONGEST_NOTE),
        figure("tight", edit.tight),
        figure("mismatch", edit.mismatch),
        nothing(edit),
    ];
    found.into_iter().flatten().collect()
}

fn figure(key: &str, value: Option<f64>) -> Option<Issue> {
    let value = value.filter(|value| !value.is_finite() || value.abs() > LARGEST)?;
    Some(
        Issue::new(format!("{value} is no plausible threshold"), "write a number in the unit of the table of thresholds")
            .key(key),
    )
}

fn nothing(edit: &ThresholdEdit) -> Option<Issue> {
    let changes = edit.tight.or(edit.mismatch).is_some();
    let issue = || {
        Issue::new(format!("\"{}\" is named and not changed", edit.name), "give it a tight or a mismatch value, or leave it out")
    };
    (!changes).then(|| issue().key("name"))
}

/// Every edit that names no threshold of the program, names one twice, gives a value that the threshold does not have, or turns
/// the order of its two values round. `text` is the text from which the policy was read, for the places; `file` its name.
pub fn check_thresholds(policy: &PolicyFile, text: &str, file: &str, known: &[KnownThreshold]) -> Vec<Diagnostic> {
    let issues = policy.thresholds.iter().enumerate().filter_map(|(at, edit)| {
        let again = policy.thresholds[..at].iter().any(|before| before.name == edit.name);
        let issue = if again { Some(repeated(edit)) } else { against(edit, known) };
        issue.map(|issue| (None, issue.within(Step::Item(at)).key("thresholds")))
    });
    load::placed(file, text, issues.collect())
}

fn repeated(edit: &ThresholdEdit) -> Issue {
    Issue::new(format!("\"{}\" is changed here a second time", edit.name), "keep one of the two").key("name")
}

fn against(edit: &ThresholdEdit, known: &[KnownThreshold]) -> Option<Issue> {
    let Some(usual) = known.iter().find(|known| known.name == edit.name) else {
        let hint = did_you_mean(&edit.name, known.iter().map(|known| known.name));
        let hint =
            hint.map_or_else(|| "the table of thresholds lists all names".to_owned(), |name| format!("did you mean \"{name}\"?"));
        return Some(Issue::new(format!("there is no threshold \"{}\"", edit.name), hint).key("name"));
    };
    for (key, given, has, word) in
        [("tight", edit.tight, usual.tight, "mismatch"), ("mismatch", edit.mismatch, usual.mismatch, "tight")]
    {
        if given.is_some() && has.is_none() {
            return Some(
                Issue::new(format!("\"{}\" has no {key} value", edit.name), format!("change its {word} value")).key(key),
            );
        }
    }
    turned_round(edit, usual)
}

/// A warning comes before what forbids, on the side on which the program has it.
fn turned_round(edit: &ThresholdEdit, usual: &KnownThreshold) -> Option<Issue> {
    let (tight, mismatch) = (usual.tight?, usual.mismatch?);
    let (new_tight, new_mismatch) = (edit.tight.unwrap_or(tight), edit.mismatch.unwrap_or(mismatch));
    let sound = if mismatch >= tight { new_mismatch >= new_tight } else { new_mismatch <= new_tight };
    let side = if mismatch >= tight { "above" } else { "below" };
    let reason = format!("tight {new_tight} and mismatch {new_mismatch}: the mismatch value belongs {side} the tight one");
    let key = if edit.mismatch.is_some() { "mismatch" } else { "tight" };
    (!sound).then(|| Issue::new(reason, "a finding warns before it forbids").key(key))
}
