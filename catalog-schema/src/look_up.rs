//! Where a figure is found, and how it is measured when nobody published it.
//!
//! Common practice of the bench, no source, unless one is named.

use crate::value::{Field, Kind};

/// What several fields have in common: by name, else by the end of the name.
struct Way {
    names: &'static [&'static str],
    help: &'static str,
}

const fn way(names: &'static [&'static str], help: &'static str) -> Way {
    Way { names, help }
}

/// By the whole name.
const NAMED: &[Way] = &[
    way(
        &["mass_g"],
        "In the listing; better on a kitchen scale with steps of 0.1 g. Leads and plugs belong to it: where a page says without them, or says nothing, weigh it. Of small parts weigh ten and divide.",
    ),
    way(&["kv_rpm_per_v"], "In the name of the motor, and printed on the bell."),
    way(
        &["stator_diameter_mm", "stator_height_mm"],
        "From the size in the name: 2207 is 22 mm across and 7 mm high. Calipers on the laminated core where the bell is open.",
    ),
    way(
        &["resistance_mohm"],
        "Seldom published. A four-wire milliohm meter, at room temperature, leads short; a usual multimeter is too coarse. Never put an ohm meter across a pack: take a pack meter or the charger's reading.",
    ),
    way(
        &["no_load_current_a", "no_load_v"],
        "In the maker's table. Else off the craft, clamped down, without a propeller, full throttle on a known supply: read volts and current.",
    ),
    way(
        &["current_burst_a"],
        "In the listing as peak, burst or maximal current; with its seconds it may be typed as 42 A/10 s. Do not try to measure it.",
    ),
    way(
        &["current_a"],
        "In the listing as continuous or rated current; where only a peak is printed, leave it blank. What a board draws can be read on a bench supply with a limit, propellers off.",
    ),
    way(&["burst_s"], "In the small print beside the burst current: 10 s or 60 s. Where none is printed, leave it blank."),
    way(&["poles"], "In the listing as 12N14P: 14 are the magnets. Else count the magnets in the bell."),
    way(&["winding"], "Seldom published; leave it blank unless the maker says delta or star."),
    way(
        &["pattern", "motor_patterns", "video_patterns"],
        "In the drawing of the listing, such as 16x16 mm; a motor's with the thread, 16x16 M3. Calipers over two holes: outer edge to outer edge less one hole.",
    ),
    way(&["thread"], "In the listing, or with a screw that turns in by hand: M3 has 0.5 mm, M2 0.4 mm a turn (ISO 261)."),
    way(
        &["thread_depth_mm"],
        "Seldom published. A thin wooden rod into the hole until it touches, marked at the base, then calipers. Never steel: it cuts the winding.",
    ),
    way(&["shaft_mm", "bore_mm"], "In the listing, such as 5 mm or M5; calipers, the inner jaws for a bore."),
    way(&["fixing"], "In the pictures: one nut on a thread, two screws beside the shaft, or pressed on a bare shaft."),
    way(&["lead_awg"], "Printed on the insulation, or in the listing; with the length it may be typed as 20 AWG, 150 mm."),
    way(
        &["diameter_in"],
        "In the name, rounded: 5.1x4.1x3 is 5.1 in across. Better with calipers or a rule from tip to tip; of three blades twice the way from the middle of the bore to a tip. Millimetres may be typed: 129.5 mm.",
    ),
    way(
        &["pitch_in"],
        "The second number of the name: 5.1x4.1x3 has 4.1 in. How makers measure it is seldom told and cannot be checked with calipers: it stays the maker's figure.",
    ),
    way(&["blades"], "The third number of the name, or count them."),
    way(
        &["chord_75_mm"],
        "Mark the blade at three quarters of the way from the middle of the bore to the tip; calipers there across the blade from front edge to rear edge, flat on it.",
    ),
    way(&["hub_mm"], "Calipers along the shaft, from the face on the motor to the face under the nut; not across."),
    way(&["limit_rpm"], "On the maker's page in turns a minute, where there is one; many publish none. It cannot be measured."),
    way(&["rotation"], "In the listing: a pack of two and two holds both directions."),
    way(
        &["static_point"],
        "From the maker's table or a thrust stand, propeller alone: speed, thrust and shaft power of one row.",
    ),
    way(&["stand"], "From the maker's bench table or your own stand. Stand behind a guard, not in the plane of the propeller."),
    way(
        &["capacity_mah", "cells", "parallel", "chemistry"],
        "Printed on the label: 6S2P means six in series and two side by side.",
    ),
    way(&["discharge_c_rate", "burst_c_rate"], "Printed on the label, such as 100C; sellers claim much, the rules know that."),
    way(&["charge_c_rate"], "Printed on the label, such as 5C; where none is printed, charge with 1C."),
    way(
        &["full_cell_v"],
        "Chemistry decides: 4.20 V, or 4.35 V for LiHV as printed on the label. Never charge beyond what is printed.",
    ),
    way(&["plug_mohm"], "Not published. A four-wire milliohm meter over the closed pair."),
    way(&["cycles"], "From your own log of the pack."),
    way(&["wheelbase_mm"], "In the listing; a rule from shaft to shaft over the middle."),
    way(&["duct_inner_mm"], "Calipers or a rule across the inside of the duct, in the plane of the propeller."),
    way(&["motors"], "From the drawing of the frame, or with a rule from the middle: x to the right, y forward, z up."),
    way(&["arm_thickness_mm", "top_plate_mm", "bottom_plate_mm"], "In the listing of the plates; calipers on the edge."),
    way(&["drag_area_cm2"], "Only from logs of level flight; leave it blank otherwise."),
    way(
        &["supply_min_v", "supply_max_v"],
        "In the listing as input, such as 7–26 V. Cells alone are printed? 6S means up to 25.2 V; note the cells instead.",
    ),
    way(&["cells_min", "cells_max"], "In the listing, such as 3–6S; 6S alone means six and no other."),
    way(
        &["plugs", "pins"],
        "From the maker's wiring picture, pin by pin from the mark on. Not published? Meter each pin before power: plugs of one look differ.",
    ),
    way(&["uarts", "rails", "outputs", "i2c"], "From the maker's wiring picture and the names printed beside the pads."),
    way(&["firmware_key"], "The name of the target that the configurator shows, or the maker's page."),
    way(&["sensitivities"], "In the maker's table of packet rates; leave out what is not there."),
    way(
        &["region", "family", "version_major", "version_minor"],
        "In the menu of the radio, on the label, or on the maker's page.",
    ),
    way(
        &["antenna_connector", "connector", "gender", "antenna_gender", "antennas"],
        "Look into it: a pin makes it male, a sleeve for the pin female; in the reverse form the pin sits in the other half.",
    ),
    way(&["polarisation"], "In the listing as RHCP, LHCP or linear; the two circular hands do not go together."),
    way(&["steps"], "In the maker's table: radio power of each step, and what it draws there."),
    way(&["channels_mhz"], "In the maker's table of channels."),
    way(&["payload_max_g"], "On the maker's page; many publish none."),
    way(&["arm_price"], "In the shop of the frame, as a spare."),
    way(&["hardware"], "In the listing: what is in the box."),
    way(&["number"], "As printed beside the pads: UART 1, T2, R2."),
    way(&["id", "name", "maker"], "As on the label or in the listing."),
    way(&["price", "priced_on", "supplier", "link"], "From the page of the shop, on the day that you looked."),
    way(&["pieces"], "In the listing: four propellers, a bag of fifty screws."),
    way(&["retired"], "When no shop has it any more."),
    way(&["source"], "A few words by which you find it again: a page with its month, or your own bench."),
];

/// By the end of the name: what measures the same is measured alike.
const ENDINGS: &[Way] = &[
    way(&["_mm"], "In the drawing of the listing; else calipers to 0.1 mm, or a rule."),
    way(&["_in"], "In the listing; else calipers or a rule, 25.4 mm to the inch."),
    way(&["_mohm"], "A four-wire milliohm meter; most makers publish none."),
    way(
        &["_burst_a", "_a"],
        "In the listing or on the label. What a board draws can be read on a bench supply with a limit, propellers off.",
    ),
    way(&["_v"], "In the listing or on the label."),
    way(&["_mw", "_dbm"], "In the listing or the approval papers; what the law allows is another figure."),
    way(&["_w", "_wh", "_uf"], "Printed on the part, or in the listing."),
    way(&["_mhz", "_hz"], "In the listing, or in the menu of the device."),
    way(&["_dbi"], "In the listing; a gain that sounds too good is an estimate."),
    way(&["_g", "_gf"], "In the listing; else on a scale."),
    way(&["_deg"], "In the listing; else a protractor against the base."),
    way(&["_rpm"], "From the maker's table, an optical meter, or what the speed controller sends back."),
    way(&["_percent", "_min", "_kmh", "_mah", "_cm2"], "From the log of a flight."),
    way(&["_awg"], "Printed on the insulation."),
];

/// Where to find what a field asks for, and how to measure it.
///
/// ```
/// use propwright_schema::{look_up::how_to_find, part::Role};
/// let propeller = Role::of_kind("propeller").unwrap();
/// let chord = propeller.fields().iter().find(|field| field.name == "chord_75_mm").unwrap();
/// assert!(how_to_find(chord).contains("calipers"));
/// ```
pub fn how_to_find(field: &Field) -> &'static str {
    let named = NAMED.iter().find(|way| way.names.contains(&field.name));
    let ending = || ENDINGS.iter().find(|way| way.names.iter().any(|ending| field.name.ends_with(ending)));
    match (named.or_else(ending), field.kind) {
        (Some(way), _) => way.help,
        (None, Kind::Flag) => "In the listing or the manual; leave it unsaid where neither tells.",
        (None, Kind::Choice(_)) => "In the listing or its pictures; leave it unsaid where neither tells.",
        (None, Kind::Record(_) | Kind::List(Kind::Record(_))) => "In the maker's table or wiring picture.",
        (None, _) => "In the listing, in the manual, or printed on the part.",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        description::inner,
        kit::Kit,
        part::{Part, Role},
        value::Record as _,
    };

    fn all() -> Vec<&'static Field> {
        let roles = Role::KINDS.iter().flat_map(|(_, fields)| fields.iter());
        let inner = Role::KINDS.iter().flat_map(|(_, fields)| fields.iter().flat_map(inner));
        roles.chain(inner).chain(Part::FIELDS).chain(Kit::FIELDS).collect()
    }

    #[test]
    fn every_figure_has_a_way_and_every_way_a_field() {
        for field in all() {
            let specific = NAMED.iter().chain(ENDINGS).any(|way| way.help == how_to_find(field));
            assert!(specific || !matches!(field.kind, Kind::Number(_)), "{} has no way of its own", field.name);
            assert!(how_to_find(field).ends_with('.'), "{}", field.name);
        }
        for name in NAMED.iter().flat_map(|way| way.names) {
            assert!(all().iter().any(|field| field.name == *name), "no field is called {name}");
        }
        for ending in ENDINGS.iter().flat_map(|way| way.names) {
            let used = |field: &&Field| field.name.ends_with(ending);
            assert!(
                all().into_iter().chain(crate::measured::Logged::FIELDS).any(|field| used(&field)),
                "no field ends in {ending}"
            );
        }
    }

    #[test]
    fn no_field_is_described_twice() {
        let names: Vec<_> = NAMED.iter().chain(ENDINGS).flat_map(|way| way.names).collect();
        assert!(names.iter().enumerate().all(|(at, name)| !names[..at].contains(name)));
    }
}
