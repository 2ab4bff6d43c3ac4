//! Telling each derivation once: what is told again is referred to.

use std::{collections::BTreeMap, sync::Arc};

use crate::finding::Because;

/// How a step is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Told {
    /// In full.
    Full,
    /// In full, with a number, since it is referred to later.
    Numbered(usize),
    /// By the number under which it was told before; what it rests on is left out.
    Again(usize),
}

/// The derivations of a report in the order in which they are told.
#[derive(Debug, Clone, Default)]
pub struct Telling {
    /// How often each derivation would be told, by the place of its one record.
    times: BTreeMap<*const Because, usize>,
    numbers: BTreeMap<*const Because, usize>,
}

impl Telling {
    /// Prepares to tell these reasons, in this order.
    pub fn of<'r>(reasons: impl IntoIterator<Item = &'r Arc<Because>>) -> Self {
        let mut telling = Self::default();
        reasons.into_iter().for_each(|reason| telling.count(reason));
        telling
    }

    fn count(&mut self, step: &Arc<Because>) {
        if step.from.is_empty() {
            return;
        }
        let times = self.times.entry(Arc::as_ptr(step)).or_default();
        *times += 1;
        if *times == 1 {
            step.from.iter().for_each(|below| self.count(below));
        }
    }

    /// How the next step is to be told. Steps that rest on nothing are always told in full.
    pub fn tell(&mut self, step: &Arc<Because>) -> Told {
        let place = Arc::as_ptr(step);
        if let Some(number) = self.numbers.get(&place) {
            return Told::Again(*number);
        }
        if self.times.get(&place).is_none_or(|times| *times < 2) {
            return Told::Full;
        }
        let number = self.numbers.len() + 1;
        self.numbers.insert(place, number);
        Told::Numbered(number)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Claim;

    fn step(text: &'static str, from: Vec<Arc<Because>>) -> Arc<Because> {
        Arc::new(Because { claim: Claim::Assumption { text, datum: None }, from })
    }

    #[test]
    fn what_is_told_twice_gets_a_number_and_the_rest_none() {
        let fact = step("fact", Vec::new());
        let mass = step("mass", vec![fact.clone()]);
        let (hover, climb) = (step("hover", vec![mass.clone()]), step("climb", vec![mass.clone(), fact.clone()]));
        let mut telling = Telling::of([&hover, &climb]);
        let told: Vec<Told> = [&hover, &mass, &fact, &climb, &mass, &fact].into_iter().map(|step| telling.tell(step)).collect();
        assert_eq!(told, [Told::Full, Told::Numbered(1), Told::Full, Told::Full, Told::Again(1), Told::Full]);
    }
}
