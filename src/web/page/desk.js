/* SPDX-License-Identifier: MIT
   The functions of soilclock.h for scripts: soilclockDesk(module) takes the module that soilclock.js makes and gives a
   desk. Each question gives {code, result, problems}: the exit code of the command line, a text, and lines for people. */
"use strict";
function soilclockDesk(module) {
  const desk = module._soilclock_open();
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
    const code = module["_soilclock_" + question](desk, ...places);
    places.forEach((at) => module._free(at));
    return {
      code: code,
      result: textAt(module._soilclock_result(desk), module._soilclock_result_size(desk)),
      problems: lineAt(module._soilclock_problems(desk)),
    };
  }

  return {
    version: () => lineAt(module._soilclock_version()),
    /* Puts the bytes (a Uint8Array) of a file under its name; {code, problems}. */
    putFile: function (name, bytes) {
      const nameAt = copied(encoder.encode(name));
      const bytesAt = copied(bytes);
      const code = module._soilclock_put_file(desk, nameAt, bytesAt, bytes.length);
      module._free(nameAt);
      module._free(bytesAt);
      return { code: code, problems: lineAt(module._soilclock_problems(desk)) };
    },
    dropFiles: () => module._soilclock_drop_files(desk),
    /* `sites`: the text of a site file; `options`: an object as soilclock.h describes it. */
    advice: (sites, options) => ask("advice", [sites, JSON.stringify(options)]),
    course: (sites, options) => ask("course", [sites, JSON.stringify(options)]),
    courses: (sites, options) => ask("courses", [sites, JSON.stringify(options)]),
    whatIf: (sites, options) => ask("what_if", [sites, JSON.stringify(options)]),
    cases: (sites, options) => ask("cases", [sites, JSON.stringify(options)]),
    comparison: (sites, options) => ask("comparison", [sites, JSON.stringify(options)]),
    inspect: (options) => ask("inspect", [JSON.stringify(options)]),
    close: () => module._soilclock_close(desk),
  };
}
if (typeof module === "object" && module.exports) module.exports = soilclockDesk;
