// Has the browser keep the app on the device, and tells the app what there is to say about it.
//
// What there is to say stands in `data-offline` at the root of the page, "works" or "update", and
// the event "offline-news" goes out whenever it changes. The app sends "update-wanted" when its user
// has asked for the new version; it hears "before-update" as its last chance to put by what was typed.

function tell(news) {
  document.documentElement.dataset.offline = news;
  document.dispatchEvent(new Event("offline-news"));
}

let isLeaving = false;
function reload() {
  if (isLeaving) return;
  isLeaving = true;
  document.dispatchEvent(new Event("before-update"));
  location.reload();
}

export async function keepOnDevice() {
  if (document.readyState !== "complete") {
    await new Promise((loaded) => addEventListener("load", loaded, { once: true }));
  }
  const workers = navigator.serviceWorker;
  const address = new URL("./service-worker.js", import.meta.url).href;
  // The page may be below a folder that has a worker of its own.
  let isServed = workers.controller?.scriptURL === address;
  workers.addEventListener("controllerchange", () => {
    // Someone took the new version, here or in another tab: no page goes on with files of two.
    if (isServed) reload();
    isServed = true;
  });

  const registration = await workers.register(address);
  let isWanted = false;
  const watch = (worker) => {
    if (!worker) return;
    const isUpdate = registration.active !== null;
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" && isUpdate) tell("update");
      if (worker.state !== "activated") return;
      if (!isUpdate) {
        worker.postMessage({ serve: document.querySelector("meta[name=build]").content });
        tell("works");
      } else if (isWanted) reload();
    });
  };
  registration.addEventListener("updatefound", () => watch(registration.installing));
  watch(registration.installing);
  watch(registration.waiting);
  if (registration.waiting && registration.active) tell("update");

  document.addEventListener("update-wanted", () => {
    isWanted = true;
    if (registration.waiting) registration.waiting.postMessage({ takeOver: true });
    else reload();
  });
}
