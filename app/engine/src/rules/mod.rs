//! The rules, one file each, in one explicit list.

mod air_transport;
mod esc_current;
mod first_craft_ducts;
mod first_craft_lifter;
mod first_craft_size;
mod indoor_guard;
mod indoor_size;
mod mass_line;
mod motor_pattern;
mod motor_screw_length;
mod observer;
mod pack_fire;
mod propeller_size;
mod propellers_off;
mod return_needs_gps;
mod rule;
mod run;
mod simulator_first;
mod stack_pattern;
mod stacked;
mod table;
mod tip_gap;
#[cfg(test)]
pub(crate) mod trial;
mod video_licence;

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
    // Radio and video.
    // Firmware.
    // Flight.
    // Conduct.
    &simulator_first::RULE,
    &first_craft_ducts::RULE,
    &first_craft_size::RULE,
    &first_craft_lifter::RULE,
    &indoor_size::RULE,
    &indoor_guard::RULE,
    &return_needs_gps::RULE,
    &propellers_off::RULE,
    &pack_fire::RULE,
    &observer::RULE,
    &mass_line::RULE,
    &video_licence::RULE,
    &air_transport::RULE,
];

/// The rule of an id.
pub fn by_id(id: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|rule| rule.id == id)
}
