//! The command line: each command reads its files, calls the engine once and hands back what is to be written.

mod amount;
mod answer;
mod catalog;
mod check;
mod compare;
mod fits;
mod given;
mod graph;
mod input;
mod listed;
mod opening;
mod own;
mod price;
mod propeller;
mod repair;
mod sheet;
mod table;

use std::{ffi::OsString, io::Write, path::PathBuf};

use clap::{Args, Parser, Subcommand};
use propwright_paper::rules;

use answer::Answer;
pub use answer::Exit;

const STATUS: &str =
    "Exit status: 0 done; 1 done, and a mismatch or a problem was found; 2 wrong usage, or a file that cannot be read.";

/// Checks, prices and predicts multirotor builds flown by first-person view. Without a command it opens the window.
#[derive(Debug, Parser)]
#[command(name = "propwright", version, about, after_help = STATUS, args_conflicts_with_subcommands = true)]
struct Line {
    #[command(subcommand)]
    command: Option<Command>,
    /// Build list to open in the window
    #[arg(value_name = "BUILD.ron")]
    file: Option<PathBuf>,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Report on a build: what stands in the way, what it weighs and costs
    #[command(after_help = STATUS)]
    Check(check::Check),
    /// The bill of materials, what lies on the shelf left out, and each kit against separate parts
    #[command(after_help = STATUS)]
    Price(Box<price::Price>),
    /// Thrust and power of a propeller by its size
    Propeller(propeller::Asked),
    /// Every part for a slot: whether it fits, why, and what it changes; or what stands in for the part that is fitted
    #[command(after_help = STATUS)]
    Fits(Box<fits::Fits>),
    /// Ways out of every mismatch, each tried, and the fewest choices behind it
    #[command(after_help = STATUS)]
    Repair(repair::Repair),
    /// Builds side by side
    #[command(after_help = STATUS)]
    Compare(compare::Compare),
    /// A build on paper: build sheet, shopping list, comparison or flight card
    #[command(after_help = STATUS)]
    Sheet(Box<sheet::Sheet>),
    /// Slots, properties, derivations and rules as a vector drawing (SVG), with the path of a rule lit
    #[command(after_help = STATUS)]
    Graph(graph::Graph),
    /// The rule table
    Rules(Form),
    /// Work on catalogue files
    #[command(subcommand)]
    Catalog(Catalog),
}

#[derive(Debug, Subcommand)]
enum Catalog {
    /// All problems of catalogue files, each with its place
    #[command(after_help = STATUS)]
    Check(catalog::Check),
    /// Read a table (CSV) into a catalogue, a shelf or a thrust stand; without --out or --into only a preview
    #[command(after_help = STATUS)]
    Import(Box<table::Read>),
    /// Write a catalogue, a shelf or a thrust stand as a table (CSV)
    #[command(after_help = STATUS)]
    Export(table::Write),
}

/// The form of the answer.
#[derive(Debug, Clone, Copy, Args)]
struct Form {
    /// Answer as JSON
    #[arg(long)]
    json: bool,
}

/// Answers a command line: `args` with the program's name first, the answer on `out`, problems on `err`.
///
/// ```
/// use propwright::cli::{Exit, run};
/// let (mut out, mut err) = (Vec::new(), Vec::new());
/// assert_eq!(run(["propwright", "rules"].map(Into::into), &mut out, &mut err), Exit::Done);
/// assert!(String::from_utf8(out).unwrap().contains("motor-pattern"));
/// ```
pub fn run(args: impl IntoIterator<Item = OsString>, out: &mut dyn Write, err: &mut dyn Write) -> Exit {
    let answer = match Line::try_parse_from(args) {
        Err(usage) => answer::usage(&usage),
        Ok(Line { command: None, file }) => opening::open(file.as_deref()),
        Ok(Line { command: Some(command), .. }) => match command {
            Command::Check(check) => check.answer(),
            Command::Compare(compare) => compare.answer(),
            Command::Graph(graph) => graph.answer(),
            Command::Repair(repair) => repair.answer(),
            Command::Fits(fits) => fits.answer(),
            Command::Price(price) => price.answer(),
            Command::Propeller(asked) => asked.answer(),
            Command::Sheet(sheet) => sheet.answer(),
            Command::Rules(Form { json: true }) => Answer::json(Exit::Done, &rules::table()),
            Command::Rules(Form { json: false }) => Answer::text(Exit::Done, rules::text()),
            Command::Catalog(Catalog::Check(check)) => check.answer(),
            Command::Catalog(Catalog::Import(read)) => read.answer(),
            Command::Catalog(Catalog::Export(write)) => write.answer(),
        },
    };
    answer.write(out, err)
}
