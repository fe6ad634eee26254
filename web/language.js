// Loads the texts of a language while the app itself is loading. What is here runs in the page and
// in its worker, before either has any Rust to run.

const LANGUAGES = ["en", "fr", "es"];

// The language that was chosen in the app, else the first of the browser's that the app speaks.
export function wanted() {
  let chosen = null;
  try {
    chosen = localStorage.getItem("sideworth/language");
  } catch {
    // Where nothing can be kept the tab itself remembers what was chosen in it.
    if (typeof history.state === "string") chosen = history.state;
  }
  return [chosen, ...navigator.languages]
    .map((tag) => tag?.slice(0, 2).toLowerCase())
    .find((tag) => LANGUAGES.includes(tag)) ?? "en";
}

// Leaves the texts where the app looks for them. Where they cannot be had it is as good in English.
export async function load(language, files) {
  try {
    const texts = await Promise.all(files.map(async (file) => {
      const answer = await fetch(new URL(`./texts/${language}-${file}.txt`, import.meta.url));
      if (!answer.ok) throw new Error(answer.statusText);
      // What the interface says, and what is said of parts and cuts.
      return (await answer.text()).split("\f");
    }));
    globalThis.sideworthTexts = [language, ...texts.flat()];
  } catch (error) {
    if (language === "en") throw error;
    console.warn(error);
    await load("en", files);
  }
}
