//! `fits`: every catalogue part of a slot, whether it fits, why, and what it changes.

use std::{path::PathBuf, sync::Arc};

use clap::Args;
use propwright_engine::{
    evaluate,
    finding::Status,
    fit::{Place, Search},
    policy::Policy,
};
use propwright_paper::fits;
use propwright_schema::slot::Slot;

use super::{Exit, Form, answer::Answer, check::Day, input};

/// Finds what fits in a slot.
#[derive(Debug, Args)]
pub(super) struct Fits {
    /// The build list
    #[arg(value_name = "BUILD.ron")]
    build: PathBuf,
    /// The slot, such as motor; motor[1] for the second part that is listed in it
    #[arg(long, value_name = "SLOT", value_parser = slot)]
    slot: (Slot, usize),
    /// Catalogue file laid over the demo parts; may be given several times, later files shadow earlier ones
    #[arg(long, value_name = "FILE")]
    catalog: Vec<PathBuf>,
    #[command(flatten)]
    day: Day,
    #[command(flatten)]
    form: Form,
}

fn slot(text: &str) -> Result<(Slot, usize), String> {
    let (word, index) = match text.strip_suffix(']').and_then(|text| text.split_once('[')) {
        Some((word, index)) => (word, index.parse().map_err(|_| "expected a slot such as motor or motor[1]".to_owned())?),
        None => (text, 0),
    };
    let words = || Slot::ALL.iter().map(|slot| slot.word()).collect::<Vec<_>>().join(", ");
    Slot::from_word(word).map(|slot| (slot, index)).ok_or_else(|| format!("expected one of {}", words()))
}

impl Fits {
    pub(super) fn answer(self) -> Answer {
        let read = input::catalogue(&self.catalog).and_then(|shelf| Ok((input::build(&self.build, &shelf.catalogue)?, shelf)));
        let (mut build, shelf) = match read {
            Ok(read) => read,
            Err(problems) => return Answer::refused(&problems),
        };
        self.day.apply(&mut build);
        let policy = Policy::default();
        let report = evaluate(&shelf.catalogue, &Arc::new(build), &policy);
        let (slot, index) = self.slot;
        let place = Place::nth(&report.craft, slot, index);
        let mut candidates = Search::new(&shelf.catalogue, &report, &policy, place).finish();
        candidates.sort_by_key(|candidate| candidate.status);
        let found = candidates.iter().any(|candidate| candidate.status != Status::Mismatch);
        let exit = if found { Exit::Done } else { Exit::Found };
        let word = if index > 0 { format!("{slot}[{index}]") } else { slot.to_string() };
        if self.form.json {
            Answer::json(exit, &fits::json(&word, &candidates, &shelf.notes))
        } else {
            Answer::text(exit, fits::text(&word, &candidates, &shelf.notes))
        }
    }
}
