//! The catalogue reads, holds no slip, and scatters about the trade's laws as real listings do.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use std::collections::BTreeSet;

use propwright_schema::{
    catalogue::{Catalogue, CatalogueFile},
    part::{Motor, Part, Role},
    ron_options,
    value::{Field, Kind, Record, Value},
};

fn files() -> Vec<(&'static str, CatalogueFile)> {
    let read = |&(name, text): &(&'static str, &str)| match ron_options().from_str(text) {
        Ok(file) => (name, file),
        Err(error) => panic!("{name}: {error}"),
    };
    propwright_sample::CATALOGUE.iter().map(read).collect()
}

fn catalogue() -> Catalogue {
    let mut catalogue = Catalogue::default();
    for (name, file) in files() {
        assert_eq!(catalogue.lay_over(&file), Vec::<String>::new(), "{name} repeats ids");
    }
    catalogue
}

fn motors(catalogue: &Catalogue) -> Vec<(&Part, &Motor)> {
    let motor = |role: &Role| matches!(role, Role::Motor(_));
    let with_motor = catalogue.parts().filter(|part| part.fills.iter().any(motor));
    with_motor
        .filter_map(|part| {
            part.fills.iter().find_map(|role| if let Role::Motor(m) = role { Some((&**part, &**m)) } else { None })
        })
        .collect()
}

#[test]
fn no_id_twice_in_a_file() {
    for (name, file) in files() {
        let ids: BTreeSet<&str> = file.parts.iter().map(|part| part.id.as_str()).collect();
        assert_eq!(ids.len(), file.parts.len(), "{name}");
    }
}

#[test]
fn as_large_as_a_workshop_needs() {
    let catalogue = catalogue();
    assert!(catalogue.parts().count() >= 240);
    assert!(catalogue.kits().count() >= 4);
}

#[test]
fn kits_hold_parts_of_the_catalogue() {
    let catalogue = catalogue();
    for kit in catalogue.kits() {
        assert!(kit.contents.len() >= 2, "{}", kit.id);
        for item in &kit.contents {
            assert!(item.count > 0 && catalogue.part(&item.part).is_some(), "{}: {}", kit.id, item.part);
        }
    }
}

fn implausible(place: &str, field: &Field, value: &Value, slips: &mut Vec<String>) {
    match (field.kind, value) {
        (Kind::Record(fields) | Kind::List(&Kind::Record(fields)), _) => {
            for item in value.items() {
                for inner in fields {
                    if let Some(found) = item.field(inner.name) {
                        implausible(place, inner, found, slips);
                    }
                }
            }
        }
        _ => {
            for item in value.items() {
                let figure = match item {
                    Value::Number { steps, unit } => unit.decimal(*steps),
                    Value::Count(count) => f64::from(u32::try_from(*count).unwrap()),
                    _ => continue,
                };
                if field.plausible.is_some_and(|(low, high)| !(low..=high).contains(&figure)) {
                    slips.push(format!("{place}: {} = {figure}", field.name));
                }
            }
        }
    }
}

#[test]
fn every_figure_is_plausible() {
    let catalogue = catalogue();
    let mut slips = Vec::new();
    for part in catalogue.parts() {
        if part.mass_g.is_some_and(|mass| mass.decimal() < Part::PLAUSIBLE_MASS_G.0 || mass.decimal() > Part::PLAUSIBLE_MASS_G.1)
        {
            slips.push(format!("{}: mass", part.id));
        }
        for role in &part.fills {
            for field in role.fields() {
                if let Some(value) = role.get(field.name) {
                    implausible(&part.id, field, &value, &mut slips);
                }
            }
        }
        let known = |name: &String| {
            name == "mass_g" || name == "price" || part.fills.iter().any(|role| role.fields().iter().any(|f| f.name == name))
        };
        slips.extend(
            part.basis
                .keys()
                .chain(part.sources.keys())
                .filter(|name| !known(name))
                .map(|name| format!("{}: no field {name}", part.id)),
        );
    }
    assert!(slips.is_empty(), "{slips:#?}");
}

/// Root mean square of the deviations, in log space.
fn rms(deviations: &[f64]) -> f64 {
    (deviations.iter().map(|d| d * d).sum::<f64>() / deviations.len() as f64).sqrt()
}

fn volume_mm3(motor: &Motor) -> f64 {
    let (d, h) = (motor.stator_diameter_mm.unwrap().decimal(), motor.stator_height_mm.unwrap().decimal());
    std::f64::consts::FRAC_PI_4 * d * d * h
}

/// Motor mass 0.0309·V^0.878 g, V the stator's volume in mm³: fitted to 17 listing rows from memory.
#[test]
fn motor_masses_scatter_about_the_law() {
    let catalogue = catalogue();
    let weighed = motors(&catalogue).into_iter().filter_map(|(part, motor)| Some((part.mass_g?.decimal(), volume_mm3(motor))));
    let deviations: Vec<f64> = weighed.map(|(mass, volume)| (mass / (0.0309 * volume.powf(0.878))).ln()).collect();
    let spread = rms(&deviations);
    assert!(deviations.len() >= 30 && (0.05..=0.12).contains(&spread), "{spread}");
    assert!(deviations.iter().all(|d| d.abs() > 0.002), "a motor lies on the law");
}

/// Resistance from Kt²/R = 1.196e-9·V^1.614 N²m²/W, the same rows; real listings scatter by 16 %.
#[test]
fn motor_resistances_scatter_about_the_law() {
    let catalogue = catalogue();
    let law = |motor: &Motor| {
        let kv = motor.kv_rpm_per_v.unwrap().decimal() * std::f64::consts::PI / 30.0;
        1e3 / (kv * kv * 1.196e-9 * volume_mm3(motor).powf(1.614))
    };
    let published = motors(&catalogue).into_iter().filter_map(|(_, motor)| Some((motor.resistance_mohm?.decimal(), law(motor))));
    let spread = rms(&published.map(|(given, law)| (given / law).ln()).collect::<Vec<_>>());
    assert!((0.05..=0.16).contains(&spread), "{spread}");
}

#[test]
fn resistance_and_burst_are_unpublished_for_two_in_five_motors() {
    let catalogue = catalogue();
    let motors = motors(&catalogue);
    for field in ["resistance_mohm", "current_burst_a"] {
        let silent = motors.iter().filter(|(_, motor)| motor.get(field).is_none()).count();
        let share = silent as f64 / motors.len() as f64;
        assert!((0.35..=0.45).contains(&share), "{field}: {share}");
    }
}

#[test]
fn prices_are_as_uneven_as_real_ones() {
    let catalogue = catalogue();
    let parts: Vec<_> = catalogue.parts().collect();
    let old = "2024-11-01".parse().unwrap();
    assert!(parts.iter().filter(|part| part.price.is_none()).count() >= 5, "unpriced");
    assert!(parts.iter().filter(|part| part.priced_on.is_some_and(|day| day < old)).count() >= 5, "stale");
    assert!(parts.iter().filter(|part| part.price.is_some_and(|price| price.currency() != "EUR")).count() >= 5, "other currency");
    assert!(parts.iter().filter(|part| part.retired).count() >= 5, "retired");
    assert!(parts.iter().filter(|part| part.mass_g.is_none()).count() >= 2, "mass unknown");
    for part in parts {
        assert_eq!(part.price.is_some(), part.priced_on.is_some(), "{}: a price has its day", part.id);
    }
}

#[test]
fn frames_measure_what_their_motor_places_say() {
    for part in catalogue().parts() {
        for role in &part.fills {
            let Role::Frame(frame) = role else { continue };
            let places = frame.motors.as_ref().unwrap();
            let middle = |mm: Option<propwright_schema::quantity::Millimetres>| mm.unwrap().decimal();
            let longest = places.iter().flat_map(|a| places.iter().map(move |b| (a, b)));
            let longest = longest.map(|(a, b)| (middle(a.x_mm) - middle(b.x_mm)).hypot(middle(a.y_mm) - middle(b.y_mm)));
            let longest = longest.fold(0.0, f64::max);
            assert!((longest - frame.wheelbase_mm.unwrap().decimal()).abs() < 0.5, "{}: {longest}", part.id);
        }
    }
}
