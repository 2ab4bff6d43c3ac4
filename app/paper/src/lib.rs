//! A report for paper and other programs: as PDF, pictures, CSV, JSON and plain text. Nothing is judged here.

mod air;
pub mod compare;
pub mod fits;
pub mod flight;
pub mod graph;
pub mod json;
pub mod page;
pub mod plot;
pub mod price;
pub mod propeller;
pub mod repair;
pub mod replace;
pub mod rules;
pub mod sheet;
pub mod text;
pub mod unstated;
