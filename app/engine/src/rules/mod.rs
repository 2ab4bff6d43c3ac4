//! The rules, one file each, in one explicit list.

mod esc_current;
mod motor_pattern;
mod motor_screw_length;
mod propeller_size;
mod rule;
mod run;
mod stack_pattern;
mod stacked;
mod table;
mod tip_gap;
#[cfg(test)]
mod trial;

pub use rule::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
pub(crate) use run::{Facts, run};

/// All rules, by group and then by the order in which one assembles.
pub const ALL: &[&Rule] = &[
    // Mechanical.
    &motor_pattern::RULE,
    &motor_screw_length::RULE,
    &propeller_size::RULE,
    &tip_gap::RULE,
    &stack_pattern::RULE,
    // Electrical.
    &esc_current::RULE,
];

/// The rule of an id.
pub fn by_id(id: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|rule| rule.id == id)
}
