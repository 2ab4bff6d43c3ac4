//! What learning to fly costs, craft after craft.

use propwright_engine::{
    bill::path::{Course, Step},
    explain::money,
};

/// One craft of the way.
#[derive(Debug, Clone, PartialEq)]
pub struct StepView {
    /// Name of the craft.
    pub name: String,
    /// Hours and flights.
    pub flown: String,
    /// Left to pay for it.
    pub total: String,
    /// What is carried over, breaks and wears, and has no price, each in words.
    pub details: Vec<(&'static str, String)>,
}

/// The way.
#[derive(Debug, Clone, PartialEq)]
pub struct CourseView {
    /// The simulator: its hours and its price.
    pub simulator: (String, String),
    /// The craft in order.
    pub steps: Vec<StepView>,
    /// All together.
    pub total: String,
    /// What is assumed.
    pub assumed: String,
}

/// A course as it is drawn.
pub(super) fn course_view(course: &Course) -> CourseView {
    let price = course.wear.simulator_price.map_or_else(|| "no price given".to_owned(), |price| price.to_string());
    CourseView {
        simulator: (format!("{} h, nothing breaks", course.wear.simulator_h), price),
        steps: course.steps.iter().map(step_view).collect(),
        total: match course.wear.simulator_price {
            Some(_) => money::total(&course.total),
            None => format!("{} and the simulator", money::total(&course.total)),
        },
        assumed: money::wear(course),
    }
}

fn step_view(step: &Step) -> StepView {
    let flights = step.flights.map_or_else(
        || "length of a flight not known, so no pack wears".to_owned(),
        |flights| format!("about {flights} flights"),
    );
    let details = [
        ("Carried over", money::counts(&step.carried)),
        ("Breaks and wears", money::spares(&step.worn, &step.bill)),
        ("Without a price", money::names(step.bill.unpriced().map(|line| line.part.as_ref()))),
    ];
    StepView {
        name: step.name.clone(),
        flown: format!("{} h, {flights}", step.flown_h),
        total: money::total(&step.bill.total),
        details: details.into_iter().filter(|(_, words)| !words.is_empty()).collect(),
    }
}
