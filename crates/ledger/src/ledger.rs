//! The ledger: what is kept, what was learnt from it, and what comes of a
//! request.

use std::collections::{BTreeMap, BTreeSet};

use advice::steps::Steps;
use carcass::{Catalogue, WayId};
use scale::{ClosedTest, GrindingLog, KnownWays, Learning, TestedSide, overlay};
use wording::say;

use crate::bought_entries::keep_units;
use crate::bought_kept::{self, PIECE};
use crate::controls::{ASK_FIRST, KEEP, SURE, trouble};
use crate::entries::Entries;
use crate::kept::{Kept, YIELDS};
use crate::settings::Settings;
use crate::stamp::Stamp;
use crate::view::{GO, VIEW, View, ways};
use crate::visit::{Catalogues, Done, Outcome, Refusal, Visit};
use crate::{
    archive, bought, closing, grinding, own_yields, printing, record, report, standing, storage,
    tag_correction, tests_kept, trace, waiting, weigh_in, wire,
};

/// The id of the view that is open.
pub const IN_VIEW: &str = "in-view";

/// Before the number of a closed test.
pub(crate) const TEST: &str = "test.";

/// The key of the settings.
pub(crate) const SETTINGS: &str = "settings";

/// The key of the stamp of what the own yields were learnt from. It is written
/// after these, so that a cut-off between the two has them learnt anew.
const LEARNT: &str = "yields-learnt";

/// The key of the grinding log.
pub(crate) const GRINDING: &str = "grinding";

/// Before the key of what was set aside, since it cannot be read.
const ASIDE: &str = "aside.";

/// What a part of the ledger does with a button: its verb and what it is about.
type Press = fn(&mut Ledger, &mut Visit, &str, &str) -> Outcome;

/// A closed test with the number under which it is kept.
pub(crate) type Numbered = (u32, ClosedTest);

/// Something that is kept and cannot be read. It stays where it is.
pub(crate) struct Unreadable {
    /// The key it is kept under.
    pub(crate) key: String,
    /// Why, in a sentence.
    pub(crate) why: String,
}

/// What a shop keeps of its sides.
pub struct Ledger {
    published: Catalogue,
    own: Catalogue,
    /// Tells the published figures from those of another version.
    mark: Stamp,
    pub(crate) kept: Kept,
    /// Closed tests by number, the first one first.
    tests: Vec<Numbered>,
    pub(crate) settings: Settings,
    log: GrindingLog,
    /// What is kept and cannot be read.
    pub(crate) unreadable: Vec<Unreadable>,
    /// All that was kept when it was handed out as a file the last time.
    handed_out: Option<Stamp>,
}

impl Ledger {
    /// An empty ledger over a published catalogue.
    pub fn new(published: Catalogue) -> Self {
        Self {
            own: published.clone(),
            mark: Stamp::default().with(&published.packed()),
            published,
            kept: Kept::default(),
            tests: Vec::new(),
            settings: Settings::default(),
            log: GrindingLog::default(),
            unreadable: Vec::new(),
            handed_out: None,
        }
    }

    /// Takes what a browser keeps; whether the text was a request to do so.
    pub fn take(&mut self, text: &str) -> bool {
        let Some(kept) = wire::read_take(text) else {
            return false;
        };
        self.kept = Kept::of(kept);
        self.read_kept();
        true
    }

    /// All that is kept, by its keys.
    pub fn all_kept(&self) -> impl Iterator<Item = (&str, &str)> {
        self.kept.all()
    }

    /// Keeps these texts in the place of all that is kept.
    pub(crate) fn replace(&mut self, items: BTreeMap<String, String>) {
        self.kept.clear();
        for (key, text) in items {
            self.kept.put(&key, text);
        }
        self.read_kept();
    }

    /// Keeps these texts beside what is kept.
    pub(crate) fn join(&mut self, texts: BTreeMap<String, String>) {
        for (key, text) in texts {
            self.kept.put(&key, text);
        }
        self.read_kept();
    }

    /// Notes that all that is kept now was handed out as a file.
    pub(crate) fn note_handed_out(&mut self) {
        self.handed_out = Some(self.stamp_of_all());
    }

    /// Whether all that is kept was handed out as a file since the page was opened,
    /// and is as it was then.
    pub(crate) fn is_handed_out(&self) -> bool {
        self.handed_out == Some(self.stamp_of_all())
    }

    fn stamp_of_all(&self) -> Stamp {
        let all = self.kept.all();
        all.fold(Stamp::default(), |stamp, (key, text)| {
            stamp.with(key.as_bytes()).with(text.as_bytes())
        })
    }

    /// Reads anew what is kept.
    fn read_kept(&mut self) {
        self.unreadable.clear();
        self.tests.clear();
        for (number, text) in self.kept.under(TEST) {
            match (number.parse(), ClosedTest::of_text(text)) {
                (Ok(number), Ok(test)) => self.tests.push((number, test)),
                (_, read) => self.unreadable.push(Unreadable {
                    key: format!("{TEST}{number}"),
                    why: read
                        .err()
                        .map(|error| error.to_string())
                        .unwrap_or_default(),
                }),
            }
        }
        self.tests.sort_by_key(|(number, _)| *number);
        self.settings = self
            .kept
            .text(SETTINGS)
            .map(Settings::of_text)
            .unwrap_or_default();
        let log = self.kept.text(GRINDING).map(GrindingLog::of_text);
        self.log = match log {
            None => GrindingLog::default(),
            Some(Ok((log, None))) => log,
            Some(Ok((log, Some(line)))) => {
                let why = say!(
                    "The log breaks off in line {line}; the batches before it are kept.",
                    line
                );
                self.set_aside(GRINDING, why);
                self.kept.put(GRINDING, log.to_text());
                log
            }
            Some(Err(error)) => {
                self.set_aside(GRINDING, error.to_string());
                GrindingLog::default()
            }
        };
        for (key, _) in self.kept.under(ASIDE) {
            if !self.unreadable.iter().any(|known| known.key == key) {
                self.unreadable.push(Unreadable {
                    key: key.to_owned(),
                    why: String::new(),
                });
            }
        }
        for (number, text) in self.kept.under(PIECE) {
            if let Err(error) = bought_kept::check(text) {
                self.unreadable.push(Unreadable {
                    key: format!("{PIECE}{number}"),
                    why: error.to_string(),
                });
            }
        }
        // What was learnt from just this need not be learnt again.
        let stamp = self.stamp();
        if self.kept.text(LEARNT) == Some(&stamp) {
            self.own = self.published.clone();
            self.own.lay_own(self.kept.text(YIELDS).unwrap_or_default());
        } else {
            self.learn(stamp);
        }
    }

    /// Stands for all that own yields are learnt from.
    fn stamp(&self) -> String {
        let mut stamp = self.mark;
        for (number, text) in self.kept.under(TEST) {
            stamp = stamp.with(number.as_bytes()).with(text.as_bytes());
        }
        let settings = self.kept.text(SETTINGS).unwrap_or_default();
        stamp.with(settings.as_bytes()).to_string()
    }

    /// Keeps what cannot be read under another key, so that a new beginning does
    /// not write over it.
    fn set_aside(&mut self, key: &str, why: String) {
        let text = self.kept.text(key).unwrap_or_default().to_owned();
        self.kept.put(&format!("{ASIDE}{key}"), text);
        self.kept.remove(key);
        self.unreadable.push(Unreadable {
            key: key.to_owned(),
            why,
        });
    }

    /// Does what a request asks and writes what answers it; `None` where the
    /// text is none.
    pub fn answer(&mut self, text: &str) -> Option<String> {
        if let Some(file) = wire::read_take_file(text) {
            // A file with nothing to take in was refused when it was looked at.
            if let Ok(items) = storage::read(file) {
                self.replace(items);
            }
            let changes = self.kept.take_changes();
            return Some(wire::answer(
                wire::TAKE_FILE,
                changes,
                &Entries::default(),
                "",
            ));
        }
        let (mut visit, pressed) = wire::read(text)?;
        match self.do_what(&mut visit, &pressed) {
            Ok(Done::File(file)) => {
                // What is kept changed with no file; it goes out with the next answer.
                return Some(format!(
                    "file\n{}\n{}\n{}",
                    file.name, file.media_type, file.content
                ));
            }
            Ok(Done::Paper(piece)) => return Some(format!("{}\n{piece}", advice::wire::PRINT)),
            Ok(Done::Shown) => {}
            Err(refusal) => {
                visit.faults.insert(refusal.at, refusal.why);
            }
        }
        let piece = self.shown(&visit);
        let changes = self.kept.take_changes();
        Some(wire::answer(wire::ASK, changes, &visit.entries, &piece))
    }

    fn do_what(&mut self, visit: &mut Visit, pressed: &str) -> Result<Done, Refusal> {
        if let Some(asked) = pressed.strip_prefix(ASK_FIRST) {
            visit.entries.set(SURE, asked);
            return Ok(Done::Shown);
        }
        visit.entries.clear(SURE);
        keep_units(visit);
        if pressed.is_empty() || pressed == KEEP {
            return Ok(Done::Shown);
        }
        if let Some(view) = pressed.strip_prefix(GO) {
            visit.entries.set(VIEW, view);
            return Ok(Done::Shown);
        }
        let (verb, about) = pressed.split_once(' ').unwrap_or((pressed, ""));
        let parts: [Press; 13] = [
            weigh_in::press,
            waiting::press,
            closing::press,
            report::press,
            tests_kept::press,
            own_yields::press,
            standing::press,
            tag_correction::press,
            record::press,
            grinding::press,
            bought::press,
            trace::press,
            printing::press,
        ];
        parts
            .into_iter()
            .find_map(|press| press(self, visit, verb, about))
            .unwrap_or(Ok(Done::Shown))
    }

    fn shown(&self, visit: &Visit) -> String {
        let mut steps = Steps::default();
        let view = View::of(visit);
        ways(&mut steps, view);
        archive::warning(self, &mut steps);
        match visit.faults.get("") {
            Some(fault) => trouble(&mut steps, "p", fault),
            None => steps.nothing(),
        }
        steps.element(
            "div",
            // Where what had the focus goes away, it comes here.
            &[
                ("class", "in-view"),
                ("id", IN_VIEW),
                ("tabindex", "-1"),
                ("key", view.id()),
            ],
            |steps| match view {
                View::WeighIn => weigh_in::written(self, visit, steps),
                View::Tests => tests_kept::written(self, visit, steps),
                View::Yields => own_yields::written(self, visit, steps),
                View::Standing => standing::written(self, visit, steps),
                View::Record => record::written(self, visit, steps),
                View::Bought => bought::written(self, visit, steps),
            },
        );
        steps.written()
    }

    /// Both catalogues.
    pub(crate) const fn catalogues(&self) -> Catalogues<'_> {
        Catalogues {
            published: &self.published,
            own: &self.own,
        }
    }

    /// Closed tests, the first one first.
    pub(crate) fn tests(&self) -> &[Numbered] {
        &self.tests
    }

    /// The closed test of this number.
    pub(crate) fn test(&self, number: u32) -> Option<&ClosedTest> {
        let place = self
            .tests
            .binary_search_by_key(&number, |(it, _)| *it)
            .ok()?;
        self.tests.get(place).map(|(_, test)| test)
    }

    /// Keeps a closed test under the next free number, and learns from it.
    pub(crate) fn add_test(&mut self, test: ClosedTest) -> u32 {
        let number = self.free_number(TEST);
        self.put_test(number, test);
        number
    }

    /// The next number that no key with this beginning has.
    pub(crate) fn free_number(&self, beginning: &str) -> u32 {
        // What cannot be read has its number too.
        let taken = self
            .kept
            .under(beginning)
            .filter_map(|(number, _)| number.parse::<u32>().ok());
        taken.max().unwrap_or(0).saturating_add(1)
    }

    /// Keeps a closed test under its number, in the place of what it was, and
    /// learns anew.
    pub(crate) fn put_test(&mut self, number: u32, test: ClosedTest) {
        self.kept.put(&format!("{TEST}{number}"), test.to_text());
        match self.tests.binary_search_by_key(&number, |(it, _)| *it) {
            Ok(place) => {
                if let Some(kept) = self.tests.get_mut(place) {
                    kept.1 = test;
                }
            }
            Err(place) => self.tests.insert(place, (number, test)),
        }
        self.relearn();
    }

    /// Lets go of closed tests, and of what was learnt from them.
    pub(crate) fn drop_tests(&mut self, numbers: &[u32]) {
        for number in numbers {
            self.kept.remove(&format!("{TEST}{number}"));
        }
        self.tests.retain(|(it, _)| !numbers.contains(it));
        self.relearn();
    }

    /// Sets what is set once, and learns anew.
    pub(crate) fn set(&mut self, settings: Settings) {
        self.kept.put(SETTINGS, settings.to_text());
        self.settings = settings;
        self.relearn();
    }

    /// The grinding log.
    pub(crate) const fn log(&self) -> &GrindingLog {
        &self.log
    }

    /// Keeps another grinding log.
    pub(crate) fn put_log(&mut self, log: GrindingLog) {
        self.kept.put(GRINDING, log.to_text());
        self.log = log;
    }

    /// Lets go of everything.
    pub(crate) fn clear(&mut self) {
        self.kept.clear();
        self.tests.clear();
        self.unreadable.clear();
        self.settings = Settings::default();
        self.log = GrindingLog::default();
        self.relearn();
    }

    /// The tests that the shop learns from, as far as the catalogue knows their
    /// ways.
    pub(crate) fn tested(&self) -> Vec<TestedSide> {
        let known = KnownWays::of(&self.published);
        self.tests
            .iter()
            .filter(|(_, test)| !test.is_left_out)
            .map(|(_, test)| test.tested(&known).0)
            .collect()
    }

    /// The ways that are put back to the published yields.
    pub(crate) fn as_published(&self) -> BTreeSet<WayId> {
        let ids = self.settings.as_published.iter();
        ids.filter_map(|id| self.published.way_id(id)).collect()
    }

    /// What the tests say together with the published yields.
    pub(crate) fn learning<'a>(&'a self, tested: &'a [TestedSide]) -> Learning<'a> {
        Learning::of(&self.published, self.settings.prior, tested)
    }

    fn relearn(&mut self) {
        self.learn(self.stamp());
    }

    /// Learns from the tests; `stamp` stands for all that is learnt from.
    fn learn(&mut self, stamp: String) {
        let tested = self.tested();
        let learning = self.learning(&tested);
        let spread = (!self.settings.is_spread_published).then(|| learning.spread(&tested));
        let own = overlay(&learning, &self.as_published(), spread.as_ref());
        let text = own.own_text(&self.published);
        let nothing_own = self.published.own_text(&self.published);
        self.own = own;
        if text == nothing_own {
            self.kept.remove(YIELDS);
        } else {
            self.kept.put(YIELDS, text);
        }
        if self.tests.is_empty() {
            self.kept.remove(LEARNT);
        } else {
            self.kept.put(LEARNT, stamp);
        }
    }
}
