// Starts the worker that answers the questions of the place "What if".
import init from "./reckoner.js";

init({ module_or_path: new URL("./reckoner_bg.wasm", import.meta.url) });
