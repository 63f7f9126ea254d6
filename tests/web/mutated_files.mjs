// SPDX-License-Identifier: MIT
// Broken weather files through the module: no crash, no hang, memory bounded, and a good file answers as before.
// The files come from the demo's and, with SOILCLOCK_RECORDS, from files of every shape, by bytes changed, cut, doubled and mixed.
// Usage: node mutated_files.mjs SOURCE BUILD [COUNT]
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";

const [source, build] = process.argv.slice(2, 4).map((name) => path.resolve(name));
const count = Number(process.argv[4] ?? 2000);
const require = createRequire(import.meta.url);
const module = await require(path.join(build, "soilclock.js"))({ wasmBinary: readFileSync(path.join(build, "soilclock.wasm")) });
const session = require(path.join(source, "src/web/page/session.js"))(module);
const longestSeconds = 10; // of processor time for one file: what else runs counts little
const mostMemory = 600e6;

// A fixed course of chance, so that a fault can be met again.
let state = 20261015;
const chance = (below) => {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return Math.floor((state / 2 ** 32) * below);
};

const filesIn = (folder) => readdirSync(folder).filter((name) => /\.(csv|txt)$/.test(name)).map((name) => readFileSync(path.join(folder, name)));
const seeds = [...filesIn(path.join(source, "weather_samples")),
  ...(process.env.SOILCLOCK_RECORDS ? filesIn(path.join(process.env.SOILCLOCK_RECORDS, "csv_shapes")) : [])]
  .map((bytes) => {
    if (bytes.length <= 40_000) return bytes;
    const heading = bytes.subarray(0, bytes.indexOf("\n") + 1);
    const tail = bytes.subarray(bytes.length - 40_000); // the newest days, so that what is not refused is answered
    return Buffer.concat([heading, tail.subarray(tail.indexOf("\n") + 1)]);
  });

const telling = ["999999999999", "-1e308", "nan", "9999-12-31", "0001-01-01", "\"", ";", ",,,,,,,,", "\n\n", "\0", "\xff\xfe", "-9999", "1700-01-01", "2499-12-31",
  "tmin", "date", "1e400", "\t"].map((text) => Buffer.from(text, "latin1"));
const changes = [
  (b) => { const c = Buffer.from(b); for (let i = 0; i < 1 + chance(20); i += 1) c[chance(c.length)] = chance(256); return c; },
  (b) => b.subarray(0, chance(b.length)),
  (b) => b.subarray(chance(b.length)),
  (b) => { const at = chance(b.length); return Buffer.concat([b.subarray(0, at), telling[chance(telling.length)], b.subarray(at)]); },
  (b) => { const at = chance(b.length); return Buffer.concat([b.subarray(0, at), seeds[chance(seeds.length)].subarray(0, 2000), b.subarray(at)]); },
  (b) => Buffer.from(b.toString("latin1").split("\n").sort(() => chance(3) - 1).join("\n"), "latin1"),
  (b) => Buffer.from(b.toString("latin1").replaceAll(",", [";", "\t", " ", "|"][chance(4)]), "latin1"),
];
const mutated = () => {
  let bytes = seeds[chance(seeds.length)];
  for (let i = 0; i < 1 + chance(3) && bytes.length > 0; i += 1) bytes = changes[chance(changes.length)](bytes);
  return bytes;
};

const sites = JSON.stringify([{ id: "a", latitude: 35.6, longitude: -83.1, weather: [{ file: "a.csv" }] }]);
const options = { on: "2026-10-15", sites_file: "a.json" };
const good = readFileSync(path.join(source, "weather_samples/copper_heron.csv"));
const goodAnswer = () => {
  session.putFile("a.csv", good);
  return session.advice(sites, options);
};
const expected = goodAnswer();
if (expected.code !== 0) throw new Error(expected.problems);

const codes = {};
let worst = 0;
let misses = 0;
const miss = (number, what) => {
  misses += 1;
  console.log(`file ${number}: ${what}`);
};
for (let number = 0; number < count; number += 1) {
  const bytes = mutated();
  const began = process.cpuUsage();
  let found = { code: "thrown" };
  try {
    session.putFile("a.csv", bytes);
    session.inspect({ file: "a.csv", format: "text" });
    found = session.advice(sites, options);
  } catch (error) {
    miss(number, error.stack);
    break;
  }
  const { user, system } = process.cpuUsage(began);
  const seconds = (user + system) / 1e6;
  worst = Math.max(worst, seconds);
  codes[found.code] = (codes[found.code] ?? 0) + 1;
  if (seconds > longestSeconds) miss(number, `took ${seconds.toFixed(1)} s`);
  if (found.code > 3) miss(number, `code ${found.code}: ${found.problems}`);
  if (found.code !== 0 && !found.problems) miss(number, "refused without a word");
  if (number % 100 === 99 && goodAnswer().result !== expected.result) miss(number, "the next good file is answered otherwise");
}
const memory = module.HEAPU8.length;
if (!codes[0] || !codes[3]) miss(count, "not both answered and refused: the changes are too weak or too strong");
if (memory > mostMemory) miss(count, `${memory} bytes of memory`);
console.log(`${count} files, exit codes ${JSON.stringify(codes)}, longest ${worst.toFixed(2)} s, memory ${Math.round(memory / 1e6)} MB, ${misses} bars missed`);
process.exit(misses ? 1 : 0);
