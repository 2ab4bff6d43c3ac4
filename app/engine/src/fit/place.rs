//! A place of a build, and the list with another part in it.

use std::{collections::BTreeSet, sync::Arc};

use propwright_schema::{
    build_list::{BuildList, Fitted},
    part::Part,
    slot::Slot,
};

use crate::craft::{Craft, Placed};

/// A line of a build list, or a slot that shall get one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The slot.
    pub slot: Slot,
    /// The line of the build list; absent: a new one.
    pub line: Option<usize>,
}

/// A list with a part put in a place.
#[derive(Debug, Clone)]
pub(crate) struct Put {
    /// The list.
    pub(crate) build: Arc<BuildList>,
    /// The line of the part.
    pub(crate) line: usize,
}

impl Place {
    /// The place of a slot's part, counted from 0 among those that are listed in that slot; a new line when there are not so
    /// many.
    pub fn nth(craft: &Craft, slot: Slot, index: usize) -> Self {
        let listed = craft.build.fitted(slot).nth(index);
        Self { slot, line: listed.map(|(line, _)| line) }
    }

    /// The part that is fitted there now. A slot without a line of its own can be filled by a part that is listed elsewhere.
    pub fn fitted(self, craft: &Craft) -> Option<&Placed> {
        match self.line {
            Some(line) => craft.in_slot(self.slot).iter().find(|placed| placed.line == line),
            None if craft.build.fitted(self.slot).next().is_none() => craft.in_slot(self.slot).first(),
            None => None,
        }
    }

    /// The list with a part in this place. The part keeps count, feed, port and washers of the one before it, but not that
    /// one's note or place on the shelf; the part that is fitted already leaves the list as it is.
    pub fn with(self, craft: &Craft, part: &str) -> BuildList {
        (*self.put(craft, part).build).clone()
    }

    pub(crate) fn put(self, craft: &Craft, part: &str) -> Put {
        if let Some(fitted) = self.fitted(craft).filter(|placed| placed.subject.part.id == part) {
            return Put { build: Arc::clone(&craft.build), line: fitted.line };
        }
        let mut build = (*craft.build).clone();
        let line = self.line.filter(|line| *line < build.parts.len()).unwrap_or(build.parts.len());
        if let Some(fitted) = build.parts.get_mut(line) {
            *fitted = Fitted { part: part.to_owned(), owned: false, note: None, ..fitted.clone() };
        } else {
            build.parts.push(Fitted { count: usual_count(craft, self.slot), ..Fitted::new(self.slot, part) });
        }
        build.keep_log_of(&craft.build);
        Put { build: Arc::new(build), line }
    }

    /// The slots that an exchange here can touch: those that the part of now fills and those that the new one would.
    pub(crate) fn touches(self, craft: &Craft, part: &Part) -> BTreeSet<Slot> {
        let old = self.line.into_iter().flat_map(|line| craft.of_line(line)).map(|placed| placed.subject.slot);
        let new = part.filled_from(self.slot).into_iter().map(|(slot, _)| slot);
        old.chain(new).chain([self.slot]).collect()
    }
}

/// One for each motor where a slot goes with the motors, else one.
fn usual_count(craft: &Craft, slot: Slot) -> u32 {
    let motors = || craft.in_slot(Slot::Motor).iter().map(|placed| placed.fitted.count).sum::<u32>();
    match slot {
        Slot::Motor => motor_places(craft).unwrap_or(1),
        Slot::Propeller => Some(motors()).filter(|motors| *motors > 0).or_else(|| motor_places(craft)).unwrap_or(1),
        _ => 1,
    }
}

/// How many motors the frame has places for.
fn motor_places(craft: &Craft) -> Option<u32> {
    let frame = craft.in_slot(Slot::Frame).first()?;
    let places = frame.subject.part.role(Slot::Frame)?.get("motors")?;
    u32::try_from(places.items().len()).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial;

    const PARTS: &str = r#"(id: "f", name: "F", fills: [Frame(motors: [(x_mm: 1, y_mm: 1), (x_mm: -1, y_mm: 1), (x_mm: 0, y_mm: -1)])]),
        (id: "m", name: "M", fills: [Motor()]), (id: "n", name: "N", fills: [Motor()]), (id: "p", name: "P", fills: [Propeller()]),
        (id: "aio", name: "All in one", fills: [FlightController(), Esc()]), (id: "e", name: "E", fills: [Esc()])"#;
    const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 3, owned: true, outputs: [1, 2, 3], note: "old"),
        (slot: FlightController, part: "aio", feed: Pack)]"#;

    fn line(build: &BuildList, line: usize) -> &Fitted {
        &build.parts[line]
    }

    #[test]
    fn a_new_part_keeps_the_wiring_and_nothing_else() {
        let craft = trial::craft(PARTS, BUILD);
        let place = Place::nth(&craft, Slot::Motor, 0);
        assert_eq!(place.line, Some(1));
        let build = place.with(&craft, "n");
        let new = line(&build, 1);
        assert_eq!((new.part.as_str(), new.count, new.owned, &new.note), ("n", 3, false, &None));
        assert_eq!(new.outputs, Some(vec![1, 2, 3]));
        assert_eq!(place.with(&craft, "m"), *craft.build, "the fitted part is no change");
    }

    #[test]
    fn a_log_names_the_parts_that_flew_once_others_are_listed() {
        let logged = |more: &str| trial::craft(PARTS, &format!("logged: (calm_min: 6{more}), {BUILD}"));
        let put = |craft: &Craft, slot, part| Place::nth(craft, slot, 0).with(craft, part).logged.flown_with;
        let flew = put(&logged(""), Slot::Motor, "n").unwrap();
        assert!(flew.contains(&"m".to_owned()) && !flew.contains(&"n".to_owned()), "{flew:?}");
        assert_eq!(put(&logged(r#", flown_with: ["x"]"#), Slot::Motor, "n"), Some(vec!["x".to_owned()]), "what was said stays");
        assert_eq!(put(&logged(""), Slot::Esc, "e"), None, "a speed controller is not asked for");
        assert_eq!(put(&trial::craft(PARTS, BUILD), Slot::Motor, "n"), None, "without a log");
    }

    #[test]
    fn an_empty_slot_gets_a_line_with_the_usual_count() {
        let craft = trial::craft(PARTS, BUILD);
        let build = Place::nth(&craft, Slot::Propeller, 0).with(&craft, "p");
        assert_eq!((line(&build, 3).slot, line(&build, 3).count), (Slot::Propeller, 3));
        let no_motors = trial::craft(PARTS, r#"parts: [(slot: Frame, part: "f")]"#);
        assert_eq!(Place::nth(&no_motors, Slot::Motor, 0).with(&no_motors, "m").parts[1].count, 3, "as many as the frame holds");
    }

    #[test]
    fn a_role_that_came_along_is_fitted() {
        let craft = trial::craft(PARTS, BUILD);
        let place = Place::nth(&craft, Slot::Esc, 0);
        assert_eq!(place.line, None);
        assert_eq!(place.fitted(&craft).unwrap().subject.part.id, "aio");
        assert_eq!(place.with(&craft, "aio"), *craft.build);
        assert_eq!(place.with(&craft, "e").parts.len(), 4, "another one stands beside it");
    }

    #[test]
    fn an_exchange_touches_the_slots_of_both() {
        let craft = trial::craft(PARTS, BUILD);
        let part = |id: &str| {
            Arc::clone(&trial::craft(PARTS, &format!("parts: [(slot: Esc, part: \"{id}\")]")).in_slot(Slot::Esc)[0].subject.part)
        };
        let place = Place::nth(&craft, Slot::FlightController, 0);
        assert_eq!(place.touches(&craft, &part("e")), BTreeSet::from([Slot::Esc, Slot::FlightController]));
        assert_eq!(Place::nth(&craft, Slot::Esc, 0).touches(&craft, &part("e")), BTreeSet::from([Slot::Esc]));
    }
}
