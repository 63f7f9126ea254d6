// SPDX-License-Identifier: MIT
// The module under node against the command line, byte for byte: result, problems and exit code. The demo courses on
// several days, every weather record at hand, and, with SOILCLOCK_RECORDS, more stations and files of every shape.
// Also the smallest example of how a script uses the module: openSession() and the first question.
// Usage: node same_answers.mjs SOURCE BUILD SOILCLOCK   (BUILD holds soilclock.js, SOILCLOCK is the native program)
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import os from "node:os";
import path from "node:path";

const [source, build, program] = process.argv.slice(2).map((name) => path.resolve(name));
if (!program) {
  console.error("usage: node same_answers.mjs SOURCE BUILD SOILCLOCK");
  process.exit(2);
}
const require = createRequire(import.meta.url);

const openSession = async () => {
  const soilclockModule = require(path.join(build, "soilclock.js"));
  const soilclockSession = require(path.join(source, "src/web/page/session.js"));
  return soilclockSession(await soilclockModule({ wasmBinary: readFileSync(path.join(build, "soilclock.wasm")) }));
};

const folder = mkdtempSync(path.join(os.tmpdir(), "soilclock-"));
const env = { ...process.env, XDG_DATA_HOME: folder, XDG_CONFIG_HOME: folder }; // no records of whoever runs this
const commandLine = (words, cwd) => {
  const ran = spawnSync(program, words, { cwd, env, maxBuffer: 1 << 28 });
  if (ran.error) throw ran.error;
  return { code: ran.status, result: ran.stdout.toString(), problems: ran.stderr.toString() };
};

let compared = 0;
let answers = 0;
let misses = 0;
let native = 0;
let module = 0;
const timed = (work) => {
  const began = performance.now();
  const found = work();
  return [found, performance.now() - began];
};
const hold = (name, ask, words, cwd) => {
  const [expected, nativeTime] = timed(() => commandLine(words, cwd));
  const [found, moduleTime] = timed(ask);
  native += nativeTime;
  module += moduleTime;
  compared += 1;
  if (expected.code === 0) answers += 1;
  for (const part of ["code", "result", "problems"]) {
    if (found[part] === expected[part]) continue;
    misses += 1;
    const [a, b] = [String(expected[part]), String(found[part])];
    let at = 0;
    while (at < a.length && a[at] === b[at]) at += 1;
    console.log(`${name}: ${part} differs at ${at}: "${a.slice(Math.max(0, at - 60), at + 40)}" by the program, ` +
      `"${b.slice(Math.max(0, at - 60), at + 40)}" by the module`);
  }
};

const session = await openSession();

// The demo.
const sitesFile = "config/demo_sites.json";
const sites = readFileSync(path.join(source, sitesFile), "utf8");
for (const name of readdirSync(path.join(source, "weather_samples")).filter((name) => name.endsWith(".csv")))
  session.putFile(`weather_samples/${name}`, readFileSync(path.join(source, "weather_samples", name)));
for (const on of ["2026-10-15", "2026-09-01", "2026-04-10", "2025-11-20", "2027-06-01"]) {
  hold(`demo on ${on}`, () => session.advice(sites, { on, sites_file: sitesFile }),
    ["advise", "--sites", sitesFile, "--on", on, "--format", "json"], source);
}
const planned = { on: "2026-10-15", sites_file: sitesFile, only: ["millrace-nine"], plan: "prodiamine + simazine", past_seasons: true };
hold("demo with a plan and past seasons", () => session.advice(sites, planned),
  ["advise", "--sites", sitesFile, "--on", "2026-10-15", "--only", "millrace-nine", "--plan", "prodiamine + simazine",
    "--past-seasons", "--format", "json"], source);
const areasFile = "tests/app/course_with_areas.json";
const areas = readFileSync(path.join(source, areasFile), "utf8");
for (const on of ["2026-10-15", "2026-09-01"]) {
  hold(`areas on ${on}`, () => session.advice(areas, { on, sites_file: areasFile }),
    ["advise", "--sites", areasFile, "--on", on, "--format", "json"], source);
}
hold("an area no course has", () => session.advice(areas, { on: "2026-10-15", sites_file: areasFile, only: ["millrace-nine/te"] }),
  ["advise", "--sites", areasFile, "--on", "2026-10-15", "--only", "millrace-nine/te", "--format", "json"], source);

// Stations: a course where each record was measured, two grasses.
const records = process.env.SOILCLOCK_RECORDS;
const recordFolders = [path.join(source, "tests/weather_records"), ...(records ? [path.join(records, "uscrn")] : [])];
const stations = new Map();
for (const at of recordFolders) {
  for (const name of readdirSync(at).filter((name) => name.startsWith("CRND0103-2020-"))) {
    if (!stations.has(name)) stations.set(name, path.join(at, name));
  }
}
const mostStations = Number(process.env.SOILCLOCK_STATIONS ?? 30);
let number = 0;
for (const [name, file] of [...stations].slice(0, mostStations)) {
  const line = readFileSync(file, "utf8").split("\n")[0].trim().split(/\s+/);
  const site = [{ id: `station-${(number += 1)}`, latitude: Number(line[4]), longitude: Number(line[3]), targets: ["POAAN", "DIGIS"],
    weather: [{ file: name }] }];
  const text = JSON.stringify(site);
  writeFileSync(path.join(folder, name), readFileSync(file));
  writeFileSync(path.join(folder, "station.json"), text);
  session.dropFiles();
  session.putFile(name, readFileSync(file));
  for (const on of ["2020-05-11", "2020-10-15"]) {
    hold(`${name} on ${on}`, () => session.advice(text, { on, sites_file: "station.json" }),
      ["advise", "--sites", "station.json", "--on", on, "--format", "json"], folder);
  }
}

// Shapes of files: how each was read.
const shapes = [path.join(source, "weather_samples"),
  ...(records ? ["csv_shapes", "met_eireann", "vega_noaa"].map((name) => path.join(records, name)) : [])].filter(existsSync);
for (const at of shapes) {
  for (const name of readdirSync(at).filter((name) => /\.(csv|txt)$/.test(name))) {
    session.dropFiles();
    session.putFile(name, readFileSync(path.join(at, name)));
    for (const format of ["json", "text"])
      hold(`${name} as ${format}`, () => session.inspect({ file: name, format }), ["inspect", name, "--format", format], at);
  }
}

rmSync(folder, { recursive: true });
console.log(`${compared} questions, ${answers} answered in full, ${misses} differences; ` +
  `program ${Math.round(native)} ms with its starts, module ${Math.round(module)} ms`);
if (answers < 10) console.log("too few of them were answered to mean anything");
process.exit(misses || answers < 10 ? 1 : 0);
