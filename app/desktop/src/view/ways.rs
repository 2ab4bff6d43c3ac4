//! The ways out of what stands in the way, in words.

use std::{collections::BTreeMap, sync::Arc};

use propwright_engine::{
    explain,
    fit::repair::{Fault, Repairs, Step, Way},
    rules,
};
use propwright_schema::build_list::BuildList;

use super::lower_first;

/// One way out.
#[derive(Debug, Clone, PartialEq)]
pub struct WayOut {
    /// What one does: "Take the M3 x 8 screws in place of the M3 x 10 screws".
    pub steps: String,
    /// What it costs and changes.
    pub changes: String,
    /// What it removes besides, and what turns tight or unknown, one line each.
    pub remarks: Vec<String>,
    /// The list after it.
    pub build: Arc<BuildList>,
}

/// What is known of one mismatch.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct WaysOut {
    /// The ways, the cheapest first.
    pub ways: Vec<WayOut>,
    /// The fewest choices that are in each other's way, in a sentence, or why none are told.
    pub conflict: String,
}

/// All ways out of a list.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Mended {
    /// Of each mismatch.
    pub of: BTreeMap<Fault, WaysOut>,
    /// Of several mismatches: the smallest sets of steps after which none is left.
    pub sets: Vec<WayOut>,
    /// Several mismatches, each with a way out, and no set of them settles all.
    pub apart: bool,
}

/// The ways out in words.
pub fn mended(found: &Repairs) -> Mended {
    let of = found.mismatches.iter().map(|mismatch| {
        let fault = Fault::of(&mismatch.finding);
        let ways = mismatch.ways.iter().map(|way| way_out(way, Some(&fault))).collect();
        let conflict = mismatch.conflict.as_ref();
        let conflict = conflict.map_or_else(|untold| explain::repair::untold(*untold), explain::repair::conflict);
        (fault.clone(), WaysOut { ways, conflict })
    });
    let several = found.mismatches.len() > 1 && found.mismatches.iter().all(|mismatch| !mismatch.ways.is_empty());
    Mended {
        of: of.collect(),
        sets: found.sets.iter().map(|way| way_out(way, None)).collect(),
        apart: several && found.sets.is_empty(),
    }
}

fn way_out(way: &Way, of: Option<&Fault>) -> WayOut {
    let buys = way.steps.iter().filter(|step| step.buys().is_some()).count();
    let prices: Vec<String> = way.steps.iter().filter_map(Step::price).map(|price| price.to_string()).collect();
    let price = match (buys, prices.len()) {
        (0, _) => "nothing to buy".to_owned(),
        (buys, known) if known < buys => "price not known".to_owned(),
        _ => prices.join(" + "),
    };
    let mut also: Vec<String> = Vec::new();
    for fault in way.removes.iter().filter(|fault| of.is_some_and(|of| of != *fault)) {
        let title = rules::by_id(fault.rule).map_or_else(String::new, |rule| format!("settles too: {}", lower_first(rule.title)));
        if !also.contains(&title) {
            also.push(title);
        }
    }
    let left = way.leaves.iter().map(|finding| format!("then {}: {}", finding.status().word(), explain::message(finding)));
    WayOut {
        steps: explain::repair::steps(&way.steps),
        changes: format!("{price} · {}", propwright_paper::fits::change(&way.change)),
        remarks: also.into_iter().chain(left).collect(),
        build: Arc::clone(&way.build),
    }
}
