//! Up to four builds side by side on paper.

use propwright_engine::{
    Report, explain,
    finding::Status,
    fit::compare::{Comparison, Listed},
    rules,
};

use super::{
    Setting, Sheet,
    flow::{Cell, Flow},
};
use crate::fits;

/// The comparison of reports, in their order.
pub fn comparison(reports: &[&Report], compared: &Comparison, setting: Setting) -> Sheet {
    let names: Vec<&str> = reports.iter().map(|report| report.craft.build.name.as_str()).collect();
    let title = format!("{} side by side", names.join(", "));
    let mut flow = Flow::new(setting.format, "Builds side by side", &setting.foot("Comparison", &names.join(", ")));
    flow.title(&format!("{title} · {}", setting.date()));
    let mut shares = vec![24.0];
    shares.extend(reports.iter().map(|_| 76.0 / reports.len().max(1) as f32));
    let row = |flow: &mut Flow, what: &str, each: Vec<String>, bold: bool| {
        let cells = each.into_iter().map(|text| if bold { Cell::of(text).bold() } else { Cell::of(text) });
        let cells: Vec<Cell> = std::iter::once(Cell::of(what).soft()).chain(cells).collect();
        flow.row(&shares, &cells);
    };
    flow.heading("Figures");
    row(&mut flow, "", names.iter().map(|name| (*name).to_owned()).collect(), true);
    let price = |report: &&Report| {
        let cost: Vec<String> = report.totals.cost.iter().map(ToString::to_string).collect();
        if cost.is_empty() { "nothing, or not known".to_owned() } else { cost.join(" + ") }
    };
    row(&mut flow, "left to pay", reports.iter().map(price).collect(), false);
    row(&mut flow, "take-off mass", compared.mass.iter().map(|mass| super::said(mass.as_ref())).collect(), false);
    for figure in &compared.figures {
        row(&mut flow, figure.figure.title, figure.each.iter().map(|one| super::said(one.as_ref())).collect(), false);
    }
    let changes = compared.changes.iter().enumerate();
    let changes =
        changes.map(|(at, change)| if at == 0 { "–".to_owned() } else { fits::change(change).replace(" · ", "\n") }).collect();
    row(&mut flow, "against the first", changes, false);
    if !compared.parts.is_empty() {
        flow.heading("Parts that differ");
    }
    for differing in &compared.parts {
        row(&mut flow, differing.slot.title(), differing.each.iter().map(|listed| told(listed)).collect(), false);
    }
    if !compared.found.is_empty() {
        flow.heading("What was found");
    }
    for found in &compared.found {
        let title = rules::by_id(found.rule).map_or(found.rule, |rule| rule.title);
        let each = found.each.iter().map(|status| status.map_or("does not apply", Status::word).to_owned());
        row(&mut flow, title, each.collect(), false);
    }
    for report in reports {
        for finding in report.findings.iter().filter(|finding| finding.status() == Status::Mismatch) {
            flow.paragraph(&format!("– {}: {}", report.craft.build.name, explain::message(finding)), 0.0);
        }
    }
    flow.finish()
}

fn told(listed: &[Listed]) -> String {
    let each = listed.iter().map(|one| format!("{} × {}", one.count, one.part.name));
    let said: Vec<String> = each.collect();
    if said.is_empty() { "–".to_owned() } else { said.join(", ") }
}
