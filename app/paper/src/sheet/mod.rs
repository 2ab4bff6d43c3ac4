//! Documents on paper: build sheet, shopping list, comparison, flight card and flight curves, as leaves that PDF, SVG, PNG and the preview
//! share. The same report that the window shows is read; nothing is judged here.

mod build;
mod card;
mod chart;
mod compared;
pub mod csv;
mod curves;
mod face;
mod flow;
mod leaf;
mod pdf;
mod plan;
mod png;
mod power_up;
mod setting_up;
mod shopping;
mod svg;
mod wiring;

use jiff::civil::Date;
use propwright_engine::{Report, interval::Interval};

pub use build::build_sheet;
pub use card::flight_card;
pub use compared::comparison;
pub use curves::flight_curves;
pub use flow::DASHES;
pub use leaf::{Face, Format, Leaf, Mark, Pen, Sheet, Spot, Tone};
pub use pdf::{PaperError, pdf};
pub use png::png;
pub use shopping::shopping_list;
pub use svg::svg;

/// How a document is laid out and what its foot says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Setting {
    /// Size of the paper.
    pub format: Format,
    /// Day that is printed; absent: a line to write it on.
    pub day: Option<Date>,
}

impl Setting {
    /// What stands below every leaf of a document about a build.
    fn foot(self, what: &str, build: &str) -> String {
        format!("{} · {what} · {build} · Propwright {}", self.date(), env!("CARGO_PKG_VERSION"))
    }

    /// The day, or a line to write it on.
    fn date(self) -> String {
        self.day.map_or_else(|| "date ____________".to_owned(), |day| day.to_string())
    }
}

/// The headline figures of a build with their bands, as far as they are known.
fn figures(report: &Report) -> Vec<(&'static str, Option<Interval>)> {
    let mut figures = vec![("Take-off mass", report.totals.takeoff_mass), ("Dry mass", report.totals.dry_mass)];
    let Some(flight) = &report.flight else { return figures };
    figures.extend([
        ("Thrust to weight", Some(flight.thrust_to_weight)),
        ("Duty in hover, fresh pack", Some(flight.hover_duty)),
        ("Pack current in hover", Some(flight.hover_current)),
        ("Pack current at full throttle", Some(flight.full_throttle_current)),
        ("Hover", Some(flight.times.hover)),
        ("Calm flight", Some(flight.times.calm)),
        ("Hard flight", Some(flight.times.hard)),
        ("Flat out", Some(flight.times.flat_out)),
        ("Top speed", Some(flight.top_speed)),
        ("Speed at the usual tilt limit", Some(flight.tilt_limited_speed)),
        ("Comfortable wind", Some(flight.wind_held)),
        ("Path in still air", Some(flight.path)),
        ("Radius by energy, out and back", Some(flight.radius.energy)),
        ("Radius by the control link", flight.radius.control_link),
        ("Radius by the video link", flight.radius.video_link),
    ]);
    figures
}

/// A figure in words, or that it is not known.
fn said(figure: Option<&Interval>) -> String {
    figure.map_or_else(|| "not known".to_owned(), propwright_engine::explain::figure)
}
