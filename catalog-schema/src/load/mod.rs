//! Text to types, with every problem that the text has.
//!
//! The whole text is read into the types at once. Only when that fails, or when a figure is no plausible one, each record is
//! read alone, so that each problem has its place, its part and its field, and the next records still report.

mod decode;
mod fault;
mod place;
mod salvage;
mod stand;
mod wording;

use std::collections::BTreeSet;

use serde::de::DeserializeOwned;

use crate::{
    build_list::{BuildList, Charge, Fitted, Spare, Tax},
    catalogue::CatalogueFile,
    diagnostic::Diagnostic,
    estimate::Estimate,
    kit::Kit,
    outline,
    part::Part,
    rates::{Rate, Rates},
    ron_options,
    stock::{Stock, StockItem},
    thresholds::{PolicyFile, ThresholdEdit},
    validate::{self, Issue},
    version::CURRENT,
};

pub use decode::{MOST_BYTES, decode};
use fault::Fault;
pub(crate) use place::Places;
pub use stand::load_stand;

/// Reads a catalogue. `file` is the name by which problems call it.
///
/// # Errors
/// Every problem of the text, in its order.
pub fn load_catalogue(file: &str, text: &str) -> Result<CatalogueFile, Vec<Diagnostic>> {
    let sound = |catalogue: &CatalogueFile| {
        known(catalogue.version)
            && catalogue.parts.iter().all(|part| validate::part(part).is_empty())
            && catalogue.kits.iter().all(|kit| validate::kit(kit).is_empty())
            && all_unlike(catalogue.parts.iter().map(|part| part.id.as_str()))
            && all_unlike(catalogue.kits.iter().map(|kit| kit.id.as_str()))
    };
    load(file, text, sound, catalogue_faults)
}

/// Reads a build list. `file` is the name by which problems call it.
///
/// # Errors
/// Every problem of the text, in its order.
pub fn load_build(file: &str, text: &str) -> Result<BuildList, Vec<Diagnostic>> {
    let sound = |build: &BuildList| known(build.version) && validate::build_remarks(build).is_empty();
    load(file, text, sound, build_faults)
}

/// Reads what lies on the user's shelf. `file` is the name by which problems call it.
///
/// # Errors
/// Every problem of the text, in its order.
pub fn load_stock(file: &str, text: &str) -> Result<Stock, Vec<Diagnostic>> {
    let sound = |stock: &Stock| known(stock.version) && stock.items.iter().all(|item| validate::stock_item(item).is_empty());
    load(file, text, sound, stock_faults)
}

/// Reads exchange rates. `file` is the name by which problems call it.
///
/// # Errors
/// Every problem of the text, in its order.
pub fn load_rates(file: &str, text: &str) -> Result<Rates, Vec<Diagnostic>> {
    let sound = |rates: &Rates| {
        known(rates.version)
            && rates.rates.iter().all(|rate| validate::rate(rate).is_empty())
            && validate::repeated_rates(rates).is_empty()
    };
    load(file, text, sound, rates_faults)
}

/// Reads a user's own thresholds. `file` is the name by which problems call it; whether the names exist is checked by
/// [`validate::check_thresholds`].
///
/// # Errors
/// Every problem of the text, in its order.
pub fn load_policy(file: &str, text: &str) -> Result<PolicyFile, Vec<Diagnostic>> {
    let sound =
        |policy: &PolicyFile| known(policy.version) && policy.thresholds.iter().all(|edit| validate::threshold(edit).is_empty());
    load(file, text, sound, policy_faults)
}

fn all_unlike<'i>(ids: impl Iterator<Item = &'i str>) -> bool {
    let mut seen = BTreeSet::new();
    ids.into_iter().all(|id| seen.insert(id))
}

const fn known(version: u32) -> bool {
    version >= 1 && version <= CURRENT
}

fn load<T: DeserializeOwned>(
    file: &str,
    text: &str,
    sound: impl Fn(&T) -> bool,
    faults: fn(&str, &Places<'_>) -> Vec<Fault>,
) -> Result<T, Vec<Diagnostic>> {
    let read = ron_options().from_str::<T>(text);
    if let Ok(value) = read {
        if sound(&value) {
            return Ok(value);
        }
        return Err(located(file, text, faults, None));
    }
    Err(located(file, text, faults, read.err()))
}

fn located(
    file: &str,
    text: &str,
    faults: fn(&str, &Places<'_>) -> Vec<Fault>,
    error: Option<ron::error::SpannedError>,
) -> Vec<Diagnostic> {
    let places = Places::new(text);
    let mut found = version_fault(text).map_or_else(|| faults(text, &places), |fault| vec![fault]);
    if found.is_empty() {
        found.push(match error {
            Some(error) => salvage::whole(text, &error),
            None => Fault::new(0, "the file could not be checked".to_owned(), Some(VERSION_HINT.to_owned())),
        });
    }
    found.into_iter().map(|fault| fault.placed(file, &places)).collect()
}

const VERSION_HINT: &str = "write the version as a plain number at the start: (version: 1, …";

/// The fault of a version that this program does not know.
fn version_fault(text: &str) -> Option<Fault> {
    let child = outline::field(text, outline::root(text), "version")?;
    let version: u64 = ron_options().from_str(&text[child.value.clone()]).ok()?;
    let (reason, hint) = match version {
        0 => ("there is no version 0 of this form".to_owned(), VERSION_HINT),
        _ if version > u64::from(CURRENT) => {
            let reason = format!("version {version} is later than {CURRENT}, the latest that this program knows");
            (reason, "it was written by a later version of the program; open it with that one")
        }
        _ => return None,
    };
    Some(Fault { field: Some("version".to_owned()), ..Fault::new(child.value.start, reason, Some(hint.to_owned())) })
}

fn catalogue_faults(text: &str, places: &Places<'_>) -> Vec<Fault> {
    let mut faults = salvage::header::<CatalogueFile>(text, &["parts", "kits"], |_| Vec::new());
    salvage::records::<Part>(text, "parts", "id", validate::part, &mut faults);
    salvage::records::<Kit>(text, "kits", "id", validate::kit, &mut faults);
    faults.extend(salvage::repeated(text, "parts", places));
    faults.extend(salvage::repeated(text, "kits", places));
    told_once(faults)
}

fn build_faults(text: &str, _: &Places<'_>) -> Vec<Fault> {
    let mut faults =
        salvage::header::<BuildList>(text, &["estimates", "parts", "spares", "shipping", "tax"], validate::build_header);
    salvage::records::<Estimate>(text, "estimates", "part", validate::estimate, &mut faults);
    salvage::records::<Fitted>(text, "parts", "part", validate::fitted, &mut faults);
    salvage::records::<Spare>(text, "spares", "part", validate::spare, &mut faults);
    salvage::records::<Charge>(text, "shipping", NAMELESS, validate::charge, &mut faults);
    salvage::records::<Tax>(text, "tax", NAMELESS, validate::tax, &mut faults);
    if let Ok(build) = ron_options().from_str::<BuildList>(text) {
        let issues = validate::estimates_elsewhere(&build).into_iter();
        faults.extend(issues.map(|issue| salvage::of_issue(text, outline::root(text), &issue)));
    }
    told_once(faults)
}

/// A field that no record has: records without an id are known by their place only.
const NAMELESS: &str = "";

fn stock_faults(text: &str, _: &Places<'_>) -> Vec<Fault> {
    let mut faults = salvage::header::<Stock>(text, &["items"], |_| Vec::new());
    salvage::records::<StockItem>(text, "items", "part", validate::stock_item, &mut faults);
    told_once(faults)
}

fn rates_faults(text: &str, _: &Places<'_>) -> Vec<Fault> {
    let mut faults = salvage::header::<Rates>(text, &["rates"], |_| Vec::new());
    salvage::records::<Rate>(text, "rates", NAMELESS, validate::rate, &mut faults);
    if let Ok(rates) = ron_options().from_str::<Rates>(text) {
        let issues = validate::repeated_rates(&rates).into_iter();
        faults.extend(issues.map(|issue| salvage::of_issue(text, outline::root(text), &issue)));
    }
    told_once(faults)
}

fn policy_faults(text: &str, _: &Places<'_>) -> Vec<Fault> {
    let mut faults = salvage::header::<PolicyFile>(text, &["thresholds"], |_| Vec::new());
    salvage::records::<ThresholdEdit>(text, "thresholds", NAMELESS, validate::threshold, &mut faults);
    told_once(faults)
}

/// The faults in the order of the text. A bracket torn within a record tears the text around it too: that is told once.
fn told_once(mut faults: Vec<Fault>) -> Vec<Fault> {
    let torn = faults.iter().any(|fault| fault.torn && fault.in_record);
    faults.retain(|fault| fault.in_record || !(torn && fault.torn));
    faults.sort_by_key(|fault| fault.at);
    faults
}

/// Issues of a value that was read from `text`, each with the part that it is about, with their places.
pub(crate) fn placed(file: &str, text: &str, issues: Vec<(Option<&str>, Issue)>) -> Vec<Diagnostic> {
    if issues.is_empty() {
        return Vec::new();
    }
    let places = Places::new(text);
    let root = outline::root(text);
    let each = issues.into_iter().map(|(part, issue)| {
        let mut fault = salvage::of_issue(text, root.clone(), &issue);
        fault.part = part.map(str::to_owned);
        fault.placed(file, &places)
    });
    each.collect()
}
