//! What the plug of one pack carries: packs side by side share the current, all others carry it whole.

use propwright_schema::{build_list::Arrangement, slot::Slot};

use super::{Derivation, gather::Gather};
use crate::{
    finding::{Datum, Missing},
    graph::{Derived, Property, Reading, Site, build, derived, line},
};

const BURST: Property = derived("battery-burst");
const LASTING: Property = derived("battery-lasting");
const PACKS: Property = line(Slot::Battery, "count");
const ARRANGEMENT: Property = build("packs");
const SHARED: &str = "I_plug = I_pack / packs side by side";

/// Current of one plug at full throttle.
pub(crate) const PLUG_BURST: Derivation = Derivation {
    id: "plug-burst",
    title: "current of a pack's plug at full throttle, fresh pack",
    formula: SHARED,
    source: "Kirchhoff's current law, equal packs",
    reads: &[BURST, PACKS, ARRANGEMENT],
    run: |site| share(site, BURST),
};

/// Current of one plug in hard flying.
pub(crate) const PLUG_LASTING: Derivation = Derivation {
    id: "plug-lasting",
    title: "current of a pack's plug in hard flying, root mean square",
    formula: SHARED,
    source: "Kirchhoff's current law, equal packs",
    reads: &[LASTING, PACKS, ARRANGEMENT],
    run: |site| share(site, LASTING),
};

fn share(site: &Site, current: Property) -> Vec<Derived> {
    let mut gather = Gather::new(site);
    let Some(reading) = gather.reading(current) else { return Vec::new() };
    let known = plug(site, &mut gather, &reading);
    gather.one(known)
}

fn plug(site: &Site, gather: &mut Gather, current: &Reading) -> Result<Datum, Missing> {
    let packs: u32 = site.all(PACKS).iter().map(|reading| reading.count).sum();
    let side_by_side = gather.maybe_word(ARRANGEMENT).as_deref() == Some(Arrangement::Parallel.word());
    let shares = if side_by_side { packs.max(1) } else { 1 };
    Ok(Datum::Figure(current.figure()?.times(1.0 / f64::from(shares))))
}
