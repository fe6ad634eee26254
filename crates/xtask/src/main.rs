//! The project's own commands: set-up, build, serve, test, check, size, measure,
//! fuzz, lighthouse, price.
//!
//! `cargo xtask` alone lists them. Each says what it is doing, brings what the machine lacks,
//! and is quick when nothing is missing.

mod arguments;
mod bundle;
mod check;
mod engines;
mod function_order;
mod fuzz;
mod import_names;
mod lighthouse;
mod measure;
mod price;
mod results;
mod serve;
mod setup;
mod size;
mod static_files;
mod style_sheet;
mod suites;
mod texts;
mod workshop;

use std::process::ExitCode;

use anyhow::Result;
use arguments::Request;
use workshop::Workshop;

fn main() -> ExitCode {
    let request = match arguments::read(lexopt::Parser::from_env()) {
        Ok(request) => request,
        Err(error) => {
            eprintln!("{error}\n\n{}", arguments::HELP);
            return ExitCode::from(2);
        }
    };
    match run(&request) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("\nxtask: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run(request: &Request) -> Result<()> {
    let mut workshop = Workshop::open()?;
    match request {
        Request::Help => {
            println!("{}", arguments::HELP);
            Ok(())
        }
        Request::Setup => setup::for_tests(&mut workshop, false).map(drop),
        Request::Build => bundle::build(&mut workshop).map(drop),
        Request::Serve { lan, port } => {
            let dist = bundle::build(&mut workshop)?;
            serve::serve(&dist, *lan, *port)
        }
        Request::Check => check::check(&mut workshop),
        Request::Test { is_short } => suites::test(&mut workshop, *is_short),
        Request::Size => size::print(&bundle::build(&mut workshop)?),
        Request::Measure => measure::measure(&mut workshop),
        Request::Fuzz { seconds } => fuzz::fuzz(&mut workshop, *seconds),
        Request::Lighthouse { folder } => lighthouse::lighthouse(&mut workshop, folder.as_deref()),
        Request::Price { file, form } => price::price(file, *form),
    }
}
