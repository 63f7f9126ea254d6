/* SPDX-License-Identifier: MIT
   The functions of soilclock.h for scripts: soilclockSession(module) takes the module that soilclock.js makes and gives a
   session. Each question gives {code, result, problems}: the exit code of the command line, a text, and lines for people. */
"use strict";
function soilclockSession(module) {
  const session = module._soilclock_open();
  const encoder = new TextEncoder();
  const decoder = new TextDecoder();

  function copied(bytes) {
    const at = module._malloc(bytes.length + 1);
    if (at === 0) throw new Error("no memory is left");
    module.HEAPU8.set(bytes, at);
    module.HEAPU8[at + bytes.length] = 0;
    return at;
  }

  function textAt(at, size) {
    return decoder.decode(module.HEAPU8.subarray(at, at + size));
  }

  function lineAt(at) {
    return textAt(at, module.HEAPU8.indexOf(0, at) - at);
  }

  function ask(question, texts) {
    const places = texts.map((text) => copied(encoder.encode(text)));
    const code = module["_soilclock_" + question](session, ...places);
    places.forEach((at) => module._free(at));
    return {
      code: code,
      result: textAt(module._soilclock_result(session), module._soilclock_result_size(session)),
      problems: lineAt(module._soilclock_problems(session)),
    };
  }

  function put(how, name, bytes, more) {
    const nameAt = copied(encoder.encode(name));
    const bytesAt = copied(bytes);
    const code = module["_soilclock_" + how](session, nameAt, ...more, bytesAt, bytes.length);
    module._free(nameAt);
    module._free(bytesAt);
    return { code: code, problems: lineAt(module._soilclock_problems(session)) };
  }

  return {
    version: () => lineAt(module._soilclock_version()),
    limits: () => lineAt(module._soilclock_limits()),
    /* Puts the bytes (a Uint8Array) of a file under its name; {code, problems}. */
    putFile: (name, bytes) => put("put_file", name, bytes, []),
    /* Puts what a service answered under an HTTP status (0: nothing came); {code, problems}. */
    putAnswer: (name, status, bytes) => put("put_answer", name, bytes, [status]),
    dropFiles: () => module._soilclock_drop_files(session),
    /* `sites`: the text of a site file; `options`: an object as soilclock.h describes it. */
    advice: (sites, options) => ask("advice", [sites, JSON.stringify(options)]),
    course: (sites, options) => ask("course", [sites, JSON.stringify(options)]),
    courses: (sites, options) => ask("courses", [sites, JSON.stringify(options)]),
    whatIf: (sites, options) => ask("what_if", [sites, JSON.stringify(options)]),
    cases: (sites, options) => ask("cases", [sites, JSON.stringify(options)]),
    comparison: (sites, options) => ask("comparison", [sites, JSON.stringify(options)]),
    weatherRequest: (options) => ask("weather_request", [JSON.stringify(options)]),
    inspect: (options) => ask("inspect", [JSON.stringify(options)]),
    close: () => module._soilclock_close(session),
  };
}
if (typeof module === "object" && module.exports) module.exports = soilclockSession;
