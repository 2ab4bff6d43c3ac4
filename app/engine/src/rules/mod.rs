//! The rules, one file each, in one explicit list.

mod air_transport;
mod air_transport_most;
mod antenna_band;
mod antenna_before_power;
mod antenna_connector;
mod antenna_fitted;
mod antenna_handedness;
mod antenna_mount;
mod bag_energy;
mod balance;
mod battery_place;
mod brown_out;
mod calm_time;
mod camera_depth;
mod camera_tilt;
mod camera_view;
mod camera_width;
mod capacitor_fitted;
mod capacitor_room;
mod capacitor_voltage;
mod cell_volts;
mod charger_balance;
mod charger_fit;
mod charger_power;
mod charger_supply;
mod cold_packs;
mod compass_bus;
mod condition;
mod connector_heating;
mod control_harmonic;
mod control_licence;
mod current_sensor;
mod duct_gap;
mod esc_channels;
mod esc_current;
mod esc_supply;
mod first_craft_ducts;
mod first_craft_lifter;
mod first_craft_size;
mod first_power_up;
pub(crate) mod five_inch;
mod flies;
mod gps_mount;
mod ground_batteries;
mod harness_pin_order;
mod hover_duty;
mod indoor_guard;
mod indoor_size;
mod inrush_spark;
mod landing_cell;
mod lead_heating;
mod link_family;
mod link_region;
mod link_version;
mod loaded_cell;
mod log_parts;
mod lost_craft;
mod mass_line;
mod module_bay;
mod motor_count;
mod motor_current;
mod motor_leads;
mod motor_match;
mod motor_outputs;
mod motor_pattern;
mod motor_protocol;
mod motor_screw_grip;
mod motor_screw_length;
mod motor_screw_thread;
mod needed_to_fly;
mod observer;
mod outputs_wired;
mod overlay;
mod pack_fire;
mod pack_full_throttle;
mod pack_pair;
mod pack_plug;
mod pack_rating;
mod packet_rate;
mod parallel_packs;
mod part_known;
mod path_current;
mod payload;
mod payload_mount;
mod place_altitude;
mod propeller_body;
mod propeller_bore;
mod propeller_fixing;
mod propeller_folding;
mod propeller_hub;
mod propeller_pack;
mod propeller_rpm;
mod propeller_size;
mod propellers_off;
mod rail_known;
mod rail_load;
mod reach;
mod receiver_inversion;
mod remote_id;
mod return_needs_gps;
mod return_sensors;
mod rotation_set;
mod rpm_filter_poles;
mod rule;
mod run;
mod selector_fitted;
mod self_righting;
mod shaft_hand;
mod simulator_first;
mod simulator_port;
mod stack_height;
mod stack_hole;
mod stack_pattern;
mod strap_length;
mod strap_width;
mod supply_floor;
mod supply_max;
mod supply_min;
mod switched_feed;
mod table;
mod thin_air;
mod thrust_to_weight;
mod tip_gap;
mod tip_mach;
mod trainer_port;
#[cfg(test)]
pub(crate) mod trial;
mod turn_back;
mod two_way_rpm;
mod uart_clash;
mod uart_count;
mod uart_known;
mod uart_pads;
mod video_airflow;
mod video_control;
mod video_control_bands;
mod video_licence;
mod video_pattern;
mod video_supply;
mod video_system;
mod whenever;
mod wind_comfort;
mod wind_gusts;

pub use rule::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
pub(crate) use run::{Facts, run};
pub(crate) use thrust_to_weight::limit_of as thrust_of;

/// All rules, by group and then by the order in which one assembles.
pub const ALL: &[&Rule] = &[
    // Complete.
    &part_known::RULE,
    &needed_to_fly::RULE,
    // Mechanical.
    &motor_count::RULE,
    &motor_pattern::RULE,
    &motor_match::RULE,
    &motor_screw_thread::RULE,
    &motor_screw_length::RULE,
    &motor_screw_grip::RULE,
    &propeller_size::RULE,
    &propeller_fixing::RULE,
    &propeller_bore::RULE,
    &rotation_set::RULE,
    &tip_gap::RULE,
    &duct_gap::RULE,
    &stack_pattern::RULE,
    &stack_hole::RULE,
    &stack_height::RULE,
    &battery_place::RULE,
    &strap_width::RULE,
    &strap_length::RULE,
    &camera_width::RULE,
    &camera_depth::RULE,
    &video_pattern::RULE,
    &propeller_rpm::RULE,
    &payload::RULE,
    &propeller_body::RULE,
    &propeller_pack::RULE,
    &camera_view::RULE,
    &propeller_folding::RULE,
    &propeller_hub::RULE,
    &shaft_hand::RULE,
    &capacitor_room::RULE,
    &motor_leads::RULE,
    &camera_tilt::RULE,
    &antenna_mount::RULE,
    &gps_mount::RULE,
    &payload_mount::RULE,
    &balance::RULE,
    // Electrical.
    &esc_supply::RULE,
    &supply_max::RULE,
    &video_supply::RULE,
    &supply_min::RULE,
    &rail_known::RULE,
    &rail_load::RULE,
    &capacitor_voltage::RULE,
    &capacitor_fitted::RULE,
    &harness_pin_order::RULE,
    &pack_pair::RULE,
    &pack_plug::RULE,
    &esc_channels::RULE,
    &charger_fit::RULE,
    &charger_balance::RULE,
    &esc_current::RULE,
    &motor_current::RULE,
    &loaded_cell::RULE,
    &landing_cell::RULE,
    &pack_rating::RULE,
    &pack_full_throttle::RULE,
    &connector_heating::RULE,
    &lead_heating::RULE,
    &path_current::RULE,
    &switched_feed::RULE,
    &brown_out::RULE,
    &inrush_spark::RULE,
    &current_sensor::RULE,
    &two_way_rpm::RULE,
    &charger_power::RULE,
    &selector_fitted::RULE,
    &bag_energy::RULE,
    // Radio and video.
    &link_family::RULE,
    &link_region::RULE,
    &link_version::RULE,
    &module_bay::RULE,
    &video_system::RULE,
    &antenna_fitted::RULE,
    &antenna_connector::RULE,
    &antenna_band::RULE,
    &antenna_handedness::RULE,
    &video_control_bands::RULE,
    &control_harmonic::RULE,
    &video_airflow::RULE,
    &video_control::RULE,
    &ground_batteries::RULE,
    &packet_rate::RULE,
    // Firmware.
    &uart_count::RULE,
    &uart_clash::RULE,
    &uart_known::RULE,
    &receiver_inversion::RULE,
    &motor_outputs::RULE,
    &motor_protocol::RULE,
    &overlay::RULE,
    &rpm_filter_poles::RULE,
    &self_righting::RULE,
    &outputs_wired::RULE,
    &return_sensors::RULE,
    &uart_pads::RULE,
    &compass_bus::RULE,
    // Flight.
    &flies::RULE,
    &thrust_to_weight::RULE,
    &hover_duty::RULE,
    &log_parts::RULE,
    &tip_mach::RULE,
    &calm_time::RULE,
    &reach::RULE,
    &place_altitude::RULE,
    &turn_back::RULE,
    &wind_comfort::RULE,
    &wind_gusts::RULE,
    &thin_air::RULE,
    &cold_packs::RULE,
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
    &parallel_packs::RULE,
    &observer::RULE,
    &mass_line::RULE,
    &video_licence::RULE,
    &air_transport::RULE,
    &charger_supply::RULE,
    &trainer_port::RULE,
    &simulator_port::RULE,
    &remote_id::RULE,
    &air_transport_most::RULE,
    &control_licence::RULE,
    &lost_craft::RULE,
    &antenna_before_power::RULE,
    &first_power_up::RULE,
];

/// The rule of an id.
pub fn by_id(id: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|rule| rule.id == id)
}
