//! What the purpose asks for, and what of it the craft meets.

use propwright_engine::{explain, finding::Status, interval::Interval, policy::Policy, purpose};

use super::findings::{Card, card};
use crate::state::Document;

/// A threshold that the use or the place brings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Threshold {
    /// What it limits.
    pub about: String,
    /// From where a finding is tight; a dash where it never is.
    pub tight: String,
    /// From where it is a mismatch; a dash where it never is.
    pub mismatch: String,
    /// Where it comes from, and whether the user changed it.
    pub source: String,
}

/// Page Purpose.
#[derive(Debug, Clone, Default)]
pub struct Asked {
    /// What kind of craft it is.
    pub kind: Option<String>,
    /// What hangs on the purpose, the gravest first.
    pub cards: Vec<Card>,
    /// How many of them mismatch, are tight, are unstated, fit.
    pub counts: [usize; 4],
}

/// What a document's purpose asks for.
pub fn asked(document: &Document) -> Asked {
    let mut cards: Vec<Card> = document.report().map_or(&[][..], |report| &report.asked).iter().map(card).collect();
    cards.sort_by_key(|card| Status::GRAVEST_FIRST.iter().position(|status| *status == card.status));
    let counts = Status::GRAVEST_FIRST.map(|status| cards.iter().filter(|card| card.status == status).count());
    Asked { kind: purpose::kind_of(&document.craft), cards, counts }
}

/// The thresholds of its use and place.
pub fn thresholds(document: &Document, policy: &Policy) -> Vec<Threshold> {
    let each = purpose::thresholds(&document.build.purpose, policy).into_iter().map(|asked| {
        let limit = asked.limit;
        let figure = |figure: Option<Interval>| figure.map_or_else(|| "–".to_owned(), |figure| explain::figure(&figure));
        let changed = if asked.edited { ", changed in your policy file" } else { "" };
        Threshold {
            about: limit.about.trim().trim_end_matches('.').to_owned(),
            tight: figure(policy.tight(&limit)),
            mismatch: figure(policy.mismatch(&limit)),
            source: format!("{}{changed}", limit.source),
        }
    });
    each.collect()
}
