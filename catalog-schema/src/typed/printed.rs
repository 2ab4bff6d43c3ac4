//! Figures as shop pages and labels print them: with signs and words around the number, several in one, or within the name.
//!
//! How the trade writes them: common practice, no source.

use std::borrow::Cow;

use super::read;
use crate::{
    part::Thread,
    validate::{Remark, highest_of},
    value::{Field, Kind, Value},
};

/// Fields of whole numbers by the end of their names, with what is printed before or behind the number.
const AROUND: &[(&str, &[&str])] = &[
    ("poles", &["poles", "magnets", "p"]),
    ("_awg", &["awg", "#"]),
    ("cells", &["cells", "cell", "s"]),
    ("cells_min", &["cells", "cell", "s"]),
    ("cells_max", &["cells", "cell", "s"]),
    ("parallel", &["p"]),
    ("pieces", &["pieces", "pcs", "pc", "pack of", "set of"]),
    ("blades", &["blades", "blade"]),
    ("count", &["pieces", "pcs", "pc"]),
];

/// The bare figure: `M5` and `Ø5` of a shaft are 5, `12N14P` of a motor are 14 poles, `20 AWG`, `6S`.
pub(super) fn bare<'t>(text: &'t str, field: &Field) -> Cow<'t, str> {
    let text = text.trim();
    if field.name.ends_with("_mm") || field.name.ends_with("_in") {
        let bare = text.trim_start_matches(['Ø', 'ø', '⌀']).trim_start();
        let threaded = matches!(field.name, "shaft_mm" | "bore_mm");
        return bare.strip_prefix(['M', 'm']).filter(|rest| threaded && starts_with_digit(rest)).unwrap_or(bare).into();
    }
    let Some((_, words)) = AROUND.iter().find(|(ending, _)| field.name.ends_with(ending)) else { return text.into() };
    let small = text.to_lowercase();
    let teeth = small.split_once('n').filter(|(teeth, _)| field.name == "poles" && is_whole(teeth));
    let mut bare = teeth.map_or(small.as_str(), |(_, poles)| poles).trim();
    for word in *words {
        bare = bare.strip_suffix(word).or_else(|| bare.strip_prefix(word)).unwrap_or(bare).trim();
    }
    if is_whole(bare) { bare.to_owned().into() } else { text.into() }
}

fn starts_with_digit(text: &str) -> bool {
    text.starts_with(|letter: char| letter.is_ascii_digit())
}

fn is_whole(text: &str) -> bool {
    !text.is_empty() && text.chars().all(|letter| letter.is_ascii_digit())
}

/// What a text says of its field and of those that pages print together with it; blank places are emptied.
pub type Several = Vec<(&'static str, Option<Value>)>;

/// The field that is printed together with another one as a range: `4-6S`, `7–26 V`.
///
/// ```
/// use propwright_schema::{part::Role, typed::upper_end};
/// let motor = Role::of_kind("motor").unwrap();
/// let field = |name: &str| motor.fields().iter().find(|field| field.name == name).unwrap();
/// assert_eq!(upper_end(field("cells_min"), motor.fields()), Some(field("cells_max")));
/// assert_eq!(upper_end(field("cells_max"), motor.fields()), None);
/// ```
pub fn upper_end(field: &Field, all: &'static [Field]) -> Option<&'static Field> {
    // Other lower ends are printed apart from the upper one.
    let upper = highest_of(field.name).filter(|_| ["cells_min", "supply_min_v"].contains(&field.name))?;
    all.iter().find(|other| other.name == upper)
}

/// What was typed into a field, with all that it says of its neighbours: both ends of a range, the seconds of a burst, the thread
/// of a hole pattern, the length of leads.
///
/// ```
/// use propwright_schema::{part::Role, typed::{range_shown, read_several}, value::Value};
/// let motor = Role::of_kind("motor").unwrap();
/// let read = |name: &str, text: &str| {
///     let field = motor.fields().iter().find(|field| field.name == name).unwrap();
///     read_several(text, field, motor.fields()).unwrap()
/// };
/// let four_to_six = [("cells_min", Some(Value::Count(4))), ("cells_max", Some(Value::Count(6)))];
/// assert_eq!(read("cells_min", "4-6S"), four_to_six);
/// assert_eq!(read("pattern", "16×16 mm, M3")[1], ("thread", Some(Value::Word("M3".to_owned()))));
/// assert_eq!(read("current_burst_a", "42 A (10 s)")[1].0, "burst_s");
/// assert_eq!(read("cells_min", "4-6S LiPo"), four_to_six);
/// ```
///
/// # Errors
/// What is wrong with the text, and what to do about it.
pub fn read_several(text: &str, field: &'static Field, all: &'static [Field]) -> Result<Several, Remark> {
    let as_typed = read_together(text, field, all);
    let bare = without_remarks(text);
    if as_typed.is_ok() || !matches!(field.kind, Kind::Number(_) | Kind::Count) || bare.is_empty() || bare == text {
        return as_typed;
    }
    read_together(&bare, field, all).or(as_typed)
}

/// A figure without what pages add to it: `5 mm (hollow steel)`, `33.4 g incl. wire`, `4-6S LiPo`, `20AWG silicone, 150 mm`.
fn without_remarks(text: &str) -> String {
    let material = |word: &&str| {
        let word = word.trim_matches(|letter: char| !letter.is_alphanumeric() && letter != '-').to_lowercase();
        ["silicone", "lipo", "li-ion", "battery", "batteries", "steel", "cells"].contains(&word.as_str())
    };
    // What stands behind a comma stays apart though the word before it goes.
    let words = text.split(' ').map(|word| if material(&word) { if word.ends_with(',') { "," } else { "" } } else { word });
    let kept = words.filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ").replace(" ,", ",");
    let end = [" (", " incl", " with"].iter().filter_map(|lead| kept.find(lead)).min().unwrap_or(kept.len());
    kept[..end].trim_end_matches([',', ' ']).to_owned()
}

fn read_together(text: &str, field: &'static Field, all: &'static [Field]) -> Result<Several, Remark> {
    let find = |name: &str| all.iter().find(|other| other.name == name);
    if let Some(upper) = upper_end(field, all) {
        let [low, high] = range(text, field, upper)?;
        return Ok(vec![(field.name, low), (upper.name, high)]);
    }
    if let (true, Some(seconds)) = (matches!(field.name, "current_burst_a" | "burst_c_rate"), find("burst_s"))
        && let Some((figure, time)) = burst(text)
    {
        return Ok(vec![(field.name, read(figure, field)?), (seconds.name, read(time, seconds)?)]);
    }
    if let (true, Some(thread)) = (field.name == "pattern", find("thread"))
        && let Some((holes, screw)) = holes_and_thread(text)
    {
        return Ok(vec![(field.name, read(holes, field)?), (thread.name, read(screw, thread)?)]);
    }
    if let (true, Some(length)) = (field.name == "lead_awg", find("lead_length_mm"))
        && let Some((gauge, rest)) = text.split_once([',', '/']).or_else(|| text.trim().split_once("AWG "))
        && starts_with_digit(rest.trim())
    {
        return Ok(vec![(field.name, read(gauge, field)?), (length.name, read(rest, length)?)]);
    }
    Ok(vec![(field.name, read(text, field)?)])
}

/// Both ends of a range; one figure alone is both.
fn range(text: &str, low: &Field, high: &Field) -> Result<[Option<Value>; 2], Remark> {
    let text = text.trim();
    let small = text.to_lowercase();
    for word in ["up to", "max", "≤", "<"] {
        if let Some(rest) = small.strip_prefix(word) {
            return Ok([None, read(&text[text.len() - rest.len()..], high)?]);
        }
    }
    for word in ["from", "min", "≥"] {
        if let Some(rest) = small.strip_prefix(word) {
            return Ok([read(&text[text.len() - rest.len()..], low)?, None]);
        }
    }
    let parts: Vec<&str> = text.split(['-', '–', '—', '~', '…']).flat_map(|part| part.split(" to ")).map(str::trim).collect();
    match parts.as_slice() {
        [one] => Ok([read(one, low)?, read(one, high)?]),
        [from, to] => {
            // "7–26 V": the unit behind the second holds for both.
            let unit = to.trim_start_matches(|letter: char| letter.is_ascii_digit() || ".,".contains(letter));
            let from = if from.ends_with(|letter: char| letter.is_ascii_digit()) {
                format!("{from} {unit}")
            } else {
                (*from).to_owned()
            };
            Ok([read(&from, low)?, read(to, high)?])
        }
        _ => Err(Remark {
            reason: format!("{text:?} is no range"),
            hint: "write both ends, such as 4-6, or one figure where there is but one".to_owned(),
        }),
    }
}

/// A range as it is typed.
pub fn range_shown(low: Option<&Value>, high: Option<&Value>) -> String {
    match (low.map(super::shown), high.map(super::shown)) {
        (Some(low), Some(high)) if low == high => low,
        (Some(low), Some(high)) => format!("{low}-{high}"),
        (Some(low), None) => format!("from {low}"),
        (None, Some(high)) => format!("up to {high}"),
        (None, None) => String::new(),
    }
}

/// Figure and seconds of `42A/10s`, `42 A (10 s)`, `42 A for 10 s`, `42 A 10 s`.
fn burst(text: &str) -> Option<(&str, &str)> {
    let text = text.trim().trim_end_matches(')');
    let at = text.find(['/', '(']).or_else(|| text.find(" for ")).or_else(|| {
        let end = text.trim_end_matches(|letter: char| letter.is_ascii_alphabetic() || letter == ' ');
        end.rfind(' ').filter(|_| text.ends_with('s'))
    })?;
    let (figure, time) = text.split_at(at);
    let time = time.trim_start_matches(['/', '(', ' ']).trim_start_matches("for").trim();
    starts_with_digit(time).then_some((figure, time))
}

/// Pattern and thread of `16×16 mm, M3`.
fn holes_and_thread(text: &str) -> Option<(&str, &str)> {
    let at = text.char_indices().find(|(at, letter)| matches!(letter, 'M' | 'm') && starts_with_digit(&text[at + 1..]))?.0;
    let (holes, screw) = text.split_at(at);
    let word = screw.trim().trim_end_matches(')').trim();
    let known = Thread::ALL.iter().any(|thread| thread.word().eq_ignore_ascii_case(word));
    known.then(|| (holes.trim().trim_end_matches([',', '/', '(', ' ']), word))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::part::Role;

    fn several(kind: &str, name: &str, text: &str) -> Result<Vec<(&'static str, String)>, Remark> {
        let role = Role::of_kind(kind).unwrap();
        let field = role.fields().iter().find(|field| field.name == name).unwrap();
        let read = read_several(text, field, role.fields())?;
        Ok(read.into_iter().map(|(name, value)| (name, value.as_ref().map(crate::typed::shown).unwrap_or_default())).collect())
    }

    #[test]
    fn figures_are_read_as_pages_print_them() {
        for (kind, name, text, shown) in [
            ("motor", "shaft_mm", "M5", "5"),
            ("motor", "shaft_mm", "Ø 5 mm", "5"),
            ("motor", "poles", "12N14P", "14"),
            ("motor", "lead_awg", "20AWG", "20"),
            ("motor", "kv_rpm_per_v", "1820KV", "1820"),
            ("motor", "kv_rpm_per_v", "1820 kv", "1820"),
            ("pack", "cells", "6S", "6"),
            ("pack", "parallel", "2P", "2"),
            ("propeller", "blades", "3 blades", "3"),
            ("pack", "discharge_c_rate", "100C", "100"),
        ] {
            assert_eq!(several(kind, name, text).unwrap(), [(name, shown.to_owned())], "{text}");
        }
        assert!(several("motor", "poles", "12N").is_err() && several("pack", "cells", "6S2P").is_err());
    }

    #[test]
    fn what_pages_add_to_a_figure_is_left_out() {
        for (name, text, shown) in [
            ("shaft_mm", "5 mm (M5 thread, hollow steel)", vec![("shaft_mm", "5")]),
            ("cells_min", "4-6S LiPo", vec![("cells_min", "4"), ("cells_max", "6")]),
            ("lead_awg", "20AWG silicone, 150 mm", vec![("lead_awg", "20"), ("lead_length_mm", "150")]),
            ("current_burst_a", "42 A (10 s)", vec![("current_burst_a", "42"), ("burst_s", "10")]),
        ] {
            let expected: Vec<(&str, String)> = shown.into_iter().map(|(name, figure)| (name, figure.to_owned())).collect();
            assert_eq!(several("motor", name, text).unwrap(), expected, "{text}");
        }
        assert_eq!(without_remarks("33.4 g incl. 150 mm wire"), "33.4 g");
        assert!(several("motor", "poles", "LiPo").is_err() && several("motor", "shaft_mm", "(M5)").is_err());
    }

    #[test]
    fn ranges_have_two_ends_or_say_which() {
        let ends = |low: &str, high: &str| [("cells_min", low.to_owned()), ("cells_max", high.to_owned())];
        for (text, low, high) in [
            ("4-6S", "4", "6"),
            ("4S – 6S", "4", "6"),
            ("4 to 6", "4", "6"),
            ("6S", "6", "6"),
            ("up to 6S", "", "6"),
            ("from 4", "4", ""),
            ("", "", ""),
        ] {
            assert_eq!(several("motor", "cells_min", text).unwrap(), ends(low, high), "{text}");
        }
        let volts = several("camera", "supply_min_v", "7–26 V").unwrap();
        assert_eq!(volts, [("supply_min_v", "7".to_owned()), ("supply_max_v", "26".to_owned())]);
        assert!(several("motor", "cells_min", "4-5-6S").is_err() && several("motor", "cells_min", "six").is_err());
        for text in ["4-6", "6", "up to 6", "from 4", ""] {
            let read = several("motor", "cells_min", text).unwrap();
            let count = |at: usize| read[at].1.parse().ok().map(Value::Count);
            assert_eq!(range_shown(count(0).as_ref(), count(1).as_ref()), text);
        }
    }

    #[test]
    fn a_burst_may_say_its_seconds_and_a_pattern_its_thread() {
        let both = [("current_burst_a", "42".to_owned()), ("burst_s", "10".to_owned())];
        for text in ["42A/10s", "42 A (10 s)", "42 A for 10 s", "42 A 10 s", "42 (10s)"] {
            assert_eq!(several("motor", "current_burst_a", text).unwrap(), both, "{text}");
        }
        assert_eq!(several("motor", "current_burst_a", "42 A").unwrap(), [both[0].clone()]);
        let both = [("pattern", "16x16".to_owned()), ("thread", "M3".to_owned())];
        for text in ["16x16 M3", "16 × 16 mm, M3", "16mm m3", "16×16mm (M3)"] {
            assert_eq!(several("motor", "pattern", text).unwrap(), both, "{text}");
        }
        assert_eq!(several("motor", "pattern", "16x16 mm").unwrap(), [both[0].clone()]);
        let both = [("lead_awg", "20".to_owned()), ("lead_length_mm", "150".to_owned())];
        for text in ["20AWG, 150 mm", "20 AWG / 15 cm", "20AWG 150mm", "20, 150"] {
            assert_eq!(several("motor", "lead_awg", text).unwrap(), both, "{text}");
        }
        assert_eq!(several("motor", "lead_awg", "20 AWG").unwrap(), [both[0].clone()]);
    }
}
