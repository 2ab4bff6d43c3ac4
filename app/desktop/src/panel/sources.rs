//! Asks for catalogues and thresholds of the user's own, and says what each of them does.

use std::path::PathBuf;

use egui::{Align, Layout, ScrollArea, Ui};

use super::{Commands, cover, word};
use crate::{
    browse::Wish,
    command::Command,
    state::{App, Cover},
    theme::{self, GRID},
    view::{Source, sources},
};

/// How many problems of one file are shown; the rest are counted.
const PROBLEMS: usize = 6;

pub(super) fn show(ui: &mut Ui, app: &App, [catalogue, policy]: [&str; 2], problems: &[String], commands: &mut Commands) {
    let cover = |catalogue: &str, policy: &str| {
        let (catalogue, policy) = (catalogue.to_owned(), policy.to_owned());
        Command::Cover(Some(Cover::Sources { catalogue, policy, problems: Vec::new() }))
    };
    let (parts, thresholds) = sources(app);
    ui.label(theme::title("Catalogues and thresholds"));
    ui.add_space(GRID);
    ScrollArea::vertical().max_height(100.0 * GRID).show(ui, |ui| {
        ui.label(theme::caption("Parts come from these catalogues; a later one shadows parts of the same id in those above."));
        for source in &parts {
            line(ui, source, commands);
        }
        let asked = Asked { name: "Path of a catalogue", text: catalogue, hint: "/home/me/parts.ron", verb: "Add", first: true };
        match asked.show(ui) {
            Said::Nothing => {}
            Said::Typed(text) => commands.push(cover(&text, policy)),
            Said::Take(path) => commands.push(Command::LayOver(path)),
            Said::Browse => commands.push(Command::Browse(Wish::Catalogue)),
        }
        ui.add_space(3.0 * GRID);
        ui.label(theme::caption("Findings are judged by these thresholds; a policy file changes them by name."));
        for source in &thresholds {
            line(ui, source, commands);
        }
        let asked =
            Asked { name: "Path of a policy file", text: policy, hint: "/home/me/policy.ron", verb: "Judge by it", first: false };
        match asked.show(ui) {
            Said::Nothing => {}
            Said::Typed(text) => commands.push(cover(catalogue, &text)),
            Said::Take(path) => commands.push(Command::JudgeBy(path)),
            Said::Browse => commands.push(Command::Browse(Wish::Policy)),
        }
    });
    if !problems.is_empty() {
        ui.add_space(2.0 * GRID);
        ui.label(theme::strong("Not taken up; what was in force before stays:"));
        told(ui, problems);
    }
    if cover::answers(ui, &["Close"]).is_some() {
        commands.push(Command::Cover(None));
    }
}

/// A file with what it brings, and how to take it out.
fn line(ui: &mut Ui, source: &Source, commands: &mut Commands) {
    ui.add_space(GRID);
    ui.horizontal(|ui| {
        let name = ui.label(theme::strong(&source.name));
        if let Some(path) = &source.path {
            name.on_hover_text(path.display().to_string());
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let Some(path) = &source.path else { return };
            if word(ui, "Leave out").on_hover_text(format!("Takes {} out of force.", source.name)).clicked() {
                commands.push(Command::LeaveOut(path.clone()));
            }
            ui.add_space(GRID);
            if source.below && word(ui, "Lay on top").on_hover_text("Its parts shadow those of all others.").clicked() {
                commands.push(Command::OnTop(path.clone()));
            }
        });
    });
    ui.add(egui::Label::new(theme::caption(&source.brings)).wrap());
    told(ui, &source.problems);
}

fn told(ui: &mut Ui, problems: &[String]) {
    for problem in problems.iter().take(PROBLEMS) {
        ui.add(egui::Label::new(problem).wrap());
    }
    if problems.len() > PROBLEMS {
        ui.label(theme::caption(format!("and {} more", problems.len() - PROBLEMS)));
    }
}

/// A field for a path with its buttons.
struct Asked<'a> {
    name: &'a str,
    text: &'a str,
    hint: &'static str,
    verb: &'a str,
    /// Does it take the keys when nothing else has them?
    first: bool,
}

/// What was done with it.
enum Said {
    Nothing,
    Typed(String),
    Take(PathBuf),
    Browse,
}

impl Asked<'_> {
    fn show(&self, ui: &mut Ui) -> Said {
        ui.add_space(2.0 * GRID);
        let (typed, entered) = if self.first {
            cover::field(ui, self.name, self.text, self.hint)
        } else {
            let (_, typed, entered) = cover::plain_field(ui, self.name, self.text, self.hint);
            (typed, entered)
        };
        let mut said = typed.map_or(Said::Nothing, Said::Typed);
        ui.horizontal(|ui| {
            if (word(ui, self.verb).clicked() || entered) && !self.text.is_empty() {
                said = Said::Take(PathBuf::from(self.text));
            }
            ui.add_space(GRID);
            if word(ui, "Browse…").clicked() {
                said = Said::Browse;
            }
        });
        said
    }
}
