//! The tag of a side: where it comes from and what is claimed of it.

use pricing::{Age, CalendarDate};
use quantity::Decimal;
use wording::key;

use crate::form::{FormError, Words, Writer, plain_number, written};

/// Which half of the carcass.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Half {
    /// Not told, or both.
    #[default]
    Untold,
    /// The left side.
    Left,
    /// The right side.
    Right,
}

/// Something that is claimed of the animal, and what vouches for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Claim {
    /// The claim.
    pub what: String,
    /// The document: its number, or where it is kept.
    pub document: String,
}

/// What is known of a side when it comes in. Text that is empty is not known.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tag {
    /// Animal or lot number: what the shop calls the side by.
    pub lot: String,
    /// Who sold it.
    pub supplier: String,
    /// Where the animal was kept.
    pub farm: String,
    /// Where it was killed.
    pub plant: String,
    /// When it was killed.
    pub killed: Option<CalendarDate>,
    /// When it was received.
    pub received: Option<CalendarDate>,
    /// Which half.
    pub half: Half,
    /// How old the animal was.
    pub age: Age,
    /// Temperature at receipt, in degrees Celsius.
    pub celsius: Option<Decimal>,
    /// Claims.
    pub claims: Vec<Claim>,
}

/// The most claims of a side.
pub const MOST_CLAIMS: usize = 20;

/// Lowest and highest temperature that is taken down, in degrees Celsius.
const TEMPERATURES: [Decimal; 2] = [
    Decimal::from_parts(40, 0, 0, true, 0),
    Decimal::from_parts(60, 0, 0, false, 0),
];

/// A temperature in degrees Celsius as it is taken down: from −40 to 60, to the
/// hundredth. `None` for what is outside.
pub fn celsius(number: Decimal) -> Option<Decimal> {
    let [least, most] = TEMPERATURES;
    (least..=most).contains(&number).then(|| number.round_dp(2))
}

impl Half {
    const fn mark(self) -> &'static str {
        match self {
            Self::Untold => "-",
            Self::Left => "left",
            Self::Right => "right",
        }
    }

    fn of_mark(mark: &str) -> Option<Self> {
        [Self::Untold, Self::Left, Self::Right]
            .into_iter()
            .find(|half| half.mark() == mark)
    }
}

const fn age_mark(age: Age) -> &'static str {
    match age {
        Age::Under30Months => "under-30-months",
        Age::Over30Months => "over-30-months",
        Age::Unknown => "-",
    }
}

fn age_of_mark(mark: &str) -> Option<Age> {
    [Age::Under30Months, Age::Over30Months, Age::Unknown]
        .into_iter()
        .find(|age| age_mark(*age) == mark)
}

/// The mark with nothing for `-`, as it is written.
fn or_nothing(mark: &'static str) -> &'static str {
    if mark == "-" { "" } else { mark }
}

impl Tag {
    /// Writes the lines of the tag.
    pub(crate) fn write(&self, writer: &mut Writer) {
        let date = |date: Option<CalendarDate>| date.map(|it| it.to_string()).unwrap_or_default();
        writer.line([
            "side",
            &self.lot,
            &self.supplier,
            &self.farm,
            &self.plant,
            &date(self.killed),
            &date(self.received),
            or_nothing(self.half.mark()),
            or_nothing(age_mark(self.age)),
            &self.celsius.map(written).unwrap_or_default(),
        ]);
        for claim in &self.claims {
            writer.line(["claim", &claim.what, &claim.document]);
        }
    }

    /// Reads the words behind “side”.
    pub(crate) fn read(words: &mut Words) -> Result<Self, FormError> {
        Ok(Self {
            lot: words.text(key!("a lot number or -"))?,
            supplier: words.text(key!("a supplier or -"))?,
            farm: words.text(key!("a farm or -"))?,
            plant: words.text(key!("a plant or -"))?,
            killed: words.read_if_any(key!("a date or -"), |date| date.parse().ok())?,
            received: words.read_if_any(key!("a date or -"), |date| date.parse().ok())?,
            half: words.read(key!("left, right or -"), Half::of_mark)?,
            age: words.read(key!("an age or -"), age_of_mark)?,
            celsius: words.read_if_any(key!("a temperature or -"), |number| {
                celsius(signed(number)?)
            })?,
            claims: Vec::new(),
        })
    }

    /// Reads the words behind “claim”.
    pub(crate) fn read_claim(&mut self, words: &mut Words) -> Result<(), FormError> {
        if self.claims.len() >= MOST_CLAIMS {
            return Err(words.bad(key!("one of the first twenty claims"), "claim"));
        }
        self.claims.push(Claim {
            what: words.text(key!("a claim"))?,
            document: words.text(key!("a document or -"))?,
        });
        Ok(())
    }
}

/// A number that may be below zero.
pub(crate) fn signed(text: &str) -> Option<Decimal> {
    match text.strip_prefix('-') {
        Some(positive) => plain_number(positive).map(|number| -number),
        None => plain_number(text),
    }
}
