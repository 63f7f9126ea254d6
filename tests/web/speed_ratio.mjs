// SPDX-License-Identifier: MIT
// How much longer the module takes over a what-if than the native library, neither counting its start. Processor time, so that
// what else runs counts little; printed, with a miss above the aim only where the machine is its own (SOILCLOCK_SLOWER unset).
// Usage: node speed_ratio.mjs SOURCE BUILD SPEED   (SPEED is the program made of speed.cpp)
import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";

const [source, build, program] = process.argv.slice(2).map((name) => path.resolve(name));
if (!program) {
  console.error("usage: node speed_ratio.mjs SOURCE BUILD SPEED");
  process.exit(2);
}
const require = createRequire(import.meta.url);
const aim = 1.5;
const count = 25;
const on = "2026-10-15";
const sitesFile = "config/demo_sites.json";
const files = readdirSync(path.join(source, "weather_samples")).filter((name) => name.endsWith(".csv")).map((name) => `weather_samples/${name}`);

const ran = spawnSync(program, [sitesFile, on, String(count), ...files], { cwd: source, encoding: "utf8" });
if (ran.status !== 0) throw new Error(ran.stderr || String(ran.error));
const native = Number(ran.stdout);

const module = await require(path.join(build, "soilclock.js"))({ wasmBinary: readFileSync(path.join(build, "soilclock.wasm")) });
const session = require(path.join(source, "src/web/page/session.js"))(module);
for (const name of files) session.putFile(name, readFileSync(path.join(source, name)));
const sites = readFileSync(path.join(source, sitesFile), "utf8");
const times = [];
for (let i = 0; i < count; i += 1) {
  const began = process.cpuUsage();
  const found = session.whatIf(sites, { on, sites_file: sitesFile, what_if: { target: "POAAN", soil_c: (i % 5) - 2 } });
  const { user, system } = process.cpuUsage(began);
  if (found.code !== 0) throw new Error(found.problems);
  times.push((user + system) / 1000);
}
const wasm = times.sort((a, b) => a - b)[Math.floor(count / 2)];
const ratio = wasm / native;
console.log(`what-if, median of ${count}: module ${wasm.toFixed(0)} ms, native library ${native.toFixed(0)} ms of processor time, ratio ${ratio.toFixed(2)}`);
if (ratio > aim) console.log(`more than ${aim} times as long`);
process.exit(ratio > aim && !process.env.SOILCLOCK_SLOWER ? 1 : 0);
