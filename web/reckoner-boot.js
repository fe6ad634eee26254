// Starts the worker that answers what the page has folded away. The page says in the address which
// language it speaks.
import init from "./reckoner.js";
import { load } from "./language.js";

await load(self.location.search.slice(1), ["names", "uses", "page", "rest"]);
init({ module_or_path: new URL("./reckoner_bg.wasm", import.meta.url) });
