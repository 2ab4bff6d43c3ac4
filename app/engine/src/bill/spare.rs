//! The usual spares of a purpose (common practice, no source): a proposal that the user edits.

use propwright_schema::{
    build_list::{Spare, Use},
    part::{Part, Role},
    slot::Slot,
};

use crate::craft::Craft;

/// How many spares a use asks for: sets of propellers, packs, straps, arms of a frame, motors.
struct Usual {
    sets: u32,
    packs: u32,
    straps: u32,
    arms: u32,
    motors: u32,
}

const fn usual_of(usage: Use) -> Usual {
    match usage {
        Use::DuctedMicro => Usual { sets: 1, packs: 3, straps: 1, arms: 0, motors: 1 },
        Use::DuctedCamera => Usual { sets: 1, packs: 2, straps: 1, arms: 0, motors: 1 },
        Use::Freestyle | Use::Speed => Usual { sets: 2, packs: 3, straps: 1, arms: 1, motors: 1 },
        Use::Lifter => Usual { sets: 1, packs: 1, straps: 2, arms: 0, motors: 1 },
        Use::LongRange => Usual { sets: 1, packs: 1, straps: 1, arms: 1, motors: 1 },
    }
}

/// The usual spares of a craft by its purpose; none while no purpose is chosen. Arms only where one can be replaced.
pub fn usual(craft: &Craft) -> Vec<Spare> {
    let Some(usage) = craft.build.purpose.usage else { return Vec::new() };
    let usual = usual_of(usage);
    let mut spares = Vec::new();
    for placed in craft.listed() {
        let (part, each) = (&placed.subject.part, placed.fitted.count);
        let (count, arm) = match placed.subject.slot {
            Slot::Propeller => (usual.sets * each, false),
            Slot::Battery => (usual.packs * each, false),
            Slot::Strap => (usual.straps, false),
            Slot::Motor => (usual.motors, false),
            Slot::Frame if has_arms(part) => (usual.arms, true),
            _ => (0, false),
        };
        if count > 0 {
            spares.push(Spare { part: part.id.clone(), arm, count, note: None });
        }
    }
    spares
}

/// Can a broken arm be replaced alone?
pub fn has_arms(part: &Part) -> bool {
    part.fills.iter().any(|role| matches!(role, Role::Frame(frame) if frame.arm_replaceable == Some(true)))
}
