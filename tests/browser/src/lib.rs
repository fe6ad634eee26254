//! What a person does with Sideworth, done in a real browser.
//!
//! A test calls [`visit()`]: it serves the built app from a folder below the top of a web server of
//! its own, starts a browser with a clean profile through its driver (W3C `WebDriver`), does what
//! the test says on the [`Page`], and asks of every visit that the browser had nothing to complain
//! about. What the screen must say comes from [`Side::figures`], which prices the same side with
//! the core on this machine.
//!
//! `cargo xtask test` sets what is read from the environment: `SIDEWORTH_DIST` (the built app),
//! `SIDEWORTH_BROWSER` (which browser), `CHROME` and `CHROMEDRIVER`, `FIREFOX` and `GECKODRIVER`,
//! `MINIBROWSER` and `WEBKITDRIVER` (its programs), `AXE` (the script of axe-core), `PDFTOPPM` (what
//! makes pictures of PDF files). Without them the app is looked for in `dist/` and the programs on
//! `PATH`, and the browser is Chromium. What a browser's driver does not allow, a test asks for with
//! [`needs`].

mod browser;
mod closed_sides;
mod driver;
mod feature;
mod mortal;
mod page;
mod screen;
mod server;
mod side;
mod visit;

pub use browser::{Browser, Make};
pub use closed_sides::{closed_sides, closed_sides_of_many_cuts};
pub use feature::{Feature, leave_out, needs};
pub use mortal::{Life, Mortal};
pub use page::{Page, Place};
pub use screen::Screen;
pub use server::{Failure, Server};
pub use side::{Figures, Side, amount, read_amount};
pub use visit::{Visit, dist, pictures, visit};
