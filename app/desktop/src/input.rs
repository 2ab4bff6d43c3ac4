//! What can be typed: each field of a build list that takes a text, what it shows, and what a text in it would do.

use propwright_schema::{
    build_list::{BuildList, Conditions, Fitted, Pilot, Purpose},
    estimate,
    quantity::{Money, Quantity, Unit},
    typed,
    validate::{Remark, field_remark, name_remark, note_remark},
    value::{Describe, Field, Kind, Record, Value},
};

use crate::edit::Edit;

/// A field of a build list that takes a text.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Input {
    /// Name of the build.
    Name,
    /// Note to the build.
    Note,
    /// Mass of the whole craft, weighed.
    Weighed,
    /// Limit of the motor outputs.
    OutputLimit,
    /// A figure of the purpose, by the field's name.
    Purpose(&'static str),
    /// A figure of the pilot.
    Pilot(&'static str),
    /// A figure of the day's conditions.
    Conditions(&'static str),
    /// How many a line lists.
    Count(usize),
    /// Motor outputs of a line.
    Outputs(usize),
    /// What lies between screw head and motor.
    Between(usize),
    /// Note to a line.
    LineNote(usize),
    /// A figure of a part that the user estimates.
    Estimate {
        /// The part's id.
        part: String,
        /// Word of the role that has the field; none for the mass.
        role: Option<&'static str>,
        /// The field.
        field: &'static str,
    },
    /// How many spares of a part are bought.
    Spare {
        /// The part's id.
        part: String,
        /// Arms of that frame instead of whole frames.
        arm: bool,
    },
}

impl Input {
    /// The line that it belongs to.
    pub const fn line(&self) -> Option<usize> {
        match self {
            Self::Count(line) | Self::Outputs(line) | Self::Between(line) | Self::LineNote(line) => Some(*line),
            _ => None,
        }
    }

    /// The same field of another line.
    #[must_use]
    pub fn at(&self, line: usize) -> Self {
        match self {
            Self::Count(_) => Self::Count(line),
            Self::Outputs(_) => Self::Outputs(line),
            Self::Between(_) => Self::Between(line),
            Self::LineNote(_) => Self::LineNote(line),
            other => other.clone(),
        }
    }

    /// What it holds, for unit, range and help; `None` for free text.
    pub fn field(&self) -> Option<Field> {
        let named = |fields: &[Field], name: &str| fields.iter().find(|field| field.name == name).copied();
        match self {
            Self::Weighed => Some(BuildList::WEIGHED),
            Self::OutputLimit => Some(BuildList::OUTPUT_LIMIT),
            Self::Purpose(name) => named(Purpose::FIELDS, name),
            Self::Pilot(name) => named(Pilot::FIELDS, name),
            Self::Conditions(name) => named(Conditions::FIELDS, name),
            Self::Count(_) | Self::Spare { .. } => Some(Fitted::COUNT),
            Self::Outputs(_) => Some(Fitted::OUTPUTS),
            Self::Between(_) => Some(Fitted::BETWEEN),
            Self::Estimate { role, field, .. } => estimate::field(*role, field).copied(),
            Self::Name | Self::Note | Self::LineNote(_) => None,
        }
    }

    /// The text of what the list holds; empty where it says nothing.
    pub fn shown(&self, build: &BuildList) -> String {
        let line = self.line().and_then(|line| build.parts.get(line));
        match self {
            Self::Name => build.name.clone(),
            Self::Note => build.note.clone().unwrap_or_default(),
            Self::Weighed => figure(build.weighed_g.map(|mass| mass.value())),
            Self::OutputLimit => figure(build.output_limit_percent.map(|limit| limit.value())),
            Self::Purpose(name) => figure(build.purpose.get(name)),
            Self::Pilot(name) => figure(build.pilot.get(name)),
            Self::Conditions(name) => figure(build.conditions.get(name)),
            Self::Count(_) => line.map_or_else(String::new, |fitted| fitted.count.to_string()),
            Self::Outputs(_) => figure(line.and_then(|fitted| fitted.outputs.as_ref()).map(Describe::value)),
            Self::Between(_) => figure(line.and_then(|fitted| fitted.between_mm).map(|between| between.value())),
            Self::LineNote(_) => line.and_then(|fitted| fitted.note.clone()).unwrap_or_default(),
            Self::Estimate { part, role, field } => {
                build.estimated(part, *role, field).as_ref().map_or_else(String::new, estimate::shown)
            }
            Self::Spare { part, arm } => spares(build, part, *arm).to_string(),
        }
    }

    /// What a text would do to the list.
    ///
    /// # Errors
    /// What is wrong with the text, and what to do about it.
    pub fn read(&self, text: &str, build: &BuildList) -> Result<Edit, Remark> {
        let line = self.line().unwrap_or_default();
        match self {
            Self::Name => name(text).map(|name| Edit::Rename { name }),
            Self::Note => note(text).map(|note| Edit::Note { note }),
            Self::Weighed => quantity(text, &BuildList::WEIGHED).map(|mass| Edit::Weighed { mass }),
            Self::OutputLimit => quantity(text, &BuildList::OUTPUT_LIMIT).map(|limit| Edit::OutputLimit { limit }),
            Self::Purpose(name) => with(&build.purpose, name, text).map(|purpose| Edit::Purpose(Box::new(purpose))),
            Self::Pilot(name) => with(&build.pilot, name, text).map(|pilot| Edit::Pilot(Box::new(pilot))),
            Self::Conditions(name) => with(&build.conditions, name, text).map(|day| Edit::Conditions(Box::new(day))),
            Self::Count(_) => count(text, 1).map(|count| Edit::Count { line, count }),
            Self::Outputs(_) => outputs(text).map(|outputs| Edit::Outputs { line, outputs }),
            Self::Between(_) => quantity(text, &Fitted::BETWEEN).map(|between| Edit::Between { line, between }),
            Self::LineNote(_) => note(text).map(|note| Edit::LineNote { line, note }),
            Self::Estimate { part, role, field } => guess(build, part, *role, field, text),
            Self::Spare { part, arm } => count(text, 0).map(|count| Edit::Spare { part: part.clone(), arm: *arm, count }),
        }
    }
}

/// An estimate that the part's record could hold.
fn guess(build: &BuildList, part: &str, role: Option<&'static str>, field: &'static str, text: &str) -> Result<Edit, Remark> {
    let described = estimate::field(role, field).ok_or_else(|| remark(format!("there is no field {field}"), ""))?;
    let value = estimate::read(text, described)?;
    if build.clone().estimate(part, role, field, value.as_ref()) {
        Ok(Edit::Estimate { part: part.to_owned(), role, field, value })
    } else {
        Err(remark(format!("“{}” is no value of this field", text.trim()), "write it as the maker would"))
    }
}

/// How many spares of a part are bought.
pub fn spares(build: &BuildList, part: &str, arm: bool) -> u32 {
    build.spares.iter().find(|spare| spare.part == part && spare.arm == arm).map_or(0, |spare| spare.count)
}

fn figure(value: Option<Value>) -> String {
    match value {
        Some(Value::Number { steps, unit }) => unit.decimal(steps).to_string(),
        Some(Value::List(items)) => items.into_iter().map(|item| figure(Some(item))).collect::<Vec<_>>().join(", "),
        Some(Value::Word(word)) => word,
        Some(value) => value.steps().map_or_else(String::new, |steps| steps.to_string()),
        None => String::new(),
    }
}

fn remark(reason: impl Into<String>, hint: &str) -> Remark {
    Remark { reason: reason.into(), hint: hint.to_owned() }
}

fn sound(field: &Field, value: Value) -> Result<Value, Remark> {
    field_remark(field, &value).map_or(Ok(value), Err)
}

/// A figure or an amount of a field, that of the budget among them; blank for none.
fn value(text: &str, field: &Field) -> Result<Option<Value>, Remark> {
    if !matches!(field.kind, Kind::Number(_) | Kind::Money) {
        return Err(remark("this field takes no figure", "choose instead"));
    }
    let value = typed::read(text, field)?;
    match value.as_ref().and_then(Money::from_value) {
        Some(amount) if amount.minor() < 0 => {
            Err(remark("less than nothing cannot be paid", "write amount and currency, such as 300 EUR"))
        }
        _ => Ok(value),
    }
}

fn quantity<U: Unit>(text: &str, field: &Field) -> Result<Option<Quantity<U>>, Remark> {
    Ok(value(text, field)?.as_ref().and_then(Quantity::from_value))
}

fn with<R: Record + Clone>(record: &R, name: &str, text: &str) -> Result<R, Remark> {
    let field = R::FIELDS.iter().find(|field| field.name == name);
    let field = field.ok_or_else(|| remark(format!("there is no field {name}"), ""))?;
    let mut changed = record.clone();
    changed.set(name, value(text, field)?.as_ref());
    Ok(changed)
}

fn count(text: &str, least: u32) -> Result<u32, Remark> {
    let (_, most) = Fitted::COUNT.plausible.unwrap_or_default();
    let refused = || remark(format!("expected a whole number from {least} to {most}"), "take the part out if there is none");
    let count: u32 = text.trim().parse().map_err(|_| refused())?;
    if count < least || f64::from(count) > most { Err(refused()) } else { Ok(count) }
}

fn outputs(text: &str) -> Result<Option<Vec<u32>>, Remark> {
    let words = text.split([',', ';', ' ']).filter(|word| !word.is_empty());
    let hint = "write them in the order of the motors, such as 1, 2, 3, 4";
    let read = |word: &str| word.parse::<u32>().map_err(|_| remark(format!("“{word}” is no motor output"), hint));
    let numbers = words.map(read).collect::<Result<Vec<_>, _>>()?;
    if let Some(twice) = numbers.iter().enumerate().find(|(at, number)| numbers[..*at].contains(number)) {
        return Err(remark(format!("output {} stands here twice", twice.1), "each motor has an output of its own"));
    }
    sound(&Fitted::OUTPUTS, numbers.value())?;
    Ok(Some(numbers).filter(|numbers| !numbers.is_empty()))
}

fn name(text: &str) -> Result<String, Remark> {
    let name = text.trim().to_owned();
    if name.is_empty() {
        return Err(remark("a build needs a name", "write how you call it"));
    }
    name_remark(&name).map_or(Ok(name), Err)
}

fn note(text: &str) -> Result<Option<String>, Remark> {
    let note = text.trim_end();
    if note.trim().is_empty() {
        return Ok(None);
    }
    note_remark(note).map_or_else(|| Ok(Some(note.to_owned())), Err)
}

#[cfg(test)]
mod tests {
    use super::*;
    use propwright_schema::{catalogue::Catalogue, slot::Slot};

    fn trial() -> BuildList {
        let mut build = BuildList::empty("trial");
        build.parts.push(Fitted { count: 4, ..Fitted::new(Slot::Motor, "m") });
        build
    }

    fn after(input: &Input, text: &str) -> Result<String, String> {
        let build = trial();
        let edit = input.read(text, &build).map_err(|remark| remark.reason)?;
        Ok(input.shown(&edit.applied(&build, &Catalogue::default())))
    }

    #[test]
    fn what_is_typed_is_shown() {
        let payload = Input::Purpose("payload_g");
        assert_eq!(after(&payload, "1.3 kg").as_deref(), Ok("1300"));
        assert_eq!(after(&payload, " ").as_deref(), Ok(""));
        let budget = Input::Purpose("budget");
        assert_eq!(after(&budget, "300 EUR").as_deref(), Ok("300.00 EUR"));
        assert_eq!(after(&budget, "300,50 €").as_deref(), Ok("300.50 EUR"));
        assert_eq!(after(&Input::Conditions("altitude_m"), "1000 ft").as_deref(), Ok("304.8"));
        assert_eq!(after(&Input::OutputLimit, "80 %").as_deref(), Ok("80"));
        assert_eq!(after(&Input::Outputs(0), "4 3,2; 1").as_deref(), Ok("4, 3, 2, 1"));
        assert_eq!(after(&Input::Count(0), "6").as_deref(), Ok("6"));
        assert_eq!(after(&Input::Spare { part: "m".to_owned(), arm: false }, "2").as_deref(), Ok("2"));
        assert_eq!(after(&Input::LineNote(0), "re-pin\nplug 2 ").as_deref(), Ok("re-pin\nplug 2"));
    }

    #[test]
    fn what_could_not_be_read_again_is_refused() {
        for (input, texts) in [
            (Input::Name, &["", "  ", "a\u{7}b"][..]),
            (Input::Purpose("payload_g"), &["5 V", "-1", "30001", "many"]),
            (Input::Purpose("budget"), &["300", "-5 EUR", "a lot"]),
            (Input::Conditions("temperature_c"), &["56", "-41", "200 °F"]),
            (Input::OutputLimit, &["19.9", "0.8", "101"]),
            (Input::Count(0), &["0", "-1", "1.5", "201", ""]),
            (Input::Outputs(0), &["0", "33", "1, 1", "one"]),
            (Input::Between(0), &["51", "-0.1"]),
            (Input::LineNote(0), &["a\0b"]),
        ] {
            for text in texts {
                assert!(input.read(text, &trial()).is_err(), "{input:?}: {text:?}");
            }
        }
    }

    #[test]
    fn a_slip_is_called_by_its_name() {
        let remark = Input::OutputLimit.read("0.8", &trial()).unwrap_err();
        assert_eq!(remark.reason, "0.8 % is not plausible; expected 20 to 100 %");
        assert_eq!(remark.hint, "did you mean 80 %?");
    }
}
