//! What is published is drawn to scale, what is not is left out or marked as assumed.

use propwright_schema::slot::Slot;

use super::{Drawing, Geometry, Role, Shape, side_view, top_view};
use crate::rules::trial::craft;

const FRAME: &str = r#"(id: "f", name: "Frame", mass_g: 100, fills: [Frame(
    motors: [(x_mm: -80, y_mm: 60), (x_mm: 80, y_mm: 60), (x_mm: 80, y_mm: -60), (x_mm: -80, y_mm: -60)],
    arm_thickness_mm: 5, arm_width_mm: 12, body_length_mm: 140, body_width_mm: 44, standoff_mm: 25, bottom_plate_mm: 2, top_plate_mm: 2,
    pack_place: Top, stacks: [(pattern: "30.5x30.5", x_mm: 0, y_mm: 20)])])"#;
const PROPELLER: &str = r#"(id: "p", name: "Propeller", mass_g: 4, fills: [Propeller(diameter_in: 5, blades: 3)])"#;
const PACK: &str = r#"(id: "b", name: "Pack", mass_g: 200, fills: [Battery(length_mm: 75, width_mm: 38, height_mm: 40)])"#;
const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Propeller, part: "p", count: 4), (slot: Battery, part: "b")]"#;

fn from_above(parts: &[&str], build: &str) -> Drawing {
    top_view(&craft(&parts.join(", "), build))
}

fn of(drawing: &Drawing, role: Role) -> Vec<&Shape> {
    drawing.shapes.iter().filter(|shape| shape.role == role).collect()
}

fn dimension(drawing: &Drawing) -> Option<(&str, &str)> {
    drawing.shapes.iter().find_map(|shape| match &shape.geometry {
        Geometry::Dimension { text, note, .. } => Some((text.as_str(), note.as_str())),
        _ => None,
    })
}

#[test]
fn rotors_stand_where_the_frame_says_as_large_as_the_propeller() {
    let drawing = from_above(&[FRAME, PROPELLER, PACK], BUILD);
    let sweeps = of(&drawing, Role::Sweep);
    assert_eq!(sweeps.len(), 4);
    assert_eq!(sweeps[1].geometry, Geometry::Circle { center: [80.0, 60.0], radius: 63.5 });
    assert!(sweeps.iter().all(|shape| shape.stated && shape.slot == Some(Slot::Propeller)));
    assert_eq!(of(&drawing, Role::Blade).len(), 12);
    assert_eq!(drawing.notes, Vec::<String>::new());
}

#[test]
fn the_smallest_gap_is_measured() {
    // Hubs are 120 mm apart along the sides: 120 − 127 = −7.
    let drawing = from_above(&[FRAME, PROPELLER, PACK], BUILD);
    assert_eq!(dimension(&drawing), Some(("7 mm", "tips overlap")));
    // In two planes 120 mm apart may overlap; hubs of one plane are 160 mm apart: 160 − 127 = 33.
    let raised = FRAME.replace(
        "(x_mm: 80, y_mm: -60), (x_mm: -80, y_mm: -60)",
        "(x_mm: 80, y_mm: -60, z_mm: 20), (x_mm: -80, y_mm: -60, z_mm: 20)",
    );
    let drawing = from_above(&[&raised, PROPELLER, PACK], BUILD);
    assert_eq!(dimension(&drawing), Some(("33 mm", "between tips")));
}

#[test]
fn motors_on_a_square_are_marked_as_assumed() {
    let plain = r#"(id: "f", name: "Frame", fills: [Frame(wheelbase_mm: 200)])"#;
    let drawing = from_above(&[plain, PROPELLER, PACK], BUILD);
    let sweeps = of(&drawing, Role::Sweep);
    assert!(sweeps.len() == 4 && sweeps.iter().all(|shape| !shape.stated));
    assert!(drawing.notes.iter().any(|note| note.contains("assumed on a square")), "{:?}", drawing.notes);
}

#[test]
fn what_nobody_published_is_not_drawn_but_said() {
    let bare = r#"(id: "f", name: "Frame", fills: [Frame()])"#;
    let drawing = from_above(&[bare, PROPELLER, PACK], BUILD);
    assert_eq!(of(&drawing, Role::Sweep).len() + of(&drawing, Role::Arm).len() + of(&drawing, Role::Balance).len(), 0);
    assert!(drawing.notes.iter().any(|note| note.starts_with("Rotors are not drawn")), "{:?}", drawing.notes);
    assert!(drawing.notes.iter().any(|note| note.contains("no mass is published for the Frame")), "{:?}", drawing.notes);
    assert!(side_view(&craft(&[bare, PROPELLER, PACK].join(", "), BUILD)).shapes.is_empty());
}

#[test]
fn the_centre_of_mass_is_the_mean_of_what_is_drawn() {
    // Frame 100 g, propellers 16 g and pack 200 g about the middle, board 79 g at 20 mm: 79·20/395 = 4 mm.
    let board = r#"(id: "e", name: "Board", mass_g: 79, fills: [Esc(pattern: "30.5x30.5", height_mm: 7)])"#;
    let build = BUILD.replace("parts: [", r#"parts: [(slot: Esc, part: "e"), "#);
    let drawing = from_above(&[FRAME, PROPELLER, PACK, board], &build);
    let cross = of(&drawing, Role::Balance);
    assert_eq!(cross[0].geometry.bounds(), Some(([-4.0, 4.0], [4.0, 4.0])));
    assert_eq!(cross[0].name, "Centre of mass of the parts drawn: 4 mm forward of the middle");
}

#[test]
fn a_board_without_a_place_is_not_drawn() {
    let board = r#"(id: "e", name: "Board", mass_g: 10, fills: [Esc(pattern: "20x20", height_mm: 7)])"#;
    let build = BUILD.replace("parts: [", r#"parts: [(slot: Esc, part: "e"), "#);
    let drawing = from_above(&[FRAME, PROPELLER, PACK, board], &build);
    assert!(drawing.shapes.iter().all(|shape| shape.slot != Some(Slot::Esc)));
    assert!(drawing.notes.iter().any(|note| note.contains("no place with holes at 20x20 mm")), "{:?}", drawing.notes);
}

#[test]
fn from_the_side_the_pack_stands_on_the_top_plate() {
    let drawing = side_view(&craft(&[FRAME, PROPELLER, PACK].join(", "), BUILD));
    let pack = drawing.shapes.iter().find(|shape| shape.slot == Some(Slot::Battery)).unwrap();
    // Standoffs 25 mm, plate 2 mm, pack 40 mm high and 75 mm long.
    assert_eq!(pack.geometry.bounds(), Some(([-37.5, 27.0], [37.5, 67.0])));
    assert_eq!(dimension(&drawing), Some(("25 mm", "standoffs")));
}
