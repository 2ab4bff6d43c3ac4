//! The rules, one file each, in one explicit list.

mod air_transport;
mod antenna_connector;
mod esc_current;
mod first_craft_ducts;
mod first_craft_lifter;
mod first_craft_size;
mod indoor_guard;
mod indoor_size;
mod link_family;
mod link_region;
mod mass_line;
mod motor_pattern;
mod motor_screw_length;
mod needed_to_fly;
mod observer;
mod pack_fire;
mod propeller_size;
mod propellers_off;
mod rail_load;
mod return_needs_gps;
mod rule;
mod run;
mod simulator_first;
mod stack_pattern;
mod stacked;
mod supply_max;
mod table;
mod tip_gap;
#[cfg(test)]
pub(crate) mod trial;
mod uart_count;
mod video_licence;
mod video_supply;
mod video_system;

pub use rule::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
pub(crate) use run::{Facts, run};

/// All rules, by group and then by the order in which one assembles.
pub const ALL: &[&Rule] = &[
    // Complete.
    &needed_to_fly::RULE,
    // Mechanical.
    &motor_pattern::RULE,
    &motor_screw_length::RULE,
    &propeller_size::RULE,
    &tip_gap::RULE,
    &stack_pattern::RULE,
    // Electrical.
    &supply_max::RULE,
    &video_supply::RULE,
    &rail_load::RULE,
    &esc_current::RULE,
    // Radio and video.
    &link_family::RULE,
    &link_region::RULE,
    &video_system::RULE,
    &antenna_connector::RULE,
    // Firmware.
    &uart_count::RULE,
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
