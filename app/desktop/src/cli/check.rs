//! `check`: the whole report of a build.

use std::{path::PathBuf, sync::Arc};

use clap::Args;
use propwright_engine::{evaluate_with, finding::Status};
use propwright_paper::{json, text};
use propwright_schema::{
    build_list::BuildList,
    catalogue::Catalogue,
    diagnostic::{Diagnostic, did_you_mean},
    estimate,
    part::Role,
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
    /// A figure that nobody published, estimated for this build, such as `vellacre-2207-1750.thread_depth_mm=3.5`; may be given
    /// several times
    #[arg(long, value_name = "PART.FIELD=VALUE")]
    estimate: Vec<String>,
    /// Tell at the end how each figure comes about, down to facts; JSON always does
    #[arg(long)]
    workings: bool,
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

/// Takes `PART.FIELD=VALUE` into the list.
///
/// # Errors
/// What cannot be read of it.
fn estimated(build: &mut BuildList, catalogue: &Catalogue, said: &str) -> Result<(), Box<Diagnostic>> {
    let wrong = |part: Option<&str>, field: Option<&str>, reason: String, hint: String| {
        Box::new(Diagnostic {
            file: "--estimate".to_owned(),
            line: 1,
            column: 1,
            part: part.map(str::to_owned),
            field: field.map(str::to_owned),
            reason,
            hint: Some(hint),
        })
    };
    let Some(((id, name), text)) = said.split_once('=').and_then(|(to, text)| Some((to.trim().rsplit_once('.')?, text))) else {
        let hint = "write it as vellacre-2207-1750.thread_depth_mm=3.5".to_owned();
        return Err(wrong(None, None, format!("{said:?} names no part with its field and value"), hint));
    };
    let listed = || build.parts.iter().map(|fitted| fitted.part.as_str());
    let Some(part) = catalogue.part(id).filter(|_| listed().any(|part| part == id)) else {
        let hint = did_you_mean(id, listed())
            .map_or_else(|| "name a part of the list".to_owned(), |meant| format!("did you mean \"{meant}\"?"));
        return Err(wrong(Some(id), None, "no line lists this part".to_owned(), hint));
    };
    let Some((role, field)) = estimate::field_of(part, name) else {
        let of_roles = part.fills.iter().flat_map(Role::fields).filter(|field| estimate::can_be_estimated(field));
        let names: Vec<&str> = std::iter::once("mass_g").chain(of_roles.map(|field| field.name)).collect();
        let meant =
            did_you_mean(name, names.iter().copied()).map_or_else(String::new, |meant| format!("did you mean \"{meant}\"? "));
        let hint = format!("{meant}Its fields are {}", names.join(", "));
        return Err(wrong(Some(id), Some(name), "the part has no such field".to_owned(), hint));
    };
    let value = estimate::read(text, field).map_err(|remark| wrong(Some(id), Some(name), remark.reason, remark.hint))?;
    if build.estimate(id, role, field.name, value.as_ref()) {
        Ok(())
    } else {
        let hint = "write it as in the part's record".to_owned();
        Err(wrong(Some(id), Some(name), format!("{text:?} is no value of this field"), hint))
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
        let problems: Vec<Diagnostic> = self
            .estimate
            .iter()
            .filter_map(|said| estimated(&mut build, &shelf.catalogue, said).err().map(|problem| *problem))
            .collect();
        if !problems.is_empty() {
            return Answer::refused(&problems);
        }
        self.day.apply(&mut build);
        let report = evaluate_with(&shelf.catalogue, &Arc::new(build), &policy, &given);
        let exit = if report.count(Status::Mismatch) > 0 { Exit::Found } else { Exit::Done };
        if self.form.json {
            Answer::json(exit, &json::report(&report, &shelf.notes))
        } else if self.workings {
            Answer::text(exit, text::report_with_workings(&report, &shelf.notes))
        } else {
            Answer::text(exit, text::report(&report, &shelf.notes))
        }
    }
}
