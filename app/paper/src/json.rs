//! A report as JSON: the keys that outside programs rely on. A key is only ever added; a changed meaning raises [`SCHEMA`].

use std::sync::Arc;

use propwright_engine::{
    Report,
    craft::Subject,
    explain::{
        self,
        telling::{Telling, Told},
    },
    finding::{Because, Changed, Claim, Datum, Finding, Missing, Unknown},
    interval::Interval,
    report::Totals,
    rules,
};
use propwright_schema::{part::Basis, quantity::Money};
use serde::Serialize;

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
        match datum.figure() {
            None => Self { name: Some(explain::datum(datum)), ..Self::default() },
            Some(interval) => {
                let exact = interval.is_exact();
                let [_, nominal, _] = interval.decimals();
                Self {
                    value: exact.then_some(nominal),
                    band: (!exact).then(|| interval.into()),
                    name: None,
                    unit: Some(interval.unit.symbol),
                }
            }
        }
    }
}

/// What a fact is about.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fact {
    /// Slot of the part, such as `motor` or `motor[1]`; null for the build list as a whole.
    pub slot: Option<String>,
    /// Id of the part.
    pub part: Option<String>,
    /// The field.
    pub field: &'static str,
    /// `measured` or `estimate`; null for the maker's figure.
    pub basis: Option<&'static str>,
    /// Its value.
    #[serde(flatten)]
    pub amount: Amount,
}

/// A computed value.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Derived {
    /// Slot of the part that it belongs to, if it is one part's.
    pub slot: Option<String>,
    /// What it is.
    pub title: &'static str,
    /// Formula with symbols.
    pub formula: &'static str,
    /// Where the formula comes from.
    pub source: &'static str,
    /// Its value.
    #[serde(flatten)]
    pub amount: Amount,
}

/// A threshold, or something taken as usual because nobody said otherwise.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Assumption {
    /// Name of the threshold in the policy file; null for what was taken as usual.
    pub threshold: Option<&'static str>,
    /// Where a threshold comes from.
    pub source: Option<&'static str>,
    /// With which value.
    #[serde(flatten)]
    pub amount: Amount,
}

/// What is not known.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Gap {
    /// Slot of the part concerned; null for the build list as a whole.
    pub slot: Option<String>,
    /// Id of the part.
    pub part: Option<String>,
    /// The field that was not published or not listed.
    pub field: Option<&'static str>,
}

/// One step of a reason: one of `fact`, `derived`, `assumption` and `missing` is present.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Step {
    /// The step as a line.
    pub text: String,
    /// A figure or word of a record or of the build list.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fact: Option<Fact>,
    /// A computed value.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub derived: Option<Derived>,
    /// A threshold or something taken as usual.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub assumption: Option<Assumption>,
    /// Something not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub missing: Option<Gap>,
    /// Number under which later steps refer to it; absent where none does.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub told: Option<usize>,
    /// Number of the step that tells what this one follows from; then `because` is empty.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub as_told: Option<usize>,
    /// What it follows from.
    pub because: Vec<Step>,
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
    pub hints: Vec<&'static str>,
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
    /// What was measured and calibrates the figures, each as a line.
    pub measured: Vec<String>,
    /// What is to be known about the files read, such as parts of one file that shadow those of another.
    pub notes: Vec<String>,
}

/// The report of a build, with notes about the files that were read for it.
pub fn report(report: &Report, notes: &[String]) -> ReportJson {
    let reasons = report.findings.iter().flat_map(|finding| finding.outcome.facts.iter().map(|(_, because)| because));
    let mut telling = Telling::of(reasons);
    ReportJson {
        schema: SCHEMA,
        build: report.craft.build.name.clone(),
        findings: report.findings.iter().map(|one| finding(one, &mut telling)).collect(),
        unstated: unstated::json(report),
        estimates: unstated::estimated(report),
        cautions: report.cautions.iter().map(remark).collect(),
        advice: report.advice.iter().map(remark).collect(),
        totals: totals(&report.totals),
        flight: report.flight.as_ref().map(FlightJson::from),
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
        hints: rule.filter(|_| costs.is_some()).map_or_else(Vec::new, |rule| rule.hints.to_vec()),
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

fn step(because: &Arc<Because>, telling: &mut Telling) -> Step {
    let (told, as_told) = match telling.tell(because) {
        Told::Full => (None, None),
        Told::Numbered(number) => (Some(number), None),
        Told::Again(number) => (None, Some(number)),
    };
    let from = if as_told.is_some() { &[][..] } else { &because.from };
    let mut step = Step {
        text: explain::because(because),
        fact: None,
        derived: None,
        assumption: None,
        missing: None,
        told,
        as_told,
        because: from.iter().map(|below| self::step(below, telling)).collect(),
    };
    match &because.claim {
        Claim::Fact { .. } => step.fact = fact(because),
        Claim::Derived { subject, title, datum, formula, source } => {
            let (slot, _) = place(subject.as_ref());
            step.derived = Some(Derived { slot, title, formula, source, amount: datum.into() });
        }
        Claim::Threshold { name, datum, source, .. } => {
            step.assumption = Some(Assumption { threshold: Some(name), source: Some(source), amount: datum.into() });
        }
        Claim::Assumption { datum, .. } => {
            let amount = datum.as_ref().map(Amount::from).unwrap_or_default();
            step.assumption = Some(Assumption { threshold: None, source: None, amount });
        }
        Claim::Missing(missing) => step.missing = Some(gap(missing)),
    }
    step
}

fn fact(because: &Because) -> Option<Fact> {
    let Claim::Fact { subject, field, datum, basis, .. } = &because.claim else { return None };
    let (slot, part) = place(subject.as_ref());
    Some(Fact { slot, part, field, basis: basis.map(Basis::word), amount: datum.into() })
}

pub(crate) fn place(subject: Option<&Subject>) -> (Option<String>, Option<String>) {
    (subject.map(Subject::slot_text), subject.map(|subject| subject.part.id.clone()))
}

fn gap(missing: &Missing) -> Gap {
    let (slot, part) = place(missing.subject.as_ref());
    let (slot, field) = match &missing.what {
        Unknown::Field(field) | Unknown::Line(field) => (slot, Some(*field)),
        Unknown::Empty(empty) => (Some(empty.to_string()), None),
        Unknown::Infeasible(_) | Unknown::Outside(_) => (slot, None),
    };
    Gap { slot, part, field }
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
