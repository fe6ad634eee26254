//! Saved plans as a file: what one would bring, before anything is changed.

use shelf::file::{Fate, FileFault, fates, read_file};
use shelf::{Saved, Shelf};
use wording::{say, text};

use crate::block::{Block, Tone};

/// What would come of a file on a shelf: the plans that would be added, under
/// the names that they would get, and what there is to say of it.
pub fn looked_at(shelf: &Shelf, file: &str) -> (Vec<Saved>, Vec<Block>) {
    match read_file(file) {
        Err(fault) => (Vec::new(), refused(&fault)),
        Ok(plans) => {
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
            (coming, blocks)
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

fn refused(fault: &FileFault) -> Vec<Block> {
    vec![
        Block::Text(Tone::Trouble, fault.to_string()),
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
        let file = write_file(&[plan("Farm", 0), plan("Farm", 50), plan("Yard", 0)]);
        let (coming, blocks) = looked_at(&shelf, &file);
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
        let (coming, blocks) = looked_at(&shelf, "{");
        assert!(coming.is_empty());
        assert!(
            matches!(&blocks[0], Block::Text(Tone::Trouble, text) if text.starts_with("Line 1"))
        );
    }
}
