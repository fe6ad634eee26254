//! The catalogue without what only explains it.

use crate::catalogue::Catalogue;

impl Catalogue {
    /// The same parts, ways and figures, without names, code numbers, notes and
    /// sources. A side is priced from it as from the whole; it is what a phone
    /// needs first. What everything is called comes with the language in use
    /// ([`Self::call_by`]).
    #[must_use]
    pub fn brief(mut self) -> Self {
        for name in self.all_names() {
            name.clear();
        }
        for part in &mut self.parts {
            part.canadian_name = None;
            part.item = None;
            part.unece = None;
        }
        for product in &mut self.products {
            product.other_names = None;
            product.item = None;
            product.unece = None;
            product.use_note = None;
        }
        for output in self.ways.iter_mut().flat_map(|way| &mut way.outputs) {
            output.note = None;
            output.source = 0;
        }
        self.sources.clear();
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_figure_is_that_of_the_whole_and_nothing_is_cited() {
        let whole = Catalogue::published().expect("published data");
        let brief = Catalogue::from_packed(&whole.clone().brief().packed()).expect("packed");
        assert!(brief.sources().is_empty());
        assert!(brief.packed().len() * 3 < whole.packed().len());
        let mut named = brief.clone();
        named
            .call_by(&whole.own_names().names)
            .expect("as many names");
        assert_eq!(named.own_names().names, whole.own_names().names);
        for (of_whole, of_brief) in whole.plans().iter().zip(brief.plans()) {
            assert_eq!(of_whole.id, of_brief.id);
        }
        for ((_, of_whole), (_, of_brief)) in whole.ways().zip(brief.ways()) {
            assert_eq!(of_whole.id, of_brief.id);
            for (one, other) in of_whole.outputs.iter().zip(&of_brief.outputs) {
                assert_eq!(
                    (one.output, one.grain, one.grass, one.fat, one.mark),
                    (
                        other.output,
                        other.grain,
                        other.grass,
                        other.fat,
                        other.mark
                    )
                );
                assert!(brief.source_of(other).is_none());
            }
        }
    }
}
