//! A user's own thresholds: values that stand instead of the program's, by their names.

use serde::{Deserialize, Serialize};

/// The content of a policy file.
///
/// ```
/// use propwright_schema::load::load_policy;
/// let text = r#"(version: 1, thresholds: [(name: "capacitor-spare", tight: 1.1, note: "fresh capacitors every season")])"#;
/// let policy = load_policy("own.ron", text).unwrap();
/// assert_eq!(policy.thresholds[0].tight, Some(1.1));
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PolicyFile {
    /// Version of the file's form; see [`crate::version`].
    pub version: u32,
    /// The thresholds that are changed.
    #[serde(default)]
    pub thresholds: Vec<ThresholdEdit>,
}

/// A threshold with its new values, in the unit of the program's table of thresholds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ThresholdEdit {
    /// Name of the threshold.
    pub name: String,
    /// From here on a finding is tight; absent: as the program has it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tight: Option<f64>,
    /// From here on it is a mismatch; absent: as the program has it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mismatch: Option<f64>,
    /// Why, in the user's words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// A threshold of the program, as far as an edit is checked against it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KnownThreshold {
    /// Its name.
    pub name: &'static str,
    /// From here on tight; absent: it never is.
    pub tight: Option<f64>,
    /// From here on a mismatch; absent: it never is.
    pub mismatch: Option<f64>,
}
