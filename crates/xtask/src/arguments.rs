//! What may be typed after `cargo xtask`.

use std::path::PathBuf;

use lexopt::prelude::{Long, Short, Value, ValueExt};

use crate::price::Form;

/// Printed by `help`, and after anything that could not be understood.
pub const HELP: &str = "\
cargo xtask COMMAND

  serve [--lan] [--port N]  build the app and serve it on this machine;
                            --lan also for a phone on the same network
  test [--short]            every test: native, in wasm, and with the app in three browsers;
                            --short in Chromium alone, and without killing it
  build                     build the app into dist/, ready for any static host
  check                     format, lints for native and wasm, documentation
  size                      what a first visit loads, raw and compressed
  measure                   how long a recalculation, a keystroke and a start take
  fuzz [SECONDS]            open links of any kind, each target for so long (60)
  lighthouse [FOLDER]       have Lighthouse look at the app, or at a build in FOLDER
  price FILE [--csv|--json] price a saved plan and print the sheet
  setup                     bring every tool that the other commands need";

/// One command with its options.
#[derive(Debug, PartialEq, Eq)]
pub enum Request {
    /// List the commands.
    Help,
    /// Bring every tool.
    Setup,
    /// Build the app into `dist/`.
    Build,
    /// Check format, lints and documentation.
    Check,
    /// Run every test.
    Test {
        /// In Chromium alone, and without killing it.
        is_short: bool,
    },
    /// Build the app and say how much a first visit loads.
    Size,
    /// Build the app and say how fast it is, here and in a browser.
    Measure,
    /// Look for a link that the app cannot take.
    Fuzz {
        /// How long each target runs.
        seconds: u32,
    },
    /// Have Lighthouse look at the app.
    Lighthouse {
        /// A build that is there already.
        folder: Option<PathBuf>,
    },
    /// Price a saved plan.
    Price {
        /// The plan's file.
        file: PathBuf,
        /// How its sheet is written.
        form: Form,
    },
    /// Build the app, then serve it.
    Serve {
        /// Listen on every network address rather than on this machine alone.
        lan: bool,
        /// The port asked for, if one was.
        port: Option<u16>,
    },
}

/// Reads the command line.
///
/// # Errors
/// A command or option that does not exist, or a value that does not fit, is named in the error.
pub fn read(mut parser: lexopt::Parser) -> Result<Request, lexopt::Error> {
    let mut request = None;
    let mut has_seconds = false;
    while let Some(argument) = parser.next()? {
        match (argument, &mut request) {
            (Short('h') | Long("help"), _) => return Ok(Request::Help),
            (Long("lan"), Some(Request::Serve { lan, .. })) => *lan = true,
            (Long("port"), Some(Request::Serve { port, .. })) => {
                *port = Some(parser.value()?.parse()?);
            }
            (Long("short"), Some(Request::Test { is_short })) => *is_short = true,
            (Long("csv"), Some(Request::Price { form, .. })) => *form = Form::Csv,
            (Long("json"), Some(Request::Price { form, .. })) => *form = Form::Json,
            (Value(path), Some(Request::Price { file, .. })) if file.as_os_str().is_empty() => {
                *file = path.into();
            }
            (Value(folder), Some(Request::Lighthouse { folder: none })) if none.is_none() => {
                *none = Some(folder.into());
            }
            (Value(typed), Some(Request::Fuzz { seconds })) if !has_seconds => {
                *seconds = typed.parse()?;
                has_seconds = true;
            }
            (Value(word), None) => request = Some(command(&word.string()?)?),
            (other, _) => return Err(other.unexpected()),
        }
    }
    match request {
        Some(Request::Price { file, .. }) if file.as_os_str().is_empty() => {
            Err("`price` needs the file of a saved plan.".into())
        }
        request => Ok(request.unwrap_or(Request::Help)),
    }
}

fn command(word: &str) -> Result<Request, lexopt::Error> {
    Ok(match word {
        "help" => Request::Help,
        "setup" => Request::Setup,
        "build" => Request::Build,
        "check" => Request::Check,
        "test" => Request::Test { is_short: false },
        "size" => Request::Size,
        "measure" => Request::Measure,
        "fuzz" => Request::Fuzz { seconds: 60 },
        "lighthouse" => Request::Lighthouse { folder: None },
        "price" => Request::Price {
            file: PathBuf::new(),
            form: Form::Table,
        },
        "serve" => Request::Serve {
            lan: false,
            port: None,
        },
        _ => return Err(format!("There is no command `{word}`.").into()),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(words: &[&str]) -> Result<Request, String> {
        read(lexopt::Parser::from_args(words)).map_err(|error| error.to_string())
    }

    #[test]
    fn options_belong_to_their_command() {
        assert_eq!(
            typed(&["serve", "--lan", "--port", "9000"]),
            Ok(Request::Serve {
                lan: true,
                port: Some(9000)
            })
        );
        assert_eq!(
            typed(&["test", "--short"]),
            Ok(Request::Test { is_short: true })
        );
        assert!(typed(&["build", "--lan"]).is_err());
        assert!(typed(&["--lan", "serve"]).is_err());
    }

    #[test]
    fn a_plan_to_price_has_a_file_and_one_form() {
        let priced = |form| {
            Ok(Request::Price {
                file: PathBuf::from("side.json"),
                form,
            })
        };
        assert_eq!(typed(&["price", "side.json"]), priced(Form::Table));
        assert_eq!(typed(&["price", "side.json", "--csv"]), priced(Form::Csv));
        assert_eq!(typed(&["price", "--json", "side.json"]), priced(Form::Json));
        assert!(typed(&["price"]).is_err_and(|message| message.contains("file")));
        assert!(typed(&["price", "a.json", "b.json"]).is_err());
        assert!(typed(&["build", "--csv"]).is_err());
    }

    #[test]
    fn what_may_follow_a_command_is_taken_once() {
        assert_eq!(typed(&["fuzz"]), Ok(Request::Fuzz { seconds: 60 }));
        assert_eq!(typed(&["fuzz", "5"]), Ok(Request::Fuzz { seconds: 5 }));
        assert!(typed(&["fuzz", "5", "6"]).is_err());
        assert!(typed(&["fuzz", "long"]).is_err_and(|message| message.contains("long")));
        let looked_at = |folder: Option<&str>| {
            let folder = folder.map(PathBuf::from);
            Ok(Request::Lighthouse { folder })
        };
        assert_eq!(typed(&["lighthouse"]), looked_at(None));
        assert_eq!(typed(&["lighthouse", "built"]), looked_at(Some("built")));
        assert!(typed(&["lighthouse", "a", "b"]).is_err());
    }

    #[test]
    fn nothing_typed_asks_for_help() {
        assert_eq!(typed(&[]), Ok(Request::Help));
        assert_eq!(typed(&["build", "--help"]), Ok(Request::Help));
    }

    #[test]
    fn what_does_not_fit_is_named() {
        assert!(typed(&["sevre"]).is_err_and(|message| message.contains("sevre")));
        assert!(typed(&["serve", "--port", "70000"]).is_err_and(|m| m.contains("70000")));
    }
}
