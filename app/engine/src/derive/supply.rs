//! Volts of the packs as they are connected, full and at landing, and what reaches each part that is fed.

use std::sync::Arc;

use propwright_schema::{
    build_list::Arrangement,
    part::Chemistry,
    quantity::{Unit, V},
    slot::Slot,
};

use super::{
    Derivation,
    feed::{self, FED, Fed, Source},
};
use crate::{
    finding::{Because, Datum, Missing, Unknown},
    graph::{Derived, Property, Reading, Site, build, derived, part},
    interval::Interval,
    policy,
};

const CELLS: Property = part(Slot::Battery, "cells");
const CHEMISTRY: Property = part(Slot::Battery, "chemistry");
const FULL_CELL: Property = part(Slot::Battery, "full_cell_v");
const CONNECTED: Property = build("packs");

/// Steps of a full cell, 1 mV each: 4.20 V for LiPo and Li-ion, 4.35 V for LiHV.
const FULL: i64 = 4200;
const FULL_LIHV: i64 = 4350;

/// Cells in series.
pub(crate) const PACK_CELLS: Derivation = Derivation {
    id: "pack-cells",
    title: "cells in series",
    formula: "cells of the pack; packs in series add, side by side or in turn the largest counts",
    source: "algebra",
    reads: &[CELLS, CONNECTED],
    run: |site| packs(site, |_, cells| (cells.figure(), vec![cells.because.clone()]), Interval::more),
};

/// Volts of the packs at full charge.
pub(crate) const PACK_FULL: Derivation = Derivation {
    id: "pack-full-volts",
    title: "volts at full charge",
    formula: "V = cells · volts of a full cell (4.20 V for LiPo and Li-ion, 4.35 V for LiHV, unless the pack states its own)",
    source: "makers' charge limits",
    reads: &[CELLS, CHEMISTRY, FULL_CELL, CONNECTED],
    run: |site| packs(site, full, Interval::more),
};

/// Volts of the packs under load at landing.
pub(crate) const PACK_EMPTY: Derivation = Derivation {
    id: "pack-empty-volts",
    title: "volts at landing",
    formula: "V = cells · volts of a loaded cell at landing",
    source: "common practice, no source",
    reads: &[CELLS, CHEMISTRY, CONNECTED],
    run: |site| packs(site, landed, Interval::less),
};

type OfOne = (Result<Interval, Missing>, Vec<Arc<Because>>);

fn full(site: &Site, cells: &Reading) -> OfOne {
    let Some(pack) = &cells.subject else { return (cells.figure(), Vec::new()) };
    let mut from = vec![cells.because.clone()];
    let each = site.of(pack, FULL_CELL).and_then(|own| own.figure().map(|volts| (volts.nominal, own.because)));
    let each = each.or_else(|_| {
        let chemistry = site.of(pack, CHEMISTRY)?;
        let steps = if chemistry.word()? == Chemistry::LiHv.word() { FULL_LIHV } else { FULL };
        Ok((steps, chemistry.because))
    });
    from.extend(each.iter().map(|(_, because)| because.clone()));
    (each.and_then(|(steps, _)| volts(cells, steps)), from)
}

fn landed(site: &Site, cells: &Reading) -> OfOne {
    let Some(pack) = &cells.subject else { return (cells.figure(), Vec::new()) };
    let mut from = vec![cells.because.clone()];
    let each = site.of(pack, CHEMISTRY).and_then(|chemistry| {
        let can = chemistry.word()? == Chemistry::LiIon.word();
        let limit = if can { policy::LANDING_CELL_LI_ION } else { policy::LANDING_CELL_LIPO };
        from.extend([chemistry.because.clone(), site.tight_threshold(&limit)]);
        Ok(site.policy().tight(&limit).map_or(0, |volts| volts.nominal))
    });
    (each.and_then(|steps| volts(cells, steps)), from)
}

fn volts(cells: &Reading, steps: i64) -> Result<Interval, Missing> {
    Ok(Interval::exact(cells.figure()?.nominal.saturating_mul(steps), &V::INFO))
}

/// One figure of all packs as they are connected: in series they add, side by side or in turn `pick` chooses.
fn packs(site: &Site, of_one: fn(&Site, &Reading) -> OfOne, pick: fn(Interval, Interval) -> Interval) -> Vec<Derived> {
    let lines = site.all(CELLS);
    let Some(first) = lines.first() else { return Vec::new() };
    let (mut each, mut from) = (Vec::new(), Vec::new());
    for cells in &lines {
        let (figure, rests_on) = of_one(site, cells);
        each.push(figure.map(|figure| (figure, cells.count)));
        from.extend(rests_on);
    }
    let pieces: u32 = lines.iter().map(|cells| cells.count).sum();
    let connected = (pieces > 1).then(|| site.one(CONNECTED)).transpose();
    from.extend(connected.iter().flatten().map(|connected| connected.because.clone()));
    let known = each.into_iter().collect::<Result<Vec<_>, _>>().and_then(|each| {
        let adds = connected?.map(|connected| connected.word().map(|word| word == Arrangement::Series.word())).transpose()?;
        let joined = each.into_iter().map(|(one, count)| if adds == Some(true) { one.repeated(count) } else { one });
        let joined = joined.reduce(if adds == Some(true) { Interval::plus } else { pick });
        joined.map(Datum::Figure).ok_or(Missing { subject: None, what: Unknown::Empty(Slot::Battery) })
    });
    vec![Derived { subject: first.subject.clone(), known, from, count: 1 }]
}

const FULL_VOLTS: Property = derived("pack-full-volts");
const EMPTY_VOLTS: Property = derived("pack-empty-volts");

/// What each fed part gets from a full pack.
pub(crate) const FED_MAX: Derivation = Derivation {
    id: "fed-volts-max",
    title: "volts fed at full charge",
    formula: "the pack's volts at full charge, or those of the rail",
    source: "the build list's wiring",
    reads: &feed::reads(FULL_VOLTS),
    run: |site| fed_volts(site, FULL_VOLTS),
};

/// What each fed part gets at landing.
pub(crate) const FED_MIN: Derivation = Derivation {
    id: "fed-volts-min",
    title: "volts fed at landing",
    formula: "the pack's volts at landing, or those of the rail",
    source: "the build list's wiring",
    reads: &feed::reads(EMPTY_VOLTS),
    run: |site| fed_volts(site, EMPTY_VOLTS),
};

const LOADED_VOLTS: Property = derived("loaded-pack");

/// What each fed part gets while the motors pull full throttle from a fresh pack.
pub(crate) const FED_BURST: Derivation = Derivation {
    id: "fed-volts-burst",
    title: "volts fed in a burst",
    formula: "the sagged volts of the pack at full throttle, or those of the rail",
    source: "the build list's wiring; the powertrain's model",
    reads: &feed::reads(LOADED_VOLTS),
    run: |site| fed_volts(site, LOADED_VOLTS),
};

fn fed_volts(site: &Site, pack: Property) -> Vec<Derived> {
    let pack = site.all(pack).into_iter().next();
    let of = |fed: Fed| {
        let mut from: Vec<_> = fed.because.into_iter().collect();
        let known = match fed.source {
            Ok(Source::Pack) => {
                let pack = pack.as_ref()?;
                from.push(pack.because.clone());
                pack.figure()
            }
            Ok(Source::Rail(rail)) => rail.figure("volts_v").map(|(volts, because)| {
                from.push(because);
                volts
            }),
            Err(missing) => Err(missing),
        };
        Some(Derived { subject: Some(fed.device), known: known.map(Datum::Figure), from, count: fed.count })
    };
    feed::fed(site).into_iter().filter_map(of).collect()
}

/// Fed slots whose records print volts.
const PRINT_VOLTS: [Slot; 12] = [
    Slot::Esc,
    Slot::Regulator,
    Slot::PowerBoard,
    Slot::AntiSpark,
    Slot::FlightController,
    Slot::Receiver,
    Slot::Camera,
    Slot::VideoTransmitter,
    Slot::Gps,
    Slot::RemoteId,
    Slot::Finder,
    Slot::Payload,
];
/// Fed slots whose records may print cells, too.
const PRINT_CELLS: [Slot; 3] = [Slot::Esc, Slot::FlightController, Slot::PackSelector];

const CEILING_READS: [Property; PRINT_VOLTS.len() + PRINT_CELLS.len()] = {
    let mut reads = [part(Slot::PackSelector, "cells_max"); PRINT_VOLTS.len() + PRINT_CELLS.len()];
    let mut at = 0;
    while at < PRINT_VOLTS.len() {
        reads[at] = part(PRINT_VOLTS[at], "supply_max_v");
        at += 1;
    }
    let mut cells = 0;
    while cells < PRINT_CELLS.len() {
        reads[PRINT_VOLTS.len() + cells] = part(PRINT_CELLS[cells], "cells_max");
        cells += 1;
    }
    reads
};

/// The most volts that each fed part stands.
pub(crate) const CEILING: Derivation = Derivation {
    id: "supply-ceiling",
    title: "largest supply",
    formula: "volts as printed; where only cells are: 4.20 V each for sure, 4.35 V each at the very most",
    source: "common practice, no source",
    reads: &CEILING_READS,
    run: |site| FED.iter().flat_map(|slot| ceilings(site, *slot)).collect(),
};

fn ceilings(site: &Site, slot: Slot) -> Vec<Derived> {
    let volts = if PRINT_VOLTS.contains(&slot) { site.all(part(slot, "supply_max_v")) } else { Vec::new() };
    let cells = if PRINT_CELLS.contains(&slot) { site.all(part(slot, "cells_max")) } else { Vec::new() };
    let all = volts.len().max(cells.len());
    (0..all).filter_map(|at| ceiling(volts.get(at), cells.get(at))).collect()
}

/// Volts as printed, else by the cells.
fn ceiling(volts: Option<&Reading>, cells: Option<&Reading>) -> Option<Derived> {
    let by_cells = |cells: &Reading| {
        let [sure, most] = [FULL, FULL_LIHV].map(|steps| self::volts(cells, steps));
        Ok(Interval { high: most?.nominal, ..sure? })
    };
    let printed = volts.map(|volts| (volts, volts.figure()));
    let counted = || cells.map(|cells| (cells, by_cells(cells)));
    let (reading, known) = match printed {
        Some((_, Err(_))) => counted().filter(|(_, known)| known.is_ok()).or(printed)?,
        Some(printed) => printed,
        None => counted()?,
    };
    let from = vec![reading.because.clone()];
    Some(Derived { subject: reading.subject.clone(), known: known.map(Datum::Figure), from, count: reading.count })
}
