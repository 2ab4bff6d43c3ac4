//! References of a build list to the parts of a catalogue.

use super::{Issue, Step};
use crate::{
    build_list::{BuildList, Fitted},
    catalogue::Catalogue,
    diagnostic::{Diagnostic, did_you_mean},
    load,
    part::Role,
};

/// Unknown ids for which a near one is looked up among all parts.
const MOST_SUGGESTIONS: usize = 50;

/// Every line of a build list that names no part of the catalogue, or one that does not fill its slot. `text` is the text
/// from which the build list was read, for the places; `file` its name.
pub fn check_references(build: &BuildList, text: &str, file: &str, catalogue: &Catalogue) -> Vec<Diagnostic> {
    let mut issues = Vec::new();
    for (at, fitted) in build.parts.iter().enumerate() {
        let suggest = issues.len() < MOST_SUGGESTIONS;
        if let Some((key, issue)) = reference_issue(fitted, catalogue, suggest) {
            issues.push((Some(fitted.part.as_str()), issue.key(key).within(Step::Item(at)).key("parts")));
        }
    }
    load::placed(file, text, issues)
}

fn reference_issue(fitted: &Fitted, catalogue: &Catalogue, suggest: bool) -> Option<(&'static str, Issue)> {
    let id = &fitted.part;
    let Some(part) = catalogue.part(id) else {
        let ids = catalogue.parts().map(|part| part.id.as_str());
        let hint = match did_you_mean(id, ids.filter(|_| suggest)) {
            Some(meant) => format!("did you mean \"{meant}\"?"),
            None => "open the catalogue that holds it, or choose another part".to_owned(),
        };
        return Some(("part", Issue::new(format!("no catalogue holds a part \"{id}\""), hint)));
    };
    if part.role(fitted.slot).is_some() {
        return None;
    }
    let words: Vec<&str> = part.fills.iter().map(Role::word).collect();
    let slots: Vec<String> = part.fills.iter().flat_map(Role::slots).map(|slot| format!("{slot:?}")).collect();
    let reason = format!("\"{}\" ({}) does not fill the slot {:?}", part.name, words.join(", "), fitted.slot);
    Some(("slot", Issue::new(reason, format!("it can fill {}", slots.join(", ")))))
}
