//! What Firefox is asked for past its pages: its driver can run a script in the browser itself.
//!
//! The names in these scripts are Firefox's own and may change with it; where one does, the tests
//! that need it fail.

use anyhow::{Context, Result, bail};
use serde_json::{Value, json};
use thirtyfour::common::command::FormatRequestData;
use thirtyfour::{RequestData, SessionId};

use super::Page;
use crate::Screen;

/// Has the scripts that follow run in the page (`content`) or in the browser itself (`chrome`).
#[derive(Debug)]
struct RunIn(&'static str);

impl FormatRequestData for RunIn {
    fn format_request(&self, session: &SessionId) -> RequestData {
        let address = format!("/session/{session}/moz/context");
        RequestData::new(http::Method::POST, address).add_body(json!({ "context": self.0 }))
    }
}

/// Notes down what the pages of all tabs tell the console; what the browser itself has to say of
/// them it notes down without being asked.
const LISTEN: &str = "
    if (window.toldByPages === undefined) {
        window.toldByPages = [];
        Services.mm.addMessageListener('told', ({ data }) => window.toldByPages.push(data));
        const listen = `
            const listener = { observe({ wrappedJSObject: { level, arguments: told } }) {
                if (level === 'warn' || level === 'error') {
                    sendAsyncMessage('told', told.map(String).join(' '));
                }
            } };
            Services.obs.addObserver(listener, 'console-api-log-event');
            addEventListener('unload', () =>
                Services.obs.removeObserver(listener, 'console-api-log-event'));`;
        Services.mm.loadFrameScript(
            `data:application/javascript,${encodeURIComponent(listen)}`, true);
    }";

impl Page {
    /// Runs a script in the browser itself, where `gBrowser` has its tabs, and says what it returned.
    async fn firefox(&self, script: &str, arguments: Value) -> Result<Value> {
        let Value::Array(arguments) = arguments else {
            bail!("arguments come as an array");
        };
        self.session.cmd(RunIn("chrome")).await?;
        let returned = self.session.execute(script, arguments).await;
        self.session.cmd(RunIn("content")).await?;
        Ok(returned?.json().clone())
    }

    /// Gives the page the size and the density of a screen: no window is as narrow as a phone.
    pub(super) async fn fit_firefox(&self, screen: Screen) -> Result<()> {
        let script = format!(
            "{LISTEN}
             const [width, height, density] = arguments;
             const {{ style, browsingContext }} = gBrowser.selectedBrowser;
             for (const bound of ['min', 'max']) {{
                 style.setProperty(`${{bound}}-width`, `${{width}}px`);
                 style.setProperty(`${{bound}}-height`, `${{height}}px`);
             }}
             browsingContext.overrideDPPX = density;"
        );
        let size = json!([screen.width(), screen.height(), screen.density()]);
        self.firefox(&script, size.clone()).await?;
        self.wait(
            "the page to fit the screen",
            async || {
                self.run(
                    "return [innerWidth, innerHeight, devicePixelRatio]",
                    json!([]),
                )
                .await
            },
            |seen| *seen == size,
        )
        .await
        .map(drop)
    }

    /// Overrides what pages are told of the screen that they are on.
    pub(super) async fn set_in_firefox(&self, what: &str, value: &str) -> Result<()> {
        self.firefox(
            "gBrowser.selectedBrowser.browsingContext[arguments[0]] = arguments[1]",
            json!([what, value]),
        )
        .await
        .map(drop)
    }

    /// Sets the size of letters that a person chooses for pages which name none.
    pub(super) async fn set_letters_in_firefox(&self, pixels: u32) -> Result<()> {
        self.firefox(
            "for (const letters of ['x-western', 'x-unicode']) {
                 Services.prefs.setIntPref(`font.size.variable.${letters}`, arguments[0]);
             }",
            json!([pixels]),
        )
        .await?;
        // A page has the size that was chosen when it was loaded.
        self.reload().await
    }

    /// Has a script run in every page of the app before its own.
    pub(super) async fn run_before_load_in_firefox(&self, script: &str) -> Result<()> {
        let before = format!(
            "addEventListener('DOMWindowCreated', ({{ target: {{ defaultView: page }} }}) => {{
                 if (page.location.protocol === 'http:') {{
                     page.wrappedJSObject.eval({});
                 }}
             }}, true)",
            Value::from(script)
        );
        self.firefox(
            "Services.mm.loadFrameScript(
                 `data:application/javascript,${encodeURIComponent(arguments[0])}`, true)",
            json!([before]),
        )
        .await
        .map(drop)
    }

    /// The warnings and errors of the app's pages since this was last asked.
    pub(super) async fn complaints_of_firefox(&self) -> Result<Vec<String>> {
        let complaints = self
            .firefox(
                "const told = window.toldByPages.splice(0);
                 for (const message of Services.console.getMessageArray()) {
                     if (message instanceof Ci.nsIScriptError
                         && message.sourceName.startsWith(arguments[0])
                         && message.flags !== Ci.nsIScriptError.infoFlag) {
                         told.push(`${message.category}: ${message.errorMessage} (${message.sourceName})`);
                     }
                 }
                 Services.console.reset();
                 // What a tab still works on when it is closed is cut off and said to be a timeout.
                 return told.filter((text) => !text.includes('Script terminated by timeout'))",
                json!([self.server.host()]),
            )
            .await?;
        serde_json::from_value(complaints).context("texts")
    }

    /// Ends every service worker; the browser starts one anew when it is needed.
    pub(super) async fn end_workers_of_firefox(&self) -> Result<()> {
        let ended = self
            .firefox(
                "const manager = Cc['@mozilla.org/serviceworkers/manager;1']
                     .getService(Ci.nsIServiceWorkerManager);
                 const all = manager.getAllRegistrations();
                 let ended = 0;
                 for (let at = 0; at < all.length; at += 1) {
                     const { activeWorker } =
                         all.queryElementAt(at, Ci.nsIServiceWorkerRegistrationInfo);
                     if (activeWorker) {
                         activeWorker.terminateWorker();
                         ended += 1;
                     }
                 }
                 return ended",
                json!([]),
            )
            .await?;
        if ended == 0 {
            bail!("There was no service worker to end.");
        }
        Ok(())
    }
}
