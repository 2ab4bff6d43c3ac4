//! The help: words, rules, thresholds, keys and cautions, found by words.

use egui::{Align, Button, Frame, Label, Layout, Margin, RichText, ScrollArea, TextFormat, Ui, text::LayoutJob, vec2};

use super::{Commands, cover, opener};
use crate::{
    command::Command,
    state::{App, Help, Topic},
    theme::{self, CAPTION, GRID, TEXT},
    view::{HelpEntry, help, leading, threshold_lines},
};

/// Width of the captions beside a rule's texts, in points.
const CAPTIONS: f32 = 24.0 * GRID;

pub(super) fn show(ui: &mut Ui, app: &App, shown: &Help, commands: &mut Commands) {
    ui.label(theme::title("Help"));
    ui.add_space(GRID);
    let (typed, _) = cover::field(ui, "Find in the help", &shown.words, "motor screws, tip gap, Ctrl K");
    if let Some(words) = typed {
        commands.push(Command::Help(Help { words, ..shown.clone() }));
    }
    ui.add_space(GRID);
    let all: Vec<(Topic, Vec<HelpEntry>)> = Topic::ALL.into_iter().map(|topic| (topic, help(app, topic, &shown.words))).collect();
    let topic = leading(&all, shown.topic);
    let shown = &Help { topic, ..shown.clone() };
    ui.horizontal(|ui| {
        for (topic, entries) in &all {
            chapter(ui, *topic, entries.len(), shown, commands);
        }
    });
    ui.separator();
    let height = (ui.ctx().content_rect().height() - 62.0 * GRID).max(20.0 * GRID);
    ScrollArea::vertical().auto_shrink([false, false]).max_height(height).id_salt(shown.topic.word()).show(ui, |ui| {
        // Room for the frame round what has the keys.
        ui.add_space(GRID);
        let entries = all.iter().find(|(topic, _)| *topic == shown.topic).map_or(&[][..], |(_, entries)| entries);
        if entries.is_empty() {
            ui.label("Nothing here holds these words.");
        }
        for entry in entries {
            ui.push_id(
                entry.key,
                |ui| if entry.more.is_empty() { plain(ui, entry) } else { rule(ui, app, entry, shown, commands) },
            );
        }
    });
    if cover::answers(ui, &["Close"]).is_some() {
        commands.push(Command::Cover(None));
    }
}

fn chapter(ui: &mut Ui, topic: Topic, found: usize, shown: &Help, commands: &mut Commands) {
    let here = shown.topic == topic;
    let text = if here { theme::strong(topic.word()) } else { RichText::new(topic.word()) };
    let response = ui.add(Button::selectable(here, text).right_text(theme::caption(found.to_string())));
    response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, here, topic.word()));
    if response.clicked() {
        commands.push(Command::Help(Help { topic, ..shown.clone() }));
    }
}

/// The name with small words behind it.
fn head(ui: &Ui, sign: &str, entry: &HelpEntry) -> LayoutJob {
    let tokens = theme::tokens(ui);
    let mut job = LayoutJob::default();
    job.append(sign, 0.0, TextFormat::simple(theme::regular(CAPTION), tokens.accent));
    job.append(&entry.title, 0.0, TextFormat::simple(theme::bold(TEXT), tokens.ink));
    job.append(&entry.aside, 3.0 * GRID, TextFormat::simple(theme::regular(CAPTION), tokens.soft));
    job
}

fn plain(ui: &mut Ui, entry: &HelpEntry) {
    let words = head(ui, "", entry);
    ui.add(Label::new(words).wrap());
    for line in &entry.lines {
        ui.add(Label::new(theme::caption(line)).wrap());
    }
    ui.add_space(2.0 * GRID);
}

fn rule(ui: &mut Ui, app: &App, entry: &HelpEntry, shown: &Help, commands: &mut Commands) {
    let open = shown.rule == Some(entry.key);
    let words = head(ui, if open { "▾ " } else { "› " }, entry);
    if opener(ui, words, &format!("{}, {}", entry.title, entry.aside), open).clicked() {
        commands.push(Command::Help(Help { rule: (!open).then_some(entry.key), ..shown.clone() }));
    }
    if !open {
        return;
    }
    Frame::NONE.inner_margin(Margin { left: 12, right: 0, top: 2, bottom: 8 }).show(ui, |ui| {
        for (caption, text) in &entry.more {
            told(ui, caption, text);
        }
        for line in threshold_lines(&app.policy, &shown.thresholds) {
            told(ui, "Threshold", &line);
        }
    });
}

/// A caption in a column of its own, the text beside it.
fn told(ui: &mut Ui, caption: &str, text: &str) {
    ui.horizontal_top(|ui| {
        let size = vec2(CAPTIONS, ui.text_style_height(&egui::TextStyle::Body));
        ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Min), |ui| {
            ui.set_min_width(CAPTIONS);
            ui.label(theme::caption(caption));
        });
        ui.add(Label::new(text).wrap());
    });
}
