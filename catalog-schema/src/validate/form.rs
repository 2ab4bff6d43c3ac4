//! The checks of a record for those who fill in a form: each remark with the field at which it stands.

use super::{Issue, Remark, Step, kit, part};
use crate::{kit::Kit, part::Part};

/// What is wrong with a field of a record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FieldRemark {
    /// Which of the part's roles; absent for what stands around them.
    pub role: Option<usize>,
    /// The field; `fills` or `contents` where the record as a whole lacks something.
    pub field: String,
    /// The item of a list.
    pub item: Option<usize>,
    /// The field of an inner record, or the key of a pair.
    pub inner: Option<String>,
    /// What is wrong, and what to do.
    pub remark: Remark,
}

/// All for which a part would be refused if it were written and read again.
pub fn part_remarks(of: &Part) -> Vec<FieldRemark> {
    part(of).into_iter().map(placed).collect()
}

/// All for which a kit would be refused if it were written and read again.
pub fn kit_remarks(of: &Kit) -> Vec<FieldRemark> {
    kit(of).into_iter().map(placed).collect()
}

fn placed(issue: Issue) -> FieldRemark {
    let mut steps = issue.path.iter();
    let mut key = steps.next();
    let mut role = None;
    if let [Step::Key(fills), Step::Item(at), Step::Key(_), ..] = issue.path.as_slice()
        && fills == "fills"
    {
        role = Some(*at);
        key = steps.nth(1);
    }
    let rest: Vec<&Step> = steps.collect();
    let name = |step: &Step| if let Step::Key(name) = step { Some(name.clone()) } else { None };
    FieldRemark {
        role,
        field: key.and_then(name).unwrap_or_default(),
        item: rest.iter().find_map(|step| if let Step::Item(at) = step { Some(*at) } else { None }),
        inner: rest.iter().find_map(|step| name(step)),
        remark: Remark::from(issue),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{load::load_catalogue, part::Role, quantity::Millimetres, value::Record as _};

    fn frame_part() -> Part {
        let text = "(version: 1, parts: [(id: \"f\", name: \"F\", fills: [Frame(motors: [(x_mm: 1), (x_mm: 2)])])])";
        (*load_catalogue("f", text).unwrap().parts[0]).clone()
    }

    type Place = (Option<usize>, String, Option<usize>, Option<String>);

    fn places(part: &Part) -> Vec<Place> {
        part_remarks(part).into_iter().map(|found| (found.role, found.field, found.item, found.inner)).collect()
    }

    #[test]
    fn each_remark_stands_at_its_field() {
        assert_eq!(places(&frame_part()), []);
        let mut part = frame_part();
        part.set("name", None);
        part.set(
            "mass_g",
            Some(&crate::value::Value::Number { steps: -1, unit: &<crate::quantity::G as crate::quantity::Unit>::INFO }),
        );
        let of = |field: &str| (None, field.to_owned(), None, None);
        assert_eq!(places(&part), [of("name"), of("mass_g")]);
        let mut part = frame_part();
        let Role::Frame(frame) = &mut part.fills[0] else { unreachable!("it is a frame") };
        frame.motors.as_mut().unwrap()[1].x_mm = Some(Millimetres::from_steps(i64::from(i32::MAX)));
        frame.wheelbase_mm = Some(Millimetres::from_steps(1));
        let wheelbase = (Some(0), "wheelbase_mm".to_owned(), None, None);
        let motor = (Some(0), "motors".to_owned(), Some(1), Some("x_mm".to_owned()));
        assert_eq!(places(&part), [wheelbase, motor]);
        part = Part { fills: Vec::new(), ..frame_part() };
        assert_eq!(places(&part), [of("fills")]);
    }
}
