// SPDX-License-Identifier: MIT
// Where the records file lies when nobody says.
#pragma once

#include <string>

#include "records/store.hpp"

namespace soilclock::app {

/// The file named, else records.db in folder soilclock of $XDG_DATA_HOME, else of ~/.local/share (XDG Base
/// Directory Specification 0.8: a relative $XDG_DATA_HOME is ignored). Problem (request): no home folder is
/// known.
Result<std::string> records_path(const std::string& named);

/// Opens the records file. With Access::create the folder of the default file is made too, never that of a
/// named one: it may be mistyped. Problems: records_path and records::Store::open.
Result<records::Store> open_records(const std::string& named, records::Access access);

}  // namespace soilclock::app
