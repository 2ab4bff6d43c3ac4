//! How far control and video carry, how far the horizon is, and which of all limits comes first.

use propwright_schema::{
    quantity::{DBi, DBm, Km, M, MHz, Unit, UnitInfo},
    slot::Slot,
    value::Value,
};

use super::{Derivation, gather::Gather, rig::refused, solved::figure};
use crate::{
    band::Band,
    finding::{Datum, Missing, Unknown},
    graph::{Derived, Property, Site, build, derived, part},
    interval::Interval,
    models::radio::{Link, horizon},
    policy::{Limit, MARGIN_OPEN, MARGIN_TREES, MARGIN_WALLS},
};

const PLACE: Property = build("purpose.place");
const LEVELS: Property = part(Slot::Receiver, "sensitivities.level_dbm");
const SENSITIVITIES: Property = part(Slot::Receiver, "sensitivities");
const RATE: Property = build("purpose.packet_rate_hz");
const BAND: Property = part(Slot::Receiver, "band_mhz");
const MODULE_POWER: Property = part(Slot::RadioModule, "power_mw");
const RADIO_POWER: Property = part(Slot::Radio, "power_mw");
const CONTROL_GAIN: Property = part(Slot::AntennaControl, "gain_dbi");
const SIGNAL: Property = part(Slot::VideoTransmitter, "signal");
const STEPS: Property = part(Slot::VideoTransmitter, "steps.power_mw");
const CHANNELS: Property = part(Slot::VideoTransmitter, "channels_mhz");
const VIDEO_GAIN: Property = part(Slot::AntennaVideo, "gain_dbi");
const VIDEO_TURN: Property = part(Slot::AntennaVideo, "polarisation");
const GOGGLES_GAIN: Property = part(Slot::AntennaGoggles, "gain_dbi");
const GOGGLES_TURN: Property = part(Slot::AntennaGoggles, "polarisation");

/// Gain of a rod antenna, and of one built into a board, dBi (from memory).
const ROD_DBI: f64 = 2.0;
const BUILT_IN_DBI: f64 = 0.0;
/// Weakest signal of analog and of digital video, dBm (from memory).
const VIDEO_DBM: [f64; 2] = [-85.0, -88.0];
/// Middle of the usual video band, Hz.
const VIDEO_HZ: f64 = 5.8e9;
/// Loss between linear and circular antennas (theory), and between right- and left-handed ones (from memory), dB.
const TURN_LOSS_DB: [f64; 2] = [3.0, 20.0];
/// One standard deviation of a link's budget, dB: patterns, cables, sensitivity (judgement).
const BUDGET_DB: f64 = 3.0;
/// Height of the craft and of the pilot's antenna over the ground, m (an assumption).
pub(crate) const HEIGHTS_M: [f64; 2] = [30.0, 1.5];

/// Radius of the control link at the packet rate that is chosen, else at the fastest.
pub(crate) const CONTROL: Derivation = Derivation {
    id: "radius-control",
    title: "radius of the control link at its packet rate",
    formula: "d = c/(4πf)·10^((EIRP + Grx − S − M)/20)",
    source: "ITU-R P.525; H.T. Friis; margins: common practice, no source",
    reads: &[PLACE, LEVELS, SENSITIVITIES, RATE, BAND, MODULE_POWER, RADIO_POWER, CONTROL_GAIN],
    run: |site| {
        let mut gather = Gather::new(site);
        let known = control(site, &mut gather);
        gather.one(known)
    },
};

/// Radius of the video link.
pub(crate) const VIDEO: Derivation = Derivation {
    id: "radius-video",
    title: "radius of the video link at its highest power",
    formula: "d = c/(4πf)·10^((EIRP + Grx − S − M)/20)",
    source: "ITU-R P.525; H.T. Friis; margins: common practice, no source",
    reads: &[PLACE, SIGNAL, STEPS, CHANNELS, VIDEO_GAIN, VIDEO_TURN, GOGGLES_GAIN, GOGGLES_TURN],
    run: |site| {
        let mut gather = Gather::new(site);
        let known = video(site, &mut gather);
        gather.one(known)
    },
};

/// Radio horizon.
pub(crate) const HORIZON: Derivation = Derivation {
    id: "radius-horizon",
    title: "radio horizon over smooth ground",
    formula: "√(2kR·h1) + √(2kR·h2), k = 4/3",
    source: "ITU-R P.526",
    reads: &[BAND],
    run: |site| {
        let mut gather = Gather::new(site);
        let [craft, pilot] = HEIGHTS_M;
        gather.assume("height of the craft over the ground", Some(Interval::nearest(craft, &M::INFO)));
        gather.assume("height of the pilot's antenna", Some(Interval::nearest(pilot, &M::INFO)));
        let far = horizon(craft, pilot).map(|metres| Datum::Figure(Interval::nearest(metres, &Km::INFO)));
        let known = far.map_err(|error| refused(&error));
        gather.one(known)
    },
};

fn control(site: &Site, gather: &mut Gather) -> Result<Datum, Missing> {
    let sensitivity = match chosen_level(gather) {
        Some(level) => level,
        None => most(gather, LEVELS)?,
    };
    let frequency_hz = gather.need(BAND)?;
    let watts = match gather.maybe(MODULE_POWER) {
        Some(module) => module,
        None => gather.need(RADIO_POWER)?,
    };
    assumed(gather, "gain of the radio's antenna", ROD_DBI, &DBi::INFO);
    let receive_gain_dbi = match gather.maybe(CONTROL_GAIN) {
        Some(gain) => gain,
        None => assumed(gather, "gain of the receiver's antenna", BUILT_IN_DBI, &DBi::INFO),
    };
    let margin_db = margin(site, gather);
    let link = Link { frequency_hz, eirp_dbm: dbm(watts) + ROD_DBI, receive_gain_dbi, sensitivity_dbm: sensitivity, margin_db };
    range(&link)
}

fn video(site: &Site, gather: &mut Gather) -> Result<Datum, Missing> {
    let watts = most(gather, STEPS)?;
    let analog = gather.word(SIGNAL)? == "analog";
    let frequency_hz = match middle(gather) {
        Some(hertz) => hertz,
        None => assumed(gather, "middle of the video band", VIDEO_HZ, &MHz::INFO),
    };
    let sent = match gather.maybe(VIDEO_GAIN) {
        Some(gain) => gain,
        None => assumed(gather, "gain of the video antenna", ROD_DBI, &DBi::INFO),
    };
    let receive_gain_dbi = heard(site, gather);
    let sensitivity_dbm = assumed(gather, "weakest signal of the video receiver", VIDEO_DBM[usize::from(!analog)], &DBm::INFO);
    let link =
        Link { frequency_hz, eirp_dbm: dbm(watts) + sent, receive_gain_dbi, sensitivity_dbm, margin_db: margin(site, gather) };
    range(&link)
}

/// The level at the packet rate that the purpose names, when the receiver knows it.
fn chosen_level(gather: &mut Gather) -> Option<f64> {
    let rate = gather.maybe(RATE)?;
    let records = gather.reading(SENSITIVITIES)?;
    let at_rate = |record: &&Value| record.field("rate_hz").and_then(Value::si) == Some(rate);
    records.items().ok()?.iter().find(at_rate)?.field("level_dbm").and_then(Value::si)
}

fn dbm(watts: f64) -> f64 {
    10.0 * (watts * 1e3).log10()
}

fn assumed(gather: &mut Gather, text: &'static str, value: f64, unit: &'static UnitInfo) -> f64 {
    gather.assume(text, Some(Interval::nearest(value, unit)));
    value
}

/// The largest figure of a list: the highest power, or the level of the fastest packet rate.
fn most(gather: &mut Gather, property: Property) -> Result<f64, Missing> {
    let empty = || Missing { subject: None, what: property.slot().map_or(Unknown::Field(property.field), Unknown::Empty) };
    let reading = gather.reading(property).ok_or_else(empty)?;
    let largest = reading.items()?.iter().filter_map(Value::si).reduce(f64::max);
    largest.ok_or_else(|| Missing { subject: reading.subject.clone(), what: Unknown::Field(property.field) })
}

/// Middle of the listed channels, Hz.
fn middle(gather: &mut Gather) -> Option<f64> {
    let reading = gather.reading(CHANNELS)?;
    let hertz: Vec<f64> = reading.items().ok()?.iter().filter_map(Value::si).collect();
    Some(f64::midpoint(hertz.iter().copied().reduce(f64::min)?, hertz.iter().copied().reduce(f64::max)?))
}

/// The gain of the antenna of the goggles that hears best, loss between unlike polarisations taken off: a receiver with several
/// antennas takes the strongest.
fn heard(site: &Site, gather: &mut Gather) -> f64 {
    let turn = gather.maybe_word(VIDEO_TURN);
    let each = site.all(GOGGLES_GAIN).into_iter().zip(site.all(GOGGLES_TURN)).filter_map(|(gain, polarisation)| {
        let net = gain.si().ok()? - turn_loss(turn.as_deref(), polarisation.word().ok());
        Some((net, [Some(gain.because), polarisation.known.is_ok().then_some(polarisation.because)]))
    });
    match each.max_by(|(one, _), (other, _)| one.total_cmp(other)) {
        Some((net, because)) => {
            gather.from.extend(because.into_iter().flatten());
            net
        }
        None => assumed(gather, "gain of the goggles' antennas", ROD_DBI, &DBi::INFO),
    }
}

fn turn_loss(sent: Option<&str>, heard: Option<&str>) -> f64 {
    match (sent, heard) {
        (Some(sent), Some(heard)) if sent == heard => 0.0,
        (Some(sent), Some(heard)) => TURN_LOSS_DB[usize::from(sent != "linear" && heard != "linear")],
        _ => 0.0,
    }
}

/// Radio margin of a place.
pub(crate) fn margin_of(place: &str) -> Limit {
    match place {
        "trees" => MARGIN_TREES,
        "walls" => MARGIN_WALLS,
        _ => MARGIN_OPEN,
    }
}

fn margin(site: &Site, gather: &mut Gather) -> f64 {
    let limit = margin_of(gather.maybe_word(PLACE).as_deref().unwrap_or_default());
    gather.from.push(site.threshold(&limit));
    site.policy().tight(&limit).map_or(0.0, |margin| margin.si())
}

fn range(link: &Link) -> Result<Datum, Missing> {
    let metres = link.range().map_err(|error| refused(&error))?;
    let sigma = BUDGET_DB * std::f64::consts::LN_10 / 20.0;
    let band = Band::from_log_sigma(metres, sigma);
    band.map(|band| figure(&band, &Km::INFO))
        .map_err(|error| Missing { subject: None, what: Unknown::Outside(error.to_string()) })
}

/// Frequencies of control and of video, Hz; nothing for a link that is not chosen.
pub(crate) fn frequencies(site: &Site) -> [Option<f64>; 2] {
    let mut gather = Gather::new(site);
    let video = gather.maybe_word(SIGNAL).map(|_| middle(&mut gather).unwrap_or(VIDEO_HZ));
    [gather.maybe(BAND), video]
}

/// The radii of a craft and the words for what they are limited by.
const LIMITS: [(Property, &str); 4] = [
    (derived("radius-energy"), "energy"),
    (derived(CONTROL.id), "control link"),
    (derived(VIDEO.id), "video link"),
    (derived(HORIZON.id), "horizon"),
];

/// What limits the radius.
pub(crate) const LIMITED_BY: Derivation = Derivation {
    id: "limited-by",
    title: "what limits the radius",
    formula: "the least of the radii that are known",
    source: "",
    reads: &[LIMITS[0].0, LIMITS[1].0, LIMITS[2].0, LIMITS[3].0],
    run: limited_by,
};

fn limited_by(site: &Site) -> Vec<Derived> {
    let mut gather = Gather::new(site);
    let mut radii = Vec::new();
    for (property, word) in LIMITS {
        if let Some(figure) = gather.reading(property).and_then(|reading| reading.figure().ok()) {
            radii.push((figure.nominal, word));
        }
    }
    // A horizon alone limits nothing: there is no craft yet.
    let least = radii.iter().filter(|_| radii.len() > 1).min_by_key(|(nominal, _)| *nominal);
    least.map_or_else(Vec::new, |(_, word)| gather.one(Ok(Datum::word(*word))))
}

#[cfg(test)]
mod tests {
    use crate::rules::trial::{figure, readings};

    const PARTS: &str = r#"(id: "r", name: "Receiver", fills: [Receiver(band_mhz: 2400,
            sensitivities: [(rate_hz: 250, level_dbm: -105), (rate_hz: 50, level_dbm: -112)])]),
        (id: "t", name: "Radio", fills: [Radio(power_mw: 100)]),
        (id: "v", name: "Video", fills: [VideoTransmitter(signal: "analog", steps: [(power_mw: 25), (power_mw: 25)])]),
        (id: "a", name: "Antenna", fills: [Antenna(gain_dbi: 2, polarisation: RightHand)]),
        (id: "l", name: "Rod", fills: [Antenna(gain_dbi: 2, polarisation: Linear)])"#;

    fn km(build: &str, id: &'static str) -> f64 {
        figure(PARTS, build, id).decimals()[1]
    }

    #[test]
    fn control_by_hand() {
        // Friis by hand: 20 + 2 dBm, 0 dBi, −105 dBm, 10 dB: 117 dB at 2.4 GHz are 7.04 km.
        let build = r#"parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t")]"#;
        assert!((km(build, "radius-control") - 7.04).abs() < 0.005);
        // The slower rate is understood 7 dB weaker: 10^(7/20) times as far.
        let slow = r#"purpose: (packet_rate_hz: 50), parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t")]"#;
        assert!((km(slow, "radius-control") - 15.76).abs() < 0.02);
        // 20 dB more of margin are a tenth of the way.
        let walls = r#"purpose: (place: Walls), parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t")]"#;
        assert!((km(walls, "radius-control") - 0.704).abs() < 0.0005);
    }

    #[test]
    fn video_by_hand() {
        // Friis by hand: 13.98 + 2 dBm, 2 dBi, −85 dBm, 10 dB: 92.98 dB at 5.8 GHz are 183.3 m; 3 dB less are 129.8 m.
        let same =
            r#"parts: [(slot: VideoTransmitter, part: "v"), (slot: AntennaVideo, part: "a"), (slot: AntennaGoggles, part: "a")]"#;
        assert!((km(same, "radius-video") - 0.1833).abs() < 5e-5);
        let mixed =
            r#"parts: [(slot: VideoTransmitter, part: "v"), (slot: AntennaVideo, part: "a"), (slot: AntennaGoggles, part: "l")]"#;
        assert!((km(mixed, "radius-video") - 0.1298).abs() < 5e-5);
    }

    #[test]
    fn the_antenna_that_hears_best_counts() {
        // 20 dB between right- and left-handed: the linear rod, 3 dB off, hears best.
        let parts = format!(r#"{PARTS}, (id: "w", name: "Left", fills: [Antenna(gain_dbi: 8, polarisation: LeftHand)])"#);
        let build = r#"parts: [(slot: VideoTransmitter, part: "v"), (slot: AntennaVideo, part: "a"),
            (slot: AntennaGoggles, part: "w"), (slot: AntennaGoggles, part: "l")]"#;
        assert!((figure(&parts, build, "radius-video").decimals()[1] - 0.1298).abs() < 5e-5);
    }

    #[test]
    fn the_least_limits_and_an_empty_slot_does_not() {
        let word = |build| readings(PARTS, build, "limited-by")[0].word().unwrap().to_owned();
        let both = r#"parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t"), (slot: VideoTransmitter, part: "v")]"#;
        assert_eq!(word(both), "video link");
        assert_eq!(word(r#"parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t")]"#), "control link");
        assert!(readings(PARTS, r#"parts: [(slot: Radio, part: "t")]"#, "limited-by").is_empty());
    }
}
