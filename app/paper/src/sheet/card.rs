//! The flight card: what the pilot needs in the field, on a leaf that goes into a pocket.

use propwright_engine::{Report, explain, finding::Status};
use propwright_schema::slot::Slot;

use super::{
    Format, Setting, Sheet,
    flow::{Cell, Flow},
    said,
};
use crate::air;

/// Shares of the columns.
const COLUMNS: [f32; 2] = [40.0, 60.0];

/// The flight card of a report; always A6.
pub fn flight_card(report: &Report, setting: Setting) -> Sheet {
    let build = &report.craft.build;
    let setting = Setting { format: Format::A6, ..setting };
    let mut flow = Flow::new(setting.format, &build.name, &setting.foot("Flight card", &build.name));
    flow.title(&setting.date());
    let mismatches = report.count(Status::Mismatch);
    if mismatches > 0 {
        flow.strong(&format!("Not fit to fly: {mismatches} in the way, see the build sheet."));
    }
    let mut row = |what: &str, text: String| flow.row(&COLUMNS, &[Cell::of(what).soft(), Cell::of(text).bold()]);
    row("take-off mass", said(report.totals.takeoff_mass.as_ref()));
    let packs = report.craft.in_slot(Slot::Battery).iter().filter(|placed| placed.listed_here);
    for pack in packs {
        row("pack", format!("{} × {}", pack.fitted.count, pack.subject.part.name));
    }
    if let Some(flight) = &report.flight {
        row("calm", explain::figure(&flight.times.calm));
        row("hard", explain::figure(&flight.times.hard));
        row("hover duty", explain::figure(&flight.hover_duty));
        row("comfortable wind", explain::figure(&flight.wind_held));
        row("tilt-limited speed", explain::figure(&flight.tilt_limited_speed));
        row("energy radius", explain::figure(&flight.radius.energy));
        row("reach ends by", flight.radius.limited_by.clone());
        flow.paragraph(&air::turn_back(flight), 0.0);
        if flight.told.iter().any(|told| told.estimated) {
            flow.small("These figures rest on your own estimates: see the build sheet.", 0.0);
        }
    } else {
        row("flight", "no figures: see the build sheet".to_owned());
    }
    flow.heading("Before each flight");
    for step in BEFORE {
        flow.tick(step);
    }
    flow.heading("After it");
    flow.paragraph("min ______   mAh put back ______   motors cold / warm / hot", 0.0);
    if !report.cautions.is_empty() {
        flow.heading("Cautions");
    }
    for caution in &report.cautions {
        flow.small(&format!("– {}", explain::message(caution)), 0.0);
    }
    flow.finish()
}

/// Common practice, no source; local rules come first.
const BEFORE: [&str; 6] = [
    "Place, weather and local rules allow the flight; an observer stands by.",
    "Propellers whole and tight, pack strapped, antennas on.",
    "Pack full, plug seated; nobody within reach of the propellers.",
    "Picture, link and fail-safe good; channel free.",
    "Home point set, where the craft flies home by itself.",
    "Landing place and turn-back line agreed.",
];
