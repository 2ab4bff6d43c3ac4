//! A document on paper in the form that a file's ending asks for: one place for the command and the window.

use std::path::{Path, PathBuf};

use jiff::civil::Date;
use propwright_engine::{Report, fit::compare::compare, policy::Policy, sweep::sweep};
use propwright_paper::{
    json,
    sheet::{self, Format, PaperError, Setting, Sheet},
    text,
};
use propwright_schema::save::write_build;

/// What is put on paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, clap::ValueEnum)]
pub enum Kind {
    /// The craft to scale, parts with wiring, figures, findings, first power-up
    #[default]
    Build,
    /// What is to be bought, by supplier
    Shopping,
    /// Builds side by side
    Comparison,
    /// For the pocket, A6
    Card,
    /// Thrust, power, reach, times and signal as curves with their bands
    Flight,
}

impl Kind {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 5] = [Self::Build, Self::Flight, Self::Shopping, Self::Comparison, Self::Card];

    /// Its name.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Build => "Build sheet",
            Self::Shopping => "Shopping list",
            Self::Comparison => "Comparison",
            Self::Card => "Flight card",
            Self::Flight => "Flight curves",
        }
    }
}

/// What is put on paper, and of what.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'a> {
    /// Which document.
    pub kind: Kind,
    /// The builds; of several only a comparison shows more than the first.
    pub reports: &'a [&'a Report],
    /// The thresholds by which they were judged.
    pub policy: &'a Policy,
    /// Size of the paper.
    pub format: Format,
    /// The day that is printed.
    pub day: Option<Date>,
}

impl Wanted<'_> {
    /// The document; none without a report.
    pub fn sheet(&self) -> Option<Sheet> {
        let setting = Setting { format: self.format, day: self.day };
        let first = self.reports.first()?;
        Some(match self.kind {
            Kind::Build => sheet::build_sheet(first, setting),
            Kind::Shopping => sheet::shopping_list(first, setting),
            Kind::Comparison => sheet::comparison(self.reports, &compare(self.reports), setting),
            Kind::Card => sheet::flight_card(first, setting),
            Kind::Flight => sheet::flight_curves(first, &sweep(first, self.policy), setting),
        })
    }
}

/// Why nothing is written.
#[derive(Debug, thiserror::Error)]
pub enum ExportError {
    /// The file's ending is none of those that can be written.
    #[error("the ending {0:?} is none of {ENDINGS}")]
    Ending(String),
    /// No report to write.
    #[error("there is no report yet")]
    NoReport,
    /// The writer refused.
    #[error(transparent)]
    Paper(#[from] PaperError),
    /// The build list cannot be written.
    #[error("the build list cannot be written: {0}")]
    Build(String),
}

/// The endings that can be written.
pub const ENDINGS: &str = "pdf, svg, png, csv, txt, json, ron";
/// Dots to the inch of a picture.
const DOTS: f32 = 150.0;

/// The files that hold a document, with their bytes: one, or one a leaf where the form knows no leaves.
///
/// # Errors
/// When the ending is unknown or a writer refuses.
pub fn files(wanted: &Wanted, path: &Path, notes: &[String]) -> Result<Vec<(PathBuf, Vec<u8>)>, ExportError> {
    let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase()).unwrap_or_default();
    let report = wanted.reports.first().ok_or(ExportError::NoReport)?;
    let one = |bytes: Vec<u8>| Ok(vec![(path.to_owned(), bytes)]);
    let sheet = || wanted.sheet().ok_or(ExportError::NoReport);
    match ending.as_str() {
        "pdf" => one(sheet::pdf(&sheet()?)?),
        "svg" => leaves(&sheet()?, path, |leaf| Ok(sheet::svg(leaf).into_bytes())),
        "png" => leaves(&sheet()?, path, |leaf| sheet::png(leaf, DOTS)),
        "csv" if wanted.kind == Kind::Flight => one(sheet::csv::curves(&sweep(report, wanted.policy))?.into_bytes()),
        "csv" => one(sheet::csv::parts(report)?.into_bytes()),
        "txt" => one(text::report(report, notes).into_bytes()),
        "json" => {
            let text = serde_json::to_string_pretty(&json::report(report, notes));
            one(text.map_err(|error| PaperError::Writer(error.to_string()))?.into_bytes())
        }
        "ron" => {
            let build = &report.craft.build;
            let text = write_build(None, build, build).map_err(|error| ExportError::Build(error.to_string()))?;
            one(text.into_bytes())
        }
        _ => Err(ExportError::Ending(ending)),
    }
}

/// One file a leaf: `sheet.svg` for a single one, else `sheet-1.svg`, `sheet-2.svg` …
fn leaves(
    sheet: &Sheet,
    path: &Path,
    write: impl Fn(&sheet::Leaf) -> Result<Vec<u8>, PaperError>,
) -> Result<Vec<(PathBuf, Vec<u8>)>, ExportError> {
    let (stem, ending) = (path.file_stem().unwrap_or_default(), path.extension().unwrap_or_default());
    let numbered = |at: usize| {
        if sheet.leaves.len() == 1 {
            return path.to_owned();
        }
        let mut name = stem.to_owned();
        name.push(format!("-{}.", at + 1));
        name.push(ending);
        path.with_file_name(name)
    };
    sheet.leaves.iter().enumerate().map(|(at, leaf)| Ok((numbered(at), write(leaf)?))).collect()
}
