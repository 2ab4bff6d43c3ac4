//! Frames, screws and straps.

use crate::{
    pattern::Pattern,
    quantity::{Degrees, Grams, Inches, Millimetres, Money, SquareCentimetres},
    value::{record, words},
};

words! {
    /// What stands around the propellers.
    Guard {
        /// Nothing.
        Open "open",
        /// A straight ring: it guards, and helps little.
        PlainGuard "plain guard",
        /// A duct with a rounded inlet lip.
        LippedDuct "lipped duct",
    }
}

words! {
    /// Where the pack sits.
    PackPlace {
        /// On the top plate, under straps.
        Top "top",
        /// Below the bottom plate.
        Bottom "bottom",
        /// In a bay of fixed size.
        Bay "bay",
    }
}

words! {
    /// Thread of a screw or a motor's hole (ISO 261 coarse series).
    Thread {
        /// M1.4, pitch 0.3 mm.
        M1_4 "M1.4",
        /// M1.6, pitch 0.35 mm.
        M1_6 "M1.6",
        /// M2, pitch 0.4 mm.
        M2 "M2",
        /// M2.5, pitch 0.45 mm.
        M2_5 "M2.5",
        /// M3, pitch 0.5 mm.
        M3 "M3",
        /// M4, pitch 0.7 mm.
        M4 "M4",
    }
}

impl Thread {
    /// Advance in one turn, coarse series of ISO 261.
    pub const fn pitch(self) -> Millimetres {
        Millimetres::from_steps(match self {
            Self::M1_4 => 3_000,
            Self::M1_6 => 3_500,
            Self::M2 => 4_000,
            Self::M2_5 => 4_500,
            Self::M3 => 5_000,
            Self::M4 => 7_000,
        })
    }
}

record! {
    /// Place of one motor, from the middle of the frame: x to the right, y forward, z up.
    MotorPlace {
        /// To the right of the middle.
        x_mm: Millimetres = -2000.0..2000.0,
        /// Forward of the middle.
        y_mm: Millimetres = -2000.0..2000.0,
        /// Height of the rotor's plane over the others; absent reads as the same plane.
        z_mm: Millimetres = -500.0..500.0,
    }
}

record! {
    /// A place for a board.
    StackPlace {
        /// Hole pattern of the posts, such as 30.5x30.5.
        pattern: Pattern,
        /// Diameter of the posts or screws.
        hole_mm: Millimetres = 0.8..8.0,
        /// Clear height above the plate for boards.
        height_mm: Millimetres = 2.0..200.0,
        /// Middle of the place, to the right of the frame's middle.
        x_mm: Millimetres = -1000.0..1000.0,
        /// Middle of the place, forward of the frame's middle.
        y_mm: Millimetres = -1000.0..1000.0,
    }
}

record! {
    /// A frame with its ducts or guards.
    Frame {
        /// Distance between diagonal motors, hub to hub; in the listing, or measured with a rule.
        wheelbase_mm: Millimetres = 40.0..3000.0,
        /// Motor places; measure from the middle of the frame.
        motors: Vec<MotorPlace>,
        /// Two motors an arm, one above the other.
        coaxial: bool,
        /// What stands around the propellers.
        guard: Guard,
        /// Inner diameter of a duct or guard; measure with calipers.
        duct_inner_mm: Millimetres = 20.0..800.0,
        /// Largest propeller that the maker allows.
        propeller_max_in: Inches = 0.8..40.0,
        /// Thickness of an arm under the motor; calipers.
        arm_thickness_mm: Millimetres = 0.5..40.0,
        /// Width of an arm.
        arm_width_mm: Millimetres = 2.0..200.0,
        /// Can a broken arm be replaced alone?
        arm_replaceable: bool,
        /// Price of one arm.
        arm_price: Money,
        /// Hole patterns for motors, such as 16x16 or 9x9.
        motor_patterns: Vec<Pattern>,
        /// Diameter of the pad under the motor.
        motor_base_mm: Millimetres = 4.0..120.0,
        /// Places for boards.
        stacks: Vec<StackPlace>,
        /// Width between the camera plates.
        camera_width_mm: Millimetres = 5.0..60.0,
        /// Room behind the lens.
        camera_depth_mm: Millimetres = 5.0..80.0,
        /// Least tilt of the camera.
        camera_tilt_min_deg: Degrees = -90.0..90.0,
        /// Largest tilt of the camera.
        camera_tilt_max_deg: Degrees = -90.0..90.0,
        /// Hole patterns for a video transmitter.
        video_patterns: Vec<Pattern>,
        /// Kinds of mounts for antennas, such as "5 mm tube" or "SMA plate".
        antenna_mounts: Vec<String>,
        /// A place for a satellite receiver.
        gps_mount: bool,
        /// Where the pack sits.
        pack_place: PackPlace,
        /// Length that the pack's place allows.
        pack_length_mm: Millimetres = 10.0..600.0,
        /// Width that the pack's place allows.
        pack_width_mm: Millimetres = 5.0..300.0,
        /// Height that the pack's place allows (bay), or that clears the propellers.
        pack_height_mm: Millimetres = 5.0..300.0,
        /// Slots for straps.
        strap_slots: u32,
        /// Width of the strap slots.
        strap_width_mm: Millimetres = 3.0..60.0,
        /// Length of the body between the plates.
        body_length_mm: Millimetres = 15.0..1500.0,
        /// Width of the body.
        body_width_mm: Millimetres = 8.0..600.0,
        /// Height of the standoffs between bottom and top plate.
        standoff_mm: Millimetres = 5.0..200.0,
        /// Thickness of the bottom plate.
        bottom_plate_mm: Millimetres = 0.5..20.0,
        /// Thickness of the top plate.
        top_plate_mm: Millimetres = 0.5..20.0,
        /// Drag area (drag coefficient times frontal area) measured in flight; absent: the class's judgement.
        drag_area_cm2: SquareCentimetres = 5.0..6000.0,
        /// Largest mass that it carries besides its own parts.
        payload_max_g: Grams = 1.0..30_000.0,
        /// What is in the box, such as "motor screws", "straps".
        hardware: Vec<String>,
    }
}

record! {
    /// A screw for the motors.
    Screw {
        /// Thread.
        thread: Thread,
        /// Length under the head.
        length_mm: Millimetres = 1.0..60.0,
    }
}

record! {
    /// A strap for the pack.
    Strap {
        /// Length.
        length_mm: Millimetres = 50.0..1000.0,
        /// Width.
        width_mm: Millimetres = 4.0..60.0,
    }
}
