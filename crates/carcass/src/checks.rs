//! What must hold of the data before anything is computed from it.
//!
//! Ids are resolved while reading; here: every part can be broken, every way
//! closes to exactly one, no part comes off itself, every product is reached
//! by a way or made by the plan, every trim has a fat content, every product
//! but a loss has a sample price.

use quantity::Share;

use crate::catalogue::{Catalogue, Kind, Output, PartId, Role, WayOutput};
use crate::loading::DataSet;
use crate::table::{DataError, DataFile};

/// Checks the linked catalogue.
///
/// # Errors
/// The first fault, with file and line.
pub(crate) fn check(catalogue: &Catalogue, set: &DataSet) -> Result<(), DataError> {
    every_way_closes(catalogue, set)?;
    no_part_comes_off_itself(catalogue, set)?;
    every_product_is_reached(catalogue, set)?;
    what_the_plan_makes_is_there(catalogue, set)?;
    every_product_has_a_price(catalogue, set)
}

fn fault(file: DataFile, line: Option<u64>, message: String) -> DataError {
    DataError {
        file: file.name,
        line,
        message,
    }
}

fn every_way_closes(catalogue: &Catalogue, set: &DataSet) -> Result<(), DataError> {
    for (_, way) in catalogue.ways() {
        let sum: Share = way.outputs.iter().map(|output| output.grain).sum();
        if sum != Share::WHOLE {
            let last = way.outputs.last();
            return Err(match last {
                Some(last) => fault(
                    set.shares,
                    Some(last.line),
                    format!(
                        "the shares of “{}” sum to {sum:?}, which must be 100 %",
                        way.id
                    ),
                ),
                None => fault(
                    set.ways,
                    Some(way.line),
                    format!("“{}” gives nothing: it has no line in the shares", way.id),
                ),
            });
        }
    }
    match catalogue.parts().find(|(_, part)| part.ways.is_empty()) {
        Some((_, part)) => Err(fault(
            set.ways,
            None,
            format!("the part “{}” has no way to break it", part.id),
        )),
        None => Ok(()),
    }
}

/// Walks down from every part; meeting a part on its own path is a circle.
fn no_part_comes_off_itself(catalogue: &Catalogue, set: &DataSet) -> Result<(), DataError> {
    fn walk(
        catalogue: &Catalogue,
        part: PartId,
        path: &mut Vec<PartId>,
        done: &mut Vec<PartId>,
    ) -> Result<(), (u64, PartId)> {
        if done.contains(&part) {
            return Ok(());
        }
        path.push(part);
        for &way in &catalogue[part].ways {
            for output in &catalogue[way].outputs {
                if let Output::Part(next) = output.output {
                    if path.contains(&next) {
                        return Err((output.line, next));
                    }
                    walk(catalogue, next, path, done)?;
                }
            }
        }
        path.pop();
        done.push(part);
        Ok(())
    }

    let mut done = Vec::new();
    for (part, _) in catalogue.parts() {
        walk(catalogue, part, &mut Vec::new(), &mut done).map_err(|(line, part)| {
            fault(
                set.shares,
                Some(line),
                format!("the part “{}” comes off itself", catalogue[part].id),
            )
        })?;
    }
    Ok(())
}

fn every_product_is_reached(catalogue: &Catalogue, set: &DataSet) -> Result<(), DataError> {
    let unreached = catalogue.products().find(|&(product, data)| {
        let is_planned =
            data.role == Some(Role::AgeingLoss) || catalogue.grind_class_of(product).is_some();
        !is_planned
            && !catalogue.ways().any(|(_, way)| {
                way.outputs
                    .iter()
                    .any(|output| output.output == Output::Product(product))
            })
    });
    match unreached {
        Some((_, product)) => Err(fault(
            set.products,
            None,
            format!("no way gives the product “{}”", product.id),
        )),
        None => Ok(()),
    }
}

/// The plan blends lean and fat trim to classes and takes the loss of ageing:
/// it needs a product for each, a fat content for every trim and classes that
/// are cuts.
fn what_the_plan_makes_is_there(catalogue: &Catalogue, set: &DataSet) -> Result<(), DataError> {
    for (role, name) in [
        (Role::LeanTrim, "lean-trim"),
        (Role::FatTrim, "fat-trim"),
        (Role::AgeingLoss, "ageing-loss"),
    ] {
        if catalogue.product_in_role(role).is_none() {
            let message = format!("no product has the role “{name}”");
            return Err(fault(set.products, None, message));
        }
    }
    for class in catalogue.grind_classes() {
        let product = &catalogue[class.product];
        if product.kind != Kind::Cut || product.role.is_some() {
            let message = format!("“{}” must be a cut without a role", product.id);
            return Err(fault(set.grind_classes, None, message));
        }
    }
    let lacks_fat = |output: &&WayOutput| {
        let is_trim = match output.output {
            Output::Product(product) => {
                matches!(
                    catalogue[product].role,
                    Some(Role::LeanTrim | Role::FatTrim)
                )
            }
            Output::Part(_) => false,
        };
        is_trim && output.fat.is_none()
    };
    let mut outputs = catalogue.ways().flat_map(|(_, way)| &way.outputs);
    match outputs.find(lacks_fat) {
        Some(output) => Err(fault(
            set.shares,
            Some(output.line),
            "a trim needs a fat content in “fat_pct”".to_owned(),
        )),
        None => Ok(()),
    }
}

fn every_product_has_a_price(catalogue: &Catalogue, set: &DataSet) -> Result<(), DataError> {
    let unpriced = catalogue.products().find(|&(id, product)| {
        product.kind == Kind::Cut && !catalogue.sample_price(id).is_positive()
    });
    match unpriced {
        Some((_, product)) => Err(fault(
            set.sample_board,
            None,
            format!("the cut “{}” has no price above zero", product.id),
        )),
        None => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The published set with one replacement in one file.
    #[track_caller]
    fn broken(pick: impl Fn(&mut DataSet) -> &mut DataFile, from: &str, to: &str) -> DataError {
        let mut set = DataSet::PUBLISHED;
        let file = pick(&mut set);
        assert!(file.text.contains(from), "{} holds {from:?}", file.name);
        // Leaked once a test: the files are static everywhere else.
        file.text = Box::leak(file.text.replacen(from, to, 1).into_boxed_str());
        set.load().expect_err("a broken file is refused")
    }

    #[test]
    fn the_published_data_loads() {
        let catalogue = Catalogue::published().expect("published data");
        assert!(catalogue.plan("boneless").is_some());
        assert!(catalogue.plan("bone-in").is_some());
    }

    #[test]
    fn a_way_that_does_not_close_is_named_with_its_line() {
        let line = DataSet::PUBLISHED
            .shares
            .text
            .lines()
            .nth(1)
            .expect("a first share");
        let mut fields: Vec<&str> = line.split(',').collect();
        fields[2] = "0.001";
        let error = broken(|set| &mut set.shares, line, &fields.join(","));
        assert_eq!(error.file, "shares.csv");
        assert!(error.line.is_some());
        assert!(error.message.contains("must be 100 %"), "{error}");
    }

    #[test]
    fn a_trim_without_fat_and_a_missing_role_are_refused() {
        let line = DataSet::PUBLISHED
            .shares
            .text
            .lines()
            .find(|line| line.contains(",ground-beef,"))
            .expect("a lean trim");
        let mut fields: Vec<&str> = line.split(',').collect();
        fields[3] = "";
        let error = broken(|set| &mut set.shares, line, &fields.join(","));
        assert!(error.line.is_some() && error.message.contains("fat_pct"));
        let error = broken(|set| &mut set.products, "loss,ageing-loss,", "loss,,");
        assert_eq!(error.file, "products.csv");
        let error = broken(|set| &mut set.products, ",cut,lean-trim,", ",cut,fat-trim,");
        assert_eq!((error.file, error.line), ("products.csv", Some(2)));
    }

    #[test]
    fn an_unknown_id_is_named_with_its_line() {
        let error = broken(
            |set| &mut set.plans,
            "\nboneless,",
            "\nboneless,X,no-such-part,y\nboneless,",
        );
        assert_eq!(
            error.to_string(),
            "plans.csv line 2: “part” names “no-such-part”, which is not defined"
        );
    }
}
