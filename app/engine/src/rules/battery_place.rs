//! The pack goes into its place.
//!
//! Formula: length, width and height of the pack ≤ those of the place; in a bay the pack may lie on its side. Beyond a bay it
//! is a mismatch; under straps an overhang beyond the policy's is tight, since a soft pack a millimetre or two over the plate
//! is held as well as any. Valid for one pack. Source: common practice, no source. When it fails,
//! the pack does not go in, or overhangs into the propellers and shifts the centre of mass.

use std::sync::Arc;

use propwright_schema::{part::PackPlace, slot::Slot};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Missing, Status, Verdict},
    graph::{Property, Reading, Site, part},
    interval::Interval,
    policy::PACK_OVERHANG,
    verdict,
};

const PACK: [Property; 3] = [part(Slot::Battery, "length_mm"), part(Slot::Battery, "width_mm"), part(Slot::Battery, "height_mm")];
const ROOM: [Property; 3] =
    [part(Slot::Frame, "pack_length_mm"), part(Slot::Frame, "pack_width_mm"), part(Slot::Frame, "pack_height_mm")];
const PLACE: Property = part(Slot::Frame, "pack_place");

/// Pack and place, each by length, width, height.
struct Inputs {
    pack: [Reading; 3],
    room: [Reading; 3],
    place: Reading,
    asked: [Interval; 3],
    there: [Interval; 3],
    bay: bool,
    overhang: Option<Arc<Because>>,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "battery-place",
    title: "Pack in its place",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Battery, Slot::Frame],
    formula: "length, width, height of the pack ≤ those of the place; under straps with a small overhang",
    source: "common practice, no source",
    law: Law::LessIsBetter(PACK[0]),
    reads: &[PACK[0], PACK[1], PACK[2], ROOM[0], ROOM[1], ROOM[2], PLACE],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The {length.part} measures {length}, {width}, {height}; the {room_length.part} takes {room_length}, {room_width}, {room_height} in its {place}",
        tight: "The {length.part} overhangs: it measures {length}, {width}, {height}; the {room_length.part} has {room_length}, {room_width}, {room_height}",
        fits: "The pack goes into its place",
        costs: "The pack does not go in, or overhangs: propellers and ground strike it, and the craft flies nose- or tail-heavy.",
    },
    hints: &["Choose a smaller pack", "Choose a pack of other proportions with the same capacity"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(pack_place: Bay, pack_length_mm: 60, pack_width_mm: 17, pack_height_mm: 12)]),
            (id: "b", name: "Pack", fills: [Battery(length_mm: 72, width_mm: 16, height_mm: 11)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(pack_place: Top, pack_length_mm: 70, pack_width_mm: 17, pack_height_mm: 20)]),
            (id: "b", name: "Pack", fills: [Battery(length_mm: 72, width_mm: 11, height_mm: 16)])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Battery, part: "b")]"#;

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let [lengths, widths, heights] = PACK.map(|property| site.all(property));
    let packs = lengths.into_iter().zip(widths).zip(heights);
    packs.map(|((length, width), height)| inputs(site, [length, width, height])).collect()
}

fn inputs(site: &Site, pack: [Reading; 3]) -> Result<Inputs, Missing> {
    let [length, width, height] = ROOM.map(|property| site.one(property));
    let (room, place) = ([length?, width?, height?], site.one(PLACE)?);
    let sizes = |readings: &[Reading; 3]| -> Result<_, Missing> {
        let [length, width, height] = readings;
        Ok([length.figure()?, width.figure()?, height.figure()?])
    };
    let bay = place.word()? == PackPlace::Bay.word();
    let (mut asked, mut there) = (sizes(&pack)?, sizes(&room)?);
    if bay {
        // On its side or upright: the larger side goes along the larger one.
        asked[1..].sort_by_key(|side| side.nominal);
        there[1..].sort_by_key(|side| side.nominal);
    } else if let Some(overhang) = site.policy().tight(&PACK_OVERHANG) {
        there = there.map(|side| side.plus(overhang));
    }
    let overhang = (!bay).then(|| site.threshold(&PACK_OVERHANG));
    Ok(Inputs { pack, room, place, asked, there, bay, overhang })
}

fn judge(inputs: &Inputs) -> Verdict {
    let sides = inputs.asked.iter().zip(&inputs.there).map(|(asked, there)| verdict::enough(*asked, *there));
    let worst = sides.fold(Verdict::plain(Status::Fits), Verdict::graver);
    let estimated = inputs.pack.iter().chain(&inputs.room).any(Reading::is_estimated);
    worst.softened(estimated || !inputs.bay)
}

fn facts(inputs: &Inputs) -> Facts {
    let pack = ["length", "width", "height"].into_iter().zip(&inputs.pack);
    let room = ["room_length", "room_width", "room_height"].into_iter().zip(&inputs.room);
    let read = pack.chain(room).chain([("place", &inputs.place)]).map(|(name, reading)| (name, reading.because.clone()));
    read.chain(inputs.overhang.iter().map(|limit| ("limit", limit.clone()))).collect()
}

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    const IN_BAY: &str = r#"(id: "f", name: "Frame", fills: [Frame(pack_place: Bay, pack_length_mm: 75, pack_width_mm: 17, pack_height_mm: 12)]),
        (id: "b", name: "Pack", fills: [Battery(length_mm: 72, width_mm: 11, height_mm: 16)])"#;

    fn found(from: &str, to: &str) -> Vec<Status> {
        assert!(IN_BAY.contains(from), "{from}");
        verdicts(&RULE, &IN_BAY.replace(from, to), BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        assert_eq!(found("(length_mm: 72", "(length_mm: 75"), [Status::Fits]);
        assert_eq!(found("(length_mm: 72", "(length_mm: 75.1"), [Status::Mismatch]);
        assert_eq!(found("height_mm: 16", "height_mm: 17.1"), [Status::Mismatch]);
        assert_eq!(found("width_mm: 11", "width_mm: 12.1"), [Status::Mismatch]);
    }

    #[test]
    fn under_straps_an_overhang_warns() {
        // Pack 72 × 11 × 16 mm; three millimetres may hang over.
        let top = |length: &str| {
            let place = ["Top, pack_length_mm: ", length, ", pack_width_mm: 17, pack_height_mm: 16"].concat();
            found("Bay, pack_length_mm: 75, pack_width_mm: 17, pack_height_mm: 12", &place)
        };
        assert_eq!(top("69"), [Status::Fits]);
        assert_eq!(top("68.9"), [Status::Tight]);
        assert_eq!(
            found(
                "Bay, pack_length_mm: 75, pack_width_mm: 17, pack_height_mm: 12",
                "Top, pack_length_mm: 75,
            pack_width_mm: 17, pack_height_mm: 16"
            ),
            [Status::Fits]
        );
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(found(", height_mm: 16", ""), [Status::Unstated]);
        assert_eq!(found("pack_place: Bay, ", ""), [Status::Unstated]);
        assert_eq!(found(", pack_height_mm: 12", ""), [Status::Unstated]);
    }
}
