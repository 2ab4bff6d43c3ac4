//! The propeller models against wind-tunnel figures of 15 research propellers.
//!
//! Source of the figures: UIUC Propeller Database (J.B. Brandt, R.W. Deters, G.K. Ananda, O.D. Dantsker, M.S. Selig); see
//! `tests/data/propellers/README.md`. Errors are shares of the measured static value, as P68/P90 over the propellers.
//! `cargo run -p propwright-tests --bin propeller_reference` prints them and draws the plot.

use propwright_tests::propellers::{
    blade_element, blade_element_without_chord, closed_form, held, mean, moving_errors, percentile, plot, static_errors,
};

/// Asserts that P68 and P90 of `errors` stay within `bounds`.
#[track_caller]
fn assert_within(what: &str, errors: &[f64], bounds: (f64, f64)) {
    let (p68, p90) = (percentile(errors, 68), percentile(errors, 90));
    assert!(p68 <= bounds.0 && p90 <= bounds.1, "{what}: {p68:.3}/{p90:.3}, bias {:+.3}", mean(errors));
}

#[test]
fn static_thrust_and_power_with_the_chord_known() {
    // Reference: the errors that this model's fit had on these propellers when it was made, CT 8/15 %, CP 19/23 %.
    let errors = static_errors(blade_element);
    assert_eq!(errors.ct.len(), 15);
    assert_within("CT", &errors.ct, (0.08, 0.15));
    assert_within("CP", &errors.cp, (0.19, 0.23));
}

#[test]
fn thrust_and_power_over_advance_with_the_chord_known() {
    // Reference: the errors over J that the fit had on propellers outside of it, CT 13/24 %, CP 16/32 %.
    let errors = moving_errors(blade_element);
    assert_eq!(errors.ct.len(), 238);
    assert_within("CT", &errors.ct, (0.13, 0.24));
    assert_within("CP", &errors.cp, (0.16, 0.32));
}

#[test]
fn static_thrust_and_power_by_size_alone() {
    // Regression, no authority: the errors that the models' heads state for these blades, which are wider or narrower than
    // usual, so that their size says less than in the trade.
    let blades = static_errors(blade_element_without_chord);
    assert_within("CT", &blades.ct, (0.27, 0.32));
    assert_within("CP", &blades.cp, (0.31, 0.45));
    let closed = static_errors(closed_form);
    assert_within("CT", &closed.ct, (0.27, 0.33));
    assert_within("CP", &closed.cp, (0.34, 0.40));
}

#[test]
fn the_bounds_of_the_task_are_met_but_for_one_that_is_known() {
    // Bounds that were set: static CT P68 10 %, static CP 12 %, over advance ratio 12 % of the static value.
    assert!(percentile(&static_errors(blade_element).ct, 68) <= 0.10);
    let moving = moving_errors(blade_element);
    assert!(percentile(&moving.ct, 68) <= 0.12 && percentile(&moving.cp, 68) <= 0.12);
    // Known: static CP stands at 18 %. A steeper drag with falling Reynolds number, a higher profile drag, stall delay by Snel, and the
    // true twist and chord were tried: a level fitted to two families misses the third by 23 %. DA4002 blades keep their chord to the
    // tip, and one NR640 blade reads 18 % apart at two diameters: the chord at 75 % alone does not tell that.
    let cp = percentile(&static_errors(blade_element).cp, 68);
    assert!((0.12..0.19).contains(&cp), "{cp}: when it is met, say so here and in README");
}

#[test]
fn bands_hold_the_points_of_a_propeller() {
    // P5 to P95 hold 90 % of what is measured in the long run; 80 % and more of each propeller, counted one by one.
    let held = held().unwrap();
    assert_eq!(held.len(), 15);
    for propeller in &held {
        // Known: the low-pitch blade that keeps its chord to the tip pulls more than its size says.
        let known = propeller.name == "da4002 9 2.85 2";
        assert!(propeller.cp >= 0.8 && (propeller.ct >= 0.8) != known, "{propeller:?}");
    }
}

#[test]
fn the_plot_is_up_to_date() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/propeller-model.svg");
    assert!(std::fs::read_to_string(path).unwrap() == plot(), "run `cargo run -p propwright-tests --bin propeller_reference`");
}
