//! The arguments for and against, beside the drawing.

use egui::{Align, Layout, Margin, ScrollArea, Ui};
use propwright_engine::finding::Status;

use super::{Commands, asking, field, finding, ways};
use crate::{
    state::Document,
    theme::{self, GRID},
    view::{Card, meaning},
    widget::mark,
};

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let findings = &document.bench.findings;
    egui::Frame::NONE.inner_margin(Margin { left: 12, right: 4, top: 12, bottom: 8 }).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.add_space(2.0 * GRID);
            ui.label(theme::title("What stands in the way"));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                ui.add_space(4.0 * GRID);
                let [mismatch, to_choose, tight, unstated] = findings.counts;
                for (status, count) in [(Status::Unstated, unstated), (Status::Tight, tight), (Status::Mismatch, mismatch)] {
                    let about = format!("{count} {}. {}", status.word(), meaning(status));
                    ui.label(theme::caption(count.to_string())).on_hover_text(&about);
                    mark::mark(ui, status).on_hover_text(about);
                }
                if to_choose > 0 {
                    ui.label(theme::caption(format!("{to_choose} to choose")));
                }
                if !document.is_current() && document.bench.failure.is_none() {
                    ui.label(theme::caption("checking…"));
                }
            });
        });
        ui.add_space(2.0 * GRID);
        ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
            body(ui, document, commands);
            field::follow_focus(ui);
        });
    });
}

fn body(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let findings = &document.bench.findings;
    if let Some(failure) = &document.bench.failure {
        ui.label(theme::sentence("The build could not be judged."));
        ui.label(format!(
            "The program failed in the middle of it: {failure}. Undo the last edit, or save the list and report it."
        ));
        return;
    }
    if let Some(working) = &document.bench.working {
        finding::working(ui, document, working, true, commands);
    }
    ways::all_at_once(ui, document, commands);
    for card in &findings.open {
        finding::show(ui, document, card, commands);
    }
    asking::show(ui, document, commands);
    asking::guesses(ui, document, commands);
    if findings.open.is_empty() && findings.questions.is_empty() && document.report().is_some() {
        egui::Frame::NONE
            .inner_margin(Margin::symmetric(8, 4))
            .show(ui, |ui| ui.label(theme::sentence("Nothing stands in the way.")));
    }
    fitting(ui, document, &findings.fitting, commands);
    section(ui, document, "Cautions", &findings.cautions, commands);
    section(ui, document, "Advice", &findings.advice, commands);
}

/// One line for all that fits; opened, each with its reason.
fn fitting(ui: &mut Ui, document: &Document, cards: &[Card], commands: &mut Commands) {
    if cards.is_empty() {
        return;
    }
    let findings = &document.bench.findings;
    let more = if findings.open.is_empty() && findings.questions.is_empty() { "" } else { " more" };
    let text = if cards.len() == 1 { format!("1{more} fits") } else { format!("{}{more} fit", cards.len()) };
    let id = ui.scope_id().with("fitting");
    let open = ui
        .horizontal(|ui| {
            ui.add_space(2.0 * GRID);
            mark::mark(ui, Status::Fits);
            finding::toggle(ui, id, &text)
        })
        .inner;
    if open {
        for card in cards {
            finding::show(ui, document, card, commands);
        }
    }
}

/// Advice and cautions weigh nothing: they are read, and opened where one asks why.
fn section(ui: &mut Ui, document: &Document, title: &str, cards: &[Card], commands: &mut Commands) {
    if cards.is_empty() {
        return;
    }
    ui.add_space(3.0 * GRID);
    egui::Frame::NONE.inner_margin(Margin { left: 8, right: 16, top: 0, bottom: 0 }).show(ui, |ui| {
        ui.label(theme::title(title));
        ui.add_space(GRID);
        for card in cards {
            finding::remark(ui, document, card, commands);
        }
    });
}
