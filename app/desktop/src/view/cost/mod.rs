//! Money in words and lengths: the bill, kits against separate parts, the way to fly, builds side by side.

mod bill;
mod compared;
mod course;
mod kit;

use crate::worker::Worked;

pub use bill::{BillRow, BillView, Charged, Group, Mark, bill_view};
pub use compared::{Column, ComparedRow, ComparedView};
pub use course::{CourseView, StepView};
pub use kit::{Bar, KitView, Segment};

/// What a section of the page of costs shows.
#[derive(Debug, Clone, PartialEq)]
pub enum Costing {
    /// Kits against separate parts, those that go with the craft first.
    Kits(Vec<KitView>),
    /// What learning to fly costs.
    Course(CourseView),
    /// Builds side by side.
    Compared(ComparedView),
}

/// What was worked out, as it is drawn.
pub fn costing(worked: &Worked) -> Costing {
    match worked {
        Worked::Kits(kits) => Costing::Kits(kits.iter().map(kit::kit_view).collect()),
        Worked::Course(course) => Costing::Course(course::course_view(course)),
        Worked::Compared(reports, compared) => Costing::Compared(compared::compared_view(reports, compared)),
    }
}
