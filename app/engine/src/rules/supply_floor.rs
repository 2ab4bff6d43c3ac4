//! Volts that reach a part against the least that it works from: what landing and a burst have in common.

use std::sync::Arc;

use propwright_schema::slot::Slot;

use super::{Facts, run};
use crate::{
    finding::{Because, Missing, Outcome, Status, Verdict},
    graph::{PACK, Property, Reading, Site, line, part},
    interval::Interval,
    policy, verdict,
};

/// Fed slots whose records print a least supply.
const SLOTS: [Slot; 10] = [
    Slot::Esc,
    Slot::Regulator,
    Slot::FlightController,
    Slot::Receiver,
    Slot::Camera,
    Slot::VideoTransmitter,
    Slot::Gps,
    Slot::RemoteId,
    Slot::Finder,
    Slot::Payload,
];

/// How many properties [`reads`] holds.
pub(super) const READS: usize = 2 * SLOTS.len() + 1;

/// All that is read for the volts of one state.
pub(super) const fn reads(fed: Property) -> [Property; READS] {
    let mut reads = [fed; READS];
    let mut at = 0;
    while at < SLOTS.len() {
        reads[2 * at] = part(SLOTS[at], "supply_min_v");
        reads[2 * at + 1] = line(SLOTS[at], "feed");
        at += 1;
    }
    reads
}

struct Supply {
    least: Reading,
    fed: Reading,
    required: Interval,
    available: Interval,
    tight_from: Interval,
    limit: Option<Arc<Because>>,
}

/// Judges the volts that a derivation gives for each part that is fed; only what hangs on the pack sags.
///
/// The facts are `least`, `fed` and, where the spare share decides, `limit`.
pub(super) fn above(site: &Site, fed: Property, only_pack: bool) -> Vec<Outcome> {
    run(site, |site| gather(site, fed, only_pack), judge, facts)
}

/// A part of which the list does not say what feeds it is the matter of the rules on the largest supply.
fn gather(site: &Site, fed: Property, only_pack: bool) -> Vec<Result<Supply, Missing>> {
    let of = |fed: Reading| {
        let device = fed.subject.clone().filter(|device| SLOTS.contains(&device.slot) && fed.known.is_ok())?;
        let feed = site.of(&device, line(device.slot, "feed"));
        let on_rail = feed.is_ok_and(|feed| feed.word().is_ok_and(|feed| feed != PACK));
        let supply = || {
            let least = site.of(&device, part(device.slot, "supply_min_v"))?;
            let (required, available) = (least.figure()?, fed.figure()?);
            let spare = site.policy().tight(&policy::SUPPLY_LEAST).filter(|_| !on_rail);
            let tight_from = available.times(1.0 / spare.map_or(1.0, |spare| spare.si()));
            let limit = spare.map(|_| site.threshold(&policy::SUPPLY_LEAST));
            Ok(Supply { required, available, tight_from, least, fed: fed.clone(), limit })
        };
        (!(only_pack && on_rail)).then(supply)
    };
    site.all(fed).into_iter().filter_map(of).collect()
}

fn judge(supply: &Supply) -> Verdict {
    verdict::judge(supply.required, supply.available, supply.tight_from).softened(supply.least.is_estimated())
}

/// The spare share is no reason for what does not go together at all.
fn facts(supply: &Supply) -> Facts {
    let mut facts = vec![("least", supply.least.because.clone()), ("fed", supply.fed.because.clone())];
    let spare = supply.limit.iter().filter(|_| judge(supply).status != Status::Mismatch);
    facts.extend(spare.map(|limit| ("limit", limit.clone())));
    facts
}
