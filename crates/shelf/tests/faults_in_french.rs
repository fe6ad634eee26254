//! What is wrong with a file of plans is said in the language that was put in force, and not in the
//! one of the program.

use carcass::Catalogue;
use document::Document;
use shelf::file::read_file;
use shelf::plan_file::read_plan_file;
use wording::{Language, speak};

#[test]
fn a_file_of_plans_is_refused_in_french() {
    let language = Language::French;
    speak(language, &[&language.page(), &language.rest()]).expect("texts of this build");
    let catalogue = Catalogue::published().expect("published data");
    let plan = Document::sample().to_json().expect("a document");
    let refused = |from: &str, to: &str| {
        assert!(plan.contains(from), "{from}");
        read_plan_file(&catalogue, &plan.replacen(from, to, 1), 7)
            .expect_err(to)
            .to_string()
    };
    for (from, to, said) in [
        (
            "\"boneless\"",
            "\"boneful\"",
            "plan.base\u{a0}: aucun plan ne s’appelle «\u{a0}boneful\u{a0}»",
        ),
        (
            "\"kg\"",
            "\"stone\"",
            "deal.weight.unit\u{a0}: «\u{a0}stone\u{a0}» doit être kg ou lb",
        ),
        (
            "\"180\"",
            "\"-1\"",
            "deal.weight.amount\u{a0}: «\u{a0}-1\u{a0}» est sous zéro\u{a0}: entrez zéro ou plus.",
        ),
        (
            "\"version\": 2",
            "\"version\": 7",
            "Le plan est de la version 7, cet outil lit jusqu’à 2\u{a0}: ouvrez-le avec un Sideworth plus récent.",
        ),
    ] {
        assert_eq!(refused(from, to), said);
    }
    let cut_off = read_file("{").expect_err("cut off").to_string();
    assert_eq!(
        cut_off,
        "Ligne 1, colonne 1\u{a0}: le fichier est coupé ici."
    );
}
