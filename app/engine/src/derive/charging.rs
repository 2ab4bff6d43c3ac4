//! What charging takes: minutes for a pack, and the energy of all packs together.

use propwright_schema::{
    quantity::{Min, Unit, Wh},
    slot::Slot,
};

use super::{Derivation, gather::Gather};
use crate::{
    finding::{Datum, Missing, Unknown},
    graph::{Derived, Property, Site, derived, part},
    interval::{Interval, RATIO},
};

const ENERGY: Property = derived("pack-energy");
const CHARGER_W: Property = part(Slot::Charger, "power_w");
const CHARGER_A: Property = part(Slot::Charger, "current_a");
const CELLS: Property = part(Slot::Battery, "cells");
const CAPACITY: Property = part(Slot::Battery, "capacity_mah");
const CHARGE_RATE: Property = part(Slot::Battery, "charge_c_rate");

/// Minutes to charge one pack.
pub(crate) const CHARGE_TIME: Derivation = Derivation {
    id: "charge-time",
    title: "minutes to charge a pack after a flight",
    formula: "t = 0.8·E/(0.85·P), P the least of the charger's power, its current at the pack's mean volts, and the pack's charge rating",
    source: "algebra; 80 % put back, 85 % for the slow end of a charge: from memory",
    reads: &[ENERGY, CHARGER_W, CHARGER_A, CELLS, CAPACITY, CHARGE_RATE],
    run: |site| site.all(ENERGY).first().map_or_else(Vec::new, |_| charge_time(site)),
};

/// Share of a pack that is put back after a flight, and mean share of the power over a whole charge.
const PUT_BACK: f64 = 0.8;
const MEAN_POWER: f64 = 0.85;
/// Mean volts of a cell while it charges.
const MEAN_V: f64 = 3.9;

fn charge_time(site: &Site) -> Vec<Derived> {
    let mut gather = Gather::new(site);
    let minutes = |gather: &mut Gather| {
        let empty = || Missing { subject: None, what: Unknown::Empty(Slot::Battery) };
        let energy = gather.reading(ENERGY).ok_or_else(empty)?.si()?;
        let (charger_w, charger_a) = (gather.need(CHARGER_W)?, gather.need(CHARGER_A)?);
        let volts = gather.need(CELLS)? * MEAN_V;
        // A pack that states no charge rating is charged at one times its capacity in an hour.
        let rate = gather.maybe(CHARGE_RATE).unwrap_or(1.0 / 3600.0);
        let pack_a = gather.need(CAPACITY)? * rate;
        gather.assume("share put back after a flight", Some(Interval::nearest(PUT_BACK, &RATIO)));
        let watts = charger_w.min(volts * charger_a.min(pack_a));
        let seconds = PUT_BACK * energy / (MEAN_POWER * watts);
        Ok(Datum::Figure(Interval::outward(seconds, seconds, seconds, &Min::INFO)))
    };
    let known = minutes(&mut gather);
    let charger = site.one(CHARGER_W).ok().and_then(|charger| charger.subject);
    gather.one(known).into_iter().map(|derived| Derived { subject: charger.clone(), ..derived }).collect()
}

/// Energy of all packs.
pub(crate) const PACKS_ENERGY: Derivation = Derivation {
    id: "packs-energy",
    title: "energy of all packs listed",
    formula: "Σ count · E",
    source: "algebra",
    reads: &[ENERGY],
    run: |site| {
        let packs = site.all(ENERGY);
        let Some(first) = packs.first() else { return Vec::new() };
        let sum = packs.iter().map(|pack| Ok(pack.figure()?.repeated(pack.count))).collect::<Result<Vec<_>, Missing>>();
        let sum = sum.map(|each| each.into_iter().fold(Interval::exact(0, &Wh::INFO), Interval::plus));
        let from = packs.iter().map(|pack| pack.because.clone()).collect();
        vec![Derived { subject: first.subject.clone(), known: sum.map(Datum::Figure), from, count: 1 }]
    },
};

#[cfg(test)]
mod tests {
    use crate::rules::trial::figure;

    #[test]
    fn by_hand() {
        // 6 × 3.7 V × 1.3 Ah = 28.86 Wh; the charger gives 90 W, the pack takes 1.3 A × 23.4 V = 30.42 W: 0.8·28.86/25.857 h.
        let parts = r#"(id: "b", name: "B", fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 1300, charge_c_rate: 1)]),
            (id: "c", name: "C", fills: [Charger(power_w: 90, current_a: 8)])"#;
        let build = r#"parts: [(slot: Battery, part: "b", count: 2), (slot: Charger, part: "c")]"#;
        assert!((figure(parts, build, "charge-time").decimals()[1] - 53.58).abs() < 0.01);
        assert!((figure(parts, build, "packs-energy").decimals()[1] - 57.72).abs() < 1e-9);
    }
}
