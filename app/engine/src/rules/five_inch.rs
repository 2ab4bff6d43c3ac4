//! The craft of the examples about thrust, current and volts: a sound 5 in craft on 6S, with fields added to its parts.

/// Records of the craft; what stands behind a part's name is added to its record.
macro_rules! five_inch {
    ($(frame $frame:literal)? $(motor $motor:literal)? $(propeller $propeller:literal)? $(esc $esc:literal)? $(battery $battery:literal)?) => {
        concat!(
            r#"(id: "f", name: "Frame", mass_g: 118, fills: [Frame(guard: Open"#, $($frame,)? r#")]),
            (id: "m", name: "Motor", mass_g: 32, fills: [Motor(stator_diameter_mm: 22, stator_height_mm: 7, kv_rpm_per_v: 1950"#,
            $($motor,)? r#")]),
            (id: "p", name: "Propeller", mass_g: 4, fills: [Propeller(diameter_in: 5.1, pitch_in: 4.3, blades: 3"#,
            $($propeller,)? r#")]),
            (id: "e", name: "Controller", mass_g: 14, fills: [Esc(channels: 4, current_a: 50"#, $($esc,)? r#")]),
            (id: "b", name: "Pack", mass_g: 218, fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 1300"#,
            $($battery,)? r#")])"#
        )
    };
}

/// Its build list; what is given stands before the parts.
macro_rules! five_inch_build {
    ($($more:literal)?) => {
        concat!(
            $($more,)? r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4),
            (slot: Propeller, part: "p", count: 4), (slot: Esc, part: "e"), (slot: Battery, part: "b")]"#
        )
    };
}

pub(crate) use {five_inch, five_inch_build};
