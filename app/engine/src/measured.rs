//! The same craft without what was measured of it: what the models say alone, to stand beside the calibrated figures.

use std::sync::Arc;

use propwright_schema::{
    build_list::BuildList,
    measured::Logged,
    part::{Basis, Part, Role},
    value::{Describe, Record, Value},
};

use crate::{
    craft::{Craft, Subject},
    finding::{Because, Claim, Datum, Origin},
};

/// What was measured, and the craft without it; no craft when nothing was.
pub(crate) fn without(craft: &Craft) -> (Vec<Arc<Because>>, Option<Craft>) {
    let mut facts = Vec::new();
    let mut bare = craft.clone();
    for slot in BuildList::FLYING {
        for placed in craft.in_slot(slot) {
            if let Some(part) = stripped(&placed.subject, &mut facts) {
                bare.replace(placed.line, &Arc::new(part));
            }
        }
    }
    let build = &craft.build;
    let weighed = build.weighed_g.as_ref().map(|mass| ("weighed_g", mass.value()));
    let rows = rows_fact(&build.stand.value(), "stand");
    let logged = Logged::FIELDS.iter().filter(|field| field.name != "flown_with" && build.log_counts());
    let logged = logged.filter_map(|field| Some((field.name, build.logged.get(field.name)?)));
    let of_build: Vec<(&'static str, Value)> = weighed.into_iter().chain(rows).chain(logged).collect();
    facts.extend(of_build.into_iter().map(|(field, value)| fact(None, field, value)));
    if facts.is_empty() {
        return (facts, None);
    }
    let mut list = (**build).clone();
    list.weighed_g = None;
    list.logged = Logged::default();
    list.stand.clear();
    bare.build = Arc::new(list);
    (facts, Some(bare))
}

/// The part without its measured figures; nothing when it has none.
fn stripped(subject: &Subject, facts: &mut Vec<Arc<Because>>) -> Option<Part> {
    let mut part = (*subject.part).clone();
    let measured = |field: &str| subject.part.basis_of(field) == Some(Basis::Measured);
    let guessed = |field: &str| subject.part.basis_of(field) == Some(Basis::Estimate);
    let before = facts.len();
    let mut note = |field: &'static str, value: Option<Value>| {
        facts.extend(value.into_iter().map(|value| fact(Some(subject), field, value)));
    };
    for role in &mut part.fills {
        match role {
            Role::Frame(frame) if !guessed("drag_area_cm2") => {
                note("drag_area_cm2", frame.drag_area_cm2.take().map(|area| area.value()));
            }
            Role::Propeller(propeller) => {
                if !guessed("chord_75_mm") {
                    note("chord_75_mm", propeller.chord_75_mm.take().map(|chord| chord.value()));
                }
                note("static_point", propeller.static_point.take().map(|point| point.value()));
            }
            Role::Battery(pack) if measured("resistance_mohm") => {
                note("resistance_mohm", pack.resistance_mohm.take().map(|ohm| ohm.value()));
            }
            Role::Motor(motor) => {
                if measured("resistance_mohm") {
                    note("resistance_mohm", motor.resistance_mohm.take().map(|ohm| ohm.value()));
                }
                let rows = motor.stand.take().and_then(|rows| rows_fact(&rows.value(), "stand"));
                note("stand", rows.map(|(_, rows)| rows));
            }
            _ => {}
        }
    }
    (facts.len() > before).then_some(part)
}

/// How many rows a stand's table has.
fn rows_fact(rows: &Value, field: &'static str) -> Option<(&'static str, Value)> {
    let Value::List(rows) = rows else { return None };
    let count = i64::try_from(rows.len()).ok().filter(|count| *count > 0)?;
    Some((field, Value::Count(count)))
}

fn fact(subject: Option<&Subject>, field: &'static str, value: Value) -> Arc<Because> {
    let origin = if subject.is_some() { Origin::Part } else { Origin::Build };
    let claim =
        Claim::Fact { subject: subject.cloned(), field, datum: Datum::Value(value), basis: Some(Basis::Measured), origin };
    Because::plain(claim)
}

#[cfg(test)]
mod tests {
    use crate::explain;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::report;

    fn told(parts: &str, build: &str, id: &str) -> (f64, Option<f64>) {
        let flight = report(parts, build).flight.unwrap();
        let told = flight.told.iter().find(|told| told.id == id).unwrap();
        let width = |figure: &crate::interval::Interval| (figure.high as f64 / figure.low as f64).ln();
        (width(&told.figure), told.modelled.as_ref().map(width))
    }

    #[test]
    fn each_measurement_narrows_a_figure_and_both_are_told() {
        let point = five_inch!(propeller ", static_point: (speed_rpm: 24000, thrust_gf: 700, power_w: 180)");
        let chord = five_inch!(propeller ", chord_75_mm: 12");
        let drag = five_inch!(frame ", drag_area_cm2: 110");
        let build = five_inch_build!();
        let cases = [
            (point, build, "time-hover"),
            (chord, build, "thrust-to-weight"),
            (drag, build, "top-speed"),
            (five_inch!(), five_inch_build!("weighed_g: 620, "), "hover-current"),
            (five_inch!(), five_inch_build!("logged: (calm_min: 6), "), "time-calm"),
        ];
        for (parts, build, id) in cases {
            let (now, modelled) = told(parts, build, id);
            assert!(now < modelled.unwrap(), "{id}: {now} {modelled:?}");
        }
        assert_eq!(told(five_inch!(), build, "time-hover").1, None, "nothing was measured");
    }

    #[test]
    fn what_was_measured_is_said() {
        let said: Vec<String> = report(five_inch!(frame ", drag_area_cm2: 110"), five_inch_build!("weighed_g: 620, "))
            .measured
            .iter()
            .map(|fact| explain::headline(fact))
            .collect();
        assert_eq!(said, ["Frame: drag area 110 cm², measured", "the build list: weighed 620 g, measured"]);
    }
}
