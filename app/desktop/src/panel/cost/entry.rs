//! A field whose text is taken when it is left or Enter is pressed, if it can be read.

use egui::{Id, Stroke, StrokeKind, TextEdit, Ui};

use crate::theme;

/// What is typed, and the text from which it began.
#[derive(Clone)]
struct Draft {
    from: String,
    text: String,
}

/// How a field looks.
pub(super) struct Shape<'a> {
    /// What is read out.
    pub(super) name: &'a str,
    /// What could be typed.
    pub(super) hint: &'a str,
    /// Width in points.
    pub(super) width: f32,
}

/// The field; `now` is what is in force. Returns a text that `reads` and differs from it, once the field is left.
pub(super) fn entry(ui: &mut Ui, id: Id, shape: &Shape, now: &str, reads: impl Fn(&str) -> bool) -> Option<String> {
    let kept = ui.data(|data| data.get_temp::<Draft>(id)).filter(|draft| draft.from == now);
    let mut text = kept.map_or_else(|| now.to_owned(), |draft| draft.text);
    let field = TextEdit::singleline(&mut text).id(id).hint_text(format!("such as {}", shape.hint)).desired_width(shape.width);
    let response = ui.add(field.margin(egui::Margin::symmetric(6, 3)));
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(shape.name));
    if response.changed() {
        ui.data_mut(|data| data.insert_temp(id, Draft { from: now.to_owned(), text: text.clone() }));
    }
    let sound = reads(text.trim());
    if text != now && !sound {
        let edge = Stroke::new(2.0, theme::tokens(ui).mismatch);
        ui.painter().rect_stroke(response.rect.expand(1.0), 4.0, edge, StrokeKind::Outside);
    }
    let left = response.lost_focus();
    let _ = response.on_hover_text(format!("{}, such as {}", shape.name, shape.hint));
    if !left || text == now || !sound {
        return None;
    }
    ui.data_mut(|data| data.remove::<Draft>(id));
    Some(text.trim().to_owned())
}
