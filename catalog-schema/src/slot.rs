//! The places of a craft and its ground kit that a part can fill, in the order of assembly.

use crate::value::words;

words! {
    /// A place that a part fills. The order is the order in which one assembles: frame outward, then the ground kit.
    Slot {
        /// The frame with its ducts, if any.
        Frame "frame",
        /// Motors.
        Motor "motor",
        /// Screws that hold the motors.
        MotorScrew "motor-screw",
        /// Propellers.
        Propeller "propeller",
        /// Electronic speed controller, or several.
        Esc "esc",
        /// Capacitor across the pack leads.
        Capacitor "capacitor",
        /// Flight controller.
        FlightController "flight-controller",
        /// Voltage regulator beside the boards' own.
        Regulator "regulator",
        /// Power distribution board.
        PowerBoard "power-board",
        /// Plug or switch that takes the spark of plugging in.
        AntiSpark "anti-spark",
        /// Packs.
        Battery "battery",
        /// Selector between packs used in turn.
        PackSelector "pack-selector",
        /// Pack straps.
        Strap "strap",
        /// Control receiver.
        Receiver "receiver",
        /// Antenna of the control receiver.
        AntennaControl "antenna-control",
        /// Camera for flying.
        Camera "camera",
        /// Video transmitter.
        VideoTransmitter "video-transmitter",
        /// Antenna of the video transmitter.
        AntennaVideo "antenna-video",
        /// Satellite positioning.
        Gps "gps",
        /// Remote-identification module.
        RemoteId "remote-id",
        /// Finder for a lost craft.
        Finder "finder",
        /// What the craft carries.
        Payload "payload",
        /// The pilot's radio.
        Radio "radio",
        /// Transmitter module in the radio's bay.
        RadioModule "radio-module",
        /// Goggles.
        Goggles "goggles",
        /// Video receiver module of the goggles.
        GogglesModule "goggles-module",
        /// Antennas of the goggles.
        AntennaGoggles "antenna-goggles",
        /// Charger.
        Charger "charger",
        /// Fire-safe bag or box for charging and storage.
        FireSafeBag "fire-safe-bag",
    }
}

impl Slot {
    /// The slot of a word such as `antenna-video`.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|slot| slot.word() == word)
    }

    /// Does it stay on the ground, outside the take-off mass?
    pub const fn on_ground(self) -> bool {
        self as u8 >= Self::Radio as u8
    }

    /// Title for a list, in the trade's words.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Frame => "Frame",
            Self::Motor => "Motors",
            Self::MotorScrew => "Motor screws",
            Self::Propeller => "Propellers",
            Self::Esc => "Speed controller",
            Self::Capacitor => "Capacitor",
            Self::FlightController => "Flight controller",
            Self::Regulator => "Regulator",
            Self::PowerBoard => "Power board",
            Self::AntiSpark => "Anti-spark plug",
            Self::Battery => "Pack",
            Self::PackSelector => "Pack selector",
            Self::Strap => "Straps",
            Self::Receiver => "Receiver",
            Self::AntennaControl => "Control antenna",
            Self::Camera => "Camera",
            Self::VideoTransmitter => "Video transmitter",
            Self::AntennaVideo => "Video antenna",
            Self::Gps => "GPS",
            Self::RemoteId => "Remote identification",
            Self::Finder => "Finder",
            Self::Payload => "Payload",
            Self::Radio => "Radio",
            Self::RadioModule => "Radio module",
            Self::Goggles => "Goggles",
            Self::GogglesModule => "Goggles module",
            Self::AntennaGoggles => "Goggles antennas",
            Self::Charger => "Charger",
            Self::FireSafeBag => "Fire-safe bag",
        }
    }
}
