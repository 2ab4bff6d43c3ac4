//! The ways out of a mismatch: each was tried, and is taken with one press.

use egui::{Frame, Label, Margin, Stroke, Ui};

use super::{Commands, caption_word, finding::toggle, wrapped_word};
use crate::{
    command::Command,
    edit::Edit,
    state::{Document, Mending},
    theme::{self, GRID},
    view::{Card, WayOut, lower_first},
};

/// How many ways stand open; the others open on demand.
const OPEN: usize = 2;

/// The ways out of one mismatch, or how far the search is.
pub(super) fn show(ui: &mut Ui, document: &Document, card: &Card, commands: &mut Commands) {
    match &document.mending {
        Mending::Done(_) => match document.bench.mended.of.get(&card.fault) {
            Some(known) => found(ui, document, card, &known.conflict, &known.ways, commands),
            None => hints(ui, card),
        },
        Mending::Working(_) => {
            ui.separator();
            ui.horizontal(|ui| {
                ui.label(theme::caption("Trying ways out…"));
                if caption_word(ui, "Stop").clicked() {
                    commands.push(Command::StopMending(document.id));
                }
            });
        }
        Mending::Stopped => {
            hints(ui, card);
            if caption_word(ui, "Try ways out").clicked() {
                commands.push(Command::Mend(document.id));
            }
        }
        Mending::Idle => hints(ui, card),
    }
}

fn found(ui: &mut Ui, document: &Document, card: &Card, conflict: &str, ways: &[WayOut], commands: &mut Commands) {
    if !conflict.is_empty() {
        ui.add(Label::new(theme::caption(conflict)).wrap());
    }
    if ways.is_empty() {
        hints(ui, card);
        ui.add(Label::new(theme::caption("No part of the catalogue and no wire settles it in so few steps.")).wrap());
        return;
    }
    ui.separator();
    ui.label(theme::caption("Ways out, each tried on this list"));
    let open = ways.len().min(OPEN);
    for (at, way) in ways.iter().enumerate().take(open) {
        one(ui, document, way, at == 0, commands);
    }
    let more = ways.len() - open;
    if more > 0 && toggle(ui, ui.scope_id().with("ways"), &format!("{more} more")) {
        for way in ways.iter().skip(open) {
            one(ui, document, way, false, commands);
        }
    }
}

/// The smallest sets of steps that settle all, above the single mismatches.
pub(super) fn all_at_once(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let mended = &document.bench.mended;
    if mended.apart {
        let said = "No set of the ways below settles all of it at once: take one, and what is left is searched anew.";
        Frame::NONE.inner_margin(Margin::symmetric(8, 4)).show(ui, |ui| ui.add(Label::new(theme::caption(said)).wrap()));
    }
    let Some((first, others)) = mended.sets.split_first() else { return };
    let tokens = theme::tokens(ui);
    let frame = Frame::NONE.inner_margin(Margin::symmetric(14, 10)).corner_radius(4.0);
    ui.push_id("all at once", |ui| {
        ui.set_max_width(ui.available_width() - 2.0 * GRID);
        frame.fill(tokens.panel).stroke(Stroke::new(1.0, tokens.line)).show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 6.0;
            ui.label(theme::caption("The fewest steps that settle all of it, tried together"));
            one(ui, document, first, true, commands);
            if !others.is_empty() && toggle(ui, ui.scope_id().with("sets"), &format!("{} other sets", others.len())) {
                for way in others {
                    one(ui, document, way, false, commands);
                }
            }
        });
    });
    ui.add_space(3.0 * GRID);
}

fn one(ui: &mut Ui, document: &Document, way: &WayOut, usual: bool, commands: &mut Commands) {
    if wrapped_word(ui, &way.steps, usual).on_hover_text("Changes the list so; undo takes it back.").clicked() {
        let edit = Edit::Mend { build: way.build.clone(), steps: way.steps.clone() };
        commands.push(Command::Edit(document.id, edit));
    }
    Frame::NONE.inner_margin(Margin { left: 12, ..Margin::ZERO }).show(ui, |ui| {
        ui.add(Label::new(theme::caption(&way.changes)).wrap());
        for remark in &way.remarks {
            ui.add(Label::new(theme::caption(remark)).wrap());
        }
    });
}

/// The rule's own hints, the usual one first, while nothing was tried.
pub(super) fn hints(ui: &mut Ui, card: &Card) {
    let Some((first, others)) = card.hints.split_first().filter(|_| !card.vacant) else { return };
    ui.separator();
    ui.add(Label::new(theme::strong(format!("Way out: {}", lower_first(first)))).wrap());
    for hint in others {
        ui.add(Label::new(format!("or {}", lower_first(hint))).wrap());
    }
}
