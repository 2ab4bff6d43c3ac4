//! The curves of a flight pass through the figures of the report, and end where the craft ends.

#![expect(clippy::unwrap_used, reason = "a curve that is not there has failed")]

use propwright_engine::{
    Report,
    interval::Interval,
    policy::Policy,
    sweep::{Chart, Lack, Mark, Point, Sweep, Topic, sweep},
};
use propwright_schema::{
    quantity::{Grams, KilometresPerHour, Minutes},
    slot::Slot,
};
use propwright_tests::sample;

fn swept() -> Vec<(&'static str, Report, Sweep)> {
    let catalogue = sample::catalogue();
    let both = |build| {
        let report = sample::report(&catalogue, &build);
        let sweep = sweep(&report, &Policy::default());
        (report, sweep)
    };
    sample::reference().into_iter().map(|(name, build)| (name, both(build))).map(|(name, (r, s))| (name, r, s)).collect()
}

/// The figure of the report that a marked point shows, as its place or as its height.
fn figures(report: &Report, point: Point) -> (Option<Interval>, Option<Interval>) {
    let flight = report.flight.as_ref().unwrap();
    let radius = &flight.radius;
    match point {
        Point::HoverFresh => (Some(flight.hover_duty), None),
        Point::HoverLanding => (report.figure("landing-duty"), None),
        Point::FullThrottle => (None, Some(flight.full_throttle_current)),
        Point::LongestFlight => (Some(flight.longest_speed), None),
        Point::Farthest => (None, Some(radius.energy)),
        Point::TiltLimit => (Some(flight.tilt_limited_speed), None),
        Point::TopSpeed => (Some(flight.top_speed), None),
        Point::AsListed => (None, Some(flight.times.calm)),
        Point::PaysHalf | Point::PaysNoMore => (None, None),
        Point::ControlEnds => (radius.control_link, None),
        Point::VideoEnds => (radius.video_link, None),
    }
}

/// Equal to the step in which the report keeps it, or to a hundredth of a per cent.
fn same(figure: f64, shown: &Interval) -> bool {
    (figure - shown.si()).abs() <= shown.unit.si_per_step.max(1e-4 * figure.abs())
}

fn marks(chart: &Chart) -> impl Iterator<Item = &Mark> {
    chart.marks.iter()
}

#[test]
fn marked_points_are_the_figures_of_the_report() {
    for (name, report, sweep) in swept() {
        let mut seen = Vec::new();
        for (topic, chart) in &sweep.charts {
            let chart = chart.as_ref().unwrap_or_else(|missing| panic!("{name}, {topic:?}: {missing:?}"));
            for mark in marks(chart) {
                let (x, y) = figures(&report, mark.point);
                assert!(x.is_none_or(|x| same(mark.x, &x)), "{name}: {mark:?} lies at {x:?}");
                assert!(y.is_none_or(|y| same(mark.y, &y)), "{name}: {mark:?} stands at {y:?}");
                seen.push(mark.point);
            }
        }
        for point in
            [Point::HoverFresh, Point::FullThrottle, Point::Farthest, Point::LongestFlight, Point::TopSpeed, Point::AsListed]
        {
            assert!(seen.contains(&point), "{name} shows no {}", point.word());
        }
    }
}

#[test]
fn a_calibrated_craft_is_drawn_as_it_was_calibrated() {
    let catalogue = sample::catalogue();
    let mut build = sample::demo();
    let plain = sample::report(&catalogue, &build).flight.unwrap();
    build.logged.calm_min = Minutes::from_decimal(6.5).ok();
    build.logged.top_speed_kmh = KilometresPerHour::from_decimal(150.0).ok();
    let report = sample::report(&catalogue, &build);
    assert_ne!(report.flight.as_ref().unwrap().times.calm, plain.times.calm);
    for (topic, chart) in &sweep(&report, &Policy::default()).charts {
        for mark in marks(chart.as_ref().unwrap()) {
            if mark.point == Point::Farthest {
                let curve =
                    chart.as_ref().unwrap().curves[mark.curve].samples.iter().filter_map(|sample| Some(sample.y?.nominal()));
                let peak = curve.fold(0.0, f64::max);
                assert!(mark.y > 0.999 * peak, "the best range lies {} below the peak {peak}", peak - mark.y);
            }
            let (x, y) = figures(&report, mark.point);
            assert!(x.is_none_or(|x| same(mark.x, &x)), "{topic:?}: {mark:?} lies at {x:?}");
            assert!(y.is_none_or(|y| same(mark.y, &y)), "{topic:?}: {mark:?} stands at {y:?}");
        }
    }
}

#[test]
fn a_band_at_a_marked_point_is_that_of_the_report() {
    for (name, report, sweep) in swept() {
        for topic in Topic::ALL {
            let chart = sweep.chart(topic).unwrap();
            for mark in marks(chart) {
                let (_, Some(shown)) = figures(&report, mark.point) else { continue };
                let samples = &chart.curves[mark.curve].samples;
                let band = samples.iter().find(|sample| sample.x.to_bits() == mark.x.to_bits()).unwrap().y.unwrap();
                let step = shown.unit.si_per_step;
                for (drawn, kept) in [(band.low(), shown.low), (band.high(), shown.high)] {
                    let kept = kept as f64 * step;
                    assert!((drawn - kept).abs() <= (1e-3 * kept).max(step), "{name}, {}: {drawn} {kept}", mark.point.word());
                }
            }
        }
    }
}

#[test]
fn hover_lifts_the_weight() {
    // Statics: in hover the thrust left at the craft is its weight; the report keeps the duty to a thousandth.
    for (name, report, sweep) in swept() {
        let chart = sweep.chart(Topic::Throttle).unwrap();
        let weight = report.totals.takeoff_mass.unwrap().si() * 9.80665;
        assert!((chart.levels[0].y / weight - 1.0).abs() < 1e-6);
        for mark in marks(chart).filter(|mark| matches!(mark.point, Point::HoverFresh | Point::HoverLanding)) {
            let rounding = 2.5 * 5e-4 / mark.x;
            assert!((mark.y / weight - 1.0).abs() < rounding, "{name}: {} of {weight} N", mark.y);
        }
    }
}

#[test]
fn the_curve_ends_at_top_speed_and_says_so() {
    for (name, _, sweep) in swept() {
        let chart = sweep.chart(Topic::Speed).unwrap();
        let top = marks(chart).find(|mark| mark.point == Point::TopSpeed).unwrap().x;
        let beyond = chart.stretches.iter().find(|stretch| stretch.lack == Lack::Infeasible).unwrap();
        assert!((beyond.from - top).abs() < 1e-9, "{name}");
        for curve in &chart.curves {
            assert!(curve.samples.iter().all(|sample| sample.y.is_some() == (sample.x <= top)), "{name}");
        }
    }
}

#[test]
fn payload_never_lengthens_a_flight_and_a_best_pack_is_the_best() {
    for (name, _, sweep) in swept() {
        let nominal = |topic| {
            let samples = &sweep.chart(topic).unwrap().curves[0].samples;
            samples.iter().filter_map(|sample| Some((sample.x, sample.y?.nominal()))).collect::<Vec<_>>()
        };
        assert!(nominal(Topic::Payload).is_sorted_by(|one, other| one.1 > other.1), "{name}");
        let capacity = sweep.chart(Topic::Capacity).unwrap();
        let Some(best) = marks(capacity).find(|mark| mark.point == Point::PaysNoMore) else { continue };
        assert!(nominal(Topic::Capacity).iter().all(|(_, minutes)| *minutes <= best.y * 1.0005), "{name}");
        assert!(marks(capacity).any(|mark| mark.point == Point::PaysHalf && mark.x < best.x), "{name}");
    }
}

#[test]
fn a_craft_that_cannot_lift_has_gaps_or_a_reason() {
    let catalogue = sample::catalogue();
    let mut build = sample::demo();
    build.purpose.payload_g = Grams::parse("9000").ok();
    let report = sample::report(&catalogue, &build);
    assert_eq!(report.flight, None);
    let laden = sweep(&report, &Policy::default());
    assert!(laden.charts.iter().any(|(topic, chart)| *topic == Topic::Speed && chart.is_err()));
    let payload = laden.chart(Topic::Payload).unwrap();
    assert!(payload.stretches.iter().any(|stretch| stretch.lack == Lack::Infeasible));
    assert!(payload.curves[0].samples.first().unwrap().y.is_some(), "without payload it flies");

    let without = sample::demo().parts.into_iter().filter(|line| line.slot != Slot::Battery).collect();
    let grounded = propwright_schema::build_list::BuildList { parts: without, ..sample::demo() };
    let report = sample::report(&catalogue, &grounded);
    let none = sweep(&report, &Policy::default());
    assert!(none.charts.iter().all(|(topic, chart)| *topic == Topic::Radio || chart.is_err()));
}
