//! References of a build list to the parts of a catalogue.

use super::{Issue, Step};
use crate::{
    build_list::{BuildList, Fitted, Spare},
    catalogue::{Catalogue, CatalogueFile},
    diagnostic::{Diagnostic, did_you_mean},
    estimate::Estimate,
    load,
    part::{Part, Role},
    slot::Slot,
};

/// Unknown ids for which a near one is looked up among all parts.
const MOST_SUGGESTIONS: usize = 50;

/// Every line and spare of a build list that names no part of the catalogue, or one that does not fill its slot. `text` is the text
/// from which the build list was read, for the places; `file` its name.
pub fn check_references(build: &BuildList, text: &str, file: &str, catalogue: &Catalogue) -> Vec<Diagnostic> {
    let mut issues = Vec::new();
    for (at, fitted) in build.parts.iter().enumerate() {
        let suggest = issues.len() < MOST_SUGGESTIONS;
        if let Some((key, issue)) = reference_issue(fitted, catalogue, suggest) {
            issues.push((Some(fitted.part.as_str()), issue.key(key).within(Step::Item(at)).key("parts")));
        }
    }
    for (at, spare) in build.spares.iter().enumerate() {
        let suggest = issues.len() < MOST_SUGGESTIONS;
        if let Some((key, issue)) = spare_issue(spare, catalogue, suggest) {
            issues.push((Some(spare.part.as_str()), issue.key(key).within(Step::Item(at)).key("spares")));
        }
    }
    for (at, estimate) in build.estimates.iter().enumerate() {
        let of_role = |issue: (usize, Issue)| issue.1.within(Step::Item(issue.0)).key("fills");
        let found = catalogue.part(&estimate.part).into_iter().flat_map(|part| strange_roles(part, estimate)).map(of_role);
        issues.extend(found.map(|issue| (Some(estimate.part.as_str()), issue.within(Step::Item(at)).key("estimates"))));
    }
    load::placed(file, text, issues)
}

/// Roles of an estimate that its part does not fill.
fn strange_roles(part: &Part, estimate: &Estimate) -> Vec<(usize, Issue)> {
    let words: Vec<&str> = part.fills.iter().map(Role::word).collect();
    let strange = estimate.fills.iter().enumerate().filter(|(_, role)| !words.contains(&role.word()));
    let issue = |role: &Role| {
        let hint = format!("estimate fields of {}", words.join(", "));
        Issue::new(format!("\"{}\" is no {}", part.name, role.word()), hint)
    };
    strange.map(|(at, role)| (at, issue(role))).collect()
}

fn reference_issue(fitted: &Fitted, catalogue: &Catalogue, suggest: bool) -> Option<(&'static str, Issue)> {
    let part = match known(&fitted.part, catalogue, suggest) {
        Ok(part) => part,
        Err(issue) => return Some(("part", issue)),
    };
    if part.role(fitted.slot).is_some() {
        return None;
    }
    let words: Vec<&str> = part.fills.iter().map(Role::word).collect();
    let slots: Vec<String> = part.fills.iter().flat_map(Role::slots).map(|slot| format!("{slot:?}")).collect();
    let reason = format!("\"{}\" ({}) does not fill the slot {:?}", part.name, words.join(", "), fitted.slot);
    Some(("slot", Issue::new(reason, format!("it can fill {}", slots.join(", ")))))
}

fn spare_issue(spare: &Spare, catalogue: &Catalogue, suggest: bool) -> Option<(&'static str, Issue)> {
    match known(&spare.part, catalogue, suggest) {
        Err(issue) => Some(("part", issue)),
        Ok(part) if spare.arm && part.role(Slot::Frame).is_none() => Some((
            "arm",
            Issue::new(format!("\"{}\" is no frame and has no arms", part.name), "leave arm out, or name the frame"),
        )),
        Ok(_) => None,
    }
}

/// The part of an id.
fn known<'c>(id: &str, catalogue: &'c Catalogue, suggest: bool) -> Result<&'c Part, Issue> {
    if let Some(part) = catalogue.part(id) {
        return Ok(part);
    }
    let ids = catalogue.parts().map(|part| part.id.as_str());
    let hint = match did_you_mean(id, ids.filter(|_| suggest)) {
        Some(meant) => format!("did you mean \"{meant}\"?"),
        None => "open the catalogue that holds it, or choose another part".to_owned(),
    };
    Err(Issue::new(format!("no catalogue holds a part \"{id}\""), hint))
}

/// Every article of a kit that is no part of `catalogue`, which holds what `file` is laid over. `text` is the text from which the
/// file was read, for the places; `name` its name.
pub fn check_kits(file: &CatalogueFile, text: &str, name: &str, catalogue: &Catalogue) -> Vec<Diagnostic> {
    let mut issues = Vec::new();
    for (at, kit) in file.kits.iter().enumerate() {
        for (within, item) in kit.contents.iter().enumerate() {
            let suggest = issues.len() < MOST_SUGGESTIONS;
            if let Err(issue) = known(&item.part, catalogue, suggest) {
                let issue = issue.key("part").within(Step::Item(within)).key("contents").within(Step::Item(at)).key("kits");
                issues.push((Some(kit.id.as_str()), issue));
            }
        }
    }
    load::placed(name, text, issues)
}
