//! Ways out of every mismatch, as JSON and as plain text.

use propwright_engine::{
    Report, explain,
    finding::Finding,
    fit::repair::{Choice, Fault, Mismatch, Repairs, Step, Way},
    rules,
    unknown::questions,
};
use propwright_schema::build_list::Fitted;
use serde::Serialize;

use crate::{
    fits::{self, ChangeJson},
    json::{Price, SCHEMA},
    page::Page,
    unstated::{self, QuestionJson},
};

/// A part that takes the place of another, joins the list, or is left out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SwapJson {
    /// The slot.
    pub slot: &'static str,
    /// Id of the part of now; null for one that joins.
    pub from: Option<String>,
    /// Id of the new part; null for one that is left out.
    pub to: Option<String>,
    /// How many.
    pub count: u32,
}

/// A setting or wire that changes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SettingJson {
    /// Slot of the line; null for the list as a whole.
    pub slot: Option<&'static str>,
    /// Id of the part; null for the list as a whole.
    pub part: Option<String>,
    /// `feed`, `uart`, `outputs`, `count`, `packs` or `output_limit_percent`.
    pub field: &'static str,
    /// What it says now; null where it says nothing.
    pub from: Option<String>,
    /// What it says afterwards.
    pub to: String,
}

/// What is tight or not known after a way, and was not before.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Left {
    /// The rule's id.
    pub rule: &'static str,
    /// `tight` or `unstated`.
    pub status: &'static str,
    /// The sentence.
    pub message: String,
}

/// A way out, judged as a whole.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RepairJson {
    /// The rules whose mismatches are gone.
    pub removes: Vec<&'static str>,
    /// Parts that change.
    pub swaps: Vec<SwapJson>,
    /// Settings and wires that change.
    pub settings: Vec<SettingJson>,
    /// The steps in words.
    pub steps: Vec<String>,
    /// Price of the new parts in whole packs, one amount each; a part without a known price is left out.
    pub price: Vec<Price>,
    /// What else it changes.
    pub change: ChangeJson,
    /// What turns tight or unknown.
    pub leaves: Vec<Left>,
}

/// The fewest choices that are in each other's way.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ConflictJson {
    /// The rule that they break.
    pub rule: &'static str,
    /// The choices, a line as `slot: part`, a statement of the list as the name of its field.
    pub minimal: Vec<String>,
    /// The same in a sentence.
    pub sentence: String,
    /// The ways out, by their places in `repairs`.
    pub ways_out: Vec<usize>,
}

/// Why no conflict is told of a mismatch.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct UntoldJson {
    /// The rule of the mismatch.
    pub rule: &'static str,
    /// Why, in a sentence.
    pub sentence: String,
}

/// The answer of `repair`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RepairsJson {
    /// [`SCHEMA`].
    pub schema: u32,
    /// Name of the build.
    pub build: String,
    /// The rules of all mismatches, in the order of the report.
    pub mismatches: Vec<&'static str>,
    /// Ways out, each once, the cheapest first.
    pub repairs: Vec<RepairJson>,
    /// Of each mismatch the fewest choices behind it.
    pub conflicts: Vec<ConflictJson>,
    /// The mismatches of which none is told.
    pub untold: Vec<UntoldJson>,
    /// The smallest sets of steps after which no mismatch is left, where there are several.
    pub sets: Vec<RepairJson>,
    /// What nobody stated.
    pub unstated: Vec<QuestionJson>,
    /// What is to be known about the files read.
    pub notes: Vec<String>,
}

/// The ways out as JSON.
pub fn json(report: &Report, found: &Repairs, notes: &[String]) -> RepairsJson {
    let ways = found.ways();
    RepairsJson {
        schema: SCHEMA,
        build: report.craft.build.name.clone(),
        mismatches: found.mismatches.iter().map(|mismatch| mismatch.finding.rule).collect(),
        repairs: ways.iter().map(|way| repair(report, way)).collect(),
        conflicts: found.mismatches.iter().filter_map(|mismatch| conflict(mismatch, &ways)).collect(),
        untold: found.mismatches.iter().filter_map(untold).collect(),
        sets: found.sets.iter().map(|way| repair(report, way)).collect(),
        unstated: unstated::json(report),
        notes: notes.to_vec(),
    }
}

fn repair(report: &Report, way: &Way) -> RepairJson {
    let mut removes: Vec<&str> = way.removes.iter().map(|fault| fault.rule).collect();
    removes.dedup();
    let left =
        |finding: &Finding| Left { rule: finding.rule, status: finding.status().word(), message: explain::message(finding) };
    RepairJson {
        removes,
        swaps: way.steps.iter().filter_map(swap).collect(),
        settings: way.steps.iter().filter_map(|step| setting(report, step)).collect(),
        steps: way.steps.iter().map(explain::repair::step).collect(),
        price: way.steps.iter().filter_map(Step::price).map(Price::from).collect(),
        change: (&way.change).into(),
        leaves: way.leaves.iter().map(left).collect(),
    }
}

fn swap(step: &Step) -> Option<SwapJson> {
    match step {
        Step::Swap { at, to, count } => {
            Some(SwapJson { slot: at.slot.word(), from: Some(at.part.id.clone()), to: Some(to.id.clone()), count: *count })
        }
        Step::Add { slot, part, count, .. } => {
            Some(SwapJson { slot: slot.word(), from: None, to: Some(part.id.clone()), count: *count })
        }
        Step::Remove(at) => Some(SwapJson { slot: at.slot.word(), from: Some(at.part.id.clone()), to: None, count: 1 }),
        _ => None,
    }
}

/// A field's name, what a line says in it now, and what it says afterwards.
type Said = (&'static str, fn(&Fitted) -> Option<String>, String);

fn setting(report: &Report, step: &Step) -> Option<SettingJson> {
    let build = &report.craft.build;
    let numbers = |numbers: &[u32]| numbers.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
    let (at, (field, now, to)): (_, Said) = match step {
        Step::Feed { at, to } => (at, ("feed", |line| line.feed.as_ref().map(explain::repair::feed), explain::repair::feed(to))),
        Step::Uart { at, to } => (at, ("uart", |line| line.uart.map(|port| port.to_string()), to.to_string())),
        Step::Count { at, to } => (at, ("count", |line| Some(line.count.to_string()), to.to_string())),
        Step::Outputs { at, to } => {
            let said: fn(&Fitted) -> Option<String> = |line| {
                let outputs = line.outputs.as_ref()?;
                Some(outputs.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "))
            };
            (at, ("outputs", said, numbers(to)))
        }
        Step::Washers { at, to } => {
            (at, ("between_mm", |line| line.between_mm.map(|between| between.decimal().to_string()), to.decimal().to_string()))
        }
        Step::Packs(to) => {
            let from = build.packs.map(|packs| packs.word().to_owned());
            return Some(SettingJson { slot: None, part: None, field: "packs", from, to: to.word().to_owned() });
        }
        Step::OutputLimit(to) => {
            let from = build.output_limit_percent.map(|limit| limit.decimal().to_string());
            let to = to.decimal().to_string();
            return Some(SettingJson { slot: None, part: None, field: "output_limit_percent", from, to });
        }
        Step::Swap { .. } | Step::Add { .. } | Step::Remove(_) => return None,
    };
    let from = build.parts.get(at.line).and_then(now);
    Some(SettingJson { slot: Some(at.slot.word()), part: Some(at.part.id.clone()), field, from, to })
}

fn conflict(mismatch: &Mismatch, ways: &[&Way]) -> Option<ConflictJson> {
    let conflict = mismatch.conflict.as_ref().ok()?;
    let fault = Fault::of(&mismatch.finding);
    let minimal = conflict.choices.iter().map(|choice| match choice {
        Choice::Line(at) => format!("{}: {}", at.slot, at.part.id),
        Choice::Unplaced { slot, id, .. } => format!("{slot}: {id}"),
        Choice::Said(field) => (*field).to_owned(),
    });
    Some(ConflictJson {
        rule: conflict.rule,
        minimal: minimal.collect(),
        sentence: explain::repair::conflict(conflict),
        ways_out: ways.iter().enumerate().filter(|(_, way)| way.removes.contains(&fault)).map(|(at, _)| at).collect(),
    })
}

fn untold(mismatch: &Mismatch) -> Option<UntoldJson> {
    let untold = mismatch.conflict.as_ref().err()?;
    Some(UntoldJson { rule: mismatch.finding.rule, sentence: explain::repair::untold(*untold) })
}

/// The ways out as plain text.
pub fn text(report: &Report, found: &Repairs, notes: &[String]) -> String {
    let mut page = Page::default();
    page.heading(&format!("Ways out for {}", report.craft.build.name));
    page.paragraph(
        "",
        match found.mismatches.len() {
            0 => "No mismatch: there is nothing to mend.",
            1 => "1 mismatch. Every way below was judged on the list after it, models and all: it removes the mismatch and adds none.",
            _ => "Several mismatches. Every way below was judged on the list after it, models and all: it removes what it names and adds no mismatch.",
        },
    );
    for (at, mismatch) in found.mismatches.iter().enumerate() {
        of_one(&mut page, at + 1, mismatch);
    }
    if found.mismatches.len() > 1 {
        together(&mut page, found);
    }
    let questions = questions(report);
    if !questions.is_empty() {
        page.heading("What to look up or measure");
        unstated::text(&mut page, &questions);
    }
    for note in notes {
        page.paragraph("Note: ", note);
    }
    page.finish()
}

fn title(rule: &str) -> &str {
    rules::by_id(rule).map_or(rule, |rule| rule.title)
}

fn of_one(page: &mut Page, number: usize, mismatch: &Mismatch) {
    page.gap();
    page.paragraph(&format!("{number:>2}. "), &format!("{} ({})", title(mismatch.finding.rule), mismatch.finding.rule));
    page.paragraph("    ", &explain::message(&mismatch.finding));
    let conflict = mismatch.conflict.as_ref();
    page.paragraph(
        "    In the way: ",
        &conflict.map_or_else(|untold| explain::repair::untold(*untold), explain::repair::conflict),
    );
    if mismatch.ways.is_empty() {
        page.paragraph("    ", "The catalogue holds no way out in so few steps.");
    }
    for way in &mismatch.ways {
        way_out(page, way, Some(mismatch.finding.rule));
    }
}

fn way_out(page: &mut Page, way: &Way, of: Option<&str>) {
    let prices: Vec<String> = way.steps.iter().filter_map(Step::price).map(|price| price.to_string()).collect();
    let buys = way.steps.iter().filter(|step| step.buys().is_some()).count();
    let price = match (buys, prices.len()) {
        (0, _) => "nothing to buy".to_owned(),
        (buys, known) if known < buys => [prices, vec!["price ?".to_owned()]].concat().join(" + "),
        _ => prices.join(" + "),
    };
    page.paragraph("    - ", &format!("{} ({price})", explain::repair::steps(&way.steps)));
    page.paragraph("      Changes: ", &fits::change(&way.change));
    let mut also: Vec<&str> =
        way.removes.iter().map(|fault| fault.rule).filter(|rule| of.is_some_and(|of| of != *rule)).collect();
    also.dedup();
    if !also.is_empty() {
        page.paragraph("      Removes too: ", &also.iter().map(|rule| title(rule)).collect::<Vec<_>>().join(", "));
    }
    for finding in &way.leaves {
        page.paragraph(&format!("      Then {}: ", finding.status().word()), &explain::message(finding));
    }
}

fn together(page: &mut Page, found: &Repairs) {
    page.heading("All at once");
    if found.sets.is_empty() {
        page.paragraph("", "No set of the ways above removes all mismatches together.");
    }
    for way in &found.sets {
        way_out(page, way, None);
    }
}
