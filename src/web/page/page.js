/* SPDX-License-Identifier: MIT
   Carries files and settings to the worker and puts the parts it writes on the page. Numbers, words and pictures come from
   there; nothing is worked out here, nothing is sent anywhere and nothing is kept. */
"use strict";
(async function () {
  const at = (id) => document.getElementById(id);
  const limits = JSON.parse(document.body.dataset.limits); // the module's, which refuses what is beyond them
  const supported = typeof Worker === "function" && typeof DecompressionStream === "function" && typeof WebAssembly === "object";
  if (!supported) return; // the answer for the invented course stays, with the lines that say what to do

  async function unpacked(base64) {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"))).text();
  }
  const demo = JSON.parse(await unpacked(at("demo-files").textContent.trim()));

  /* What the page shows: courses as in a site file, and the bytes of the files they name. */
  const state = { sites: demo.sites, files: new Map(), added: [], shown: "", demo: true };

  // The worker: questions are answered in order; a canceled one takes the worker with it.
  const worker = { running: null, next: 1, waiting: new Map() };

  function startWorker() {
    const url = URL.createObjectURL(new Blob([at("worker-text").textContent], { type: "text/javascript" }));
    const running = new Worker(url);
    URL.revokeObjectURL(url);
    worker.running = running;
    running.onmessage = function (event) {
      const waiting = worker.waiting.get(event.data.id);
      worker.waiting.delete(event.data.id);
      showBusy();
      if (event.data.fatal) restart();
      if (waiting) waiting(event.data);
    };
    running.onerror = function () {
      trouble("The calculation stopped. Try again, with fewer or smaller files.");
      restart();
    };
    ask("start", { packed: at("packed").textContent.trim() }, "Getting ready");
    state.files.forEach((bytes, name) => ask("put", { name: name, bytes: bytes }));
  }

  function restart() {
    worker.running.terminate();
    worker.waiting.forEach((done) => done({ code: -1, result: "", problems: "" }));
    worker.waiting.clear();
    startWorker();
  }

  function ask(question, more, words) {
    const id = worker.next;
    worker.next += 1;
    return new Promise(function (done) {
      worker.waiting.set(id, done);
      worker.running.postMessage({ id: id, ask: question, ...more });
      showBusy(words);
    });
  }

  let busyTimer = 0;
  function showBusy(words) {
    const busy = worker.waiting.size > 0;
    if (words) at("status").textContent = words + " ...";
    if (!busy) at("status").textContent = "";
    clearTimeout(busyTimer);
    if (!busy) at("cancel").hidden = true;
    // Short work shows no button that goes away before it can be pressed.
    else busyTimer = setTimeout(() => (at("cancel").hidden = worker.waiting.size === 0), 600);
  }

  function trouble(words) {
    at("trouble").textContent = words.replace(/^soilclock: /gm, "").trim();
  }

  // Questions about the courses.
  function options(more) {
    return { on: at("on").value, sites_file: "courses.json", ...more };
  }

  function about(question, more, words) {
    return ask(question, { sites: JSON.stringify(state.sites), options: options(more) }, words);
  }

  /* The places of a course that are answered for: itself, or its areas as COURSE/AREA. */
  function placesOf(site) {
    const name = site.name || site.id;
    const areas = [].concat(site.areas || []).map((area) => Object(area));
    if (!areas.length) return [{ id: site.id, name: name, targets: site.targets }];
    return areas.map(function (area) {
      const own = String(area.name).trim();
      return { id: site.id + "/" + own, name: name + ", " + own, area: own, targets: area.targets || site.targets };
    });
  }
  const places = () => state.sites.flatMap(placesOf);
  const placeOf = (id) => places().find((place) => place.id === id);
  const siteOf = (id) => state.sites.find((site) => placesOf(site).some((place) => place.id === id));
  const grassesOf = (id) => (placeOf(id).targets || ["POAAN"]).map((code) => [code, grassNames[code] || code]);
  let asked = 0;

  /* What stands below the answer belongs to the course shown before. */
  function hideQuestions() {
    ["what-if", "to-what-if", "note"].forEach((part) => (at(part).hidden = true));
    at("to-note").hidden = state.shown === "";
    dropCases();
    ["if-answer", "comparison"].forEach((part) => at(part).replaceChildren());
    toBePrinted();
  }

  /* On paper the question stands only where something was asked. */
  function toBePrinted() {
    const parts = ["if-answer", "cases", "comparison"];
    at("what-if").classList.toggle("asked", parts.some((part) => at(part).hasChildNodes()));
  }

  async function showCourse(id) {
    const mine = (asked += 1);
    state.shown = id;
    writeTabs();
    hideQuestions();
    const name = placeOf(id).name;
    const began = performance.now();
    let found = await about("course", { only: [id] }, "Working on " + name);
    if (mine !== asked || found.code === -1) return;
    put(found);
    offerWhatIf();
    performance.mark("course-shown");
    performance.measure("course", { start: began, end: performance.now() });
    // Past seasons take three times as long, so they follow.
    found = await about("course", { only: [id], past_seasons: true }, "Adding the past seasons of " + name);
    if (mine === asked && found.code !== -1) put(found);
  }

  async function showList() {
    const mine = (asked += 1);
    state.shown = "";
    writeTabs();
    hideQuestions();
    const found = await about("courses", { past_seasons: true }, "Working on " + state.sites.length + " courses");
    if (mine !== asked || found.code === -1) return;
    put(found);
    takeUpCourseTables();
  }

  function put(found) {
    trouble(found.result ? "" : found.problems);
    at("answer").innerHTML = found.result;
    document.body.classList.toggle("list", state.shown === "");
    document.dispatchEvent(new Event("answer-shown"));
  }

  function writeTabs() {
    const tabs = at("tabs");
    tabs.replaceChildren();
    const add = function (words, pressed, action) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = words;
      button.setAttribute("aria-pressed", pressed ? "true" : "false");
      button.addEventListener("click", action);
      tabs.append(button);
    };
    if (places().length > 1) add("All courses", state.shown === "", showList);
    places().forEach((place) => add(place.name, state.shown === place.id, () => showCourse(place.id)));
  }

  at("answer").addEventListener("click", function (event) {
    const link = event.target.closest("a[href^='#']");
    if (!link) return;
    event.preventDefault();
    const id = decodeURIComponent(link.getAttribute("href").slice(1));
    if (placeOf(id)) showCourse(id).then(() => scrollTo(0, 0));
  });

  // What if.
  const grassNames = { POAAN: "annual bluegrass", DIGIS: "smooth crabgrass", DIGSA: "large crabgrass", ELEIN: "goosegrass", SETPU: "yellow foxtail", SETVI: "green foxtail" };
  const choices = ["if-target", "if-soil", "if-water", "if-weather", "if-record", "if-plan", "if-later"];

  function fill(select, pairs) {
    select.replaceChildren(...pairs.map(([value, words]) => new Option(words, value)));
  }

  function offerWhatIf() {
    const site = siteOf(state.shown);
    if (!at("answer").querySelector("section.target")) return;
    fill(at("if-target"), grassesOf(state.shown));
    const us = site.units ? site.units === "us" : at("answer").textContent.includes(" F");
    const steps = us ? [5, 3, 2, -2, -3, -5] : [3, 2, 1, -1, -2, -3];
    const words = (step) => Math.abs(step) + (us ? " F " : " C ") + (step > 0 ? "warmer" : "cooler");
    fill(at("if-soil"), [["0", "as estimated"], ...steps.map((step) => [String(us ? (step * 5) / 9 : step), words(step)])]);
    choices.slice(2).forEach((id) => (at(id).selectedIndex = 0));
    at("what-if").hidden = at("to-what-if").hidden = false;
  }

  let whatIfs = 0;
  function chosenCase() {
    const change = { target: at("if-target").value, soil_c: Number(at("if-soil").value), weeks_later: Number(at("if-later").value) };
    if (at("if-water").value) change.irrigated = at("if-water").value === "yes";
    if (at("if-weather").value) change[at("if-weather").value] = true;
    if (at("if-record").value) change.record_years = Number(at("if-record").value);
    if (at("if-plan").value) change.plan = at("if-plan").value;
    return change;
  }

  async function showWhatIf() {
    const mine = (whatIfs += 1);
    const began = performance.now();
    const found = await about("whatIf", { only: [state.shown], what_if: chosenCase() }, "Asking");
    if (mine !== whatIfs || found.code === -1) return;
    trouble(found.result ? "" : found.problems);
    at("if-answer").innerHTML = found.result;
    toBePrinted();
    at("keep-case").hidden = !found.result || kept.length === limits.most_cases;
    performance.measure("what-if", { start: began, end: performance.now() });
  }
  choices.forEach((id) => at(id).addEventListener("change", showWhatIf));
  at("if-target").addEventListener("change", dropCases); // cases are compared within one grass

  // Cases kept side by side, and what a record of years teaches.
  const kept = [];

  function dropCases() {
    kept.length = 0;
    at("cases").replaceChildren();
    at("drop-cases").hidden = at("keep-case").hidden = true;
  }

  at("keep-case").addEventListener("click", async function () {
    const shown = state.shown;
    kept.push(chosenCase());
    at("keep-case").hidden = true;
    const found = await about("cases", { only: [shown], cases: kept }, "Putting the cases side by side");
    if (shown !== state.shown || found.code === -1) return;
    trouble(found.result ? "" : found.problems);
    at("cases").innerHTML = found.result;
    toBePrinted();
    at("drop-cases").hidden = false;
  });
  at("drop-cases").addEventListener("click", function () {
    dropCases();
    at("if-target").focus();
  });
  at("compare").addEventListener("click", async function () {
    const shown = state.shown;
    const found = await about("comparison", { only: [shown], targets: [at("if-target").value] }, "Comparing the seasons");
    if (shown !== state.shown || found.code === -1) return;
    trouble(found.result ? "" : found.problems);
    at("comparison").innerHTML = found.result;
    toBePrinted();
  });

  // Notes.
  function chosenKind() {
    at("note").querySelectorAll("[data-kind]").forEach((label) => (label.hidden = !label.dataset.kind.split(" ").includes(at("kind").value)));
  }
  at("kind").addEventListener("change", chosenKind);

  /* The words of an entry as they were typed. */
  function wordsOf(entry) {
    const { kind, date, ...fields } = entry;
    return [date, kind, ...Object.entries(fields).map(([name, value]) => name.replace(/_/g, " ") + " " + [].concat(value).join(", "))].join("  ");
  }

  function showNotes() {
    const site = siteOf(state.shown);
    at("noted-course").textContent = site.name || site.id;
    at("noted").replaceChildren(...(site.log || []).map(function (entry) {
      const line = document.createElement("li");
      const drop = document.createElement("button");
      drop.type = "button";
      drop.textContent = "Take out";
      drop.setAttribute("aria-label", "Take out " + wordsOf(entry));
      drop.addEventListener("click", function () {
        site.log = site.log.filter((other) => other !== entry);
        answerAgain().then(() => at("kind").focus());
      });
      line.append(wordsOf(entry) + " ", drop);
      return line;
    }));
  }

  async function answerAgain() {
    await showCourse(state.shown);
    at("note").hidden = false;
    showNotes();
  }

  at("to-note").addEventListener("click", function () {
    const here = placeOf(state.shown).area;
    fill(at("note-target"), grassesOf(state.shown));
    const areas = here ? placesOf(siteOf(state.shown)).map((place) => [place.area, place.area]) : [];
    fill(at("note-area"), [["", "the whole course"], ...areas]);
    at("note-area").value = here || "";
    at("note-area").parentElement.hidden = !here;
    at("note-date").value = at("on").value;
    at("note").hidden = false;
    chosenKind();
    showNotes();
    at("kind").focus();
  });
  at("note-done").addEventListener("click", function () {
    at("note").hidden = true;
    at("to-note").focus();
  });

  const listOf = (words) => words.split(/\s*(?:\+|,|;|&|\band\b)\s*/i).filter(Boolean);

  function entryOfForm() {
    const entry = { kind: at("kind").value, date: at("note-date").value };
    const say = (key, value) => value && value.length && (entry[key] = value);
    say("area", at("note-area").value);
    const text = (id) => at(id).value.trim();
    if (entry.kind === "application") {
      const parts = listOf(text("note-actives"));
      say("active", parts.filter((part) => !/^\d+$/.test(part)));
      say("group", parts.filter((part) => /^\d+$/.test(part)));
      say("purpose", at("note-purpose").value);
      say("watering_in", text("note-water"));
    } else if (entry.kind === "count") {
      say("target", at("note-target").value);
      say("count", listOf(text("note-count")));
      say("plot_area", text("note-plot"));
    } else if (entry.kind === "reading") {
      say("time", text("note-time"));
      say("depth", text("note-depth"));
      say("temperature", text("note-temperature"));
    } else if (entry.kind === "strip") {
      say("target", at("note-target").value);
      say("treated", listOf(text("note-treated")));
      say("untreated", listOf(text("note-untreated")));
    } else if (entry.kind === "check") say("state", at("note-state").value);
    else say("target", at("note-target").value);
    return entry;
  }

  at("note").addEventListener("submit", async function (event) {
    event.preventDefault();
    const site = siteOf(state.shown);
    const before = site.log || [];
    site.log = [...before, entryOfForm()];
    const found = await about("course", { only: [state.shown] }, "Noting it");
    if (found.code === -1) return;
    if (found.code === 2) {
      site.log = before;
      trouble(found.problems.replace(/^.*? at \/[^:]*: /, "This cannot be noted: "));
      return;
    }
    ["note-actives", "note-water", "note-count", "note-temperature"].forEach((id) => (at(id).value = ""));
    answerAgain();
  });

  // Files.
  function putFile(name, bytes) {
    state.files.set(name, bytes);
    return ask("put", { name: name, bytes: bytes });
  }

  async function take(list) {
    const refused = [];
    let courses = null;
    for (const file of list) {
      if (file.size > limits.largest_file_bytes) {
        refused.push(file.name + " is larger than " + limits.largest_file_bytes / 1e6 + " MB; that is no weather file of a course. Cut it to the years you need.");
        continue;
      }
      const bytes = new Uint8Array(await file.arrayBuffer());
      if (/\.json$/i.test(file.name) && isSiteFile(bytes)) courses = JSON.parse(new TextDecoder().decode(bytes));
      else await addWeather(file.name, bytes);
    }
    if (courses) openCourses(Array.isArray(courses) ? courses : [courses]);
    else if (state.added.length > 0) openForm();
    trouble(refused.join("\n"));
  }

  function isSiteFile(bytes) {
    try {
      const json = JSON.parse(new TextDecoder().decode(bytes));
      const first = Array.isArray(json) ? json[0] : json;
      return typeof first === "object" && first !== null && "weather" in first && "id" in first;
    } catch (error) {
      return false;
    }
  }

  async function addWeather(name, bytes, more) {
    await putFile(name, bytes);
    const file = { name: name, said: {}, ...more };
    await look(file);
    const meant = /forecast/i.test(name) ? "forecast" : /probe/i.test(name) ? "probe" : "station";
    file.role = file.good ? meant : "none"; // what cannot be read is shown with its reason and left out
    state.added = [...state.added.filter((other) => other.name !== name), file];
  }

  /* How a file is read, with what the user says about its dates and units. */
  async function look(file) {
    const found = await ask("inspect", { options: { file: file.name, format: "text", ...file.said, ...file.clock } }, "Reading " + file.name);
    file.good = found.code === 0;
    file.notes = inPageWords((found.result || found.problems).replace(/^soilclock: /gm, "").trim());
  }

  /* The notes name options of the command line; here they are choices beside the file. */
  function inPageWords(notes) {
    return notes.replace(/--dates [a-z-]+(,? (or )?(--dates )?[a-z]+-first)*/g, "the choice of dates beside the file")
      .replace(/--units-in [A-Z](,\w+)?( or --units-in [A-Z](,\w+)?)*/g, "the choice of units beside the file");
  }

  // Saved courses name their files; those not here yet are asked for.
  function openCourses(sites) {
    const bare = (name) => String(name).split(/[\\/]/).pop();
    const filesOf = (site) => [site.weather, site.probe, ...[].concat(site.areas || []).map((area) => Object(area).probe)].flat().map(Object);
    sites.flatMap(filesOf).forEach((entry) => {
      if (entry.file) entry.file = bare(entry.file);
    });
    state.sites = sites;
    state.demo = false;
    state.added = [];
    at("own").hidden = true;
    at("what-is-shown").textContent = "shows the courses you opened.";
    const needed = sites.flatMap(filesOf).map((entry) => entry.file).filter((name) => name && !state.files.has(name));
    showFirst().then(function () {
      if (needed.length) trouble("Open these files, too: " + [...new Set(needed)].join(", "));
    });
  }

  function openForm() {
    at("own").hidden = false;
    at("files").replaceChildren(...state.added.map(fileLine));
    const picked = state.added.find((file) => !file.fetched);
    if (!at("name").value && picked) at("name").value = picked.name.replace(/\.[^.]*$/, "").replace(/[_-]+/g, " ");
    at("own").scrollIntoView({ block: "nearest" });
    at("name").focus();
  }

  function choice(words, pairs, value, chosen) {
    const select = document.createElement("select");
    select.setAttribute("aria-label", words);
    fill(select, pairs);
    select.value = value;
    select.addEventListener("change", () => chosen(select.value));
    return select;
  }

  function fileLine(file) {
    const line = document.createElement("li");
    const head = document.createElement("div");
    head.className = "head-line";
    const name = document.createElement("b");
    name.textContent = file.name;
    const notes = document.createElement("pre");
    notes.tabIndex = 0;
    notes.setAttribute("aria-label", "how " + file.name + " was read");
    notes.textContent = file.notes;
    const roles = [["station", "measured weather"], ["forecast", "forecast"], ["probe", "soil probe"], ["none", "not used"]];
    const role = choice("what " + file.name + " holds", roles, file.role, (value) => (file.role = value));
    const say = function (key) {
      return async function (value) {
        if (value) file.said[key] = value;
        else delete file.said[key];
        await look(file);
        notes.textContent = file.notes;
        if (file.good && file.role === "none") role.value = file.role = "station";
      };
    };
    const dates = [["", "dates as the file says"], ["day-first", "day-first"], ["month-first", "month-first"], ["year-first", "year-first"]];
    const units = [["", "units as the file says"], ["F,in", "F and inches"], ["C,mm", "C and millimeters"]];
    head.append(name, role, choice("order of dates in " + file.name, dates, file.said.dates || "", say("dates")),
      choice("units of " + file.name, units, file.said.units_in || "", say("units_in")));
    line.append(head, notes);
    return line;
  }

  // The form.
  function planOf(words) {
    const kind = /^([\d.]+)\s*weeks?\s*,\s*(contact|translocated|none)$/i.exec(words.trim());
    if (kind) return { residual_weeks: Number(kind[1]), foliar: kind[2].toLowerCase() };
    return { actives: listOf(words) };
  }

  function siteOfForm() {
    const name = at("name").value.trim();
    const site = {
      id: name.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "course",
      name: name, latitude: Number(at("latitude").value.replace(",", ".")), longitude: Number(at("longitude").value.replace(",", ".")),
    };
    if (at("time-zone").value.trim()) site.time_zone = at("time-zone").value.trim();
    site.turf = {};
    if (at("turf").value) site.turf.species = at("turf").value;
    if (at("irrigated").value) site.turf.irrigated = at("irrigated").value === "yes";
    if (at("overseed").value) site.turf.overseed_on = at("overseed").value;
    site.targets = [...at("grasses").querySelectorAll("input:checked")].map((box) => box.value);
    if (at("plan").value.trim()) site.plan = planOf(at("plan").value);
    const groups = listOf(at("resistance").value);
    if (groups.length) site.resistance = groups.map((group) => ({ group: Number(group), tested: true }));
    const known = state.demo ? null : state.sites.find((other) => other.id === site.id);
    if (known && known.log) site.log = known.log;
    const named = (role) => state.added.filter((file) => file.role === role);
    const entry = (file) => ({ file: file.name, ...file.said });
    site.weather = [...named("station").map(entry), ...named("forecast").map((file) => ({ ...entry(file), role: "forecast" }))];
    if (named("probe").length) site.probe = named("probe").map(entry);
    return site;
  }

  at("own").addEventListener("submit", function (event) {
    event.preventDefault();
    const site = siteOfForm();
    const others = state.demo ? [] : state.sites.filter((other) => other.id !== site.id);
    if (state.demo) at("on").value = today();
    state.sites = [...others, site];
    state.demo = false;
    at("what-is-shown").textContent = "shows your courses.";
    showCourse(site.id);
  });
  at("state").addEventListener("change", function () {
    const place = at("state").selectedOptions[0].dataset;
    if (!place.latitude) return;
    at("latitude").value = place.latitude;
    at("longitude").value = place.longitude;
    at("time-zone").value = place.timeZone;
  });
  at("dismiss").addEventListener("click", () => (at("own").hidden = true));

  function today() {
    const now = new Date();
    const two = (number) => String(number).padStart(2, "0");
    return now.getFullYear() + "-" + two(now.getMonth() + 1) + "-" + two(now.getDate());
  }

  // The row of buttons.
  at("pick").addEventListener("change", function () {
    take([...at("pick").files]).then(() => (at("pick").value = ""));
  });
  document.addEventListener("dragover", function (event) {
    event.preventDefault();
    document.body.classList.add("dropping");
  });
  document.addEventListener("dragleave", () => document.body.classList.remove("dropping"));
  document.addEventListener("drop", function (event) {
    event.preventDefault();
    document.body.classList.remove("dropping");
    take([...event.dataTransfer.files]);
  });
  function download(name, text) {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  }

  at("save").addEventListener("click", function () {
    download("courses.json", JSON.stringify(state.sites, null, 2) + "\n");
    trouble("Saved as courses.json, without the weather: keep your weather files beside it and open all of them together.");
  });
  at("save-answer").addEventListener("click", async function () {
    const found = await about("advice", {}, "Writing the answers");
    if (found.result) download("advice-" + at("on").value + ".json", found.result);
    trouble(found.problems);
  });
  at("demo").addEventListener("click", showDemo);
  at("cancel").addEventListener("click", function () {
    asked += 1;
    restart();
    trouble("Canceled.");
  });
  at("on").addEventListener("change", showFirst);

  function showFirst() {
    if (!at("on").value || state.sites.length === 0) return Promise.resolve();
    return showCourse(placeOf(state.shown) ? state.shown : places()[0].id);
  }

  function showDemo() {
    state.sites = demo.sites;
    state.demo = true;
    state.shown = demo.sites[0].id;
    at("what-is-shown").textContent = "shows three demo courses with made-up weather.";
    at("on").value = demo.on;
    putDemoFiles();
    return showFirst();
  }

  function putDemoFiles() {
    Object.entries(demo.files).forEach(([name, text]) => putFile(name, new TextEncoder().encode(text)));
  }

  // Only the page that may ask a service has this.
  if (typeof offerWeather === "function") offerWeather({ ask, addWeather, openForm, trouble, state, siteOf });

  document.querySelector(".no-script").hidden = true;
  document.querySelector(".tools").hidden = false;
  at("time-zone").value = Intl.DateTimeFormat().resolvedOptions().timeZone || "";
  startWorker();
  // The demo's answer stands on the page already; the worker works it out once more so that what-ifs come at once.
  at("on").value = demo.on;
  state.shown = demo.sites[0].id;
  putDemoFiles();
  writeTabs();
  offerWhatIf();
  about("course", { only: [state.shown], past_seasons: true });
  performance.mark("course-shown");
})();
