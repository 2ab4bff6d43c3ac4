//! `fits`: every catalogue part of a slot, whether it fits, why, and what it changes; with `--replace`, what stands in for a part
//! that is gone.

use std::{path::PathBuf, sync::Arc};

use clap::Args;
use propwright_engine::{
    Report, evaluate_with,
    finding::Status,
    fit::{Means, Place, Replacing, Search, Way},
};
use propwright_paper::{fits, replace};
use propwright_schema::{build_list::BuildList, diagnostic::Diagnostic, slot::Slot};

use super::{Exit, Form, answer::Answer, check::Day, given::Given, input, own::Own};
use crate::files;

/// Finds what fits in a slot.
#[derive(Debug, Args)]
pub(super) struct Fits {
    /// The build list
    #[arg(value_name = "BUILD.ron")]
    build: PathBuf,
    /// The slot, such as motor; motor[1] for the second line of the list in that slot
    #[arg(long, value_name = "SLOT", value_parser = slot)]
    slot: (Slot, Option<usize>),
    /// What stands in for the part that is fitted, one of several or all, with what must follow and what is to pay
    #[arg(long)]
    replace: bool,
    /// With --replace: how many parts, the closest first
    #[arg(long, value_name = "N", default_value_t = 20, requires = "replace", value_parser = clap::value_parser!(u32).range(1..=100_000))]
    most: u32,
    /// Catalogue file laid over the demo parts; may be given several times, later files shadow earlier ones
    #[arg(long, value_name = "FILE")]
    catalog: Vec<PathBuf>,
    #[command(flatten)]
    day: Day,
    #[command(flatten)]
    given: Given,
    #[command(flatten)]
    own: Own,
    #[command(flatten)]
    form: Form,
}

fn slot(text: &str) -> Result<(Slot, Option<usize>), String> {
    let (word, index) = match text.strip_suffix(']').and_then(|text| text.split_once('[')) {
        Some((word, index)) => (word, Some(index.parse().map_err(|_| "expected a slot such as motor or motor[1]".to_owned())?)),
        None => (text, None),
    };
    let words = || Slot::ALL.iter().map(|slot| slot.word()).collect::<Vec<_>>().join(", ");
    Slot::from_word(word).map(|slot| (slot, index)).ok_or_else(|| format!("expected one of {}", words()))
}

impl Fits {
    pub(super) fn answer(self) -> Answer {
        self.found().unwrap_or_else(|problems| Answer::refused(&problems))
    }

    fn found(&self) -> Result<Answer, Vec<Diagnostic>> {
        let mut shelf = input::catalogue(&self.catalog)?;
        let mut build = input::build(&self.build, &shelf.catalogue)?;
        let given = self.given.read(&shelf.catalogue, &mut shelf.notes)?;
        self.check_line(&build)?;
        self.day.apply(&mut build);
        let policy = self.own.read()?;
        let report = evaluate_with(&shelf.catalogue, &Arc::new(build), &policy, &given);
        let means = Means { catalogue: &shelf.catalogue, policy: &policy, given: &given };
        let (slot, index) = self.slot;
        let place = Place::nth(&report.craft, slot, index.unwrap_or(0));
        let word = index.map_or_else(|| slot.to_string(), |index| format!("{slot}[{index}]"));
        Ok(if self.replace {
            self.replaced(means, &report, place, &word, &shelf.notes)
        } else {
            self.listed(means, &report, place, &word, &shelf.notes)
        })
    }

    fn listed(&self, means: Means, report: &Report, place: Place, word: &str, notes: &[String]) -> Answer {
        let mut candidates = Search::new(means, report, place).finish();
        candidates.sort_by_key(|candidate| candidate.status);
        let found = candidates.iter().any(|candidate| candidate.status != Status::Mismatch);
        let exit = if found { Exit::Done } else { Exit::Found };
        if self.form.json {
            Answer::json(exit, &fits::json(word, &candidates, notes))
        } else {
            Answer::text(exit, fits::text(word, &candidates, notes))
        }
    }

    fn replaced(&self, means: Means, report: &Report, place: Place, word: &str, notes: &[String]) -> Answer {
        let most = usize::try_from(self.most).unwrap_or(usize::MAX);
        let all = Replacing::new(means, report, place, most).finish();
        let gone = place.fitted(&report.craft);
        let exit = if all.iter().any(|replacement| replacement.ways().any(Way::goes)) { Exit::Done } else { Exit::Found };
        if self.form.json {
            Answer::json(exit, &replace::json(word, gone, &all, notes))
        } else {
            Answer::text(exit, replace::text(word, gone, &all, notes))
        }
    }

    /// An index must name a line of the list, and so must whatever is replaced.
    fn check_line(&self, build: &BuildList) -> Result<(), Vec<Diagnostic>> {
        let (slot, index) = self.slot;
        let lines = build.fitted(slot).count();
        let asked = index.or(self.replace.then_some(0));
        let Some(index) = asked.filter(|index| *index >= lines) else { return Ok(()) };
        let reason = match lines {
            0 => format!("the list holds no {slot}"),
            1 => format!("the list holds one line of {slot}; there is no {slot}[{index}]"),
            _ => {
                format!("the list holds {lines} lines of {slot}, {slot}[0] to {slot}[{}]; there is no {slot}[{index}]", lines - 1)
            }
        };
        let hint = match lines {
            0 => format!("write --slot {slot} without an index and without --replace to see what could be added"),
            1 => format!("write --slot {slot}"),
            _ => format!("write --slot {slot}[{}]", lines - 1),
        };
        let file = files::name(&self.build);
        let problem = Diagnostic { file, line: 1, column: 1, part: None, field: None, reason, hint: Some(hint) };
        Err(vec![problem])
    }
}
