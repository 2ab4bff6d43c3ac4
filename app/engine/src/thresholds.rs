//! Which thresholds a rule judges by: those of its comparisons, and those that its reasons name on its own two examples, flown for
//! every use at every place, with and without ducts, on LiPo and on Li-ion.

use std::{collections::BTreeSet, sync::Arc};

use propwright_schema::{
    build_list::{BuildList, Place, Purpose, Use},
    catalogue::Catalogue,
    load::{load_build, load_catalogue},
};

use crate::{
    craft::Craft,
    finding::{Because, Claim, Finding},
    graph::{Store, graph},
    policy::Policy,
    rules::{Example, Form, Operand, Rule},
};

/// The names of the thresholds that a rule judges by, sorted.
///
/// ```
/// use propwright_engine::{rules, thresholds};
/// let names = thresholds::of_rule(rules::by_id("tip-gap").unwrap());
/// assert_eq!(names, ["tip-gap"]);
/// ```
pub fn of_rule(rule: &Rule) -> Vec<&'static str> {
    let mut names = BTreeSet::new();
    if let Form::Table(comparisons) = rule.form {
        for comparison in comparisons {
            names.extend(comparison.tight.map(|limit| limit.name));
            if let Operand::Limit(limit) = comparison.right {
                names.insert(limit.name);
            }
        }
    }
    for example in [rule.fails, rule.passes] {
        names.extend(on_example(rule, &example));
    }
    names.into_iter().collect()
}

/// The names of the thresholds that a finding rests on.
pub fn of_finding(finding: &Finding) -> BTreeSet<&'static str> {
    let mut names = BTreeSet::new();
    finding.outcome.facts.iter().for_each(|(_, because)| named(because, &mut names));
    names
}

fn named(because: &Because, names: &mut BTreeSet<&'static str>) {
    if let Claim::Threshold { name, .. } = &because.claim {
        names.insert(name);
    }
    because.from.iter().for_each(|below| named(below, names));
}

/// What an example is changed to, for the thresholds that go by guard and chemistry.
const OTHERWISE: [(&str, &str); 2] = [("guard: Open", "guard: PlainGuard"), ("chemistry: LiPo", "chemistry: LiIon")];

fn on_example(rule: &Rule, example: &Example) -> BTreeSet<&'static str> {
    let Ok(build) = load_build("example", &format!("(version: 1, name: \"example\", {})", example.build)) else {
        return BTreeSet::new();
    };
    let (flown, stage) = (flown(&build), graph().toward(rule.id));
    let others = OTHERWISE.into_iter().filter(|(from, _)| example.parts.contains(from));
    let parts = others.map(|(from, to)| example.parts.replace(from, to)).chain([example.parts.to_owned()]);
    let catalogues = parts.filter_map(|parts| load_catalogue("example", &format!("(version: 1, parts: [{parts}])")).ok());
    let on = |catalogue: &Catalogue| -> BTreeSet<&'static str> {
        let judged = |build| stage.run(&Craft::new(catalogue, build), &Policy::default(), &mut Store::new());
        flown.iter().flat_map(judged).flat_map(|finding| of_finding(&finding)).collect()
    };
    catalogues.flat_map(|file| on(&file.parts.into_iter().collect())).collect()
}

/// A build as it is, then for every use, and at every place.
fn flown(build: &BuildList) -> Vec<Arc<BuildList>> {
    let mut all = vec![Arc::new(build.clone())];
    let purpose = |purpose| Arc::new(BuildList { purpose, ..build.clone() });
    all.extend(Use::ALL.iter().map(|usage| purpose(Purpose { usage: Some(*usage), ..build.purpose.clone() })));
    all.extend(Place::ALL.iter().map(|place| purpose(Purpose { place: Some(*place), ..build.purpose.clone() })));
    all
}
