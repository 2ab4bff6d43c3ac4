//! The air of the day against the standard day.

use super::{Derivation, gather::Gather, rig::read_air};
use crate::{
    finding::Datum,
    graph::{Property, build, derived},
    interval::{Interval, RATIO},
};

const AIR: Property = derived("air");
const ALTITUDE: Property = build("conditions.altitude_m");
const TEMPERATURE: Property = build("conditions.temperature_c");

/// Density of the standard atmosphere at sea level, kg/m³ (ISO 2533).
const SEA_LEVEL: f64 = 1.225;

/// Density of the air as a share of the standard one at sea level.
pub(crate) const AIR_DENSITY: Derivation = Derivation {
    id: "air-density",
    title: "density of the air against sea level",
    formula: "ρ/1.225 kg/m³",
    source: "ISO 2533",
    reads: &[AIR, ALTITUDE, TEMPERATURE],
    run: |site| {
        let mut gather = Gather::new(site);
        let said = [gather.maybe(ALTITUDE), gather.maybe(TEMPERATURE)].iter().any(Option::is_some);
        let share = read_air(&mut gather, AIR).map(|air| air.density / SEA_LEVEL);
        let known = share.map(|share| Datum::Figure(Interval::nearest(share, &RATIO)));
        // A list that tells neither height nor temperature tells nothing of the day.
        if said { gather.one(known) } else { Vec::new() }
    },
};

#[cfg(test)]
mod tests {
    use crate::rules::trial::{figure, readings};

    #[test]
    fn by_hand() {
        // ISO 2533: 1.006 kg/m³ at 2000 m; the ideal gas: 1.1455 kg/m³ at sea level and 35 °C.
        assert!((figure("", "conditions: (altitude_m: 2000), parts: []", "air-density").decimals()[1] - 0.822).abs() < 1e-9);
        assert!(
            (figure("", "conditions: (altitude_m: 0, temperature_c: 35), parts: []", "air-density").decimals()[1] - 0.935).abs()
                < 1e-9
        );
        assert!(readings("", "parts: []", "air-density").is_empty());
    }
}
