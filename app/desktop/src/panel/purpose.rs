//! What the craft is for.

use egui::Ui;

use crate::{state::Document, theme};

pub(super) fn show(ui: &mut Ui, document: &Document) {
    ui.label(theme::strong(&document.build.name));
}
