/* Keys that are alike in every browser (without scripts each browser's own, by accesskey), and notes that stay with
   their recipe in this browser until it is decided, wherever one goes meanwhile. Filters that a phone has folded are
   open where there is room. */
"use strict";

const keyed = new Map();
for (const each of document.querySelectorAll("[accesskey]")) {
  keyed.set(`Key${each.accessKey.toUpperCase()}`, each);
  each.setAttribute("aria-keyshortcuts", `Alt+${each.accessKey.toUpperCase()}`);
  each.removeAttribute("accesskey");
}

document.addEventListener("keydown", (event) => {
  const meant = event.altKey && !event.ctrlKey && !event.metaKey && !event.shiftKey && keyed.get(event.code);
  if (!meant || event.repeat) return;
  event.preventDefault();
  meant.focus();
  if (!meant.matches("textarea, input[type=search]")) meant.click();
});

for (const form of document.querySelectorAll("form[data-draft]")) {
  const note = form.querySelector("textarea");
  const place = `note of ${form.dataset.draft}`;
  // Who types faster than the page loads has written before anything here could hear it.
  const [arrival] = performance.getEntriesByType("navigation");
  if (arrival?.type === "navigate" && note.value !== note.defaultValue) localStorage.setItem(place, note.value);
  // Going back, browsers fill in what was typed once, though it was sent with a decision since.
  addEventListener("pageshow", () => { note.value = localStorage.getItem(place) ?? note.defaultValue; });
  note.addEventListener("input", () => localStorage.setItem(place, note.value));
}

for (const decided of document.querySelectorAll("[data-decided]"))
  localStorage.removeItem(`note of ${decided.dataset.decided}`);

const isWide = matchMedia("(min-width: 60rem)").matches;
for (const each of document.querySelectorAll("details[data-open-where-wide]")) each.open ||= isWide;
