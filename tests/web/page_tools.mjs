// SPDX-License-Identifier: MIT
// What the checks that open a page in Chromium share: tabs, bars that are held or missed, looking at a page at several widths.
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import os from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";

// Bars are those of an idle machine; SOILCLOCK_SLOWER=3 lets a busy one take three times as long.
export const slower = Number(process.env.SOILCLOCK_SLOWER ?? 1);
const patience = 60_000 * slower;

// `words` of the command line: SOURCE BUILD SOILCLOCK MODULES; `page` is the file in BUILD that is looked at.
export const pageTools = async (words, page) => {
  const [source, build, program, modules] = words.map((name) => path.resolve(name));
  if (!modules) {
    console.error("usage: node CHECK SOURCE BUILD SOILCLOCK MODULES");
    process.exit(2);
  }
  const require = createRequire(path.join(modules, "check.js"));
  const { chromium } = require("playwright-core");
  const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
  const file = path.join(build, page);
  const url = pathToFileURL(file).href;
  const folder = mkdtempSync(path.join(os.tmpdir(), "soilclock-page-"));
  const screenshots = path.join(build, "screenshots");
  mkdirSync(screenshots, { recursive: true });
  for (const name of readdirSync(path.join(source, "weather_samples")).filter((name) => name.endsWith(".csv")))
    writeFileSync(path.join(folder, name), readFileSync(path.join(source, "weather_samples", name)));

  let misses = 0;
  const miss = (what) => {
    misses += 1;
    console.log(`MISSED: ${what}`);
  };
  const hold = (good, what) => good || miss(what);
  const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
  // The times are the page's: a browser just installed reads itself from disk when it shows its first tab.
  const first = await browser.newPage();
  await first.goto("about:blank");
  await first.close();

  // A tab that shows the page, without network; or, with `service`, one whose requests to the network all go to that handler.
  // Whatever else is asked for is a miss, and so is a word on the console, except one that `said` lets pass.
  const open = async ({ service, said = () => false, ...more } = {}) => {
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, timezoneId: "America/New_York", ...more });
    if (service) await context.route(/^https?:/, service);
    else await context.setOffline(true);
    const tab = await context.newPage();
    tab.setDefaultTimeout(patience);
    tab.on("request", (request) =>
      !/^(blob|data):/.test(request.url()) && request.url() !== url && !service && miss(`asks for ${request.url()}`));
    tab.on("console", (message) => said(message.text()) || miss(`console: ${message.text()}`));
    tab.on("pageerror", (error) => miss(`error: ${error.message}`));
    await tab.goto(url);
    return tab;
  };
  // The browser library's own waiting evaluates text in the page, which the page's policy refuses.
  const until = async (tab, holds, argument) => {
    const end = Date.now() + patience;
    while (!(await tab.evaluate(holds, argument))) {
      if (Date.now() > end) throw new Error(`waited too long for ${holds}`);
      await new Promise((done) => setTimeout(done, 10));
    }
  };
  const quiet = (tab) => until(tab, () => document.getElementById("status").textContent === "");
  const shown = (tab) => until(tab, () => performance.getEntriesByName("course-shown").length > 0);

  const looked = async (tab, name) => {
    for (const width of [320, 390, 768, 1280]) {
      await tab.setViewportSize({ width, height: 900 });
      const over = await tab.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      hold(over <= 0, `${name}: ${over} px too wide at ${width}`);
      await tab.screenshot({ path: path.join(screenshots, `${name}-${width}.png`), fullPage: true });
      await tab.evaluate(axe);
      const found = await tab.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
      for (const violation of found.violations) miss(`${name} at ${width}: axe ${violation.id}: ${violation.nodes[0].target}`);
    }
  };

  // What the keyboard alone comes to: ids, or the words of what has none.
  const reachedByKeyboard = async (tab, presses) => {
    const reached = new Set();
    for (let i = 0; i < presses; i += 1) {
      await tab.keyboard.press("Tab");
      reached.add(await tab.evaluate(() => document.activeElement.id || document.activeElement.textContent.trim()));
    }
    return reached;
  };

  const downloaded = async (tab, button) => {
    const [download] = await Promise.all([tab.waitForEvent("download"), tab.click(button)]);
    const to = path.join(folder, download.suggestedFilename());
    await download.saveAs(to);
    return to;
  };
  const commandLine = (asked) =>
    spawnSync(program, asked, { cwd: folder, env: { ...process.env, XDG_DATA_HOME: folder, XDG_CONFIG_HOME: folder }, maxBuffer: 1 << 28 });

  const close = async () => {
    await browser.close();
    console.log(`${page}: ${misses ? `${misses} bars missed` : "every bar held"}`);
    process.exit(misses ? 1 : 0);
  };
  return { source, build, file, url, folder, screenshots, browser, hold, miss, open, until, quiet, shown, looked, reachedByKeyboard, downloaded, commandLine, close };
};
