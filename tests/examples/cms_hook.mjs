// A CMS's save hook in JavaScript (Node 18 or later, no packages).
//
//   node cms_hook.mjs save KEY RECIPE.json [ETAG]   prints the ETag to keep beside the recipe
//   node cms_hook.mjs follow [AFTER]                waits for the next event after number AFTER
//
// LEDGER_URL is where the service is; LEDGER_KEY an API key with the scopes calculate and save, if it asks for one.

import { readFile } from "node:fs/promises";

const url = process.env.LEDGER_URL ?? "http://127.0.0.1:8080";
const key = process.env.LEDGER_KEY;
const authorization = key ? { Authorization: `Bearer ${key}` } : {};

// Saves a recipe; sending it twice does no harm.
async function save(name, recipe, etag) {
  const response = await fetch(`${url}/v1/recipes/${encodeURIComponent(name)}`, {
    method: "PUT",
    headers: {
      "Content-Type": "application/json",
      ...authorization,
      ...(etag ? { "If-Match": etag } : {}),
    },
    body: JSON.stringify(recipe),
  });
  const answer = await response.json();
  if (!response.ok) {
    for (const { pointer, message } of answer.errors ?? []) console.error(`${pointer}: ${message}`);
    throw new Error(`${response.status}: ${answer.detail}`);
  }
  return { etag: response.headers.get("ETag"), saved: answer };
}

// What to show beside the save button.
function forTheEditor({ calculation }) {
  const { low, likely, high } = calculation.sodium.per_serving_mg;
  const round = (mg) => Math.round(mg);
  return [
    `${round(likely)} mg of sodium a serving (${round(low)} to ${round(high)})`,
    ...calculation.notices
      .filter(({ severity }) => severity !== "info")
      .map(({ severity, message }) => `${severity}: ${message}`),
  ];
}

// What happened after event number `after`; waits up to 20 seconds for something to happen.
async function nextEvents(after) {
  const response = await fetch(`${url}/v1/events?after=${after}&wait=20`, { headers: authorization });
  if (!response.ok) throw new Error(`${response.status}`);
  return (await response.json()).events;
}

const [command, ...rest] = process.argv.slice(2);
if (command === "save" && rest.length >= 2) {
  const [name, file, etag] = rest;
  const kept = await save(name, JSON.parse(await readFile(file, "utf8")), etag);
  console.log(kept.etag);
  console.error(forTheEditor(kept.saved).join("\n"));
} else if (command === "follow") {
  for (const { id, kind, key: name, by } of await nextEvents(rest[0] ?? 0)) console.log(id, kind, name, by ?? "");
} else {
  console.error("Give save KEY RECIPE.json [ETAG], or follow [AFTER].");
  process.exit(2);
}
