//! First power-up and setting up, step by step, with a box for each. Common practice, no source; local rules come first.

use propwright_engine::{Report, explain};
use propwright_schema::slot::Slot;

/// The steps that this build calls for, in order.
pub(super) fn steps(report: &Report) -> Vec<String> {
    let has = |slot| !report.craft.in_slot(slot).is_empty();
    let mut steps = vec!["Propellers off; they go on only where this list says so.".to_owned()];
    steps.push("No short between the pack leads: meter in both directions, before and after the capacitor is soldered.".into());
    steps.push(match full_charge(report) {
        Some(volts) => {
            format!("First power from a bench supply or through a current limiter rated for {volts} or more; no smoke, no heat.")
        }
        None => {
            "First power from a bench supply or through a current limiter rated for the pack's full charge; no smoke, no heat."
                .into()
        }
    });
    if has(Slot::VideoTransmitter) {
        steps.push("Video antenna on before the transmitter has power; lowest power step, channel and region as allowed.".into());
    }
    if has(Slot::AntennaControl) || has(Slot::Receiver) {
        steps.push("Receiver bound; antenna clear of carbon, propellers and other antennas.".into());
    }
    steps.push("Orientation: the picture of the craft follows every tilt and turn.".into());
    steps.push("Motor order and direction of each motor, one by one.".into());
    steps.push("Fail-safe tried: radio off, motors stop or the return function starts as set.".into());
    if report.craft.build.purpose.returns_home == Some(true) || has(Slot::Gps) {
        steps.push("Satellites found in the open, home point set, compass away from the pack leads.".into());
    }
    steps.push("Warning volts and landing volts set; the figures in the picture agree with a meter.".into());
    if let Some(limit) = report.craft.build.output_limit_percent {
        steps.push(format!("Output limit set to {limit}."));
    }
    if has(Slot::RemoteId) {
        steps.push("Remote identification seen on a receiver.".into());
    }
    steps.push(
        "All screws tight, thread lock on motors, nothing touches a winding, strap tight, leads clear of propellers.".into(),
    );
    steps.push("Propellers on, right way up, each direction in its place; people and animals away, eyes protected.".into());
    steps.push("Hover for 30 s at arm's length from nobody; land; smell, touch, look.".into());
    steps.push("After two minutes of hover the motors are hand-warm at most; after the first pack, charge put back: ______ mAh in ______ min.".into());
    steps
}

/// Volts of all packs full.
fn full_charge(report: &Report) -> Option<String> {
    report.figure("pack-full-volts").map(|volts| explain::figure(&volts))
}
