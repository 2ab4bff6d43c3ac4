//! A report as JSON: the keys that outside programs rely on. A key is only ever added; a changed meaning raises [`SCHEMA`].

mod step;

use propwright_engine::{
    Report,
    craft::Subject,
    explain::{self, telling::Telling},
    finding::{Changed, Datum, Finding},
    interval::Interval,
    report::Totals,
    rules,
    working::Working,
};
use propwright_schema::quantity::Money;
use serde::Serialize;

pub(crate) use step::place;
pub use step::{Assumption, Derived, Fact, Gap, PutIn, Step};
use step::{fact, step};

use crate::{
    flight::FlightJson,
    unstated::{self, EstimateJson, QuestionJson},
};

/// Version of the meaning of the keys.
pub const SCHEMA: u32 = 1;

/// A figure with its band, in the unit that its key names.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Band {
    /// P5.
    pub low: f64,
    /// The figure itself.
    pub nominal: f64,
    /// P95.
    pub high: f64,
}

impl From<propwright_engine::band::Band> for Band {
    fn from(band: propwright_engine::band::Band) -> Self {
        Self { low: band.low(), nominal: band.nominal(), high: band.high() }
    }
}

impl From<Interval> for Band {
    fn from(interval: Interval) -> Self {
        let [low, nominal, high] = interval.decimals();
        Self { low, nominal, high }
    }
}

/// A figure, a band or a word, with the unit where there is one: exactly one of the first three is present.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Amount {
    /// A figure without a band.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<f64>,
    /// A figure with its band.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub band: Option<Band>,
    /// A word, flag or list, as it is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Symbol of the unit; absent for words, empty for counts and ratios.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub unit: Option<&'static str>,
}

impl From<&Datum> for Amount {
    fn from(datum: &Datum) -> Self {
        datum.figure().map_or_else(|| Self { name: Some(explain::datum(datum)), ..Self::default() }, Self::from)
    }
}

impl From<Interval> for Amount {
    fn from(interval: Interval) -> Self {
        let exact = interval.is_exact();
        let [_, nominal, _] = interval.decimals();
        let band = (!exact).then(|| interval.into());
        Self { value: exact.then_some(nominal), band, name: None, unit: Some(interval.unit.symbol) }
    }
}

/// How a figure of the report comes about.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WorkingJson {
    /// Key of the figure: as under `flight.figures`, or as under `totals`.
    pub figure: &'static str,
    /// What it is.
    pub title: &'static str,
    /// The figure as the topmost step; what was told under a finding or an earlier figure is referred to.
    pub step: Step,
}

/// A threshold that the user's own policy file changed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OwnThreshold {
    /// Its name in the policy file.
    pub threshold: &'static str,
    /// `tight` or `mismatch`: which of its two values.
    pub which: &'static str,
    /// The value in force.
    pub value: f64,
    /// The program's own.
    pub instead_of: f64,
    /// Symbol of the unit; empty for counts and shares.
    pub unit: &'static str,
    /// The change as a line.
    pub text: String,
}

impl From<&Changed> for OwnThreshold {
    fn from(changed: &Changed) -> Self {
        let [value, instead_of] = [changed.now, changed.usual].map(|figure| figure.decimals()[1]);
        let (threshold, which, unit) = (changed.name, changed.which, changed.now.unit.symbol);
        Self { threshold, which, value, instead_of, unit, text: explain::changed(changed) }
    }
}

fn own_thresholds(finding: &Finding) -> Vec<OwnThreshold> {
    finding.own_thresholds().iter().map(OwnThreshold::from).collect()
}

/// A finding.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FindingJson {
    /// The rule's id.
    pub rule: &'static str,
    /// `mismatch`, `tight`, `unstated` or `fits`.
    pub status: &'static str,
    /// Slots concerned, the part in the way first.
    pub slots: Vec<String>,
    /// What is asked.
    pub required: Option<Amount>,
    /// What is there.
    pub available: Option<Amount>,
    /// What is to spare, as a share of what is asked.
    pub margin: Option<f64>,
    /// The sentence.
    pub message: String,
    /// What the pilot notices; null unless it is a mismatch or tight.
    pub costs: Option<&'static str>,
    /// Ways out, from the usual to the last resort; empty for what fits.
    pub hints: Vec<String>,
    /// The user's own thresholds that it rests on; empty when all are the program's.
    pub own_thresholds: Vec<OwnThreshold>,
    /// The user's own estimates that it rests on.
    pub own_estimates: Vec<Fact>,
    /// What it rests on.
    pub because: Vec<Step>,
    /// Where the rule comes from.
    pub source: &'static str,
}

/// A caution or a piece of advice.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Remark {
    /// The rule's id.
    pub rule: &'static str,
    /// The sentence.
    pub message: String,
    /// The user's own thresholds that it rests on; empty when all are the program's.
    pub own_thresholds: Vec<OwnThreshold>,
    /// Where it comes from.
    pub source: &'static str,
}

/// An amount of money.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Price {
    /// Three letters (ISO 4217).
    pub currency: String,
    /// Decimal amount as text.
    pub amount: String,
}

impl From<Money> for Price {
    fn from(money: Money) -> Self {
        Self { currency: money.currency().to_owned(), amount: money.amount() }
    }
}

/// What the build adds up to.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TotalsJson {
    /// Left to pay, one amount a currency.
    pub cost: Vec<Price>,
    /// Slots with a part that has no price and is not owned.
    pub unpriced: Vec<&'static str>,
    /// Slots on the craft with a part whose mass nobody published.
    pub unweighed: Vec<&'static str>,
    /// Mass without packs and payload; null while a mass is not known.
    pub dry_mass_g: Option<Band>,
    /// Mass at take-off; null while a mass is not known.
    pub takeoff_mass_g: Option<Band>,
}

/// The whole report.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReportJson {
    /// [`SCHEMA`].
    pub schema: u32,
    /// Name of the build.
    pub build: String,
    /// Findings, gravest first.
    pub findings: Vec<FindingJson>,
    /// What nobody stated, each figure once, the one for which most findings wait first.
    pub unstated: Vec<QuestionJson>,
    /// What the user estimates, and what does not count of it.
    pub estimates: Vec<EstimateJson>,
    /// Cautions about law, transport and hazards.
    pub cautions: Vec<Remark>,
    /// Advice on purpose, pilot and place.
    pub advice: Vec<Remark>,
    /// Mass and price.
    pub totals: TotalsJson,
    /// Figures of the flight; null when they cannot be solved, and then a finding of the rule `flies` says why.
    pub flight: Option<FlightJson>,
    /// How each main figure comes about, down to facts; over the whole answer each derivation is told once.
    pub workings: Vec<WorkingJson>,
    /// What was measured and calibrates the figures, each as a line.
    pub measured: Vec<String>,
    /// What is to be known about the files read, such as parts of one file that shadow those of another.
    pub notes: Vec<String>,
}

/// The report of a build, with notes about the files that were read for it.
pub fn report(report: &Report, notes: &[String]) -> ReportJson {
    let reasons = report.findings.iter().flat_map(|finding| finding.outcome.facts.iter().map(|(_, because)| because));
    let workings = report.workings();
    let mut telling = Telling::of(reasons.chain(workings.iter().map(|working| &working.because)));
    let findings = report.findings.iter().map(|one| finding(one, &mut telling)).collect();
    let worked = |one: &Working| WorkingJson { figure: one.key, title: one.title, step: step(&one.because, &mut telling) };
    ReportJson {
        schema: SCHEMA,
        build: report.craft.build.name.clone(),
        findings,
        unstated: unstated::json(report),
        estimates: unstated::estimated(report),
        cautions: report.cautions.iter().map(remark).collect(),
        advice: report.advice.iter().map(remark).collect(),
        totals: totals(&report.totals),
        flight: report.flight.as_ref().map(FlightJson::from),
        workings: workings.iter().map(worked).collect(),
        measured: report.measured.iter().map(|fact| explain::headline(fact)).collect(),
        notes: notes.to_vec(),
    }
}

fn finding(finding: &Finding, telling: &mut Telling) -> FindingJson {
    let (rule, verdict) = (rules::by_id(finding.rule), &finding.outcome.verdict);
    let costs = explain::cost(finding);
    FindingJson {
        rule: finding.rule,
        status: finding.status().word(),
        slots: finding.outcome.subjects.iter().map(Subject::slot_text).collect(),
        required: verdict.required.as_ref().map(Amount::from),
        available: verdict.available.as_ref().map(Amount::from),
        margin: verdict.margin,
        message: explain::message(finding),
        costs,
        hints: costs.map_or_else(Vec::new, |_| explain::hints(finding)),
        own_thresholds: own_thresholds(finding),
        own_estimates: finding.own_estimates().into_iter().filter_map(fact).collect(),
        because: finding.outcome.facts.iter().map(|(_, because)| step(because, telling)).collect(),
        source: rule.map_or("", |rule| rule.source),
    }
}

fn remark(finding: &Finding) -> Remark {
    let source = rules::by_id(finding.rule).map_or("", |rule| rule.source);
    Remark { rule: finding.rule, message: explain::message(finding), own_thresholds: own_thresholds(finding), source }
}

fn totals(totals: &Totals) -> TotalsJson {
    TotalsJson {
        cost: totals.cost.iter().copied().map(Price::from).collect(),
        unpriced: totals.unpriced.iter().map(|slot| slot.word()).collect(),
        unweighed: totals.unweighed.iter().map(|slot| slot.word()).collect(),
        dry_mass_g: totals.dry_mass.map(Band::from),
        takeoff_mass_g: totals.takeoff_mass.map(Band::from),
    }
}
