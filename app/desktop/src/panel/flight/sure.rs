//! What makes each figure unsure, and what to measure.

use egui::Ui;

use crate::view::Flight;

pub(super) fn show(_ui: &mut Ui, _flight: &Flight) {}
