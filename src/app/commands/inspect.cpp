// SPDX-License-Identifier: MIT
#include "app/commands/inspect.hpp"

#include <algorithm>
#include <ostream>

#include "app/local_files.hpp"
#include "app/site_requests.hpp"
#include "report/inspection.hpp"

namespace soilclock::app {

std::string InspectCommand::examples() const {
  return "  soilclock inspect course.csv\n"
         "  soilclock inspect --dates day-first --units-in F,in --days course.csv\n";
}

void InspectCommand::declare(Options& options) {
  options.positional("FILE", files_, "weather files");
  words_.declare(options);
  declare_format(options, format_, {"text", "json", "csv"});
  options.choice("--units SYSTEM", units_, {"us", "metric"}, units_help);
  options.flag("--days", days_, "every day's values");
}

int InspectCommand::run(Streams& streams) {
  if (files_.empty())
    return report({Family::request, "no file is named", {}, {}, "soilclock inspect FILE...", {}}, streams);
  const auto reading = words_.reading();
  if (!reading) return report(reading.error(), streams);
  int worst = 0;
  std::vector<WeatherText> texts;
  texts.reserve(files_.size());
  for (const std::string& path : files_) {
    auto text = read_file(path);
    if (text)
      texts.push_back({path, std::move(*text), false, *reading});
    else
      worst = std::max(worst, app::report(text.error(), streams));
  }
  const auto inspected = read_for_inspection(std::move(texts), units_);
  if (!inspected) return report(inspected.error(), streams);
  const auto& [files, us_units] = *inspected;
  if (format_ == "json")
    streams.out << report::inspection_json(files, days_);
  else if (format_ == "csv")
    streams.out << report::inspection_csv(files);
  else
    streams.out << report::inspection_text(files, days_, us_units);
  for (const weather::ParsedFile& file : files) {
    if (file.refusal) worst = std::max(worst, app::report(*file.refusal, streams));
  }
  return worst;
}

}  // namespace soilclock::app
