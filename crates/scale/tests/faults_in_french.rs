//! What is wrong with a kept record is said in the language that was put in force, the name of what
//! should stand there too.

use scale::grinding_log::GrindingLog;
use wording::{Language, speak};

#[test]
fn a_record_is_refused_in_french() {
    let language = Language::French;
    speak(language, &[&language.page(), &language.rest()]).expect("texts of this build");
    for (text, said) in [
        (
            "grinding-log 1\nb G1 - 2026-03-32\nend 1\n",
            "Ligne 2\u{a0}: «\u{a0}2026-03-32\u{a0}» doit être une date.",
        ),
        (
            "grinding-log 1\nb\nend 1\n",
            "Ligne 2\u{a0}: il n’y a rien là où il faut le code d’un lot haché.",
        ),
    ] {
        let error = GrindingLog::of_text(text).expect_err(said);
        assert_eq!(error.to_string(), said);
    }
}
