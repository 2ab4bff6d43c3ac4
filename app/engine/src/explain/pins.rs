//! Two plugs pin by pin.

use propwright_schema::{slot::Slot, value::Value};

use super::{part_name, value};
use crate::finding::{Because, Claim, Datum, Finding};

/// One pin of two plugs that meet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pin {
    /// Its place from the mark on, from 1.
    pub number: usize,
    /// What the flight controller says of it; empty where its plug has no such pin.
    pub board: String,
    /// What the part at the other end says.
    pub partner: String,
}

impl Pin {
    /// Do both say the same?
    pub fn meets(&self) -> bool {
        self.board == self.partner
    }
}

/// Two plugs that meet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pins {
    /// Slot and name of the flight controller.
    pub board: (Slot, String),
    /// Slot and name of the part at the other end.
    pub partner: (Slot, String),
    /// All pins, as many as the longer plug has.
    pub pins: Vec<Pin>,
}

/// The pins of the two plugs that a finding compares; nothing for other findings, and for plugs that are not of one kind.
pub fn pins(finding: &Finding) -> Option<Pins> {
    let of = |name: &str| {
        let (_, because) = finding.outcome.facts.iter().find(|(fact, _)| *fact == name)?;
        let subject = because.subject()?;
        Some(((subject.slot, part_name(subject)), listed(because)?))
    };
    let ((board, here), (partner, there)) = (of("board")?, of("partner")?);
    let said = |pins: &[Value], at: usize| pins.get(at).map_or_else(String::new, value);
    let pin = |at: usize| Pin { number: at + 1, board: said(here, at), partner: said(there, at) };
    Some(Pins { board, partner, pins: (0..here.len().max(there.len())).map(pin).collect() })
}

fn listed(because: &Because) -> Option<&[Value]> {
    match &because.claim {
        Claim::Fact { field: "pins", datum: Datum::Value(Value::List(pins)), .. } => Some(pins),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::{Pin, pins};
    use crate::{
        explain::message,
        graph::{Store, graph},
        policy::Policy,
        rules::trial::craft,
    };

    #[test]
    fn what_stands_against_what_is_told_pin_by_pin() {
        let parts = r#"(id: "e", name: "E", fills: [Esc(channels: 4, plugs: [(to: "flight-controller", plug: "8 pin", pins: ["GND", "VBAT", "M1"])])]),
            (id: "f", name: "F", fills: [FlightController(plugs: [(to: "esc", plug: "8 pin", pins: ["VBAT", "GND", "M1", "M2"])])])"#;
        let craft = craft(parts, r#"parts: [(slot: Esc, part: "e"), (slot: FlightController, part: "f")]"#);
        let found = graph().toward("harness-pin-order").run(&craft, &Policy::default(), &mut Store::new());
        let told = pins(&found[0]).unwrap();
        assert_eq!((told.board.1.as_str(), told.partner.1.as_str()), ("F", "E"));
        assert_eq!(told.pins[1], Pin { number: 2, board: "GND".to_owned(), partner: "VBAT".to_owned() });
        assert_eq!(told.pins.iter().map(Pin::meets).collect::<Vec<_>>(), [false, false, true, false]);
        assert!(message(&found[0]).contains("pin 1, 2, 4"), "{}", message(&found[0]));
    }

    #[test]
    fn other_findings_have_no_pins() {
        let craft = craft(r#"(id: "e", name: "E", fills: [Esc(channels: 4)])"#, r#"parts: [(slot: Esc, part: "e")]"#);
        let found = graph().toward("needed-to-fly").run(&craft, &Policy::default(), &mut Store::new());
        assert!(found.iter().all(|finding| pins(finding).is_none()));
    }
}
