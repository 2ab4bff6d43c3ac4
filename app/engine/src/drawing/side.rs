//! The craft from the right-hand side: x forward, y up from the upper face of the bottom plate.

use propwright_schema::part::{Frame, PackPlace};

use super::{
    Drawing, Geometry, Role, Sheet,
    layout::{Found, Layout, Motors, mm},
};
use crate::{craft::Craft, explain};

/// Breadth of a standoff as drawn, in mm; it stands for nothing.
const POST: f64 = 3.0;
/// Free height between two boards of a stack as drawn, in mm; it stands for nothing.
const BETWEEN: f64 = 1.0;

/// The heights of the plates, where they are published.
struct Plates {
    length: f64,
    /// Lower face of the bottom plate.
    below: f64,
    /// Lower and upper face of the top plate.
    top: Option<(f64, f64)>,
}

/// The craft from its right-hand side, to scale, its front to the right.
pub fn side_view(craft: &Craft) -> Drawing {
    let layout = Layout::of(craft);
    let mut sheet = Sheet::new("From the side, front to the right");
    let Some(frame) = layout.frame else { return sheet.0 };
    let Some(plates) = plates(&mut sheet, frame) else { return sheet.0 };
    if let Some(motors) = layout.motors() {
        rotors(&mut sheet, &layout, frame, &motors);
    }
    body(&mut sheet, frame, &plates);
    boards(&mut sheet, &layout);
    pack(&mut sheet, &layout, frame.1, &plates);
    camera(&mut sheet, &layout, &plates);
    if let Some((top, _)) = plates.top {
        let x = plates.length / 2.0 + 12.0;
        let text = format!("{} mm", explain::number(top));
        sheet.note_at(Geometry::Dimension { from: [x, 0.0], to: [x, top], text, note: "standoffs".to_owned() });
    }
    sheet.0
}

fn plates(sheet: &mut Sheet, (placed, frame): Found<Frame>) -> Option<Plates> {
    let Some(length) = mm(frame.body_length_mm) else {
        sheet.note(format!("No length of the body is published for the {}.", placed.subject.part.name));
        return None;
    };
    let Some(bottom) = mm(frame.bottom_plate_mm).or_else(|| mm(frame.arm_thickness_mm)) else {
        sheet.note(format!("No thickness of the bottom plate is published for the {}.", placed.subject.part.name));
        return None;
    };
    let top = mm(frame.standoff_mm).zip(mm(frame.top_plate_mm)).map(|(standoff, plate)| (standoff, standoff + plate));
    if top.is_none() {
        sheet.note(format!("No standoffs with a top plate are published for the {}.", placed.subject.part.name));
    }
    Some(Plates { length, below: -bottom, top })
}

fn body(sheet: &mut Sheet, (placed, _): Found<Frame>, plates: &Plates) {
    let half = plates.length / 2.0;
    let rect = |from: [f64; 2], to: [f64; 2]| Geometry::Rect { min: from, max: to, corner: 0.0 };
    sheet.part(placed, "bottom plate", Role::Structure, true, rect([-half, plates.below], [half, 0.0]));
    let Some((under, over)) = plates.top else { return };
    sheet.part(placed, "top plate", Role::Structure, true, rect([-half, under], [half, over]));
    for x in [-half, half - POST] {
        sheet.part(placed, "standoff", Role::Structure, true, rect([x, 0.0], [x + POST, under]));
    }
}

/// Arms, motors and the planes of the propellers; the motors stand on the arms, the arms on the bottom plate's lower face.
fn rotors(sheet: &mut Sheet, layout: &Layout, (placed, frame): Found<Frame>, motors: &Motors) {
    let bottom = mm(frame.bottom_plate_mm).unwrap_or(0.0);
    let Some(thickness) = mm(frame.arm_thickness_mm) else {
        sheet.note(format!("Motors are not drawn: no thickness of the arms is published for the {}.", placed.subject.part.name));
        return;
    };
    let along = motors.at.iter().map(|at| at[1]);
    let (from, to) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), y| (low.min(y), high.max(y)));
    let arm = Geometry::Rect { min: [from, -bottom], max: [to, thickness - bottom], corner: 0.0 };
    sheet.part(placed, "arms", Role::Arm, motors.stated, arm);
    let mut sides: Vec<(f64, f64)> = motors.at.iter().map(|at| (at[1], at[2])).collect();
    sides.sort_by(|one, other| one.0.total_cmp(&other.0));
    sides.dedup_by(|one, other| (one.0 - other.0).abs() < 0.5 && (one.1 - other.1).abs() < 0.5);
    let Some((motor_placed, motor)) = layout.motor else { return };
    let Some((wide, high)) = mm(motor.stator_diameter_mm).zip(mm(motor.height_mm)) else {
        sheet.note(format!("Motors are not drawn: no height is published for the {}.", motor_placed.subject.part.name));
        return;
    };
    let foot = thickness - bottom;
    for (y, z) in &sides {
        let base = Geometry::Rect { min: [y - wide / 2.0, foot + z], max: [y + wide / 2.0, foot + z + high], corner: 2.0 };
        sheet.part(motor_placed, "", Role::Body, motors.stated, base);
    }
    let Some((propeller_placed, propeller)) = layout.propeller else { return };
    let Some(diameter) = propeller.diameter_in else { return };
    let radius = diameter.decimal() * 12.7;
    for (y, z) in &sides {
        let plane = foot + z + high + mm(propeller.hub_mm).unwrap_or(0.0) / 2.0;
        let points = vec![[y - radius, plane], [y + radius, plane]];
        sheet.part(propeller_placed, "", Role::Sweep, motors.stated, Geometry::Line { points, width: 1.2 });
    }
}

fn boards(sheet: &mut Sheet, layout: &Layout) {
    let mut filled: Vec<(f64, f64)> = Vec::new();
    for board in layout.boards() {
        let Some(([_, y], stated)) = board.middle() else { continue };
        let Some(height) = board.height_mm else {
            sheet.note(format!("The {} is not drawn: no height is published.", board.placed.subject.part.name));
            continue;
        };
        let known = filled.iter_mut().find(|(at, _)| (*at - y).abs() < 0.5);
        let from = known.as_ref().map_or(BETWEEN, |(_, top)| *top);
        let half = board.pattern.short.decimal() / 2.0;
        let rect = Geometry::Rect { min: [y - half, from], max: [y + half, from + height], corner: 0.0 };
        sheet.part(board.placed, "", Role::Part, stated, rect);
        let top = from + height + BETWEEN;
        match known {
            Some(stack) => stack.1 = top,
            None => filled.push((y, top)),
        }
    }
}

fn pack(sheet: &mut Sheet, layout: &Layout, frame: &Frame, plates: &Plates) {
    let Some((placed, pack)) = layout.pack else { return };
    let Some((length, height)) = mm(pack.length_mm).zip(mm(pack.height_mm)) else { return };
    let foot = match (frame.pack_place, plates.top) {
        (Some(PackPlace::Top), Some((_, over))) => over,
        (Some(PackPlace::Bottom), _) => plates.below - height,
        (Some(PackPlace::Bay), _) => 0.0,
        _ => {
            sheet.note(format!("The pack is not drawn: the {} does not say where it sits.", frame_name(layout)));
            return;
        }
    };
    let half = length / 2.0;
    let rect = Geometry::Rect { min: [-half, foot], max: [half, foot + height], corner: 2.0 };
    sheet.part(placed, "taken in the middle", Role::Part, true, rect);
    sheet.note_at(Geometry::Text { at: [0.0, foot + height / 2.0], text: "pack".to_owned(), room: length });
}

fn frame_name(layout: &Layout) -> String {
    layout.frame.map_or_else(String::new, |(placed, _)| placed.subject.part.name.clone())
}

fn camera(sheet: &mut Sheet, layout: &Layout, plates: &Plates) {
    let Some((placed, camera)) = layout.camera else { return };
    let Some((depth, (top, _))) = mm(camera.depth_mm).zip(plates.top) else { return };
    let Some(edge) = mm(camera.width_mm).map(|width| width.min(top)) else { return };
    let (front, middle) = (plates.length / 2.0 + 2.0, top / 2.0);
    let rect = Geometry::Rect { min: [front - depth, middle - edge / 2.0], max: [front, middle + edge / 2.0], corner: 1.0 };
    sheet.part(placed, "as high as wide", Role::Part, true, rect);
}
