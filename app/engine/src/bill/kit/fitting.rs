//! The craft that a kit makes: its parts in the slots that they fill.
//!
//! An antenna goes where the rules of antennas find most for it: to the device whose frequencies it covers and whose connector it
//! mates with, and of several to the one that asks for as many as the box holds.

use std::{cmp::Reverse, collections::BTreeSet, sync::Arc};

use propwright_schema::{
    build_list::{BuildList, Fitted, Spare},
    catalogue::Catalogue,
    kit::{Kit, KitItem},
    part::Part,
    slot::Slot,
};

use crate::{
    bill::spare::has_arms,
    craft::Craft,
    finding::Status,
    graph::{self, graph},
    policy::Policy,
};

/// Slots of antennas, each with those of the devices that it serves.
const ANTENNAS: [(Slot, &[Slot]); 3] = [
    (Slot::AntennaVideo, &[Slot::VideoTransmitter]),
    (Slot::AntennaControl, &[Slot::Receiver]),
    (Slot::AntennaGoggles, &[Slot::Goggles, Slot::GogglesModule]),
];
/// The rules by which an antenna finds its device.
const RULES: [&str; 2] = ["antenna-band", "antenna-connector"];

/// A line of the list, and whether it is on the shelf.
type Lines = Vec<(Fitted, bool)>;

/// The build with the kit's parts in the slots that they fill; the lines at `owned` stay.
pub(super) fn fitted(catalogue: &Catalogue, build: &BuildList, kit: &Kit, owned: &BTreeSet<usize>, policy: &Policy) -> BuildList {
    let mut lines: Lines = build.parts.iter().enumerate().map(|(at, line)| (line.clone(), owned.contains(&at))).collect();
    let known = |item: &KitItem| catalogue.part(&item.part).map(|part| (Arc::clone(part), item.count));
    let (mut waiting, same): (Vec<_>, Vec<_>) =
        kit.contents.iter().filter_map(known).partition(|(part, _)| lines.iter().all(|(line, _)| line.part != part.id));
    let taken: BTreeSet<Slot> =
        lines.iter().filter(|(line, _)| same.iter().any(|(part, _)| part.id == line.part)).map(|(line, _)| line.slot).collect();
    // Antennas last: the devices that they serve are then in their places.
    waiting.sort_by_key(|(part, _)| is_antenna(part));
    for (part, count) in waiting {
        let slot = if is_antenna(&part) {
            antenna_slot(catalogue, build, &lines, (&part, count), &taken, policy)
        } else {
            part.fills.first().and_then(|role| role.slots().first()).copied()
        };
        let Some(slot) = slot else { continue };
        if !exchange(&mut lines, &part, count, slot, &taken) && !is_filled(catalogue, &lines, slot) {
            let count = asked(catalogue, &lines, slot).unwrap_or(1).clamp(1, count.max(1));
            lines.push((Fitted { count, ..Fitted::new(slot, &part.id) }, false));
        }
    }
    let parts: Vec<Fitted> = lines.into_iter().map(|(line, _)| line).collect();
    let spares = spares(catalogue, build, &parts);
    BuildList { parts, spares, ..build.clone() }
}

/// Spares of a part that gave way are spares of the one in its place; arms only of a frame that has some.
fn spares(catalogue: &Catalogue, build: &BuildList, parts: &[Fitted]) -> Vec<Spare> {
    let listed = |id: &str| parts.iter().any(|line| line.part == id);
    let stands_in = |spare: &Spare| {
        let slot = build.parts.iter().find(|line| line.part == spare.part)?.slot;
        let part = &parts.iter().find(|line| line.slot == slot)?.part;
        let arms = !spare.arm || catalogue.part(part).is_some_and(|part| has_arms(part));
        arms.then(|| Spare { part: part.clone(), ..spare.clone() })
    };
    let each = build.spares.iter().filter_map(|spare| if listed(&spare.part) { Some(spare.clone()) } else { stands_in(spare) });
    each.collect()
}

fn is_antenna(part: &Part) -> bool {
    ANTENNAS.iter().any(|(slot, _)| part.role(*slot).is_some())
}

fn is_filled(catalogue: &Catalogue, lines: &Lines, slot: Slot) -> bool {
    let fills = |line: &Fitted| {
        let part = catalogue.part(&line.part);
        part.is_some_and(|part| part.filled_from(line.slot).iter().any(|(filled, _)| *filled == slot))
    };
    lines.iter().any(|(line, _)| fills(line))
}

/// Where an antenna goes; `None` where no device takes it.
fn antenna_slot(
    catalogue: &Catalogue,
    build: &BuildList,
    lines: &Lines,
    (part, count): (&Part, u32),
    taken: &BTreeSet<Slot>,
    policy: &Policy,
) -> Option<Slot> {
    let open = ANTENNAS.iter().map(|(slot, _)| *slot).filter(|slot| !taken.contains(slot));
    let judged = open.filter_map(|slot| {
        let others = lines.iter().map(|(line, _)| line).filter(|line| ANTENNAS.iter().all(|(slot, _)| line.slot != *slot));
        let parts = others.cloned().chain([Fitted::new(slot, &part.id)]).collect();
        let craft = Craft::new(catalogue, &Arc::new(BuildList { parts, ..build.clone() }));
        let store = graph().derive(&craft, policy);
        let found = graph::judge(&craft, &store, policy, |rule| RULES.contains(&rule.id));
        let about = found.iter().filter(|finding| finding.outcome.subjects.iter().any(|subject| subject.slot == slot));
        let status = about.map(crate::finding::Finding::status).max()?;
        let exact = asked(catalogue, lines, slot) == Some(count);
        (status != Status::Mismatch).then_some((status, Reverse(exact), slot))
    });
    judged.min().map(|(.., slot)| slot)
}

/// How many antennas the devices of a slot of antennas ask for.
fn asked(catalogue: &Catalogue, lines: &Lines, antenna: Slot) -> Option<u32> {
    let (_, devices) = ANTENNAS.iter().find(|(slot, _)| *slot == antenna)?;
    let of_line = |line: &Fitted| {
        let filled = catalogue.part(&line.part)?.filled_from(line.slot);
        let device = filled.into_iter().find(|(slot, _)| devices.contains(slot))?;
        u32::try_from(device.1.get("antennas")?.steps()?).ok()
    };
    lines.iter().find_map(|(line, _)| of_line(line))
}

/// Puts a part in place of the lines of its slot, unless they are owned, served by another part of the kit, or ask for more
/// pieces than there are; tells whether it did.
fn exchange(lines: &mut Lines, part: &Part, count: u32, slot: Slot, taken: &BTreeSet<Slot>) -> bool {
    let same_kind = |line: &Fitted| if is_antenna(part) { line.slot == slot } else { part.role(line.slot).is_some() };
    let free = |line: &Fitted, owned: bool| !owned && !taken.contains(&line.slot) && same_kind(line);
    let Some(at) = lines.iter().position(|(line, owned)| free(line, *owned)) else { return false };
    let slot = lines[at].0.slot;
    let needed: u32 = lines.iter().filter(|(line, _)| line.slot == slot).map(|(line, _)| line.count).sum();
    if needed > count {
        return false;
    }
    let line = Fitted { part: part.id.clone(), count: needed, ..lines[at].0.clone() };
    let filled: BTreeSet<Slot> = part.filled_from(slot).into_iter().map(|(slot, _)| slot).collect();
    lines[at] = (line, false);
    let mut place = 0;
    lines.retain(|(line, owned)| {
        place += 1;
        place == at + 1 || *owned || !filled.contains(&line.slot)
    });
    true
}
