//! The edits of a build list: data, applied by a pure function.

use std::sync::Arc;

use propwright_engine::explain::field_words;
use propwright_schema::{
    build_list::{Arrangement, BuildList, Charge, Conditions, Feed, Fitted, Pilot, Purpose, Spare, Tax, Training},
    catalogue::Catalogue,
    measured::StandRow,
    part::{Frame, Role},
    quantity::{Grams, Millimetres, Percent, UNITS},
    slot::Slot,
    value::{Record, Value},
};

use crate::{demo, state::Place, view::lower_first};

/// One change of a build list.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// Puts a part of the catalogue in a place.
    Choose {
        /// Where.
        place: Place,
        /// The part's id.
        part: String,
    },
    /// Makes the lines of another list those of this one: a part with all that must follow.
    Replace {
        /// What was put in, by its name.
        name: String,
        /// The list.
        with: Arc<BuildList>,
    },
    /// Takes a line out.
    Remove {
        /// The line.
        line: usize,
    },
    /// Sets how many a line lists.
    Count {
        /// The line.
        line: usize,
        /// How many, at least one.
        count: u32,
    },
    /// Says whether a line is on the shelf already.
    Owned {
        /// The line.
        line: usize,
        /// Nothing to buy.
        owned: bool,
    },
    /// Says what a line is fed from.
    Feed {
        /// The line.
        line: usize,
        /// Its feed; absent: not said.
        feed: Option<Feed>,
    },
    /// Says on which serial port a line sits.
    Uart {
        /// The line.
        line: usize,
        /// The port; absent: not said.
        uart: Option<u32>,
    },
    /// Says on which motor outputs a line sits.
    Outputs {
        /// The line.
        line: usize,
        /// The outputs in the order of the motors; absent: not said.
        outputs: Option<Vec<u32>>,
    },
    /// Says what lies between screw head and motor beside the arm.
    Between {
        /// The line.
        line: usize,
        /// Washers and pads; absent: nothing.
        between: Option<Millimetres>,
    },
    /// Writes a note to a line.
    LineNote {
        /// The line.
        line: usize,
        /// The note; absent: none.
        note: Option<String>,
    },
    /// Lists a line a second time, below itself; what only one part can have, such as a serial port, is left open.
    Duplicate {
        /// The line.
        line: usize,
    },
    /// Lets two lines change places.
    Swap {
        /// The one.
        line: usize,
        /// The other.
        with: usize,
    },
    /// Lists a part under another of the slots that it fills.
    Relist {
        /// The line.
        line: usize,
        /// The slot.
        slot: Slot,
    },
    /// Says how many spares of a part are bought with it.
    Spare {
        /// The part's id.
        part: String,
        /// Arms of that frame instead of whole frames.
        arm: bool,
        /// How many; 0 for none.
        count: u32,
    },
    /// Estimates a figure that nobody published, or takes the estimate back.
    Estimate {
        /// The part's id.
        part: String,
        /// Word of the role that has the field; none for the mass.
        role: Option<&'static str>,
        /// The field.
        field: &'static str,
        /// The estimate; absent: none.
        value: Option<Value>,
    },
    /// Says how several packs are connected.
    Packs {
        /// Their arrangement; absent: not said.
        packs: Option<Arrangement>,
    },
    /// Enters the mass of the whole craft, weighed.
    Weighed {
        /// The mass; absent: not weighed.
        mass: Option<Grams>,
    },
    /// Limits the motor outputs.
    OutputLimit {
        /// The limit; absent: 100 %.
        limit: Option<Percent>,
    },
    /// Takes a way out that was tried.
    Mend {
        /// The list after it.
        build: Arc<BuildList>,
        /// What is done.
        steps: String,
    },
    /// Calls the craft otherwise.
    Rename {
        /// Its name.
        name: String,
    },
    /// Writes a note to the build.
    Note {
        /// The note; absent: none.
        note: Option<String>,
    },
    /// Says who flies it.
    Pilot(Box<Pilot>),
    /// Sets the spares.
    Spares(Vec<Spare>),
    /// Sets what shipping costs, a line a supplier.
    Shipping(Vec<Charge>),
    /// Sets the taxes.
    Tax(Vec<Tax>),
    /// Sets what is assumed of learning to fly.
    Training(Box<Training>),
    /// Says what a thrust stand measured with motor and propeller of the list.
    Stand(Vec<StandRow>),
    /// Takes the parts of a demo build, by the name of its file, and of its purpose what was not said yet.
    Begin(&'static str),
    /// Sets the day's conditions.
    Conditions(Box<Conditions>),
    /// Sets what the craft shall do.
    Purpose(Box<Purpose>),
}

impl Edit {
    /// What the edit does, as undo calls it.
    pub fn label(&self, catalogue: &Catalogue, build: &BuildList) -> String {
        let name = |id: &str| catalogue.part(id).map_or_else(|| id.to_owned(), |part| part.name.clone());
        let at = |line: usize| build.parts.get(line).map_or_else(String::new, |fitted| name(&fitted.part));
        match self {
            Self::Choose { part, .. } => format!("choose {}", name(part)),
            Self::Replace { name, .. } => format!("put in {name}"),
            Self::Remove { line } => format!("take out {}", at(*line)),
            Self::Count { line, count } => format!("{count} × {}", at(*line)),
            Self::Owned { line, owned: true } => format!("{} is on the shelf", at(*line)),
            Self::Owned { line, owned: false } => format!("{} is to be bought", at(*line)),
            Self::Feed { line, .. } => format!("feed of {}", at(*line)),
            Self::Uart { line, .. } => format!("serial port of {}", at(*line)),
            Self::Outputs { line, .. } => format!("outputs of {}", at(*line)),
            Self::Between { line, .. } => format!("washers of {}", at(*line)),
            Self::LineNote { line, .. } => format!("note to {}", at(*line)),
            Self::Duplicate { line } => format!("list {} twice", at(*line)),
            Self::Swap { line, .. } => format!("move {}", at(*line)),
            Self::Relist { line, slot } => format!("list {} under {}", at(*line), slot.title().to_lowercase()),
            Self::Spare { part, arm, .. } => format!("spare{} {}", if *arm { " arms of" } else { "" }, name(part)),
            Self::Estimate { part, field, value: Some(_), .. } => {
                format!("estimate the {} of {}", field_words(field), name(part))
            }
            Self::Estimate { part, field, value: None, .. } => {
                format!("take back the estimate of the {} of {}", field_words(field), name(part))
            }
            Self::Packs { .. } => "arrangement of the packs".to_owned(),
            Self::Weighed { .. } => "weighed mass".to_owned(),
            Self::OutputLimit { .. } => "motor output limit".to_owned(),
            Self::Mend { steps, .. } => lower_first(steps),
            Self::Rename { name } => format!("rename to {name}"),
            Self::Note { .. } => "note to the build".to_owned(),
            Self::Pilot(pilot) => changed(&build.pilot, &**pilot),
            Self::Spares(_) => "spares".to_owned(),
            Self::Shipping(_) => "shipping".to_owned(),
            Self::Tax(_) => "taxes".to_owned(),
            Self::Stand(rows) => format!("read {} rows of a thrust stand", rows.len()),
            Self::Training(training) => {
                format!("assumed: {}", changed(&build.training.clone().unwrap_or_default(), &**training))
            }
            Self::Begin(file) => {
                format!("begin from {}", demo::build(file).map_or_else(|| (*file).to_owned(), |demo| demo.name))
            }
            Self::Conditions(conditions) => changed(&build.conditions, &**conditions),
            Self::Purpose(purpose) => changed(&build.purpose, &**purpose),
        }
    }

    /// The list after the edit; the same when the line is not there.
    #[must_use]
    pub fn applied(&self, build: &BuildList, catalogue: &Catalogue) -> BuildList {
        let mut next = build.clone();
        match self {
            Self::Choose { place, part } => choose(&mut next, *place, part, catalogue),
            Self::Replace { with, .. } => next.parts.clone_from(&with.parts),
            Self::Remove { line } if *line < next.parts.len() => {
                next.parts.remove(*line);
            }
            Self::Duplicate { line } => duplicate(&mut next, *line),
            Self::Swap { line, with } if (*line).max(*with) < next.parts.len() => next.parts.swap(*line, *with),
            Self::Remove { .. } | Self::Swap { .. } => {}
            Self::Count { line, count } => set(&mut next, *line, |fitted| fitted.count = (*count).max(1)),
            Self::Owned { line, owned } => set(&mut next, *line, |fitted| fitted.owned = *owned),
            Self::Feed { line, feed } => set(&mut next, *line, |fitted| fitted.feed.clone_from(feed)),
            Self::Uart { line, uart } => set(&mut next, *line, |fitted| fitted.uart = *uart),
            Self::Outputs { line, outputs } => set(&mut next, *line, |fitted| fitted.outputs.clone_from(outputs)),
            Self::Between { line, between } => set(&mut next, *line, |fitted| fitted.between_mm = *between),
            Self::LineNote { line, note } => set(&mut next, *line, |fitted| fitted.note.clone_from(note)),
            Self::Relist { line, slot } => set(&mut next, *line, |fitted| fitted.slot = *slot),
            Self::Spare { part, arm, count } => spare(&mut next, part, *arm, *count),
            Self::Estimate { part, role, field, value } => {
                // What a field cannot hold is refused where it is typed.
                let _ = next.estimate(part, *role, field, value.as_ref());
            }
            Self::Packs { packs } => next.packs = *packs,
            Self::Weighed { mass } => next.weighed_g = *mass,
            Self::OutputLimit { limit } => next.output_limit_percent = *limit,
            Self::Mend { build, .. } => next.clone_from(build),
            Self::Rename { name } => next.name.clone_from(name),
            Self::Note { note } => next.note.clone_from(note),
            Self::Pilot(pilot) => next.pilot.clone_from(pilot),
            Self::Spares(spares) => next.spares.clone_from(spares),
            Self::Shipping(shipping) => next.shipping.clone_from(shipping),
            Self::Tax(tax) => next.tax.clone_from(tax),
            Self::Stand(rows) => next.stand.clone_from(rows),
            Self::Training(training) => {
                next.training = (**training != Training::default()).then(|| (**training).clone());
            }
            Self::Begin(file) => {
                next = demo::begun(build, file).unwrap_or(next);
            }
            Self::Conditions(conditions) => next.conditions.clone_from(conditions),
            Self::Purpose(purpose) => next.purpose.clone_from(purpose),
        }
        next.keep_log_of(build);
        next.drop_estimates_of_others();
        next
    }
}

/// The fields in which two records differ, in words: "altitude, wind".
fn changed<R: Record>(was: &R, is: &R) -> String {
    let fields = R::FIELDS.iter().filter(|field| was.get(field.name) != is.get(field.name));
    let words = fields.map(|field| {
        let unit =
            UNITS.iter().map(|unit| unit.suffix).filter(|suffix| field.name.ends_with(suffix)).max_by_key(|suffix| suffix.len());
        unit.and_then(|suffix| field.name.strip_suffix(suffix)).unwrap_or(field.name).replace('_', " ")
    });
    words.collect::<Vec<_>>().join(", ")
}

fn set(build: &mut BuildList, line: usize, change: impl FnOnce(&mut Fitted)) {
    if let Some(fitted) = build.parts.get_mut(line) {
        change(fitted);
    }
}

/// Port and outputs belong to one part alone.
fn duplicate(build: &mut BuildList, line: usize) {
    if let Some(fitted) = build.parts.get(line) {
        let copy = Fitted { uart: None, outputs: None, ..fitted.clone() };
        build.parts.insert(line + 1, copy);
    }
}

fn spare(build: &mut BuildList, part: &str, arm: bool, count: u32) {
    let known = build.spares.iter().position(|spare| spare.part == part && spare.arm == arm);
    match known {
        Some(at) if count == 0 => {
            build.spares.remove(at);
        }
        Some(at) => {
            if let Some(spare) = build.spares.get_mut(at) {
                spare.count = count;
            }
        }
        None if count > 0 => build.spares.push(Spare { part: part.to_owned(), arm, count, note: None }),
        None => {}
    }
}

/// A new part keeps count, feed and port of the one before it, but not that one's note or place on the shelf.
fn choose(build: &mut BuildList, place: Place, part: &str, catalogue: &Catalogue) {
    if let Some(fitted) = place.line.and_then(|line| build.parts.get_mut(line)) {
        part.clone_into(&mut fitted.part);
        fitted.owned = false;
        fitted.note = None;
    } else {
        let count = usual_count(build, place.slot, catalogue);
        build.parts.push(Fitted { count, ..Fitted::new(place.slot, part) });
    }
}

/// One for each motor where a slot goes with the motors, else one.
fn usual_count(build: &BuildList, slot: Slot, catalogue: &Catalogue) -> u32 {
    match slot {
        Slot::Motor => places(build, catalogue).unwrap_or(1),
        Slot::Propeller => {
            let motors: u32 = build.fitted(Slot::Motor).map(|(_, fitted)| fitted.count).sum();
            if motors > 0 { motors } else { places(build, catalogue).unwrap_or(1) }
        }
        _ => 1,
    }
}

/// How many motors the frame has places for.
fn places(build: &BuildList, catalogue: &Catalogue) -> Option<u32> {
    let (_, fitted) = build.fitted(Slot::Frame).next()?;
    let Some(Role::Frame(frame)) = catalogue.part(&fitted.part)?.role(Slot::Frame) else { return None };
    let Frame { motors, .. } = &**frame;
    u32::try_from(motors.as_ref()?.len()).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use propwright_schema::{
        catalogue::CatalogueFile,
        quantity::{Grams, Metres, MetresPerSecond, Minutes},
        ron_options,
    };

    fn catalogue() -> Catalogue {
        let text = r#"(version: 1, parts: [
            (id: "f", name: "Frame", fills: [Frame(motors: [(x_mm: 1), (x_mm: 2), (x_mm: 3), (x_mm: 4), (x_mm: 5), (x_mm: 6)])]),
            (id: "m", name: "Motor", fills: [Motor()]), (id: "n", name: "Other motor", fills: [Motor()])])"#;
        let file: CatalogueFile = ron_options().from_str(text).unwrap();
        let mut catalogue = Catalogue::default();
        catalogue.lay_over(&file);
        catalogue
    }

    fn chosen(build: &BuildList, slot: Slot, line: Option<usize>, part: &str) -> BuildList {
        Edit::Choose { place: Place { slot, line }, part: part.to_owned() }.applied(build, &catalogue())
    }

    #[test]
    fn motors_come_as_many_as_the_frame_has_places() {
        let build = chosen(&BuildList::empty("trial"), Slot::Frame, None, "f");
        let build = chosen(&build, Slot::Motor, None, "m");
        assert_eq!(build.parts[1].count, 6);
    }

    #[test]
    fn a_log_stays_with_the_parts_that_flew() {
        let mut build = chosen(&BuildList::empty("trial"), Slot::Motor, None, "m");
        build.logged.calm_min = Minutes::parse("6").ok();
        assert_eq!(chosen(&build, Slot::Esc, None, "e").logged, build.logged, "it says nothing of other slots");
        let other = chosen(&build, Slot::Motor, Some(0), "n");
        assert_eq!(other.logged.flown_with, Some(vec!["m".to_owned()]));
        let third = Edit::Remove { line: 0 }.applied(&other, &catalogue());
        assert_eq!(third.logged.flown_with, other.logged.flown_with, "noted once");
        assert_eq!(chosen(&BuildList::empty("trial"), Slot::Motor, None, "m").logged.flown_with, None, "without a log");
    }

    #[test]
    fn another_part_keeps_the_count_but_not_the_shelf() {
        let mut build = chosen(&BuildList::empty("trial"), Slot::Motor, None, "m");
        build.parts[0] = Fitted { count: 3, owned: true, ..build.parts[0].clone() };
        let build = chosen(&build, Slot::Motor, Some(0), "n");
        assert_eq!((build.parts[0].part.as_str(), build.parts[0].count, build.parts[0].owned), ("n", 3, false));
    }

    #[test]
    fn a_condition_is_called_by_its_name_without_unit() {
        let build = BuildList::empty("trial");
        let label = |edit: Edit| edit.label(&catalogue(), &build);
        let windy = Conditions {
            wind_ms: MetresPerSecond::parse("4").ok(),
            altitude_m: Metres::parse("900").ok(),
            ..Conditions::default()
        };
        assert_eq!(label(Edit::Conditions(Box::new(windy))), "altitude, wind");
        let laden = Purpose { payload_g: Grams::parse("80").ok(), ..Purpose::default() };
        assert_eq!(label(Edit::Purpose(Box::new(laden.clone()))), "payload");
        assert_eq!(Edit::Purpose(Box::new(laden.clone())).applied(&build, &catalogue()).purpose, laden);
    }

    #[test]
    fn a_line_that_is_not_there_changes_nothing() {
        let build = chosen(&BuildList::empty("trial"), Slot::Motor, None, "m");
        for edit in [Edit::Remove { line: 9 }, Edit::Count { line: 9, count: 2 }] {
            assert_eq!(edit.applied(&build, &catalogue()), build);
        }
    }
}
