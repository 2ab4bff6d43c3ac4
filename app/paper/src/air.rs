//! The figures of the flight as a section of the plain text: with their bands, and what decides them.

use propwright_engine::{
    Report, explain,
    finding::Status,
    flight::{Deciding, Flight},
    interval::Interval,
    models::beaufort::beaufort,
};

use crate::page::Page;

/// Where the figures of a row begin.
const FIGURE: usize = 34;
/// Where what decides a figure begins.
const WIDE: usize = 52;

/// The section; when no flight could be solved, why not.
pub(crate) fn section(page: &mut Page, report: &Report) {
    page.heading("In the air");
    match &report.flight {
        Some(flight) => figures(page, report, flight),
        None => {
            for reason in grounded(report) {
                page.paragraph("  ", &reason);
            }
        }
    }
}

/// Why nothing is predicted.
pub(crate) fn grounded(report: &Report) -> Vec<String> {
    let open = report.findings.iter().filter(|finding| finding.rule == "flies" && finding.status() != Status::Fits);
    let mut reasons: Vec<String> = open.map(explain::message).collect();
    if reasons.is_empty() {
        reasons.push("Nothing is predicted until frame, motors, propellers, speed controller and pack are chosen.".to_owned());
    }
    reasons
}

fn figures(page: &mut Page, report: &Report, flight: &Flight) {
    let row = |page: &mut Page, what: &str, id: &str| {
        let Some(told) = flight.told.iter().find(|told| told.id == id) else {
            page.row(&[2, FIGURE], &[what, "not known"]);
            return;
        };
        let beside = told.modelled.filter(|modelled| *modelled != told.figure);
        let beside = beside.map_or_else(String::new, |modelled| format!("; unmeasured {}", explain::figure(&modelled)));
        let guessed = if told.estimated { "; rests on your estimates" } else { "" };
        let word = if id == "wind-held" { in_words(told.figure.si()) } else { String::new() };
        page.row(&[2, FIGURE], &[what, &format!("{}{word}{beside}{guessed}", explain::figure(&told.figure))]);
    };
    let [calm, full, rest] =
        [flight.mixes.calm_power, flight.mixes.hard_full, flight.mixes.hard_power].map(|share| explain::figure(&share));
    for (what, id) in [
        ("Thrust to weight", "thrust-to-weight"),
        ("Duty in hover, fresh pack", "hover-duty"),
        ("Pack current in hover", "hover-current"),
        ("Pack current at full throttle", "battery-burst"),
        ("Hover", "time-hover"),
        ("Calm flight", "time-calm"),
        ("Hard flight", "time-hard"),
        ("Flat out", "time-flat-out"),
        ("Longest, at its best speed", "time-longest"),
        ("Top speed", "top-speed"),
        ("Speed at the usual tilt limit", "tilt-limited-speed"),
        ("Comfortable wind", "wind-held"),
        ("Path in still air, all told", "path"),
        ("Radius by energy, out and back", "radius-energy"),
        ("Radius by the control link", "radius-control"),
        ("Radius by the video link", "radius-video"),
    ] {
        row(page, what, id);
    }
    page.paragraph("  ", &format!("What ends the reach first: {}.", flight.radius.limited_by));
    page.paragraph("  ", &turn_back(flight));
    page.gap();
    let mixes = format!(
        "Calm flight takes {calm} of the hover power; hard flight is full throttle for {full} of the time and {rest} of the hover power between. These are mixes, not a forecast of a pilot; conditions change them."
    );
    page.paragraph("  ", &mixes);
    if !report.measured.is_empty() {
        page.gap();
        page.paragraph("  ", "Measured, and counted in these figures:");
        for fact in &report.measured {
            page.paragraph("  - ", &explain::headline(fact));
        }
    }
    narrowed(page, flight);
}

/// Where to turn for home, in a sentence.
pub(crate) fn turn_back(flight: &Flight) -> String {
    let line = &flight.turn_back;
    let wind = line.headwind.map_or_else(|| "in still air".to_owned(), |wind| format!("against {}", explain::figure(&wind)));
    format!(
        "Turn for home at {} used or {} a cell under load, at the latest: out at {}, back {wind}, the reserve left.",
        explain::figure(&line.charge),
        explain::figure(&line.cell),
        explain::rounded(&line.speed)
    )
}

/// Up to which wind it flies with comfort, in a sentence.
pub(crate) fn comfortable(held: &Interval) -> String {
    format!("Comfortable up to a wind of {}{}.", explain::figure(held), in_words(held.si()))
}

/// The Beaufort word of a wind in m/s.
fn in_words(metres_a_second: f64) -> String {
    beaufort(metres_a_second).map_or_else(|_| String::new(), |step| format!(", {}", step.word))
}

/// What would narrow the bands: for each figure its inputs, and once for each input how it is measured.
fn narrowed(page: &mut Page, flight: &Flight) {
    page.gap();
    page.paragraph("  ", "Bands are P5 to P95. What decides their width:");
    let mut inputs: Vec<&Deciding> = Vec::new();
    for told in flight.told.iter().filter(|told| !told.deciding.is_empty()) {
        let each = told.deciding.iter().map(|one| format!("{} {:.0} %", one.name, one.share * 100.0));
        page.row(&[2, WIDE], &[told.title, &each.collect::<Vec<_>>().join(", ")]);
        for one in &told.deciding {
            if !inputs.iter().any(|known| known.name == one.name) {
                inputs.push(one);
            }
        }
    }
    page.gap();
    page.paragraph("  ", "To narrow them:");
    for input in inputs {
        page.paragraph("  - ", &format!("{}: {}", input.name, input.measure));
    }
}
