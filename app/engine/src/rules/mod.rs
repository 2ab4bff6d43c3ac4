//! The rules, one file each, in one explicit list.

mod esc_current;
mod motor_pattern;
mod rule;
mod run;
mod table;
#[cfg(test)]
mod trial;

pub use rule::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
pub(crate) use run::{Facts, run};

/// All rules, by group and then by the order in which one assembles.
pub const ALL: &[&Rule] = &[&motor_pattern::RULE, &esc_current::RULE];

/// The rule of an id.
pub fn by_id(id: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|rule| rule.id == id)
}
