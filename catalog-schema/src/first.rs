//! What is entered first of a part: what shops' pages nearly always print, and what anybody can measure.
//!
//! Common practice, no source.

/// Fields of parts of a kind in the order in which pages print them; of the two ends of a range the lower one stands for both. Empty
/// for a kind of which a page prints all.
///
/// ```
/// use propwright_schema::first::entered_first;
/// assert_eq!(entered_first("motor")[..3], ["name", "maker", "kv_rpm_per_v"]);
/// assert!(entered_first("remote identification").is_empty());
/// ```
pub fn entered_first(kind: &str) -> &'static [&'static str] {
    FIRST.iter().find(|(known, _)| *known == kind).map_or(&[], |(_, fields)| fields)
}

const FIRST: &[(&str, &[&str])] = &[
    (
        "motor",
        &[
            "name",
            "maker",
            "kv_rpm_per_v",
            "stator_diameter_mm",
            "stator_height_mm",
            "pattern",
            "shaft_mm",
            "cells_min",
            "mass_g",
            "current_a",
            "current_burst_a",
            "poles",
            "lead_awg",
            "price",
        ],
    ),
    (
        "propeller",
        &["name", "maker", "diameter_in", "pitch_in", "blades", "chord_75_mm", "bore_mm", "hub_mm", "mass_g", "pieces", "price"],
    ),
    (
        "pack",
        &[
            "name",
            "maker",
            "chemistry",
            "cells",
            "capacity_mah",
            "discharge_c_rate",
            "plug",
            "mass_g",
            "length_mm",
            "width_mm",
            "height_mm",
            "price",
        ],
    ),
    (
        "frame",
        &[
            "name",
            "maker",
            "wheelbase_mm",
            "propeller_max_in",
            "motor_patterns",
            "arm_thickness_mm",
            "standoff_mm",
            "mass_g",
            "price",
        ],
    ),
    (
        "speed controller",
        &["name", "maker", "channels", "current_a", "current_burst_a", "cells_max", "pattern", "mass_g", "price"],
    ),
    ("flight controller", &["name", "maker", "cells_max", "outputs", "i2c", "pattern", "firmware_key", "mass_g", "price"]),
    ("receiver", &["name", "maker", "family", "region", "band_mhz", "supply_min_v", "mass_g", "price"]),
    ("camera", &["name", "maker", "signal", "supply_min_v", "width_mm", "mass_g", "price"]),
    ("video transmitter", &["name", "maker", "signal", "supply_min_v", "antenna_connector", "pattern", "mass_g", "price"]),
    ("goggles", &["name", "maker", "families", "supply_min_v", "price"]),
    ("radio", &["name", "maker", "families", "region", "power_mw", "price"]),
    ("charger", &["name", "maker", "cells_min", "power_w", "current_a", "price"]),
];

/// Ratings and advice that a maker gives: nobody measures them at the bench.
const MAKERS: &[&str] = &[
    "pitch_in",
    "limit_rpm",
    "current_a",
    "current_burst_a",
    "burst_s",
    "test_v",
    "cells_min",
    "cells_max",
    "supply_min_v",
    "supply_max_v",
    "propeller_max_mm",
    "propeller_max_in",
    "discharge_c_rate",
    "burst_c_rate",
    "charge_c_rate",
    "full_cell_v",
    "plug_a",
    "rated_v",
    "capacitor_v",
    "payload_max_g",
    "version_major",
    "version_minor",
    "current_scale_mv_per_a",
    "gain_dbi",
    "energy_wh",
];

/// Can a figure be measured with calipers, a scale, a meter or by counting? A rating and the pitch of a propeller stay the maker's
/// whoever types them.
///
/// ```
/// use propwright_schema::first::can_be_measured;
/// assert!(can_be_measured("mass_g") && can_be_measured("chord_75_mm"));
/// assert!(!can_be_measured("pitch_in") && !can_be_measured("current_burst_a"));
/// ```
pub fn can_be_measured(field: &str) -> bool {
    !MAKERS.contains(&field)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        part::{Part, Role},
        value::Record as _,
    };

    #[test]
    fn every_name_is_a_field_and_stands_once() {
        for (kind, names) in FIRST {
            let role = Role::of_kind(kind).unwrap();
            for (at, name) in names.iter().enumerate() {
                let known = role.fields().iter().chain(Part::FIELDS).any(|field| field.name == *name);
                assert!(known && !names[..at].contains(name), "{kind}: {name}");
            }
        }
        let fields = || Role::KINDS.iter().flat_map(|(_, fields)| *fields);
        for name in MAKERS {
            assert!(fields().any(|field| field.name == *name), "{name}");
        }
    }
}
