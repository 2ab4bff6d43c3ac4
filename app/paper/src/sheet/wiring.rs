//! How a part is wired, in words for the bench.

use propwright_engine::{craft::Placed, explain};
use propwright_schema::{
    build_list::{BuildList, Feed},
    slot::Slot,
    value::Value,
};

/// Feed, ports, plugs and leads of a part, each in a few words; empty where nothing is said.
pub(super) fn of(placed: &Placed, build: &BuildList) -> Vec<String> {
    let fitted = &placed.fitted;
    let mut said = Vec::new();
    said.extend(fitted.feed.as_ref().map(feed));
    said.extend(fitted.uart.map(|number| format!("serial port {number}")));
    said.extend(fitted.outputs.as_ref().map(|outputs| {
        let each: Vec<String> = outputs.iter().map(ToString::to_string).collect();
        format!("motor outputs {}", each.join(", "))
    }));
    said.extend(fitted.between_mm.map(|between| format!("{between} mm of washers and pads under the head")));
    if placed.subject.slot == Slot::Battery {
        let several = fitted.count > 1;
        said.extend(build.packs.filter(|_| several).map(|packs| format!("{} packs {}", fitted.count, packs.word())));
    }
    said.extend(leads(placed));
    said.extend(plugs(placed));
    said
}

fn feed(feed: &Feed) -> String {
    match feed {
        Feed::Pack => "fed from the pack".to_owned(),
        Feed::Rail(name) => format!("fed from rail {name}"),
        Feed::Partner => "fed through its partner".to_owned(),
        Feed::Own => "its own cell".to_owned(),
    }
}

fn field(placed: &Placed, name: &str) -> Option<Value> {
    placed.subject.part.role(placed.subject.slot)?.get(name)
}

fn leads(placed: &Placed) -> Vec<String> {
    let word = |name| field(placed, name).map(|value| explain::value(&value));
    let mut said = Vec::new();
    said.extend(word("plug").map(|plug| format!("plug {plug}")));
    let length = word("lead_length_mm").map_or_else(String::new, |length| format!(", {length}"));
    said.extend(word("lead_awg").map(|gauge| format!("leads AWG {gauge}{length}")));
    said
}

/// Pin order of each plug, from the mark on.
fn plugs(placed: &Placed) -> Vec<String> {
    let Some(plugs) = field(placed, "plugs") else { return Vec::new() };
    let told = |plug: &Value| {
        let to = plug.field("to").and_then(Value::word)?;
        let kind = plug.field("plug").and_then(Value::word).unwrap_or("plug of unknown kind");
        let pins = plug.field("pins").map_or_else(
            || "pin order not published: meter each pin before power".to_owned(),
            |pins| format!("pins from the mark {}", explain::value(pins).replace(", ", " · ")),
        );
        Some(format!("to the {}: {kind}, {pins}", to.replace('-', " ")))
    };
    plugs.items().iter().filter_map(told).collect()
}
