//! The driver's process, from its start to its end.

use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};
use std::thread;

use anyhow::{Context, Result};

use crate::Browser;

/// A running driver; dropping it ends it, whatever became of the test.
pub struct Driver {
    process: Child,
    port: u16,
}

impl Driver {
    /// Starts the browser's driver and waits until it listens.
    ///
    /// # Errors
    /// When it cannot be started or ends before it listens.
    pub fn start(browser: &Browser) -> Result<Self> {
        let (program, arguments) = browser.driver();
        let process = Command::new(program)
            .args(arguments)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .with_context(|| {
                format!(
                    "{} cannot be started; `cargo xtask test` brings it.",
                    program.display()
                )
            })?;
        let mut driver = Self { process, port: 0 };
        let output = driver.process.stdout.take().context("it has an output")?;
        let mut lines = BufReader::new(output).lines();
        driver.port = lines
            .by_ref()
            .map_while(Result::ok)
            .find_map(|line| browser.port(&line))
            .context("The driver ended before it listened.")?;
        // It must never wait for someone to read what it prints.
        thread::spawn(move || lines.for_each(drop));
        Ok(driver)
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
