//! `price`: the bill of materials, kit against separate parts, and the cost of a training path.

use std::{path::PathBuf, sync::Arc};

use clap::Args;
use propwright_engine::{
    bill::{
        kit,
        path::{Stage, Wear, course},
    },
    evaluate_with,
};
use propwright_paper::price;
use propwright_schema::diagnostic::Diagnostic;

use super::{Exit, Form, answer::Answer, given::Given, input, own::Own};

/// Prices a build.
#[derive(Debug, Args)]
pub(super) struct Price {
    /// The build list
    #[arg(value_name = "BUILD.ron")]
    build: PathBuf,
    /// The cost of learning to fly with it: simulator, craft, what breaks and wears
    #[arg(long)]
    path: bool,
    /// The craft flown after it, likewise; may be given several times, in their order
    #[arg(long = "then", value_name = "BUILD.ron")]
    next: Vec<PathBuf>,
    /// Hours flown with each craft of the way; absent: as the build list assumes, or 10
    #[arg(long, value_name = "H", value_parser = clap::value_parser!(u32).range(0..=10_000))]
    hours: Option<u32>,
    /// Catalogue file laid over the demo parts; may be given several times, later files shadow earlier ones
    #[arg(long, value_name = "FILE")]
    catalog: Vec<PathBuf>,
    #[command(flatten)]
    given: Given,
    #[command(flatten)]
    own: Own,
    #[command(flatten)]
    form: Form,
}

impl Price {
    pub(super) fn answer(self) -> Answer {
        self.priced().unwrap_or_else(|problems| Answer::refused(&problems))
    }

    fn priced(&self) -> Result<Answer, Vec<Diagnostic>> {
        let mut shelf = input::catalogue(&self.catalog)?;
        let build = Arc::new(input::build(&self.build, &shelf.catalogue)?);
        let next: Result<Vec<_>, _> = self.next.iter().map(|path| input::build(path, &shelf.catalogue)).collect();
        let given = self.given.read(&shelf.catalogue, &mut shelf.notes)?;
        let policy = self.own.read()?;
        let report = evaluate_with(&shelf.catalogue, &build, &policy, &given);
        let kits = kit::compare(&shelf.catalogue, &report, &policy, &given);
        let wear = Wear::of(build.training.as_ref());
        let flown_h = self.hours.unwrap_or(wear.flown_h);
        let learning = self.path || !self.next.is_empty();
        let mut stages = vec![Stage { build, flown_h }];
        stages.extend(next?.into_iter().map(|build| Stage { build: Arc::new(build), flown_h }));
        let course = learning.then(|| course(&shelf.catalogue, &stages, &policy, &given, wear));
        Ok(if self.form.json {
            Answer::json(Exit::Done, &price::json(&report, &kits, course.as_ref(), &shelf.notes))
        } else {
            Answer::text(Exit::Done, price::text::price(&report, &kits, course.as_ref(), &shelf.notes))
        })
    }
}
