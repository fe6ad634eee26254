//! What is known of the yields of one way at one end of the stock.

use carcass::{Output, StockEnd, WayId};
use quantity::{Decimal, Share};

use super::Learning;
use super::interval::{Interval, TAILS, share_of, student};
use super::sums::{Posterior, Sums};
use crate::composition::closed;

/// One output of a way: published, own and used, each as a share of the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OutputYield {
    /// What it is.
    pub output: Output,
    /// As published.
    pub published: Share,
    /// Mean of the shop's own tests, brought to this end; `None` without any.
    /// It can lie outside 0 to 1 where a test of other stock was brought here.
    pub own: Option<Share>,
    /// What plans use. Those of one way sum to exactly one.
    pub used: Share,
    /// Where the shop's long-run yield lies with a chance of 90 %.
    pub interval: Interval,
    /// Standard deviation between sides.
    pub deviation: Share,
}

/// A way at one end of the stock.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WayYield {
    /// The way.
    pub way: WayId,
    /// The end.
    pub end: StockEnd,
    /// How many of the shop's own sides count, each by how near its stock lies.
    pub sides: Decimal,
    /// Its outputs, in their order.
    pub outputs: Vec<OutputYield>,
}

impl WayYield {
    /// The shares that plans use, in the order of the outputs.
    pub fn used(&self) -> Vec<Share> {
        self.outputs.iter().map(|output| output.used).collect()
    }
}

impl Learning<'_> {
    /// What is known of `way` at `end`.
    pub fn way(&self, way: WayId, end: StockEnd) -> WayYield {
        let data = &self.catalogue[way];
        let none = Sums::of(data.outputs.len());
        let sums = self.sums.get(&(way, end)).unwrap_or(&none);
        let deviations = self.published_deviations(way, end);
        let posteriors: Vec<Posterior> = sums.posterior(self.prior, &deviations, None).collect();
        let published: Vec<Share> = data.shares_at(end).collect();
        let own = sums.means();
        let learnt = published
            .iter()
            .zip(sums.learnt(self.prior))
            .map(|(published, mean)| published.fraction() + mean);
        // Without own sides the published shares stand, to the last digit.
        let used = if own.is_some() {
            closed(learnt).unwrap_or_else(|| published.clone())
        } else {
            published.clone()
        };
        let t = posteriors
            .first()
            .map_or(0.0, |posterior| student(posterior.tests, TAILS));
        let outputs = data
            .outputs
            .iter()
            .zip(&published)
            .zip(&used)
            .zip(&posteriors)
            .enumerate()
            .map(
                |(place, (((output, published), used), posterior))| OutputYield {
                    output: output.output,
                    published: *published,
                    own: own
                        .as_ref()
                        .and_then(|own| own.get(place))
                        .map(|own| *published + Share::from_fraction(*own)),
                    used: *used,
                    interval: Interval::around(*used, share_of(t * posterior.of_mean())),
                    deviation: posterior.deviation(),
                },
            )
            .collect();
        WayYield {
            way,
            end,
            sides: sums.sides(),
            outputs,
        }
    }
}
