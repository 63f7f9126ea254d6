// SPDX-License-Identifier: MIT
// Puts the module, the demo courses and the page's own files into one HTML file that runs off line.
// Usage: node make_page.mjs SOURCE BUILD   (writes BUILD/soilclock.html from BUILD/soilclock.js and .wasm)
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";

const [source, build] = process.argv.slice(2);
if (!source || !build) {
  console.error("usage: node make_page.mjs SOURCE BUILD");
  process.exit(2);
}
const require = createRequire(import.meta.url);
const pageFile = (name) => readFileSync(path.join(source, "src/web/page", name), "utf8");
const demoDay = "2026-10-15"; // the day the demo's weather was made for
const mostBytes = 1_500_000;

// The demo's files under bare names, as the page has no folders.
const demoCourses = () => {
  const sites = JSON.parse(readFileSync(path.join(source, "config/demo_sites.json"), "utf8"));
  const files = {};
  for (const entry of sites.flatMap((site) => [...site.weather, ...(site.probe ?? [])])) {
    const name = path.basename(entry.file);
    files[name] = readFileSync(path.join(source, "config", entry.file), "utf8");
    entry.file = name;
  }
  return { on: demoDay, sites, files };
};

// What stands on the page before any script runs, and stays where none does.
const firstAnswer = async (demo) => {
  const soilclockModule = require(path.resolve(build, "soilclock.js"));
  const desk = require(path.resolve(source, "src/web/page/desk.js"))(
    await soilclockModule({ wasmBinary: readFileSync(path.join(build, "soilclock.wasm")) }));
  for (const [name, text] of Object.entries(demo.files)) desk.putFile(name, new TextEncoder().encode(text));
  const found = desk.course(JSON.stringify(demo.sites), { on: demo.on, sites_file: "courses.json", only: [demo.sites[0].id], past_seasons: true });
  if (found.code !== 0) throw new Error(found.problems);
  return found.result;
};

const hash = (text) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;
const dataUrl = (type, text) => `data:${type},${encodeURIComponent(text)}`;
const icon = dataUrl("image/svg+xml", pageFile("icon.svg"));
// For a phone's home screen, where the page comes from a club's own web address.
const manifest = dataUrl("application/manifest+json", JSON.stringify({
  name: "soilclock", short_name: "soilclock", display: "standalone", background_color: "#fdfbf5", theme_color: "#fdfbf5",
  icons: [{ src: icon, sizes: "any", type: "image/svg+xml", purpose: "any maskable" }],
}));
const states = () =>
  JSON.parse(readFileSync(path.join(source, "config/us_states.json"), "utf8")).states.map((state) =>
    `<option data-latitude="${state.latitude}" data-longitude="${state.longitude}" data-time-zone="${state.time_zone}">${state.name}</option>`).join("");
// zopfli's gzip is read by every browser and is five percent smaller than what zlib makes.
const packed = (file) => execFileSync("zopfli", ["-c", file], { maxBuffer: mostBytes }).toString("base64");

const demo = demoCourses();
const demoFile = path.join(build, "demo.json");
writeFileSync(demoFile, JSON.stringify(demo));
const reportFile = (name) => readFileSync(path.join(source, "src/report/page", name), "utf8");
const style = { "course.css": reportFile("course.css"), "handout.css": reportFile("handout.css"), "page.css": pageFile("page.css") };
const script = pageFile("page.js");
const worker = [readFileSync(path.join(build, "soilclock.js"), "utf8"), pageFile("desk.js"), pageFile("worker.js")].join("\n");
// Within a script element these would end or change it.
if (/<\/script|<!--/i.test(worker + script)) throw new Error("a script holds what would end its element");
const parts = {
  policy: `default-src 'none'; style-src ${Object.values(style).map(hash).join(" ")}; script-src ${hash(script)} 'wasm-unsafe-eval'; ` +
    "worker-src blob:; img-src data:; manifest-src data:; connect-src 'none'; form-action 'none'; base-uri 'none'",
  ...style,
  icon,
  manifest,
  states: states(),
  answer: await firstAnswer(demo),
  demo: packed(demoFile),
  worker,
  packed: packed(path.join(build, "soilclock.wasm")),
  "page.js": script,
};
const page = pageFile("page.html").replace(/\{(policy|course\.css|handout\.css|page\.css|icon|manifest|states|answer|demo|worker|packed|page\.js)\}/g, (_, name) => parts[name]);
const file = path.join(build, "soilclock.html");
writeFileSync(file, page);
console.log(`${file}: ${Buffer.byteLength(page)} bytes`);
if (Buffer.byteLength(page) > mostBytes) {
  console.error(`more than ${mostBytes} bytes`);
  process.exit(1);
}
