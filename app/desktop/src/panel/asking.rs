//! What nobody stated, by the question: how each figure is learned, and what waits for it.

use egui::{Frame, Id, Label, Margin, RichText, Ui};
use propwright_engine::finding::Status;
use propwright_schema::{estimate, value::Kind};

use super::{
    Commands,
    field::{self, FIGURE, Shape},
    finding::{self, toggle, toggle_from},
    small_word, word,
};
use crate::{
    command::{Action, Command},
    edit::Edit,
    input::Input,
    state::{Document, Page},
    theme::{self, GRID},
    view::{Asking, Said, Waiting},
    widget::mark,
};

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let questions = &document.bench.findings.questions;
    if questions.is_empty() {
        return;
    }
    Frame::NONE.inner_margin(Margin { left: 14, right: 14, top: 8, bottom: 4 }).show(ui, |ui| {
        ui.label(theme::title("What nobody stated"));
        for asking in questions {
            ui.push_id(&asking.key, |ui| question(ui, document, asking, commands));
        }
    });
}

fn question(ui: &mut Ui, document: &Document, asking: &Asking, commands: &mut Commands) {
    ui.add_space(2.0 * GRID);
    ui.horizontal_top(|ui| {
        mark::mark(ui, Status::Unstated);
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 3.0;
            let title = ui.add(Label::new(theme::strong(&asking.title)).wrap());
            if !asking.about.is_empty() {
                ui.add(Label::new(theme::caption(&asking.about)).wrap());
            }
            ui.add(Label::new(theme::caption(&asking.how)).wrap());
            if let Some(said) = asking.said {
                say(ui, document, said, commands);
            }
            if !asking.no_estimate.is_empty() {
                ui.add(Label::new(theme::caption(asking.no_estimate)).wrap());
            }
            if let Some(input) = &asking.estimate {
                estimate(ui, document, input, title.id, commands);
            }
            waiting(ui, document, &asking.waiting, commands);
        });
    });
    ui.add_space(2.0 * GRID);
}

/// Where an estimate is typed or chosen; nothing stands in it before.
fn estimate(ui: &mut Ui, document: &Document, input: &Input, title: Id, commands: &mut Commands) {
    let Input::Estimate { part, role, field: name } = input else { return };
    let Some(field) = input.field() else { return };
    let form = estimate::how_to_type(&field);
    if !form.is_empty() {
        // Lists want the whole width, and a line on how they are typed.
        ui.label(theme::caption("Your estimate"));
        let shape = Shape { width: ui.available_width() - 4.0 * GRID, rows: 1, hint: "none" };
        field::text(ui, document, input, shape, commands).labelled_by(title).on_hover_text(ABOUT);
        let said = field::wrong(document, input).map_or_else(|| theme::caption(form), RichText::new);
        ui.add(Label::new(said).wrap());
        return;
    }
    ui.horizontal(|ui| {
        ui.label(theme::caption("Your estimate"));
        let words: &[&str] = match field.kind {
            Kind::Choice(words) => words,
            Kind::Flag => &["yes", "no"],
            _ => &[],
        };
        if words.is_empty() {
            let shape = Shape { width: FIGURE, rows: 1, hint: "none" };
            field::text(ui, document, input, shape, commands).labelled_by(title).on_hover_text(ABOUT);
            ui.add(Label::new(theme::caption(field::behind(document, input))).truncate());
            return;
        }
        let now = input.shown(&document.build);
        let shown = if now.is_empty() { "none" } else { &now };
        let chosen = field::choice(ui, "estimate", title, FIGURE * 2.0, shown, words.iter().map(|word| (*word, "")));
        let value = chosen.and_then(|at| words.get(at)).and_then(|word| estimate::read(word, &field).ok()).flatten();
        if value.is_some() {
            let edit = Edit::Estimate { part: part.clone(), role: *role, field: name, value };
            commands.push(Command::Edit(document.id, edit));
        }
    });
    if let Some(problem) = field::wrong(document, input) {
        ui.add(Label::new(problem).wrap());
    }
}

const ABOUT: &str =
    "Stands for this build only. It is called an estimate wherever it counts, widens the bands, and can warn, never forbid.";

/// What the user estimated: each can be changed and taken back.
pub(super) fn guesses(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let guesses = &document.bench.findings.guesses;
    if guesses.is_empty() {
        return;
    }
    Frame::NONE.inner_margin(Margin { left: 14, right: 14, top: 8, bottom: 4 }).show(ui, |ui| {
        ui.label(theme::title("What you estimated"));
        for guess in guesses {
            ui.push_id(&guess.input, |ui| {
                ui.add_space(2.0 * GRID);
                ui.spacing_mut().item_spacing.y = 3.0;
                let title = ui.add(Label::new(theme::strong(&guess.title)).wrap());
                if !guess.unused.is_empty() {
                    ui.add(Label::new(theme::caption(&guess.unused)).wrap());
                }
                estimate(ui, document, &guess.input, title.id, commands);
                let name = format!("Take back: {}", guess.title);
                if small_word(ui, "Take back", &name).clicked() {
                    commands.push(Command::Edit(document.id, guess.back.clone()));
                }
            });
        }
    });
}

/// Leads to where the list says it.
fn say(ui: &mut Ui, document: &Document, said: Said, commands: &mut Commands) {
    let (text, to) = match said {
        Said::Line(place) => ("Say it at the part", vec![Command::Pick(document.id, Some(place))]),
        Said::Purpose => ("Say it on page Purpose", vec![Command::Do(document.id, Action::Page(Page::Purpose))]),
        Said::Whole => {
            ("Say it on page Parts", vec![Command::Pick(document.id, None), Command::Do(document.id, Action::Page(Page::Parts))])
        }
    };
    if word(ui, text).clicked() {
        commands.extend(to);
    }
}

/// The findings that wait, each opened in its place by its name; of many only the count stands open.
fn waiting(ui: &mut Ui, document: &Document, waiting: &[Waiting], commands: &mut Commands) {
    let count = waiting.len();
    let said = if count == 1 { "1 finding waits for it".to_owned() } else { format!("{count} findings wait for it") };
    if !toggle_from(ui, ui.scope_id().with("waiting"), &said, count <= FEW) {
        return;
    }
    Frame::NONE.inner_margin(Margin { left: 12, ..Margin::ZERO }).show(ui, |ui| {
        // A rule may find several things of which none is known.
        for of_rule in waiting.chunk_by(|one, next| one.card.rule == next.card.rule) {
            let Some(first) = of_rule.first() else { continue };
            let open = ui.push_id(first.card.rule, |ui| toggle(ui, ui.scope_id().with("waits"), &first.card.about)).inner;
            for waits in of_rule.iter().filter(|_| open) {
                finding::show(ui, document, &waits.card, commands);
            }
        }
    });
}

/// So many findings stand open below what they wait for.
const FEW: usize = 3;
