//! What the name of a part says of it: `2306 1820KV`, `5.1x4.3x3`, `6S 1300mAh 100C`.
//!
//! How the trade names motors, propellers and packs: common practice, no source.

use crate::value::Field;

/// What a name says of the fields of a kind, as text to be typed there. Nothing where the name leaves it open.
///
/// ```
/// use propwright_schema::typed::said_by_name;
/// let said = said_by_name("motor", "Quernby Moorhen 2306 1820KV");
/// assert_eq!(said, [
///     ("stator_diameter_mm", "23".to_owned()), ("stator_height_mm", "6".to_owned()), ("kv_rpm_per_v", "1820".to_owned()),
/// ]);
/// ```
pub fn said_by_name(kind: &str, name: &str) -> Vec<(&'static str, String)> {
    let words = words(name);
    match kind {
        "motor" => motor(&words),
        "propeller" => propeller(name, &words),
        "pack" => pack(&words),
        "speed controller" => figure(&words, "a").map(|amperes| ("current_a", amperes)).into_iter().collect(),
        _ => Vec::new(),
    }
}

/// Does the name say what stands in a field?
pub fn is_said_by_name(kind: &str, name: &str, field: &Field, shown: &str) -> bool {
    said_by_name(kind, name).iter().any(|(known, text)| *known == field.name && text == shown)
}

/// Words in small letters, a number parted from the letters behind it.
fn words(name: &str) -> Vec<(String, String)> {
    let split = |word: &str| {
        let end = word.find(|letter: char| !(letter.is_ascii_digit() || letter == '.')).unwrap_or(word.len());
        (word[..end].to_owned(), word[end..].to_lowercase())
    };
    let is_between = |letter: char| letter.is_whitespace() || "/,;()-_".contains(letter);
    name.split(is_between).filter(|word| !word.is_empty()).map(split).collect()
}

/// The number before a unit: `1820KV` or `1820 KV`.
fn figure(words: &[(String, String)], unit: &str) -> Option<String> {
    let next = |at: usize| words.get(at + 1).map(|(number, letters)| (number.as_str(), letters.as_str()));
    let is_it = |at: &usize| {
        let (number, letters) = &words[*at];
        !number.is_empty() && (letters == unit || letters.is_empty() && next(*at) == Some(("", unit)))
    };
    (0..words.len()).find(is_it).map(|at| words[at].0.clone())
}

fn motor(words: &[(String, String)]) -> Vec<(&'static str, String)> {
    let kv = figure(words, "kv");
    // Four digits: the core is so many millimetres across and so many high; a half may stand behind.
    let size = |(number, letters): &&(String, String)| {
        let (whole, half) = number.split_once('.').unwrap_or((number, ""));
        letters.is_empty() && whole.len() == 4 && half.len() <= 1 && Some(number) != kv.as_ref()
    };
    let mut sizes = words.iter().filter(size);
    let mut said = Vec::new();
    if let (Some((number, _)), None) = (sizes.next(), sizes.next()) {
        let (across, high) = number.split_at(2);
        let bare = |digits: &str| digits.trim_start_matches('0').to_owned();
        said.extend([("stator_diameter_mm", bare(across)), ("stator_height_mm", bare(high))]);
        said.retain(|(_, text)| !text.is_empty() && !text.starts_with('.'));
    }
    said.extend(kv.map(|kv| ("kv_rpm_per_v", kv)));
    said
}

fn propeller(name: &str, words: &[(String, String)]) -> Vec<(&'static str, String)> {
    let joined = name.to_lowercase().replace(['×', '*'], "x").replace(" x ", "x");
    let mut said = Vec::new();
    let is_size = |word: &&str| {
        let parts: Vec<&str> = word.split('x').collect();
        (2..=3).contains(&parts.len()) && parts.iter().all(|part| part.parse::<f64>().is_ok())
    };
    if let Some(size) = joined.split([' ', ',', ';', '(', ')']).find(is_size) {
        let figures: Vec<f64> = size.split('x').filter_map(|part| part.parse().ok()).collect();
        // "51x43x3" is 5.1 by 4.3 in without its points: no propeller here is 51 in across with such a pitch.
        let tenth = if figures[0] > 40.0 && figures[1] > 30.0 { 10.0 } else { 1.0 };
        said.extend(
            [("diameter_in", figures[0] / tenth), ("pitch_in", figures[1] / tenth)]
                .map(|(field, figure)| (field, figure.to_string())),
        );
        said.extend(figures.get(2).filter(|blades| blades.fract() == 0.0).map(|blades| ("blades", blades.to_string())));
    }
    let counted = || figure(words, "blade").or_else(|| figure(words, "blades"));
    let named = || {
        let has = |start: &str| words.iter().any(|(_, letters)| letters.starts_with(start));
        [("tri", "3"), ("bi", "2"), ("two", "2"), ("three", "3"), ("quad", "4")]
            .into_iter()
            .find(|(start, _)| has(&format!("{start}blade")))
            .map(|(_, blades)| blades.to_owned())
    };
    if !said.iter().any(|(field, _)| *field == "blades") {
        said.extend(counted().or_else(named).map(|blades| ("blades", blades)));
    }
    said
}

fn pack(words: &[(String, String)]) -> Vec<(&'static str, String)> {
    let joined = |(number, letters): &(String, String)| {
        // "6S2P" is one word.
        let (cells, parallel) = (number, letters.strip_prefix('s')?);
        let parallel = parallel.strip_suffix('p').filter(|count| count.parse::<u32>().is_ok());
        Some((cells.clone(), parallel?.to_owned()))
    };
    let both = words.iter().find_map(joined);
    let cells = both.as_ref().map(|(cells, _)| cells.clone()).or_else(|| figure(words, "s"));
    let chemistry = words.iter().find_map(|(_, letters)| match letters.as_str() {
        "lipo" => Some("LiPo"),
        "lihv" => Some("LiHV"),
        "liion" => Some("Li-ion"),
        _ => None,
    });
    let said = [
        ("chemistry", chemistry.map(str::to_owned)),
        ("cells", cells),
        ("parallel", both.map(|(_, parallel)| parallel)),
        ("capacity_mah", figure(words, "mah")),
        ("discharge_c_rate", figure(words, "c")),
    ];
    said.into_iter().filter_map(|(field, text)| Some((field, text?))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(kind: &str, name: &str) -> String {
        let said = said_by_name(kind, name).into_iter().map(|(field, text)| format!("{field} {text}"));
        said.collect::<Vec<_>>().join(", ")
    }

    #[test]
    fn a_motor_is_named_by_its_stator_and_its_kv() {
        let full = "stator_diameter_mm 23, stator_height_mm 6, kv_rpm_per_v 1820";
        for name in ["2306 1820KV", "Moorhen 2306 1820 KV", "Moorhen-2306-1820kv", "Moorhen 2306, 1820KV (black)"] {
            assert_eq!(said("motor", name), full, "{name}");
        }
        assert_eq!(said("motor", "2207.5 1950KV"), "stator_diameter_mm 22, stator_height_mm 7.5, kv_rpm_per_v 1950");
        assert_eq!(said("motor", "0802 22000KV"), "stator_diameter_mm 8, stator_height_mm 2, kv_rpm_per_v 22000");
        // What could be two sizes is none; so is a bare KV.
        assert_eq!(said("motor", "2207 2306"), "");
        assert_eq!(said("motor", "Moorhen 1820 KV"), "kv_rpm_per_v 1820");
        assert_eq!(said("motor", "Moorhen Mk 2"), "");
    }

    #[test]
    fn a_propeller_is_named_by_diameter_pitch_and_blades() {
        for name in
            ["Skerry 5.1x4.3x3", "Skerry 5.1 x 4.3 x 3", "Skerry 51x43x3", "Skerry 5.1×4.3 3-blade", "Skerry 5.1x4.3 triblade"]
        {
            assert_eq!(said("propeller", name), "diameter_in 5.1, pitch_in 4.3, blades 3", "{name}");
        }
        assert_eq!(said("propeller", "Skerry 10x5"), "diameter_in 10, pitch_in 5");
        assert_eq!(said("propeller", "Skerry mixed"), "");
    }

    #[test]
    fn a_pack_is_named_by_cells_capacity_and_rating() {
        let full = "chemistry LiPo, cells 6, capacity_mah 1300, discharge_c_rate 100";
        assert_eq!(said("pack", "Pike LiPo 6S 1300mAh 100C"), full);
        assert_eq!(said("pack", "Pike 6S2P 8400 mAh"), "cells 6, parallel 2, capacity_mah 8400");
        assert_eq!(said("speed controller", "Billhook 55A"), "current_a 55");
    }
}
