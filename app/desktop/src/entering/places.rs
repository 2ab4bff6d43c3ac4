//! The places of an article: what stands there, what is typed there, and who vouches for it.

use propwright_schema::{
    first::can_be_measured,
    part::Basis,
    typed::{self, inner},
    validate::Remark,
    value::{Field, Record as _, Value},
};

use super::{Article, Spot, is_vouched};

impl Article {
    /// The description of a place.
    pub fn field(&self, spot: Spot) -> Option<&'static Field> {
        let field = self.fields(spot.role).iter().find(|field| field.name == spot.field)?;
        match spot.inner {
            None => Some(field),
            Some(name) => inner(field).iter().find(|field| field.name == name),
        }
    }

    /// What stands in a place.
    pub fn get(&self, spot: Spot) -> Option<Value> {
        let whole = self.whole(spot)?;
        let Some(name) = spot.inner else { return Some(whole) };
        let record = spot.item.map_or(Some(&whole), |item| whole.items().get(item))?;
        record.field(name).cloned()
    }

    /// Puts a value in a place, or takes it out. Says whether the place can hold it; if not, nothing changes.
    pub fn set(&mut self, spot: Spot, value: Option<Value>) -> bool {
        let Some(name) = spot.inner else { return self.set_whole(spot, value.as_ref()) };
        let mut whole = self.whole(spot);
        let record = match (&mut whole, spot.item) {
            (Some(Value::List(items)), Some(item)) => items.get_mut(item),
            (Some(record), None) => Some(record),
            (None, None) => Some(whole.insert(Value::Record(Vec::new()))),
            _ => None,
        };
        let Some(Value::Record(fields)) = record else { return false };
        fields.retain(|(known, _)| *known != name);
        fields.extend(value.map(|value| (name, value)));
        let nothing = spot.item.is_none() && fields.is_empty();
        self.set_whole(spot, whole.as_ref().filter(|_| !nothing))
    }

    /// Adds an empty record behind the others of a list.
    pub fn add(&mut self, spot: Spot) -> bool {
        let mut items = self.whole(spot).map(|whole| whole.items().to_vec()).unwrap_or_default();
        items.push(Value::Record(Vec::new()));
        self.set_whole(spot, Some(&Value::List(items)))
    }

    /// Takes a record out of a list.
    pub fn remove(&mut self, spot: Spot, item: usize) -> bool {
        let mut items = self.whole(spot).map(|whole| whole.items().to_vec()).unwrap_or_default();
        if item >= items.len() {
            return false;
        }
        items.remove(item);
        let left = (!items.is_empty()).then_some(Value::List(items));
        self.set_whole(spot, left.as_ref())
    }

    /// How many records a list holds.
    pub fn len(&self, spot: Spot) -> usize {
        match self.whole(spot) {
            Some(Value::List(items)) => items.len(),
            _ => 0,
        }
    }

    /// The fields of the record in which a place is.
    fn record_of(&self, spot: Spot) -> &'static [Field] {
        let whole = self.fields(spot.role);
        match spot.inner {
            None => whole,
            Some(_) => whole.iter().find(|field| field.name == spot.field).map_or(&[], inner),
        }
    }

    /// The place of the other end, where a place is the lower end of a range.
    pub fn upper_end(&self, spot: Spot) -> Option<Spot> {
        let field = self.field(spot)?;
        typed::upper_end(field, self.record_of(spot)).map(|upper| spot.beside(upper.name))
    }

    /// What stands in a place, as it was typed where that is known.
    pub fn shown(&self, spot: Spot) -> String {
        if let Some(upper) = self.upper_end(spot) {
            return typed::range_shown(self.get(spot).as_ref(), self.get(upper).as_ref());
        }
        let Some(value) = self.get(spot) else { return String::new() };
        let as_typed = match self {
            Self::Part(part) if spot.inner.is_none() => part.as_typed(spot.field, &value).map(str::to_owned),
            _ => None,
        };
        as_typed.unwrap_or_else(|| typed::shown(&value))
    }

    /// What a text says of a place and of those that are printed together with it.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn read(&self, spot: Spot, text: &str) -> Result<Vec<(Spot, Option<Value>)>, Remark> {
        let Some(field) = self.field(spot) else { return Ok(Vec::new()) };
        let read = typed::read_several(text, field, self.record_of(spot))?;
        Ok(read.into_iter().map(|(name, value)| (spot.beside(name), value)).collect())
    }

    /// Takes a text that can be read; a figure in another unit is kept as it was typed beside what it comes to.
    pub fn take(&mut self, spot: Spot, text: &str) -> bool {
        let Ok(read) = self.read(spot, text) else { return false };
        let other_unit = self.field(spot).filter(|_| read.len() == 1).and_then(|field| typed::in_other_unit(text, field));
        let before = self.clone();
        for (place, value) in read {
            let held = value.is_some();
            if !self.set(place, value) {
                *self = before;
                return false;
            }
            if let (Self::Part(part), None) = (&mut *self, place.inner) {
                part.typed.remove(place.field);
                if held && part.basis_of(place.field) == Some(Basis::Unpublished) {
                    part.basis.remove(place.field);
                }
            }
        }
        if let (Self::Part(part), None, Some(text)) = (self, spot.inner, other_unit) {
            part.typed.insert(spot.field.to_owned(), text);
        }
        true
    }

    /// Who vouches for a figure; `None` means the maker.
    pub fn basis(&self, spot: Spot) -> Option<Basis> {
        match self {
            Self::Part(part) if spot.inner.is_none() => {
                let upper = || self.upper_end(spot).and_then(|upper| part.basis_of(upper.field));
                part.basis_of(spot.field).or_else(upper)
            }
            _ => None,
        }
    }

    /// Says who vouches for a figure, or for both ends of a range; what nobody published has none.
    pub fn vouch(&mut self, spot: Spot, basis: Option<Basis>) {
        for place in std::iter::once(spot).chain(self.upper_end(spot)) {
            self.vouch_one(place, basis);
        }
    }

    fn vouch_one(&mut self, spot: Spot, basis: Option<Basis>) {
        if basis == Some(Basis::Unpublished) {
            self.set(spot, None);
        }
        if let Self::Part(part) = self {
            part.typed.retain(|field, _| field != spot.field || basis != Some(Basis::Unpublished));
            match basis {
                Some(basis) => part.basis.insert(spot.field.to_owned(), basis),
                None => part.basis.remove(spot.field),
            };
        }
    }

    /// The places of all figures for which somebody vouches.
    fn figures(&self) -> Vec<Spot> {
        let roles = std::iter::once(None).chain((0..self.roles().len()).map(Some));
        let of = |role: Option<usize>| self.fields(role).iter().map(move |field| (role, field));
        let figures = roles.flat_map(of).filter(|(_, field)| is_vouched(field));
        figures.map(|(role, field)| Spot::of(role, field.name)).collect()
    }

    /// Says of every figure that is not there that nobody published it. Gives their places.
    pub fn rest_is_not_published(&mut self) -> Vec<Spot> {
        let now = &*self;
        let said = |spot: &Spot| matches!(now, Self::Part(part) if part.basis_of(spot.field).is_some());
        let open = |spot: &Spot| now.get(*spot).is_none() && !said(spot);
        let rest: Vec<Spot> = now.figures().into_iter().filter(open).collect();
        for spot in &rest {
            self.vouch_one(*spot, Some(Basis::Unpublished));
        }
        rest
    }

    /// Says of every figure that is there and can be measured that the user measured it; ratings and pitches stay the maker's. Gives
    /// the places of both.
    pub fn all_is_measured(&mut self) -> [Vec<Spot>; 2] {
        let there = |spot: &Spot| self.get(*spot).is_some() && self.basis(*spot).is_none();
        let (measured, others): (Vec<Spot>, Vec<Spot>) =
            self.figures().into_iter().filter(there).partition(|spot| can_be_measured(spot.field));
        for spot in &measured {
            self.vouch_one(*spot, Some(Basis::Measured));
        }
        [measured, others]
    }

    fn whole(&self, spot: Spot) -> Option<Value> {
        match (self, spot.role) {
            (Self::Part(part), None) => part.get(spot.field),
            (Self::Part(part), Some(role)) => part.fills.get(role)?.get(spot.field),
            (Self::Kit(kit), _) => kit.get(spot.field),
        }
    }

    fn set_whole(&mut self, spot: Spot, value: Option<&Value>) -> bool {
        match (self, spot.role) {
            (Self::Part(part), None) => part.set(spot.field, value),
            (Self::Part(part), Some(role)) => part.fills.get_mut(role).is_some_and(|role| role.set(spot.field, value)),
            (Self::Kit(kit), _) => kit.set(spot.field, value),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entering::KIT;
    use propwright_schema::{part::Role, value::Kind};

    #[test]
    fn every_place_of_every_kind_takes_what_it_shows() {
        for kind in Role::WORDS {
            let mut article = Article::of_kind(kind).unwrap();
            let fields: Vec<(Option<usize>, &Field)> = [None, Some(0)]
                .into_iter()
                .flat_map(|role| article.fields(role).iter().map(move |field| (role, field)))
                .collect();
            for (role, field) in fields {
                let spot = Spot::of(role, field.name);
                if inner(field).is_empty() {
                    continue;
                }
                let in_list = matches!(field.kind, Kind::List(_));
                let item = in_list.then(|| {
                    assert!(article.add(spot), "{kind} {}", field.name);
                    article.len(spot) - 1
                });
                for within in inner(field) {
                    let place = spot.within(item, within.name);
                    if let Kind::Choice(words) = within.kind {
                        assert!(article.take(place, words[0]), "{kind} {} {}", field.name, within.name);
                        assert_eq!(article.shown(place), words[0]);
                    }
                }
                assert!(item.is_none_or(|item| article.remove(spot, item)));
                assert_eq!(article.len(spot), 0);
            }
        }
    }

    #[test]
    fn what_is_typed_in_another_unit_is_shown_so_until_it_is_typed_anew() {
        let mut motor = Article::of_kind("motor").unwrap();
        let mass = Spot::of(None, "mass_g");
        assert!(motor.take(mass, "1.13 oz"));
        assert_eq!(motor.shown(mass), "1.13 oz");
        assert!(motor.take(mass, "32"));
        assert_eq!(motor.shown(mass), "32");
        assert!(!motor.take(mass, "heavy"));
        assert_eq!(motor.shown(mass), "32", "what cannot be read changes nothing");
    }

    #[test]
    fn what_is_not_published_has_no_figure_and_a_figure_ends_it() {
        let mut motor = Article::of_kind("motor").unwrap();
        let ohm = Spot::of(Some(0), "resistance_mohm");
        assert!(motor.take(ohm, "48"));
        motor.vouch(ohm, Some(Basis::Unpublished));
        assert_eq!((motor.get(ohm), motor.basis(ohm)), (None, Some(Basis::Unpublished)));
        assert!(motor.take(ohm, "52"));
        motor.vouch(ohm, Some(Basis::Measured));
        assert_eq!((motor.shown(ohm).as_str(), motor.basis(ohm)), ("52", Some(Basis::Measured)));
    }

    #[test]
    fn one_word_says_that_all_else_is_not_published_and_one_that_all_was_measured() {
        let mut propeller = Article::of_kind("propeller").unwrap();
        let spot = |field: &'static str| Spot::of((field != "mass_g").then_some(0), field);
        for (field, text) in [("mass_g", "4.9"), ("diameter_in", "129.5 mm"), ("pitch_in", "4.3"), ("chord_75_mm", "11.2")] {
            assert!(propeller.take(spot(field), text), "{field}");
        }
        let [measured, others] = propeller.all_is_measured();
        assert_eq!(measured, ["mass_g", "diameter_in", "chord_75_mm"].map(spot));
        assert_eq!(others, [spot("pitch_in")], "nobody measures a pitch with calipers");
        assert_eq!((propeller.basis(spot("mass_g")), propeller.basis(spot("pitch_in"))), (Some(Basis::Measured), None));
        // Blades, bore, hub and the highest speed.
        assert_eq!(propeller.rest_is_not_published().len(), 4);
        assert_eq!(propeller.basis(spot("hub_mm")), Some(Basis::Unpublished));
        assert_eq!(propeller.shown(spot("diameter_in")), "129.5 mm", "what is there stays");
        assert_eq!(propeller.rest_is_not_published(), []);
    }

    #[test]
    fn a_range_is_one_place_with_two_ends() {
        let mut motor = Article::of_kind("motor").unwrap();
        let cells = Spot::of(Some(0), "cells_min");
        assert!(motor.take(cells, "4-6S"));
        assert_eq!((motor.shown(cells).as_str(), motor.shown(Spot::of(Some(0), "cells_max")).as_str()), ("4-6", "6"));
        motor.vouch(cells, Some(Basis::Unpublished));
        assert_eq!((motor.shown(cells).as_str(), motor.basis(cells)), ("", Some(Basis::Unpublished)));
        assert!(motor.take(cells, "up to 6S") && motor.shown(cells) == "up to 6");
        assert!(motor.take(cells, "6") && motor.shown(cells) == "6");
        assert!(motor.remarks().iter().all(|remark| remark.field != "cells_min"));
        assert!(motor.take(cells, "6-4"));
        assert!(motor.remarks().iter().any(|remark| remark.field == "cells_min"), "the ends are exchanged");
    }

    #[test]
    fn a_kit_lists_what_is_in_the_box() {
        let mut kit = Article::of_kind(KIT).unwrap();
        let contents = Spot::of(None, "contents");
        assert!(kit.add(contents));
        assert!(kit.take(contents.within(Some(0), "part"), "vellacre-2207-1950-kv"));
        assert!(kit.take(contents.within(Some(0), "count"), "4"));
        let Article::Kit(kit) = kit else { unreachable!("it is a kit") };
        assert_eq!((kit.contents[0].part.as_str(), kit.contents[0].count), ("vellacre-2207-1950-kv", 4));
    }
}
