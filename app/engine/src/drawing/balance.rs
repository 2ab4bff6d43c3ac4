//! The centre of mass of what is drawn.

use super::{Geometry, Point, Role, Shape, Sheet};
use crate::{craft::Placed, explain};

/// Half the breadth of the mark, in mm.
const HALF: f64 = 4.0;
/// Offsets below this are said to be none, in mm.
const IN_THE_MIDDLE: f64 = 0.5;

/// A part and where its mass is.
pub(super) struct Weighed<'a> {
    pub(super) placed: &'a Placed,
    pub(super) at: Point,
}

/// Centre of mass: x = Σ m·x / Σ m over the parts with a place, each as often as listed.
///
/// `Err` names the first part whose mass nobody published.
fn center(weighed: &[Weighed]) -> Result<Option<Point>, String> {
    let (mut mass, mut moment) = (0.0, [0.0, 0.0]);
    for Weighed { placed, at } in weighed {
        let Some(piece) = placed.subject.part.mass_g else { return Err(placed.subject.part.name.clone()) };
        let all = piece.decimal() * f64::from(placed.fitted.count);
        mass += all;
        moment = [moment[0] + all * at[0], moment[1] + all * at[1]];
    }
    Ok((mass > 0.0).then(|| [moment[0] / mass, moment[1] / mass]))
}

/// A cross at the centre of mass; a note instead when a mass is missing.
pub(super) fn mark(sheet: &mut Sheet, weighed: &[Weighed]) {
    match center(weighed) {
        Err(name) => sheet.note(format!("The centre of mass is not drawn: no mass is published for the {name}.")),
        Ok(None) => {}
        Ok(Some([x, y])) => {
            let name = format!("Centre of mass of the parts drawn: {}", words(y));
            for points in [vec![[x - HALF, y], [x + HALF, y]], vec![[x, y - HALF], [x, y + HALF]]] {
                let geometry = Geometry::Line { points, width: 0.0 };
                sheet.0.shapes.push(Shape { geometry, role: Role::Balance, slot: None, name: name.clone(), stated: true });
            }
        }
    }
}

fn words(forward: f64) -> String {
    let off = explain::number(forward.abs());
    match forward {
        y if y > IN_THE_MIDDLE => format!("{off} mm forward of the middle"),
        y if y < -IN_THE_MIDDLE => format!("{off} mm behind the middle"),
        _ => "in the middle".to_owned(),
    }
}
