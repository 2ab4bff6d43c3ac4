//! Sentences about what the user estimates.

use super::{field_words, headline, part_name, value};
use crate::{
    estimated::Estimated,
    finding::{Because, Finding},
};
use propwright_schema::part::Basis;

/// What is estimated, in a few words: `thread depth of the Vellacre 2207`.
pub fn title(estimated: &Estimated) -> String {
    format!("{} of the {}", field_words(estimated.field.name), part_name(&estimated.subject))
}

/// An estimate with its value as a line, and what counts in its place: `Motor: thread depth 3.5 mm, estimated by you`.
pub fn line(estimated: &Estimated) -> String {
    let said = headline(&estimated.fact());
    unused(estimated).map_or_else(|| said.clone(), |unused| format!("{said}; {unused}"))
}

/// Why an estimate does not count: `not counted, 4 mm is published`.
pub fn unused(estimated: &Estimated) -> Option<String> {
    let (held, basis) = estimated.instead.as_ref()?;
    let by = if *basis == Some(Basis::Measured) {
        "was measured"
    } else if *basis == Some(Basis::Estimate) {
        "is the catalogue's own estimate"
    } else {
        "is published"
    };
    Some(format!("not counted, {} {by}", value(held)))
}

/// The user's own estimates on which a finding rests, a line each: `rests on your estimate: Motor: thread depth 3.5 mm`.
pub fn own(finding: &Finding) -> Vec<String> {
    let line = |fact: &Because| {
        let said = headline(fact);
        format!("rests on your estimate: {}", said.strip_suffix(", estimated by you").unwrap_or(&said))
    };
    finding.own_estimates().into_iter().map(line).collect()
}
