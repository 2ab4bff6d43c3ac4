//! Would the craft fly on a pack without resistance? Where a state cannot be, this tells whether the pack is why.

use propwright_schema::value::Value;

use super::{
    Derivation,
    flyer::{self, Flyer},
    gather::Gather,
};
use crate::{
    finding::{Datum, Missing, Unknown},
    graph::{Property, Site, derived},
    models::error::ModelError,
};

const STATES: [Property; 4] = [derived("full-throttle"), derived("in-the-air"), derived("level-flight"), derived("cruise")];

/// What is left of the cells' resistance, so that the models keep their range.
const LEFT: f64 = 1e-3;

/// The craft on a stiff pack; nothing while it flies on its own.
pub(crate) const STIFF: Derivation = Derivation {
    id: "flies-on-a-stiff-pack",
    title: "flies on a pack without resistance",
    formula: "full throttle and hover solved again with no resistance of the cells",
    source: "",
    reads: &[STATES[0], STATES[1], STATES[2], STATES[3], flyer::RIG, flyer::MASS, flyer::USE, flyer::GUARD],
    run: |site| {
        if !grounded(site) {
            return Vec::new();
        }
        let mut gather = Gather::new(site);
        let Ok(flyer) = Flyer::hovering(&mut gather) else { return Vec::new() };
        let flies = solved(&flyer).is_ok();
        gather.one(Ok(Datum::Value(Value::Flag(flies))))
    },
};

fn grounded(site: &Site) -> bool {
    let known = STATES.into_iter().filter_map(|state| site.one(state).ok());
    known.map(|reading| reading.known).any(|known| matches!(known, Err(Missing { what: Unknown::Infeasible(_), .. })))
}

fn solved(flyer: &Flyer) -> Result<(), ModelError> {
    let mut craft = flyer.nominal();
    craft.powertrain.pack.cell_resistance *= LEFT;
    let (air, thrust) = (&flyer.rig.air, craft.hover_thrust()?);
    craft.powertrain.operating_point(air, 1.0, flyer.rig.limit)?;
    craft.powertrain.hover_point(air, 0.5, thrust)?;
    Ok(())
}
