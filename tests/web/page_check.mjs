// SPDX-License-Identifier: MIT
// Opens soilclock.html from disk with the network refused and holds it to its bars: the first answer, what-ifs, the
// command line's bytes, files by picker, refusals, cancel, widths, accessibility, and the page without script.
// Usage: node page_check.mjs SOURCE BUILD SOILCLOCK MODULES
import { spawnSync } from "node:child_process";
import { readFileSync, statSync, writeFileSync } from "node:fs";
import path from "node:path";
import { pageTools, slower } from "./page_tools.mjs";

const { file, url, folder, screenshots, browser, hold, miss, open, until, quiet, shown, looked, reachedByKeyboard, downloaded, commandLine, close } =
  await pageTools(process.argv.slice(2), "soilclock.html");
const bars = { bytes: 1_500_000, firstAnswer: 2000 * slower, whatIfMedian: 200 * slower, whatIfWorst: 400 * slower };

// Sealed: nothing to connect to, and nothing of the page that may ask a service.
{
  const text = readFileSync(file, "utf8");
  if (statSync(file).size > bars.bytes) miss(`${statSync(file).size} bytes`);
  hold(/<meta http-equiv="Content-Security-Policy" content="[^"]*connect-src 'none';/.test(text), "the policy lets the page connect to something");
  for (const word of ['id="get-weather"', "offerWeather(page)", "https://"]) hold(!text.replace(/ xmlns="[^"]*"/g, "").includes(word), `the sealed page holds ${word}`);
}

// The demo: first answer, the page as it looks, and what the command line says to the saved courses.
{
  const tab = await open();
  await shown(tab);
  const first = await tab.evaluate(() => performance.getEntriesByName("course-shown")[0].startTime);
  console.log(`first answer after ${Math.round(first)} ms`);
  hold(first <= bars.firstAnswer, `first answer after ${Math.round(first)} ms`);
  await quiet(tab);
  await looked(tab, "demo");
  await downloaded(tab, "#save");
  const answer = await downloaded(tab, "#save-answer");
  const said = commandLine(["advise", "--sites", "courses.json", "--on", "2026-10-15", "--format", "json"]);
  hold(said.status === 0 && said.stdout.equals(readFileSync(answer)), "the saved answer is not what the command line prints");
  await quiet(tab);
  await tab.click("text=All courses");
  await tab.waitForSelector("table.courses");
  await looked(tab, "courses");
  const names = () => tab.$$eval("table.courses >> nth=0 >> tbody tr:not([hidden]) th", (cells) => cells.map((cell) => cell.textContent));
  const urgent = await names();
  await tab.selectOption("p.filter select >> nth=1", "name");
  hold((await names()).join() === [...urgent].sort().join(), "the list is not in the order of names");
  await tab.selectOption("p.filter select >> nth=1", "best");
  const weeks = await tab.$$eval("table.courses >> nth=0 >> td.best", (cells) => cells.map((cell) => Number(cell.dataset.sort)));
  hold(weeks.length > 1 && weeks.every((week, i) => i === 0 || weeks[i - 1] <= week), "the list is not in the order of best weeks");
  await tab.selectOption("p.filter select >> nth=1", "");
  hold((await names()).join() === urgent.join(), "the list does not go back to urgency");
  await tab.fill("p.filter input", urgent[0].slice(0, 6));
  hold((await names()).join() === urgent[0], "a word does not filter the list");
  await tab.fill("p.filter input", "");
  const kind = await tab.textContent("table.courses >> nth=0 >> td.kind");
  await tab.selectOption("p.filter select >> nth=0", kind);
  const kinds = await tab.$$eval("table.courses tbody tr:not([hidden]) td.kind", (cells) => cells.map((cell) => cell.textContent));
  hold(kinds.length > 0 && kinds.every((one) => one === kind), "the list is not filtered by kind");
  await tab.selectOption("p.filter select >> nth=0", "");
  await tab.click("table.courses a >> nth=1");
  await tab.waitForSelector("#answer section.target");
  await tab.context().close();
}

// What if: fifty choices for one grass.
{
  const tab = await open();
  await shown(tab);
  await quiet(tab);
  await tab.selectOption("#if-soil", { index: 4 });
  await tab.waitForSelector("#if-answer .changes");
  await quiet(tab);
  const words = await tab.textContent("#if-answer .changes");
  hold(/instead of/.test(words), `a cooler soil changes nothing: ${words}`);
  await looked(tab, "what-if");
  hold(await tab.isVisible("#if-answer .behind >> nth=0"), "the season as it is does not stand behind the asked one");
  for (let i = 0; i < 3; i += 1) {
    await tab.click("#keep-case");
    await until(tab, (n) => document.querySelectorAll("#cases thead th").length === n, i + 2);
    await tab.selectOption("#if-weather", { index: i + 1 });
    await quiet(tab);
  }
  hold(!(await tab.isVisible("#keep-case")), "more cases are kept than stand side by side");
  await tab.click("#compare");
  await tab.waitForSelector("#comparison table");
  await looked(tab, "cases");
  await tab.click("#drop-cases");
  await tab.evaluate(() => performance.clearMeasures());
  for (let i = 0; i < 50; i += 1) {
    await tab.selectOption(["#if-soil", "#if-water", "#if-weather", "#if-later"][i % 4], { index: (i * 7 + 1) % 3 });
    await until(tab, (n) => performance.getEntriesByName("what-if").length > n, i);
  }
  const times = await tab.evaluate(() => performance.getEntriesByName("what-if").map((entry) => entry.duration).sort((a, b) => a - b));
  const median = times[Math.floor(times.length / 2)];
  console.log(`what-if: median ${Math.round(median)} ms, worst ${Math.round(times.at(-1))} ms of ${times.length}`);
  hold(median <= bars.whatIfMedian, `what-if median ${Math.round(median)} ms`);
  hold(times.at(-1) <= bars.whatIfWorst, `what-if worst ${Math.round(times.at(-1))} ms`);
  await tab.context().close();
}

// Notes: typed in, used, refused at their place, taken out, saved.
{
  const tab = await open();
  await shown(tab);
  await quiet(tab);
  const headline = () => tab.textContent("#answer section.target");
  const before = await headline();
  await tab.click("#to-note");
  await tab.fill("#note-date", "2026-09-08");
  await tab.fill("#note-actives", "prodiamine, 5");
  await tab.click("#note button[type=submit]");
  await tab.waitForSelector("#noted li");
  await quiet(tab);
  hold((await headline()) !== before, "a noted application changes nothing");
  await tab.selectOption("#kind", "reading");
  await tab.fill("#note-temperature", "62");
  await tab.click("#note button[type=submit]");
  await until(tab, () => /cannot be noted.*field/.test(document.getElementById("trouble").textContent));
  hold((await tab.locator("#noted li").count()) === 1, "a note that was refused is kept");
  await looked(tab, "notes");
  await downloaded(tab, "#save");
  const said = commandLine(["advise", "--sites", "courses.json", "--on", "2026-10-15", "--format", "json"]);
  hold(said.stdout.equals(readFileSync(await downloaded(tab, "#save-answer"))), "notes count otherwise on the command line");
  await tab.click("#noted button");
  await until(tab, () => document.querySelectorAll("#noted li").length === 0);
  await quiet(tab);
  hold((await headline()) === before, "an application that was taken out still counts");
  await tab.context().close();
}

// Dark surroundings, no motion, a page zoomed to twice its size, keyboard alone, paper.
{
  const tab = await open({ colorScheme: "dark", reducedMotion: "reduce" });
  await shown(tab);
  await quiet(tab);
  await looked(tab, "dark");
  for (const format of ["Letter", "A4"]) {
    const paper = path.join(folder, `${format}.pdf`);
    writeFileSync(paper, await tab.pdf({ format, printBackground: true }));
    const pages = /Pages: +(\d+)/.exec(spawnSync("pdfinfo", [paper], { encoding: "utf8" }).stdout)?.[1];
    hold(pages === "2", `${pages} sheets of ${format}`);
  }
  await tab.context().close();
  const near = await open({ viewport: { width: 640, height: 450 }, deviceScaleFactor: 2 });
  await shown(near);
  await quiet(near);
  const reached = await reachedByKeyboard(near, 80);
  for (const id of ["on", "pick", "to-note", "save", "save-answer", "demo", "All courses", "if-target", "if-weather", "compare"])
    hold(reached.has(id), `the keyboard does not reach ${id}`);
  await near.screenshot({ path: path.join(screenshots, "zoomed.png") });
  await near.focus("#to-note");
  await near.keyboard.press("Enter");
  hold((await near.evaluate(() => document.activeElement.id)) === "kind", "the form of a note does not take the keyboard");
  await near.context().close();
}

// Own weather by the picker; bad files; cancel.
{
  const tab = await open();
  await shown(tab);
  await quiet(tab);
  const large = path.join(folder, "large.csv");
  writeFileSync(large, Buffer.alloc(50_000_001, "x"));
  await tab.setInputFiles("#pick", large);
  await until(tab, () => /larger than 50 MB/.test(document.getElementById("trouble").textContent));
  const bad = path.join(folder, "page.csv");
  writeFileSync(bad, "<html><body>not found</body></html>");
  await tab.setInputFiles("#pick", [path.join(folder, "millrace_nine.csv"), path.join(folder, "millrace_nine_forecast.csv"), bad]);
  await tab.waitForSelector("#files li:nth-child(3) pre");
  await quiet(tab);
  await looked(tab, "own-files");
  await tab.setViewportSize({ width: 1280, height: 900 });
  // A file whose dates can be read either way says so, and is read once the user says which.
  writeFileSync(path.join(folder, "either.csv"), "date,tmin F,tmax F\n" +
    Array.from({ length: 9 }, (_, i) => `0${i + 1}/0${i + 1}/2026,50,70\n0${i + 1}/0${9 - i}/2026,50,70\n`).join(""));
  await tab.setInputFiles("#pick", path.join(folder, "either.csv"));
  await tab.waitForSelector("#files li:nth-child(4) pre");
  const before = await tab.textContent("#files li:nth-child(4) pre");
  await tab.selectOption("#files li:nth-child(4) select >> nth=1", "day-first");
  await until(tab, (text) => document.querySelector("#files li:nth-child(4) pre").textContent !== text, before);
  await tab.selectOption("#files li:nth-child(4) select >> nth=0", "none");
  hold((await tab.inputValue("#files li:nth-child(3) select")) === "none", "a file that cannot be read is used");
  await tab.fill("#name", "<b>Back Nine</b>");
  await tab.selectOption("#state", "Virginia");
  hold((await tab.inputValue("#time-zone")) === "America/New_York", "a state sets no time zone");
  await tab.fill("#latitude", "38.8");
  await tab.fill("#longitude", "-77.4");
  await tab.selectOption("#turf", "zoysiagrass");
  await tab.fill("#plan", "prodiamine + simazine");
  await tab.fill("#resistance", "9");
  await tab.fill("#on", "2026-10-15");
  await tab.click("#own button[type=submit]");
  await tab.fill("#on", "2026-10-14");
  await until(tab, () => document.querySelector("#answer h1")?.textContent === "<b>Back Nine</b>");
  await quiet(tab);
  hold(await tab.isVisible("#answer section.target"), "no answer for one's own course");
  const own = await tab.evaluate(() => performance.getEntriesByName("course").map((entry) => Math.round(entry.duration)));
  console.log(`one's own course answered after ${own.join(", ")} ms`);
  await looked(tab, "own-course");
  await downloaded(tab, "#save");
  const said = commandLine(["advise", "--sites", "courses.json", "--on", "2026-10-14", "--format", "json"]);
  hold(said.status === 0, `the command line does not read the saved course: ${said.stderr}`);
  hold(said.stdout.equals(readFileSync(await downloaded(tab, "#save-answer"))), "one's own course is answered otherwise");
  await tab.click("#demo");
  await shown(tab);
  await tab.click("text=All courses");
  await tab.click("#cancel");
  await until(tab, () => document.getElementById("trouble").textContent === "Canceled.");
  await tab.click("#tabs button >> nth=1");
  await until(tab, () => document.querySelector("#answer h1")?.textContent === "Copper Heron");
  await tab.context().close();
}

// Without script: the demo's answer and what to do.
{
  const context = await browser.newContext({ javaScriptEnabled: false, viewport: { width: 390, height: 844 } });
  const tab = await context.newPage();
  await tab.goto(url);
  hold(await tab.isVisible(".no-script"), "without script nobody says what to do");
  hold(await tab.isVisible("#answer section.target"), "without script there is no answer");
  hold(!(await tab.isVisible(".tools")), "without script there are buttons that do nothing");
  await tab.screenshot({ path: path.join(screenshots, "no-script-390.png") });
  await context.close();
}

await close();
