//! Reads what `cargo test` and the wasm test runner print, and lays the totals out as a table.

/// The outcome of one test program.
#[derive(Debug, PartialEq, Eq)]
pub struct Suite {
    /// Which tests these are.
    pub name: String,
    /// Tests that held.
    pub passed: u64,
    /// Tests that did not, or one for a program that never came to its end.
    pub failed: u64,
    /// Tests that were left out on purpose.
    pub ignored: u64,
    /// What went wrong, where it was not a test.
    pub remark: Option<String>,
    /// The tests that left themselves out, each with its reason. They are among the ignored.
    pub left_out: Vec<String>,
}

impl Suite {
    /// A suite that counts as failed because it did not run as it should have.
    pub fn broken(name: &str, remark: &str) -> Self {
        Self {
            name: name.to_owned(),
            passed: 0,
            failed: 1,
            ignored: 0,
            remark: Some(remark.to_owned()),
            left_out: Vec::new(),
        }
    }

    /// A suite that this machine cannot run, which is said and not held against it.
    pub fn left_out(name: &str, reason: &str) -> Self {
        Self {
            failed: 0,
            ignored: 1,
            ..Self::broken(name, reason)
        }
    }
}

/// How a test says, in a line of its own, that it leaves itself out: the libtest harness knows no
/// way to. The rest of the line is its name and the reason.
const LEFT_OUT: &str = "left out: ";

/// Takes the output line by line, as it comes.
pub struct Reader {
    stage: String,
    /// The package whose tests are running: integration tests are announced without it.
    package: String,
    /// Announced, not yet ended.
    running: Option<String>,
    /// The tests of the running program that left themselves out.
    left_out: Vec<String>,
    suites: Vec<Suite>,
}

impl Reader {
    /// Starts on the output of one call of `cargo test`; the stage's name comes before the suites'.
    pub fn new(stage: &str) -> Self {
        Self {
            stage: stage.to_owned(),
            package: String::new(),
            running: None,
            left_out: Vec::new(),
            suites: Vec::new(),
        }
    }

    /// Takes one line.
    pub fn line(&mut self, line: &str) {
        let line = without_colour(line);
        let line = line.trim();
        if let Some(program) = line.strip_prefix("Running ") {
            if let Some(name) = self.announced(program) {
                self.begin(name);
            }
        } else if let Some(package) = line.strip_prefix("Doc-tests ") {
            self.begin(format!("{package} docs"));
        } else if let Some(test) = line.strip_prefix(LEFT_OUT) {
            self.left_out.push(test.to_owned());
        } else if let Some(result) = line.strip_prefix("test result: ") {
            let count = |what: &str| count(result, what);
            if let (Some(passed), Some(failed)) = (count("passed"), count("failed")) {
                self.end(passed, failed, count("ignored").unwrap_or(0));
            }
        } else if line == "no tests to run!" {
            self.end(0, 0, 0);
        }
    }

    /// Ends the reading. `succeeded` is whether the whole call did; one that failed without a
    /// failing test is a failure of its own.
    pub fn finish(mut self, succeeded: bool) -> Vec<Suite> {
        self.abandon();
        if !succeeded && self.suites.iter().all(|suite| suite.failed == 0) {
            self.suites.push(Suite::broken(
                &self.stage,
                "did not run to its end; see above",
            ));
        }
        self.suites
    }

    fn begin(&mut self, name: String) {
        self.abandon();
        self.running = Some(name);
    }

    fn end(&mut self, passed: u64, failed: u64, ignored: u64) {
        // Doc tests may report twice: for those that compile together and for those that do not.
        let name = match (self.running.take(), self.suites.last_mut()) {
            (Some(name), _) => format!("{} · {name}", self.stage),
            (None, Some(last)) => {
                last.passed += passed;
                last.failed += failed;
                last.ignored += ignored;
                return;
            }
            (None, None) => self.stage.clone(),
        };
        // They ended without a complaint, and so were counted among those that held.
        let mut left_out = std::mem::take(&mut self.left_out);
        left_out.sort();
        left_out.dedup();
        let count = left_out.len() as u64;
        self.suites.push(Suite {
            name,
            passed: passed.saturating_sub(count),
            failed,
            ignored: ignored + count,
            remark: None,
            left_out,
        });
    }

    /// A program that was announced and gave no result crashed.
    fn abandon(&mut self) {
        if let Some(name) = self.running.take() {
            self.suites.push(Suite::broken(
                &format!("{} · {name}", self.stage),
                "ended without a result",
            ));
        }
    }

    /// From `unittests src/lib.rs (target/debug/deps/quantity-0f…)` or
    /// `tests/yields.rs (target/debug/deps/yields-0f…)`.
    fn announced(&mut self, program: &str) -> Option<String> {
        let (source, path) = program.split_once(" (")?;
        let file = path.trim_end_matches(')').rsplit(['/', '\\']).next()?;
        let (stem, _) = file.rsplit_once('-')?;
        let stem = stem.replace('_', "-");
        if source.starts_with("unittests ") {
            self.package.clone_from(&stem);
            return Some(stem);
        }
        let same = self.package == stem || self.package.is_empty();
        Some(if same {
            stem
        } else {
            format!("{} {stem}", self.package)
        })
    }
}

/// The number before a word in `3 passed; 0 failed; …`.
fn count(result: &str, what: &str) -> Option<u64> {
    let mut words = result
        .split([' ', ';', '.'])
        .filter(|word| !word.is_empty());
    let mut before = words.next()?;
    for word in words {
        if word == what {
            return before.parse().ok();
        }
        before = word;
    }
    None
}

/// The text without the terminal's colour codes (ECMA-48 control sequences).
fn without_colour(line: &str) -> String {
    let mut plain = String::with_capacity(line.len());
    let mut letters = line.chars();
    while let Some(letter) = letters.next() {
        if letter == '\u{1b}' {
            // A sequence ends at its first letter; the bracket that opens it is none.
            letters.by_ref().find(char::is_ascii_alphabetic);
        } else {
            plain.push(letter);
        }
    }
    plain
}

/// The suites that ran, one a line, and under them the line that says it all.
pub fn table(suites: &[Suite]) -> String {
    let shown = || {
        suites
            .iter()
            .filter(|suite| suite.passed + suite.failed + suite.ignored > 0)
    };
    let wide = shown()
        .map(|suite| suite.name.chars().count())
        .max()
        .unwrap_or(0)
        .max("suite".len());
    let mut lines = vec![format!(
        "{:wide$}  {:>6}  {:>6}  {:>7}",
        "suite", "passed", "failed", "ignored"
    )];
    lines.extend(shown().map(|suite| {
        let remark = suite.remark.as_deref().unwrap_or_default();
        format!(
            "{:wide$}  {:>6}  {:>6}  {:>7}  {remark}",
            suite.name, suite.passed, suite.failed, suite.ignored
        )
        .trim_end()
        .to_owned()
    }));
    lines.push(String::new());
    let left_out = |suite: &Suite| -> Vec<String> {
        let line = |test| format!("left out of {}: {test}", suite.name);
        suite.left_out.iter().map(line).collect()
    };
    let left_out: Vec<_> = suites.iter().flat_map(left_out).collect();
    if !left_out.is_empty() {
        lines.extend(left_out);
        lines.push(String::new());
    }
    lines.push(format!(
        "{} passed, {} failed",
        suites.iter().map(|suite| suite.passed).sum::<u64>(),
        failed(suites)
    ));
    lines.join("\n")
}

/// How many tests, and suites that did not run, failed.
pub fn failed(suites: &[Suite]) -> u64 {
    suites.iter().map(|suite| suite.failed).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(succeeded: bool, output: &str) -> Vec<Suite> {
        let mut reader = Reader::new("native");
        for line in output.lines() {
            reader.line(line);
        }
        reader.finish(succeeded)
    }

    fn figures(suites: &[Suite]) -> Vec<(&str, u64, u64, u64)> {
        suites
            .iter()
            .map(|suite| {
                (
                    suite.name.as_str(),
                    suite.passed,
                    suite.failed,
                    suite.ignored,
                )
            })
            .collect()
    }

    #[test]
    fn every_program_becomes_a_row_under_its_package() {
        let suites = read(
            true,
            "   Compiling quantity v0.1.0\n\
             \u{1b}[1m\u{1b}[92m     Running\u{1b}[0m unittests src/lib.rs (target/debug/deps/published_checks-0a1b)\n\
             test result: ok. 0 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.00s\n\
                  Running tests/yields.rs (target/debug/deps/yields-77ff)\n\
             test a ... ok\n\
             test result: ok. 12 passed; 0 failed; 1 ignored; 0 measured; 0 filtered out; finished in 0.00s\n\
                Doc-tests quantity\n\
             test result: ok. 2 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.10s\n\
             test result: ok. 1 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.10s\n",
        );
        assert_eq!(
            figures(&suites),
            [
                ("native · published-checks", 0, 0, 0),
                ("native · published-checks yields", 12, 0, 1),
                ("native · quantity docs", 3, 0, 0),
            ]
        );
    }

    #[test]
    fn failures_are_counted() {
        let suites = read(
            false,
            "Running unittests src/lib.rs (target/debug/deps/pricing-1)\n\
             test result: FAILED. 3 passed; 2 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.00s\n",
        );
        assert_eq!(figures(&suites), [("native · pricing", 3, 2, 0)]);
        assert_eq!(failed(&suites), 2);
    }

    #[test]
    fn a_program_that_crashed_is_a_failure() {
        let suites = read(
            false,
            "Running unittests src/lib.rs (target/debug/deps/pricing-1)\n\
             Running unittests src/lib.rs (target/debug/deps/quantity-1)\n\
             test result: ok. 3 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out\n",
        );
        assert_eq!(
            figures(&suites),
            [
                ("native · pricing", 0, 1, 0),
                ("native · quantity", 3, 0, 0)
            ]
        );
    }

    #[test]
    fn what_did_not_compile_is_a_failure() {
        let suites = read(false, "error: could not compile `pricing`\n");
        assert_eq!(figures(&suites), [("native", 0, 1, 0)]);
    }

    #[test]
    fn the_wasm_runner_s_way_of_having_no_tests_is_understood() {
        let suites = read(
            true,
            "Running unittests src/lib.rs (target/wasm32-unknown-unknown/debug/deps/carcass-1.wasm)\n\
             no tests to run!\n",
        );
        assert_eq!(figures(&suites), [("native · carcass", 0, 0, 0)]);
    }

    #[test]
    fn a_test_that_leaves_itself_out_has_not_passed() {
        let suites = read(
            true,
            "Running tests/app/main.rs (target/debug/deps/app-1)\n\
             test layout::a ... ok\n\
             \n\
             left out: layout::b: this browser has no such thing\n\
             left out: layout::b: this browser has no such thing\n\
             test layout::b ... ok\n\
             test result: ok. 2 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out\n",
        );
        assert_eq!(figures(&suites), [("native · app", 1, 0, 1)]);
        let table = table(&suites);
        let said = "left out of native · app: layout::b: this browser has no such thing";
        assert_eq!(table.matches(said).count(), 1, "{table}");
        assert_eq!(table.lines().last(), Some("1 passed, 0 failed"));
    }

    #[test]
    fn the_last_line_holds_the_sums_alone() {
        let suites = [
            Suite {
                name: "native · quantity".to_owned(),
                passed: 5,
                failed: 0,
                ignored: 0,
                remark: None,
                left_out: Vec::new(),
            },
            Suite::broken("browser", "did not run"),
        ];
        let table = table(&suites);
        assert_eq!(table.lines().last(), Some("5 passed, 1 failed"));
        assert!(table.contains("did not run"));
    }
}
