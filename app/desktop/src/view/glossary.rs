//! The words of the trade and of this program, each in a sentence or two.

use propwright_engine::finding::Status;

/// A word and what it means here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Term {
    /// The word.
    pub(super) word: &'static str,
    /// What it means.
    pub(super) about: &'static str,
}

const fn term(word: &'static str, about: &'static str) -> Term {
    Term { word, about }
}

/// What a status says.
pub const fn meaning(status: Status) -> &'static str {
    match status {
        Status::Fits => "The parts go together.",
        Status::Tight => "The parts go together, with little to spare: look before you buy.",
        Status::Mismatch => "The parts do not go together: bought like this, the craft cannot be built or breaks.",
        Status::Unstated => "A figure that is needed was never published: look it up, measure it or estimate it.",
    }
}

/// All words, in the order in which somebody new meets them.
pub(super) const TERMS: [Term; 38] = [
    term("Fits", meaning(Status::Fits)),
    term("Tight", meaning(Status::Tight)),
    term("Mismatch", meaning(Status::Mismatch)),
    term("Unstated", meaning(Status::Unstated)),
    term("To choose", "Needed to fly, and nothing is chosen for it yet."),
    term(
        "Take-off mass",
        "Everything that leaves the ground: parts, packs, payload, wire and screws. The law of many places goes by it.",
    ),
    term(
        "Price",
        "What is left to pay for the craft and for what stays on the ground: radio, goggles, charger. What you own costs nothing.",
    ),
    term("Calm flight", "Minutes in the air when it is flown gently, from full packs to the landing volts."),
    term("Hard flight", "Minutes in the air with full throttle again and again."),
    term(
        "Thrust to weight",
        "How many times its own weight all propellers together can pull. Below 2 it answers slowly; a learner wants less than a racer.",
    ),
    term("Open", "What is not settled: mismatches, empty slots, tight findings and figures that nobody published."),
    term("Band", "The bracket below a figure: nine crafts of ten lie inside it. A measured figure makes it shorter."),
    term("First-person view", "One flies by the picture that a camera aboard sends to a pair of goggles."),
    term(
        "Ducted craft",
        "Rings around the propellers: walls, furniture and fingers come off better; it flies shorter and slower.",
    ),
    term("Open craft", "Propellers without rings: stronger and faster, for open places away from people."),
    term("Pack, battery", "The battery of the craft. One flight empties one: several make an afternoon."),
    term("Cells, 1S to 12S", "A pack of 4S has four cells in a row; each holds 4.2 V full and is landed at about 3.5 V."),
    term("mAh", "What a pack holds. A larger one weighs more: past some size it costs flight time."),
    term("KV", "Turns a minute that a motor makes for each volt, unloaded. More cells ask for a lower figure."),
    term("Stator", "The wound core of a motor: 2207 is 22 mm across and 7 mm high."),
    term("ESC", "Electronic speed controller: turns the pack's current into that of the motors, and stands only so much of it."),
    term("Flight controller", "The board that keeps the craft level and tells the ESC what each motor does."),
    term("Stack", "The boards one above the other in the middle of the frame, on four screws."),
    term("Receiver, control link", "What hears the radio in your hands. Both ends must be of one link and one region."),
    term("Video transmitter", "What sends the picture. Camera, transmitter and goggles must be of one system."),
    term("Rail", "An output of a board with fixed volts, 5 V or 10 V, for camera, receiver and the like."),
    term("Pitch", "How far a propeller would screw itself forward in one turn."),
    term("Hover duty", "The share of full throttle that holds the craft still."),
    term("Reach", "How far out it can go and come back, by energy, by control, by picture, by the horizon: the shortest counts."),
    term("Distance to fly", "All of the way of one flight, out and back."),
    term("Payload", "What it carries beside its own parts, such as a second camera."),
    term("Whole packs", "Propellers and screws are sold in packs: the rest of a pack goes to your shelf."),
    term("Kit", "A box of parts for one price: ready to fly, or parts to assemble. It may hold what you own already."),
    term("Bind", "To make a receiver listen to one radio and to no other."),
    term("Antenna, dBi", "By how much an antenna favours one direction; the more, the narrower it looks."),
    term("Antenna, RHCP and LHCP", "Which way round the radio wave turns. Both ends of the picture must turn the same way."),
    term("Left in the packs", "What a pack holds more than the craft needs: it lies on the shelf for the next time."),
    term("Shelf", "What you own already. It is drawn from first, and costs nothing."),
];

/// What a word means; nothing for one that is not explained.
pub fn about(word: &str) -> Option<&'static str> {
    TERMS.iter().find(|term| term.word == word).map(|term| term.about)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_stands_once() {
        for (at, term) in TERMS.iter().enumerate() {
            assert!(TERMS[..at].iter().all(|known| known.word != term.word), "{}", term.word);
            assert!(term.about.ends_with('.'), "{}", term.word);
        }
    }
}
