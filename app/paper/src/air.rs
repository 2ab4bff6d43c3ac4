//! The figures of the flight as a section of the plain text: with their bands, and what decides them.

use propwright_engine::{Report, explain, finding::Status, flight::Flight, interval::Interval};

use crate::page::Page;

/// Where the figures of a row begin.
const FIGURE: usize = 34;

/// The section; when no flight could be solved, why not.
pub(crate) fn section(page: &mut Page, report: &Report) {
    page.heading("In the air");
    match &report.flight {
        Some(flight) => figures(page, flight),
        None => reasons(page, report),
    }
}

fn reasons(page: &mut Page, report: &Report) {
    let open = report.findings.iter().filter(|finding| finding.rule == "flies" && finding.status() != Status::Fits);
    let mut told = false;
    for finding in open {
        page.paragraph("  ", &explain::message(finding));
        told = true;
    }
    if !told {
        page.paragraph("  ", "Nothing is predicted until frame, motors, propellers, speed controller and pack are chosen.");
    }
}

fn figures(page: &mut Page, flight: &Flight) {
    let row = |page: &mut Page, what: &str, figure: &Interval| page.row(&[2, FIGURE], &[what, &explain::figure(figure)]);
    row(page, "Thrust to weight", &flight.thrust_to_weight);
    row(page, "Duty in hover, fresh pack", &flight.hover_duty);
    row(page, "Pack current in hover", &flight.hover_current);
    row(page, "Pack current at full throttle", &flight.full_throttle_current);
    row(page, "Hover", &flight.times.hover);
    row(page, "Calm flight", &flight.times.calm);
    row(page, "Hard flight", &flight.times.hard);
    row(page, "Flat out", &flight.times.flat_out);
    row(page, "Top speed", &flight.top_speed);
    row(page, "Speed at the usual tilt limit", &flight.tilt_limited_speed);
    row(page, "Comfortable wind", &flight.wind_held);
    row(page, "Path in still air, all told", &flight.path);
    row(page, "Radius by energy, out and back", &flight.radius.energy);
    for (what, radius) in [("by the control link", &flight.radius.control_link), ("by the video link", &flight.radius.video_link)]
    {
        let figure = radius.as_ref().map_or_else(|| "not known".to_owned(), explain::figure);
        page.row(&[2, FIGURE], &[&format!("Radius {what}"), &figure]);
    }
    page.paragraph("  ", &format!("What ends the reach first: {}.", flight.radius.limited_by));
    page.gap();
    page.paragraph("  ", "Bands are P5 to P95. What would narrow them most:");
    for deciding in &flight.deciding {
        page.paragraph("  - ", &format!("{}: {}", deciding.name, deciding.measure));
    }
}
