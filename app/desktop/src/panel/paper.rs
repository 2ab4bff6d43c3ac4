//! Paper: what it will look like, and where it is written.

use egui::{Key, Margin, ScrollArea, TextEdit, Ui};
use propwright_paper::sheet::Format;

use super::Commands;
use crate::{
    command::Command,
    export::{ENDINGS, Kind},
    state::Document,
    theme::{self, GRID},
    widget,
};

/// Space between leaves, in points.
const BETWEEN: f32 = 3.0 * GRID;
/// Points of the screen for one of the paper, at most.
const LARGEST: f32 = 1.6;

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    egui::Frame::NONE.inner_margin(Margin { left: 12, right: 8, top: 12, bottom: 8 }).show(ui, |ui| {
        choice(ui, document, commands);
        ui.add_space(GRID);
        target(ui, document, commands);
        ui.add_space(2.0 * GRID);
        preview(ui, document);
    });
}

fn choice(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let (kind, format) = (document.paper.kind, document.paper.format);
    ui.horizontal_wrapped(|ui| {
        for one in Kind::ALL {
            if ui.selectable_label(one == kind, one.word()).clicked() {
                commands.push(Command::Paper(document.id, one, format));
            }
        }
        ui.separator();
        for one in [Format::A4, Format::Letter] {
            // A flight card is always A6.
            let open = kind != Kind::Card;
            let label = ui.add_enabled(open, egui::Button::selectable(one == format, one.word()));
            if label.clicked() {
                commands.push(Command::Paper(document.id, kind, one));
            }
        }
    });
}

fn target(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let mut path = document.paper.path.clone();
    let name = ui.label(theme::caption(format!("File to write; its ending decides the form: {ENDINGS}")));
    ui.horizontal(|ui| {
        let wide = ui.available_width() - 24.0 * GRID;
        let field = TextEdit::singleline(&mut path).hint_text("/home/me/builds/meadow.pdf").desired_width(wide);
        let response = ui.add(field.margin(Margin::symmetric(8, 6))).labelled_by(name.id);
        if response.changed() {
            commands.push(Command::PaperPath(document.id, path));
        }
        let entered = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        if ui.button(theme::strong("Write")).clicked() || entered {
            commands.push(Command::PaperWrite(document.id));
        }
    });
    for line in &document.paper.said {
        ui.add(egui::Label::new(line).wrap());
    }
}

fn preview(ui: &mut Ui, document: &Document) {
    let Some(sheet) = &document.paper.sheet else {
        ui.label(theme::caption("Laid out as soon as the report is there…"));
        return;
    };
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        for (at, leaf) in sheet.leaves.iter().enumerate() {
            let wide = (ui.available_width() - GRID).min(leaf.size[0] * LARGEST);
            let name = format!("{}, leaf {} of {}", document.paper.kind.word(), at + 1, sheet.leaves.len());
            widget::leaf::leaf(ui, leaf, wide, &name);
            ui.add_space(BETWEEN);
        }
    });
}
