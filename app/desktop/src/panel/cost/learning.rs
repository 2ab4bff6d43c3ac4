//! What learning to fly costs, and what is assumed of it.

use egui::{Align, DragValue, Id, Label, Layout, Popup, RichText, Ui};
use propwright_engine::bill::path::Wear;
use propwright_schema::{
    build_list::Training,
    quantity::Money as Amount,
    value::{Field, Record},
};

use super::{
    apart,
    entry::{Shape, entry},
    sum, told, worked,
};
use crate::{
    command::Command,
    edit::Edit,
    money::Money,
    panel::{Commands, word},
    run_command::money::then,
    state::{App, Document},
    theme::{self, GRID},
    view::{Costing, CourseView},
};

/// Puts a count into what is assumed.
type Setter = fn(&mut Training, u32);

pub(super) fn show(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    let said = "Simulator first, then this craft, then what comes after it: what stays on the ground is carried over, what breaks \
                and wears is bought again.";
    ui.add(Label::new(said).wrap());
    ui.add_space(2.0 * GRID);
    next(ui, app, document, commands);
    ui.add_space(2.0 * GRID);
    worked(ui, app, document, commands, |ui, costing, _| {
        if let Costing::Course(course) = costing {
            way(ui, course);
        }
    });
    apart(ui);
    assumptions(ui, document, commands);
}

/// The craft that are flown after this one.
fn next(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    let chosen = then(app, document.id);
    ui.horizontal_wrapped(|ui| {
        ui.label(theme::caption("After it"));
        for id in &chosen {
            let Some(other) = app.document(*id) else { continue };
            ui.label(&other.build.name);
            if word(ui, "not").on_hover_text(format!("Leaves {} out of the way.", other.build.name)).clicked() {
                commands.push(Command::Money(Money::Then(*id, false)));
            }
        }
        let more = word(ui, "Add a craft…").on_hover_text("A build that is open, or one of the demo.");
        Popup::menu(&more).accessible_name("Craft to fly next").show(|ui| {
            egui::ScrollArea::vertical().max_height(80.0 * GRID).show(ui, |ui| {
                for other in app.documents.iter().filter(|other| other.id != document.id && !chosen.contains(&other.id)) {
                    if ui.button(&other.build.name).clicked() {
                        commands.push(Command::Money(Money::Then(other.id, true)));
                        ui.close();
                    }
                }
                for (name, _) in propwright_sample::REFERENCE {
                    if ui.button(format!("demo: {name}")).clicked() {
                        commands.push(Command::Money(Money::Example(name)));
                        ui.close();
                    }
                }
            });
        });
    });
}

fn way(ui: &mut Ui, course: &CourseView) {
    let (simulator, price) = &course.simulator;
    sum(ui, theme::strong("Simulator"), RichText::new(price));
    ui.label(theme::caption(simulator));
    for step in &course.steps {
        ui.add_space(2.0 * GRID);
        sum(ui, theme::strong(&step.name), RichText::new(&step.total));
        ui.label(theme::caption(&step.flown));
        for (caption, words) in &step.details {
            told(ui, caption, words);
        }
    }
    ui.add_space(2.0 * GRID);
    sum(ui, theme::title("All together"), theme::title(&course.total));
}

fn assumptions(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    ui.label(theme::strong("Assumed"));
    ui.label(theme::caption("Common practice, no source: change what you know better."));
    ui.add_space(GRID);
    let training = document.build.training.clone().unwrap_or_default();
    let usual = Wear::of(Some(&training));
    let counts: [(&str, u32, Setter); 6] = [
        ("simulator_hours", usual.simulator_h, |training, count| training.simulator_hours = Some(count)),
        ("hours", usual.flown_h, |training, count| training.hours = Some(count)),
        ("sets_guarded", usual.sets_guarded, |training, count| training.sets_guarded = Some(count)),
        ("sets_open", usual.sets_open, |training, count| training.sets_open = Some(count)),
        ("arms", usual.arms, |training, count| training.arms = Some(count)),
        ("pack_flights", usual.pack_flights, |training, count| training.pack_flights = Some(count)),
    ];
    for (name, now, set) in counts {
        let Some(field) = Training::FIELDS.iter().find(|field| field.name == name) else { continue };
        row(ui, field, |ui, about| {
            let mut count = now;
            let (low, high) = field.plausible.unwrap_or((0.0, 10_000.0));
            let drag = ui.add(DragValue::new(&mut count).range(low..=high).speed(0.1));
            ui.ctx().accesskit_node_builder(drag.id, |node| node.set_label(about));
            if count != now {
                let mut training = training.clone();
                set(&mut training, count);
                let edit = Edit::Training(Box::new(training));
                let held = drag.dragged();
                commands.push(if held { Command::Drag(document.id, edit) } else { Command::Edit(document.id, edit) });
            }
            if drag.drag_stopped() {
                commands.push(Command::Drop(document.id));
            }
        });
    }
    price(ui, document, &training, commands);
}

fn price(ui: &mut Ui, document: &Document, training: &Training, commands: &mut Commands) {
    let Some(field) = Training::FIELDS.iter().find(|field| field.name == "simulator_price") else { return };
    row(ui, field, |ui, about| {
        let now = training.simulator_price.map(|price| price.to_string()).unwrap_or_default();
        let shape = Shape { name: about, hint: "25.00 EUR", width: 32.0 * GRID };
        let reads = |text: &str| text.is_empty() || text.parse::<Amount>().is_ok_and(|amount| amount.minor() >= 0);
        if let Some(text) = entry(ui, Id::unique(("simulator", document.id.0)), &shape, &now, reads) {
            let training = Training { simulator_price: text.parse().ok(), ..training.clone() };
            commands.push(Command::Edit(document.id, Edit::Training(Box::new(training))));
        }
    });
}

/// A control with what it is about behind it.
fn row(ui: &mut Ui, field: &Field, control: impl FnOnce(&mut Ui, &str)) {
    let about = field.about.trim().trim_end_matches('.');
    ui.horizontal(|ui| {
        let size = egui::vec2(34.0 * GRID, 6.0 * GRID);
        ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_width(34.0 * GRID);
            control(ui, about);
        });
        ui.add(Label::new(about).wrap());
    });
}
