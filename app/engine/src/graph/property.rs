//! Properties: what rules and derivations may read, by name.

use std::fmt;

use propwright_schema::slot::Slot;

/// Where a property comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Of {
    /// A field of the record of the part in a slot (`stacks.pattern` reads that field of each inner record), or the part's own
    /// `mass_g` and `price`; `id` tells that the slot is filled.
    Part(Slot),
    /// A field of the line of the build list: `count`, `owned`, `feed`, `uart`, `outputs`, `between_mm`.
    Line(Slot),
    /// A field of the build list as a whole: `purpose.usage`, `conditions.altitude_m`, `packs`, `output_limit_percent` …
    Build,
    /// The result of a derivation, by its id.
    Derived,
}

/// A property.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Property {
    /// Where it comes from.
    pub of: Of,
    /// Its field or id.
    pub field: &'static str,
}

/// A field of the part in a slot.
pub const fn part(slot: Slot, field: &'static str) -> Property {
    Property { of: Of::Part(slot), field }
}

/// A field of the line of a slot.
pub const fn line(slot: Slot, field: &'static str) -> Property {
    Property { of: Of::Line(slot), field }
}

/// A field of the build list.
pub const fn build(field: &'static str) -> Property {
    Property { of: Of::Build, field }
}

/// The result of a derivation.
pub const fn derived(id: &'static str) -> Property {
    Property { of: Of::Derived, field: id }
}

impl Property {
    /// The slot whose part it belongs to; `None` for the list and for derived values.
    pub const fn slot(&self) -> Option<Slot> {
        match self.of {
            Of::Part(slot) | Of::Line(slot) => Some(slot),
            Of::Build | Of::Derived => None,
        }
    }
}

impl fmt::Display for Property {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.of {
            Of::Part(slot) => write!(f, "{slot}.{}", self.field),
            Of::Line(slot) => write!(f, "{slot} line.{}", self.field),
            Of::Build => write!(f, "build.{}", self.field),
            Of::Derived => write!(f, "{}", self.field),
        }
    }
}
