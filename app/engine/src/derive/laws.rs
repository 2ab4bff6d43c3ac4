//! Laws of the derived figures that hold for any craft.

use proptest::prelude::*;

use crate::{
    interval::Interval,
    rules::five_inch::{five_inch, five_inch_build},
    rules::trial::{figure, readings},
};

const SHOWN: [&str; 12] = [
    "battery-burst",
    "loaded-cell",
    "thrust-to-weight",
    "hover-duty",
    "hover-current",
    "time-hover",
    "time-hard",
    "top-speed",
    "tilt-limited-speed",
    "path",
    "time-longest",
    "radius-energy",
];

fn build(payload_g: u32, altitude_m: u32) -> String {
    let purpose = format!("purpose: (usage: Freestyle, payload_g: {payload_g}), conditions: (altitude_m: {altitude_m}), ");
    format!("{purpose}{}", five_inch_build!())
}

/// Width of a band against its nominal.
fn width(figure: Interval) -> f64 {
    (figure.high - figure.low) as f64 / figure.nominal as f64
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn more_mass_never_lengthens_hover(payload in 0..900_u32, more in 1..600_u32) {
        let time = |payload| figure(five_inch!(), &build(payload, 0), "time-hover");
        prop_assert!(time(payload + more).nominal <= time(payload).nominal);
    }

    #[test]
    fn thinner_air_never_lowers_hover_current(altitude in 0..3000_u32, more in 1..1000_u32) {
        let current = |altitude| figure(five_inch!(), &build(0, altitude), "hover-current");
        prop_assert!(current(altitude + more).nominal >= current(altitude).nominal);
    }

    #[test]
    fn a_bigger_pack_never_lowers_the_loaded_cell(capacity in 900..2000_u32, more in 1..2000_u32) {
        let volts = |capacity| {
            let parts = five_inch!().replace("capacity_mah: 1300", &format!("capacity_mah: {capacity}"));
            figure(&parts, five_inch_build!(), "loaded-cell")
        };
        prop_assert!(volts(capacity + more).nominal >= volts(capacity).nominal);
    }

    #[test]
    fn bands_hold_the_nominal(payload in 0..900_u32, altitude in 0..3000_u32) {
        for id in SHOWN {
            for reading in readings(five_inch!(), &build(payload, altitude), id) {
                let figure = reading.figure();
                prop_assert!(figure.is_ok(), "{id}");
                prop_assert!(figure.is_ok_and(|band| band.low <= band.nominal && band.nominal <= band.high), "{id}");
            }
        }
    }
}

#[test]
fn a_measured_propeller_narrows_every_band_that_it_decides() {
    let measured = five_inch!(propeller ", static_point: (speed_rpm: 24000, thrust_gf: 700, power_w: 180)");
    for id in ["battery-burst", "thrust-to-weight", "hover-duty", "hover-current", "time-hover", "time-hard", "path"] {
        let [by_size, by_point] = [five_inch!(), measured].map(|parts| width(figure(parts, five_inch_build!(), id)));
        assert!(by_point < by_size, "{id}: {by_point} {by_size}");
    }
}

#[test]
fn a_weighed_craft_narrows_hover() {
    let grams = figure(five_inch!(), five_inch_build!(), "takeoff-mass").decimals()[1];
    let weighed = format!("weighed_g: {grams}, {}", five_inch_build!());
    let [summed, weighed] = [five_inch_build!(), &weighed].map(|build| width(figure(five_inch!(), build, "hover-current")));
    assert!(weighed < summed);
}
