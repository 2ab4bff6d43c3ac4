//! The edits of a build list: data, applied by a pure function.

use propwright_schema::{
    build_list::{BuildList, Conditions, Feed, Fitted, Purpose},
    catalogue::Catalogue,
    part::{Frame, Role},
    quantity::{Percent, UNITS},
    slot::Slot,
    value::Record,
};

use crate::state::Place;

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
    /// Limits the motor outputs.
    OutputLimit {
        /// The limit; absent: 100 %.
        limit: Option<Percent>,
    },
    /// Calls the craft otherwise.
    Rename {
        /// Its name.
        name: String,
    },
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
            Self::Remove { line } => format!("take out {}", at(*line)),
            Self::Count { line, count } => format!("{count} × {}", at(*line)),
            Self::Owned { line, owned: true } => format!("{} is on the shelf", at(*line)),
            Self::Owned { line, owned: false } => format!("{} is to be bought", at(*line)),
            Self::Feed { line, .. } => format!("feed of {}", at(*line)),
            Self::Uart { line, .. } => format!("serial port of {}", at(*line)),
            Self::OutputLimit { .. } => "motor output limit".to_owned(),
            Self::Rename { name } => format!("rename to {name}"),
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
            Self::Remove { line } if *line < next.parts.len() => {
                next.parts.remove(*line);
            }
            Self::Remove { .. } => {}
            Self::Count { line, count } => set(&mut next, *line, |fitted| fitted.count = (*count).max(1)),
            Self::Owned { line, owned } => set(&mut next, *line, |fitted| fitted.owned = *owned),
            Self::Feed { line, feed } => set(&mut next, *line, |fitted| fitted.feed.clone_from(feed)),
            Self::Uart { line, uart } => set(&mut next, *line, |fitted| fitted.uart = *uart),
            Self::OutputLimit { limit } => next.output_limit_percent = *limit,
            Self::Rename { name } => next.name.clone_from(name),
            Self::Conditions(conditions) => next.conditions.clone_from(conditions),
            Self::Purpose(purpose) => next.purpose.clone_from(purpose),
        }
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
        quantity::{Grams, Metres, MetresPerSecond},
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
