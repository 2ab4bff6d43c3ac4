//! Invented demo parts, kits and builds: a workshop's catalogue, sound reference builds, and builds with one fault each.
//!
//! No maker, model or price of this catalogue exists. Figures scatter about the usual laws of the trade, and a figure that
//! a maker would not publish is absent. All is embedded text in the form that `propwright_schema` reads; nothing is parsed
//! here.

/// The catalogue: file name and text of each file, in the order in which they are laid over one another.
pub const CATALOGUE: &[(&str, &str)] = &[
    ("frames.ron", include_str!("../data/frames.ron")),
    ("motors.ron", include_str!("../data/motors.ron")),
    ("propellers.ron", include_str!("../data/propellers.ron")),
    ("hardware.ron", include_str!("../data/hardware.ron")),
    ("boards.ron", include_str!("../data/boards.ron")),
    ("packs.ron", include_str!("../data/packs.ron")),
    ("video.ron", include_str!("../data/video.ron")),
    ("link.ron", include_str!("../data/link.ron")),
    ("ground.ron", include_str!("../data/ground.ron")),
    ("kits.ron", include_str!("../data/kits.ron")),
];

/// What lies on the workshop's shelf.
pub const SHELF: &str = include_str!("../data/shelf.ron");

/// Exchange rates of the workshop.
pub const RATES: &str = include_str!("../data/rates.ron");

/// Sound builds: name and text.
pub const REFERENCE: &[(&str, &str)] = &[
    ("ducted-2in5", include_str!("../builds/reference/ducted-2in5.ron")),
    ("ducted-3in5", include_str!("../builds/reference/ducted-3in5.ron")),
    ("freestyle-5in", include_str!("../builds/reference/freestyle-5in.ron")),
    ("heavy-x", include_str!("../builds/reference/heavy-x.ron")),
    ("lifter-12s", include_str!("../builds/reference/lifter-12s.ron")),
    ("lifter-12s-li-ion", include_str!("../builds/reference/lifter-12s-li-ion.ron")),
    ("lifter-li-ion", include_str!("../builds/reference/lifter-li-ion.ron")),
    ("lifter-two-packs", include_str!("../builds/reference/lifter-two-packs.ron")),
    ("load-carrier-10in", include_str!("../builds/reference/load-carrier-10in.ron")),
    ("long-range-10in", include_str!("../builds/reference/long-range-10in.ron")),
    ("long-range-4in", include_str!("../builds/reference/long-range-4in.ron")),
    ("long-range-7in", include_str!("../builds/reference/long-range-7in.ron")),
    ("micro-trainer-1in2", include_str!("../builds/reference/micro-trainer-1in2.ron")),
    ("micro-trainer-1in6", include_str!("../builds/reference/micro-trainer-1in6.ron")),
    ("speed-5in", include_str!("../builds/reference/speed-5in.ron")),
];

/// Builds with one fault: the name of the rule that finds it, and the text. Each differs from one of [`REFERENCE`] by one
/// line.
pub const FLAWED: &[(&str, &str)] = &[
    ("antenna-connector", include_str!("../builds/flawed/antenna-connector.ron")),
    ("capacitor-voltage", include_str!("../builds/flawed/capacitor-voltage.ron")),
    ("harness-pin-order", include_str!("../builds/flawed/harness-pin-order.ron")),
    ("link-region", include_str!("../builds/flawed/link-region.ron")),
    ("motor-screw-length", include_str!("../builds/flawed/motor-screw-length.ron")),
    ("pack-pair", include_str!("../builds/flawed/pack-pair.ron")),
    ("rail-load", include_str!("../builds/flawed/rail-load.ron")),
    ("stack-pattern", include_str!("../builds/flawed/stack-pattern.ron")),
    ("video-supply", include_str!("../builds/flawed/video-supply.ron")),
];

/// Name of the reference build that a first start shows.
pub const DEMO: &str = "freestyle-5in";
