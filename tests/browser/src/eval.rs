//! Owns running a script in the page at hand, in the ways that the engines have: Chromium's own protocol, the drivers' scripts elsewhere,
//! Firefox's windows by its driver. Refuses to wait for anything but a promise.

use crate::engine::Engine;
use crate::error::{Error, Result};
use crate::look::shorten;
use crate::phone::Phone;
use serde_json::{Value, json};
use std::sync::Arc;
use thirtyfour::common::command::{Command, ExtensionCommand};

impl Phone {
    /// Evaluates an expression in the page, waits for it when it is a promise, and returns its value as JSON.
    pub async fn eval(&self, script: &str) -> Result<Value> {
        if self.engine == Engine::Chromium {
            return self.eval_by_protocol(script).await;
        }
        let ran = self.by_driver(&format!("(async () => (\n{script}\n))()")).await;
        let answer = match ran {
            // Statements have no value here; none has run so far.
            Err(Error::Driver { source, .. }) if is_no_expression(&source.to_string()) => {
                self.by_driver(&format!("(async () => {{\n{script}\n}})().then(() => null)")).await?
            }
            ran => ran?,
        };
        match answer["thrown"].as_str() {
            Some(message) => Err(Error::Thrown { script: shorten(script, 300), message: message.to_string() }),
            None => Ok(answer["value"].clone()),
        }
    }

    /// What becomes of a promise, or what was thrown.
    async fn by_driver(&self, promise: &str) -> Result<Value> {
        // Firefox keeps a driver's scripts in a room of their own, through whose window the page's globals are seen.
        let whole = format!(
            "const done = arguments[arguments.length - 1]; (function (globalThis) {{ with (window) {{ ({promise}).then(
                value => done({{ value: value ?? null }}), thrown => done({{ thrown: `${{thrown}}\n${{thrown?.stack ?? ''}}` }})); }} }})(window);"
        );
        let answer = self.web()?.execute_async(whole, Vec::new()).await.map_err(Error::driver("running a script"))?;
        Ok(answer.json().clone())
    }

    /// Runs a whole library in the page.
    pub(crate) async fn run(&self, library: &str) -> Result<()> {
        if self.engine == Engine::Chromium {
            return self.eval_by_protocol(&format!("{library}\n;null")).await.map(drop);
        }
        let whole = format!("(function (globalThis, self) {{ {library}\n}}).call(window, window, window);");
        self.web()?.execute(whole, Vec::new()).await.map_err(Error::driver("running a library")).map(drop)
    }

    async fn eval_by_protocol(&self, script: &str) -> Result<Value> {
        let params = json!({ "expression": script, "awaitPromise": true, "returnByValue": true, "userGesture": true });
        let answer = self.cdp("Runtime.evaluate", params).await?;
        let Some(details) = answer.get("exceptionDetails") else { return Ok(answer["result"]["value"].clone()) };
        let message =
            details["exception"]["description"].as_str().or(details["text"].as_str()).unwrap_or("(no message)");
        Err(Error::Thrown { script: shorten(script, 300), message: message.to_string() })
    }

    /// Runs a script in Firefox's own window, around the tab at hand.
    pub(crate) async fn in_firefox(&self, script: &str) -> Result<()> {
        let web = self.web()?;
        let enter = |room: &'static str| web.handle().cmd(Command::ExtensionCommand(Box::new(Room(room))));
        enter("chrome").await.map_err(Error::driver("going to the browser's own window"))?;
        let ran = web.execute(script.to_string(), Vec::new()).await;
        enter("content").await.map_err(Error::driver("going back to the page"))?;
        ran.map_err(Error::driver("running a script in the browser's own window")).map(drop)
    }
}

/// How Firefox and WebKit say that something is no expression.
fn is_no_expression(said: &str) -> bool {
    ["SyntaxError", "Unexpected token", "Unexpected keyword", "Unexpected identifier"]
        .iter()
        .any(|how| said.contains(how))
}

/// Firefox's driver runs scripts in the page (`content`) or in the browser's window (`chrome`).
#[derive(Debug)]
struct Room(&'static str);

impl ExtensionCommand for Room {
    fn parameters_json(&self) -> Option<Value> {
        Some(json!({ "context": self.0 }))
    }

    fn method(&self) -> http::Method {
        http::Method::POST
    }

    fn endpoint(&self) -> Arc<str> {
        "/moz/context".into()
    }
}
