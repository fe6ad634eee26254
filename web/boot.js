// Starts the app. A file of its own, because the content-security policy forbids inline scripts.
import init from "./sideworth.js";
import { load, wanted } from "./language.js";
import { keepOnDevice } from "./offline.js";

const start = () => init({ module_or_path: new URL("./sideworth_bg.wasm", import.meta.url) });

load(wanted(), ["page"]).then(start).then(
  // Where nothing can be kept (blocked storage, a private window), the app works on without.
  () => keepOnDevice().catch(() => {}),
  (error) => {
    const status = document.getElementById("boot-status");
    if (status) {
      status.textContent = `Sideworth could not start: ${error}. Reload the page; if that does not help, a newer browser may.`;
    }
    throw error;
  },
);
