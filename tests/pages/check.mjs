// SPDX-License-Identifier: MIT
// Looks at finished pages as a reader's browser does and says where they miss a bar: size, overflow at four widths,
// anything fetched, anything on the console, accessibility, pictures without words, sheets of paper.
// Usage: node check.mjs FOLDER MODULES   (FOLDER with pages, MODULES with playwright-core and axe-core)
import { execFileSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [folder, modules] = process.argv.slice(2);
if (!folder || !modules) {
  console.error("usage: node check.mjs FOLDER MODULES");
  process.exit(2);
}
const require = createRequire(path.resolve(modules, "check.js"));
const { chromium } = require("playwright-core");
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

const mostBytes = 150_000;
const mostBytesOfList = 600_000;
const widths = [320, 390, 768, 1280];
const papers = ["Letter", "A4"];
const sheetsOfATarget = 2;
const screenshots = path.join(folder, "screenshots");
mkdirSync(screenshots, { recursive: true });

let misses = 0;
const miss = (page, what) => {
  misses += 1;
  console.log(`${page}: ${what}`);
};

const sheetsOf = (pdf) => Number(/^Pages:\s+(\d+)/m.exec(execFileSync("pdfinfo", [pdf], { encoding: "utf8" }))[1]);

// What stands in the page itself, whatever its width.
const lookAt = () => {
  const pictures = [...document.querySelectorAll("svg:not([aria-hidden])")];
  const words = (picture, tag) => picture.querySelector(`:scope > ${tag}`)?.textContent.trim() ?? "";
  return {
    scripts: document.querySelectorAll("script").length,
    styles: document.querySelectorAll("[style]").length,
    headings: document.querySelectorAll("h1").length,
    targets: document.querySelectorAll("section.target").length,
    pictures: pictures.length,
    tables: document.querySelectorAll("table").length,
    silent: pictures.filter((p) => p.getAttribute("role") !== "img" || !words(p, "title") || !words(p, "desc")).length,
    ids: (() => {
      const all = [...document.querySelectorAll("[id]")].map((e) => e.id);
      return all.length - new Set(all).size;
    })(),
    unnamed: [...document.querySelectorAll("table")].filter(
      (t) => !t.caption?.textContent.trim() || !t.querySelector("th[scope]")).length,
    nonsense:
      /\b(nan|undefined|-?inf)\b/i.test(document.body.innerText) ||
      [...document.querySelectorAll("svg [d], svg [x], svg [cx]")].some((e) =>
        ["d", "x", "y", "cx", "cy", "width", "height"].some((a) => /nan|inf/i.test(e.getAttribute(a) ?? ""))),
  };
};

const checkPage = async (browser, file) => {
  const name = path.basename(file, ".html");
  const bytes = statSync(file).size;
  const isList = name === "index";
  const allowed = isList ? mostBytesOfList : mostBytes;
  if (bytes > allowed) miss(name, `${bytes} bytes, more than ${allowed}`);
  const tab = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  const url = pathToFileURL(file).href;
  tab.on("request", (request) => request.url() !== url && miss(name, `asks for ${request.url()}`));
  tab.on("console", (message) => miss(name, `console: ${message.text()}`));
  tab.on("pageerror", (error) => miss(name, `error: ${error.message}`));
  await tab.goto(url);

  const seen = await tab.evaluate(lookAt);
  if (seen.scripts !== (isList ? 1 : 0) || seen.styles) miss(name, `${seen.scripts} scripts, ${seen.styles} inline styles`);
  if (seen.headings !== 1) miss(name, `${seen.headings} headings of the first order`);
  if (seen.silent) miss(name, `${seen.silent} pictures without role, title or description`);
  if (seen.pictures && !seen.tables) miss(name, "pictures and no table");
  if (seen.unnamed) miss(name, `${seen.unnamed} tables without caption or headings`);
  if (seen.ids) miss(name, `${seen.ids} ids stand twice`);
  if (seen.nonsense) miss(name, "a number that is none");

  for (const width of widths) {
    await tab.setViewportSize({ width, height: 900 });
    const over = await tab.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    if (over > 0) miss(name, `${over} px too wide at ${width}`);
    await tab.screenshot({ path: path.join(screenshots, `${name}-${width}.png`), fullPage: true });
    await tab.evaluate(axe);
    const found = await tab.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
    for (const violation of found.violations)
      miss(name, `axe at ${width}: ${violation.id}, ${violation.nodes.length}x: ${violation.nodes[0].target}`);
  }

  await tab.setViewportSize({ width: 1280, height: 900 });
  const most = sheetsOfATarget * Math.max(1, seen.targets);
  const sheets = [];
  for (const paper of papers) {
    const pdf = path.join(screenshots, `${name}-${paper}.pdf`);
    writeFileSync(pdf, await tab.pdf({ format: paper, printBackground: true }));
    sheets.push(sheetsOf(pdf));
    if (sheets.at(-1) > most) miss(name, `${sheets.at(-1)} sheets on ${paper}, more than ${most}`);
    execFileSync("pdftoppm", ["-gray", "-r", "80", "-png", pdf, pdf.replace(/\.pdf$/, "")]);
  }
  await tab.close();
  console.log(`${name}: ${bytes} bytes, ${seen.targets} open, ${sheets.join(" and ")} sheets`);
};

const files = readdirSync(folder).filter((file) => file.endsWith(".html")).sort();
if (!files.length) {
  console.error(`no page in ${folder}`);
  process.exit(2);
}
const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
for (const file of files) await checkPage(browser, path.join(folder, file));
await browser.close();
console.log(misses ? `${misses} bars missed` : `${files.length} pages, every bar held`);
process.exit(misses ? 1 : 0);
