//! How far the shop's own sides differ: published, own and used spread, and the
//! way back to the published one.

use advice::steps::Steps;
use advice::{Block, blocks};
use notation::in_field;
use quantity::Share;
use scale::{Learning, SpreadOf, TestedSide};
use wording::text;

use crate::controls::{button, heading, note};
use crate::ledger::Ledger;

/// The table of the spread with its switch.
pub(crate) fn written(
    ledger: &Ledger,
    learning: &Learning,
    tested: &[TestedSide],
    steps: &mut Steps,
) {
    heading(steps, text!("Spread of sides"));
    let is_published = ledger.settings.is_spread_published;
    let own = learning.spread(tested);
    let catalogue = ledger.catalogues().published;
    let saleable = row(
        text!("Saleable share of the side"),
        &own.saleable,
        is_published,
    );
    let groups = own.groups.iter().filter_map(|(product, of_group)| {
        let group = catalogue.spread_of(*product)?;
        let name = word(&group.name).unwrap_or(&group.name);
        Some(row(name, of_group, is_published))
    });
    let heads = [
        text!("What strays"),
        text!("Published|a yield"),
        text!("Own|a yield"),
        text!("Used|a yield"),
        text!("Sides|a head"),
    ];
    let table = Block::FoldedTable(
        text!("Spread of the side and of every group of cuts").to_owned(),
        heads.map(str::to_owned).to_vec(),
        core::iter::once(saleable).chain(groups).collect(),
    );
    steps.raw(&blocks(&[table]));
    note(
        steps,
        text!(
            "One standard deviation from side to side, for the draws: of the saleable share as a share of the side, of a group as a share of what it weighs. A herd you know, or fat depth and weight, never stray further than what is used here."
        ),
    );
    if is_published {
        note(
            steps,
            text!("Put back: draws reckon with the published spread."),
        );
        button(steps, "quiet", "spread-own", text!("Use our own spread"));
    } else {
        let back = text!("Back to the published spread");
        button(steps, "quiet", "spread-published", back);
    }
}

fn row(name: &str, of: &SpreadOf, is_published: bool) -> Vec<String> {
    let said = |share: Share| format!("± {}", notation::share(share));
    vec![
        name.to_owned(),
        said(of.published),
        of.own.map_or_else(|| "–".to_owned(), said),
        said(if is_published { of.published } else { of.used }),
        in_field(of.sides, 0),
    ]
}

/// A group of cuts in the language in force.
fn word(group: &str) -> Option<&'static str> {
    Some(match group {
        "Top (inside) round" => text!("Top (inside) round|a group"),
        "Outside round and rump" => text!("Outside round and rump|a group"),
        "Eye of round" => text!("Eye of round|a group"),
        "Knuckle (sirloin tip)" => text!("Knuckle (sirloin tip)|a group"),
        "Sirloin" => text!("Sirloin|a group"),
        "Strip loin" => text!("Strip loin|a group"),
        "Tenderloin" => text!("Tenderloin|a group"),
        "Ribeye" => text!("Ribeye|a group"),
        "Flank steak" => text!("Flank steak|a group"),
        "Brisket" => text!("Brisket|a group"),
        "Chuck tender" => text!("Chuck tender|a group"),
        "Chuck and neck" => text!("Chuck and neck|a group"),
        "Shank" => text!("Shank|a group"),
        "Grind and diced trim" => text!("Grind and diced trim|a group"),
        "Other lean" => text!("Other lean|a group"),
        "Fat" => text!("Fat|a group"),
        "Bone" => text!("Bone|a group"),
        "Losses" => text!("Losses|a group"),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use carcass::Catalogue;

    use super::*;

    #[test]
    fn every_group_has_its_word() {
        let catalogue = Catalogue::published().expect("published data");
        for (product, _) in catalogue.products() {
            let group = &catalogue.spread_of(product).expect("a group").name;
            assert_eq!(word(group), Some(group.as_str()));
        }
    }
}
