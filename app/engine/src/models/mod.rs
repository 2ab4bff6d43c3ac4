//! Pure physics: each model in SI units, with its source, its validity and an example.
//!
//! Reading order: [`atmosphere`] gives the air; [`motor`] with [`stator`], [`propeller`] with [`bem`], [`duct`], [`battery`] and
//! [`esc`] describe one part each; [`installation`] puts a propeller on a craft, [`predict`] tells its figures with bands,
//! [`stand`] holds it against a thrust stand, [`discharge`] empties a pack, [`powertrain`] joins
//! them into a working point; [`flight`] says how much thrust a flight needs, [`cruise`] and [`mix`] ask for speed, range and
//! times; [`wiring`], [`radio`] and [`beaufort`] stand beside them. A model returns finite figures over its declared range
//! and a [`error::ModelError`] outside of it, never a NaN.

pub mod atmosphere;
pub mod battery;
pub mod beaufort;
pub mod bem;
mod blade;
pub mod bracket;
pub mod cruise;
pub mod discharge;
pub mod duct;
pub mod error;
pub mod esc;
pub mod flight;
pub mod installation;
#[cfg(test)]
mod laws;
pub mod mix;
pub mod motor;
pub mod pchip;
pub mod powertrain;
pub mod predict;
#[cfg(test)]
mod printed;
pub mod propeller;
pub mod radio;
pub mod stand;
pub mod stator;
pub mod wiring;
