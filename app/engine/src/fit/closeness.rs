//! How close one part comes to another, by their records.

use propwright_schema::{
    part::Part,
    slot::Slot,
    value::{Kind, Value},
};

/// What a field adds when only one of the two records states it. Common practice, no source.
const UNKNOWN: f64 = 0.5;

/// How far two parts are from one another in a slot: 0 for the same record, 1 for nothing in common.
///
/// The mean over the fields that at least one of them states: a figure adds `1 - smaller / larger`, a word or list 0 when it
/// is the same and 1 when not, a field that only one states a half. `None` when one of them does not fill the slot.
///
/// A motor of 1750 rpm/V beside one of 1700 rpm/V, all else equal over four fields, is `(1 - 1700/1750)/4 = 0.007` away.
pub fn distance(one: &Part, other: &Part, slot: Slot) -> Option<f64> {
    let (here, there) = (one.role(slot)?, other.role(slot)?);
    let each = here.fields().iter().filter_map(|field| apart(field.kind, here.get(field.name), there.get(field.name)));
    let each: Vec<f64> = each.collect();
    if each.is_empty() { Some(0.0) } else { Some(each.iter().sum::<f64>() / each.len() as f64) }
}

fn apart(kind: Kind, one: Option<Value>, other: Option<Value>) -> Option<f64> {
    match (one, other) {
        (None, None) => None,
        (Some(one), Some(other)) => Some(match kind {
            Kind::Number(_) | Kind::Count => figures(one.steps()?, other.steps()?),
            _ => f64::from(u8::from(one != other)),
        }),
        _ => Some(UNKNOWN),
    }
}

fn figures(one: i64, other: i64) -> f64 {
    let (less, more) = (one.min(other), one.max(other));
    match less {
        _ if less == more => 0.0,
        1.. => 1.0 - less as f64 / more as f64,
        _ => 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial;

    fn apart(one: &str, other: &str) -> f64 {
        let parts = format!(r#"(id: "a", name: "A", fills: [Motor({one})]), (id: "b", name: "B", fills: [Motor({other})])"#);
        let craft = trial::craft(&parts, r#"parts: [(slot: Motor, part: "a"), (slot: Motor, part: "b")]"#);
        let [a, b] = [0, 1].map(|at: usize| &craft.in_slot(Slot::Motor)[at].subject.part);
        assert_eq!(distance(a, b, Slot::Motor), distance(b, a, Slot::Motor), "the way back is as long");
        assert_eq!(distance(a, b, Slot::Frame), None);
        distance(a, b, Slot::Motor).unwrap()
    }

    #[test]
    fn the_mean_over_what_is_stated() {
        let four = "stator_diameter_mm: 22, poles: 14, winding: Delta, kv_rpm_per_v";
        assert!(apart(&format!("{four}: 1750"), &format!("{four}: 1750")).abs() < 1e-12);
        let near = apart(&format!("{four}: 1750"), &format!("{four}: 1700"));
        assert!((near - (1.0 - 1700.0 / 1750.0) / 4.0).abs() < 1e-12);
        assert!((apart("poles: 14, winding: Delta", "poles: 14, winding: Star") - 0.5).abs() < 1e-12);
        assert!((apart("poles: 14, winding: Delta", "poles: 14") - 0.25).abs() < 1e-12, "unpublished is half a difference");
        assert!(apart("", "").abs() < 1e-12);
    }
}
