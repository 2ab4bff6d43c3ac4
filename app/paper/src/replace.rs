//! What stands in for a part that is gone, as JSON and as plain text.

use propwright_engine::{
    craft::Placed,
    explain,
    finding::Status,
    fit::{Following, Replacement, Swap, Way},
};
use propwright_schema::quantity::Money;
use serde::Serialize;

use crate::{
    fits::{self, ChangeJson, Reason},
    json::{Price, SCHEMA},
    page::Page,
};

/// A part that must follow.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SwapJson {
    /// The slot.
    pub slot: String,
    /// Id of the part of now.
    pub from: String,
    /// Id of the part that takes its place.
    pub to: String,
    /// How many.
    pub count: u32,
    /// What is to pay for them; null while that is not known.
    pub price: Option<Price>,
}

/// One way to put a part in.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WayJson {
    /// `fits`, `tight`, `unstated` or `mismatch`, without what must follow.
    pub status: &'static str,
    /// All that counts against the part, gravest first, without what must follow.
    pub reasons: Vec<Reason>,
    /// Can it be flown, with what must follow?
    pub goes: bool,
    /// The gravest that is left, with what follows.
    pub left: &'static str,
    /// How many are bought.
    pub count: u32,
    /// What is to pay for them; null while that is not known.
    pub price: Option<Price>,
    /// What must follow; null when no set of other parts helps, or none was found.
    pub follows: Option<Vec<SwapJson>>,
    /// What is to pay for all of it, one amount a currency; null while a price is not known.
    pub total: Option<Vec<Price>>,
    /// What all of it changes.
    pub change: ChangeJson,
}

/// A part that can stand in.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReplacementJson {
    /// Its id.
    pub part: String,
    /// Its name.
    pub name: String,
    /// Is it the same part as the one that is gone?
    pub same: bool,
    /// Is it no longer sold?
    pub retired: bool,
    /// How far its record is from that of the one that is gone, 0 to 1.
    pub distance: f64,
    /// In place of one of several; null for other slots and for a single one.
    pub one: Option<WayJson>,
    /// In place of all of the line.
    pub all: WayJson,
}

/// What stands in for a part.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReplaceJson {
    /// [`SCHEMA`].
    pub schema: u32,
    /// The place, such as `motor` or `motor[1]`.
    pub slot: String,
    /// Id of the part that is gone; null where none is fitted.
    pub gone: Option<String>,
    /// What stands in for it, what goes first, then the closest.
    pub replacements: Vec<ReplacementJson>,
    /// What is to be known about the files read.
    pub notes: Vec<String>,
}

/// Replacements as JSON.
pub fn json(slot: &str, gone: Option<&Placed>, all: &[Replacement], notes: &[String]) -> ReplaceJson {
    ReplaceJson {
        schema: SCHEMA,
        slot: slot.to_owned(),
        gone: gone.map(|placed| placed.subject.part.id.clone()),
        replacements: all.iter().map(replacement).collect(),
        notes: notes.to_vec(),
    }
}

fn replacement(found: &Replacement) -> ReplacementJson {
    ReplacementJson {
        part: found.part.id.clone(),
        name: found.part.name.clone(),
        same: found.same,
        retired: found.part.retired,
        distance: found.distance,
        one: found.one.as_ref().map(way),
        all: way(&found.all),
    }
}

fn way(way: &Way) -> WayJson {
    let price = |price: Option<Money>| price.map(Price::from);
    let swap = |swap: &Swap| SwapJson {
        slot: swap.place.slot.to_string(),
        from: swap.from.id.clone(),
        to: swap.to.id.clone(),
        count: swap.count,
        price: price(swap.price),
    };
    WayJson {
        status: way.status.word(),
        reasons: fits::reasons(&way.findings),
        goes: way.goes(),
        left: way.left().word(),
        count: way.buy.count,
        price: price(way.buy.price),
        follows: match &way.following {
            Following::Nothing => Some(Vec::new()),
            Following::Set(set) => Some(set.swaps.iter().map(swap).collect()),
            Following::Hopeless | Following::Open => None,
        },
        total: way.price().map(|sums| sums.into_iter().map(Price::from).collect()),
        change: way.whole_change().into(),
    }
}

/// Replacements as plain text.
pub fn text(slot: &str, gone: Option<&Placed>, all: &[Replacement], notes: &[String]) -> String {
    let mut page = Page::default();
    let name = gone.map_or("nothing", |placed| &placed.subject.part.name);
    page.heading(&format!("In place of the {name} ({slot})"));
    let (go, rest): (Vec<_>, Vec<_>) = all.iter().partition(|found| found.ways().any(Way::goes));
    page.paragraph("", &format!("{} of the {} closest parts can stand in", go.len(), all.len()));
    for (title, found) in [("Goes, the closest first", go), ("Does not go", rest)] {
        if !found.is_empty() {
            page.heading(title);
        }
        for found in found {
            block(&mut page, found);
        }
    }
    for note in notes {
        page.paragraph("Note: ", note);
    }
    page.finish()
}

fn block(page: &mut Page, found: &Replacement) {
    let remark = match (found.same, found.part.retired) {
        (true, _) => " (the same part)",
        (false, true) => " (no longer sold)",
        _ => "",
    };
    page.row(&[2, 70], &[&format!("{}{remark}", found.part.name), &format!("{} alike", alike(found.distance))]);
    for way in found.ways() {
        page.paragraph("      ", &way_words(found, way));
        if way.goes() {
            page.paragraph("        ", &fits::change(way.whole_change()));
        }
        let told = way.findings.iter().filter(|finding| finding.status() == way.status && !way.goes());
        told.for_each(|finding| page.paragraph("        - ", &explain::message(finding)));
    }
}

/// How alike two records are, in whole per cent.
pub fn alike(distance: f64) -> String {
    format!("{:.0} %", (1.0 - distance) * 100.0)
}

/// One way in a sentence: "One beside the others: tight, 19.90 EUR".
pub fn way_words(found: &Replacement, way: &Way) -> String {
    let is_one = found.one.as_ref().is_some_and(|one| std::ptr::eq(one, way));
    let how = match way.buy.count {
        _ if is_one => "One beside the others".to_owned(),
        1 => "In its place".to_owned(),
        count => format!("All {count}"),
    };
    let price = way.price().map_or_else(|| "price not known".to_owned(), |sums| money(&sums));
    match &way.following {
        Following::Nothing => format!("{how}: {}, {price}", way.status.word()),
        Following::Set(set) => {
            let swaps: Vec<String> = set.swaps.iter().map(swap_words).collect();
            format!("{how}: {}, {price} with what must follow: {}", set.status.word(), swaps.join("; "))
        }
        Following::Hopeless => format!("{how}: mismatch, and no exchange of up to three other parts mends it"),
        Following::Open => format!("{how}: {}", Status::Mismatch.word()),
    }
}

/// One part that follows: "4 × Harrowmint 5.1x4.6 in place of Plimsedge 5x4.5 (11.20 EUR)".
pub fn swap_words(swap: &Swap) -> String {
    let price = swap.price.map_or_else(|| "price not known".to_owned(), |price| price.to_string());
    let times = if swap.count > 1 { format!("{} × ", swap.count) } else { String::new() };
    format!("{times}{} in place of {} ({price})", swap.to.name, swap.from.name)
}

/// Sums side by side; nothing to pay is said so.
pub fn money(sums: &[Money]) -> String {
    if sums.is_empty() {
        "nothing to pay".to_owned()
    } else {
        sums.iter().map(ToString::to_string).collect::<Vec<_>>().join(" + ")
    }
}
