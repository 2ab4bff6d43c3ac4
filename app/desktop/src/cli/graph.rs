//! `graph`: slots, properties, derivations and rules as a vector drawing.

use std::{collections::BTreeSet, path::PathBuf};

use clap::Args;
use propwright_engine::{
    drawing::layers::layered,
    graph::{self, Kind},
    rules,
};
use propwright_paper::{graph as paper, page::escaped};
use propwright_schema::slot::Slot;

use super::{Exit, answer::Answer};
use crate::files::{self, Disk};

/// Draws the graph.
#[derive(Debug, Args)]
pub(super) struct Graph {
    /// Only this rule and all that its findings rest on
    #[arg(long, value_name = "RULE", value_parser = rule)]
    rule: Option<&'static str>,
    /// Only what depends on this slot
    #[arg(long, value_name = "SLOT", value_parser = slot)]
    slot: Option<Slot>,
    /// The rule whose path is lit
    #[arg(long, value_name = "RULE", value_parser = rule)]
    lit: Option<&'static str>,
    /// The file to write; else the drawing goes to standard output
    #[arg(long, value_name = "FILE.svg")]
    out: Option<PathBuf>,
}

fn rule(text: &str) -> Result<&'static str, String> {
    rules::by_id(text).map(|rule| rule.id).ok_or_else(|| "expected a rule's id, as `propwright rules` lists them".to_owned())
}

fn slot(text: &str) -> Result<Slot, String> {
    let words = || Slot::ALL.iter().map(|slot| slot.word()).collect::<Vec<_>>().join(", ");
    Slot::from_word(text).ok_or_else(|| format!("expected one of {}", words()))
}

impl Graph {
    pub(super) fn answer(self) -> Answer {
        let picture = graph::graph().picture().narrowed(|id| self.rule.is_none_or(|rule| rule == id), self.slot);
        let lit = self.lit.and_then(|rule| picture.rule(rule)).map_or_else(BTreeSet::new, |at| picture.above([at]));
        let exit = if picture.dots.iter().any(|dot| dot.kind == Kind::Rule) { Exit::Done } else { Exit::Found };
        let drawing = paper::svg(&picture, &layered(&picture), &lit);
        let Some(path) = self.out else { return Answer::text(exit, drawing) };
        match Disk::Real.export(&path, drawing.as_bytes()) {
            Ok(()) => Answer::text(exit, format!("Written: {}\n", escaped(&files::name(&path)))),
            Err(error) => Answer::refused(&error.problems(&path)),
        }
    }
}
