//! Named thresholds with their sources, in one place, changed by the user's own policy file.

use std::{collections::BTreeMap, sync::Arc};

use serde::{Deserialize, Serialize};

use crate::{
    finding::{Because, Changed, Claim, Datum},
    interval::{COUNT, DUTY, Interval, KELVIN, RATIO},
    models::mix::Mix,
};
use propwright_schema::quantity::{CellV, DB, Deg, DegC, G, H, In, M, MHz, MW, Min, Mm, S, Unit, UnitInfo, Wh};
use propwright_schema::{
    diagnostic::Diagnostic,
    load::load_policy,
    thresholds::{KnownThreshold, ThresholdEdit},
    validate::check_thresholds,
};

/// A threshold: where a finding turns tight, and where it turns into a mismatch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// Name in the policy file.
    pub name: &'static str,
    /// What it limits.
    pub about: &'static str,
    /// From here on tight; absent: never tight.
    pub tight: Option<f64>,
    /// From here on a mismatch; absent: never one.
    pub mismatch: Option<f64>,
    /// Unit of both.
    pub unit: &'static UnitInfo,
    /// Where it comes from.
    pub source: &'static str,
}

const PRACTICE: &str = "common practice, no source";

const fn limit(
    name: &'static str,
    about: &'static str,
    tight: Option<f64>,
    mismatch: Option<f64>,
    unit: &'static UnitInfo,
    source: &'static str,
) -> Limit {
    Limit { name, about, tight, mismatch, unit, source }
}

/// Defines the thresholds and their list, one line each.
macro_rules! limits {
    ($($(#[doc = $doc:literal])+ $constant:ident = $name:literal, tight $tight:expr, mismatch $mismatch:expr, $unit:expr, $source:expr;)+) => {
        $($(#[doc = $doc])+ pub const $constant: Limit = limit($name, concat!($($doc),+), $tight, $mismatch, $unit, $source);)+
        /// All thresholds in the order of the policy file.
        pub const ALL: &[Limit] = &[$($constant),+];
    };
}

limits! {
    /// Full-throttle current against the burst rating, as a share of the rating.
    CURRENT_BURST = "current-burst", tight Some(0.9), mismatch Some(1.0), &RATIO, PRACTICE;
    /// Root-mean-square current of the hard mix against the continuous rating, as a share of the rating.
    CURRENT_LASTING = "current-lasting", tight Some(0.9), mismatch Some(1.0), &RATIO, PRACTICE;
    /// Volts of a LiPo or LiHV cell at full throttle on a fresh pack.
    LOADED_CELL_LIPO = "loaded-cell-lipo", tight Some(3.3), mismatch Some(3.0), &CellV::INFO, PRACTICE;
    /// Volts of a Li-ion cell at full throttle on a fresh pack.
    LOADED_CELL_LI_ION = "loaded-cell-li-ion", tight Some(2.9), mismatch Some(2.6), &CellV::INFO, PRACTICE;
    /// Volts at landing as a multiple of the least supply of a part on the pack.
    SUPPLY_LEAST = "supply-least", tight Some(1.05), mismatch None, &RATIO, PRACTICE;
    /// Rated volts of a capacitor as a multiple of the volts at full charge.
    CAPACITOR_SPARE = "capacitor-spare", tight Some(1.2), mismatch None, &RATIO, PRACTICE;
    /// Cells in series from which a pack wants a capacitor across its leads.
    CAPACITOR_CELLS = "capacitor-cells", tight Some(6.0), mismatch None, &COUNT, PRACTICE;
    /// Lasting draw of a rail as a share of what it gives.
    RAIL_LOAD = "rail-load", tight Some(0.9), mismatch Some(1.0), &RATIO, PRACTICE;
    /// Volts of a LiPo or LiHV cell in hover with the reserve left.
    LANDING_CELL_LIPO = "landing-cell-lipo", tight Some(3.5), mismatch Some(3.3), &CellV::INFO, PRACTICE;
    /// Volts of a Li-ion cell in hover with the reserve left.
    LANDING_CELL_LI_ION = "landing-cell-li-ion", tight Some(3.0), mismatch Some(2.8), &CellV::INFO, PRACTICE;
    /// Root-mean-square current of the hard mix against the rating of a plug, as a share of the rating.
    PLUG_LASTING = "plug-lasting", tight Some(1.0), mismatch Some(1.5), &RATIO, PRACTICE;
    /// Full-throttle current against the rating of a plug, as a share of the rating.
    PLUG_PEAK = "plug-peak", tight Some(2.0), mismatch Some(3.0), &RATIO, PRACTICE;
    /// Full-throttle current against the current that a LiPo or LiHV pack is sold for, as a share of that.
    PACK_CLAIM = "pack-claim", tight Some(1.0), mismatch Some(1.5), &RATIO, PRACTICE;
    /// Current of a climb and of hard flight against the rating of a Li-ion pack, as a share of the rating.
    PACK_LIMIT = "pack-limit", tight Some(0.9), mismatch Some(1.0), &RATIO, PRACTICE;
    /// Full-throttle current against the rating of a Li-ion pack, as a share of the rating.
    PACK_LIMIT_FULL = "pack-limit-full", tight Some(1.0), mismatch None, &RATIO, PRACTICE;
    /// Rise of the pack's leads in one burst.
    LEAD_RISE = "lead-rise", tight Some(60.0), mismatch None, &KELVIN, PRACTICE;
    /// Temperature of the pack's leads at the end of a burst in hard flight; silicone insulation.
    LEAD_TEMPERATURE = "lead-temperature", tight Some(160.0), mismatch Some(200.0), &DegC::INFO, "silicone insulation, 200 °C from memory; tight above 80 %: common practice, no source";
    /// Rotor speed at full throttle against the propeller's limit, as a share of the limit.
    PROPELLER_SPEED = "propeller-speed", tight Some(0.95), mismatch Some(1.0), &RATIO, PRACTICE;
    /// Duty in hover.
    HOVER_DUTY = "hover-duty", tight Some(0.65), mismatch Some(0.8), &DUTY, PRACTICE;
    /// Duty in hover of a ducted micro.
    HOVER_DUTY_MICRO = "hover-duty-micro", tight Some(0.75), mismatch Some(0.8), &DUTY, PRACTICE;
    /// Mach number of the blade tips at full throttle.
    TIP_MACH = "tip-mach", tight Some(0.75), mismatch None, &RATIO, PRACTICE;
    /// Thrust to weight of a ducted micro.
    THRUST_DUCTED_MICRO = "thrust-ducted-micro", tight Some(2.3), mismatch Some(1.8), &RATIO, PRACTICE;
    /// Thrust to weight of a ducted camera craft.
    THRUST_DUCTED_CAMERA = "thrust-ducted-camera", tight Some(3.0), mismatch Some(2.2), &RATIO, PRACTICE;
    /// Thrust to weight for freestyle.
    THRUST_FREESTYLE = "thrust-freestyle", tight Some(5.0), mismatch Some(4.0), &RATIO, PRACTICE;
    /// Thrust to weight for speed.
    THRUST_SPEED = "thrust-speed", tight Some(8.0), mismatch Some(6.0), &RATIO, PRACTICE;
    /// Thrust to weight of a lifter.
    THRUST_LIFTER = "thrust-lifter", tight Some(2.2), mismatch Some(1.8), &RATIO, PRACTICE;
    /// Thrust to weight for long range.
    THRUST_LONG_RANGE = "thrust-long-range", tight Some(2.5), mismatch Some(1.8), &RATIO, PRACTICE;
    /// Gap between the tips of neighbouring propellers.
    TIP_GAP = "tip-gap", tight Some(3.0), mismatch Some(0.0), &Mm::INFO, PRACTICE;
    /// Gap between the tips and the duct around them.
    DUCT_GAP = "duct-gap", tight Some(0.8), mismatch Some(0.4), &Mm::INFO, PRACTICE;
    /// Gap between the tips and the duct, as a share of the diameter, beyond which a duct is but a guard.
    DUCT_GAP_SHARE = "duct-gap-share", tight Some(0.04), mismatch None, &RATIO, PRACTICE;
    /// Difference between a propeller's bore and the shaft that it sits on.
    BORE_PLAY = "bore-play", tight Some(0.05), mismatch Some(0.25), &Mm::INFO, PRACTICE;
    /// Difference of KV between the motors of one craft, as a share.
    MOTOR_MATCH_KV = "motor-match-kv", tight Some(0.0), mismatch Some(0.03), &RATIO, PRACTICE;
    /// Turns by which a motor screw holds.
    SCREW_TURNS = "screw-turns", tight None, mismatch Some(3.0), &RATIO, PRACTICE;
    /// Room beside the camera that washers fill.
    CAMERA_PLAY = "camera-play", tight Some(2.0), mismatch None, &Mm::INFO, PRACTICE;
    /// Room over a stack for plugs and leads.
    STACK_SPARE = "stack-spare", tight Some(1.0), mismatch None, &Mm::INFO, PRACTICE;
    /// Length by which a pack strap grips itself, plates included.
    STRAP_GRIP = "strap-grip", tight Some(50.0), mismatch Some(20.0), &Mm::INFO, PRACTICE;
    /// Propeller beyond the largest that the motor's maker advises, as a share of that.
    PROPELLER_ADVISED = "propeller-advised", tight Some(1.0), mismatch None, &RATIO, PRACTICE;
    /// Height of the place above the sea over which the models were not checked.
    ALTITUDE_CHECKED = "altitude-checked", tight Some(4000.0), mismatch None, &M::INFO, PRACTICE;
    /// Gap between the propellers and the body.
    BODY_GAP = "body-gap", tight Some(0.0), mismatch None, &Mm::INFO, PRACTICE;
    /// Gap between the propellers and the pack.
    PACK_GAP = "pack-gap", tight Some(0.0), mismatch None, &Mm::INFO, PRACTICE;
    /// Angle from the middle of the picture at which the propellers begin.
    CAMERA_VIEW = "camera-view", tight Some(15.0), mismatch None, &Deg::INFO, PRACTICE;
    /// Length of a shaft that holds the propeller: in the nut, or pressed into the hub.
    SHAFT_HOLD = "shaft-hold", tight Some(3.0), mismatch Some(2.0), &Mm::INFO, PRACTICE;
    /// Motor lead left at the speed controller.
    LEADS_LEFT = "leads-left", tight Some(10.0), mismatch None, &Mm::INFO, PRACTICE;
    /// Room over a capacitor that lies between the plates.
    CAPACITOR_ROOM = "capacitor-room", tight Some(0.0), mismatch None, &Mm::INFO, PRACTICE;
    /// Tilt of the camera that a frame for speed reaches.
    CAMERA_TILT_FAST = "camera-tilt-fast", tight Some(35.0), mismatch None, &Deg::INFO, PRACTICE;
    /// Tilt of the camera down to which a frame for all other uses goes.
    CAMERA_TILT_SLOW = "camera-tilt-slow", tight Some(20.0), mismatch None, &Deg::INFO, PRACTICE;
    /// Length by which a pack under straps may hang over its place, on any side.
    PACK_OVERHANG = "pack-overhang", tight Some(3.0), mismatch None, &Mm::INFO, PRACTICE;
    /// Way that the pack slides to balance the craft, as a share of the body's length.
    PACK_SLIDE = "pack-slide", tight Some(0.25), mismatch None, &RATIO, PRACTICE;
    /// Cells in series from which plugging in wants a spark taken away.
    SPARK_CELLS = "spark-cells", tight Some(8.0), mismatch None, &COUNT, PRACTICE;
    /// Minutes to charge a pack after a flight.
    CHARGE_TIME = "charge-time", tight Some(90.0), mismatch None, &Min::INFO, PRACTICE;
    /// Distance of a harmonic of the control link from a channel of the video.
    HARMONIC_ROOM = "harmonic-room", tight Some(30.0), mismatch None, &MHz::INFO, PRACTICE;
    /// Magnet poles that firmware takes for granted.
    POLES_USUAL = "poles-usual", tight Some(14.0), mismatch None, &COUNT, "common practice, no source";
    /// Strongest gust over the mean wind.
    GUSTS = "gusts", tight Some(1.5), mismatch None, &RATIO, PRACTICE;
    /// Density of the air against sea level below which thrust and times are noticeably less.
    AIR_DENSITY = "air-density", tight Some(0.9), mismatch None, &RATIO, PRACTICE;
    /// Temperature below which packs sag and want to be warmed.
    COLD = "cold", tight Some(5.0), mismatch None, &DegC::INFO, PRACTICE;
    /// Hours in the air below which a pilot counts as a newcomer.
    NEWCOMER = "newcomer", tight Some(10.0), mismatch None, &H::INFO, PRACTICE;
    /// Hours in a simulator before the first flight.
    SIMULATOR = "simulator", tight Some(15.0), mismatch None, &H::INFO, PRACTICE;
    /// Largest propeller of a first craft.
    FIRST_PROPELLER = "first-propeller", tight Some(3.0), mismatch None, &In::INFO, PRACTICE;
    /// Largest propeller for learning under a roof.
    INDOOR_PROPELLER = "indoor-propeller", tight Some(2.0), mismatch None, &In::INFO, PRACTICE;
    /// Take-off mass of the lightest legal class in much of Europe.
    MASS_LINE = "mass-line", tight Some(250.0), mismatch None, &G::INFO, "Regulation (EU) 2019/945, from memory; local rules decide";
    /// Take-off mass of the second legal class in much of Europe.
    MASS_LINE_SECOND = "mass-line-second", tight Some(900.0), mismatch None, &G::INFO, "Regulation (EU) 2019/945, from memory; local rules decide";
    /// Take-off mass of the third legal class in much of Europe.
    MASS_LINE_THIRD = "mass-line-third", tight Some(4000.0), mismatch None, &G::INFO, "Regulation (EU) 2019/945, from memory; local rules decide";
    /// Radio power of control on 2.4 GHz that is free of a licence in much of Europe.
    CONTROL_POWER = "control-power", tight Some(100.0), mismatch None, &MW::INFO, "ERC Recommendation 70-03, from memory; local rules decide";
    /// Radio power of control below 1 GHz that is free of a licence in much of Europe.
    CONTROL_POWER_LOW = "control-power-low", tight Some(25.0), mismatch None, &MW::INFO, "ERC Recommendation 70-03, from memory; local rules decide";
    /// Radio power of video that is free of a licence in much of Europe.
    VIDEO_POWER = "video-power", tight Some(25.0), mismatch None, &MW::INFO, "ERC Recommendation 70-03, from memory; local rules decide";
    /// Energy of a pack that may fly as a passenger's hand luggage without asking.
    AIR_TRANSPORT = "air-transport", tight Some(100.0), mismatch None, &Wh::INFO, "IATA guidance on lithium batteries, from memory; ask the carrier";
    /// Energy of a pack that no passenger may take along.
    AIR_TRANSPORT_MOST = "air-transport-most", tight Some(160.0), mismatch None, &Wh::INFO, "IATA guidance on lithium batteries, from memory; ask the carrier";
    /// Power of calm flight over that of hover.
    MIX_CALM = "mix-calm", tight Some(Mix::CALM.rest_factor), mismatch None, &RATIO, PRACTICE;
    /// Power of calm flight over that of hover, ducted micro.
    MIX_CALM_MICRO = "mix-calm-micro", tight Some(Mix::CALM_DUCTED_MICRO.rest_factor), mismatch None, &RATIO, PRACTICE;
    /// Share of hard flight at full throttle.
    MIX_HARD = "mix-hard", tight Some(Mix::HARD.full_share), mismatch None, &RATIO, PRACTICE;
    /// Share of hard flight at full throttle, ducted micro.
    MIX_HARD_MICRO = "mix-hard-micro", tight Some(Mix::HARD_DUCTED_MICRO.full_share), mismatch None, &RATIO, PRACTICE;
    /// Power between the bursts of hard flight over that of hover.
    MIX_BETWEEN = "mix-between", tight Some(Mix::HARD.rest_factor), mismatch None, &RATIO, PRACTICE;
    /// Power of a climb over that of hover.
    CLIMB = "climb", tight Some(2.0), mismatch None, &RATIO, PRACTICE;
    /// Drag area over the square of the propeller's diameter, ducted micro with four rotors.
    DRAG_MICRO = "drag-micro", tight Some(4.4), mismatch None, &RATIO, PRACTICE;
    /// Drag area over the square of the propeller's diameter, ducted camera craft with four rotors.
    DRAG_DUCTED = "drag-ducted", tight Some(5.8), mismatch None, &RATIO, PRACTICE;
    /// Drag area over the square of the propeller's diameter, open craft with four rotors.
    DRAG_OPEN = "drag-open", tight Some(0.76), mismatch None, &RATIO, PRACTICE;
    /// Tilt at which pilots of ducted micros stop.
    TILT_MICRO = "tilt-micro", tight Some(35.0), mismatch None, &Deg::INFO, PRACTICE;
    /// Tilt at which pilots of ducted camera craft stop.
    TILT_DUCTED = "tilt-ducted", tight Some(55.0), mismatch None, &Deg::INFO, PRACTICE;
    /// Comfortable mean wind over the tilt-limited speed, ducted craft.
    WIND_DUCTED = "wind-ducted", tight Some(0.3), mismatch None, &RATIO, PRACTICE;
    /// Comfortable mean wind over the tilt-limited speed, open craft.
    WIND_OPEN = "wind-open", tight Some(0.45), mismatch None, &RATIO, PRACTICE;
    /// Wind along the way home against the airspeed of the way home, as a share of that.
    TURN_BACK_WIND = "turn-back-wind", tight Some(0.5), mismatch None, &RATIO, PRACTICE;
    /// Radio margin over open ground.
    MARGIN_OPEN = "margin-open", tight Some(10.0), mismatch None, &DB::INFO, PRACTICE;
    /// Radio margin among trees.
    MARGIN_TREES = "margin-trees", tight Some(20.0), mismatch None, &DB::INFO, PRACTICE;
    /// Radio margin behind walls.
    MARGIN_WALLS = "margin-walls", tight Some(30.0), mismatch None, &DB::INFO, PRACTICE;
    /// Seconds of full throttle in one go, freestyle, lifters and long range.
    BURST_FREESTYLE = "burst-freestyle", tight Some(5.0), mismatch None, &S::INFO, PRACTICE;
    /// Seconds of full throttle in one go, ducted craft.
    BURST_DUCTED = "burst-ducted", tight Some(10.0), mismatch None, &S::INFO, PRACTICE;
    /// Seconds of full throttle in one go, craft for speed.
    BURST_SPEED = "burst-speed", tight Some(15.0), mismatch None, &S::INFO, PRACTICE;
    /// Seconds taken for a burst rating that states no duration.
    BURST_UNSAID = "burst-unsaid", tight Some(10.0), mismatch None, &S::INFO, PRACTICE;
}

/// What a user changed of one threshold.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Edit {
    /// New value from which a finding is tight.
    #[serde(default)]
    pub tight: Option<f64>,
    /// New value from which it is a mismatch.
    #[serde(default)]
    pub mismatch: Option<f64>,
}

/// The thresholds in force.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Policy {
    edits: BTreeMap<String, Edit>,
}

impl Policy {
    /// The program's own thresholds with some of them changed.
    pub const fn edited(edits: BTreeMap<String, Edit>) -> Self {
        Self { edits }
    }

    /// A threshold as it is in force, and whether the user changed it.
    pub fn limit(&self, limit: &Limit) -> (Limit, bool) {
        match self.edits.get(limit.name) {
            None => (*limit, false),
            Some(edit) => {
                (Limit { tight: edit.tight.or(limit.tight), mismatch: edit.mismatch.or(limit.mismatch), ..*limit }, true)
            }
        }
    }

    /// The value from which a finding is tight, as a figure.
    pub fn tight(&self, limit: &Limit) -> Option<Interval> {
        let (limit, _) = self.limit(limit);
        limit.tight.map(|value| limit.figure(value))
    }

    /// The value from which a finding is a mismatch, as a figure.
    pub fn mismatch(&self, limit: &Limit) -> Option<Interval> {
        let (limit, _) = self.limit(limit);
        limit.mismatch.map(|value| limit.figure(value))
    }

    /// The step of a reason that names the threshold: the mismatch value where there is one.
    pub fn because(&self, limit: &Limit) -> Arc<Because> {
        let (now, _) = self.limit(limit);
        self.named(limit, now.mismatch.or(now.tight))
    }

    /// The step of a reason that names the value from which a finding is tight.
    pub fn because_tight(&self, limit: &Limit) -> Arc<Because> {
        let (now, _) = self.limit(limit);
        self.named(limit, now.tight.or(now.mismatch))
    }

    fn named(&self, limit: &Limit, value: Option<f64>) -> Arc<Because> {
        let datum = Datum::Figure(limit.figure(value.unwrap_or_default()));
        Because::plain(Claim::Threshold { name: limit.name, datum, source: limit.source, changed: self.changed(limit) })
    }

    /// What the user changed of a threshold: each value that is another one than the program's own.
    pub fn changed(&self, limit: &Limit) -> Vec<Changed> {
        let (now, _) = self.limit(limit);
        let both = [("tight", now.tight, limit.tight), ("mismatch", now.mismatch, limit.mismatch)];
        let change = |(which, now, usual): (&'static str, Option<f64>, Option<f64>)| {
            let (now, usual) = (limit.figure(now?), limit.figure(usual?));
            (now != usual).then_some(Changed { name: limit.name, which, now, usual })
        };
        both.into_iter().filter_map(change).collect()
    }
}

/// Reads a user's own policy file. `file` is the name by which problems call it.
///
/// ```
/// use propwright_engine::policy::{self, CAPACITOR_SPARE};
/// let text = r#"(version: 1, thresholds: [(name: "capacitor-spare", tight: 1.1)])"#;
/// let policy = policy::read("own.ron", text).unwrap();
/// assert_eq!(policy.tight(&CAPACITOR_SPARE).unwrap().decimals()[1], 1.1);
/// let problems = policy::read("own.ron", r#"(version: 1, thresholds: [(name: "capacitor-spar", tight: 1.1)])"#).unwrap_err();
/// assert!(problems[0].to_string().contains("did you mean \"capacitor-spare\"?"));
/// ```
///
/// # Errors
/// Every problem of the text with its place: what cannot be read, names of no threshold, values that it does not have.
pub fn read(file: &str, text: &str) -> Result<Policy, Vec<Diagnostic>> {
    let content = load_policy(file, text)?;
    let known: Vec<KnownThreshold> = ALL.iter().map(Limit::known).collect();
    let problems = check_thresholds(&content, text, file, &known);
    if !problems.is_empty() {
        return Err(problems);
    }
    let edit = |edit: ThresholdEdit| (edit.name, Edit { tight: edit.tight, mismatch: edit.mismatch });
    Ok(Policy::edited(content.thresholds.into_iter().map(edit).collect()))
}

impl Limit {
    const fn known(&self) -> KnownThreshold {
        KnownThreshold { name: self.name, tight: self.tight, mismatch: self.mismatch }
    }

    fn figure(&self, value: f64) -> Interval {
        let si = value * self.unit.steps as f64 * self.unit.si_per_step;
        Interval::outward(si, si, si, self.unit)
    }
}
