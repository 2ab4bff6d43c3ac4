//! The graph in the place of the craft: what it is narrowed to, and the way back.

use egui::{ComboBox, Key, Margin, TextEdit, Ui};
use propwright_engine::{finding::Status, rules};
use propwright_schema::slot::Slot;

use super::{Commands, finding, word};
use crate::{
    command::Command,
    state::{Document, GraphLook},
    theme::{self, GRID},
    view::{Drawn, lower_first},
    widget::graph::graph,
};

/// What the graph can be narrowed to, from the gravest on.
const NARROWED: [(Option<Status>, &str); 4] = [
    (Some(Status::Mismatch), "mismatches"),
    (Some(Status::Tight), "tight and graver"),
    (Some(Status::Unstated), "all that is open"),
    (None, "all rules"),
];

pub(super) fn show(ui: &mut Ui, document: &Document, look: GraphLook, drawn: &Drawn, commands: &mut Commands) {
    let mut next = look;
    ui.horizontal_wrapped(|ui| {
        if word(ui, "Back to the craft").clicked() {
            commands.push(Command::Graph(document.id, None));
        }
        ui.add_space(2.0 * GRID);
        if word(ui, "Save as SVG…").clicked() {
            commands.push(Command::GraphFile(document.id, !document.graph_file.asked));
        }
        ui.add_space(2.0 * GRID);
        let now = NARROWED.iter().find(|(least, _)| *least == look.at_least).map_or("", |(_, name)| name);
        let gravity = ui.label(theme::caption("Rules"));
        ComboBox::from_id_salt("gravity")
            .selected_text(now)
            .show_ui(ui, |ui| {
                for (least, name) in NARROWED {
                    ui.selectable_value(&mut next.at_least, least, name);
                }
            })
            .response
            .labelled_by(gravity.id);
        let slot = ui.label(theme::caption("Slot"));
        ComboBox::from_id_salt("slot")
            .selected_text(look.slot.map_or("all slots", Slot::title))
            .show_ui(ui, |ui| {
                ui.selectable_value(&mut next.slot, None, "all slots");
                for slot in Slot::ALL {
                    ui.selectable_value(&mut next.slot, Some(*slot), slot.title());
                }
            })
            .response
            .labelled_by(slot.id);
    });
    if next != look {
        commands.push(Command::Graph(document.id, Some(next)));
    }
    if document.graph_file.asked {
        file(ui, document, commands);
    }
    // A step that is pointed at lights what it rests on; the path of the finding stands back for it.
    let step = finding::lit_step(ui).map(|step| drawn.picture.told(&step)).filter(|told| !told.is_empty());
    let lit = match (&step, look.lit.and_then(rules::by_id)) {
        (Some(_), _) => Some("lit: what the step rests on".to_owned()),
        (None, rule) => rule.map(|rule| format!("lit: the path of {}", lower_first(rule.title))),
    };
    let many = format!("{} nodes · wheel or + − enlarge, arrows move, 0 shows all", drawn.picture.dots.len());
    // One line whatever is lit: the graph stays where it is.
    let said = lit.map_or_else(|| many.clone(), |lit| format!("{lit} · {many}"));
    ui.add(egui::Label::new(theme::caption(&said)).truncate()).on_hover_text(said);
    if drawn.picture.dots.is_empty() {
        ui.label("No rule is left. Choose more rules, or all slots.");
        return;
    }
    if let Some(rule) =
        graph(ui, &drawn.picture, &drawn.layered, step.as_ref().unwrap_or(&drawn.lit)).as_deref().and_then(rules::by_id)
    {
        commands.push(Command::Graph(document.id, Some(GraphLook { lit: Some(rule.id), ..look })));
    }
}

/// The file into which the graph is drawn as it is shown.
fn file(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let mut path = document.graph_file.path.clone();
    ui.horizontal(|ui| {
        let name = ui.label(theme::caption("Graph into file"));
        let wide = ui.available_width() - 24.0 * GRID;
        let field = TextEdit::singleline(&mut path).hint_text("/home/me/builds/graph.svg").desired_width(wide);
        let response = ui.add(field.margin(Margin::symmetric(8, 6))).labelled_by(name.id);
        if response.changed() {
            commands.push(Command::GraphPath(document.id, path));
        }
        let entered = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        if ui.button(theme::strong("Write")).clicked() || entered {
            commands.push(Command::GraphWrite(document.id));
        }
    });
    for line in &document.graph_file.said {
        ui.add(egui::Label::new(line).wrap());
    }
}
