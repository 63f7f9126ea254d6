/* SPDX-License-Identifier: MIT
   What soilclock-online.html has beside the sealed page: weather of one open service, asked for when the user presses and
   not before. The address is the module's, and so are the words on what went wrong. */
"use strict";
function offerWeather(page) {
  const at = (id) => document.getElementById(id);
  const longestSeconds = 120; // as the command line waits for one answer
  const request = { current: null };
  const credits = new Map(); // lines to show, by the file that came

  function place() {
    const degrees = (id) => (at(id).value.trim() === "" ? NaN : Number(at(id).value.trim().replace(",", ".")));
    return { latitude: degrees("latitude"), longitude: degrees("longitude") };
  }

  async function showAddress() {
    const today = new Date().toISOString().slice(0, 10);
    const asked = { ...place(), on: today };
    request.current = null;
    at("get-weather").disabled = true;
    if (!Number.isFinite(asked.latitude) || !Number.isFinite(asked.longitude)) {
      at("address").textContent = "Type latitude and longitude, or pick a state.";
      return;
    }
    const found = await page.ask("weatherRequest", { options: asked });
    const now = place();
    if (now.latitude !== asked.latitude || now.longitude !== asked.longitude || found.code === -1) return;
    if (found.code !== 0) {
      at("address").textContent = found.problems.replace(/^soilclock: options at \/(\w+): /, "$1: ").trim();
      return;
    }
    request.current = JSON.parse(found.result);
    at("address").textContent = request.current.url;
    at("get-weather").disabled = false;
  }

  /* The bytes with the status they came under; 0 where nothing came. */
  async function answerOf(url) {
    const stop = new AbortController();
    const timer = setTimeout(() => stop.abort(), longestSeconds * 1000);
    try {
      const answer = await fetch(url, {
        signal: stop.signal, credentials: "omit", referrerPolicy: "no-referrer", redirect: "error", cache: "no-store",
      });
      return { status: answer.status, bytes: new Uint8Array(await answer.arrayBuffer()) };
    } catch (error) {
      return { status: 0, bytes: new Uint8Array() };
    } finally {
      clearTimeout(timer);
    }
  }

  async function getWeather() {
    const asked = request.current;
    at("get-weather").disabled = true;
    at("status").textContent = "Waiting for " + asked.service + " ...";
    const answer = await answerOf(asked.url);
    at("status").textContent = "";
    at("get-weather").disabled = false;
    const taken = await page.ask("answer", { name: asked.file, ...answer });
    if (taken.code !== 0) {
      if (taken.code !== -1) page.trouble(taken.problems);
      return;
    }
    const zone = at("time-zone").value.trim();
    credits.set(asked.file, asked.credit);
    await page.addWeather(asked.file, answer.bytes, { fetched: true, clock: zone ? { time_zone: zone } : {} });
    page.trouble("");
    page.openForm();
  }

  /* The service's line stands wherever its weather is used. */
  function showCredit() {
    const shown = page.state.shown === "" ? page.state.sites : [page.siteOf(page.state.shown)];
    const files = shown.filter(Boolean).flatMap((site) => (site.weather || []).map((entry) => entry.file));
    at("credit").textContent = [...new Set(files)].map((name) => credits.get(name)).filter(Boolean).join(" ");
  }

  at("no-file").addEventListener("click", function () {
    page.openForm();
    showAddress();
  });
  ["latitude", "longitude"].forEach((id) => at(id).addEventListener("input", showAddress));
  at("state").addEventListener("change", showAddress);
  at("get-weather").addEventListener("click", getWeather);
  document.addEventListener("answer-shown", showCredit);
  showAddress();
}
