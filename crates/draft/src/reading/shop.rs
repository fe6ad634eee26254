//! The shop of a draft: labour, packaging, losses, price board, what may be done
//! to suggested prices.

use carcass::Catalogue;
use document::PriceAmount;
use document::format::{LossForm, PackagingForm, RoundingForm, RuleForm, ShopForm};
use litemap::LiteMap;
use pricing::Endings;
use quantity::{PriceUnit, Share, typed};
use wording::text;

use super::{Reading, by_product_price, plain, price};
use crate::Field;

impl Reading<'_> {
    /// Losses between block and till of every cut.
    fn losses(&mut self) -> Option<LossForm> {
        let share = |reading: &mut Self, field: Field| {
            reading.percent(field, |share| {
                (share >= Share::WHOLE).then_some(text!(
                    "is 100 % or more, which leaves nothing to sell: type a number such as 4."
                ))
            })
        };
        let purge = share(self, Field::Purge);
        let unsold = share(self, Field::Unsold);
        let marked_down = share(self, Field::MarkedDown);
        let discount = share(self, Field::Discount);
        let losses = LossForm {
            purge: purge?,
            unsold: unsold?,
            marked_down: marked_down?,
            discount: discount?,
        };
        self.leaves_some(&losses, Field::MarkedDown)
            .then_some(losses)
    }

    /// Whether losses that can each be leave something to sell together; where
    /// they do not, it is noted at `field`.
    fn leaves_some(&mut self, losses: &LossForm, field: Field) -> bool {
        let is_sound = losses.is_sound();
        if !is_sound {
            let fault = text!(
                "Unsold and marked down come to more than 100 % together: type smaller shares."
            );
            self.faults.insert(field, fault.to_owned());
        }
        is_sound
    }

    /// An optional price: `None` where nothing is typed or it cannot be read.
    fn bound(&mut self, field: Field) -> Option<PriceAmount> {
        if self.draft.entry(&field).own {
            self.price(field)
        } else {
            None
        }
    }

    /// What may be done to suggested prices, where something is typed.
    fn rules(&mut self, catalogue: &Catalogue) -> LiteMap<String, RuleForm> {
        let mut rules = LiteMap::new();
        for (_, product) in catalogue.products() {
            let id = &product.id;
            let pin = self.bound(Field::Pin(id.clone()));
            let floor = self.bound(Field::Floor(id.clone()));
            let cap = self.bound(Field::Cap(id.clone()));
            let rule = match pin {
                Some(price) => RuleForm::Pinned(price),
                None if floor.is_none() && cap.is_none() => continue,
                None => RuleForm::Between { floor, cap },
            };
            rules.insert(id.clone(), rule);
        }
        rules
    }

    fn endings(&mut self) -> Option<String> {
        self.field(Field::Endings, |entry| {
            if entry.own {
                Endings::typed(&entry.text).map_err(|error| error.to_string())?;
            }
            Ok(entry.text.clone())
        })
    }

    fn board_price(&mut self, catalogue: &Catalogue, id: &str) -> Option<PriceAmount> {
        let product = catalogue.product_id(id)?;
        let read = if catalogue[product].kind.is_by_product() {
            by_product_price
        } else {
            price
        };
        self.field(Field::Board(id.to_owned()), |entry| {
            read(entry)
                .map(|(price, unit)| PriceAmount::new(price, unit))
                .map_err(|error| error.to_string())
        })
    }

    fn packaging(&mut self) -> Option<PackagingForm> {
        if !self.draft.counts_packs {
            return self.price(Field::Packaging).map(PackagingForm::PerWeight);
        }
        let cost = self.field(Field::PackCost, |entry| {
            typed::money(&entry.text)
                .map(|money| plain(money.units()))
                .map_err(|error| error.to_string())
        });
        let holds = self.weight_above_nothing(
            Field::PackHolds,
            text!("A pack must hold something: type a weight above 0, such as 0.7."),
        );
        Some(PackagingForm::PerPack {
            cost: cost?,
            holds: holds?,
        })
    }

    pub(super) fn shop(&mut self, catalogue: &Catalogue) -> Option<ShopForm> {
        let labour_per_hour = self.per_hour(Field::LabourRate);
        let target_margin_percent = self.percent(Field::TargetMargin, |share| {
            (share >= Share::WHOLE).then_some(
                text!("is 100 % or more, which leaves nothing to pay for the side: type a number below 100, such as 28."),
            )
        });
        let packaging = self.packaging();
        let losses = self.losses();
        let on_cost_percent = self.percent(Field::OnCost, |_| None);
        let overhead_per_hour = self.per_hour(Field::Overhead);
        let endings = self.endings();
        let rules = self.rules(catalogue);
        let mut board = LiteMap::new();
        let mut own_losses: LiteMap<String, LossForm> = LiteMap::new();
        let mut own_minutes = LiteMap::new();
        let typed: Vec<Field> = self.draft.typed_fields().cloned().collect();
        for field in typed {
            match &field {
                Field::Board(id) => {
                    if let Some(amount) = self.board_price(catalogue, id) {
                        board.insert(id.clone(), amount);
                    }
                }
                Field::CutUnsold(id) | Field::CutMarkedDown(id) => {
                    let share = self.percent(field.clone(), |share| {
                        (share >= Share::WHOLE)
                            .then_some(text!("is 100 % or more, which leaves nothing to sell."))
                    });
                    if let (Some(share), Some(losses)) = (share, &losses) {
                        let known = own_losses.get(id).cloned();
                        let mut loss = known.unwrap_or_else(|| losses.clone());
                        if matches!(field, Field::CutUnsold(_)) {
                            loss.unsold = share;
                        } else {
                            loss.marked_down = share;
                        }
                        own_losses.insert(id.clone(), loss);
                    }
                }
                Field::WayMinutes(id) => {
                    let minutes = self.field(field.clone(), |entry| {
                        typed::minutes(&entry.text)
                            .map(|minutes| plain(minutes.minutes()))
                            .map_err(|error| error.to_string())
                    });
                    if let Some(minutes) = minutes {
                        own_minutes.insert(id.clone(), minutes);
                    }
                }
                _ => {}
            }
        }
        for (id, loss) in &own_losses {
            let marked_down = Field::CutMarkedDown(id.clone());
            let field = if self.draft.entry(&marked_down).own {
                marked_down
            } else {
                Field::CutUnsold(id.clone())
            };
            self.leaves_some(loss, field);
        }
        Some(ShopForm {
            labour_per_hour: labour_per_hour?,
            on_cost_percent: on_cost_percent?,
            overhead_per_hour: overhead_per_hour?,
            own_minutes,
            target_margin_percent: target_margin_percent?,
            packaging: packaging?,
            losses: losses?,
            own_losses,
            method: self.draft.method,
            board,
            rules,
            rounding: RoundingForm {
                endings: endings?,
                to: self.draft.round_to,
                unit: if self.draft.round_per_100g {
                    PriceUnit::Per100Gram
                } else {
                    self.draft.units.price()
                }
                .symbol()
                .to_owned(),
            },
        })
    }
}
