//! Ten thousand sides drawn for the panel “How sure is it”, from the question
//! as it comes over the line to the last answer as it goes back: what the
//! worker does in a browser, on this machine.

use std::hint::black_box;

use advice::{Desk, Panel, wire};
use carcass::Catalogue;
use criterion::{Criterion, criterion_group, criterion_main};
use draft::{Draft, Field};

/// A side cut to far more cuts than any is: every part by its first two ways,
/// and every class of grind.
fn many_cuts(catalogue: &Catalogue) -> String {
    let mut draft = Draft::default();
    draft.fill_in_sample();
    let below = catalogue.parts().filter(|(id, _)| *id != catalogue.root());
    for (_, part) in below {
        if let [one, other, ..] = part.ways[..] {
            let [one, other] = [one, other].map(|way| catalogue[way].id.clone());
            draft.ways.insert(part.id.clone(), one);
            draft.second_ways.insert(part.id.clone(), other);
        }
    }
    for class in catalogue.grind_classes() {
        draft.type_into(Field::Grind(class.id.clone()), "20".to_owned());
    }
    draft.to_text()
}

fn answered(bench: &mut Criterion) {
    let catalogue = Catalogue::published().expect("published data");
    let question = wire::request(Panel::Spread, &many_cuts(&catalogue), []);
    let mut desk = Desk::new(catalogue);
    bench.bench_function("10,000 draws from question to last answer", |bench| {
        bench.iter(|| {
            let request = wire::read_request(desk.catalogue(), black_box(&question));
            desk.ask(request.expect("a question"));
            let mut letters = 0;
            while !desk.is_idle() {
                if let Some(answer) = desk.step() {
                    letters += wire::answer(&answer).len();
                }
            }
            letters
        });
    });
}

criterion_group!(benches, answered);
criterion_main!(benches);
