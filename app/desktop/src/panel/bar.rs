//! The bar along the top: the build's name with its menu, the pages, the finder.

use egui::{Align, Button, Layout, Popup, RichText, Stroke, Ui, vec2};

use super::{Commands, list_width, ring};
use crate::{
    command::{self, ACTIONS, Action, Command, Menu},
    state::{App, Document, Page},
    theme::{self, CAPTION, GRID, TITLE},
};

/// A window narrower than this has tabs closer together, and less room for the build's name, in points.
const NARROW: f32 = 225.0 * GRID;
/// Width of the build's name there.
const NAME: f32 = 34.0 * GRID;

pub(super) fn show(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    let narrow = ui.available_width() < NARROW;
    let list = if narrow { NAME } else { list_width(ui.available_width()) };
    ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
        ui.add_space(5.0 * GRID);
        let left = ui.cursor().left();
        ui.allocate_ui_with_layout(vec2(list - 8.0 * GRID, ui.available_height()), Layout::left_to_right(Align::Center), |ui| {
            name(ui, app, document, commands);
        });
        ui.add_space((left + list - GRID - ui.cursor().left()).max(0.0));
        for page in Page::ALL {
            tab(ui, app, document, page, commands);
            ui.add_space(if narrow { GRID } else { 4.0 * GRID });
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.add_space(if narrow { 2.0 * GRID } else { 5.0 * GRID });
            finder(ui, document, narrow, commands);
        });
    });
}

/// The name of the build; pressed, it opens the menu.
fn name(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    let tokens = theme::tokens(ui);
    let edited = if document.is_edited() { " edited" } else { "" };
    let mut text = egui::text::LayoutJob::default();
    let simple = egui::TextFormat::simple;
    text.append(&document.build.name, 0.0, simple(theme::bold(TITLE), tokens.ink));
    text.append(edited, 0.0, simple(theme::regular(theme::TEXT), tokens.soft));
    text.append(" ▾", 0.0, simple(theme::regular(CAPTION), tokens.soft));
    let response = ui.add(Button::new(text).frame(false).truncate());
    ring(ui, &response);
    let spoken = format!("Build {}{edited}: menu", document.build.name);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &spoken));
    let response = match &document.path {
        Some(path) => response.on_hover_text(path.display().to_string()),
        None => response.on_hover_text("not in a file yet"),
    };
    Popup::menu(&response).accessible_name("Menu").width(66.0 * GRID).show(|ui| {
        for other in app.documents.iter().filter(|other| other.id != document.id) {
            if ui.button(&other.build.name).on_hover_text("open build").clicked() {
                commands.push(Command::Show(other.id));
            }
        }
        if app.documents.len() > 1 {
            ui.separator();
        }
        menu(ui, app, document, commands);
    });
}

fn menu(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    for entry in &ACTIONS {
        if entry.menu == Menu::Nowhere {
            continue;
        }
        if entry.menu == Menu::Apart {
            ui.separator();
        }
        let open = entry.action.is_open(app, document.id);
        let button = Button::new(entry.title_now(app, document.id)).shortcut_text(entry.key_words());
        if ui.add_enabled(open, button).on_hover_text(entry.about).clicked() {
            commands.push(Command::Do(document.id, entry.action));
            ui.close();
        }
        if entry.action == Action::Open {
            recent(ui, app, document, commands);
        }
    }
}

/// The files used last, but for the one that is shown.
fn recent(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    let files = || app.memory.recent.iter().filter(|path| document.path.as_ref() != Some(path));
    if files().next().is_none() {
        return;
    }
    ui.menu_button("Used last", |ui| {
        for path in files() {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            if ui.button(name).on_hover_text(path.display().to_string()).clicked() {
                commands.push(Command::Read(path.clone()));
                ui.close();
            }
        }
    });
}

fn tab(ui: &mut Ui, app: &App, document: &Document, page: Page, commands: &mut Commands) {
    let tokens = theme::tokens(ui);
    let here = app.page == page;
    let font = if here { theme::bold(TITLE) } else { theme::regular(TITLE) };
    let text = RichText::new(page.word()).font(font).color(if here { tokens.ink } else { tokens.soft });
    let response = ui.add(Button::selectable(here, text).frame(false).min_size(vec2(0.0, ui.available_height())));
    ring(ui, &response);
    if here {
        let y = response.rect.bottom() - 6.0;
        let x = response.rect.x_range().shrink(GRID);
        ui.painter().hline(x, y, Stroke::new(3.0, tokens.accent));
    }
    let action = Action::Page(page);
    let Some(entry) = command::of(action) else { return };
    if response.on_hover_text(format!("{} ({})", entry.about, entry.key_words())).clicked() {
        commands.push(Command::Do(document.id, action));
    }
}

fn finder(ui: &mut Ui, document: &Document, narrow: bool, commands: &mut Commands) {
    let Some(entry) = command::of(Action::Find) else { return };
    let words = if narrow { "Find" } else { "Find anything" };
    let response = ui.add(Button::new(theme::caption(format!("{words} {}", entry.key_words()))).frame(false));
    ring(ui, &response);
    if response.on_hover_text(entry.about).clicked() {
        commands.push(Command::Do(document.id, Action::Find));
    }
}
