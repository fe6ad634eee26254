//! Everything that is kept as one JSON file (RFC 8259), to be kept elsewhere and
//! taken in again: the saved plans, and what the scale has recorded.
//! `docs/format.md` is its description for others.

use core::fmt;
use std::collections::BTreeMap;
use wording::{say, text};

use document::JsonFault;
use draft::Draft;
use form_urlencoded::Serializer;
use serde::{Deserialize, Serialize};

use crate::saved::{Saved, tidy};
use crate::shelf::Shelf;

/// What the file says that it is.
const KIND: &str = "saved plans";

/// The version of a file of plans alone.
const PLANS_ALONE: u32 = 1;

/// The version of a file with records of the scale, and the newest that is read.
const VERSION: u32 = 2;

/// The longest file that is read, in bytes: more than a browser keeps for a page.
pub const LARGEST_FILE: usize = 8 * 1024 * 1024;

/// The most plans that are read.
pub const MOST_PLANS: usize = 2000;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Form {
    sideworth: String,
    version: u32,
    plans: Vec<PlanForm>,
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    scale: BTreeMap<String, String>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PlanForm {
    name: String,
    changed: u64,
    entries: serde_json::Map<String, serde_json::Value>,
}

/// What the beginning of any version has.
#[derive(Deserialize)]
struct Beginning {
    sideworth: String,
    version: u32,
}

/// What a file holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Everything {
    /// The saved plans.
    pub plans: Vec<Saved>,
    /// What the scale has recorded: texts by the keys under which they are kept.
    /// Whoever keeps them reads them.
    pub scale: BTreeMap<String, String>,
}

/// Why a file is not taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileFault {
    /// It is longer than any.
    TooLong,
    /// It is no JSON, or has not what such a file has.
    Form(JsonFault),
    /// It is something else.
    OtherKind,
    /// A newer version of the app wrote it.
    Newer(u32),
    /// It has more plans than are read.
    TooMany,
    /// A plan has an entry that cannot be: its number in the file, its name, the
    /// entry.
    Entry(usize, String, String),
    /// A plan has no name: its number in the file.
    NoName(usize),
}

impl fmt::Display for FileFault {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = match self {
            Self::TooLong => say!(
                "The file is longer than {size} MB, which no saved plans are.",
                LARGEST_FILE / 1024 / 1024
            ),
            Self::Form(fault) => fault.to_string(),
            Self::OtherKind => text!("The file holds something other than plans.").to_owned(),
            Self::Newer(version) => say!(
                "A newer version of the app wrote the file (version {version}, this one reads {newest}). Reload the page to get it.",
                version,
                VERSION
            ),
            Self::TooMany => say!("The file has more than {most} plans.", MOST_PLANS),
            Self::Entry(number, name, entry) => say!(
                "Plan {number}, “{name}”: “{entry}” is no entry of a plan, or its value cannot be.",
                number,
                name,
                entry
            ),
            Self::NoName(number) => say!("Plan {number} has no name.", number),
        };
        formatter.write_str(&text)
    }
}

impl core::error::Error for FileFault {}

/// What becomes of a plan that is taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fate {
    /// It comes in under this name.
    Comes(String),
    /// It is there already, to the letter.
    IsThere,
}

/// Plans and records of the scale as a file.
pub fn write_file<'a, 'b>(
    plans: impl IntoIterator<Item = &'a Saved>,
    scale: impl IntoIterator<Item = (&'b str, &'b str)>,
) -> String {
    let plans = plans
        .into_iter()
        .map(|plan| PlanForm {
            name: plan.name.clone(),
            changed: plan.changed,
            entries: form_urlencoded::parse(plan.draft.to_text().as_bytes())
                .map(|(name, value)| (name.into_owned(), value.into_owned().into()))
                .collect(),
        })
        .collect();
    let scale: BTreeMap<_, _> = scale
        .into_iter()
        .map(|(key, text)| (key.to_owned(), text.to_owned()))
        .collect();
    let form = Form {
        sideworth: KIND.to_owned(),
        version: if scale.is_empty() {
            PLANS_ALONE
        } else {
            VERSION
        },
        plans,
        scale,
    };
    // Texts and numbers alone: there is nothing that could not be written.
    serde_json::to_string_pretty(&form).unwrap_or_default() + "\n"
}

/// What a file holds; all of it is good, or none of it is taken.
///
/// # Errors
/// The first thing that is wrong with it, and where.
pub fn read_file(text: &str) -> Result<Everything, FileFault> {
    if text.len() > LARGEST_FILE {
        return Err(FileFault::TooLong);
    }
    // Some editors put a mark before the first letter.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let beginning: Beginning = serde_json::from_str(text).map_err(form)?;
    if beginning.sideworth != KIND {
        return Err(FileFault::OtherKind);
    }
    if beginning.version > VERSION {
        return Err(FileFault::Newer(beginning.version));
    }
    let form: Form = serde_json::from_str(text).map_err(form)?;
    if form.plans.len() > MOST_PLANS {
        return Err(FileFault::TooMany);
    }
    let plans = form
        .plans
        .iter()
        .enumerate()
        .map(|(index, plan)| read_plan(index + 1, plan))
        .collect::<Result<_, _>>()?;
    Ok(Everything {
        plans,
        scale: form.scale,
    })
}

fn form(error: serde_json::Error) -> FileFault {
    FileFault::Form(error.into())
}

fn read_plan(number: usize, plan: &PlanForm) -> Result<Saved, FileFault> {
    let name = tidy(&plan.name).ok_or(FileFault::NoName(number))?;
    let bad = |entry: &str| FileFault::Entry(number, name.clone(), entry.to_owned());
    let version = plan
        .entries
        .get("draft.version")
        .and_then(serde_json::Value::as_str)
        .ok_or_else(|| bad("draft.version"))?;
    let mut all = Serializer::new(String::new());
    // It comes first, whatever the order in the file.
    all.append_pair("draft.version", version);
    for (entry, value) in &plan.entries {
        let value = value.as_str().ok_or_else(|| bad(entry))?;
        let alone = Serializer::new(String::new())
            .append_pair("draft.version", version)
            .append_pair(entry, value)
            .finish();
        if entry != "draft.version" {
            Draft::of_text(&alone).ok_or_else(|| bad(entry))?;
            all.append_pair(entry, value);
        }
    }
    let draft = Draft::of_text(&all.finish()).ok_or_else(|| bad("draft.version"))?;
    Ok(Saved {
        name,
        changed: plan.changed,
        revision: 0,
        draft,
    })
}

/// What becomes of each plan of a file on a shelf. Nothing that is there
/// changes: a name that is taken gets a number.
pub fn fates(shelf: &Shelf, plans: &[Saved]) -> Vec<Fate> {
    let mut after = shelf.clone();
    plans
        .iter()
        .map(|plan| {
            let is_there = after
                .plans
                .iter()
                .any(|(_, there)| there.name == plan.name && there.draft == plan.draft);
            if is_there {
                return Fate::IsThere;
            }
            let name = after.free_name(&plan.name);
            let renamed = Saved {
                name: name.clone(),
                ..plan.clone()
            };
            after.plans.push((String::new(), renamed));
            Fate::Comes(name)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use draft::Field;
    use proptest::prelude::*;

    use super::*;

    fn plan(name: &str, weight: &str) -> Saved {
        let mut draft = Draft::default();
        draft.type_into(Field::Weight, weight.to_owned());
        Saved {
            name: name.to_owned(),
            changed: 1_790_000_000_000,
            revision: 0,
            draft,
        }
    }

    /// A file of version 1 as it stands: it must always be read.
    const VERSION_1: &str = include_str!("../data/version-1.json");

    /// The same of version 2.
    const VERSION_2: &str = include_str!("../data/version-2.json");

    #[test]
    fn the_first_version_is_read_for_good() {
        let plans = [plan("Farm", "182,5"), plan("Yard", "")];
        assert_eq!(write_file(&plans, []), VERSION_1);
        let alone = Everything {
            plans: plans.to_vec(),
            ..Everything::default()
        };
        assert_eq!(read_file(VERSION_1).as_ref(), Ok(&alone));
        assert_eq!(read_file(&format!("\u{feff}{VERSION_1}")), Ok(alone));
    }

    #[test]
    fn the_second_version_is_read_for_good() {
        let plans = [plan("Farm", "182,5")];
        let scale = [("settings", "a=1&b=\"c\""), ("test.1", "test 1\nend 0\n")];
        assert_eq!(write_file(&plans, scale), VERSION_2);
        let all = Everything {
            plans: plans.to_vec(),
            scale: scale
                .map(|(key, text)| (key.to_owned(), text.to_owned()))
                .into(),
        };
        assert_eq!(read_file(VERSION_2), Ok(all));
    }

    /// JSON Schema 2020-12, by a validator of general use.
    #[test]
    fn files_keep_to_the_schema_and_bad_ones_do_not() {
        let schema = include_str!("../data/saved-plans.schema.json");
        let schema = serde_json::from_str(schema).expect("JSON");
        let schema = jsonschema::draft202012::new(&schema).expect("a schema");
        let keeps = |text: &str| schema.is_valid(&serde_json::from_str(text).expect("JSON"));
        let mut full = plan("Farm", "182 lb or so");
        for id in Field::singles() {
            full.draft
                .type_into(Field::of_id(id).expect("a field"), "1".to_owned());
        }
        full.draft.fill_in_sample();
        full.draft
            .ways
            .insert("loin".to_owned(), "bone-in".to_owned());
        let file = write_file(&[full], []);
        assert!(keeps(&file), "{file}");
        assert!(keeps(VERSION_1));
        assert!(keeps(VERSION_2));
        assert!(!keeps(&VERSION_2.replacen(
            "\"version\": 2,",
            "\"version\": 1,",
            1
        )));
        for (from, to) in [
            ("saved plans", "recipes"),
            ("\"version\": 1,", "\"version\": 3,"),
            ("\"name\"", "\"title\""),
            ("kg 182", "stone 28"),
            ("\"draft.version\": \"1\"", "\"draft.version\": \"2\""),
        ] {
            assert!(VERSION_1.contains(from), "{from}");
            assert!(!keeps(&VERSION_1.replacen(from, to, 1)), "{to}");
        }
    }

    #[test]
    fn what_is_wrong_is_said_with_its_place() {
        let file = write_file(&[plan("Farm", "182")], []);
        let said = |text: &str| read_file(text).expect_err("a fault").to_string();
        for (text, what) in [
            (String::new(), "Line 1, column 0: the file is cut off"),
            ("{\"product\": 1}".to_owned(), "missing field `sideworth`"),
            (file.replace(KIND, "recipes"), "something other than plans"),
            (
                file.replace("\"version\": 1", "\"version\": 12"),
                "version 12",
            ),
            (file.replace("\"Farm\"", "\" \""), "Plan 1 has no name."),
            (
                file.replace("kg 182", "stone 28"),
                "Plan 1, “Farm”: “side-weight”",
            ),
            (file.replace("\"kg 182\"", "182"), "“side-weight”"),
            (file.replace("side-weight", "side-colour"), "“side-colour”"),
            (
                file.replace("\"name\"", "\"title\""),
                "Line 6, column 13: something is missing here or does not belong here (“unknown field `title`",
            ),
            (file[..file.len() - 20].to_owned(), "cut off"),
            (" ".repeat(LARGEST_FILE + 1), "longer than 8 MB"),
        ] {
            let said = said(&text);
            assert!(said.contains(what), "{what}: {said}");
        }
    }

    #[test]
    fn nothing_on_the_shelf_is_replaced() {
        let mut shelf = Shelf::default();
        shelf.plans.push(("a".to_owned(), plan("Farm", "180")));
        let coming = [
            plan("Farm", "180"),
            plan("Farm", "190"),
            plan("Farm", "200"),
            plan("Yard", "1"),
        ];
        assert_eq!(
            fates(&shelf, &coming),
            [
                Fate::IsThere,
                Fate::Comes("Farm 2".to_owned()),
                Fate::Comes("Farm 3".to_owned()),
                Fate::Comes("Yard".to_owned()),
            ]
        );
    }

    proptest! {
        #[test]
        fn every_plan_comes_back(names in prop::collection::vec("[a-zé \"\\\\<]{1,20}", 0..5), text in "\\PC{0,20}") {
            let plans: Vec<Saved> = names
                .iter()
                .filter_map(|name| tidy(name))
                .map(|name| plan(&name, &text))
                .collect();
            let scale = BTreeMap::from([("weighed".to_owned(), text)]);
            let pairs = scale.iter().map(|(key, text)| (key.as_str(), text.as_str()));
            let file = write_file(&plans, pairs);
            prop_assert_eq!(read_file(&file), Ok(Everything { plans, scale }));
        }

        #[test]
        fn no_file_panics(text in "[\\[{\"a-z:,0-9}\\] ]{0,80}") {
            let _ = read_file(&text);
        }
    }
}
