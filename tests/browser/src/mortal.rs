//! A Chromium that may be killed at any moment: what it keeps on the device outlives it.
//!
//! The driver ends a session as soon as its page crashes, and a browser that it has started with it.
//! So the browser is started here, and a driver is called in for each stretch of work.

use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use std::{fs, process};

use anyhow::{Context, Result, bail, ensure};
use serde::Deserialize;
use serde_json::{Value, json};
use thirtyfour::{Capabilities, WebDriver};

use crate::browser::QUIET;
use crate::driver::Driver;
use crate::{Browser, Make, Page, Screen, Server, dist};

/// How long a browser has to start, or to see that a page of it is gone.
const PATIENCE: Duration = Duration::from_secs(30);

/// How often one looks again while waiting.
const GLANCE: Duration = Duration::from_millis(10);

/// A browser with a device of its own, on a wide screen.
pub struct Mortal {
    browser: Browser,
    profile: PathBuf,
    server: Option<Server>,
    running: Option<Running>,
}

struct Running {
    process: Child,
    /// Where it is to be reached by those who steer it.
    address: String,
}

impl Mortal {
    /// A device on which nothing is kept, with the app on a server. The name tells its folder from
    /// those of other tests.
    ///
    /// # Errors
    /// When the folder cannot be made or the app not be served.
    pub fn new(name: &str) -> Result<Self> {
        let browser = Browser::from_environment();
        ensure!(browser.make == Make::Chromium, "only Chromium is killed");
        let folder = format!("sideworth-mortal-{name}-{}", process::id());
        let profile = std::env::temp_dir().join(folder);
        fs::create_dir_all(&profile)?;
        Ok(Self {
            browser,
            profile,
            server: Some(Server::start(&dist())?),
            running: None,
        })
    }

    /// Starts the browser if it does not run, opens the app in a fresh tab, the only one, and does
    /// what `person` does there. Afterwards the browser goes on running, if it still does.
    ///
    /// # Errors
    /// When the app does not come up, or the person's own.
    pub async fn visit<T>(
        &mut self,
        person: impl AsyncFnOnce(&mut Page, &Life) -> Result<T>,
    ) -> Result<T> {
        if self.running.is_none() {
            self.running = Some(self.start().await?);
        }
        let running = self.running.as_ref().context("it was just started")?;
        running.leave_one_fresh_tab().await?;
        let driver = Driver::start(&self.browser)?;
        let wanted = json!({
            "browserName": "chrome",
            "goog:chromeOptions": { "debuggerAddress": running.address },
        });
        let Value::Object(wanted) = wanted else {
            bail!("Capabilities are a JSON object.");
        };
        let session = WebDriver::new(driver.address(), Capabilities::from(wanted))
            .await
            .context("The driver cannot be called in.")?;
        let server = self.server.take().context("the app is served")?;
        let life = Life(running.process.id());
        let mut page = Page::new(session.clone(), server, Screen::Wide, self.browser.make).await?;
        let found = match page.open().await {
            Ok(()) => person(&mut page, &life).await,
            Err(error) => Err(error),
        };
        self.server = Some(page.into_server());
        // Of a page that was killed the driver has nothing to end any more.
        let _ = session.quit().await;
        found
    }

    /// Waits for the end of a browser that was killed.
    ///
    /// # Errors
    /// When it goes on living.
    pub async fn until_dead(&mut self) -> Result<()> {
        let mut running = self.running.take().context("it was not running")?;
        let since = Instant::now();
        while running.process.try_wait()?.is_none() {
            ensure!(since.elapsed() < PATIENCE, "it does not die");
            tokio::time::sleep(GLANCE).await;
        }
        // Its helpers see that it is gone and follow; one of them has the profile open.
        let profile = self.profile.to_string_lossy();
        while processes()?
            .iter()
            .any(|(id, _)| is_called_with(*id, &profile))
        {
            ensure!(since.elapsed() < PATIENCE, "its helpers do not die");
            tokio::time::sleep(GLANCE).await;
        }
        Ok(())
    }

    async fn start(&self) -> Result<Running> {
        let told = self.profile.join("DevToolsActivePort");
        // The last one's.
        let _ = fs::remove_file(&told);
        let program = self.browser.program.clone();
        let process = Command::new(program.unwrap_or_else(|| PathBuf::from("chromium")))
            .args(QUIET)
            .arg("--remote-debugging-port=0")
            .arg(format!("--user-data-dir={}", self.profile.display()))
            .arg(format!(
                "--window-size={},{}",
                Screen::Wide.width(),
                Screen::Wide.height()
            ))
            .arg("about:blank")
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .context("The browser cannot be started.")?;
        let mut running = Running {
            process,
            address: String::new(),
        };
        let since = Instant::now();
        loop {
            let said = fs::read_to_string(&told).unwrap_or_default();
            if let Some((port, _)) = said.split_once('\n') {
                running.address = format!("127.0.0.1:{port}");
                return Ok(running);
            }
            let ended = running.process.try_wait()?;
            ensure!(ended.is_none(), "The browser ended at once: {ended:?}");
            ensure!(since.elapsed() < PATIENCE, "The browser does not come up.");
            tokio::time::sleep(GLANCE).await;
        }
    }
}

impl Drop for Mortal {
    fn drop(&mut self) {
        self.running.take();
        // What is left in the folder for temporary files does no harm.
        let _ = fs::remove_dir_all(&self.profile);
    }
}

impl Running {
    async fn ask(&self, method: http::Method, path: &str) -> Result<String> {
        let address = format!("http://{}{path}", self.address);
        let answer = reqwest::Client::new().request(method, address).send();
        Ok(answer.await?.error_for_status()?.text().await?)
    }

    async fn tabs(&self) -> Result<Vec<Tab>> {
        let listed = self.ask(http::Method::GET, "/json/list").await?;
        let mut tabs: Vec<Tab> = serde_json::from_str(&listed)?;
        tabs.retain(|tab| tab.kind == "page");
        Ok(tabs)
    }

    /// Opens a tab and closes all others, those that have crashed too.
    async fn leave_one_fresh_tab(&self) -> Result<()> {
        let old = self.tabs().await?;
        self.ask(http::Method::PUT, "/json/new?about:blank").await?;
        for Tab { id, .. } in old {
            self.ask(http::Method::GET, &format!("/json/close/{id}"))
                .await?;
        }
        let since = Instant::now();
        while self.tabs().await?.len() > 1 {
            ensure!(since.elapsed() < PATIENCE, "A tab does not close.");
            tokio::time::sleep(GLANCE).await;
        }
        Ok(())
    }
}

/// What the browser says of a tab.
#[derive(Deserialize)]
struct Tab {
    id: String,
    #[serde(rename = "type")]
    kind: String,
}

impl Drop for Running {
    fn drop(&mut self) {
        // One that is dead already needs no ending.
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// The life of a running browser, to be taken from another thread.
#[derive(Clone, Copy, Debug)]
pub struct Life(u32);

impl Life {
    /// Kills every process in which a page runs, as a phone does that runs out of memory.
    ///
    /// # Errors
    /// When there is none.
    pub fn take_pages(self) -> Result<()> {
        let mut pages = processes_below(self.0, "--type=renderer")?;
        // Of these some show what is around the page.
        pages.retain(|&page| !is_called_with(page, "--top-chrome-webui"));
        ensure!(!pages.is_empty(), "there is no page to kill");
        kill(&pages)
    }

    /// Kills the browser itself.
    ///
    /// # Errors
    /// When it is dead already.
    pub fn take_all(self) -> Result<()> {
        kill(&[self.0])
    }
}

/// Sends the signal that no process can answer (POSIX, `SIGKILL`).
fn kill(processes: &[u32]) -> Result<()> {
    let killed = Command::new("kill")
        .arg("-KILL")
        .args(processes.iter().map(u32::to_string))
        .stderr(Stdio::null())
        .status()?;
    ensure!(killed.success(), "{processes:?} could not be killed");
    Ok(())
}

/// The processes that a process has started, and those that these have started, and were called
/// with a word.
fn processes_below(top: u32, word: &str) -> Result<Vec<u32>> {
    let known = processes()?;
    let mut found = vec![top];
    let mut next = 0;
    while let Some(&above) = found.get(next) {
        let below = known.iter().filter(|(_, parent)| *parent == above);
        found.extend(below.map(|(process, _)| *process));
        next += 1;
    }
    found.retain(|&process| is_called_with(process, word));
    Ok(found)
}

/// Every process with the one that has started it, from where Linux has them (`proc(5)`).
fn processes() -> Result<Vec<(u32, u32)>> {
    let mut known = Vec::new();
    for entry in fs::read_dir("/proc")?.flatten() {
        let name = entry.file_name();
        if let Some(process) = name.to_str().and_then(|name| name.parse().ok())
            && let Some(parent) = parent(&entry.path())
        {
            known.push((process, parent));
        }
    }
    Ok(known)
}

/// The process that has started this one: the second word after the name, which stands in brackets.
fn parent(folder: &Path) -> Option<u32> {
    let said = fs::read_to_string(folder.join("stat")).ok()?;
    let (_, after) = said.rsplit_once(')')?;
    after.split_whitespace().nth(1)?.parse().ok()
}

/// Whether a process that is still there was called with a word.
fn is_called_with(process: u32, word: &str) -> bool {
    let called = fs::read(format!("/proc/{process}/cmdline")).unwrap_or_default();
    String::from_utf8_lossy(&called).contains(word)
}
