//! `check`: the whole report of a build.

use std::{path::PathBuf, sync::Arc};

use clap::Args;
use propwright_engine::{evaluate_with, finding::Status};
use propwright_paper::{json, text};
use propwright_schema::{
    build_list::BuildList,
    quantity::{Celsius, Grams, Metres, MetresPerSecond},
};

use super::{Exit, Form, amount, answer::Answer, given::Given, input, own::Own};

/// Reports on a build.
#[derive(Debug, Args)]
pub(super) struct Check {
    /// The build list
    #[arg(value_name = "BUILD.ron")]
    build: PathBuf,
    /// Catalogue file laid over the demo parts; may be given several times, later files shadow earlier ones
    #[arg(long, value_name = "FILE")]
    catalog: Vec<PathBuf>,
    /// Table of a thrust stand (CSV) with the motor and propeller of the list; columns `volts_v`, `current_a`, `speed_rpm`, `thrust_gf`,
    /// `output_percent`
    #[arg(long, value_name = "FILE")]
    stand: Option<PathBuf>,
    #[command(flatten)]
    day: Day,
    #[command(flatten)]
    given: Given,
    #[command(flatten)]
    own: Own,
    #[command(flatten)]
    form: Form,
}

/// The day's conditions, in place of those that the build list says.
#[derive(Debug, Clone, Copy, Args)]
pub(super) struct Day {
    /// Height of the place above the sea in m
    #[arg(long, value_name = "M", value_parser = amount::altitude, allow_hyphen_values = true)]
    altitude: Option<Metres>,
    /// Temperature in °C
    #[arg(long, value_name = "C", value_parser = amount::temperature, allow_hyphen_values = true)]
    temperature: Option<Celsius>,
    /// Mean wind in m/s
    #[arg(long, value_name = "M/S", value_parser = amount::wind, allow_hyphen_values = true)]
    wind: Option<MetresPerSecond>,
    /// Mass carried besides the parts listed, in g
    #[arg(long, value_name = "G", value_parser = amount::payload, allow_hyphen_values = true)]
    payload: Option<Grams>,
}

impl Day {
    pub(super) fn apply(self, build: &mut BuildList) {
        let (conditions, purpose) = (&mut build.conditions, &mut build.purpose);
        conditions.altitude_m = self.altitude.or(conditions.altitude_m);
        conditions.temperature_c = self.temperature.or(conditions.temperature_c);
        conditions.wind_ms = self.wind.or(conditions.wind_ms);
        purpose.payload_g = self.payload.or(purpose.payload_g);
    }
}

impl Check {
    pub(super) fn answer(self) -> Answer {
        let read = input::catalogue(&self.catalog).and_then(|shelf| Ok((input::build(&self.build, &shelf.catalogue)?, shelf)));
        let (mut build, mut shelf) = match read {
            Ok(read) => read,
            Err(problems) => return Answer::refused(&problems),
        };
        let given = match self.given.read(&shelf.catalogue, &mut shelf.notes) {
            Ok(given) => given,
            Err(problems) => return Answer::refused(&problems),
        };
        let policy = match self.own.read() {
            Ok(policy) => policy,
            Err(problems) => return Answer::refused(&problems),
        };
        if let Some(path) = &self.stand {
            match input::stand(path) {
                Ok(rows) => build.stand.extend(rows),
                Err(problems) => return Answer::refused(&problems),
            }
        }
        self.day.apply(&mut build);
        let report = evaluate_with(&shelf.catalogue, &Arc::new(build), &policy, &given);
        let exit = if report.count(Status::Mismatch) > 0 { Exit::Found } else { Exit::Done };
        if self.form.json {
            Answer::json(exit, &json::report(&report, &shelf.notes))
        } else {
            Answer::text(exit, text::report(&report, &shelf.notes))
        }
    }
}
