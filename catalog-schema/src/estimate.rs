//! What the user estimates for a build because nobody published it.

use serde::{Deserialize, Serialize};

use crate::{
    build_list::BuildList,
    description,
    part::{Part, Role},
    quantity::Grams,
    table,
    validate::{Remark, field_remark},
    value::{Describe as _, Field, Kind, Value},
};

/// Estimates of one part of a build, written as in the part's own record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Estimate {
    /// The part's id; a line of the list names it.
    pub part: String,
    /// Mass of one piece.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass_g: Option<Grams>,
    /// The roles with the figures that are estimated.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fills: Vec<Role>,
}

/// Fields that are measurements and cannot be estimated.
pub(crate) const MEASURED: [&str; 2] = ["stand", "static_point"];

impl Estimate {
    /// Nothing estimated yet.
    pub fn new(part: &str) -> Self {
        Self { part: part.to_owned(), mass_g: None, fills: Vec::new() }
    }

    /// Every figure with its role's word; the mass, which no role has, with none.
    pub fn figures(&self) -> Vec<(Option<&'static str>, &'static Field, Value)> {
        let mass = self.mass_g.iter().map(|mass| (None, &description::MASS, mass.value()));
        let of_role = |role: &Role| {
            let word = role.word();
            let fields = role.fields().iter();
            fields.filter_map(|field| Some((Some(word), field, role.get(field.name)?))).collect::<Vec<_>>()
        };
        mass.chain(self.fills.iter().flat_map(of_role)).collect()
    }

    fn set(&mut self, role: Option<&str>, field: &str, value: Option<&Value>) -> bool {
        let Some(word) = role else {
            if field != description::MASS.name {
                return false;
            }
            self.mass_g = value.and_then(Grams::from_value);
            return value.is_none() || self.mass_g.is_some();
        };
        let known = self.fills.iter().position(|role| role.word() == word);
        let held = known.and_then(|at| self.fills.get(at)).cloned();
        let Some(mut role) = held.or_else(|| Role::of_kind(word)) else { return false };
        if !role.set(field, value) {
            return false;
        }
        let says_nothing = role.fields().iter().all(|field| role.get(field.name).is_none());
        match known {
            Some(at) if says_nothing => drop(self.fills.remove(at)),
            Some(at) => self.fills[at] = role,
            None if says_nothing => {}
            None => self.fills.push(role),
        }
        true
    }

    fn is_empty(&self) -> bool {
        self.mass_g.is_none() && self.fills.is_empty()
    }
}

impl BuildList {
    /// What is estimated of a field of a part; `role` is the word of the role that has it, none for the mass.
    pub fn estimated(&self, part: &str, role: Option<&str>, field: &str) -> Option<Value> {
        let of_part = self.estimates.iter().filter(|estimate| estimate.part == part);
        of_part.flat_map(Estimate::figures).find(|(word, known, _)| *word == role && known.name == field).map(|(.., value)| value)
    }

    /// Estimates a field of a part, or takes the estimate back. Says whether there is such a field and it can hold the value; if
    /// not, nothing changes.
    ///
    /// ```
    /// use propwright_schema::{build_list::BuildList, quantity::{MOhm, Unit}, value::Value};
    /// let mut build = BuildList::empty("Meadow");
    /// let ohm = Value::Number { steps: 57_000, unit: &MOhm::INFO };
    /// assert!(build.estimate("m", Some("motor"), "resistance_mohm", Some(&ohm)));
    /// assert_eq!(build.estimated("m", Some("motor"), "resistance_mohm"), Some(ohm));
    /// assert!(build.estimate("m", Some("motor"), "resistance_mohm", None) && build.estimates.is_empty());
    /// assert!(!build.estimate("m", Some("motor"), "horn_mm", None));
    /// ```
    pub fn estimate(&mut self, part: &str, role: Option<&str>, field: &str, value: Option<&Value>) -> bool {
        let known = self.estimates.iter().position(|estimate| estimate.part == part);
        let mut estimate = known.map_or_else(|| Estimate::new(part), |at| self.estimates[at].clone());
        if !estimate.set(role, field, value) {
            return false;
        }
        match known {
            Some(at) if estimate.is_empty() => drop(self.estimates.remove(at)),
            Some(at) => self.estimates[at] = estimate,
            None if estimate.is_empty() => {}
            None => self.estimates.push(estimate),
        }
        true
    }

    /// Drops estimates of parts that are no longer listed.
    pub fn drop_estimates_of_others(&mut self) {
        let parts = &self.parts;
        self.estimates.retain(|estimate| parts.iter().any(|fitted| fitted.part == estimate.part));
    }
}

/// Can the field be estimated at all? A measurement cannot.
pub fn can_be_estimated(field: &Field) -> bool {
    !MEASURED.contains(&field.name)
}

/// How several values of a field are typed, or one of several parts; empty for a single figure or word.
///
/// ```
/// use propwright_schema::estimate::{field, how_to_type};
/// assert_eq!(how_to_type(field(Some("frame"), "motor_patterns").unwrap()), "Several are parted by |.");
/// assert_eq!(how_to_type(field(Some("motor"), "poles").unwrap()), "");
/// ```
pub fn how_to_type(field: &Field) -> String {
    let names = |fields: &[Field]| fields.iter().map(|field| format!("{}: …", field.name)).collect::<Vec<_>>().join("; ");
    match field.kind {
        Kind::Record(fields) => format!("Typed as {}.", names(fields)),
        Kind::List(Kind::Record(fields)) => format!("Each is typed as {}; several are parted by |.", names(fields)),
        Kind::List(_) => "Several are parted by |.".to_owned(),
        _ => String::new(),
    }
}

/// The field of a part by its name, with the word of the role that has it: the mass, or the first role with such a field.
pub fn field_of(part: &Part, field: &str) -> Option<(Option<&'static str>, &'static Field)> {
    if field == description::MASS.name {
        return Some((None, &description::MASS));
    }
    let mut each = part.fills.iter();
    each.find_map(|role| Some((Some(role.word()), role.fields().iter().find(|known| known.name == field)?)))
}

/// The field of a role by its word, or the mass.
pub fn field(role: Option<&str>, name: &str) -> Option<&'static Field> {
    match role {
        None => (name == description::MASS.name).then_some(&description::MASS),
        Some(word) => Role::of_kind(word)?.fields().iter().find(|field| field.name == name),
    }
}

/// The value of what was typed, in the field's unit or another one that measures the same; blank for none.
///
/// # Errors
/// What is wrong with the text, and what to do about it.
pub fn read(text: &str, field: &Field) -> Result<Option<Value>, Remark> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    if !can_be_estimated(field) {
        let reason = format!("{} cannot be estimated", field.name);
        return Err(Remark { reason, hint: "write it into a catalogue of your own".to_owned() });
    }
    let value = table::cell_value(text.trim(), field)?;
    field_remark(field, &value).map_or(Ok(Some(value)), Err)
}

/// The text of a value, in the unit of its field, as it is typed.
pub fn shown(value: &Value) -> String {
    table::cell_text(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn field(word: &str, name: &str) -> &'static Field {
        super::field(Some(word), name).unwrap()
    }

    #[test]
    fn what_is_typed_is_read_in_any_unit_and_checked() {
        let depth = field("motor", "thread_depth_mm");
        assert_eq!(shown(&read("3.5", depth).unwrap().unwrap()), "3.5");
        // 0.125 in = 3.175 mm (international inch, exact).
        assert_eq!(shown(&read("0.125 in", depth).unwrap().unwrap()), "3.175");
        assert_eq!(read(" ", depth), Ok(None));
        assert!(read("deep", depth).is_err() && read("-3", depth).is_err());
        // As in a cell of a table: several parted by |.
        let patterns = field("frame", "motor_patterns");
        assert_eq!(shown(&read("16x16|19x19", patterns).unwrap().unwrap()), "16x16| 19x19");
        let plugs = field("esc", "plugs");
        let typed = "to: flight-controller; plug: 8 pin; pins: GND, VBAT| to: pack; plug: XL 60";
        assert_eq!(shown(&read(typed, plugs).unwrap().unwrap()), typed);
        assert!(read("to: flight-controller; pin: GND", plugs).unwrap_err().hint.contains("did you mean pins?"));
        assert!(read("1", field("propeller", "static_point")).unwrap_err().reason.contains("cannot be estimated"));
    }

    #[test]
    fn estimates_of_one_part_stand_together_and_go_alone() {
        let mut build = BuildList::empty("Meadow");
        let figure = |word: &str, name: &str, text: &str| read(text, field(word, name)).unwrap().unwrap();
        let mass = read("31", &description::MASS).unwrap().unwrap();
        assert!(build.estimate("m", None, "mass_g", Some(&mass)));
        assert!(build.estimate("m", Some("motor"), "poles", Some(&figure("motor", "poles", "14"))));
        assert_eq!((build.estimates.len(), build.estimates[0].figures().len()), (1, 2));
        assert!(!build.estimate("m", Some("motor"), "poles", Some(&mass)), "a mass is no count");
        assert!(build.estimate("m", None, "mass_g", None));
        assert_eq!(build.estimates[0].figures().len(), 1);
        build.drop_estimates_of_others();
        assert_eq!(build.estimates, []);
    }
}
