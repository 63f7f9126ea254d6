// SPDX-License-Identifier: MIT
#include "app/commands/inspect.hpp"

#include <algorithm>
#include <ostream>

#include "report/inspection.hpp"

namespace soilclock::app {

std::string InspectCommand::examples() const {
  return "  soilclock inspect course.csv\n"
         "  soilclock inspect --dates day-first --units-in F,in --days course.csv\n";
}

void InspectCommand::declare(Options& options) {
  options.positional("FILE", files_, "weather files");
  words_.declare(options);
  options.choice("--format", format_, {"text", "json", "csv"}, "form of the answer");
  options.choice("--units", units_, {"metric", "us"}, "units of the text");
  options.flag("--days", days_, "every day's values");
}

int InspectCommand::run(Streams& streams) {
  if (files_.empty())
    return report({Family::request, "no file is named", {}, {}, "soilclock inspect FILE...", {}}, streams);
  const auto reading = words_.reading();
  if (!reading) return report(reading.error(), streams);
  std::vector<weather::FileReading> files;
  int worst = 0;
  for (const std::string& path : files_) {
    const auto text = read_file(path);
    if (!text) {
      worst = std::max(worst, app::report(text.error(), streams));
      continue;
    }
    files.push_back(weather::read_weather_text(*text, path, *reading));
  }
  if (format_ == "json")
    streams.out << report::inspection_json(files, days_);
  else if (format_ == "csv")
    streams.out << report::inspection_csv(files);
  else
    streams.out << report::inspection_text(files, days_, units_ == "us");
  for (const weather::FileReading& file : files) {
    if (file.refusal) worst = std::max(worst, app::report(*file.refusal, streams));
  }
  return worst;
}

}  // namespace soilclock::app
