// SPDX-License-Identifier: MIT
#include "app/records_file.hpp"

#include <cstdlib>
#include <filesystem>
#include <system_error>

namespace soilclock::app {

Result<std::string> records_path(const std::string& named) {
  if (!named.empty()) return named;
  const char* data = std::getenv("XDG_DATA_HOME");
  if (data != nullptr && data[0] == '/') return std::string{data} + "/soilclock/records.db";
  const char* home = std::getenv("HOME");
  if (home != nullptr && home[0] != '\0') return std::string{home} + "/.local/share/soilclock/records.db";
  return fail({Family::request,
               "no home folder is known for the records file",
               {},
               {},
               {},
               "name a file with --records"});
}

Result<records::Store> open_records(const std::string& named, records::Access access) {
  const auto path = records_path(named);
  if (!path) return fail(path.error());
  if (named.empty() && access == records::Access::create) {
    std::error_code error;
    const std::filesystem::path folder = std::filesystem::path{*path}.parent_path();
    // What a course does on its turf is nobody else's business on this machine.
    if (std::filesystem::create_directories(folder, error))
      std::filesystem::permissions(folder, std::filesystem::perms::owner_all, error);
    if (error) {
      return fail({Family::environment,
                   "the folder of the records file cannot be made",
                   {folder.string(), {}, {}, {}},
                   error.message(),
                   {},
                   "name another file with --records"});
    }
  }
  return records::Store::open(*path, access);
}

}  // namespace soilclock::app
