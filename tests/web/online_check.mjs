// SPDX-License-Identifier: MIT
// Opens soilclock-online.html with a stand-in for the weather service: nothing is asked before the button is pressed, the one
// request is the one that was shown, what goes wrong is said in a line, and the answer is the command line's on the same file.
// With SOILCLOCK_RECORDS the service's answer is a recorded one, else it is made from a sample.
// Usage: node online_check.mjs SOURCE BUILD SOILCLOCK MODULES
import { existsSync, readFileSync, statSync, writeFileSync } from "node:fs";
import path from "node:path";
import { pageTools } from "./page_tools.mjs";

const { source, file, folder, screenshots, hold, open, until, quiet, shown, looked, reachedByKeyboard, downloaded, commandLine, close } =
  await pageTools(process.argv.slice(2), "soilclock-online.html");
const services = JSON.parse(readFileSync(path.join(source, "config/services.json"), "utf8")).services;
const service = services["open-meteo"];

// Days of a sample in the shape of an answer.
const madeAnswer = () => {
  const days = readFileSync(path.join(source, "weather_samples/copper_heron.csv"), "utf8").trim().split(/\r?\n/).slice(1).map((line) => line.split(","));
  const iso = ([month, day, year]) => `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`;
  const numbers = (column) => days.map((day) => (day[column] === "" || Number.isNaN(Number(day[column])) ? null : Number(day[column])));
  return JSON.stringify({
    latitude: 35.6, longitude: -83.1, utc_offset_seconds: -18000, timezone: "America/New_York", elevation: 310,
    daily_units: { time: "iso8601", temperature_2m_max: "°F", temperature_2m_min: "°F", precipitation_sum: "inch" },
    daily: { time: days.map((day) => iso(day[0].split("/"))), temperature_2m_max: numbers(1), temperature_2m_min: numbers(2), precipitation_sum: numbers(3) },
  });
};
const recorded = path.join(process.env.SOILCLOCK_RECORDS ?? "", "api_samples/open_meteo/archive_daily_nyc_10y_fahrenheit.json");
const course = process.env.SOILCLOCK_RECORDS && existsSync(recorded)
  ? { answer: readFileSync(recorded), latitude: "40.738136", longitude: "-74.042540", sent: "latitude=40.74&longitude=-74.04&", on: "2025-10-15" }
  : { answer: Buffer.from(madeAnswer()), latitude: "35.60123", longitude: "-83.10456", sent: "latitude=35.6&longitude=-83.1&", on: "2026-10-14" };

// Sealed but for one host, and as small as the other.
{
  const text = readFileSync(file, "utf8");
  hold(statSync(file).size < 1_500_000, `${statSync(file).size} bytes`);
  const connect = /<meta http-equiv="Content-Security-Policy" content="[^"]*connect-src ([^;]*);/.exec(text)?.[1];
  hold(connect === service.hosts.history, `the policy lets the page connect to ${connect}`);
}

// The stand-in: what was asked of it, and what it answers next.
const asked = [];
let reply = {};
const open_to_all = { "access-control-allow-origin": "*" };
const standIn = async (route) => {
  asked.push({ url: route.request().url(), method: route.request().method(), headers: route.request().headers() });
  if (reply.abort) await route.abort(reply.abort);
  else await route.fulfill({ status: 200, contentType: "application/json", headers: open_to_all, ...reply });
};

const tab = await open({ service: standIn, said: (words) => /Failed to load resource|Content Security Policy|net::ERR/.test(words) });
await shown(tab);
await quiet(tab);
hold(!(await tab.isVisible("#get-weather")), "the form of one's own course is open from the start");
await tab.click("#no-file");
await until(tab, () => /Type latitude/.test(document.getElementById("address").textContent));
hold(await tab.isDisabled("#get-weather"), "weather of no place can be asked for");
await tab.fill("#latitude", "95");
await tab.fill("#longitude", course.longitude);
await until(tab, () => /latitude: .*out of range/.test(document.getElementById("address").textContent));
hold(await tab.isDisabled("#get-weather"), "weather of a place beyond the pole can be asked for");
await tab.fill("#latitude", course.latitude);
await until(tab, () => /^https:/.test(document.getElementById("address").textContent));
await tab.selectOption("#state", { index: 0 });
await tab.fill("#time-zone", "America/New_York");
await quiet(tab);
const address = await tab.textContent("#address");
hold(address.startsWith(`${service.hosts.history}/`) && address.includes(course.sent), `the address is ${address}`);
for (const words of [service.terms, service.title]) hold((await tab.textContent("#service")).includes(words), `not said before asking: ${words}`);
hold((await tab.textContent("#get-weather")) === `Get weather from ${service.title}`, "the button does not name the service");
await looked(tab, "online-asking");
hold(asked.length === 0, `asked before the button was pressed: ${asked.map((one) => one.url)}`);
// The policy holds whatever a script tries.
const strayed = await tab.evaluate(() => fetch("https://api.weather.gov/").then(() => true, () => false));
hold(!strayed && asked.length === 0, "the page can ask another host");

// What goes wrong: one line each, with what to do, and no file.
const press = async (next) => {
  reply = next;
  const before = asked.length;
  await tab.evaluate(() => document.getElementById("trouble").replaceChildren());
  await tab.click("#get-weather");
  await until(tab, () => document.getElementById("trouble").textContent !== "" || document.querySelector("#files li") !== null);
  hold(asked.length === before + 1, `${asked.length - before} requests for one press`);
  return tab.textContent("#trouble");
};
const troubles = [
  [{ abort: "internetdisconnected" }, /cannot be reached: no connection.*check the connection of this device/],
  [{ abort: "timedout" }, /cannot be reached.*open a weather file/],
  [{ status: 429, body: '{"error": true, "reason": "Hourly API request limit exceeded. Please try again in the next hour."}' }, /no more calls.*Hourly.*wait for the next full minute, hour/],
  [{ status: 400, body: '{"error": true, "reason": "Latitude must be in range"}' }, /does not take the request.*Latitude must be in range.*check the place/],
  [{ status: 503, body: "busy" }, /trouble of its own.*try again later/],
  [{ contentType: "text/html", body: "<html><body>Sign in</body></html>" }, /a web page instead of data.*try again later/],
  [{ body: '{"latitude": 40.7, "daily": {"time": ["2025-' }, /cut off.*try again later/],
  [{ body: "" }, /empty answer.*try again later/],
];
for (const [next, words] of troubles) {
  const said = await press(next);
  hold(words.test(said) && !said.includes("\n") && !said.includes("soilclock:"), `${JSON.stringify(next)}: said is "${said}"`);
}
hold((await tab.locator("#files li").count()) === 0, "a refused answer is kept");
await tab.screenshot({ path: path.join(screenshots, "online-refused.png") });

// A good answer: the request shown is the request sent, without anything of the user's.
hold((await press({ body: course.answer })) === "", "a good answer is refused");
await quiet(tab);
hold(asked.at(-1).url === address && asked.at(-1).method === "GET", `asked is ${asked.at(-1).url}`);
for (const header of ["cookie", "referer", "authorization"]) hold(!(header in asked.at(-1).headers), `${header} is sent`);
const name = await tab.textContent("#files li b");
hold((await tab.inputValue("#files select >> nth=0")) === "station", "the answer is not used as weather");
await tab.fill("#name", "Open Field");
await tab.selectOption("#turf", "bermudagrass");
await tab.fill("#on", course.on);
await tab.click("#own button[type=submit]");
await tab.fill("#on", course.on);
await until(tab, () => document.querySelector("#answer h1")?.textContent === "Open Field");
await quiet(tab);
const again = await tab.inputValue("#on");
if (again !== course.on) {
  await tab.fill("#on", course.on);
  await quiet(tab);
}
hold(await tab.isVisible("#answer section.target"), `no answer: ${await tab.textContent("#trouble")}`);
const credit = await tab.textContent("#credit");
hold(credit.includes("https://open-meteo.com/") && credit.includes(service.license), `the credit is "${credit}"`);
await looked(tab, "online-answered");
await downloaded(tab, "#save");
writeFileSync(path.join(folder, name), course.answer);
const said = commandLine(["advise", "--sites", "courses.json", "--on", course.on, "--format", "json"]);
hold(said.status === 0, `the command line says ${said.stderr}`);
hold(said.stdout.equals(readFileSync(await downloaded(tab, "#save-answer"))), "the answer is not what the command line prints for the same file");
hold(asked.length === troubles.length + 1, "something was asked without a press");
await tab.click("#demo");
await until(tab, () => document.querySelector("#answer h1")?.textContent === "Copper Heron");
hold((await tab.textContent("#credit")) === "", "the demo's weather is credited to a service");
await tab.context().close();

// Dark surroundings, a page zoomed to twice its size, keyboard alone.
{
  const dark = await open({ service: standIn, colorScheme: "dark", reducedMotion: "reduce", viewport: { width: 640, height: 450 }, deviceScaleFactor: 2 });
  await shown(dark);
  await quiet(dark);
  await dark.focus("#no-file");
  await dark.keyboard.press("Enter");
  await dark.fill("#latitude", course.latitude);
  await dark.fill("#longitude", course.longitude);
  await until(dark, () => /^https:/.test(document.getElementById("address").textContent));
  await looked(dark, "online-dark");
  await dark.focus("#longitude");
  const reached = await reachedByKeyboard(dark, 30);
  hold(reached.has("get-weather"), `the keyboard does not reach the button: ${[...reached]}`);
  await dark.context().close();
}

await close();
