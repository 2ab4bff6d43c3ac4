//! Laws that hold for any craft, not just for examples.

use proptest::prelude::*;

use super::atmosphere::{Air, GRAVITY};
use super::battery::{Chemistry, Pack};
use super::bem;
use super::error::ModelError;
use super::esc::Esc;
use super::flight::{self, Inflow};
use super::installation::Propeller;
use super::powertrain::{OperatingPoint, Powertrain};
use super::propeller::Geometry;
use super::radio::{self, Link};
use super::stator::Stator;
use super::wiring::Gauge;

fn chemistry() -> impl Strategy<Value = Chemistry> {
    prop_oneof![Just(Chemistry::LiPo), Just(Chemistry::LiHv), Just(Chemistry::LiIon)]
}

prop_compose! {
    fn craft()(
        diameter_in in 1.2..15.0_f64,
        pitch_share in 0.3..1.2_f64,
        blades in 2..6_u32,
        stator_share in 0.12..0.22_f64,
        stator_slenderness in 0.15..0.5_f64,
        tip_speed_at_rest_v in 100.0..300.0_f64,
        series in 1..8_u32,
        capacity_per_in2 in 0.02..0.12_f64,
        chemistry in chemistry(),
    ) -> Powertrain {
        let stator_mm = (diameter_in * 25.4 * stator_share).clamp(5.0, 60.0);
        let rpm_per_v = tip_speed_at_rest_v * 60.0
            / (std::f64::consts::PI * diameter_in * 0.0254 * f64::from(series) * 3.7);
        Powertrain {
            motor: Stator::new(stator_mm, (stator_mm * stator_slenderness).clamp(1.5, 40.0))
                .and_then(|stator| stator.estimated_motor(rpm_per_v.clamp(30.0, 60_000.0)))
                .unwrap(),
            propeller: Propeller::closed_form(Geometry::inches(diameter_in, diameter_in * pitch_share, blades)),
            esc: Esc { resistance: 0.003 },
            motors: 4,
            pack: Pack::estimated(chemistry, series, 1, (capacity_per_in2 * diameter_in.powi(2)).max(0.2)).unwrap(),
            auxiliary_w: 3.0,
        }
    }
}

fn sea_level() -> Air {
    Air::standard(0.0).unwrap()
}

fn finite(p: &OperatingPoint) -> bool {
    [
        p.rev_per_s,
        p.thrust_n,
        p.shaft_power_w,
        p.motor_a,
        p.winding_heat_w,
        p.esc_a,
        p.battery_a,
        p.battery_w,
        p.pack_v,
        p.cell_v,
        p.duty,
        p.tip_mach,
    ]
    .iter()
    .all(|figure| figure.is_finite())
}

/// Thrust that a rotor of this craft carries at a disc loading usual in the trade.
fn usual_thrust(craft: &Powertrain, pascal: f64) -> f64 {
    pascal * flight::disc_area(1, craft.propeller.geometry.diameter_m)
}

proptest! {
    #[test]
    fn more_mass_never_lengthens_hover(craft in craft(), pascal in 30.0..200.0_f64, more in 1.0..1.6_f64) {
        let thrust = usual_thrust(&craft, pascal);
        let seconds = |thrust| craft.endurance(&sea_level(), &craft.load(&sea_level(), thrust, &Inflow::STILL)?);
        let (light, heavy) = (seconds(thrust), seconds(thrust * more));
        match (light, heavy) {
            (Ok(light), Ok(heavy)) => prop_assert!(heavy.seconds <= light.seconds * (1.0 + 1e-9)),
            (Err(ModelError::Infeasible(_)), heavy) => prop_assert!(heavy.is_err()),
            (light, heavy) => prop_assert!(matches!(heavy, Err(ModelError::Infeasible(_))), "{light:?} {heavy:?}"),
        }
    }

    #[test]
    fn thinner_air_never_lowers_hover_current(craft in craft(), pascal in 30.0..200.0_f64, altitude in 0.0..4000.0_f64) {
        let thrust = usual_thrust(&craft, pascal);
        let low = craft.hover_point(&sea_level(), 0.6, thrust);
        let high = craft.hover_point(&Air::standard(altitude).unwrap(), 0.6, thrust);
        if let (Ok(low), Ok(high)) = (low, high) {
            prop_assert!(high.battery_a >= low.battery_a * (1.0 - 1e-9));
        }
    }

    #[test]
    fn a_bigger_pack_never_lowers_the_loaded_volts(craft in craft(), more in 1.0..3.0_f64, soc in 0.1..1.0_f64) {
        let pack = craft.pack;
        let bigger = Pack::estimated(pack.chemistry, pack.series, 1, pack.cell_capacity_ah * more).unwrap();
        let small = craft.operating_point(&sea_level(), soc, 1.0);
        let big = Powertrain { pack: bigger, ..craft }.operating_point(&sea_level(), soc, 1.0);
        if let (Ok(small), Ok(big)) = (small, big) {
            prop_assert!(big.pack_v >= small.pack_v * (1.0 - 1e-9));
        }
    }

    #[test]
    fn shaft_power_is_never_below_the_ideal(craft in craft(), pascal in 30.0..200.0_f64) {
        let thrust = usual_thrust(&craft, pascal);
        if let Ok(point) = craft.hover_point(&sea_level(), 0.8, thrust) {
            let area = flight::disc_area(1, craft.propeller.geometry.diameter_m);
            prop_assert!(point.shaft_power_w >= flight::hover_ideal_power(thrust, area, 1.225).unwrap());
        }
    }

    #[test]
    fn a_working_point_is_finite_or_an_error(craft in craft(), soc in -0.5..1.5_f64, limit in -0.5..1.5_f64, thrust in -1.0..200.0_f64) {
        if let Ok(point) = craft.operating_point(&sea_level(), soc, limit) {
            prop_assert!(finite(&point), "{point:?}");
        }
        if let Ok(point) = craft.hover_point(&sea_level(), soc, thrust) {
            prop_assert!(finite(&point), "{point:?}");
        }
    }

    #[test]
    fn forward_flight_is_finite_or_an_error(craft in craft(), mass_pascal in 20.0..200.0_f64, speed in 0.0..60.0_f64) {
        let area = flight::disc_area(4, craft.propeller.geometry.diameter_m);
        let mass = mass_pascal * area / GRAVITY;
        let trim = flight::trim(mass.max(0.005), 0.02 * area.sqrt(), speed, 1.225).unwrap();
        let inflow = flight::forward_inflow(trim.thrust_n, area, 1.225, speed, trim.tilt_rad).unwrap();
        prop_assert!(inflow.through.is_finite() && inflow.equivalent_axial >= 0.0);
        prop_assert!(inflow.induced <= flight::hover_induced(trim.thrust_n, area, 1.225).unwrap() * (1.0 + 1e-6));
        if let Ok(point) = craft.point_at_thrust(&sea_level(), 0.8, trim.thrust_n / 4.0, &inflow) {
            prop_assert!(finite(&point), "{point:?}");
        }
    }

    #[test]
    fn air_and_radio_are_finite_or_an_error(height in -2e4..2e4_f64, celsius in -150.0..150.0_f64, hz in -1e9..1e12_f64, metres in -10.0..1e7_f64,
        level in -200.0..100.0_f64) {
        for air in [Air::standard(height), Air::at(height, celsius)].into_iter().flatten() {
            prop_assert!([air.density, air.viscosity, air.speed_of_sound].iter().all(|figure| figure.is_finite() && *figure > 0.0));
        }
        let link = Link { frequency_hz: hz, eirp_dbm: level / 4.0, receive_gain_dbi: 2.0, sensitivity_dbm: level, margin_db: 10.0 };
        let figures = [
            radio::free_space_loss(metres, hz),
            link.range(),
            radio::horizon(metres, height),
            radio::fresnel_radius(metres, height, hz),
            radio::fresnel_clear(metres, height, hz),
        ];
        for figure in figures.into_iter().flatten() {
            prop_assert!(figure.is_finite(), "{figure}");
        }
    }

    #[test]
    fn packs_and_leads_are_finite_or_an_error(chemistry in chemistry(), soc in -0.5..1.5_f64, watts in -10.0..1e5_f64, ah in 0.0..200.0_f64,
        awg in -5.0..50.0_f64, amps in 0.0..500.0_f64, seconds in 0.0..100.0_f64) {
        if let Ok(pack) = Pack::estimated(chemistry, 6, 2, ah) {
            let figures = [pack.rest_voltage(soc), pack.draw(soc, watts).map(|draw| draw.volts), pack.loaded_cell_voltage(soc, amps)];
            for figure in figures.into_iter().flatten() {
                prop_assert!(figure.is_finite(), "{figure}");
            }
            if let Ok(flown) = pack.discharge(soc, 3.0, |_| Ok(amps)) {
                prop_assert!(flown.seconds >= 0.0 && !flown.seconds.is_nan());
            }
        }
        if let Ok(lead) = Gauge::awg(awg) {
            for figure in [lead.burst_rise(amps, seconds, 25.0), lead.steady_rise(amps, seconds, 25.0)].into_iter().flatten() {
                prop_assert!(figure.is_finite() && figure >= 0.0, "{figure}");
            }
        }
    }

    #[test]
    fn motors_and_propellers_are_finite_or_an_error(stator in 0.0..80.0_f64, height in 0.0..60.0_f64, kv in 0.0..70_000.0_f64, volts in 1.0..60.0_f64,
        diameter in 0.5..40.0_f64, share in 0.1..1.6_f64, blades in 1..10_u32, turns in 0.0..1000.0_f64, advance in -0.5..3.5_f64) {
        if let Ok(motor) = Stator::new(stator, height).and_then(|stator| stator.estimated_motor(kv)) {
            prop_assert!(motor.resistance.is_finite() && motor.resistance > 0.0);
            if let Ok(point) = motor.cold_point(volts, motor.best_efficiency_current(volts)) {
                prop_assert!(point.efficiency.is_finite() && point.efficiency < 1.0, "{point:?}");
            }
        }
        let size = Geometry::inches(diameter, diameter * share, blades);
        for c in [size.closed_form(turns, advance, &sea_level()), bem::coefficients(&size, turns, advance, &sea_level())].into_iter().flatten() {
            prop_assert!(c.ct.is_finite() && c.cp.is_finite(), "{size:?} {advance} {c:?}");
        }
    }
}
