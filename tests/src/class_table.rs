//! The table of classes: what craft of a class are said to do, and what our reference builds are computed to do.
//!
//! The figures that are said are common practice, no source. *Up to x* is met by one build of the class within 0.75 to 1.15 of x, and
//! passed by none beyond 1.25 of it; a range holds for every build of the class. Where physics or the choice of parts stands
//! against it, an [`Exception`] says why.

use std::fmt::Write;

use propwright_engine::{
    explain,
    flight::{Flight, Told},
    interval::Interval,
};

use crate::sample;

/// What is said of a figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Said {
    /// Every craft of the class lies within.
    Within(f64, f64),
    /// The best craft of the class come to it.
    UpTo(f64),
    /// Said in words that no figure can meet.
    Words,
}

/// One column of a class.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// What is said, in words.
    pub words: &'static str,
    /// What is said, in the unit of the figure.
    pub said: Said,
    /// Key of the figure; empty where there is none.
    pub key: &'static str,
}

/// Why what is said does not hold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exception {
    /// Key of the figure.
    pub key: &'static str,
    /// The build that it is about; absent: the class as a whole.
    pub build: Option<&'static str>,
    /// Why, in one sentence.
    pub reason: &'static str,
}

/// A class of craft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Class {
    /// Its name.
    pub name: &'static str,
    /// Our reference builds of it.
    pub builds: &'static [&'static str],
    /// Calm flight or longest flight, hard flight, speed, reach, load.
    pub columns: [Column; 5],
    /// What does not hold, and why.
    pub exceptions: &'static [Exception],
}

const fn column(words: &'static str, said: Said, key: &'static str) -> Column {
    Column { words, said, key }
}

/// Key of the load that a build carries, in kg: payload parts and what its purpose asks for. No figure of the flight tells it.
pub const PAYLOAD_KG: &str = "payload_kg";

const NONE: Column = column("", Said::Words, "");

/// The classes, from the smallest craft to the largest.
pub const CLASSES: [Class; 6] = [
    Class {
        name: "ducted micro, 1.2–1.6 in, 1S",
        builds: &["micro-trainer-1in2", "micro-trainer-1in6"],
        columns: [
            column("about 3 min", Said::Within(1.8, 4.5), "time_calm_min"),
            column("up to about 1 min flat out", Said::Within(0.4, 1.6), "time_flat_out_min"),
            column("about 30 km/h at its tilt limit", Said::UpTo(30.0), "tilt_limited_speed_kmh"),
            column("about 80 m", Said::Words, "radius_energy_km"),
            NONE,
        ],
        exceptions: &[Exception {
            key: "radius_energy_km",
            build: None,
            reason: "energy would carry it farther; sight, walls and gusts end its way first, which no model of ours tells, and a light breeze unsettles it",
        }],
    },
    Class {
        name: "ducted camera craft, 2.5–3.5 in, 4S–6S",
        builds: &["ducted-2in5", "ducted-3in5"],
        columns: [
            column("up to 10 min", Said::UpTo(10.0), "time_calm_min"),
            column("up to 3 min hard", Said::UpTo(3.0), "time_hard_min"),
            column("up to 60 km/h at its tilt limit", Said::UpTo(60.0), "tilt_limited_speed_kmh"),
            column("2 km out and back", Said::UpTo(2.0), "radius_energy_km"),
            NONE,
        ],
        exceptions: &[Exception {
            key: "radius_energy_km",
            build: None,
            reason: "that is what energy allows; between walls the picture ends within 150 m",
        }],
    },
    Class {
        name: "open 5 in, 6S",
        builds: &["freestyle-5in", "speed-5in"],
        columns: [
            column("up to 10 min", Said::UpTo(10.0), "time_calm_min"),
            column("up to 2 min hard", Said::UpTo(2.0), "time_hard_min"),
            column("about 190 km/h, special builds 260", Said::UpTo(260.0), "top_speed_kmh"),
            column("up to 4 km", Said::UpTo(4.0), "radius_energy_km"),
            NONE,
        ],
        exceptions: &[Exception {
            key: "radius_energy_km",
            build: Some("speed-5in"),
            reason: "a slick body at its best speed would come farther by energy; its picture ends within 1 km",
        }],
    },
    Class {
        name: "lifter, eight motors, 9–11 in, two 6S or 12S",
        builds: &["lifter-12s", "lifter-12s-li-ion", "lifter-li-ion", "lifter-two-packs"],
        columns: [
            column("15–30 min", Said::Within(15.0, 30.0), "time_calm_min"),
            NONE,
            column("up to 160 km/h", Said::UpTo(160.0), "top_speed_kmh"),
            column("radio horizon", Said::Words, "radius_energy_km"),
            NONE,
        ],
        exceptions: &[
            Exception {
                key: "time_calm_min",
                build: Some("lifter-12s"),
                reason: "with the 2.2 kg rig aboard the discs carry about 500 N/m²; power goes with mass to the power of 1.5 (momentum theory), so that a second LiPo pack lifts little more than itself; Li-ion packs of 236 Wh/kg under 11 in propellers fly it 15 min, even at 1200 m and 30 °C",
            },
            Exception { key: "time_calm_min", build: Some("lifter-two-packs"), reason: "the rig on smaller packs: the same law" },
            Exception {
                key: "radius_energy_km",
                build: None,
                reason: "energy ends the way long before the horizon, 28 km for a craft at 30 m",
            },
        ],
    },
    Class {
        name: "micro long range, 4 in, Li-ion 4S",
        builds: &["long-range-4in"],
        columns: [column("up to 40 min at best endurance", Said::UpTo(40.0), "time_longest_min"), NONE, NONE, NONE, NONE],
        exceptions: &[],
    },
    Class {
        name: "standard long range, 7–10 in, Li-ion 6S",
        builds: &["long-range-7in", "long-range-10in", "load-carrier-10in"],
        columns: [
            column("up to 40 min at best endurance", Said::UpTo(40.0), "time_longest_min"),
            NONE,
            NONE,
            column("30–35 km of path in still air", Said::UpTo(32.5), "path_km"),
            column("carries up to 3.5 kg, never with that path at once", Said::UpTo(3.5), PAYLOAD_KG),
        ],
        exceptions: &[
            Exception {
                key: PAYLOAD_KG,
                build: None,
                reason: "on a LiPo pack: with 2.8 kg and more aboard three rows of cans lift 1.5 times the weight at most, and fall below their landing volts",
            },
            Exception {
                key: "path_km",
                build: None,
                reason: "without a load: power goes with mass to the power of 1.5 (momentum theory), and the load wants a LiPo pack, which holds less",
            },
        ],
    },
];

/// A build of a class with its figures.
pub struct Flown {
    /// Name of the build's file.
    pub file: &'static str,
    /// What it carries; none where it carries nothing.
    pub payload: Option<Interval>,
    /// What the builder calls it.
    pub name: String,
    /// Its figures.
    pub flight: Flight,
}

/// The reference builds of a class that fly, evaluated.
pub fn flown(class: &Class) -> Vec<Flown> {
    let (catalogue, all) = (sample::catalogue(), sample::reference());
    let one = |file: &&'static str| {
        let build = &all.iter().find(|(name, _)| name == file)?.1;
        let report = sample::report(&catalogue, build);
        let payload = report.figure("payload-mass");
        Some(Flown { file, payload, name: build.name.clone(), flight: report.flight? })
    };
    class.builds.iter().filter_map(one).collect()
}

impl Flown {
    /// A figure by its key.
    pub fn told(&self, key: &str) -> Option<&Told> {
        self.flight.told.iter().find(|told| told.key == key)
    }

    /// Its nominal, in its unit.
    pub fn nominal(&self, key: &str) -> Option<f64> {
        if key == PAYLOAD_KG {
            return Some(self.payload.map_or(0.0, |payload| payload.si()));
        }
        self.told(key).map(|told| told.figure.decimals()[1])
    }

    /// A figure as it is said.
    fn said(&self, key: &str) -> Option<String> {
        let figure = if key == PAYLOAD_KG { self.payload } else { self.told(key).map(|told| told.figure) };
        figure.as_ref().map(explain::figure)
    }
}

/// The table as it stands in README.
pub fn table() -> String {
    let mut out = "| class | time | hard or flat out | speed | reach | load |\n|---|---|---|---|---|---|\n".to_owned();
    let mut notes = String::new();
    for class in &CLASSES {
        let builds = flown(class);
        let cells = class.columns.map(|column| cell(&column, &builds));
        let _ = writeln!(out, "| {} | {} |", class.name, cells.join(" | "));
        for exception in class.exceptions {
            let column = class.columns.iter().find(|column| column.key == exception.key).map_or("", |column| column.words);
            let about = exception.build.and_then(|file| builds.iter().find(|flown| flown.file == file));
            let about = about.map_or_else(String::new, |flown| format!(" ({})", flown.name));
            let _ = writeln!(notes, "- {}, “{column}”{about}: {}.", class.name, exception.reason);
        }
    }
    format!("{out}\nWhere a rule of thumb does not hold, and why:\n\n{notes}")
}

/// The figure of the build that comes nearest to what is said, with its band, under what is said.
fn cell(column: &Column, builds: &[Flown]) -> String {
    let target = match column.said {
        Said::Within(low, high) => f64::midpoint(low, high),
        Said::UpTo(most) => most,
        Said::Words => f64::MAX,
    };
    let off = |flown: &&Flown| flown.nominal(column.key).map_or(f64::MAX, |figure| (figure - target).abs());
    let nearest = builds.iter().min_by(|one, other| off(one).total_cmp(&off(other)));
    let Some((flown, said)) = nearest.and_then(|flown| Some((flown, flown.said(column.key)?))) else { return "–".to_owned() };
    format!("*said: {}*; {said}, {}", column.words, flown.name)
}
