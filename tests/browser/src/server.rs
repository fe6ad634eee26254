//! A small web server that shows the built app as any static host would, or fails as one can.

use std::collections::BTreeMap;
use std::fs;
use std::net::{Ipv4Addr, SocketAddr};
use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::{self, JoinHandle};

use anyhow::{Context, Result, anyhow};
use tiny_http::{Header, Request, Response};

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
    asked: Vec<String>,
}

/// A running server; dropping it ends it.
pub struct Server {
    running: Option<(Arc<tiny_http::Server>, JoinHandle<()>)>,
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
            asked: Vec::new(),
        }));
        let listener = tiny_http::Server::http((Ipv4Addr::LOCALHOST, 0))
            .map_err(|error| anyhow!("The app cannot be served: {error}"))?;
        let listener = Arc::new(listener);
        let address = listener
            .server_addr()
            .to_ip()
            .context("a server of this machine has an address")?;
        let worker = thread::spawn({
            let (listener, shown) = (listener.clone(), shown.clone());
            // A page, its worker and its service worker ask at once, and one of them may wait for
            // what another has asked for.
            move || {
                thread::scope(|answers| {
                    for request in listener.incoming_requests() {
                        answers.spawn(|| answer(&shown, request));
                    }
                });
            }
        });
        Ok(Self {
            running: Some((listener, worker)),
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
        if let Some((listener, worker)) = self.running.take() {
            listener.unblock();
            // It ends as soon as it has given the answers it is at.
            let _ = worker.join();
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

fn answer(shown: &Mutex<Shown>, request: Request) {
    let (file, failure) = {
        let mut shown = locked(shown);
        shown.asked.push(request.url().to_owned());
        let name = file(&shown.below, request.url());
        let failure = if shown.is_out_of_order {
            Some(Failure::Refused)
        } else {
            name.as_ref()
                .and_then(|name| shown.failures.get(name).copied())
        };
        (name.map(|name| shown.folder.join(name)), failure)
    };
    let found = file.and_then(|file| Some((fs::read(&file).ok()?, mime_guess::from_path(file))));
    let (mut body, kind) = match (found, failure) {
        (Some(found), None | Some(Failure::CutShort)) => found,
        (found, _) => {
            let status = if found.is_some() { 500 } else { 404 };
            let nothing = Response::from_string("There is nothing here.").with_status_code(status);
            let _ = request.respond(nothing);
            return;
        }
    };
    if failure.is_some() {
        body.truncate(body.len() / 2);
    }
    let mut response = Response::from_data(body);
    let kind = kind.first_or_octet_stream();
    for (name, value) in [
        ("Content-Type", kind.essence_str()),
        // Every visit is a first visit.
        ("Cache-Control", "no-store"),
    ] {
        response.add_header(Header::from_bytes(name, value).expect("a plain header"));
    }
    // A browser that has gone away needs no answer.
    let _ = request.respond(response);
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
