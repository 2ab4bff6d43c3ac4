//! What covers the window until it is answered: files, names, what is not saved, the finder, the keys.

use std::path::PathBuf;

use egui::{Align, Button, Frame, Id, Key, Layout, Margin, Modal, Modifiers, ScrollArea, TextEdit, Ui};

use super::{Commands, demos, help, sources, word};
use crate::{
    browse::Wish,
    command::Command,
    edit::Edit,
    run_command::entering::Enter,
    state::{App, Cover, DocumentId, Then, Whose},
    theme::{self, GRID, Tokens},
    view::hits,
};

pub(super) fn show(ui: &Ui, app: &App, commands: &mut Commands) {
    let Some(cover) = &app.cover else { return };
    let width = match cover {
        Cover::Help(_) => 220.0 * GRID,
        Cover::Finder { .. } | Cover::Sources { .. } => 140.0 * GRID,
        _ => 120.0 * GRID,
    };
    let frame = Frame::popup(ui.style()).inner_margin(Margin::same(20));
    // An area keeps its size from frame to frame: each question has its own.
    let id = Id::unique("cover").with(std::mem::discriminant(cover));
    let modal = Modal::new(id).backdrop_color(Tokens::veil()).frame(frame);
    let shown = modal.show(ui.ctx(), |ui| {
        ui.set_width(width.min(ui.ctx().content_rect().width() - 16.0 * GRID));
        // A low window scrolls what does not fit.
        let height = ui.ctx().content_rect().height() - 16.0 * GRID;
        // An area is 400 points high at the most unless it is told.
        ui.set_max_height(height);
        ScrollArea::vertical().max_height(height).show(ui, |ui| content(ui, app, cover, commands));
    });
    if shown.should_close() {
        commands.push(Command::Cover(None));
    }
    // What changed its size stands in the middle from the next frame on.
    let size = shown.response.rect.size();
    if ui.data(|data| data.get_temp(id)) != Some(size) {
        ui.data_mut(|data| data.insert_temp(id, size));
        ui.ctx().request_repaint();
    }
}

fn content(ui: &mut Ui, app: &App, cover: &Cover, commands: &mut Commands) {
    match cover {
        Cover::Open { path, problem } => open(ui, app, path, problem, commands),
        Cover::SaveAs { document, path, problem, then_close, replace } => {
            save(ui, *document, path, problem, (*then_close, *replace), commands);
        }
        Cover::Changed { document, differs, then } => changed(ui, app, *document, differs, *then, commands),
        Cover::Rename { document, name } => rename(ui, *document, name, commands),
        Cover::Unsaved { document } => unsaved(ui, app, *document, commands),
        Cover::Finder { words, line } => finder(ui, app, words, *line, commands),
        Cover::Help(shown) => help::show(ui, app, shown, commands),
        Cover::Sources { catalogue, policy, problems } => sources::show(ui, app, [catalogue, policy], problems, commands),
        Cover::Unkept => unkept(ui, app, commands),
        Cover::Message { title, lines } => message(ui, title, lines, commands),
    }
}

/// A field with a name above it that takes the keys when nothing else has them. Says the text when it changed, and whether
/// Enter was pressed.
pub(super) fn field(ui: &mut Ui, name: &str, text: &str, hint: &'static str) -> (Option<String>, bool) {
    let (response, changed, entered) = plain_field(ui, name, text, hint);
    if ui.memory(|memory| memory.focused().is_none()) && !entered {
        response.request_focus();
    }
    (changed, entered)
}

/// The same that waits to be chosen.
pub(super) fn plain_field(ui: &mut Ui, name: &str, text: &str, hint: &'static str) -> (egui::Response, Option<String>, bool) {
    let mut now = text.to_owned();
    let label = ui.label(theme::caption(name));
    let field = TextEdit::singleline(&mut now).hint_text(hint).desired_width(f32::INFINITY).margin(egui::Margin::symmetric(8, 6));
    let response = ui.add(field).labelled_by(label.id);
    let entered = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    let changed = response.changed().then_some(now);
    (response, changed, entered)
}

fn problem_line(ui: &mut Ui, problem: &str) {
    if !problem.is_empty() {
        ui.add_space(GRID);
        ui.add(egui::Label::new(problem).wrap());
    }
}

/// Buttons at the right; the first is the usual answer. Says which was pressed.
pub(super) fn answers(ui: &mut Ui, names: &[&str]) -> Option<usize> {
    ui.add_space(4.0 * GRID);
    let mut pressed = None;
    // A layout of its own would take all the height that is left.
    let row = egui::vec2(ui.available_width(), 7.0 * GRID);
    ui.allocate_ui_with_layout(row, Layout::right_to_left(Align::Center), |ui| {
        for (at, name) in names.iter().enumerate() {
            let text = if at == 0 { theme::strong(*name) } else { egui::RichText::new(*name) };
            if ui.add(Button::new(text).min_size(egui::vec2(20.0 * GRID, 7.0 * GRID))).clicked() {
                pressed = Some(at);
            }
        }
    });
    pressed
}

fn open(ui: &mut Ui, app: &App, path: &str, problem: &str, commands: &mut Commands) {
    ui.label(theme::title("Open a build list"));
    ui.add_space(2.0 * GRID);
    let (changed, entered) = field(ui, "Path of the file", path, "/home/me/builds/meadow.ron");
    if let Some(path) = changed {
        commands.push(Command::Cover(Some(Cover::Open { path, problem: String::new() })));
    }
    problem_line(ui, problem);
    if !app.memory.recent.is_empty() {
        ui.add_space(3.0 * GRID);
        ui.label(theme::caption("Used last"));
        for recent in &app.memory.recent {
            if word(ui, &recent.display().to_string()).clicked() {
                commands.push(Command::Read(recent.clone()));
            }
        }
    }
    ui.add_space(3.0 * GRID);
    demos(ui, commands);
    match answers(ui, &["Open", "Browse…", "Cancel"]) {
        Some(0) => commands.push(Command::Read(PathBuf::from(path))),
        Some(1) => commands.push(Command::Browse(Wish::Open)),
        Some(_) => commands.push(Command::Cover(None)),
        None if entered => commands.push(Command::Read(PathBuf::from(path))),
        None => {}
    }
}

fn save(
    ui: &mut Ui,
    document: DocumentId,
    path: &str,
    problem: &str,
    (then_close, replace): (bool, bool),
    commands: &mut Commands,
) {
    ui.label(theme::title("Save the build list"));
    ui.add_space(2.0 * GRID);
    let (changed, entered) = field(ui, "Path of the file", path, "/home/me/builds/meadow.ron");
    if let Some(path) = changed {
        let cover = Cover::SaveAs { document, path, problem: String::new(), then_close, replace: false };
        commands.push(Command::Cover(Some(cover)));
    }
    problem_line(ui, problem);
    let write = || Command::Write { document, path: PathBuf::from(path), then_close, replace };
    match answers(ui, &[if replace { "Replace" } else { "Save" }, "Browse…", "Cancel"]) {
        Some(0) => commands.push(write()),
        Some(1) => commands.push(Command::Browse(Wish::Save)),
        Some(_) => commands.push(Command::Cover(None)),
        // Enter alone replaces nothing: it may still be held from the first save.
        None if entered && !replace => commands.push(write()),
        None => {}
    }
}

fn changed(ui: &mut Ui, app: &App, id: DocumentId, differs: &str, then: Then, commands: &mut Commands) {
    let Some(document) = app.document(id) else { return };
    ui.label(theme::title(format!("The file of {} was changed by somebody else", document.build.name)));
    ui.add_space(GRID);
    if let Some(path) = &document.path {
        ui.add(egui::Label::new(theme::caption(path.display().to_string())).wrap());
    }
    ui.add(egui::Label::new(differs).wrap());
    ui.add_space(GRID);
    ui.label("Keep mine: the build stays as it is here, and a save overwrites the file.");
    ui.label("Take theirs: the build becomes what the file holds; undo brings yours back.");
    let then_close = matches!(then, Then::Save { then_close: true });
    match answers(ui, &["Keep mine", "Take theirs", "Save as…", "Later"]) {
        Some(0) => commands.push(Command::Settle(id, Whose::Mine, then)),
        Some(1) => commands.push(Command::Settle(id, Whose::Theirs, then)),
        Some(2) => commands.push(Command::AskName { document: id, then_close }),
        Some(_) => commands.push(Command::Cover(None)),
        None => {}
    }
}

fn rename(ui: &mut Ui, document: DocumentId, name: &str, commands: &mut Commands) {
    ui.label(theme::title("Rename the build"));
    ui.add_space(2.0 * GRID);
    let (changed, entered) = field(ui, "Name", name, "Meadow five-inch");
    if let Some(name) = changed {
        commands.push(Command::Cover(Some(Cover::Rename { document, name })));
    }
    let done = |commands: &mut Commands| {
        // A build without a name could not be told from others.
        if !name.trim().is_empty() {
            commands.push(Command::Edit(document, Edit::Rename { name: name.trim().to_owned() }));
        }
        commands.push(Command::Cover(None));
    };
    match answers(ui, &["Rename", "Cancel"]) {
        Some(0) => done(commands),
        Some(_) => commands.push(Command::Cover(None)),
        None if entered => done(commands),
        None => {}
    }
}

fn unsaved(ui: &mut Ui, app: &App, id: DocumentId, commands: &mut Commands) {
    let Some(document) = app.document(id) else { return };
    ui.label(theme::title(format!("{} is not saved", document.build.name)));
    ui.add_space(GRID);
    ui.label("What was changed since the last save would be lost.");
    match answers(ui, &["Save", "Discard", "Stay"]) {
        Some(0) => commands.push(Command::SaveAndClose(id)),
        Some(1) => commands.push(Command::Discard(id)),
        Some(_) => commands.push(Command::Cover(None)),
        None => {}
    }
}

fn unkept(ui: &mut Ui, app: &App, commands: &mut Commands) {
    let Some(entering) = &app.entering else { return };
    ui.label(theme::title(format!("{} is not kept", entering.form.title)));
    ui.add_space(GRID);
    ui.label("What was entered would be lost.");
    let answer = answers(ui, &["Keep", "Discard", "Stay"]);
    if answer.is_some() {
        commands.push(Command::Cover(None));
    }
    match answer {
        Some(0) => commands.push(Command::Enter(Enter::Keep)),
        Some(1) => commands.push(Command::Enter(Enter::Close)),
        _ => {}
    }
}

fn finder(ui: &mut Ui, app: &App, words: &str, line: usize, commands: &mut Commands) {
    let found = hits(app, words);
    let last = found.len().saturating_sub(1);
    let pressed = |key| ui.input_mut(|input| input.count_and_consume_key(Modifiers::NONE, key));
    let (down, up) = (pressed(Key::ArrowDown), pressed(Key::ArrowUp));
    if down + up > 0 {
        let line = (line + down).min(last).saturating_sub(up);
        commands.push(Command::Cover(Some(Cover::Finder { words: words.to_owned(), line })));
    }
    let (changed, entered) = field(ui, "Find anything", words, "a part, a slot, a finding, an action");
    if let Some(words) = changed {
        commands.push(Command::Cover(Some(Cover::Finder { words, line: 0 })));
    }
    ui.add_space(2.0 * GRID);
    if found.is_empty() {
        ui.label("Nothing holds these words.");
    }
    for (at, hit) in found.into_iter().enumerate() {
        let here = at == line.min(last);
        let aside = [hit.kind, &hit.aside].into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" · ");
        let button = Button::selectable(here, hit.text.as_str()).right_text(theme::caption(&aside));
        let response = ui.add(button.min_size(egui::vec2(ui.available_width(), 7.0 * GRID)));
        let spoken = format!("{}, {aside}", hit.text);
        response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, here, &spoken));
        if down + up > 0 && at == (line + down).min(last).saturating_sub(up) {
            response.scroll_to_me(None);
        }
        if response.clicked() || (entered && here) {
            commands.push(Command::Cover(None));
            commands.extend(hit.commands);
        }
    }
}

fn message(ui: &mut Ui, title: &str, lines: &[String], commands: &mut Commands) {
    ui.label(theme::title(title));
    ui.add_space(2.0 * GRID);
    ScrollArea::vertical().max_height(100.0 * GRID).show(ui, |ui| {
        for line in lines {
            ui.add(egui::Label::new(line).wrap());
            ui.add_space(GRID);
        }
    });
    if answers(ui, &["Close"]).is_some() {
        commands.push(Command::Cover(None));
    }
}
