//! Diagnostics: what is wrong in a text, where, and what to do about it.

use std::fmt;

/// One problem of a file, with its place and a hint.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Diagnostic {
    /// The file's name as it was handed in.
    pub file: String,
    /// Line, counted from 1.
    pub line: u32,
    /// Column in characters, counted from 1.
    pub column: u32,
    /// Id of the part, or of the kit, in which it stands.
    pub part: Option<String>,
    /// Field in which it stands; fields of inner records follow a dot, such as `rails.volts_v`.
    pub field: Option<String>,
    /// What is wrong, with the figure found and what was expected.
    pub reason: String,
    /// What to do about it.
    pub hint: Option<String>,
}

impl fmt::Display for Diagnostic {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}:{}: ", self.file, self.line, self.column)?;
        match (&self.part, &self.field) {
            (Some(part), Some(field)) => write!(f, "part \"{part}\", field {field}: ")?,
            (Some(part), None) => write!(f, "part \"{part}\": ")?,
            (None, Some(field)) => write!(f, "field {field}: ")?,
            (None, None) => {}
        }
        f.write_str(&self.reason)?;
        match &self.hint {
            Some(hint) => write!(f, "\n    hint: {hint}"),
            None => Ok(()),
        }
    }
}

impl std::error::Error for Diagnostic {}

/// The word of a list that a mistyped word most likely meant: the one with the fewest edits, at most a third of its length
/// (and one edit in words of up to three letters).
///
/// ```
/// use propwright_schema::diagnostic::did_you_mean;
/// assert_eq!(did_you_mean("mas_g", ["name", "mass_g"]), Some("mass_g"));
/// assert_eq!(did_you_mean("colour", ["name", "mass_g"]), None);
/// ```
pub fn did_you_mean<'w>(word: &str, words: impl IntoIterator<Item = &'w str>) -> Option<&'w str> {
    let length = word.chars().count();
    let most = (length / 3).max(1);
    let near = words.into_iter().filter(|other| other.len().abs_diff(word.len()) <= 4 * most);
    let edits = near.map(|other| (strsim::osa_distance(&word.to_lowercase(), &other.to_lowercase()), other));
    edits.filter(|(edits, _)| *edits <= most).min_by_key(|(edits, _)| *edits).map(|(_, other)| other)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_as_one_line_and_a_hint() {
        let diagnostic = Diagnostic {
            file: "my.ron".to_owned(),
            line: 3,
            column: 14,
            part: Some("m-22".to_owned()),
            field: Some("mass_g".to_owned()),
            reason: "-1 g is no plausible mass".to_owned(),
            hint: Some("leave it out when nobody published it".to_owned()),
        };
        let text = "my.ron:3:14: part \"m-22\", field mass_g: -1 g is no plausible mass\n    hint: leave it out when nobody published it";
        assert_eq!(diagnostic.to_string(), text);
    }

    #[test]
    fn suggests_the_nearest_only() {
        assert_eq!(did_you_mean("Moter", ["Frame", "Motor", "Meter"]), Some("Motor"));
        assert_eq!(did_you_mean("nut", ["Nut"]), Some("Nut"));
        assert_eq!(did_you_mean("", ["Nut"]), None);
        assert_eq!(did_you_mean("x", []), None);
    }
}
