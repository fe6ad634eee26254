//! A small web server that shows the built app as any static host would.

use std::fs;
use std::net::{Ipv4Addr, SocketAddr};
use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::{self, JoinHandle};

use anyhow::{Context, Result, anyhow};
use tiny_http::{Header, Request, Response};

/// The app's folder on the server: not the top, so that an address which is not relative to the
/// page leads nowhere.
const BELOW: &str = "/shop/";

/// A running server; dropping it ends it.
pub struct Server {
    listener: Arc<tiny_http::Server>,
    worker: Option<JoinHandle<()>>,
    asked: Arc<Mutex<Vec<String>>>,
    address: SocketAddr,
}

impl Server {
    /// Serves a folder on a free port of this machine.
    ///
    /// # Errors
    /// When there is no free port.
    pub fn start(folder: &Path) -> Result<Self> {
        let listener = tiny_http::Server::http((Ipv4Addr::LOCALHOST, 0))
            .map_err(|error| anyhow!("The app cannot be served: {error}"))?;
        let listener = Arc::new(listener);
        let address = listener
            .server_addr()
            .to_ip()
            .context("a server of this machine has an address")?;
        let asked = Arc::new(Mutex::new(Vec::new()));
        let worker = thread::spawn({
            let (listener, asked, folder) = (listener.clone(), asked.clone(), folder.to_owned());
            move || {
                for request in listener.incoming_requests() {
                    asked
                        .lock()
                        .unwrap_or_else(PoisonError::into_inner)
                        .push(request.url().to_owned());
                    answer(&folder, request);
                }
            }
        });
        Ok(Self {
            listener,
            worker: Some(worker),
            asked,
            address,
        })
    }

    /// The app's address.
    pub fn app(&self) -> String {
        format!("http://{}{BELOW}", self.address)
    }

    /// Every address that was asked for so far.
    pub fn asked(&self) -> Vec<String> {
        self.asked
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }

    /// The address of a file of the app without the server's name.
    pub fn path_of(file: &str) -> String {
        format!("{BELOW}{file}")
    }

    /// Ends the serving: whoever asks from now on gets no answer.
    pub fn stop(&mut self) {
        self.listener.unblock();
        if let Some(worker) = self.worker.take() {
            // A worker that panicked serves no more, which is what was asked for.
            let _ = worker.join();
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop();
    }
}

fn answer(folder: &Path, request: Request) {
    let found = file(folder, request.url())
        .and_then(|file| Some((fs::read(&file).ok()?, mime_guess::from_path(file))));
    let Some((body, kind)) = found else {
        let nothing = Response::from_string("There is nothing here.").with_status_code(404);
        let _ = request.respond(nothing);
        return;
    };
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

/// The file below the folder that an address asks for.
fn file(folder: &Path, address: &str) -> Option<PathBuf> {
    let path = address.split(['?', '#']).next()?.strip_prefix(BELOW)?;
    let path = Path::new(if path.is_empty() { "index.html" } else { path });
    path.components()
        .all(|part| matches!(part, Component::Normal(_)))
        .then(|| folder.join(path))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_lead_into_the_folder_and_nowhere_else() {
        let at = |address| file(Path::new("dist"), address);
        assert_eq!(at("/shop/"), Some(PathBuf::from("dist/index.html")));
        assert_eq!(at("/shop/a.js?b"), Some(PathBuf::from("dist/a.js")));
        assert_eq!(at("/a.js"), None);
        assert_eq!(at("/shop/../a.js"), None);
        assert_eq!(at("/shop//a.js"), None);
    }
}
