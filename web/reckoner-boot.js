// Starts the worker that answers what the page has folded away. Its name is the language that the
// page speaks.
import init from "./reckoner.js";
import { load } from "./language.js";

await load(self.name, ["page", "rest"]);
init({ module_or_path: new URL("./reckoner_bg.wasm", import.meta.url) });
