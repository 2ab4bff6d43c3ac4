//! The rule table, as JSON and as plain text.

use propwright_engine::rules::{self, Rule};
use serde::Serialize;

use crate::page::Page;

/// All rules in the order of the list.
#[derive(Debug, Serialize)]
pub struct Rules {
    /// The rules.
    pub rules: Vec<Row>,
}

/// One rule.
#[derive(Debug, Serialize)]
pub struct Row {
    /// Id in kebab case.
    pub rule: &'static str,
    /// Title.
    pub title: &'static str,
    /// Family.
    pub group: &'static str,
    /// The slots that it joins.
    pub slots: Vec<&'static str>,
    /// Its formula.
    pub formula: &'static str,
    /// Where it comes from.
    pub source: &'static str,
}

/// The rule table.
pub fn table() -> Rules {
    Rules { rules: rules::ALL.iter().map(|rule| row(rule)).collect() }
}

fn row(rule: &Rule) -> Row {
    Row {
        rule: rule.id,
        title: rule.title,
        group: rule.group.word(),
        slots: rule.slots.iter().map(|slot| slot.word()).collect(),
        formula: rule.formula,
        source: rule.source,
    }
}

/// The rule table as plain text, one heading a family.
pub fn text() -> String {
    let mut page = Page::default();
    let mut group = "";
    for row in table().rules {
        if row.group == group {
            page.gap();
        } else {
            group = row.group;
            page.heading(group);
        }
        page.paragraph("", &format!("{}: {}", row.rule, row.title));
        let slots = if row.slots.is_empty() { "no parts".to_owned() } else { row.slots.join(", ") };
        page.paragraph("  joins    ", &slots);
        page.paragraph("  formula  ", row.formula);
        page.paragraph("  source   ", row.source);
    }
    page.finish()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_rule_stands_in_both_forms() {
        let (table, text) = (table(), text());
        assert_eq!(table.rules.len(), rules::ALL.len());
        assert!(table.rules.iter().all(|row| text.contains(row.rule)));
    }
}
