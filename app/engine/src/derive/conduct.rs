//! What advice and cautions ask about pilot and packs.

use propwright_schema::{
    quantity::{Unit, Wh},
    slot::Slot,
    value::Value,
};

use super::{Derivation, gather::Gather};
use crate::{
    finding::{Datum, Missing},
    graph::{Derived, Property, Reading, Site, build, part},
    interval::Interval,
    policy::NEWCOMER as LIMIT,
};

const FLOWN: Property = build("pilot.flown_h");

/// Is the pilot a newcomer?
pub(crate) const NEWCOMER: Derivation = Derivation {
    id: "newcomer",
    title: "the pilot is a newcomer",
    formula: "hours in the air < 10",
    source: "common practice, no source",
    reads: &[FLOWN],
    run: |site| {
        let limit = site.policy().tight(&LIMIT);
        let mut gather = Gather::new(site);
        gather.from.push(site.threshold(&LIMIT));
        let known = flown(&mut gather).map(|hours| {
            let new = limit.is_some_and(|limit| hours.nominal < limit.nominal);
            Datum::Value(Value::Flag(new))
        });
        gather.one(known)
    },
};

fn flown(gather: &mut Gather) -> Result<Interval, Missing> {
    gather.reading(FLOWN).map_or_else(
        || Err(Missing { subject: None, what: crate::finding::Unknown::Line(FLOWN.field) }),
        |reading| reading.figure(),
    )
}

const CELLS: Property = part(Slot::Battery, "cells");
const CAPACITY: Property = part(Slot::Battery, "capacity_mah");
const CHEMISTRY: Property = part(Slot::Battery, "chemistry");

/// Energy of one pack.
pub(crate) const PACK_ENERGY: Derivation = Derivation {
    id: "pack-energy",
    title: "energy of a pack",
    formula: "E = cells · U_nominal · C, U_nominal 3.7 V (LiHV 3.8 V, Li-ion 3.6 V)",
    source: "algebra; nominal volts as printed on packs, from memory",
    reads: &[CELLS, CAPACITY, CHEMISTRY],
    run: energy,
};

/// Nominal volts of a cell as printed: LiPo, LiHV, Li-ion.
const NOMINAL_V: [f64; 3] = [3.7, 3.8, 3.6];

fn energy(site: &Site) -> Vec<Derived> {
    let each = site.all(CELLS).into_iter().zip(site.all(CAPACITY)).zip(site.all(CHEMISTRY));
    each.map(|((cells, capacity), chemistry)| {
        let known = one_pack(&cells, &capacity, &chemistry).map(Datum::Figure);
        let from = vec![cells.because.clone(), capacity.because.clone(), chemistry.because.clone()];
        Derived { subject: cells.subject, known, from, count: cells.count }
    })
    .collect()
}

fn one_pack(cells: &Reading, capacity: &Reading, chemistry: &Reading) -> Result<Interval, Missing> {
    let volts = match chemistry.word()? {
        "LiHV" => NOMINAL_V[1],
        "Li-ion" => NOMINAL_V[2],
        _ => NOMINAL_V[0],
    };
    let joules = cells.si()? * volts * capacity.si()?;
    Ok(Interval::outward(joules, joules, joules, &Wh::INFO))
}
