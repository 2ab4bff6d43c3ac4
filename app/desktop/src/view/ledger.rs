//! The figures along the bottom, each with its change since the last choice.

use propwright_engine::{Report, interval::Interval};
use propwright_schema::quantity::Money;

use super::{
    findings::{OPEN_WORDS, open_counts, span},
    glossary,
};
use crate::widget::ledger::Cell;

/// The figures of a report that are compared from one choice to the next.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Figures {
    /// Mass at take-off.
    pub mass: Option<Interval>,
    /// What is left to pay.
    pub cost: Vec<Money>,
    /// Minutes of calm flight.
    pub calm: Option<Interval>,
    /// Thrust over weight.
    pub thrust_to_weight: Option<Interval>,
    /// How many mismatch, are still to be chosen, are tight, are unstated.
    pub open: [usize; 4],
}

impl Figures {
    /// The figures of a report.
    pub fn of(report: &Report) -> Self {
        Self {
            mass: report.totals.takeoff_mass,
            cost: report.totals.cost.clone(),
            calm: report.figure("time-calm"),
            thrust_to_weight: report.figure("thrust-to-weight"),
            open: open_counts(report),
        }
    }
}

/// What stands for a sum where nothing is listed yet.
pub(super) const NO_PARTS: &str = "no parts yet";

/// The caption of what is left to pay.
pub(super) const PRICE: &str = "Price";

/// The cells of the ledger.
pub fn cells(report: Option<&Report>, before: Option<&Figures>) -> Vec<Cell> {
    let now = report.map(Figures::of).unwrap_or_default();
    let unweighed = report.map_or(0, |report| report.totals.unweighed.len());
    let mut mass = figure_cell("Take-off mass", now.mass, before, |figures| figures.mass);
    if unweighed > 0 {
        mass.band_words = counted(unweighed, "part without mass", "parts without mass");
    }
    let marked = |mut cell: Cell, id| {
        if report.is_some_and(|report| report.rests_on_estimates(id)) {
            cell.band_words.push_str(", by your estimate");
        }
        cell
    };
    let mut cells = vec![
        marked(mass, "takeoff-mass"),
        price_cell(report, before.map(|before| before.cost.as_slice())),
        marked(figure_cell("Calm flight", now.calm, before, |figures| figures.calm), "time-calm"),
        marked(
            figure_cell("Thrust to weight", now.thrust_to_weight, before, |figures| figures.thrust_to_weight),
            "thrust-to-weight",
        ),
        open_cell(report.is_some(), now.open, before.map(|before| before.open)),
    ];
    for cell in &mut cells {
        cell.about = glossary::about(&cell.caption).unwrap_or_default();
    }
    cells
}

/// By how much a sum in its currency is over the budget.
fn over(report: &Report) -> Option<Money> {
    let budget = report.craft.build.purpose.budget?;
    let spent = report.totals.cost.iter().find(|amount| amount.unit() == budget.unit())?;
    spent.minus(budget).filter(|over| over.minor() > 0)
}

fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

fn with_unit(text: &str, symbol: &str) -> String {
    if symbol.is_empty() { text.to_owned() } else { format!("{text} {symbol}") }
}

fn figure_cell(caption: &str, now: Option<Interval>, before: Option<&Figures>, of: fn(&Figures) -> Option<Interval>) -> Cell {
    let Some(figure) = now else {
        return Cell { caption: caption.to_owned(), value: "unknown".to_owned(), ..Cell::default() };
    };
    let digits = digits(&figure);
    let [low, nominal, high] = figure.decimals().map(|figure| format!("{figure:.digits$}"));
    let band = !figure.is_exact();
    Cell {
        caption: caption.to_owned(),
        value: with_unit(&nominal, figure.unit.symbol),
        change: before.map(|before| change(of(before), &figure, digits)),
        band_words: if band { format!("{low}–{high}") } else { String::new() },
        band: band.then(|| span(&figure)),
        about: "",
    }
}

/// Digits behind the point: none that the band makes idle.
fn digits(figure: &Interval) -> usize {
    let [low, _, high] = figure.decimals();
    let half = (high - low) / 2.0;
    match half {
        half if half >= 10.0 || half <= 0.0 => 0,
        half if half >= 0.1 => 1,
        _ => 2,
    }
}

fn change(before: Option<Interval>, now: &Interval, digits: usize) -> String {
    let Some(before) = before else { return "known now".to_owned() };
    let nominal = |figure: Interval| figure.shown_in(now.unit).decimals()[1];
    let (was, is) = (nominal(before), nominal(*now));
    let difference = format!("{:.digits$}", (is - was).abs());
    if difference.parse() == Ok(0.0) {
        return "no change".to_owned();
    }
    with_unit(&format!("{}{difference}", if is < was { "−" } else { "+" }), now.unit.symbol)
}

fn price_cell(report: Option<&Report>, before: Option<&[Money]>) -> Cell {
    let Some(report) = report else { return Cell { caption: PRICE.to_owned(), value: "unknown".to_owned(), ..Cell::default() } };
    let (now, unpriced) = (report.totals.cost.as_slice(), report.totals.unpriced.len());
    let (value, mut words) = sums(now, report.bill.lines.is_empty(), unpriced);
    if let Some(over) = over(report) {
        words.insert(0, format!("{over} over the budget"));
    }
    let change = before.map(|before| cost_change(before, now));
    Cell { caption: PRICE.to_owned(), value, change, band_words: words.join(", "), ..Cell::default() }
}

/// One currency is told large, those of other shops below it with what has no price.
fn sums(now: &[Money], no_lines: bool, unpriced: usize) -> (String, Vec<String>) {
    let (value, others) = match now.split_first() {
        None if unpriced > 0 => ("unknown".to_owned(), &[][..]),
        None if no_lines => (NO_PARTS.to_owned(), &[][..]),
        None => ("nothing to buy".to_owned(), &[][..]),
        Some((first, others)) => (first.to_string(), others),
    };
    let mut words: Vec<String> = others.iter().map(|sum| format!("and {sum}")).collect();
    if unpriced > 0 {
        words.push(counted(unpriced, "part unpriced", "parts unpriced"));
    }
    (value, words)
}

/// Sums of one currency are compared; of several it is only said that they changed.
fn cost_change(before: &[Money], now: &[Money]) -> String {
    if before == now {
        return "no change".to_owned();
    }
    let (was, is) = match (before, now) {
        ([was], [is]) if was.currency() == is.currency() => (was.minor(), *is),
        ([], [is]) => (0, *is),
        _ => return "changed".to_owned(),
    };
    let difference = is.minor() - was;
    let amount = Money::from_minor(difference.abs(), is.currency()).map(Money::amount).unwrap_or_default();
    format!("{}{amount}", if difference < 0 { "−" } else { "+" })
}

fn open_cell(known: bool, now: [usize; 4], before: Option<[usize; 4]>) -> Cell {
    let said = now.iter().zip(OPEN_WORDS).filter(|(count, _)| **count > 0);
    let mut words = said.map(|(count, [one, more])| format!("{count} {}", if *count == 1 { one } else { more }));
    let value = match words.next() {
        _ if !known => "unknown".to_owned(),
        Some(gravest) => gravest,
        None => "all fits".to_owned(),
    };
    let band_words = words.collect::<Vec<_>>().join(", ");
    Cell {
        caption: "Open".to_owned(),
        value,
        change: before.map(|before| open_change(before, now)),
        band_words,
        ..Cell::default()
    }
}

/// Against the gravest kind that changed.
fn open_change(before: [usize; 4], now: [usize; 4]) -> String {
    match before.iter().zip(now).find(|(was, is)| **was != *is) {
        None => "no change".to_owned(),
        Some((was, is)) if is > *was => format!("+{}", is - was),
        Some((was, is)) => format!("−{}", was - is),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use propwright_schema::quantity::{G, Unit};

    fn grams(low: i64, nominal: i64, high: i64) -> Interval {
        Interval { low: low * 1000, nominal: nominal * 1000, high: high * 1000, unit: &G::INFO }
    }

    #[test]
    fn a_figure_says_its_change_and_its_band() {
        let before = Figures { mass: Some(grams(685, 699, 728)), ..Figures::default() };
        let cell = figure_cell("Take-off mass", Some(grams(688, 702, 731)), Some(&before), |figures| figures.mass);
        assert_eq!((cell.value.as_str(), cell.change.as_deref()), ("702 g", Some("+3 g")));
        assert_eq!(cell.band_words, "688–731");
        let cell = figure_cell("Take-off mass", None, None, |figures| figures.mass);
        assert_eq!((cell.value.as_str(), cell.change), ("unknown", None));
    }

    #[test]
    fn a_second_currency_stands_below_the_first() {
        let sums = ["968.40 EUR", "98.00 GBP"].map(|sum| sum.parse().unwrap());
        let (value, words) = super::sums(&sums, false, 1);
        assert_eq!((value.as_str(), words.join(", ").as_str()), ("968.40 EUR", "and 98.00 GBP, 1 part unpriced"));
        assert_eq!(super::sums(&[], false, 0).0, "nothing to buy");
        assert_eq!(super::sums(&[], true, 0).0, NO_PARTS);
        assert_eq!(price_cell(None, None).value, "unknown");
    }

    #[test]
    fn amounts_of_two_currencies_are_not_subtracted() {
        let euro = |minor| Money::from_minor(minor, "EUR").unwrap();
        let pound = Money::from_minor(100, "GBP").unwrap();
        assert_eq!(cost_change(&[euro(37_050)], &[euro(38_950)]), "+19.00");
        assert_eq!(cost_change(&[euro(38_950)], &[euro(37_050)]), "−19.00");
        assert_eq!(cost_change(&[euro(100)], &[pound]), "changed");
        assert_eq!(cost_change(&[euro(100)], &[euro(100)]), "no change");
    }

    #[test]
    fn the_gravest_kind_stands_first() {
        let cell = open_cell(true, [1, 0, 1, 2], Some([2, 0, 1, 2]));
        assert_eq!((cell.value.as_str(), cell.band_words.as_str()), ("1 mismatch", "1 tight, 2 unstated"));
        assert_eq!(cell.change.as_deref(), Some("−1"));
        assert_eq!(open_cell(true, [0, 12, 0, 0], None).value, "12 to choose");
        assert_eq!(open_cell(true, [0; 4], None).value, "all fits");
        assert_eq!(open_cell(false, [0; 4], None).value, "unknown");
    }
}
