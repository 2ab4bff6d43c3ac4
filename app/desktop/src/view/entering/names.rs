//! What the fields of a form are called.

use propwright_engine::explain::{capital, field_words};

/// The name of a field in words. Without their units some fields would be called alike: a voltage, a time and a burst are told.
pub(super) fn title_of(field: &str) -> String {
    let words = match field {
        "current_a" => return "Rated current".to_owned(),
        "current_burst_a" => return "Peak current".to_owned(),
        "burst_s" => return "Peak lasts".to_owned(),
        "test_v" => return "Test volts".to_owned(),
        "base_mm" => return "Base diameter".to_owned(),
        "hub_mm" => return "Hub thickness".to_owned(),
        "chord_75_mm" => return "Chord at 75 %".to_owned(),
        "limit_rpm" => return "Highest rpm".to_owned(),
        "shaft_mm" => return "Shaft diameter".to_owned(),
        "shaft_length_mm" => return "Shaft length".to_owned(),
        "bore_mm" => return "Bore diameter".to_owned(),
        "propeller_max_mm" | "propeller_max_in" => return "Max propeller".to_owned(),
        "pattern" => return "Hole pattern".to_owned(),
        "cells_min" => return "Cells".to_owned(),
        "lead_awg" => return "Leads".to_owned(),
        "cells_max" => return "Most cells".to_owned(),
        "supply_min_v" => return "Supply, volts".to_owned(),
        "supply_max_v" => return "Max supply".to_owned(),
        "outputs" => return "Outputs".to_owned(),
        _ => capital(&field_words(field)).replace("Kv", "KV"),
    };
    let told =
        MEANT.iter().filter(|_| !field.contains("_per_")).find(|(ending, _)| field.ends_with(ending)).map(|(_, meant)| *meant);
    told.filter(|meant| !words.to_lowercase().ends_with(meant)).map_or_else(|| words.clone(), |meant| format!("{words}, {meant}"))
}

/// What the unit at the end of a field's name stands for.
const MEANT: [(&str, &str); 8] = [
    ("_burst_a", "burst"),
    ("_a", "current"),
    ("_v", "volts"),
    ("_s", "time"),
    ("_mohm", "resistance"),
    ("_w", "power"),
    ("_mw", "power"),
    ("_mhz", "frequency"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use propwright_schema::{
        kit::Kit,
        part::{Part, Role},
        value::Record as _,
    };

    #[test]
    fn no_two_fields_of_a_form_are_called_alike() {
        for (kind, fields) in Role::KINDS.iter().copied().chain([("part", Part::FIELDS), ("kit", Kit::FIELDS)]) {
            let names: Vec<String> = fields.iter().map(|field| title_of(field.name)).collect();
            let again: Vec<_> = names.iter().enumerate().filter(|(at, name)| names[..*at].contains(name)).collect();
            assert!(again.is_empty(), "{kind}: {again:?}");
        }
    }
}
