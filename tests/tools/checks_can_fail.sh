#!/bin/sh
# SPDX-License-Identifier: MIT
# A check that cannot fail is none: each one is shown a small tree with one planted mistake and must refuse it.
# Usage: checks_can_fail.sh TOOLS COMPILER
set -eu
tools=$1
compiler=$2
tree=$(mktemp -d)
trap 'rm -rf "$tree"' EXIT
verdict=0
must_pass() {
  "$@" >/dev/null 2>&1 || { echo "refused a good tree: $*"; verdict=1; }
}
must_refuse() {
  if "$@" >/dev/null 2>&1; then echo "accepted a planted mistake: $*"; verdict=1; fi
}
fresh() {
  rm -rf "$tree/src"
  mkdir -p "$tree/src/core" "$tree/src/soil" "$tree/src/records"
  printf '#pragma once\nstruct Value {};\n' >"$tree/src/core/value.hpp"
  printf '#pragma once\n#include "core/value.hpp"\ninline Value soil_value;\n' >"$tree/src/soil/soil.hpp"
  printf '#pragma once\n#include <sqlite3.h>\n' >"$tree/src/records/store.txt"
}

fresh
must_pass "$tools/floor_check.sh" "$tree/src"
must_pass "$tools/third_party_check.sh" "$tree/src"
must_pass "$tools/file_length.sh" "$tree/src"
must_pass "$tools/old_words.sh" "$tree"
must_pass "$tools/headers_alone.sh" "$tree/src" "$compiler"

printf '#include "soil/soil.hpp"\n' >>"$tree/src/core/value.hpp"
must_refuse "$tools/floor_check.sh" "$tree/src"

fresh
printf '#include "soil/soil.hpp"\n' >"$tree/src/records/store.hpp"
must_refuse "$tools/floor_check.sh" "$tree/src"

fresh
mkdir -p "$tree/src/advice/answer" "$tree/src/advice/site"
printf '#pragma once\n' >"$tree/src/advice/answer/answer.hpp"
printf '#include "advice/answer/answer.hpp"\n' >"$tree/src/advice/site/site.hpp"
must_refuse "$tools/floor_check.sh" "$tree/src"

fresh
mkdir -p "$tree/src/net/requests"
printf '#pragma once\n' >"$tree/src/net/line.hpp"
printf '#include "net/line.hpp"\n' >"$tree/src/net/requests/service.hpp"
must_refuse "$tools/floor_check.sh" "$tree/src"

fresh
printf '// The seam of two records.\n' >>"$tree/src/core/value.hpp"
must_refuse "$tools/old_words.sh" "$tree"

fresh
printf '#include <curl/curl.h>\n' >"$tree/src/soil/a.cpp"
printf '#include <curl/easy.h>\n' >"$tree/src/soil/b.cpp"
must_refuse "$tools/third_party_check.sh" "$tree/src"

fresh
awk 'BEGIN { for (i = 0; i < 401; ++i) print "// line" }' >"$tree/src/core/long.hpp"
must_refuse "$tools/file_length.sh" "$tree/src"

fresh
printf '#pragma once\ninline Value forgotten;\n' >"$tree/src/core/needs_value.hpp"
must_refuse "$tools/headers_alone.sh" "$tree/src" "$compiler"

mkdir -p "$tree/pairs"
printf '#ifdef MUST_FAIL\nint x = 1;\n#endif\n' >"$tree/pairs/harmless.cpp"
must_refuse "$tools/must_not_compile.sh" "$tree/pairs" "$tree/src" "$compiler"
printf 'int x = "text";\n' >"$tree/pairs/harmless.cpp"
must_refuse "$tools/must_not_compile.sh" "$tree/pairs" "$tree/src" "$compiler"
printf '#ifdef MUST_FAIL\nint x = "text";\n#endif\n' >"$tree/pairs/harmless.cpp"
must_pass "$tools/must_not_compile.sh" "$tree/pairs" "$tree/src" "$compiler"

mkdir -p "$tree/docs"
printf '#!/bin/sh\n  demo)\n' >"$tree/docs/run"
# shellcheck disable=SC2016
printf 'Type `./run demo`.\n' >"$tree/docs/README.md"
# shellcheck disable=SC2016
printf 'Type `./run demo`.\n' >"$tree/docs/DEVELOPERS.md"
must_pass "$tools/documented_commands.sh" "$tree/docs"
# shellcheck disable=SC2016
printf 'Type `./run dance`.\n' >"$tree/docs/DEVELOPERS.md"
must_refuse "$tools/documented_commands.sh" "$tree/docs"
# shellcheck disable=SC2016
printf 'See `src/nothing.hpp`.\n' >"$tree/docs/DEVELOPERS.md"
must_refuse "$tools/documented_commands.sh" "$tree/docs"

touch "$tree/record.csv"
must_pass "$tools/only_with.sh" "$tree/record.csv" true
must_refuse "$tools/only_with.sh" "$tree/record.csv" false
must_refuse "$tools/only_with.sh" "$tree/nothing.csv" true
must_refuse env -u SOILCLOCK_RECORDS "$tools/only_with.sh" records true
if /usr/bin/python3 -c 'import jsonschema' 2>/dev/null; then
  mkdir -p "$tree/data/config"
  cp -r "$tools/../../models" "$tree/data/models"
  cp "$tools/../../config/practice.json" "$tree/data/config"
  must_pass "$tools/models_fit_schemas.py" "$tree/data"
  sed -i '0,/"unit"/s/"unit"/"units"/' "$tree/data/models/growth/POAAN_leaf_pace.json"
  must_refuse "$tools/models_fit_schemas.py" "$tree/data"
  cp "$tools/../../models/growth/POAAN_leaf_pace.json" "$tree/data/models/growth"
  sed -i '/How age is counted/d' "$tree/data/models/schema/growth-model.schema.json"
  must_refuse "$tools/models_fit_schemas.py" "$tree/data"
  cp "$tools/../../models/schema/growth-model.schema.json" "$tree/data/models/schema"
  sed -i '/`wind_least`/d' "$tree/data/models/README.md"
  must_refuse "$tools/models_fit_schemas.py" "$tree/data"
else
  echo "SKIPPED: python3-jsonschema is not installed; its check was not shown a mistake"
fi
exit "$verdict"
