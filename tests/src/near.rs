//! Builds near a sound one: a few random swaps of parts, wiring, purpose and conditions away from it, each told by its seed.

use propwright_schema::{
    build_list::{Arrangement, BuildList, Feed, Fitted, Place, Use},
    catalogue::Catalogue,
    load::load_catalogue,
    quantity::{Quantity, Unit},
    slot::Slot,
};

/// A small generator of random numbers (splitmix64), so that a seed tells the same build everywhere.
#[derive(Debug, Clone)]
pub struct Dice(u64);

impl Dice {
    /// The generator of a seed.
    pub const fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15).wrapping_add(0x5851_f42d_4c95_7f2d))
    }

    const fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `end`, which is at least 1.
    pub fn below(&mut self, end: usize) -> usize {
        usize::try_from(self.next() % end as u64).unwrap_or(0)
    }

    fn pick<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        &of[self.below(of.len())]
    }

    fn flag(&mut self) -> bool {
        self.below(2) == 0
    }

    /// Absent one time in eight, else a figure out of a list.
    fn figure<U: Unit>(&mut self, of: &[f64]) -> Option<Quantity<U>> {
        let figure = *self.pick(of);
        (self.below(8) > 0).then(|| Quantity::parse(&figure.to_string()).unwrap())
    }
}

/// How the ids of odd parts begin.
const ODD: &str = "odd-";

/// The demo catalogue and a shelf of odd parts, each with one figure that builders trip over.
pub fn catalogue() -> Catalogue {
    let mut catalogue = crate::sample::catalogue();
    catalogue.lay_over(&load_catalogue("odd.ron", include_str!("../data/odd.ron")).unwrap());
    catalogue
}

/// What a swap can be; what happens at the bench more often stands here more often.
const SWAPS: [fn(&mut Dice, &Catalogue, &mut BuildList); 25] = [
    part, part, part, part, part, part, part, part, count, split, leave_out, leave_out, add, add, feed, feed, uart, outputs,
    between, packs, limit, purpose, purpose, purpose, day,
];

/// The build `swaps` random swaps away from another one.
pub fn near(catalogue: &Catalogue, sound: &BuildList, swaps: usize, dice: &mut Dice) -> BuildList {
    let mut build = sound.clone();
    for _ in 0..swaps {
        let swap = *dice.pick(&SWAPS);
        swap(dice, catalogue, &mut build);
    }
    // One craft in eight was flown before it was changed.
    if dice.below(8) == 0 {
        let mut flown = sound.clone();
        flown.logged.calm_min = Quantity::parse("8").ok();
        build.logged = flown.logged.clone();
        build.keep_log_of(&flown);
    }
    build
}

/// The same build with its slots listed in another order; lines of one slot keep theirs, they are its first, second, third part.
pub fn turned(build: &BuildList, dice: &mut Dice) -> BuildList {
    let keys: Vec<u64> = Slot::ALL.iter().map(|_| dice.next()).collect();
    let mut turned = build.clone();
    turned.parts.sort_by_key(|fitted| keys[fitted.slot as usize]);
    turned
}

fn line<'b>(dice: &mut Dice, build: &'b mut BuildList) -> Option<&'b mut Fitted> {
    let lines = build.parts.len();
    (lines > 0).then(|| &mut build.parts[dice.below(lines)])
}

/// Any part of a slot, one time in three an odd one where the shelf has some.
fn other(dice: &mut Dice, catalogue: &Catalogue, slot: Slot) -> Option<String> {
    let mut all: Vec<_> = catalogue.for_slot(slot).collect();
    let odd: Vec<_> = all.iter().copied().filter(|part| part.id.starts_with(ODD)).collect();
    if !odd.is_empty() && dice.below(3) == 0 {
        all = odd;
    }
    (!all.is_empty()).then(|| dice.pick(&all).id.clone())
}

/// Another part of the catalogue, or rarely one that it does not hold.
fn part(dice: &mut Dice, catalogue: &Catalogue, build: &mut BuildList) {
    let unknown = dice.below(120) == 0;
    let Some(fitted) = line(dice, build) else { return };
    if unknown {
        fitted.part.push_str("-renamed");
    } else if let Some(id) = other(dice, catalogue, fitted.slot) {
        fitted.part = id;
    }
}

fn count(dice: &mut Dice, _: &Catalogue, build: &mut BuildList) {
    let more = dice.flag();
    if let Some(fitted) = line(dice, build) {
        fitted.count = if more { fitted.count + 1 } else { (fitted.count - 1).max(1) };
    }
}

/// One of several is replaced by another part: a motor burned, an antenna broke.
fn split(dice: &mut Dice, catalogue: &Catalogue, build: &mut BuildList) {
    let several: Vec<usize> = (0..build.parts.len()).filter(|at| build.parts[*at].count > 1).collect();
    if several.is_empty() {
        return;
    }
    let at = *dice.pick(&several);
    let mut one = Fitted { count: 1, ..build.parts[at].clone() };
    if let Some(id) = other(dice, catalogue, one.slot) {
        one.part = id;
    }
    if let Some(outputs) = &mut build.parts[at].outputs {
        one.outputs = outputs.pop().map(|last| vec![last]);
    }
    build.parts[at].count -= 1;
    build.parts.insert(at + 1, one);
}

fn leave_out(dice: &mut Dice, _: &Catalogue, build: &mut BuildList) {
    if !build.parts.is_empty() {
        build.parts.remove(dice.below(build.parts.len()));
    }
}

/// A part for a slot, empty or not, wired as somebody might.
fn add(dice: &mut Dice, catalogue: &Catalogue, build: &mut BuildList) {
    let slot = *dice.pick(Slot::ALL);
    if let Some(id) = other(dice, catalogue, slot) {
        let mut fitted = Fitted::new(slot, &id);
        fitted.feed = any_feed(dice);
        fitted.uart = any_uart(dice);
        build.parts.push(fitted);
    }
}

fn any_feed(dice: &mut Dice) -> Option<Feed> {
    let rail = ["5V", "9V", "12V", "3.3V"];
    match dice.below(8) {
        0 => None,
        1 => Some(Feed::Pack),
        2 => Some(Feed::Own),
        3 => Some(Feed::Partner),
        _ => Some(Feed::Rail((*dice.pick(&rail)).to_owned())),
    }
}

fn any_uart(dice: &mut Dice) -> Option<u32> {
    let port = dice.below(10);
    u32::try_from(port).ok().filter(|port| *port > 0)
}

/// Another feed for a part that has one.
fn feed(dice: &mut Dice, _: &Catalogue, build: &mut BuildList) {
    let fed: Vec<usize> = (0..build.parts.len()).filter(|at| build.parts[*at].feed.is_some()).collect();
    if !fed.is_empty() {
        let at = *dice.pick(&fed);
        build.parts[at].feed = any_feed(dice);
    }
}

/// Another port for a part that hangs on one.
fn uart(dice: &mut Dice, _: &Catalogue, build: &mut BuildList) {
    let wired: Vec<usize> = (0..build.parts.len()).filter(|at| build.parts[*at].uart.is_some()).collect();
    if !wired.is_empty() {
        let at = *dice.pick(&wired);
        build.parts[at].uart = any_uart(dice);
    }
}

fn outputs(dice: &mut Dice, _: &Catalogue, build: &mut BuildList) {
    let wired = build.parts.iter_mut().find_map(|fitted| fitted.outputs.as_mut());
    if let Some(outputs) = wired.filter(|outputs| !outputs.is_empty()) {
        let at = dice.below(outputs.len());
        outputs[at] = u32::try_from(1 + dice.below(10)).unwrap_or(1);
    }
}

fn between(dice: &mut Dice, _: &Catalogue, build: &mut BuildList) {
    let screws = build.parts.iter_mut().find(|fitted| fitted.slot == Slot::MotorScrew);
    if let Some(screws) = screws {
        screws.between_mm = dice.figure(&[0.0, 0.5, 1.0, 2.0, 3.0]);
    }
}

/// A second pack, or another way to connect them, with or without a selector.
fn packs(dice: &mut Dice, catalogue: &Catalogue, build: &mut BuildList) {
    let pack = build.parts.iter().position(|fitted| fitted.slot == Slot::Battery);
    let Some(at) = pack else { return };
    let many: u32 = build.fitted(Slot::Battery).map(|(_, fitted)| fitted.count).sum();
    if many == 1 {
        build.parts[at].count = 2;
    }
    build.packs =
        [Some(Arrangement::Parallel), Some(Arrangement::Series), Some(Arrangement::InTurn), Some(Arrangement::InTurn), None]
            [dice.below(5)];
    if build.packs == Some(Arrangement::InTurn)
        && dice.flag()
        && let Some(id) = other(dice, catalogue, Slot::PackSelector)
    {
        build.parts.push(Fitted::new(Slot::PackSelector, &id));
    }
}

fn limit(dice: &mut Dice, _: &Catalogue, build: &mut BuildList) {
    build.output_limit_percent = dice.figure(&[30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0]);
}

fn purpose(dice: &mut Dice, _: &Catalogue, build: &mut BuildList) {
    let purpose = &mut build.purpose;
    match dice.below(16) {
        0..=4 => purpose.usage = Some(*dice.pick(Use::ALL)),
        5 => purpose.place = Some(*dice.pick(Place::ALL)),
        6 => purpose.indoors = Some(dice.flag()),
        7 => purpose.payload_g = dice.figure(&[0.0, 50.0, 200.0, 800.0, 2500.0, 6000.0]),
        8 => purpose.path_km = dice.figure(&[0.5, 2.0, 5.0, 12.0, 30.0, 80.0]),
        9 => purpose.calm_min = dice.figure(&[2.0, 4.0, 8.0, 15.0, 30.0, 60.0]),
        10 => purpose.burst_s = dice.figure(&[2.0, 5.0, 20.0, 60.0]),
        11 => purpose.overlay_wanted = Some(dice.flag()),
        12 => purpose.returns_home = Some(dice.flag()),
        13 => purpose.rights_itself = Some(dice.flag()),
        14 => purpose.packet_rate_hz = dice.figure(&[25.0, 50.0, 100.0, 150.0, 250.0, 500.0, 1000.0]),
        _ => {
            build.pilot.flown_h = dice.figure(&[0.0, 5.0, 12.0, 300.0]);
            build.pilot.simulator_h = dice.figure(&[0.0, 8.0, 20.0, 100.0]);
        }
    }
}

fn day(dice: &mut Dice, _: &Catalogue, build: &mut BuildList) {
    let day = &mut build.conditions;
    match dice.below(3) {
        0 => day.altitude_m = dice.figure(&[-100.0, 0.0, 400.0, 1200.0, 2500.0, 4200.0, 5500.0]),
        1 => day.temperature_c = dice.figure(&[-15.0, 0.0, 4.0, 12.0, 25.0, 38.0]),
        _ => day.wind_ms = dice.figure(&[0.0, 3.0, 6.0, 10.0, 15.0, 25.0]),
    }
}
