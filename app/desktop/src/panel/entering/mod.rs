//! The form of a part or kit of the user's own: its fields as its record describes them, what is wrong as one types, where each
//! figure is found, and what the change does to the builds that list it.

mod field;
mod records;

pub(super) use field::is_typing;

use std::path::Path;

use egui::{Frame, Id, Label, Margin, ScrollArea, TextEdit, Ui};
use propwright_schema::part::Role;

use super::{Commands, caption_word, strong_word, word};
use crate::{
    command::Command,
    entering::{Article, KIT, Spot},
    files,
    run_command::entering::Enter,
    state::{App, Entering},
    theme::{self, GRID},
    view::{self, Control, Fold, FormGroup as Group, Line},
};

pub(super) fn show(ui: &mut Ui, app: &App, entering: &Entering, commands: &mut Commands) {
    let form = &entering.form;
    come(ui, app);
    ui.label(theme::title(&form.title));
    ui.add_space(GRID);
    deeds(ui, entering, commands);
    for problem in &entering.problems {
        ui.add(Label::new(problem).wrap());
    }
    if entering.tried && !form.hindered.is_empty() {
        ui.add_space(GRID);
        ui.label(theme::strong("Not kept yet:"));
        for line in &form.hindered {
            ui.add(Label::new(line).wrap());
        }
    }
    ui.add_space(GRID);
    ScrollArea::vertical().auto_shrink([false, false]).id_salt("entering").show(ui, |ui| {
        ui.set_max_width(ui.available_width() - 3.0 * GRID);
        ui.spacing_mut().item_spacing.y = 3.0;
        for group in &form.groups {
            self::group(ui, entering, group, commands);
        }
        at_once(ui, entering, commands);
        if let Some(fold) = &form.fold {
            self::fold(ui, entering, fold, commands);
        }
        place(ui, app, entering, commands);
        if !form.earlier.is_empty() {
            ui.add_space(2.0 * GRID);
            ui.label(theme::caption("Earlier prices"));
            for line in &form.earlier {
                ui.label(line);
            }
        }
        uses(ui, entering);
        ui.add_space(4.0 * GRID);
        super::field::follow_focus(ui);
    });
}

fn deeds(ui: &mut Ui, entering: &Entering, commands: &mut Commands) {
    let push = |commands: &mut Commands, enter: Enter| commands.push(Command::Enter(enter));
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0 * GRID;
        if strong_word(ui, "Keep").on_hover_text("Writes it into the catalogue (Ctrl S).").clicked() {
            push(commands, Enter::Keep);
        }
        if word(ui, "Close").on_hover_text("Closes the form (Escape).").clicked() {
            commands.push(Command::LeaveForm);
        }
        if let Some(was) = entering.was.as_ref().filter(|_| !entering.is_edited()) {
            let like = match &entering.article {
                Article::Part(_) => Enter::Copy(was.clone()),
                Article::Kit(_) => Enter::CopyKit(was.clone()),
            };
            if word(ui, "One like it…").on_hover_text("Begins a new one with all that stands here.").clicked() {
                push(commands, like);
            }
        }
        if entering.was.is_some() {
            let about = "Takes the record out of your catalogue. A part that is no longer sold is better marked as retired.";
            if word(ui, "Take out of the catalogue").on_hover_text(about).clicked() {
                push(commands, Enter::TakeOut);
            }
        }
        if let Article::Part(part) = &entering.article {
            roles(ui, &part.fills.iter().map(Role::word).collect::<Vec<_>>(), commands);
        }
    });
}

/// What can be said of many figures at once.
fn at_once(ui: &mut Ui, entering: &Entering, commands: &mut Commands) {
    if matches!(entering.article, Article::Kit(_)) {
        return;
    }
    ui.add_space(3.0 * GRID);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0 * GRID;
        let about = "Marks every figure that is still blank as not published: looked for, and not there. Undo takes it back.";
        let rest = word(ui, "The rest is not published").on_hover_text(about);
        field::arrive(ui, &rest);
        if rest.clicked() {
            commands.push(Command::Enter(Enter::RestNotPublished));
        }
        let about =
            "Says of every figure that calipers, a scale or a meter can tell that you measured it; ratings stay the maker's.";
        if word(ui, "All measured by me").on_hover_text(about).clicked() {
            commands.push(Command::Enter(Enter::AllMeasured));
        }
        ui.label(theme::caption("Ctrl S keeps it"));
    });
    if let Some(told) = &entering.told {
        ui.add(Label::new(theme::caption(told)).wrap());
    }
}

/// The fields that pages seldom print, under a heading that opens.
fn fold(ui: &mut Ui, entering: &Entering, fold: &Fold, commands: &mut Commands) {
    let open = entering.open == Some(true) || fold.wrong;
    ui.add_space(3.0 * GRID);
    let sign = if open { "▾" } else { "▸" };
    let words = fold.words();
    let heading = super::opener(ui, theme::strong(format!("{words} {sign}")), &words, open);
    if open && ui.data_mut(|data| data.remove_temp::<bool>(opened_id())).is_some() {
        heading.scroll_to_me(Some(egui::Align::Min));
    }
    if heading.clicked() {
        ui.data_mut(|data| data.insert_temp(opened_id(), true));
        commands.push(Command::Enter(Enter::Open(!open)));
    }
    if open {
        for group in &entering.form.folded {
            self::group(ui, entering, group, commands);
        }
    }
}

/// A board can be controller, receiver and transmitter at once.
fn roles(ui: &mut Ui, held: &[&str], commands: &mut Commands) {
    let response = word(ui, "It is also…").on_hover_text("Adds the figures of another kind: a board with a receiver on it.");
    egui::Popup::menu(&response).accessible_name("Kinds to add").show(|ui| {
        ScrollArea::vertical().max_height(90.0 * GRID).show(ui, |ui| {
            for kind in Role::WORDS.iter().filter(|kind| !held.contains(kind)) {
                if ui.button(*kind).clicked() {
                    commands.push(Command::Enter(Enter::Role(kind)));
                    ui.close();
                }
            }
        });
    });
}

/// The catalogue that it goes into.
fn place(ui: &mut Ui, app: &App, entering: &Entering, commands: &mut Commands) {
    ui.add_space(3.0 * GRID);
    super::field::row(ui, "Catalogue", "The file of yours that it is written into.", |ui, label| {
        let mut path = entering.into.clone();
        let enabled = entering.was.is_none();
        let field = TextEdit::singleline(&mut path).desired_width(ui.available_width() - 2.0 * GRID).hint_text("parts.ron");
        let field = field.id(Id::unique("catalogue of a form")).margin(Margin::symmetric(8, 3));
        let response = ui.add_enabled(enabled, field).labelled_by(label);
        if response.changed() {
            commands.push(Command::Enter(Enter::Into(path)));
        }
        response.on_hover_text("A file that is not there yet is made.");
    });
    if entering.was.is_none() && app.sources.catalogues.len() > 1 {
        let others = app.sources.catalogues.iter().map(|kept| files::name(&kept.path)).filter(|path| *path != entering.into);
        super::field::indented(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                for path in others {
                    let short = Path::new(&path).file_name().unwrap_or_default().to_string_lossy().into_owned();
                    if caption_word(ui, &format!("into {short}")).on_hover_text(&path).clicked() {
                        commands.push(Command::Enter(Enter::Into(path)));
                    }
                }
            });
        });
    }
    for note in &entering.form.notes {
        super::field::below(ui, theme::caption(note));
    }
}

fn group(ui: &mut Ui, entering: &Entering, group: &Group, commands: &mut Commands) {
    ui.add_space(3.0 * GRID);
    ui.horizontal(|ui| {
        ui.label(theme::strong(&group.title));
        let several = entering.article.roles().len() > 1;
        if let Some(role) = group.role.filter(|_| several) {
            let about = format!("Takes the figures of the {} away.", group.title.to_lowercase());
            if caption_word(ui, "take away").on_hover_text(about).clicked() {
                commands.push(Command::Enter(Enter::NoRole(role)));
            }
        }
    });
    ui.add_space(GRID);
    for line in &group.lines {
        self::line(ui, entering, line, commands);
    }
}

fn line(ui: &mut Ui, entering: &Entering, line: &Line, commands: &mut Commands) {
    match &line.control {
        Control::Records(items) => records::list(ui, entering, line, items, commands),
        Control::Record(lines) => records::one(ui, entering, line, lines, commands),
        _ => field::row(ui, entering, line, commands),
    }
}

/// What the article as it is entered does to the builds that list it.
fn uses(ui: &mut Ui, entering: &Entering) {
    ui.add_space(3.0 * GRID);
    ui.label(theme::strong("Builds that list it"));
    let uses = &entering.uses;
    if uses.found.is_empty() {
        let said = if uses.waiting { "Looking…" } else { "No open build, and none of the files used last." };
        ui.label(theme::caption(said));
    }
    for found in &uses.found {
        ui.add_space(GRID);
        ui.label(&found.build);
        let [before, after] = found.mismatches;
        let way = match after.cmp(&before) {
            std::cmp::Ordering::Equal => String::new(),
            _ => format!(" · in the way: {before}, then {after}"),
        };
        ui.add(Label::new(theme::caption(format!("{}{way}", view::all_change_words(&found.change)))).wrap());
    }
}

/// Where entering and importing begin, while no part is being chosen.
pub(super) fn invitation(ui: &mut Ui, app: &App, commands: &mut Commands) {
    super::field::section(ui, "Your own catalogue", |ui| {
        let said =
            "Parts that you enter lie in a file of yours, over those of the program; what builds know of them follows at once.";
        ui.add(Label::new(theme::caption(said)).wrap());
        ui.add_space(GRID);
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0 * GRID;
            let response = word(ui, "Enter a part…").on_hover_text("A form for a part from a shop's page or your own bench.");
            egui::Popup::menu(&response).accessible_name("Kinds of parts").show(|ui| {
                ScrollArea::vertical().max_height(90.0 * GRID).show(ui, |ui| {
                    for kind in Role::WORDS.iter().chain(std::iter::once(&KIT)) {
                        if ui.button(*kind).clicked() {
                            commands.push(Command::Enter(Enter::New(kind)));
                            ui.close();
                        }
                    }
                });
            });
        });
        if let Some(deed) = app.deeds_past.last() {
            ui.horizontal(|ui| {
                ui.label(theme::caption(format!("Done: {}.", deed.label)));
                if caption_word(ui, "Take it back").on_hover_text("Undo (Ctrl Z) does the same.").clicked() {
                    commands.push(Command::TakeBack);
                }
            });
        }
    });
}

/// What was opened is scrolled to.
fn opened_id() -> Id {
    Id::unique("fields of a form opened")
}

fn came_id() -> Id {
    Id::unique("form came")
}

/// The next form that comes takes the keys.
pub(super) fn gone(ui: &Ui) {
    ui.data_mut(|data| data.remove::<bool>(came_id()));
}

/// The first field takes the keys when the form comes.
fn come(ui: &Ui, app: &App) {
    let first = spot_id(&Spot::of(None, "name"));
    if app.cover.is_some() || ui.data(|data| data.get_temp::<bool>(came_id())).is_some() {
        return;
    }
    if ui.memory(|memory| memory.has_focus(first)) {
        ui.data_mut(|data| data.insert_temp(came_id(), true));
    } else {
        // A cover that has just gone keeps the keys for one more frame.
        ui.memory_mut(|memory| memory.request_focus(first));
        ui.ctx().request_repaint();
    }
}

/// The frame of a page about the catalogue.
pub(super) fn framed(ui: &mut Ui, content: impl FnOnce(&mut Ui)) {
    Frame::NONE.inner_margin(Margin { left: 16, right: 8, top: 12, bottom: 8 }).show(ui, content);
}

/// The id of the field of a place.
fn spot_id(spot: &crate::entering::Spot) -> Id {
    Id::unique(("enter", spot))
}
