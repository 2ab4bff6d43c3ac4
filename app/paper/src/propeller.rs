//! The figures of a propeller alone, as JSON and as plain text.

use propwright_engine::{explain, models::predict::Point};
use serde::Serialize;

use crate::{json::Band, page::Page};

/// One state.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PointJson {
    /// Advance ratio J.
    pub advance_ratio: f64,
    /// Thrust coefficient CT.
    pub ct: Band,
    /// Power coefficient CP.
    pub cp: Band,
    /// Thrust.
    pub thrust_n: Band,
    /// Shaft power.
    pub power_w: Band,
}

/// All states that were asked for.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PropellerJson {
    /// In the order in which they were asked.
    pub points: Vec<PointJson>,
}

/// The states as JSON.
pub fn json(points: &[Point]) -> PropellerJson {
    let one = |point: &Point| PointJson {
        advance_ratio: point.advance_ratio,
        ct: point.ct.into(),
        cp: point.cp.into(),
        thrust_n: point.thrust_n.into(),
        power_w: point.power_w.into(),
    };
    PropellerJson { points: points.iter().map(one).collect() }
}

/// The states as plain text, bands from P5 to P95.
pub fn text(points: &[Point]) -> String {
    let mut page = Page::default();
    for point in points {
        page.heading(&format!("Advance ratio {}", explain::number(point.advance_ratio)));
        for (lead, band, unit) in [
            ("CT      ", point.ct, ""),
            ("CP      ", point.cp, ""),
            ("Thrust  ", point.thrust_n, " N"),
            ("Power   ", point.power_w, " W"),
        ] {
            page.paragraph(lead, &format!("{:.4}{unit} ({:.4}–{:.4})", band.nominal(), band.low(), band.high()));
        }
    }
    page.finish()
}
