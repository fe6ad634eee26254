//! A file of everything, or of one plan: what it would bring, before anything is
//! changed.

use std::collections::BTreeMap;

use carcass::Catalogue;
use shelf::file::{Everything, Fate, fates, read_file};
use shelf::plan_file::{is_one_plan, read_plan_file};
use shelf::{Saved, Shelf};
use wording::{say, text};

use crate::block::{Block, Tone};

/// What would come of a file.
#[derive(Default)]
pub struct LookedAt {
    /// The plans that would be added, under the names that they would get.
    pub coming: Vec<Saved>,
    /// The records of the scale that it holds, by their keys.
    pub scale: BTreeMap<String, String>,
    /// What there is to say of the plans, or why the file is not taken.
    pub blocks: Vec<Block>,
}

/// What would come of a file on a shelf. `now` is when it is looked at, in
/// milliseconds since 1970 began in UTC.
pub fn looked_at(catalogue: &Catalogue, shelf: &Shelf, file: &str, now: u64) -> LookedAt {
    // Some editors put a mark before the first letter.
    let file = file.strip_prefix('\u{feff}').unwrap_or(file);
    let read = if is_one_plan(file) {
        read_plan_file(catalogue, file, now)
            .map(|plan| Everything {
                plans: vec![plan],
                ..Everything::default()
            })
            .map_err(|error| error.to_string())
    } else {
        read_file(file).map_err(|fault| fault.to_string())
    };
    match read {
        Err(fault) => LookedAt {
            blocks: refused(fault),
            ..LookedAt::default()
        },
        Ok(Everything { plans, scale }) => {
            let fates = fates(shelf, &plans);
            let coming: Vec<Saved> = plans
                .iter()
                .zip(&fates)
                .filter_map(|(plan, fate)| match fate {
                    Fate::Comes(name) => Some(Saved {
                        name: name.clone(),
                        ..plan.clone()
                    }),
                    Fate::IsThere => None,
                })
                .collect();
            let rows = plans
                .iter()
                .zip(&fates)
                .map(|(plan, fate)| vec![plan.name.clone(), told(plan, fate)])
                .collect();
            let finding = match (plans.len(), coming.len()) {
                (0, _) => text!("The file holds no plan.").to_owned(),
                (_, 0) => text!("All plans of the file are saved here already.").to_owned(),
                (all, new) => say!(
                    "{new} of the {all} plans in the file are new. Nothing that is saved here changes.",
                    new,
                    all
                ),
            };
            let blocks = vec![
                Block::Text(Tone::Finding, finding),
                Block::Table(
                    text!("Plans in the file").to_owned(),
                    [text!("Plan"), text!("Becomes")].map(str::to_owned).into(),
                    rows,
                ),
            ];
            LookedAt {
                coming,
                scale,
                blocks,
            }
        }
    }
}

fn told(plan: &Saved, fate: &Fate) -> String {
    match fate {
        Fate::IsThere => text!("is here already").to_owned(),
        Fate::Comes(name) if *name == plan.name => text!("is added").to_owned(),
        Fate::Comes(name) => say!("is added as “{name}”", name),
    }
}

fn refused(fault: String) -> Vec<Block> {
    vec![
        Block::Text(Tone::Trouble, fault),
        Block::Text(Tone::Note, text!("Nothing has been changed.").to_owned()),
    ]
}

#[cfg(test)]
mod tests {
    use draft::Draft;
    use shelf::file::write_file;

    use super::*;

    #[test]
    fn only_what_is_new_comes() {
        let plan = |name: &str, grass_percent| {
            let mut draft = Draft::default();
            draft.grass_percent = grass_percent;
            Saved {
                name: name.to_owned(),
                changed: 1,
                revision: 0,
                draft,
            }
        };
        let mut shelf = Shelf::default();
        shelf.plans.push(("a".to_owned(), plan("Farm", 0)));
        let file = write_file(&[plan("Farm", 0), plan("Farm", 50), plan("Yard", 0)], []);
        let catalogue = Catalogue::published().expect("published data");
        let LookedAt { coming, blocks, .. } = looked_at(&catalogue, &shelf, &file, 7);
        let names: Vec<_> = coming.iter().map(|plan| plan.name.as_str()).collect();
        assert_eq!(names, ["Farm 2", "Yard"]);
        let Block::Table(_, _, rows) = &blocks[1] else {
            panic!("no table")
        };
        let becomes: Vec<_> = rows.iter().map(|row| row[1].as_str()).collect();
        assert_eq!(
            becomes,
            ["is here already", "is added as “Farm 2”", "is added"]
        );
        let LookedAt { coming, blocks, .. } = looked_at(&catalogue, &shelf, "{", 7);
        assert!(coming.is_empty());
        assert!(
            matches!(&blocks[0], Block::Text(Tone::Trouble, text) if text.starts_with("Line 1"))
        );
    }

    #[test]
    fn a_file_of_one_plan_comes_as_one_more_and_a_bad_one_says_where() {
        let catalogue = Catalogue::published().expect("published data");
        let file = document::Document::sample().to_json().expect("JSON");
        let mut shelf = Shelf::default();
        let LookedAt { coming, .. } = looked_at(&catalogue, &shelf, &format!("\u{feff}{file}"), 7);
        assert_eq!(coming.len(), 1);
        let text = coming[0].to_text();
        assert_eq!(Saved::of_text(&text).as_ref(), Ok(&coming[0]));
        shelf.plans.push(("a".to_owned(), coming[0].clone()));
        let LookedAt { coming, .. } = looked_at(&catalogue, &shelf, &file, 8);
        assert_eq!(coming, []);
        let bad = file.replacen("boneless", "boneful", 1);
        let LookedAt { coming, blocks, .. } = looked_at(&catalogue, &shelf, &bad, 8);
        assert_eq!(coming, []);
        assert!(
            matches!(&blocks[0], Block::Text(Tone::Trouble, text) if text.contains("plan.base"))
        );
    }
}
