//! The driver's process, from its start to its end.

use std::io::{BufRead, BufReader};
use std::net::{Ipv4Addr, TcpStream};
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, ensure};

use crate::Browser;

/// How long a driver has that does not say when it listens.
const PATIENCE: Duration = Duration::from_secs(20);

/// How often a driver is started that ends before it listens.
const ATTEMPTS: u32 = 5;

/// A running driver; dropping it ends it, whatever became of the test.
pub struct Driver {
    process: Child,
    port: u16,
}

impl Driver {
    /// Starts the browser's driver and waits until it listens. Of a port that it picks for two
    /// addresses another test can have one; then it ends at once, and is started again.
    ///
    /// # Errors
    /// When it cannot be started or ends before it listens, again and again.
    pub fn start(browser: &Browser) -> Result<Self> {
        let mut started = Self::start_once(browser);
        for _ in 1..ATTEMPTS {
            if started.is_ok() {
                break;
            }
            started = Self::start_once(browser);
        }
        started
    }

    fn start_once(browser: &Browser) -> Result<Self> {
        let start = browser.start()?;
        let process = Command::new(&browser.driver)
            .args(start.arguments)
            .envs(start.environment.iter().copied())
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .with_context(|| {
                format!(
                    "{} cannot be started; `cargo xtask test` brings it.",
                    browser.driver.display()
                )
            })?;
        let mut driver = Self { process, port: 0 };
        let output = driver.process.stdout.take().context("it has an output")?;
        let mut lines = BufReader::new(output).lines();
        driver.port = match start.port {
            Some(port) => port,
            None => lines
                .by_ref()
                .map_while(Result::ok)
                .find_map(|line| browser.port(&line))
                .context("The driver ended before it listened.")?,
        };
        // It must never wait for someone to read what it prints.
        thread::spawn(move || lines.for_each(drop));
        driver.until_it_listens()?;
        Ok(driver)
    }

    fn until_it_listens(&mut self) -> Result<()> {
        let since = Instant::now();
        while TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)).is_err() {
            let ended = self.process.try_wait()?;
            ensure!(ended.is_none(), "The driver ended before it listened.");
            ensure!(since.elapsed() < PATIENCE, "The driver does not listen.");
            thread::sleep(Duration::from_millis(10));
        }
        Ok(())
    }

    /// Where it listens.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // One that has ended already needs no ending.
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}
