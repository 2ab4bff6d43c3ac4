//! The rule suite: small crafts as text, each with what the rules shall find written at its head.
//!
//! ```text
//! // judges: stack-pattern
//! // expect: mismatch stack-pattern flight-controller frame
//! (
//!     parts: [(id: "f", name: "Frame", fills: [Frame(stacks: [(pattern: "20x20")])]), …],
//!     build: (version: 1, name: "…", parts: [(slot: Frame, part: "f"), …]),
//! )
//! ```
//!
//! A line `// expect:` holds status, rule and slots of one finding; figures and sentences are never written down.

use std::{fs, path::PathBuf, sync::Arc};

use propwright_engine::{
    finding::{Finding, Status},
    policy::Policy,
    report::every_finding,
};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue, part::Part, ron_options};
use serde::Deserialize;

/// One file of the suite.
pub struct Scenario {
    /// Where it stands.
    pub path: PathBuf,
    /// The whole text.
    pub text: String,
    /// The rules that it judges.
    pub judges: Vec<String>,
    /// What they shall find, sorted.
    pub expected: Vec<String>,
    catalogue: Catalogue,
    build: Arc<BuildList>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Content {
    parts: Vec<Arc<Part>>,
    build: BuildList,
}

const JUDGES: &str = "// judges: ";
const EXPECT: &str = "// expect: ";

fn heads(text: &str, head: &str) -> Vec<String> {
    text.lines().filter_map(|line| line.strip_prefix(head)).map(str::to_owned).collect()
}

/// All files of the suite in the order of their names.
pub fn all() -> Vec<Scenario> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("suite");
    let mut paths: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths.into_iter().map(read).collect()
}

fn read(path: PathBuf) -> Scenario {
    let text = fs::read_to_string(&path).unwrap();
    let content: Result<Content, _> = ron_options().from_str(&text);
    let Content { parts, build } = content.map_err(|error| format!("{}: {error}", path.display())).unwrap();
    let judges =
        heads(&text, JUDGES).iter().flat_map(|line| line.split_whitespace().map(str::to_owned).collect::<Vec<_>>()).collect();
    let mut expected = heads(&text, EXPECT);
    expected.sort();
    Scenario { path, text, judges, expected, catalogue: parts.into_iter().collect(), build: Arc::new(build) }
}

/// A status forced on a rule, to see whether the suite notices.
pub type Forced<'a> = Option<(&'a str, Status)>;

impl Scenario {
    /// What the rules find now: status, rule and slots of each finding, sorted.
    pub fn found(&self, policy: &Policy, forced: Forced) -> Vec<String> {
        let mut lines: Vec<String> = self.findings(policy).iter().map(|finding| line(finding, forced)).collect();
        lines.sort();
        lines
    }

    /// The findings of the rules that it judges.
    pub fn findings(&self, policy: &Policy) -> Vec<Finding> {
        let mut all = every_finding(&self.catalogue, &self.build, policy);
        all.retain(|finding| self.judges.iter().any(|rule| rule == finding.rule));
        all
    }

    /// The text with its expectations replaced by what is found now.
    pub fn rewritten(&self, found: &[String]) -> String {
        let kept: Vec<&str> = self.text.lines().filter(|line| !line.starts_with(EXPECT)).collect();
        let after = kept.iter().rposition(|line| line.starts_with(JUDGES)).map_or(0, |at| at + 1);
        let mut lines: Vec<String> = kept.iter().map(|line| (*line).to_owned()).collect();
        lines.splice(after..after, found.iter().map(|line| format!("{EXPECT}{line}")));
        lines.join("\n") + "\n"
    }
}

fn line(finding: &Finding, forced: Forced) -> String {
    let status = forced.filter(|(rule, _)| *rule == finding.rule).map_or(finding.status(), |(_, status)| status);
    let slots: Vec<String> = finding.outcome.subjects.iter().map(propwright_engine::craft::Subject::slot_text).collect();
    format!("{} {} {}", status.word(), finding.rule, slots.join(" ")).trim_end().to_owned()
}
