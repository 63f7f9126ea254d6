// SPDX-License-Identifier: MIT
// Makes a course page for every state an answer can be in, and the page of a hundred courses, from the weather of the
// source tree. check.mjs looks at them afterward.
// Usage: node states.mjs PROGRAM FOLDER
import { execFileSync } from "node:child_process";
import { copyFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";

const [program, folder] = process.argv.slice(2);
if (!program || !folder) {
  console.error("usage: node states.mjs PROGRAM FOLDER");
  process.exit(2);
}
const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
const work = path.resolve(folder, "made");
rmSync(folder, { recursive: true, force: true });
mkdirSync(work, { recursive: true });

const demo = JSON.parse(readFileSync(path.join(root, "config/demo_sites.json"), "utf8"));
const inTree = (item) => ({ ...item, file: path.resolve(root, "config", item.file) });
const demoSite = (id) => {
  const { weather, probe = [], ...site } = demo.find((one) => one.id === id);
  return { ...site, weather: weather.map(inTree), probe: probe.map(inTree), targets: ["POAAN"] };
};
const station = (name, site) => ({
  turf: { species: "hybrid bermudagrass", irrigated: true, overseed_on: null },
  targets: ["POAAN"],
  weather: [{ file: path.join(root, "tests/weather_records", `CRND0103-2020-${name}.txt`) }],
  ...site,
});

// Copper Heron's days with another date each, written by `move`; nothing drops a day.
const copperHeron = readFileSync(path.join(root, "weather_samples/copper_heron.csv"), "utf8").trim().split("\n");
const weatherFile = (name, move) => {
  const lines = copperHeron.slice(1).flatMap((line) => {
    const [date, ...values] = line.split(",");
    const [month, day, year] = date.split("/").map(Number);
    const moved = move(new Date(Date.UTC(year, month - 1, day)));
    return moved ? [[moved.toISOString().slice(0, 10), ...values].join(",")] : [];
  });
  const file = path.join(work, name);
  writeFileSync(file, [copperHeron[0], ...lines].join("\n") + "\n");
  return file;
};
const halfAYear = 182 * 86_400_000;

const application = (date, ...more) => ["application", "--date", date, ...more];
const pre = (date) => application(date, "--active", "prodiamine", "--purpose", "pre", "--watering-in", "0.25in");
const post = (date) => application(date, "--group", "9", "--purpose", "post");
const fullLog = [
  pre("2026-09-01"),
  ["first-seen", "--date", "2026-09-07", "--target", "POAAN"],
  ["count", "--date", "2026-09-14", "--target", "POAAN", "--count", "2", "--count", "4", "--stage", "2 leaves"],
  ["count", "--date", "2026-09-28", "--target", "POAAN", "--count", "9", "--count", "12", "--stage", "3 leaves"],
  ["check", "--date", "2026-10-05", "--state", "green"],
  ["reading", "--date", "2026-10-08", "--time", "11:00", "--depth", "2in", "--temperature", "64F"],
  ["reading", "--date", "2026-10-14", "--time", "11:00", "--depth", "2in", "--temperature", "61F"],
];

const today = "2026-10-15";
const states = [
  { name: "treat-now", on: "2026-01-05", site: demoSite("millrace-nine") },
  { name: "any-week", on: today, site: demoSite("copper-heron") },
  { name: "wait", on: "2026-09-01", site: demoSite("copper-heron") },
  { name: "nothing-left", on: "2026-03-30", site: demoSite("copper-heron") },
  {
    name: "no-single-week",
    on: "2020-10-20",
    site: station("OR_Coos_Bay_8_SW", { latitude: 43.3, longitude: -124.3, units: "us" }),
  },
  { name: "after-a-pre", on: today, site: demoSite("copper-heron"), notes: [pre("2026-09-08")] },
  { name: "after-a-post", on: today, site: demoSite("copper-heron"), notes: [post("2026-10-05")] },
  { name: "full-log", on: today, site: demoSite("copper-heron"), notes: fullLog },
  { name: "overseeded", on: today, site: demoSite("saltmarsh-bell") },
  {
    name: "overseeding-ahead",
    on: "2026-09-28",
    site: {
      ...demoSite("saltmarsh-bell"),
      turf: { species: "overseeded bermudagrass", irrigated: true, overseed_on: "2026-10-12" },
    },
  },
  {
    name: "models-disagree",
    on: "2020-10-20",
    site: station("NC_Durham_11_W", { latitude: 36.0, longitude: -79.1, units: "us" }),
  },
  {
    name: "one-year-record",
    on: "2020-10-05",
    site: station("KY_Bowling_Green_21_NNE", { latitude: 37.3, longitude: -86.2, units: "us" }),
  },
  {
    name: "southern-hemisphere",
    on: "2027-04-15",
    site: {
      ...demoSite("copper-heron"),
      latitude: -35.6,
      longitude: 149.1,
      time_zone: "Australia/Sydney",
      units: "metric",
      weather: [{ file: weatherFile("half_a_year_later.csv", (day) => new Date(day.getTime() + halfAYear)) }],
      probe: [],
    },
  },
  { name: "metric", on: today, site: { ...demoSite("copper-heron"), units: "metric" } },
  { name: "crabgrass-in-april", on: "2026-04-10", site: { ...demoSite("millrace-nine"), targets: ["DIGIS"] } },
  {
    name: "four-grasses",
    on: "2026-01-20",
    site: { ...demoSite("copper-heron"), targets: ["POAAN", "DIGIS", "DIGSA", "ELEIN"] },
  },
  {
    name: "old-weather",
    on: today,
    site: {
      ...demoSite("copper-heron"),
      weather: [{ file: weatherFile("to_october_5.csv", (day) => (day <= new Date("2026-10-05") ? day : null)) }],
      probe: [],
    },
  },
];

const run = (...words) => execFileSync(program, words, { encoding: "utf8", env: { ...process.env, XDG_DATA_HOME: work } });

for (const { name, on, site, notes = [] } of states) {
  const file = path.join(work, `${name}.json`);
  writeFileSync(file, JSON.stringify([{ ...site, id: name, name: site.name ?? "Example Course" }]));
  const records = notes.length ? ["--records", path.join(work, `${name}.db`)] : [];
  for (const [kind, ...note] of notes) run("log", "add", kind, "--site", name, ...note, ...records);
  run("report", "--sites", file, "--on", on, "--output", path.join(work, name), ...records);
  copyFileSync(path.join(work, name, `${name}.html`), path.join(folder, `${name}.html`));
}

// A hundred courses from a table, their weather the three of the demo in turn.
const rows = Array.from({ length: 100 }, (_, i) => {
  const { latitude, longitude, weather } = demoSite(demo[i % demo.length].id);
  const files = [weather.find((item) => !item.role).file, weather.find((item) => item.role).file];
  return [`course-${i + 1}`, `Course ${i + 1}`, latitude, longitude, ...files, "America/New_York"].join(",");
});
const table = path.join(work, "hundred.csv");
writeFileSync(table, ["id,name,latitude,longitude,weather,forecast,time_zone", ...rows].join("\n") + "\n");
run("report", "--sites", table, "--on", today, "--output", path.join(work, "hundred"));
copyFileSync(path.join(work, "hundred", "index.html"), path.join(folder, "index.html"));
console.log(`${states.length} states and a hundred courses: ${folder}`);
