//! Descriptions of fields by their names, those of the role records and of what stands around them.

use crate::{
    build_list::{BuildList, Conditions, Fitted, Pilot, Purpose, Tax, Training},
    measured::{Logged, StandRow},
    part::{Part, Role},
    quantity::{G, MOhm, Mm, Pct, Unit},
    value::{Field, Kind, Record},
};

/// Fields of a part, beside its roles.
pub(crate) const PART: &[&str] = &[
    "id",
    "name",
    "maker",
    "mass_g",
    "price",
    "priced_on",
    "supplier",
    "link",
    "pieces",
    "retired",
    "fills",
    "source",
    "sources",
    "basis",
    "typed",
    "earlier_prices",
    "note",
];

/// Mass of a part.
pub(crate) const MASS: Field =
    Field { name: "mass_g", about: "Mass of one piece.", kind: Kind::Number(&G::INFO), plausible: Some(Part::PLAUSIBLE_MASS_G) };

/// Mass of the whole craft, weighed.
pub(crate) const WEIGHED: Field = Field { name: "weighed_g", about: "Mass of the whole craft, weighed.", ..MASS };

/// Largest motor output.
pub(crate) const OUTPUT_LIMIT: Field = Field {
    name: "output_limit_percent",
    about: "Largest motor output set in the flight controller.",
    kind: Kind::Number(&Pct::INFO),
    plausible: Some(BuildList::PLAUSIBLE_LIMIT_PERCENT),
};

/// What lies between screw head and motor.
pub(crate) const BETWEEN: Field = Field {
    name: "between_mm",
    about: "Washers and pads between screw head and motor, beside the arm.",
    kind: Kind::Number(&Mm::INFO),
    plausible: Some(Fitted::PLAUSIBLE_BETWEEN_MM),
};

/// How many pieces a line lists.
pub(crate) const PIECES: Field = Field {
    name: "count",
    about: "How many of them.",
    kind: Kind::Count,
    plausible: Some((1.0, crate::validate::MOST_PIECES as f64)),
};

/// Motor outputs of a line.
pub(crate) const OUTPUTS: Field = Field {
    name: "outputs",
    about: "Motor outputs of the flight controller, in order.",
    kind: Kind::List(&Kind::Count),
    plausible: Some((1.0, 32.0)),
};

/// Resistance of a piece on the shelf.
pub(crate) const RESISTANCE: Field = Field {
    name: "resistance_mohm",
    about: "Resistance of a pack with its leads, or between two leads of a motor, measured.",
    kind: Kind::Number(&MOhm::INFO),
    plausible: Some((0.5, 5000.0)),
};

/// Cycles of a pack on the shelf.
pub(crate) const CYCLES: Field =
    Field { name: "cycles", about: "Cycles of a pack so far.", kind: Kind::Count, plausible: Some((0.0, 3000.0)) };

/// Share of a tax.
pub(crate) const TAX_PERCENT: Field = Field {
    name: "percent",
    about: "Share of a tax in what is bought.",
    kind: Kind::Number(&Pct::INFO),
    plausible: Some(Tax::PLAUSIBLE_PERCENT),
};

const SINGLE: &[Field] = &[MASS, WEIGHED, OUTPUT_LIMIT, BETWEEN, RESISTANCE, CYCLES, TAX_PERCENT];

/// The description of the field at the end of a way of keys, within the role of the word `head` when there is one.
pub(crate) fn field(head: Option<&str>, keys: &[String]) -> Option<&'static Field> {
    let role = Role::KINDS.iter().find(|(kind, _)| head == Some(kind)).map(|(_, fields)| *fields);
    let around = [SINGLE, Purpose::FIELDS, Pilot::FIELDS, Conditions::FIELDS, Training::FIELDS, Logged::FIELDS, StandRow::FIELDS];
    let groups = role.as_ref().map_or(&around[..], std::slice::from_ref);
    groups.iter().find_map(|fields| along(fields, keys))
}

fn along(fields: &'static [Field], keys: &[String]) -> Option<&'static Field> {
    let mut fields = fields;
    let mut found = None;
    for key in keys {
        let next = fields.iter().find(|field| field.name == key);
        fields = next.map_or(fields, inner);
        found = next;
    }
    found
}

/// The fields of the records that a field holds; none for a field of another kind.
pub const fn inner(field: &Field) -> &'static [Field] {
    inner_of(field.kind)
}

/// The fields of the records that a value of a kind holds.
pub(crate) const fn inner_of(kind: Kind) -> &'static [Field] {
    match kind {
        Kind::Record(fields) | Kind::List(&Kind::Record(fields)) => fields,
        _ => &[],
    }
}

/// Does the field hold hole patterns?
pub(crate) fn is_pattern(name: &str) -> bool {
    name == "pattern" || name.ends_with("_patterns")
}
