//! Sentences about ways out: a step, what is in each other's way, what is to be looked up.

use propwright_schema::{build_list::Feed, quantity::UNITS};

use super::field_words;
use crate::{
    fit::repair::{Choice, Conflict, Step, Untold},
    rules,
};

/// A step as an order to oneself: `Take the M3 x 8 in place of the M3 x 10`.
pub fn step(step: &Step) -> String {
    match step {
        Step::Swap { at, to, .. } => format!("Take the {} in place of the {}", to.name, at.part.name),
        Step::Add { slot, part, count, .. } => {
            let many = if *count > 1 { format!("{count} × ") } else { String::new() };
            format!("Add {many}{} as {}", part.name, slot.title().to_lowercase())
        }
        Step::Remove(at) => format!("Leave out the {}", at.part.name),
        Step::Feed { at, to } => format!("Feed the {} from {}", at.part.name, feed(to)),
        Step::Uart { at, to } => format!("Move the {} to serial port {to}", at.part.name),
        Step::Outputs { at, to } => {
            let outputs: Vec<String> = to.iter().map(ToString::to_string).collect();
            format!("Put the {} on motor outputs {}", at.part.name, outputs.join(", "))
        }
        Step::Count { at, to } => format!("List {to} of the {}", at.part.name),
        Step::Washers { at, to } if to.steps() == 0 => format!("Leave out the washers under the heads of the {}", at.part.name),
        Step::Washers { at, to } => format!("Put {} mm of washers under each head of the {}", to.decimal(), at.part.name),
        Step::Packs(arrangement) => match arrangement.word() {
            "in turn" => "Fly the packs in turn".to_owned(),
            word => format!("Connect the packs in {word}"),
        },
        Step::OutputLimit(limit) => format!("Limit the motor outputs to {} %", limit.decimal()),
    }
}

/// All steps of a way, one behind the other.
pub fn steps(steps: &[Step]) -> String {
    let mut said = steps.iter().map(step);
    let first = said.next().unwrap_or_default();
    said.fold(first, |all, next| format!("{all}; {}", lower(&next)))
}

fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// What a part is fed from.
pub fn feed(feed: &Feed) -> String {
    match feed {
        Feed::Pack => "the pack".to_owned(),
        Feed::Rail(rail) => format!("the {rail} rail"),
        Feed::Partner => "the part it belongs to".to_owned(),
        Feed::Own => "its own battery".to_owned(),
    }
}

/// A choice: a part by its name, or what the list says as a whole.
pub fn choice(choice: &Choice) -> String {
    match choice {
        Choice::Line(at) => format!("the {}", at.part.name),
        Choice::Unplaced { slot, id, .. } => format!("“{id}” as {}", slot.title().to_lowercase()),
        Choice::Said(field) => said(field),
    }
}

/// Why no conflict is told, in one sentence.
pub fn untold(untold: Untold) -> String {
    match untold {
        Untold::NotSought => "The search ended before it came to the choices that are in each other's way.".to_owned(),
        Untold::TooMany(choices) => {
            format!("{choices} choices hang together here, too many to prove which of them are in each other's way.")
        }
        Untold::NoChoice => "No choice of the list is behind it: with all of them and nothing else it is not there.".to_owned(),
    }
}

fn said(field: &str) -> String {
    match field {
        "packs" => "the way the packs are connected".to_owned(),
        "output_limit_percent" => "the limit of the motor outputs".to_owned(),
        "weighed_g" => "the weighed mass".to_owned(),
        "purpose.usage" => "the use".to_owned(),
        "purpose.place" => "the place".to_owned(),
        "purpose.payload_g" => "the payload asked for".to_owned(),
        "purpose.path_km" => "the path asked for".to_owned(),
        "purpose.calm_min" => "the calm minutes asked for".to_owned(),
        "purpose.burst_s" => "the seconds of full throttle asked for".to_owned(),
        _ => format!("the stated {}", field_words(field.split_once('.').map_or(field, |(_, inner)| inner))),
    }
}

/// A minimal conflict in one sentence.
///
/// It says no more than is proven: a list of these choices alone shows the mismatch, and one without any of them does not.
pub fn conflict(conflict: &Conflict) -> String {
    let title = rules::by_id(conflict.rule).map_or(conflict.rule, |rule| rule.title);
    let named: Vec<String> = conflict.choices.iter().map(choice).collect();
    match named.as_slice() {
        [] => format!("The list breaks “{title}” whatever it holds."),
        [only] => format!("{} alone breaks “{title}”, whatever else is chosen.", upper(only)),
        [first, second] => {
            format!("{} and {second} are in each other's way (“{title}”); with only one of the two it is kept.", upper(first))
        }
        [first, between @ .., last] => format!(
            "{}, {} and {last} are in each other's way (“{title}”); without any one of them it is kept.",
            upper(first),
            between.join(", ")
        ),
    }
}

fn upper(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// With what a field is learned that nobody published: by the unit of its name.
pub fn tool(field: &str) -> &'static str {
    let suffix = UNITS.iter().map(|unit| unit.suffix).filter(|suffix| field.ends_with(suffix)).max_by_key(|suffix| suffix.len());
    match suffix.unwrap_or_default() {
        "_g" => "a kitchen scale that reads 0.1 g",
        "_mm" | "_in" => "calipers",
        "_v" | "_cell_v" => "the maker's sheet, or a multimeter",
        "_a" | "_burst_a" => "the maker's sheet, or a current meter in the lead",
        "_mohm" => "a charger or meter that shows milliohms",
        "_mah" => "a charger that counts what it puts in",
        "_min" | "_s" => "a watch",
        "_deg" => "a protractor",
        _ => "the maker's page or manual",
    }
}
