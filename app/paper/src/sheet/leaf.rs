//! A leaf of paper as data: marks at places in points (1/72 in), from which PDF, SVG, PNG and the preview are drawn alike.

/// Points in a millimetre: 72 points are an inch of 25.4 mm.
pub(crate) const PER_MM: f32 = 72.0 / 25.4;

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Format {
    /// ISO 216, 210 × 297 mm.
    #[default]
    A4,
    /// 8.5 × 11 in.
    Letter,
    /// ISO 216, 105 × 148 mm.
    A6,
}

impl Format {
    /// Width and height in points.
    ///
    /// ```
    /// use propwright_paper::sheet::Format;
    /// assert_eq!(Format::Letter.size(), [612.0, 792.0]);
    /// assert!((Format::A4.size()[0] - 595.28).abs() < 0.01);
    /// ```
    pub fn size(self) -> [f32; 2] {
        match self {
            Self::A4 => [210.0 * PER_MM, 297.0 * PER_MM],
            Self::Letter => [8.5 * 72.0, 11.0 * 72.0],
            Self::A6 => [105.0 * PER_MM, 148.0 * PER_MM],
        }
    }

    /// Free border on every side, in points.
    pub const fn border(self) -> f32 {
        match self {
            Self::A4 | Self::Letter => 42.0,
            Self::A6 => 20.0,
        }
    }

    /// Its name.
    pub const fn word(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
            Self::A6 => "A6",
        }
    }
}

/// A face of the type.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Face {
    /// For text.
    Regular,
    /// For headings and figures.
    Bold,
    /// For characters that the other two lack.
    Last,
}

/// How dark a mark is: paper knows no colour that it could rely on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Text and outlines.
    Ink,
    /// What is read second.
    Soft,
    /// Rules between rows.
    Line,
    /// Grounds.
    Fill,
    /// The paper itself.
    Paper,
}

impl Tone {
    /// Red, green and blue: the tokens of the light theme, so that screen and paper are alike.
    pub const fn rgb(self) -> [u8; 3] {
        match self {
            Self::Ink => [0x22, 0x25, 0x2A],
            Self::Soft => [0x5D, 0x64, 0x70],
            Self::Line => [0xD8, 0xD3, 0xC6],
            Self::Fill => [0xE9, 0xE5, 0xDA],
            Self::Paper => [0xFF, 0xFF, 0xFF],
        }
    }
}

/// The pen for an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pen {
    /// Breadth in points.
    pub width: f32,
    /// How dark.
    pub tone: Tone,
    /// Broken into dashes: assumed, not stated.
    pub dashed: bool,
}

/// A place in points from the upper left corner.
pub type Spot = [f32; 2];

/// One mark on a leaf.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// Words in one face, from `at` on their base line to the right.
    Words {
        /// Left end of the base line.
        at: Spot,
        /// Height of the type in points.
        size: f32,
        /// The face.
        face: Face,
        /// How dark.
        tone: Tone,
        /// The words, without characters that could steer anything.
        text: String,
    },
    /// A line through two or more places.
    Line {
        /// The places.
        through: Vec<Spot>,
        /// The pen.
        pen: Pen,
    },
    /// A closed form.
    Form {
        /// The corners, three or more.
        corners: Vec<Spot>,
        /// Ground, if any.
        fill: Option<Tone>,
        /// Outline, if any.
        pen: Option<Pen>,
    },
    /// A ground between two lines through as many places each.
    Ribbon {
        /// The places of the one.
        low: Vec<Spot>,
        /// The places of the other, opposite those of the first.
        high: Vec<Spot>,
        /// The ground.
        fill: Tone,
    },
    /// A circle.
    Circle {
        /// Its centre.
        center: Spot,
        /// Its radius.
        radius: f32,
        /// Ground, if any.
        fill: Option<Tone>,
        /// Outline, if any.
        pen: Option<Pen>,
    },
}

/// One leaf.
#[derive(Debug, Clone, PartialEq)]
pub struct Leaf {
    /// Width and height in points.
    pub size: [f32; 2],
    /// The marks in the order in which they are laid down.
    pub marks: Vec<Mark>,
}

/// A document on paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Its title.
    pub title: String,
    /// Its leaves.
    pub leaves: Vec<Leaf>,
}

/// The corners of a ribbon, once around.
pub(crate) fn around(low: &[Spot], high: &[Spot]) -> Vec<Spot> {
    low.iter().chain(high.iter().rev()).copied().collect()
}

/// An upright rectangle as corners.
pub(crate) fn rectangle(min: Spot, max: Spot) -> Vec<Spot> {
    vec![min, [max[0], min[1]], max, [min[0], max[1]]]
}
