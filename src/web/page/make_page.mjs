// SPDX-License-Identifier: MIT
// Puts the module, the demo courses and the page's own files into one HTML file that runs off line, and into a second one
// that may ask one host for weather, which its policy names.
// Usage: node make_page.mjs SOURCE BUILD   (writes soilclock.html and soilclock-online.html from soilclock.js and .wasm)
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

const openSession = async () => {
  const soilclockModule = require(path.resolve(build, "soilclock.js"));
  const soilclockSession = require(path.resolve(source, "src/web/page/session.js"));
  return soilclockSession(await soilclockModule({ wasmBinary: readFileSync(path.join(build, "soilclock.wasm")) }));
};

// What stands on the page before any script runs, and stays where none does.
const firstAnswer = (session, demo) => {
  for (const [name, text] of Object.entries(demo.files)) session.putFile(name, new TextEncoder().encode(text));
  const found = session.course(JSON.stringify(demo.sites), { on: demo.on, sites_file: "courses.json", only: [demo.sites[0].id], past_seasons: true });
  if (found.code !== 0) throw new Error(found.problems);
  return found.result;
};

const escaped = (text) => text.replace(/&/g, "&amp;").replace(/</g, "&lt;");

// The service as the module would ask it; any place and day name the same host and terms.
const serviceOf = (session) => {
  const found = session.weatherRequest({ latitude: 0, longitude: 0, on: demoDay });
  if (found.code !== 0) throw new Error(found.problems);
  return JSON.parse(found.result);
};

// What the page that may ask the service has more; the sealed one has none of it.
const onlineParts = (service) => ({
  "online-promise": ` Only the place of a course does, to ${escaped(service.service)}, when you press the button that says so.`,
  "online-button": '<button id="no-file" type="button">Weather without a file</button>\n',
  "online-request": `<fieldset id="service" class="service"><legend>Weather from ${escaped(service.service)}</legend>
<p class="hint">Past years up to yesterday for the latitude and longitude above, from a model and not from your turf. ${escaped(service.service)}: ${escaped(service.terms)}.</p>
<p>This address is asked when you press the button, and nothing before: <code id="address"></code></p>
<p><button id="get-weather" type="button" disabled>Get weather from ${escaped(service.service)}</button></p>
</fieldset>
`,
  "online-credit": '<aside id="credit" class="hint" aria-label="Whose weather this is"></aside>\n',
});

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
const session = await openSession();
const service = serviceOf(session);
const online = onlineParts(service);
const scripts = { "course_list.js": reportFile("course_list.js"), "online.js": pageFile("online.js"), "page.js": pageFile("page.js") };
const worker = [readFileSync(path.join(build, "soilclock.js"), "utf8"), pageFile("session.js"), pageFile("worker.js")].join("\n");
// Within a script element these would end or change it.
if (/<\/script|<!--/i.test([worker, ...Object.values(scripts)].join())) throw new Error("a script holds what would end its element");
const policy = (used, connect) => `default-src 'none'; style-src ${Object.values(style).map(hash).join(" ")}; ` +
  `script-src ${used.map(hash).join(" ")} 'wasm-unsafe-eval'; worker-src blob:; img-src data:; manifest-src data:; ` +
  `connect-src ${connect}; form-action 'none'; base-uri 'none'`;
const shared = {
  ...style,
  ...scripts,
  icon,
  manifest,
  states: states(),
  limits: session.limits(),
  answer: firstAnswer(session, demo),
  demo: packed(demoFile),
  worker,
  packed: packed(path.join(build, "soilclock.wasm")),
};
const none = Object.fromEntries([...Object.keys(online), "online-script"].map((name) => [name, ""]));
const pages = {
  "soilclock.html": { ...none, policy: policy([scripts["course_list.js"], scripts["page.js"]], "'none'") },
  "soilclock-online.html": { ...online, "online-script": `<script>${scripts["online.js"]}</script>\n`, policy: policy(Object.values(scripts), service.host) },
};
for (const [name, own] of Object.entries(pages)) {
  const parts = { ...shared, ...own };
  const page = pageFile("page.html").replace(new RegExp(`\\{(${Object.keys(parts).join("|")})\\}`, "g"), (_, part) => parts[part]);
  const file = path.join(build, name);
  writeFileSync(file, page);
  console.log(`${file}: ${Buffer.byteLength(page)} bytes`);
  if (Buffer.byteLength(page) <= mostBytes) continue;
  console.error(`more than ${mostBytes} bytes`);
  process.exitCode = 1;
}
