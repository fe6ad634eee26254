// Loads the texts of a language other than English while the app itself is loading. What is here
// runs in the page and in its worker, before either has any Rust to run.

const LANGUAGES = ["en", "fr", "es"];

// The language that was chosen in the app, else the first of the browser's that the app speaks.
export function wanted() {
  let chosen = null;
  try {
    chosen = localStorage.getItem("sideworth/language");
  } catch {
    // Where nothing can be kept nothing was chosen.
  }
  return [chosen, ...navigator.languages]
    .map((tag) => tag?.slice(0, 2).toLowerCase())
    .find((tag) => LANGUAGES.includes(tag)) ?? "en";
}

// Leaves the texts where the app looks for them. Without them it is as good, in English.
export async function load(language, files) {
  if (language === "en") return;
  try {
    const texts = await Promise.all(files.map(async (file) => {
      const answer = await fetch(new URL(`./texts/${language}-${file}.txt`, import.meta.url));
      if (!answer.ok) throw new Error(answer.statusText);
      return answer.text();
    }));
    globalThis.sideworthTexts = [language, ...texts];
  } catch (error) {
    console.warn(error);
  }
}
