//! What may be typed after `cargo xtask`.

use lexopt::prelude::{Long, Short, Value, ValueExt};

/// Printed by `help`, and after anything that could not be understood.
pub const HELP: &str = "\
cargo xtask COMMAND

  serve [--lan] [--port N]  build the app and serve it on this machine;
                            --lan also for a phone on the same network
  test                      every test: native, in wasm, and with the app in a browser
  build                     build the app into dist/, ready for any static host
  check                     format, lints for native and wasm, documentation
  size                      what a first visit loads, raw and compressed
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
    Test,
    /// Build the app and say how much a first visit loads.
    Size,
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
    while let Some(argument) = parser.next()? {
        match (argument, &mut request) {
            (Short('h') | Long("help"), _) => return Ok(Request::Help),
            (Long("lan"), Some(Request::Serve { lan, .. })) => *lan = true,
            (Long("port"), Some(Request::Serve { port, .. })) => {
                *port = Some(parser.value()?.parse()?);
            }
            (Value(word), None) => request = Some(command(&word.string()?)?),
            (other, _) => return Err(other.unexpected()),
        }
    }
    Ok(request.unwrap_or(Request::Help))
}

fn command(word: &str) -> Result<Request, lexopt::Error> {
    Ok(match word {
        "help" => Request::Help,
        "setup" => Request::Setup,
        "build" => Request::Build,
        "check" => Request::Check,
        "test" => Request::Test,
        "size" => Request::Size,
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
        assert!(typed(&["build", "--lan"]).is_err());
        assert!(typed(&["--lan", "serve"]).is_err());
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
