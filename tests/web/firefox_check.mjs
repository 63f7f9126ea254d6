// SPDX-License-Identifier: MIT
// Opens soilclock.html from disk in Firefox with the network refused: the demo's answer is there, a what-if answers, and
// the answers saved are the bytes that the command line prints.
// Usage: node firefox_check.mjs SOURCE BUILD SOILCLOCK MODULES
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import os from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [source, build, program, modules] = process.argv.slice(2).map((name) => path.resolve(name));
if (!modules) {
  console.error("usage: node firefox_check.mjs SOURCE BUILD SOILCLOCK MODULES");
  process.exit(2);
}
const puppeteer = createRequire(path.join(modules, "check.js"))("puppeteer-core");
const screenshots = path.join(build, "screenshots");
mkdirSync(screenshots, { recursive: true });

let misses = 0;
const hold = (good, what) => {
  if (good) return;
  misses += 1;
  console.log(`MISSED: ${what}`);
};

const browser = await puppeteer.launch({
  browser: "firefox", executablePath: "/usr/bin/firefox-esr", headless: true,
  // Whatever is asked for goes to a door that nobody answers.
  extraPrefsFirefox: { "network.proxy.type": 1, "network.proxy.http": "127.0.0.1", "network.proxy.http_port": 9, "network.proxy.ssl": "127.0.0.1", "network.proxy.ssl_port": 9 },
});
const tab = await browser.newPage();
await tab.setViewport({ width: 1280, height: 900 });
tab.on("pageerror", (error) => hold(false, `error: ${error.message}`));
tab.on("console", (message) => message.type() === "error" && hold(false, `console: ${message.text()}`));
const until = async (holds) => {
  const end = Date.now() + 120_000;
  while (!(await tab.evaluate(holds))) {
    if (Date.now() > end) throw new Error(`waited too long for ${holds}`);
    await new Promise((done) => setTimeout(done, 50));
  }
};

await tab.goto(pathToFileURL(path.join(build, "soilclock.html")).href);
await until(() => performance.getEntriesByName("course-shown").length > 0);
await until(() => document.getElementById("status").textContent === "");
hold(await tab.evaluate(() => document.querySelector("#answer h1").textContent === "Copper Heron"), "the demo's answer is not there");
await tab.select("#if-weather", "dry_ahead");
await until(() => document.querySelector("#if-answer .changes") !== null);

const saved = async (button) => {
  await tab.evaluate(() => {
    const made = URL.createObjectURL;
    URL.createObjectURL = (blob) => {
      URL.createObjectURL = made;
      window.saved = blob;
      return made.call(URL, blob);
    };
  });
  await tab.evaluate((id) => document.getElementById(id).click(), button);
  await until(() => window.saved !== undefined);
  const text = await tab.evaluate(async () => {
    const blob = window.saved;
    window.saved = undefined;
    return blob.text();
  });
  return text;
};
const answer = await saved("save-answer");
const folder = mkdtempSync(path.join(os.tmpdir(), "soilclock-firefox-"));
const said = spawnSync(program, ["advise", "--sites", "config/demo_sites.json", "--on", "2026-10-15", "--format", "json"],
  { cwd: source, env: { ...process.env, XDG_DATA_HOME: folder, XDG_CONFIG_HOME: folder }, maxBuffer: 1 << 28, encoding: "utf8" });
hold(said.status === 0 && said.stdout === answer, "the saved answer is not what the command line prints");
if (said.stdout !== answer) writeFileSync(path.join(folder, "firefox.json"), answer);
writeFileSync(path.join(screenshots, "firefox.png"), await tab.screenshot());
await browser.close();
console.log(misses ? `Firefox: ${misses} bars missed` : "Firefox: every bar held");
process.exit(misses ? 1 : 0);
