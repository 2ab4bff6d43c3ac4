//! The craft from above: x to the right, y forward.

use propwright_schema::{
    part::{Guard, PackPlace},
    slot::Slot,
};

use super::{
    Drawing, Geometry, Point, Role, Sheet,
    balance::{self, Weighed},
    layout::{Board, Layout, Motors, mm},
};
use crate::{craft::Craft, explain};

/// Corners of a body are drawn with this radius, in mm; it stands for nothing.
const CORNER: f64 = 4.0;
/// A blade's line is bent by this angle from hub to tip, in radians; it stands for nothing.
const BEND: f64 = 0.45;
/// Room that a word needs along the craft, in mm.
const WORD: f64 = 9.0;
/// Two rotors whose planes are apart by less than this turn in one plane, in mm.
const ONE_PLANE: f64 = 1.0;

/// The craft from above, to scale.
pub fn top_view(craft: &Craft) -> Drawing {
    let layout = Layout::of(craft);
    let mut sheet = Sheet::new("From above");
    let motors = layout.motors();
    frame(&mut sheet, &layout, motors.as_ref());
    let mut weighed = Vec::new();
    if let Some(motors) = &motors {
        rotors(&mut sheet, &layout, motors, &mut weighed);
    }
    pack(&mut sheet, &layout, &mut weighed);
    boards(&mut sheet, &layout.boards(), &mut weighed);
    camera(&mut sheet, &layout, &mut weighed);
    payload(&mut sheet, craft);
    if let Some((placed, _)) = layout.frame {
        weighed.push(Weighed { placed, at: [0.0, 0.0] });
    }
    balance::mark(&mut sheet, &weighed);
    if let Some(motors) = &motors {
        tip_gap(&mut sheet, &layout, motors);
    }
    sheet.0
}

fn frame(sheet: &mut Sheet, layout: &Layout, motors: Option<&Motors>) {
    let Some((placed, frame)) = layout.frame else { return };
    match motors {
        None => sheet
            .note(format!("Rotors are not drawn: no places of the motors are published for the {}.", placed.subject.part.name)),
        Some(Motors { stated: false, .. }) => {
            sheet.note("The motors are assumed on a square of the wheelbase: their places are not published.".to_owned());
        }
        Some(_) => {}
    }
    let width = mm(frame.arm_width_mm);
    for at in motors.map_or(&[][..], |motors| &motors.at) {
        let points = vec![[0.0, 0.0], [at[0], at[1]]];
        let stated = width.is_some() && motors.is_some_and(|motors| motors.stated);
        sheet.part(placed, "arm", Role::Arm, stated, Geometry::Line { points, width: width.unwrap_or(0.0) });
    }
    let inner = mm(frame.duct_inner_mm).filter(|_| frame.guard.is_some_and(|guard| guard != Guard::Open));
    for at in motors.map_or(&[][..], |motors| &motors.at) {
        if let Some(inner) = inner {
            let what = frame.guard.map_or("", Guard::word);
            sheet.part(placed, what, Role::Duct, true, Geometry::Circle { center: [at[0], at[1]], radius: inner / 2.0 });
        }
    }
    match (mm(frame.body_length_mm), mm(frame.body_width_mm)) {
        (Some(length), Some(width)) => sheet.part(placed, "", Role::Body, true, block([0.0, 0.0], [width, length], CORNER)),
        _ => {
            sheet
                .note(format!("The body is not drawn: length and width are not published for the {}.", placed.subject.part.name));
        }
    }
}

/// A rectangle around a middle.
fn block(middle: Point, size: [f64; 2], corner: f64) -> Geometry {
    let half = [size[0] / 2.0, size[1] / 2.0];
    Geometry::Rect { min: [middle[0] - half[0], middle[1] - half[1]], max: [middle[0] + half[0], middle[1] + half[1]], corner }
}

fn rotors<'a>(sheet: &mut Sheet, layout: &Layout<'a>, motors: &Motors, weighed: &mut Vec<Weighed<'a>>) {
    let middle = mean(&motors.at);
    if let Some((placed, propeller)) = layout.propeller {
        weighed.push(Weighed { placed, at: middle });
        match propeller.diameter_in {
            None => {
                sheet.note(format!("Propellers are not drawn: no diameter is published for the {}.", placed.subject.part.name));
            }
            Some(diameter) => {
                let radius = diameter.decimal() * 12.7;
                let within = clearance(layout, radius).unwrap_or_default();
                for at in &motors.at {
                    let center = [at[0], at[1]];
                    sheet.part(placed, &within, Role::Sweep, motors.stated, Geometry::Circle { center, radius });
                    for points in blades(*at, radius, propeller.blades.unwrap_or(0)) {
                        sheet.part(placed, &within, Role::Blade, true, Geometry::Line { points, width: 0.0 });
                    }
                }
            }
        }
    }
    if let Some((placed, motor)) = layout.motor {
        weighed.push(Weighed { placed, at: middle });
        match mm(motor.stator_diameter_mm) {
            None => {
                sheet.note(format!("Motors are not drawn: no stator size is published for the {}.", placed.subject.part.name));
            }
            Some(diameter) => {
                for at in &motors.at {
                    let circle = Geometry::Circle { center: [at[0], at[1]], radius: diameter / 2.0 };
                    sheet.part(placed, "drawn as wide as its stator", Role::Body, motors.stated, circle);
                }
            }
        }
    }
}

/// The room between tip and duct in words.
fn clearance(layout: &Layout, radius: f64) -> Option<String> {
    let inner = mm(layout.frame?.1.duct_inner_mm)?;
    Some(format!("{} mm from the duct", explain::number(inner / 2.0 - radius)))
}

/// Bent lines from hub to tip; neighbours are mirrored as rotors that turn against each other.
fn blades(at: [f64; 3], radius: f64, count: u32) -> Vec<Vec<Point>> {
    let sense = if at[0] * at[1] < 0.0 { 1.0 } else { -1.0 };
    let blade = |which: u32| {
        let start = sense * (std::f64::consts::TAU * f64::from(which) / f64::from(count.max(1)) + 0.5);
        let point = |step: u32| {
            let share = f64::from(step) / 8.0;
            let (sin, cos) = (start + sense * BEND * share * share).sin_cos();
            [at[0] + radius * share * cos, at[1] + radius * share * sin]
        };
        (0..=8).map(point).collect()
    };
    (0..count).map(blade).collect()
}

fn mean(places: &[[f64; 3]]) -> Point {
    let count = places.len().max(1) as f64;
    [places.iter().map(|at| at[0]).sum::<f64>() / count, places.iter().map(|at| at[1]).sum::<f64>() / count]
}

fn pack<'a>(sheet: &mut Sheet, layout: &Layout<'a>, weighed: &mut Vec<Weighed<'a>>) {
    let Some((placed, pack)) = layout.pack else { return };
    weighed.push(Weighed { placed, at: [0.0, 0.0] });
    let (Some(length), Some(width)) = (mm(pack.length_mm), mm(pack.width_mm)) else {
        sheet.note(format!("The pack is not drawn: length and width are not published for the {}.", placed.subject.part.name));
        return;
    };
    let place = layout.frame.and_then(|(_, frame)| frame.pack_place);
    let place = match place {
        Some(PackPlace::Top) => "on top, taken in the middle",
        Some(PackPlace::Bottom) => "below, taken in the middle",
        Some(PackPlace::Bay) => "in its bay, taken in the middle",
        None => "taken in the middle",
    };
    sheet.part(placed, place, Role::Part, true, block([0.0, 0.0], [width, length], 2.0));
    label_pack(sheet, layout, length, width);
}

/// The word stands where the pack is not covered by a board: behind all of them, else before them, else nowhere.
fn label_pack(sheet: &mut Sheet, layout: &Layout, length: f64, width: f64) {
    let boards = layout.boards();
    let spans = boards.iter().filter_map(|board| Some((board.middle()?.0[1], board.pattern.short.decimal() / 2.0)));
    let (rear, front) =
        spans.fold((length / 2.0, -length / 2.0), |(rear, front), (y, half)| (rear.min(y - half), front.max(y + half)));
    let at = match (rear + length / 2.0, length / 2.0 - front) {
        (behind, _) if behind >= WORD => rear - behind / 2.0,
        (_, before) if before >= WORD => front + before / 2.0,
        _ => return,
    };
    sheet.note_at(Geometry::Text { at: [0.0, at], text: "pack".to_owned(), room: width });
}

fn boards<'a>(sheet: &mut Sheet, boards: &[Board<'a>], weighed: &mut Vec<Weighed<'a>>) {
    let mut labelled: Vec<Point> = Vec::new();
    for board in boards {
        let name = &board.placed.subject.part.name;
        let Some((middle, stated)) = board.middle() else {
            sheet.note(format!("The {name} is not drawn: the frame lists no place with holes at {} mm.", board.pattern));
            continue;
        };
        weighed.push(Weighed { placed: board.placed, at: middle });
        let (wide, deep) = (board.pattern.long.decimal(), board.pattern.short.decimal());
        sheet.part(board.placed, "outline of its holes", Role::Part, stated, block(middle, [wide, deep], 1.0));
        if !labelled.contains(&middle) {
            labelled.push(middle);
            // Above the middle, where the centre of mass mostly is.
            let at = [middle[0], middle[1] + 0.28 * deep];
            sheet.note_at(Geometry::Text { at, text: "boards".to_owned(), room: 0.9 * wide });
        }
    }
}

fn camera<'a>(sheet: &mut Sheet, layout: &Layout<'a>, weighed: &mut Vec<Weighed<'a>>) {
    let Some((placed, camera)) = layout.camera else { return };
    let size = mm(camera.width_mm).zip(mm(camera.depth_mm));
    let front = layout.frame.and_then(|(_, frame)| mm(frame.body_length_mm)).map(|length| length / 2.0);
    let Some(((width, depth), front)) = size.zip(front) else {
        sheet.note(format!(
            "The camera is not drawn: the sizes of the {} or of the body are not published.",
            placed.subject.part.name
        ));
        return;
    };
    let middle = [0.0, front - depth / 2.0 + 2.0];
    weighed.push(Weighed { placed, at: middle });
    sheet.part(placed, "", Role::Part, true, block(middle, [width, depth], 1.0));
}

/// No record says where on the craft a payload sits.
fn payload(sheet: &mut Sheet, craft: &Craft) {
    for placed in craft.in_slot(Slot::Payload) {
        sheet.note(format!("The {} is not drawn: no record says where it sits.", placed.subject.part.name));
    }
}

/// The smallest gap between tips that turn in one plane; of equal ones the foremost.
fn tip_gap(sheet: &mut Sheet, layout: &Layout, motors: &Motors) {
    let Some(diameter) = layout.propeller.and_then(|(_, propeller)| propeller.diameter_in) else { return };
    let radius = diameter.decimal() * 12.7;
    let mut smallest: Option<(f64, f64, Point, Point)> = None;
    for (which, one) in motors.at.iter().enumerate() {
        for other in motors.at.iter().skip(which + 1).filter(|other| (other[2] - one[2]).abs() < ONE_PLANE) {
            let apart = (other[0] - one[0]).hypot(other[1] - one[1]);
            let along = [(other[0] - one[0]) / apart, (other[1] - one[1]) / apart];
            let (gap, forward) = (apart - 2.0 * radius, one[1] + other[1]);
            let from = [one[0] + along[0] * radius, one[1] + along[1] * radius];
            let to = [other[0] - along[0] * radius, other[1] - along[1] * radius];
            let closer =
                |(known, front, ..): &(f64, f64, Point, Point)| gap < known - 0.01 || (gap < known + 0.01 && forward > *front);
            if gap.is_finite() && smallest.as_ref().is_none_or(closer) {
                smallest = Some((gap, forward, from, to));
            }
        }
    }
    let Some((gap, _, from, to)) = smallest else { return };
    let note = if gap < 0.0 { "tips overlap" } else { "between tips" };
    let text = format!("{} mm", explain::number(gap.abs()));
    sheet.note_at(Geometry::Dimension { from, to, text, note: note.to_owned() });
}
