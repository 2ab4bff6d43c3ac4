//! The parts of DEVELOPERS.md and README.md that are generated from the program itself.

use std::fmt::Write;

use propwright_engine::{policy, rules, thresholds};

/// A table and the name of the place where it stands, `<!-- generated: NAME -->` to `<!-- end: NAME -->`.
pub struct Generated {
    /// Name of the place.
    pub name: &'static str,
    /// Its text.
    pub text: String,
}

/// The generated parts of a document by its name.
pub fn of(document: &str) -> Vec<Generated> {
    if document == "README.md" {
        return vec![Generated { name: "classes", text: crate::class_table::table() }];
    }

    vec![Generated { name: "rules", text: rule_table() }, Generated { name: "thresholds", text: threshold_table() }]
}

fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}

fn rule_table() -> String {
    let mut out = format!(
        "{} rules.\n\n| rule | weight | joins | formula | thresholds | source |\n|---|---|---|---|---|---|\n",
        rules::ALL.len()
    );
    for rule in rules::ALL {
        let slots: Vec<&str> = rule.slots.iter().map(|slot| slot.word()).collect();
        let (id, formula, source) = (rule.id, cell(rule.formula), cell(rule.source));
        let weight = format!("{} {}", rule.group.word(), format!("{:?}", rule.weight).to_lowercase());
        let limits: Vec<String> = thresholds::of_rule(rule).iter().map(|name| format!("`{name}`")).collect();
        let (title, slots, limits) = (cell(rule.title), slots.join(", "), limits.join(", "));
        let _ = writeln!(out, "| `{id}` {title} | {weight} | {slots} | {formula} | {limits} | {source} |");
    }
    out
}

fn threshold_table() -> String {
    let mut out = "| threshold | what it limits | tight | mismatch | unit | source |\n|---|---|---|---|---|---|\n".to_owned();
    for limit in policy::ALL {
        let figure = |value: Option<f64>| value.map_or_else(|| "–".to_owned(), |value| value.to_string());
        let (tight, mismatch) = (figure(limit.tight), figure(limit.mismatch));
        let (about, unit, source) = (cell(limit.about.trim()), limit.unit.symbol, cell(limit.source));
        let _ = writeln!(out, "| `{}` | {about} | {tight} | {mismatch} | {unit} | {source} |", limit.name);
    }
    out
}

/// The document of a name with all its generated parts brought up to date.
///
/// # Errors
/// The name of a part whose place the document lacks.
pub fn refreshed(name: &str, document: &str) -> Result<String, &'static str> {
    let mut text = document.to_owned();
    for part in of(name) {
        let (open, close) = (format!("<!-- generated: {} -->\n", part.name), format!("<!-- end: {} -->", part.name));
        let from = text.find(&open).ok_or(part.name)? + open.len();
        let to = from + text[from..].find(&close).ok_or(part.name)?;
        text.replace_range(from..to, &format!("\n{}\n", part.text));
    }
    Ok(text)
}
