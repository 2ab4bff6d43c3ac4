//! Laws of money: exact sums, whole packs, and a shelf that can only save.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::sync::Arc;

use proptest::prelude::*;
use propwright_engine::{
    bill::{
        self, Bill, Given, Need,
        kit::{self, Cheaper},
        path::{Stage, WEAR, course},
        spare, stock,
    },
    craft::Craft,
    evaluate_with, explain,
    policy::Policy,
};
use propwright_schema::{
    build_list::{BuildList, Tax, TaxBase},
    catalogue::Catalogue,
    load::{load_build, load_catalogue, load_rates, load_stock},
    quantity::{Money, Percent},
    slot::Slot,
    stock::{Condition, Stock, StockItem},
};

/// Parts `s0` to `s4`, sold by the pack, in two currencies and by two suppliers, and one without a price.
const PARTS: &str = r#"
    (id: "s0", name: "S0", pieces: 4, price: "3.20 EUR", supplier: "Quay Depot", priced_on: "2026-10-19", fills: [Strap()]),
    (id: "s1", name: "S1", pieces: 7, price: "0.01 EUR", supplier: "Far Yard", fills: [Strap()]),
    (id: "s2", name: "S2", price: "17.95 GBP", supplier: "Far Yard", fills: [Strap()]),
    (id: "s3", name: "S3", pieces: 20, price: "2.10 EUR", fills: [Strap()]),
    (id: "s4", name: "S4", fills: [Strap()]),"#;
const CHARGES: &str = r#"shipping: [(name: "Quay Depot", price: "6.90 EUR"), (name: "Far Yard", price: "11.00 GBP")], tax: [(name: "duty", price: "3.33 EUR")]"#;
const RATES: &str = r#"(version: 1, rates: [(from: "GBP", to: "EUR", rate: "1.1734", on: "2026-11-20")])"#;

fn catalogue(parts: &str, kits: &str) -> Catalogue {
    let mut catalogue = Catalogue::default();
    catalogue.lay_over(&load_catalogue("c", &format!("(version: 1, parts: [{parts}], kits: [{kits}])")).unwrap());
    catalogue
}

fn build(content: &str) -> Arc<BuildList> {
    Arc::new(load_build("b", &format!("(version: 1, name: \"B\", {content})")).unwrap())
}

fn given(stock: &str) -> Given {
    Given { stock: load_stock("s", &format!("(version: 1, items: [{stock}])")).unwrap(), ..Given::default() }
}

fn billed(catalogue: &Catalogue, build: &Arc<BuildList>, given: &Given) -> Bill {
    bill::bill(catalogue, &Craft::new(catalogue, build), given)
}

fn amounts(amounts: &[Money]) -> Vec<String> {
    amounts.iter().map(ToString::to_string).collect()
}

/// A list of straps: part, count, owned; the last `spares` of them are spares.
fn straps(lines: &[(usize, u32, bool)], spares: usize) -> Arc<BuildList> {
    let (fitted, spare) = lines.split_at(lines.len().saturating_sub(spares));
    let fitted: String = fitted
        .iter()
        .map(|(part, count, owned)| format!("(slot: Strap, part: \"s{part}\", count: {count}, owned: {owned}),"))
        .collect::<Vec<_>>()
        .concat();
    let spare: String =
        spare.iter().map(|(part, count, _)| format!("(part: \"s{part}\", count: {count}),")).collect::<Vec<_>>().concat();
    build(&format!("parts: [{fitted}], spares: [{spare}], {CHARGES}"))
}

fn shelf(items: &[(usize, u32)]) -> Stock {
    let items = items.iter().map(|(part, count)| StockItem::new(&format!("s{part}"), *count)).collect();
    Stock { items, ..Stock::default() }
}

fn lines() -> impl Strategy<Value = Vec<(usize, u32, bool)>> {
    prop::collection::vec((0_usize..5, 1_u32..40, any::<bool>()), 0..8)
}

/// The list with a tax in per cent of goods and shipping besides.
fn taxed(list: &BuildList) -> Arc<BuildList> {
    let percent = Percent::parse("19").ok();
    let tax = Tax {
        price: None,
        percent,
        of: Some(TaxBase::GoodsAndShipping),
        ..Tax::fixed("import", Money::from_minor(0, "EUR").unwrap())
    };
    Arc::new(BuildList { tax: list.tax.iter().cloned().chain([tax]).collect(), ..list.clone() })
}

fn items() -> impl Strategy<Value = Vec<(usize, u32)>> {
    prop::collection::vec((0_usize..5, 1_u32..30), 0..5)
}

proptest! {
    #[test]
    fn lines_sum_to_the_total_in_any_order(lines in lines(), items in items(), turn in 0_usize..8) {
        let catalogue = catalogue(PARTS, "");
        let rates = Some(load_rates("r", RATES).unwrap());
        let given = Given { stock: shelf(&items), ..Given::default() };
        let bill = billed(&catalogue, &taxed(&straps(&lines, 2)), &given);
        let counted = bill.charges.iter().filter(|charged| charged.counts).map(|charged| charged.amount);
        for currency in ["EUR", "GBP"] {
            let each = bill.lines.iter().filter_map(|line| line.price).chain(counted.clone());
            let sum: i64 = each.filter(|price| price.currency() == currency).map(Money::minor).sum();
            let told: i64 = bill.total.sums.iter().filter(|sum| sum.currency() == currency).map(|sum| sum.minor()).sum();
            prop_assert_eq!(sum, told);
        }
        let mut turned = lines.clone();
        turned.rotate_left(turn.min(lines.len()));
        let again = billed(&catalogue, &taxed(&straps(&turned, 0)), &Given { rates: rates.clone(), ..given.clone() });
        let whole = billed(&catalogue, &taxed(&straps(&lines, 0)), &Given { rates, ..given });
        prop_assert_eq!(whole.total, again.total);
    }

    #[test]
    fn whole_packs_are_never_split(lines in lines(), items in items()) {
        let catalogue = catalogue(PARTS, "");
        let given = Given { stock: shelf(&items), ..Given::default() };
        let bill = billed(&catalogue, &straps(&lines, 2), &given);
        for part in catalogue.parts() {
            let of_part: Vec<_> = bill.lines.iter().filter(|line| line.part.id == part.id).collect();
            let pieces = part.pieces.unwrap_or(1);
            let bought: u32 = of_part.iter().map(|line| line.packs * pieces).sum();
            let rest = bill.rest.iter().find(|(rest, _)| rest.id == part.id).map_or(0, |(_, rest)| *rest);
            let to_buy: u32 = of_part.iter().filter(|line| !line.owned).map(|line| line.count - line.drawn_count()).sum();
            prop_assert_eq!(bought, to_buy + rest);
            prop_assert!(rest < pieces, "no pack more than is needed");
            for line in of_part {
                prop_assert_eq!(line.price, part.price.and_then(|price| price.times(line.packs)));
            }
        }
    }

    #[test]
    fn owning_more_never_costs_more(lines in lines(), items in items(), more in (0_usize..5, 1_u32..30), flag in 0_usize..8) {
        let catalogue = catalogue(PARTS, "");
        let rates = Some(load_rates("r", RATES).unwrap());
        let cost = |lines: &[(usize, u32, bool)], items: &[(usize, u32)]| {
            let bill = billed(&catalogue, &taxed(&straps(lines, 2)), &Given { stock: shelf(items), rates: rates.clone(), ..Given::default() });
            prop_assert!(bill.total.amounts.len() <= 1);
            Ok(bill.total.amounts.first().map_or(0, |amount| amount.minor()))
        };
        let before = cost(&lines, &items)?;
        let mut richer = items.clone();
        richer.push(more);
        prop_assert!(cost(&lines, &richer)? <= before);
        let mut flagged = lines.clone();
        if let Some(line) = flagged.get_mut(flag) {
            line.2 = true;
        }
        prop_assert!(cost(&flagged, &items)? <= before);
    }

    #[test]
    fn a_kit_at_the_price_of_its_parts_breaks_even(lines in prop::collection::vec((0_usize..4, 1_u32..40, Just(false)), 1..6)) {
        let alone = catalogue(PARTS, "");
        let rates = Some(load_rates("r", RATES).unwrap());
        let list = straps(&lines, 0);
        let list = Arc::new(BuildList { shipping: Vec::new(), ..(*list).clone() });
        let given = Given { rates, ..Given::default() };
        let bill = billed(&alone, &list, &given);
        let price = bill.total.amounts[0].minus("3.33 EUR".parse().unwrap()).unwrap(); // without the duty
        let contents: String = lines.iter().map(|(part, count, _)| format!("(part: \"s{part}\", count: {count}),")).collect::<Vec<_>>().concat();
        let catalogue = catalogue(PARTS, &format!("(id: \"k\", name: \"K\", price: \"{price}\", contents: [{contents}])"));
        let report = evaluate_with(&catalogue, &list, &Policy::default(), &given);
        let found = &kit::compare(&catalogue, &report, &Policy::default(), &given)[0];
        prop_assert_eq!(found.cheaper(), Some(Cheaper::Equal));
        prop_assert_eq!(found.breaks_even_at, Some(price));
        prop_assert!(found.lacks.iter().all(|slot| *slot != Slot::Strap) && found.is_as_capable());
    }
}

proptest! {
    #[test]
    fn a_taxed_kit_breaks_even_where_its_parts_do(lines in prop::collection::vec((0_usize..2, 1_u32..40, Just(false)), 1..6), off in -500_i64..500) {
        let alone = catalogue(PARTS, "");
        let list = straps(&lines, 0);
        let list = taxed(&BuildList { shipping: Vec::new(), tax: Vec::new(), ..(*list).clone() });
        let goods = billed(&alone, &list, &Given::default()).lines.iter().filter_map(|line| line.price).map(Money::minor).sum::<i64>();
        let contents: String = lines.iter().map(|(part, count, _)| format!("(part: \"s{part}\", count: {count}),")).collect::<Vec<_>>().concat();
        let price = Money::from_minor((goods + off).max(0), "EUR").unwrap();
        let catalogue = catalogue(PARTS, &format!("(id: \"k\", name: \"K\", price: \"{price}\", contents: [{contents}])"));
        let report = evaluate_with(&catalogue, &list, &Policy::default(), &Given::default());
        let found = &kit::compare(&catalogue, &report, &Policy::default(), &Given::default())[0];
        prop_assert_eq!(found.breaks_even_at.map(Money::minor), Some(goods), "whatever the kit costs");
        let expected = match price.minor() - goods {
            0 => Cheaper::Equal,
            above if above > 0 => Cheaper::Separate,
            _ => Cheaper::Kit,
        };
        prop_assert_eq!(found.cheaper(), Some(expected));
    }
}

const RADIO: &str = r#"
    (id: "r", name: "R", price: "15.00 EUR", fills: [Receiver(band_mhz: 868, antenna_connector: "U", antenna_gender: Male)]),
    (id: "v", name: "V", price: "30.00 EUR", fills: [VideoTransmitter(channels_mhz: [5740, 5880], antennas: 1, antenna_connector: "SMA", antenna_gender: Female)]),
    (id: "g", name: "G", price: "95.00 EUR", fills: [Goggles(antennas: 2, antenna_connector: "SMA", antenna_gender: Female)]),
    (id: "tee", name: "Tee", price: "4.00 EUR", fills: [Antenna(lowest_mhz: 860, highest_mhz: 930, connector: "U", gender: Female)]),
    (id: "old", name: "Old", price: "6.00 EUR", fills: [Antenna(lowest_mhz: 5600, highest_mhz: 6000, connector: "SMA", gender: Male)]),
    (id: "leaf", name: "Leaf", price: "9.00 EUR", fills: [Antenna(lowest_mhz: 5600, highest_mhz: 6000, connector: "SMA", gender: Male)]),"#;

#[test]
fn the_antennas_of_a_kit_go_to_their_devices() {
    let list = build(
        r#"parts: [(slot: Receiver, part: "r"), (slot: VideoTransmitter, part: "v"), (slot: AntennaVideo, part: "old"), (slot: Goggles, part: "g")]"#,
    );
    let placed = |contents: &str| {
        let catalogue = catalogue(RADIO, &format!("(id: \"k\", name: \"K\", price: \"10.00 EUR\", contents: [{contents}])"));
        let report = evaluate_with(&catalogue, &list, &Policy::default(), &Given::default());
        let found = kit::compare(&catalogue, &report, &Policy::default(), &Given::default()).remove(0);
        let antennas = [Slot::AntennaVideo, Slot::AntennaControl, Slot::AntennaGoggles];
        antennas.map(|slot| {
            let line = found.craft.fitted(slot).next().map(|(_, line)| (line.part.clone(), line.count));
            line.map_or_else(String::new, |(part, count)| format!("{count} {part}"))
        })
    };
    assert_eq!(placed(r#"(part: "tee", count: 1)"#), ["1 old", "1 tee", ""], "by its frequencies");
    assert_eq!(placed(r#"(part: "leaf", count: 2)"#), ["1 old", "", "2 leaf"], "by how many the device asks for");
    assert_eq!(placed(r#"(part: "leaf", count: 1)"#), ["1 leaf", "", ""]);
}

#[test]
fn the_rest_of_a_pack_serves_the_next_line() {
    let catalogue = catalogue(PARTS, "");
    let bill = billed(&catalogue, &straps(&[(0, 3, false), (0, 2, false)], 1), &Given::default());
    let [first, second] = bill.lines.as_slice() else { unreachable!("two lines") };
    assert_eq!((first.packs, second.from_rest, second.packs), (1, 1, 1));
    assert_eq!((second.need, bill.rest[0].1), (Need::Spare(0), 3));
    assert_eq!(amounts(&bill.total.amounts), ["16.63 EUR"]); // 2 · 3.20 + 6.90 shipping + 3.33 duty
    assert!(!bill.charges[1].counts, "nothing is bought from the other supplier");
}

#[test]
fn the_shelf_is_drawn_first_worn_last_and_broken_never() {
    let catalogue = catalogue(PARTS, "");
    let given =
        given(r#"(part: "s2", count: 2, condition: Worn), (part: "s2", condition: Broken), (part: "s2", condition: Used)"#);
    let bill = billed(&catalogue, &build(r#"parts: [(slot: Strap, part: "s2", count: 4)]"#), &given);
    let drawn: Vec<(usize, u32)> = bill.lines[0].drawn.iter().map(|drawn| (drawn.at, drawn.count)).collect();
    assert_eq!((drawn, bill.lines[0].packs), (vec![(2, 1), (0, 2)], 1));
    assert_eq!(
        stock::after(&given.stock, &bill).items.iter().map(|item| item.condition).collect::<Vec<_>>(),
        [Some(Condition::Broken)]
    );
    let back = stock::returned(&stock::after(&given.stock, &bill), &bill.lines);
    assert_eq!(back.items.iter().filter(|item| item.is_usable()).map(|item| item.count).sum::<u32>(), 4);
}

proptest! {
    #[test]
    fn a_craft_that_is_built_costs_nothing_more_and_comes_apart_again(lines in lines(), items in items()) {
        let catalogue = catalogue(PARTS, "");
        let list = straps(&lines, 0);
        let list = Arc::new(BuildList { shipping: Vec::new(), tax: Vec::new(), ..(*list).clone() });
        let given = |stock: Stock| Given { stock, ..Given::default() };
        let bill = billed(&catalogue, &list, &given(shelf(&items)));
        let built = stock::built(&shelf(&items), &bill, "B");
        prop_assert_eq!(billed(&catalogue, &list, &given(built.clone())).total.amounts, vec![]);
        let other = Arc::new(BuildList { name: "Other".to_owned(), ..(*list).clone() });
        let elsewhere = billed(&catalogue, &other, &given(built.clone()));
        prop_assert!(elsewhere.lines.iter().flat_map(|line| &line.drawn).all(|drawn| drawn.item.fitted_in.is_none()));
        let pieces = |stock: &Stock| stock.items.iter().map(|item| item.count).sum::<u32>();
        let apart = stock::apart(&built, "B");
        prop_assert_eq!(pieces(&apart), pieces(&built));
        prop_assert!(apart.items.iter().all(|item| item.fitted_in.is_none()));
    }
}

#[test]
fn prices_age_only_with_a_day() {
    let catalogue = catalogue(PARTS, "");
    let list = build(r#"parts: [(slot: Strap, part: "s0"), (slot: Strap, part: "s2")]"#);
    let ages = |today: Option<&str>| {
        let given = Given { today: today.map(|day| day.parse().unwrap()), ..Given::default() };
        billed(&catalogue, &list, &given).lines.iter().map(|line| line.age_days).collect::<Vec<_>>()
    };
    assert_eq!(ages(None), [None, None]);
    assert_eq!(ages(Some("2026-11-18")), [Some(30), None]);
    assert_eq!(ages(Some("2026-10-18")), [None, None], "a price of tomorrow has no age");
}

#[test]
fn an_unpriced_part_is_named_until_it_is_owned() {
    let catalogue = catalogue(PARTS, "");
    let list = build(r#"parts: [(slot: Strap, part: "s4", count: 2)]"#);
    assert_eq!(billed(&catalogue, &list, &Given::default()).unpriced().count(), 1);
    assert_eq!(billed(&catalogue, &list, &given(r#"(part: "s4", count: 1)"#)).unpriced().count(), 1);
    assert_eq!(billed(&catalogue, &list, &given(r#"(part: "s4", count: 2)"#)).unpriced().count(), 0);
}

const MICRO: &str = r#"
    (id: "f", name: "F", mass_g: 30, price: "45.00 EUR", fills: [Frame(guard: Open, arm_replaceable: true, arm_price: "9.00 EUR")]),
    (id: "p", name: "P", mass_g: 2, pieces: 4, price: "3.20 EUR", fills: [Propeller()]),
    (id: "b", name: "B", mass_g: 40, price: "30.00 EUR", fills: [Battery(resistance_mohm: 20)]),
    (id: "b2", name: "B2", mass_g: 60, price: "20.00 EUR", fills: [Battery()]),
    (id: "g", name: "Goggles", price: "95.00 EUR", fills: [Goggles()]),
    (id: "g2", name: "Other goggles", price: "265.00 EUR", fills: [Goggles()]),"#;
const CRAFT: &str = r#"purpose: (usage: Freestyle), parts: [(slot: Frame, part: "f"), (slot: Propeller, part: "p", count: 4),
    (slot: Battery, part: "b"), (slot: Goggles, part: "g2", owned: true)]"#;

#[test]
fn owning_goggles_turns_the_answer() {
    let kits = r#"(id: "k", name: "K", price: "130.00 EUR", contents: [(part: "f", count: 1), (part: "p", count: 8), (part: "g", count: 1)])"#;
    let catalogue = catalogue(MICRO, kits);
    let (list, policy, given) = (build(CRAFT), Policy::default(), Given::default());
    let report = evaluate_with(&catalogue, &list, &policy, &given);
    let found = &kit::compare(&catalogue, &report, &policy, &given)[0];
    // With the kit 130 + 30, one by one 45 + 3.20 + 30; owning nothing 45 + 3.20 + 30 + 95 are one by one.
    assert_eq!(amounts(&[found.above.unwrap(), found.above_owning_nothing.unwrap()]), ["81.80 EUR", "-13.20 EUR"]);
    assert_eq!(found.breaks_even_at.map(|at| at.to_string()).as_deref(), Some("48.20 EUR"));
    assert_eq!(found.already_owned.iter().map(|part| part.id.as_str()).collect::<Vec<_>>(), ["g"]);
    assert_eq!(found.left_over.iter().map(|(part, count)| (part.id.as_str(), *count)).collect::<Vec<_>>(), [("p", 4), ("g", 1)]);
    assert!(found.lacks.contains(&Slot::Battery) && !found.lacks.contains(&Slot::Goggles));
    let answer = explain::money::kit_answer(found);
    assert_eq!(
        answer,
        "With goggles already owned, separate parts are 81.80 EUR cheaper; owning nothing, the kit is 13.20 EUR cheaper."
    );
}

#[test]
fn a_kit_with_another_part_makes_another_craft() {
    let catalogue = catalogue(
        MICRO,
        r#"(id: "k", name: "K", price: "19.00 EUR", contents: [(part: "b2", count: 1), (part: "p", count: 2)])"#,
    );
    let (list, policy, given) = (build(CRAFT), Policy::default(), Given::default());
    let report = evaluate_with(&catalogue, &list, &policy, &given);
    let found = &kit::compare(&catalogue, &report, &policy, &given)[0];
    assert_eq!(found.craft.parts[2].part, "b2");
    assert_eq!(amounts(&found.separate.amounts), ["68.20 EUR"]); // 45 + 3.20 + 20
    assert_eq!(amounts(&found.listed.amounts), ["78.20 EUR"]);
    assert_eq!(amounts(&[found.above.unwrap()]), ["-1.00 EUR"], "two of four propellers save no pack");
    assert!(found.capabilities[0].differs, "20 g more than the bands");
}

#[test]
fn what_is_ticked_as_owned_doubles_with_the_same_part_in_the_box() {
    let kits = r#"(id: "k", name: "K", price: "130.00 EUR", contents: [(part: "f", count: 1), (part: "p", count: 8), (part: "g", count: 1)])"#;
    let catalogue = catalogue(MICRO, kits);
    let (policy, given) = (Policy::default(), Given::default());
    let list = build(&CRAFT.replace(r#"part: "g2", owned"#, r#"part: "g", owned"#));
    let found = kit::compare(&catalogue, &evaluate_with(&catalogue, &list, &policy, &given), &policy, &given).remove(0);
    assert_eq!(found.already_owned.iter().map(|part| part.id.as_str()).collect::<Vec<_>>(), ["g"]);
    assert!(found.covers.iter().all(|(slot, _)| *slot != Slot::Goggles));
    assert!(found.left_over.iter().any(|(part, count)| (part.id.as_str(), *count) == ("g", 1)), "the second goggles");
    assert_eq!(amounts(&[found.above.unwrap()]), ["81.80 EUR"]); // 130 + 30 against 45 + 3.20 + 30
    assert!(explain::money::kit_answer(&found).starts_with("With goggles already owned"));
    assert!(explain::money::doubles(&found).contains("sold for more than 81.80 EUR"));
}

#[test]
fn spares_of_a_part_that_gave_way_are_spares_of_the_one_in_its_place() {
    let kits = r#"(id: "k", name: "K", price: "30.00 EUR", contents: [(part: "b2", count: 2)])"#;
    let catalogue = catalogue(MICRO, kits);
    let (policy, given) = (Policy::default(), Given::default());
    let list = build(&format!(r#"{CRAFT}, spares: [(part: "b", count: 2), (part: "f", arm: true, count: 1)]"#));
    let found = kit::compare(&catalogue, &evaluate_with(&catalogue, &list, &policy, &given), &policy, &given).remove(0);
    let spares: Vec<(&str, u32)> = found.craft.spares.iter().map(|spare| (spare.part.as_str(), spare.count)).collect();
    assert_eq!(spares, [("b2", 2), ("f", 1)]);
    assert!(found.left_over.is_empty(), "the second pack of the box is a spare");
    // With the kit 30 + 45 + 3.20 + 9 + 20 for one more pack; one by one 45 + 3.20 + 9 + 60; as listed 45 + 3.20 + 9 + 90.
    assert_eq!(amounts(&[found.above.unwrap(), found.above_listed.unwrap()]), ["-10.00 EUR", "-40.00 EUR"]);
    assert!(explain::money::kit_answer(&found).ends_with("Against the list's own parts the kit is 40.00 EUR cheaper."));
    let besides = explain::money::besides(&found);
    assert_eq!(
        explain::money::singly(&found),
        "1 × F 45.00 EUR, 4 × P 3.20 EUR, 1 × B2 20.00 EUR, spare 2 × B2 40.00 EUR, spare 1 × arm of F 9.00 EUR"
    );
    assert!(besides.contains("1 × F 45.00 EUR") && besides.contains("spare 2 × B2 20.00 EUR"), "{besides}");
}

#[test]
fn what_was_measured_of_the_shelf_counts() {
    let catalogue = catalogue(MICRO, "");
    let list = build(r#"parts: [(slot: Battery, part: "b", count: 2)]"#);
    let measured = |stock: &str| {
        let report = evaluate_with(&catalogue, &list, &Policy::default(), &given(stock));
        let part = report.craft.in_slot(Slot::Battery)[0].subject.part.clone();
        (part.mass_g.map(|mass| mass.to_string()), part.fills[0].get("resistance_mohm").and_then(|value| value.steps()))
    };
    let one = r#"(part: "b", mass_g: 41, resistance_mohm: 22)"#;
    assert_eq!(measured(one), (Some("40 g".to_owned()), Some(20_000)), "only one of two was weighed");
    let two = format!("{one}, (part: \"b\", mass_g: 44, resistance_mohm: 31)");
    assert_eq!(measured(&two), (Some("42.5 g".to_owned()), Some(31_000)));
}

#[test]
fn usual_spares_follow_the_purpose() {
    let catalogue = catalogue(MICRO, "");
    let spares = spare::usual(&Craft::new(&catalogue, &build(CRAFT)));
    let told: Vec<(&str, bool, u32)> = spares.iter().map(|spare| (spare.part.as_str(), spare.arm, spare.count)).collect();
    assert_eq!(told, [("f", true, 1), ("p", false, 8), ("b", false, 3)]);
    assert!(spare::usual(&Craft::new(&catalogue, &build("parts: [(slot: Frame, part: \"f\")]"))).is_empty(), "no purpose");
}

#[test]
fn a_path_carries_the_ground_kit_over() {
    let catalogue = catalogue(MICRO, "");
    let list = build(r#"parts: [(slot: Frame, part: "f"), (slot: Propeller, part: "p", count: 4), (slot: Goggles, part: "g")]"#);
    let stages = [Stage { build: Arc::clone(&list), flown_h: 10 }, Stage { build: list, flown_h: 10 }];
    let course = course(&catalogue, &stages, &Policy::default(), &Given::default(), WEAR);
    let step = |at: usize| amounts(&course.steps[at].bill.total.amounts);
    // Frame 45, a pack of propellers and eight sets broken 9 · 3.20, an arm 9, goggles 95 the first time only.
    assert_eq!((step(0), step(1)), (vec!["177.80 EUR".to_owned()], vec!["82.80 EUR".to_owned()]));
    assert_eq!(amounts(&course.total.amounts), ["260.60 EUR"]);
    let carried: Vec<_> = course.steps[1].carried.iter().map(|(part, count)| (part.id.as_str(), *count)).collect();
    assert_eq!((carried, course.steps[1].flights), (vec![("g", 1)], None));
}
