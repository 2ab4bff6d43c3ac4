//! What nobody stated, by the question: how each figure is learned, and what waits for it.

use egui::{Frame, Label, Margin, Ui};
use propwright_engine::finding::Status;

use super::{
    Commands,
    finding::{self, toggle},
    word,
};
use crate::{
    command::{Action, Command},
    state::{Document, Page},
    theme::{self, GRID},
    view::{Asking, Said, Waiting},
    widget::mark,
};

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let questions = &document.bench.findings.questions;
    if questions.is_empty() {
        return;
    }
    Frame::NONE.inner_margin(Margin { left: 14, right: 14, top: 8, bottom: 4 }).show(ui, |ui| {
        ui.label(theme::title("What nobody stated"));
        for asking in questions {
            ui.push_id(&asking.key, |ui| question(ui, document, asking, commands));
        }
    });
}

fn question(ui: &mut Ui, document: &Document, asking: &Asking, commands: &mut Commands) {
    ui.add_space(2.0 * GRID);
    ui.horizontal_top(|ui| {
        mark::mark(ui, Status::Unstated);
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 3.0;
            ui.add(Label::new(theme::strong(&asking.title)).wrap());
            if !asking.about.is_empty() {
                ui.add(Label::new(theme::caption(&asking.about)).wrap());
            }
            ui.add(Label::new(theme::caption(format!("With: {}.", asking.tool))).wrap());
            if let Some(said) = asking.said {
                say(ui, document, said, commands);
            }
            waiting(ui, document, &asking.waiting, commands);
        });
    });
    ui.add_space(2.0 * GRID);
}

/// Leads to where the list says it.
fn say(ui: &mut Ui, document: &Document, said: Said, commands: &mut Commands) {
    let (text, to) = match said {
        Said::Line(place) => ("Say it at the part", vec![Command::Pick(document.id, Some(place))]),
        Said::Purpose => ("Say it on page Purpose", vec![Command::Do(document.id, Action::Page(Page::Purpose))]),
        Said::Whole => {
            ("Say it on page Parts", vec![Command::Pick(document.id, None), Command::Do(document.id, Action::Page(Page::Parts))])
        }
    };
    if word(ui, text).clicked() {
        commands.extend(to);
    }
}

/// The findings that wait, each opened in its place by its name.
fn waiting(ui: &mut Ui, document: &Document, waiting: &[Waiting], commands: &mut Commands) {
    let said = if waiting.len() == 1 {
        "1 finding waits for it:".to_owned()
    } else {
        format!("{} findings wait for it:", waiting.len())
    };
    let opened: Vec<&Waiting> = ui
        .horizontal_wrapped(|ui| {
            ui.label(theme::caption(said));
            let is_open = |waits: &&Waiting| {
                ui.push_id(&waits.card.key, |ui| toggle(ui, ui.scope_id().with("waits"), &waits.card.about)).inner
            };
            waiting.iter().filter(is_open).collect()
        })
        .inner;
    for waits in opened {
        finding::show(ui, document, &waits.card, commands);
    }
}
