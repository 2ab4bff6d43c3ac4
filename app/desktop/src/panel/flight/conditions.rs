//! The conditions of the day, changed live: a name, the figure with its unit, and a slider below.

use egui::{DragValue, Slider, Ui, style::HandleShape};
use propwright_schema::{
    build_list::{Conditions, Purpose},
    part::Role,
    quantity::{Celsius, Grams, Metres, MetresPerSecond},
    slot::Slot,
};

use super::super::Commands;
use crate::{
    command::Command,
    edit::Edit,
    state::{Document, DocumentId},
    theme::{self, GRID},
};

/// The condition that a weighed mass holds already.
const PAYLOAD: &str = "Payload";

/// Below this width two conditions stand side by side, not four.
const NARROW: f32 = 130.0 * GRID;

/// A figure that can be dragged.
pub(super) struct Dragged {
    /// What it is.
    pub(super) name: &'static str,
    /// What stands behind it.
    pub(super) unit: &'static str,
    /// The figure now.
    pub(super) now: f64,
    /// The ends of the slider.
    pub(super) ends: [f64; 2],
    /// The ends of what can be typed.
    pub(super) plausible: [f64; 2],
    /// The step of the slider.
    pub(super) step: f64,
}

impl Dragged {
    /// The figure alone, named by a label. Says what was set, and whether the control was let go.
    fn figure(&self, ui: &mut Ui, label: egui::Id) -> (Option<f64>, bool) {
        let (response, set) = self.drag(ui);
        let response = response.labelled_by(label);
        (set, let_go(&response))
    }

    /// The figure alone, with its own name for those who do not see what stands beside it.
    pub(super) fn named_figure(&self, ui: &mut Ui) -> (Option<f64>, bool) {
        let (response, set) = self.drag(ui);
        let (name, now) = (self.name, set.unwrap_or(self.now));
        response.widget_info(|| {
            let mut info = egui::WidgetInfo::drag_value(true, now);
            info.label = Some(name.to_owned());
            info
        });
        (set, let_go(&response.on_hover_text(name)))
    }

    fn drag(&self, ui: &mut Ui) -> (egui::Response, Option<f64>) {
        let mut figure = self.now;
        let [low, high] = self.plausible;
        let drag = DragValue::new(&mut figure).range(low..=high).speed(self.step).max_decimals(1).update_while_editing(false);
        let response = ui.add(drag.suffix(self.unit));
        let set = response.changed().then_some(self.rounded(figure));
        (response, set)
    }

    fn slider(&self, ui: &mut Ui, label: egui::Id, width: f32) -> (Option<f64>, bool) {
        let mut figure = self.now.clamp(self.ends[0], self.ends[1]);
        ui.spacing_mut().slider_width = width;
        let [low, high] = self.ends;
        let slider = Slider::new(&mut figure, low..=high)
            .show_value(false)
            .step_by(self.step)
            .handle_shape(HandleShape::Rect { aspect_ratio: 0.5 });
        let response = ui.add(slider).labelled_by(label);
        (response.changed().then_some(self.rounded(figure)), let_go(&response))
    }

    /// Records keep no more than a tenth here.
    fn rounded(&self, figure: f64) -> f64 {
        (figure.clamp(self.plausible[0], self.plausible[1]) * 10.0).round() / 10.0
    }
}

/// A drag ends when the control is let go; a key or a typed figure is done at once.
fn let_go(response: &egui::Response) -> bool {
    response.drag_stopped() || (response.changed() && !response.dragged())
}

/// Says what was set: all of a drag is one step of undo.
pub(super) fn tell(commands: &mut Commands, id: DocumentId, set: Option<Edit>, let_go: bool) {
    commands.extend(set.map(|edit| Command::Drag(id, edit)));
    if let_go {
        commands.push(Command::Drop(id));
    }
}

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let (conditions, purpose) = (&document.build.conditions, &document.build.purpose);
    let altitude = conditions.altitude_m.map_or(0.0, Metres::decimal);
    let payload = purpose.payload_g.map_or(0.0, Grams::decimal);
    let most = payload_limit(document).max(payload);
    let of_day = |change: fn(&mut Conditions, f64), figure: f64| {
        let mut next = conditions.clone();
        change(&mut next, figure);
        Edit::Conditions(Box::new(next))
    };
    let dragged = |name, unit, now, ends, plausible, step| Dragged { name, unit, now, ends, plausible, step };
    let standard = 15.0 - 0.0065 * altitude;
    let each: [(Dragged, &dyn Fn(f64) -> Edit); 4] = [
        (dragged("Altitude", " m", altitude, [0.0, 4000.0], [-450.0, 6000.0], 10.0), &|figure| {
            of_day(|next, figure| next.altitude_m = Metres::from_decimal(figure).ok(), figure)
        }),
        (
            dragged(
                if conditions.temperature_c.is_some() { "Temperature" } else { "Standard air" },
                " °C",
                conditions.temperature_c.map_or(standard, Celsius::decimal),
                [-20.0, 45.0],
                [-40.0, 55.0],
                1.0,
            ),
            &|figure| of_day(|next, figure| next.temperature_c = Celsius::from_decimal(figure).ok(), figure),
        ),
        (
            dragged("Wind", " m/s", conditions.wind_ms.map_or(0.0, MetresPerSecond::decimal), [0.0, 15.0], [0.0, 30.0], 0.5),
            &|figure| of_day(|next, figure| next.wind_ms = MetresPerSecond::from_decimal(figure).ok(), figure),
        ),
        (dragged(PAYLOAD, " g", payload, [0.0, most], [0.0, 30_000.0], slider_step(most)), &|figure| {
            Edit::Purpose(Box::new(Purpose { payload_g: Grams::from_decimal(figure).ok(), ..purpose.clone() }))
        }),
    ];
    // A craft that was weighed ready to fly weighs that, whatever it carries.
    let weighed = document.build.weighed_g.map(|_| "weighed aboard");
    let abreast = if ui.available_width() < NARROW { 2 } else { each.len() };
    for each in each.chunks(abreast) {
        ui.columns(each.len(), |columns| {
            for (ui, (dragged, edit)) in columns.iter_mut().zip(each) {
                let inert = weighed.filter(|_| dragged.name == PAYLOAD);
                one(ui, dragged, edit, inert, document, commands);
            }
        });
    }
}

/// One condition; `inert` says why it changes nothing.
fn one(
    ui: &mut Ui,
    dragged: &Dragged,
    edit: &dyn Fn(f64) -> Edit,
    inert: Option<&str>,
    document: &Document,
    commands: &mut Commands,
) {
    let label = ui.label(theme::caption(dragged.name)).id;
    let row = |ui: &mut Ui| {
        ui.spacing_mut().interact_size.x = 15.0 * GRID;
        ui.spacing_mut().button_padding.x = GRID;
        let (set, let_go) = dragged.figure(ui, label);
        tell(commands, document.id, set.map(edit), let_go);
        let rest = ui.available_width().max(6.0 * GRID);
        let (set, let_go) = dragged.slider(ui, label, rest);
        tell(commands, document.id, set.map(edit), let_go);
    };
    ui.add_enabled_ui(inert.is_none(), |ui| ui.horizontal(row));
    if let Some(why) = inert {
        ui.label(theme::caption(why));
    }
}

/// How far the slider of the payload goes: what the frame carries, or a kilogram.
fn payload_limit(document: &Document) -> f64 {
    let frame = document.craft.in_slot(Slot::Frame).first().and_then(|placed| placed.subject.part.role(Slot::Frame));
    match frame {
        Some(Role::Frame(frame)) => frame.payload_max_g.map_or(1000.0, |limit| limit.decimal() * 1.2),
        _ => 1000.0,
    }
}

fn slider_step(most: f64) -> f64 {
    if most > 1500.0 { 10.0 } else { 1.0 }
}
