//! Figures against the plausible ranges of their descriptions.

use super::{Issue, LONGEST_NAME, Step, text_issue};
use crate::{
    description,
    quantity::UnitInfo,
    value::{Field, Kind, Value},
};

/// What is wrong with the fields of a record.
pub(super) fn described(fields: &'static [Field], get: impl Fn(&str) -> Option<Value>) -> Vec<Issue> {
    let mut issues = Vec::new();
    for field in fields {
        let Some(value) = get(field.name) else { continue };
        issues.extend(value_issues(field.name, field.kind, field.plausible, &value));
        if let Some(issue) = highest_of(field.name).and_then(|most| pair_issue(field.name, &value, &most, &get(&most)?)) {
            issues.push(issue);
        }
    }
    issues
}

/// What is wrong with the value of one field.
pub(super) fn value_issues(name: &str, kind: Kind, plausible: Option<(f64, f64)>, value: &Value) -> Vec<Issue> {
    let issue = match value {
        Value::Number { steps, unit } => plausible.and_then(|range| number_issue(*steps, unit, range)),
        Value::Count(count) => plausible.and_then(|range| count_issue(*count, range)),
        Value::Flag(_) => None,
        Value::Word(word) => {
            matches!(kind, Kind::Word | Kind::List(Kind::Word)).then(|| text_issue(word, LONGEST_NAME)).flatten()
        }
        Value::List(items) => {
            let each = items.iter().enumerate().flat_map(|(at, item)| {
                value_issues(name, kind, plausible, item)
                    .into_iter()
                    .map(move |issue| Issue { path: moved(issue.path, at), ..issue })
            });
            return each.collect();
        }
        Value::Record(_) => {
            let inner = described(description::inner_of(kind), |field| value.field(field).cloned());
            return inner.into_iter().map(|issue| issue.key(name)).collect();
        }
    };
    issue.map(|issue| issue.key(name)).into_iter().collect()
}

/// The way behind the field's own key, through the item of its list.
fn moved(mut path: Vec<Step>, item: usize) -> Vec<Step> {
    path.insert(1.min(path.len()), Step::Item(item));
    path
}

fn number_issue(steps: i64, unit: &UnitInfo, range: (f64, f64)) -> Option<Issue> {
    let (low, high) = range;
    let figure = unit.decimal(steps);
    if (low..=high).contains(&figure) {
        return None;
    }
    let symbol = unit.symbol;
    let reason = format!("{figure} {symbol} is not plausible; expected {low} to {high} {symbol}");
    let hint = match slip(figure, unit, range) {
        Some(meant) => format!("did you mean {}?", meant.said),
        None => "check the figure and its unit; leave the field out when nobody published it".to_owned(),
    };
    Some(Issue::new(reason, hint))
}

fn count_issue(count: i64, (low, high): (f64, f64)) -> Option<Issue> {
    let reason = format!("{count} is not plausible; expected {low} to {high}");
    let hint = "check the number; leave the field out when nobody published it";
    (!(low..=high).contains(&(count as f64))).then(|| Issue::new(reason, hint))
}

/// A figure that was probably meant.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Slip {
    /// In the unit of the field.
    pub(crate) figure: f64,
    /// In words, as it was probably written down: "22 mm", "0.87 in (22.098 mm)".
    pub(crate) said: String,
}

/// The figure that was probably meant: a slip of the sign, of a thousand, of inches and millimetres, of a share written without
/// its hundred, or of the decimal point; the first that is plausible. `None` for a figure that is itself plausible, and where no
/// other reading makes a round figure.
pub(crate) fn slip(figure: f64, unit: &UnitInfo, (low, high): (f64, f64)) -> Option<Slip> {
    let steps = unit.steps as f64;
    let kept = |figure: &f64| (low..=high).contains(figure) && figure.abs() > 0.0;
    let exact = |figure: f64| ((figure * steps).round() - figure * steps).abs() < 1e-6;
    if kept(&figure) && exact(figure) {
        return None;
    }
    let rounded = |figure: f64| (figure * steps).round() / steps;
    let by = |factors: &[f64]| {
        let meant = factors.iter().map(|factor| figure * factor).find(|meant| kept(meant) && exact(*meant)).map(rounded)?;
        Some(Slip { figure: meant, said: format!("{meant} {}", unit.symbol) })
    };
    // Whoever writes down inches or millimetres rounds them there.
    let round = ((figure * 1000.0).round() - figure * 1000.0).abs() < 1e-6;
    let as_length = || {
        let (factor, typed) = match unit.symbol {
            "mm" => (25.4, "in"),
            "in" => (1.0 / 25.4, "mm"),
            _ => return None,
        };
        let meant = rounded(figure * factor);
        let said = || format!("{figure} {typed} ({} {})", (meant * 1000.0).round() / 1000.0, unit.symbol);
        (round && kept(&meant)).then(|| Slip { figure: meant, said: said() })
    };
    let as_share = || if unit.dimension == "share" { by(&[100.0]) } else { None };
    by(&[-1.0, 1000.0, 0.001]).or_else(as_length).or_else(as_share).or_else(|| by(&[10.0, 0.1]))
}

/// The name of the field that holds the upper end of what `name` holds the lower end of.
pub(crate) fn highest_of(name: &str) -> Option<String> {
    if name.contains("_min") {
        Some(name.replace("_min", "_max"))
    } else {
        name.strip_prefix("lowest_").map(|rest| format!("highest_{rest}"))
    }
}

fn pair_issue(name: &str, least: &Value, most_name: &str, most: &Value) -> Option<Issue> {
    let (Some(low), Some(high)) = (least.steps(), most.steps()) else { return None };
    let shown = |value: &Value| match value {
        Value::Number { steps, unit } => format!("{} {}", unit.decimal(*steps), unit.symbol),
        other => other.steps().unwrap_or_default().to_string(),
    };
    let reason = format!("{} is above {most_name}, {}", shown(least), shown(most));
    (low > high).then(|| Issue::new(reason, "the two may be exchanged").key(name))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{G, In, Mm, Pct, Unit};

    #[test]
    fn names_the_probable_slip() {
        let said = |figure: f64, unit: &UnitInfo, range: (f64, f64)| slip(figure, unit, range).map(|slip| slip.said);
        assert_eq!(said(0.0319, &G::INFO, (1.0, 500.0)).as_deref(), Some("31.9 g"));
        assert_eq!(said(-31.9, &G::INFO, (1.0, 500.0)).as_deref(), Some("31.9 g"));
        assert_eq!(said(31_900.0, &G::INFO, (1.0, 500.0)).as_deref(), Some("31.9 g"));
        assert_eq!(said(0.8, &Pct::INFO, (20.0, 100.0)).as_deref(), Some("80 %"));
        assert_eq!(said(319.0, &G::INFO, (10.0, 50.0)).as_deref(), Some("31.9 g"));
        // International inch, 25.4 mm.
        assert_eq!(said(5.0, &Mm::INFO, (100.0, 300.0)).as_deref(), Some("5 in (127 mm)"));
        assert_eq!(slip(5.0, &Mm::INFO, (100.0, 300.0)).map(|slip| slip.figure), Some(127.0));
        assert_eq!(said(129.5, &In::INFO, (0.8, 40.0)).as_deref(), Some("129.5 mm (5.098 in)"));
        // A figure in millimetres is no inches turned the wrong way round.
        assert_eq!(said(220.0, &Mm::INFO, (5.0, 120.0)).as_deref(), Some("22 mm"));
        assert_eq!(said(2.345_67, &Mm::INFO, (50.0, 60.0)), None, "no round figure in any unit");
        assert_eq!(slip(1e12, &G::INFO, (1.0, 500.0)), None);
        assert_eq!(slip(0.0, &G::INFO, (1.0, 500.0)), None);
    }

    #[test]
    fn both_ends_of_a_range_are_plausible() {
        let range = (0.005, 30_000.0);
        for (steps, fine) in [(4, false), (5, true), (30_000_000, true), (30_000_001, false), (-5, false), (0, false)] {
            assert_eq!(number_issue(steps, &G::INFO, range).is_none(), fine, "{steps} mg");
        }
        for (count, fine) in [(0, false), (1, true), (24, true), (25, false)] {
            assert_eq!(count_issue(count, (1.0, 24.0)).is_none(), fine, "{count}");
        }
    }
}
