//! A small web server that shows the built app as any static host would, or fails as one can.

use std::collections::BTreeMap;
use std::fs;
use std::io::{self, BufRead, BufReader, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::{self, JoinHandle};

use anyhow::{Context, Result};

/// The app's folder on the server: not the top, so that an address which is not relative to the
/// page leads nowhere.
const BELOW: &str = "/shop/";

/// How a file of the app fails to arrive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Failure {
    /// The server says that something is wrong with it (RFC 9110, 15.6.1).
    Refused,
    /// Half of the file stands for the whole, as after an upload that was cut short.
    CutShort,
}

/// What is shown.
struct Shown {
    folder: PathBuf,
    below: String,
    failures: BTreeMap<String, Failure>,
    is_out_of_order: bool,
    is_over: bool,
    asked: Vec<String>,
}

/// A running server; dropping it ends it.
pub struct Server {
    running: Option<JoinHandle<()>>,
    shown: Arc<Mutex<Shown>>,
    address: SocketAddr,
}

impl Server {
    /// Serves a folder on a free port of this machine.
    ///
    /// # Errors
    /// When there is no free port.
    pub fn start(folder: &Path) -> Result<Self> {
        let shown = Arc::new(Mutex::new(Shown {
            folder: folder.to_owned(),
            below: BELOW.to_owned(),
            failures: BTreeMap::new(),
            is_out_of_order: false,
            is_over: false,
            asked: Vec::new(),
        }));
        let listener =
            TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).context("The app cannot be served.")?;
        let address = listener.local_addr()?;
        let running = thread::spawn({
            let shown = shown.clone();
            // A page, its worker and its service worker ask at once. Each connection has a thread of
            // its own and ends with its answer, so that none waits for another to be given up.
            move || {
                for connection in listener.incoming().map_while(Result::ok) {
                    if locked(&shown).is_over {
                        break;
                    }
                    let shown = shown.clone();
                    // A browser that has gone away needs no answer.
                    thread::spawn(move || drop(answer(&shown, connection)));
                }
            }
        });
        Ok(Self {
            running: Some(running),
            shown,
            address,
        })
    }

    fn shown(&self) -> MutexGuard<'_, Shown> {
        locked(&self.shown)
    }

    /// What the addresses of all that it serves begin with.
    pub fn host(&self) -> String {
        format!("http://{}/", self.address)
    }

    /// The app's address.
    pub fn app(&self) -> String {
        format!("http://{}{}", self.address, self.shown().below)
    }

    /// Every address that was asked for so far.
    pub fn asked(&self) -> Vec<String> {
        self.shown().asked.clone()
    }

    /// The address of a file of the app without the server's name.
    pub fn path_of(file: &str) -> String {
        format!("{BELOW}{file}")
    }

    /// Shows another folder from now on.
    pub fn show(&self, folder: &Path) {
        folder.clone_into(&mut self.shown().folder);
    }

    /// Shows the app below another folder of the server from now on, and nowhere else. It begins
    /// and ends with a slash.
    pub fn show_below(&self, below: &str) {
        below.clone_into(&mut self.shown().below);
    }

    /// Has a file of the app fail from now on.
    pub fn fail(&self, file: &str, failure: Failure) {
        self.shown().failures.insert(file.to_owned(), failure);
    }

    /// Refuses everything from now on.
    pub fn be_out_of_order(&self) {
        self.shown().is_out_of_order = true;
    }

    /// Has every file arrive again.
    pub fn mend(&self) {
        let mut shown = self.shown();
        shown.failures.clear();
        shown.is_out_of_order = false;
    }

    /// Ends the serving: whoever asks from now on is turned away.
    pub fn stop(&mut self) {
        if let Some(running) = self.running.take() {
            self.shown().is_over = true;
            // It looks up when somebody comes.
            let _ = TcpStream::connect(self.address);
            let _ = running.join();
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop();
    }
}

fn locked(shown: &Mutex<Shown>) -> MutexGuard<'_, Shown> {
    shown.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Hears one request (RFC 9112) and answers it. Of what is asked only the address matters.
fn answer(shown: &Mutex<Shown>, mut connection: TcpStream) -> io::Result<()> {
    let mut lines = BufReader::new(&connection).lines();
    let request = lines.next().transpose()?.unwrap_or_default();
    for line in lines {
        if line?.is_empty() {
            break;
        }
    }
    // A connection that was made ahead may ask late, or for nothing.
    let asked = request.split(' ').nth(1);
    let Some(address) = asked.filter(|_| !locked(shown).is_over) else {
        return Ok(());
    };
    let (status, kind, body) = found(shown, address);
    write!(
        connection,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\n\
         Cache-Control: no-store\r\nConnection: close\r\n\r\n",
        body.len()
    )?;
    connection.write_all(&body)
}

/// What an address is answered with: status, media type, content. Nothing may be kept of it: every
/// visit is a first visit.
fn found(shown: &Mutex<Shown>, address: &str) -> (&'static str, String, Vec<u8>) {
    let (file, failure) = {
        let mut shown = locked(shown);
        shown.asked.push(address.to_owned());
        let name = file(&shown.below, address);
        let failure = if shown.is_out_of_order {
            Some(Failure::Refused)
        } else {
            name.as_ref()
                .and_then(|name| shown.failures.get(name).copied())
        };
        (name.map(|name| shown.folder.join(name)), failure)
    };
    let content = file.and_then(|file| Some((fs::read(&file).ok()?, mime_guess::from_path(file))));
    match (content, failure) {
        (Some((mut body, kind)), None | Some(Failure::CutShort)) => {
            if failure.is_some() {
                body.truncate(body.len() / 2);
            }
            let kind = kind.first_or_octet_stream();
            ("200 OK", kind.essence_str().to_owned(), body)
        }
        (content, _) => {
            let status = match content {
                Some(_) => "500 Internal Server Error",
                None => "404 Not Found",
            };
            let text = "There is nothing here.";
            (status, "text/plain".to_owned(), text.into())
        }
    }
}

/// The name of the file of the app that an address asks for.
fn file(below: &str, address: &str) -> Option<String> {
    let path = address.split(['?', '#']).next()?.strip_prefix(below)?;
    let path = if path.is_empty() { "index.html" } else { path };
    Path::new(path)
        .components()
        .all(|part| matches!(part, Component::Normal(_)))
        .then(|| path.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_lead_into_the_folder_and_nowhere_else() {
        let at = |address| file(BELOW, address);
        assert_eq!(at("/shop/").as_deref(), Some("index.html"));
        assert_eq!(at("/shop/a.js?b").as_deref(), Some("a.js"));
        assert_eq!(at("/a.js"), None);
        assert_eq!(at("/shop/../a.js"), None);
        assert_eq!(at("/shop//a.js"), None);
    }
}
