//! Shows every widget with sample figures, in light or, with the argument `dark`, in dark.
//!
//! `cargo run -p propwright --example widgets [dark]`

use eframe::egui;
use egui::{CentralPanel, Frame, Panel, ScrollArea, Ui, vec2};
use propwright::theme::{self, Theme, Tokens};
use propwright::widget::band_bar::band_bar;
use propwright::widget::drawing::{Drawing, Emphasis, Geometry, Point, Role, Shape, drawing};
use propwright::widget::ledger::{self, Cell, ledger};
use propwright::widget::margin_bar::{Margin, margin_bar};
use propwright::widget::mark::{mark, mark_with_word};
use propwright::widget::{Span, Status};

fn main() -> eframe::Result {
    let dark = std::env::args().any(|argument| argument == "dark");
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default().with_inner_size([1280.0, 800.0]),
        renderer: eframe::Renderer::Glow,
        ..eframe::NativeOptions::default()
    };
    eframe::run_native(
        "Widgets",
        options,
        Box::new(move |cc| {
            theme::install(&cc.egui_ctx, &Theme::embedded()?);
            cc.egui_ctx.set_theme(if dark { egui::Theme::Dark } else { egui::Theme::Light });
            Ok(Box::new(Gallery::default()))
        }),
    )
}

#[derive(Default)]
struct Gallery {
    emphasis: Emphasis,
    changed: bool,
}

impl eframe::App for Gallery {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        let tokens = theme::tokens(ui);
        let cells = cells(self.changed);
        let height = ledger::height(ui.available_width(), cells.len());
        Panel::bottom("ledger").exact_size(height).frame(Frame::NONE.fill(tokens.panel)).show(ui, |ui| ledger(ui, &cells));
        Panel::left("parts").exact_size(316.0).frame(side(&tokens)).show(ui, |ui| self.parts(ui));
        Panel::right("findings").exact_size(396.0).frame(side(&tokens)).show(ui, findings);
        CentralPanel::default().show(ui, |ui| self.views(ui));
    }
}

fn side(tokens: &Tokens) -> Frame {
    Frame::NONE.fill(tokens.paper).inner_margin(20)
}

impl Gallery {
    fn parts(&mut self, ui: &mut Ui) {
        ui.label(theme::caption("In the order one assembles it"));
        ui.add_space(12.0);
        for (status, slot, name) in [
            (Status::Fits, "Frame", "Oskerby Kestrel 220"),
            (Status::Tight, "Flight controller", "Duskmarl F-Two"),
            (Status::Mismatch, "Speed controller", "Duskmarl 35 · 4 in 1"),
            (Status::Unstated, "Video transmitter", "Brindlecrag Heron 400"),
        ] {
            ui.horizontal(|ui| {
                mark(ui, status);
                ui.vertical(|ui| {
                    ui.spacing_mut().item_spacing.y = 0.0;
                    ui.label(theme::caption(slot));
                    ui.label(egui::RichText::new(name).size(theme::TITLE));
                });
            });
            ui.add_space(8.0);
        }
        ui.checkbox(&mut self.changed, "Another speed controller");
        let _ = ui.button("Swap");
        let _ = ui.link("Add a part…");
        ui.add_enabled(false, egui::Button::new("Not now"));
        let mut text = "a text field".to_owned();
        let label = ui.label("Name");
        ui.text_edit_singleline(&mut text).labelled_by(label.id);
        ui.add(egui::Slider::new(&mut 85, 50..=100).suffix(" %").text("output limit"));
        ui.label("Calm minutes on one scale");
        for (low, nominal, high) in [(6.6, 8.2, 10.1), (4.0, 4.5, 5.2)] {
            let span = Span { low, nominal, high };
            band_bar(ui, span, Some((0.0, 12.0)), 200.0, "calm flight in minutes");
        }
    }

    fn views(&mut self, ui: &mut Ui) {
        let width = ui.available_width();
        let height = ui.available_height();
        let above = drawing(ui, vec2(width, height * 0.68), None, &from_above(), &self.emphasis);
        ui.separator();
        let rest = ui.available_height();
        let side = drawing(ui, vec2(width, rest), above.scale, &from_the_side(), &self.emphasis);
        if let Some(part) = above.chosen.or(side.chosen) {
            self.emphasis.chosen = Some(part);
        }
        self.emphasis.status.insert("esc".to_owned(), Status::Mismatch);
        self.emphasis.status.insert("flight".to_owned(), Status::Tight);
    }
}

fn findings(ui: &mut Ui) {
    ui.label(theme::title("What stands in the way"));
    ui.add_space(8.0);
    ScrollArea::vertical().show(ui, |ui| {
        for (status, about, sentence) in SENTENCES {
            mark_with_word(ui, status, about);
            ui.label(theme::sentence(sentence));
            if let Some(margin) = margin(status) {
                margin_bar(ui, &margin);
            }
            ui.add_space(12.0);
        }
    });
}

const SENTENCES: [(Status, &str, &str); 4] = [
    (
        Status::Mismatch,
        "controller current in a burst",
        "The speed controller stands 35 A for 10 s a motor; these motors pull 41 A at full throttle on a fresh pack.",
    ),
    (Status::Tight, "loaded cell, fresh pack at full throttle", "3.31 V a cell, 3.3 asked; less when tired."),
    (Status::Unstated, "video transmitter heat", "No one published what it draws at 400 mW."),
    (Status::Fits, "pack voltage", "25.2 V full, 30 V allowed."),
];

fn margin(status: Status) -> Option<Margin> {
    let (required, available, required_words, available_words) = match status {
        Status::Mismatch => {
            let pulled = Span { low: 38.0, nominal: 41.0, high: 45.0 };
            (pulled, Span::exact(35.0), "41 A (38–45) pulled", "35 A it stands")
        }
        Status::Tight => {
            let loaded = Span { low: 3.22, nominal: 3.31, high: 3.38 };
            (Span::exact(3.3), loaded, "3.3 V asked", "3.31 V (3.22–3.38) left")
        }
        Status::Fits => (Span::exact(25.2), Span::exact(30.0), "25.2 V full", "30 V allowed"),
        Status::Unstated => return None,
    };
    Some(Margin {
        required,
        available,
        status,
        required_words: required_words.to_owned(),
        available_words: available_words.to_owned(),
    })
}

fn cells(changed: bool) -> Vec<Cell> {
    let cell = |caption: &str, value: &str, change: &str, band_words: &str, band: Option<[f64; 3]>| Cell {
        caption: caption.to_owned(),
        value: value.to_owned(),
        change: Some(change.to_owned()),
        band_words: band_words.to_owned(),
        band: band.map(|[low, nominal, high]| Span { low, nominal, high }),
    };
    let mass = if changed { "705 g" } else { "702 g" };
    vec![
        cell("Take-off mass", mass, "+3 g", "688–731", Some([688.0, 702.0, 731.0])),
        cell("Price", "389.50 EUR", "+19.00", "2 parts unpriced", None),
        cell("Calm flight", "8.2 min", "no change", "6.6–10.1", Some([6.6, 8.2, 10.1])),
        cell("Thrust to weight", "7.4", "no change", "6.1–8.9", Some([6.1, 7.4, 8.9])),
        cell("Open", "1 mismatch", "−1", "1 tight, 2 unstated", None),
    ]
}

fn shape(role: Role, part: &str, name: &str, geometry: Geometry) -> Shape {
    Shape { geometry, role, part: (!part.is_empty()).then(|| part.to_owned()), name: name.to_owned() }
}

fn rect(min: Point, max: Point, corner: f64) -> Geometry {
    Geometry::Rect { min, max, corner }
}

fn words(at: Point, text: &str, room: f64) -> Shape {
    let text = text.to_owned();
    shape(Role::Note, "", "", Geometry::Text { at, text, room })
}

const FRAME: &str = "Frame, Oskerby Kestrel 220";
const PROPELLERS: &str = "Propellers, Harrowmint 5.1 × 4.3 × 3";
const MOTORS: &str = "Motors, Quernby 2207 · 1950 KV";
const CORNERS: [Point; 4] = [[-79.0, 73.0], [79.0, 73.0], [79.0, -73.0], [-79.0, -73.0]];

fn from_above() -> Drawing {
    let mut shapes: Vec<Shape> = CORNERS
        .map(|[x, y]| {
            let points = vec![[x * 0.1, y * 0.2], [x, y]];
            shape(Role::Arm, "frame", FRAME, Geometry::Line { points, width: 9.0 })
        })
        .into();
    for (index, center) in CORNERS.into_iter().enumerate() {
        let side = if index % 2 == 0 { 1.0 } else { -1.0 };
        shapes.extend(rotor(center, side));
    }
    shapes.extend(body());
    Drawing { title: "From above".to_owned(), shapes }
}

fn rotor(center: Point, side: f64) -> Vec<Shape> {
    let sweep = Geometry::Circle { center, radius: 65.0 };
    let hub = Geometry::Circle { center, radius: 13.5 };
    let mut shapes = vec![shape(Role::Sweep, "propeller", PROPELLERS, sweep)];
    for third in 0..3 {
        let turn = f64::from(third) * std::f64::consts::TAU / 3.0;
        let blade = blade(center, turn + 0.4, side);
        shapes.push(shape(Role::Blade, "propeller", "", blade));
    }
    shapes.push(shape(Role::Body, "motor", MOTORS, hub));
    shapes
}

fn body() -> Vec<Shape> {
    let part = |key, name, min, max, corner| shape(Role::Part, key, name, rect(min, max, corner));
    let cross = |a, b| {
        let line = Geometry::Line { points: vec![a, b], width: 0.0 };
        shape(Role::Balance, "", "Centre of gravity", line)
    };
    let tips =
        Geometry::Dimension { from: [-14.0, 73.0], to: [14.0, 73.0], text: "28 mm".to_owned(), note: "between tips".to_owned() };
    vec![
        shape(Role::Body, "frame", FRAME, rect([-19.0, -50.0], [19.0, 50.0], 6.0)),
        part("camera", "Camera, Brindlecrag Wren", [-7.0, 47.0], [7.0, 58.0], 1.5),
        part("flight", "Flight controller, Duskmarl F-Two", [-15.0, -5.0], [15.0, 25.0], 1.5),
        part("pack", "Pack, Ebbquist 6S 1300", [-13.0, -46.0], [13.0, -9.0], 2.0),
        words([0.0, 8.0], "boards", 30.0),
        words([0.0, -28.0], "pack", 26.0),
        cross([-4.0, -3.0], [4.0, -3.0]),
        cross([0.0, -7.0], [0.0, 1.0]),
        shape(Role::Note, "", "", tips),
    ]
}

fn blade(center: Point, turn: f64, side: f64) -> Geometry {
    let points = (0..=8).map(|step| {
        let share = f64::from(step) / 8.0;
        let angle = turn + side * 0.5 * share * share;
        [center[0] + 64.0 * share * angle.cos(), center[1] + 64.0 * share * angle.sin()]
    });
    Geometry::Line { points: points.collect(), width: 3.0 }
}

fn from_the_side() -> Drawing {
    let part = |key, name, min, max, corner| shape(Role::Part, key, name, rect(min, max, corner));
    let plate = |min, max| shape(Role::Structure, "frame", FRAME, rect(min, max, 0.0));
    let standoffs =
        Geometry::Dimension { from: [150.0, 3.0], to: [150.0, 28.0], text: "25 mm".to_owned(), note: "standoffs".to_owned() };
    let mut shapes = vec![
        part("pack", "Pack, Ebbquist 6S 1300", [-38.0, 31.0], [38.0, 66.0], 2.0),
        words([0.0, 48.0], "pack 6S 1300", 76.0),
        plate([-70.0, 28.0], [70.0, 31.0]),
        plate([-95.0, -2.0], [95.0, 3.0]),
        part("flight", "Flight controller, Duskmarl F-Two", [-20.0, 18.0], [20.0, 22.0], 0.0),
        part("esc", "Speed controller, Duskmarl 35 · 4 in 1", [-20.0, 8.0], [20.0, 12.0], 0.0),
        words([-38.0, 20.0], "flight", 40.0),
        words([-38.0, 10.0], "speed", 40.0),
        shape(Role::Note, "", "", standoffs),
    ];
    for middle in [-85.0, 85.0] {
        let inner = middle * 0.7;
        shapes.push(plate([inner - 2.0, 3.0], [inner + 2.0, 28.0]));
        let motor = rect([middle - 13.5, 3.0], [middle + 13.5, 22.0], 2.0);
        shapes.push(shape(Role::Body, "motor", MOTORS, motor));
        let points = vec![[middle - 65.0, 26.0], [middle + 65.0, 26.0]];
        let disc = Geometry::Line { points, width: 2.0 };
        shapes.push(shape(Role::Sweep, "propeller", PROPELLERS, disc));
    }
    Drawing { title: "From the side".to_owned(), shapes }
}
