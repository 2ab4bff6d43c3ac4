//! What the user gives beside the build: the shelf, exchange rates, and the day.

use std::path::PathBuf;

use clap::Args;
use propwright_engine::bill::Given as Money;
use propwright_schema::{
    catalogue::Catalogue,
    diagnostic::Diagnostic,
    load::{load_rates, load_stock},
};

use crate::files::{self, Disk};

/// Files of the user's own that money depends on.
#[derive(Debug, Default, Args)]
pub(super) struct Given {
    /// What lies on your shelf: drawn first, and its measured figures count
    #[arg(long, value_name = "FILE")]
    owned: Option<PathBuf>,
    /// Exchange rates with their days; without them currencies stay apart
    #[arg(long, value_name = "FILE")]
    rates: Option<PathBuf>,
    /// Day from which the age of a price counts, such as 2026-11-20; absent: today
    #[arg(long, value_name = "DAY")]
    on: Option<jiff::civil::Date>,
}

impl Given {
    /// Reads the files; parts of the shelf that no catalogue holds are noted.
    ///
    /// # Errors
    /// Every problem of both files.
    pub(super) fn read(&self, catalogue: &Catalogue, notes: &mut Vec<String>) -> Result<Money, Vec<Diagnostic>> {
        let (mut given, mut problems) = (Money { today: self.on.or_else(files::today), ..Money::default() }, Vec::new());
        if let Some(path) = &self.owned {
            match text(path).and_then(|text| load_stock(&files::name(path), &text)) {
                Ok(stock) => given.stock = stock,
                Err(found) => problems.extend(found),
            }
            let unknown: Vec<&str> =
                given.stock.items.iter().map(|item| item.part.as_str()).filter(|part| catalogue.part(part).is_none()).collect();
            if !unknown.is_empty() {
                notes.push(format!("{} holds parts that no catalogue knows: {}", files::name(path), unknown.join(", ")));
            }
        }
        if let Some(path) = &self.rates {
            match text(path).and_then(|text| load_rates(&files::name(path), &text)) {
                Ok(rates) => given.rates = Some(rates),
                Err(found) => problems.extend(found),
            }
        }
        if problems.is_empty() { Ok(given) } else { Err(problems) }
    }
}

fn text(path: &std::path::Path) -> Result<String, Vec<Diagnostic>> {
    Disk::Real.read(path).map(|opened| opened.text).map_err(|error| error.problems(path))
}
