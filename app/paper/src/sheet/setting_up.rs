//! What is set in the flight controller's firmware, as far as the build decides it.

use propwright_engine::{Report, craft::Placed, explain};
use propwright_schema::{slot::Slot, value::Value};

/// One line a setting.
pub(super) fn reminders(report: &Report) -> Vec<String> {
    let mut said = Vec::new();
    said.extend(outputs(report));
    said.extend(field(report, Slot::Motor, "poles").map(|poles| format!("Motor poles for the rpm filter: {poles}.")));
    said.extend(protocol(report));
    said.extend(ports(report));
    said.extend(scale(report));
    said.extend(video(report));
    let purpose = &report.craft.build.purpose;
    if purpose.returns_home == Some(true) {
        said.push(
            "Return function: wait for satellites and home point before take-off; set its height above all obstacles.".into(),
        );
    }
    said.push("Fail-safe: what the craft does when the link is lost, tried with propellers off.".into());
    said
}

fn value(report: &Report, slot: Slot, name: &str) -> Option<Value> {
    let placed: &Placed = report.craft.in_slot(slot).first()?;
    placed.subject.part.role(slot)?.get(name)
}

fn field(report: &Report, slot: Slot, name: &str) -> Option<String> {
    value(report, slot, name).map(|value| explain::value(&value))
}

fn outputs(report: &Report) -> Vec<String> {
    let build = &report.craft.build;
    let mut said = Vec::new();
    said.push(match build.output_limit_percent {
        Some(limit) => format!("Motor output limit: {limit}. All figures of this sheet are taken with it."),
        None => "Motor output limit: none (100 %).".to_owned(),
    });
    for placed in report.craft.in_slot(Slot::Motor).iter().filter(|placed| placed.listed_here) {
        if let Some(outputs) = &placed.fitted.outputs {
            let each: Vec<String> = outputs.iter().map(ToString::to_string).collect();
            said.push(format!("Motor order: outputs {} go to {}.", each.join(", "), placed.subject.part.name));
        }
    }
    said
}

/// The protocols that controller and speed controller share.
fn protocol(report: &Report) -> Option<String> {
    let [esc, board] = [Slot::Esc, Slot::FlightController].map(|slot| value(report, slot, "protocols"));
    let (esc, board) = (esc?, board?);
    let shared: Vec<&str> = esc.items().iter().filter(|word| board.items().contains(word)).filter_map(Value::word).collect();
    let two_way = value(report, Slot::Esc, "two_way_rpm").and_then(|value| value.flag()) == Some(true);
    let more = if two_way { ", with rpm told back" } else { "" };
    (!shared.is_empty()).then(|| format!("Motor protocol: {}{more}.", shared.join(" or ")))
}

fn ports(report: &Report) -> Vec<String> {
    let port = |placed: &Placed| {
        let number = placed.fitted.uart?;
        let role = placed.subject.part.role(placed.subject.slot)?;
        let word = |name| role.get(name).map(|value| format!(", {}", explain::value(&value))).unwrap_or_default();
        Some(format!("Serial port {number}: {}{}.", placed.subject.slot.title(), word("serial")))
    };
    report.craft.listed().filter_map(port).collect()
}

fn scale(report: &Report) -> Option<String> {
    // A board that has no sensor says 0.
    let of = |slot| {
        value(report, slot, "current_scale_mv_per_a").filter(|scale| scale.si() != Some(0.0)).map(|value| explain::value(&value))
    };
    let scale = of(Slot::Esc).or_else(|| of(Slot::PowerBoard)).or_else(|| of(Slot::FlightController))?;
    Some(format!("Current sensor scale: {scale}; correct it after the first flights by the charge put back."))
}

fn video(report: &Report) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(steps) = value(report, Slot::VideoTransmitter, "steps") {
        let power = steps.items().iter().filter_map(|step| Some(explain::value(step.field("power_mw")?)));
        let power: Vec<String> = power.collect();
        said.push(format!("Video power steps: {}. Start on the lowest; what is allowed is up to local rules.", power.join(", ")));
    }
    said.extend(field(report, Slot::VideoTransmitter, "channels_mhz").map(|all| format!("Video channels: {all}.")));
    said.extend(
        field(report, Slot::Receiver, "region").map(|region| format!("Control link: region and band {region} at both ends.")),
    );
    said
}
