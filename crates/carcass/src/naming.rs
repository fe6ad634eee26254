//! The names of parts, ways, products, plans, classes and cautions in other
//! languages than English: a data file each, `names-fr.csv` and `names-es.csv`,
//! held complete when they are read. The build writes what they give as plain
//! lines in the order of the catalogue, which are loaded on demand.

use core::fmt;

use litemap::LiteMap;

use crate::Catalogue;
use crate::data;
use crate::table::{DataError, DataFile, rows};

/// A language that the catalogue has names in besides English.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NamesIn {
    /// French, as cuts are called in Canada.
    French,
    /// Spanish.
    Spanish,
}

/// What the catalogue is called in another language, one line a name, in the
/// order of the catalogue.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Names {
    /// Parts, ways, products, cautions, plans, classes of grind.
    pub names: String,
    /// What each product is used for; an empty line where nothing is said.
    pub uses: String,
}

/// Lines that are not the names of this catalogue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OtherNames {
    /// How many lines there are.
    pub lines: usize,
}

impl fmt::Display for OtherNames {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} names are not those of this catalogue", self.lines)
    }
}

impl core::error::Error for OtherNames {}

impl Catalogue {
    /// What everything is called in a language.
    ///
    /// # Errors
    /// [`DataError`] where a name is missing, there twice, or of nothing.
    pub fn names_in(&self, language: NamesIn) -> Result<Names, DataError> {
        let file = match language {
            NamesIn::French => data::NAMES_FR,
            NamesIn::Spanish => data::NAMES_ES,
        };
        self.read_names(file)
    }

    /// What everything is called in the data files themselves, which is English.
    pub fn own_names(&self) -> Names {
        let line = |name: &str| format!("{name}\n");
        let products = self.products.iter();
        let uses = products.map(|product| line(product.use_note.as_deref().unwrap_or_default()));
        Names {
            names: self
                .clone()
                .all_names()
                .into_iter()
                .map(|name| line(name))
                .collect(),
            uses: uses.collect(),
        }
    }

    /// Calls everything by other names, [`Names::names`].
    ///
    /// # Errors
    /// Where these are not as many lines as there are names; nothing is
    /// changed.
    pub fn call_by(&mut self, names: &str) -> Result<(), OtherNames> {
        let lines: Vec<&str> = names.lines().collect();
        let mut own = self.all_names();
        if own.len() != lines.len() {
            return Err(OtherNames { lines: lines.len() });
        }
        for (name, line) in own.iter_mut().zip(lines) {
            line.clone_into(name);
        }
        Ok(())
    }

    /// Says what products are used for in other words, [`Names::uses`].
    ///
    /// # Errors
    /// Where these are not as many lines as there are products; nothing is
    /// changed.
    pub fn use_by(&mut self, uses: &str) -> Result<(), OtherNames> {
        let lines: Vec<&str> = uses.lines().collect();
        if self.products.len() != lines.len() {
            return Err(OtherNames { lines: lines.len() });
        }
        for (product, line) in self.products.iter_mut().zip(lines) {
            product.use_note = Some(line.to_owned()).filter(|line| !line.is_empty());
        }
        Ok(())
    }

    /// Put together by plain loops, since a chain of iterators is long code.
    pub(crate) fn all_names(&mut self) -> Vec<&mut String> {
        let mut names = Vec::new();
        for part in &mut self.parts {
            names.push(&mut part.name);
        }
        for way in &mut self.ways {
            names.push(&mut way.name);
        }
        for product in &mut self.products {
            names.push(&mut product.name);
        }
        for caution in &mut self.cautions {
            names.push(&mut caution.title);
            names.push(&mut caution.text);
        }
        for plan in &mut self.plans {
            names.push(&mut plan.name);
        }
        for class in &mut self.grind_classes {
            names.push(&mut class.name);
        }
        names
    }

    fn read_names(&self, file: DataFile) -> Result<Names, DataError> {
        let fault = |line, message| DataError {
            file: file.name,
            line,
            message,
        };
        let mut texts: LiteMap<(String, String), (u64, String)> = LiteMap::new();
        for row in rows(file, &["of", "id", "text"])? {
            let key = (row.required("of")?, row.required("id")?);
            let text = row.required("text")?;
            if let Some((first, _)) = texts.insert(key, (row.line, text)) {
                let message = format!("this is on line {first} already");
                return Err(fault(Some(row.line), message));
            }
        }
        let mut take = |of: &str, id: &str| {
            let found = texts.remove(&(of.to_owned(), id.to_owned()));
            let (_, text) =
                found.ok_or_else(|| fault(None, format!("the {of} “{id}” is missing")))?;
            Ok(text + "\n")
        };
        let mut names = String::new();
        let ids = self.parts.iter().map(|part| ("part", &part.id));
        let ids = ids.chain(self.ways.iter().map(|way| ("way", &way.id)));
        let products = self.products.iter();
        let ids = ids.chain(products.map(|product| ("product", &product.id)));
        for (of, id) in ids {
            names += &take(of, id)?;
        }
        for caution in &self.cautions {
            names += &take("caution", &caution.id)?;
            names += &take("caution text", &caution.id)?;
        }
        let plans = self.plans.iter().map(|plan| ("plan", &plan.id));
        let classes = self.grind_classes.iter().map(|class| ("class", &class.id));
        for (of, id) in plans.chain(classes) {
            names += &take(of, id)?;
        }
        let mut uses = String::new();
        for product in &self.products {
            uses += &match product.use_note {
                Some(_) => take("use", &product.id)?,
                None => "\n".to_owned(),
            };
        }
        match texts.iter().next() {
            None => Ok(Names { names, uses }),
            Some(((of, id), (line, _))) => {
                let message = format!("there is no {of} “{id}”");
                Err(fault(Some(*line), message))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LANGUAGES: [NamesIn; 2] = [NamesIn::French, NamesIn::Spanish];

    fn published() -> Catalogue {
        Catalogue::published().expect("published data")
    }

    #[test]
    fn every_name_is_there_and_stands_where_it_belongs() {
        for language in LANGUAGES {
            let mut catalogue = published();
            let names = catalogue.names_in(language).expect("names");
            catalogue.call_by(&names.names).expect("as many names");
            catalogue.use_by(&names.uses).expect("as many uses");
            let again = catalogue.names_in(language).expect("names");
            assert_eq!(names, again);
            let written: Vec<String> = catalogue
                .all_names()
                .into_iter()
                .map(|name| name.clone())
                .collect();
            assert_eq!(names.names.lines().collect::<Vec<_>>(), written);
        }
    }

    #[test]
    fn the_names_of_the_data_files_come_back_as_they_were() {
        let whole = published();
        let mut catalogue = whole.clone();
        let french = catalogue.names_in(NamesIn::French).expect("names");
        catalogue.call_by(&french.names).expect("as many names");
        catalogue.use_by(&french.uses).expect("as many uses");
        assert_ne!(catalogue.packed(), whole.packed());
        let own = whole.own_names();
        catalogue.call_by(&own.names).expect("as many names");
        catalogue.use_by(&own.uses).expect("as many uses");
        assert_eq!(catalogue.packed(), whole.packed());
    }

    /// Two cuts with one name could not be told apart on the sheet.
    #[test]
    fn no_two_products_or_parts_share_a_name() {
        for language in LANGUAGES {
            let mut catalogue = published();
            let names = catalogue.names_in(language).expect("names");
            catalogue.call_by(&names.names).expect("as many names");
            let mut products: Vec<&str> = catalogue
                .products
                .iter()
                .map(|it| it.name.as_str())
                .collect();
            let mut parts: Vec<&str> = catalogue.parts.iter().map(|it| it.name.as_str()).collect();
            for all in [&mut products, &mut parts] {
                all.sort_unstable();
                let twice = all.windows(2).find(|pair| pair[0] == pair[1]);
                assert_eq!(twice, None, "{language:?}");
            }
        }
    }

    #[test]
    fn lines_of_something_else_change_nothing() {
        let mut catalogue = published();
        assert_eq!(catalogue.call_by("one\ntwo"), Err(OtherNames { lines: 2 }));
        assert_eq!(catalogue.use_by(""), Err(OtherNames { lines: 0 }));
        assert_eq!(catalogue.packed(), published().packed());
    }

    #[test]
    fn a_name_that_is_missing_twice_or_of_nothing_is_refused() {
        let refused = |text: &'static str| {
            let file = DataFile {
                name: "names.csv",
                text,
            };
            published()
                .read_names(file)
                .expect_err("not complete")
                .message
        };
        assert_eq!(refused("of,id,text\n"), "the part “side” is missing");
        let twice = "of,id,text\npart,side,A\npart,side,B\n";
        assert_eq!(refused(twice), "this is on line 2 already");
    }
}
