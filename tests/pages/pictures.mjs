// SPDX-License-Identifier: MIT
// Takes the two pictures of the README from the demo's pages.
// Usage: node pictures.mjs PAGES MODULES FOLDER   (MODULES with playwright-core, FOLDER for the pictures)
import { mkdirSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [pages, modules, folder] = process.argv.slice(2);
if (!pages || !modules || !folder) {
  console.error("usage: node pictures.mjs PAGES MODULES FOLDER");
  process.exit(2);
}
const { chromium } = createRequire(path.resolve(modules, "pictures.js"))("playwright-core");
mkdirSync(folder, { recursive: true });

// Seven tenths of the page's own size is enough to read and keeps the files small.
const shots = [
  { page: "copper-heron", width: 1280, height: 1560 },
  { page: "index", width: 1280, height: 420 },
];
const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
for (const { page, width, height } of shots) {
  const context = await browser.newContext({ viewport: { width, height }, deviceScaleFactor: 0.7 });
  const tab = await context.newPage();
  await tab.goto(pathToFileURL(path.resolve(pages, `${page}.html`)).href);
  await tab.screenshot({ path: path.join(folder, `${page}.png`) });
  await context.close();
}
await browser.close();
