// SPDX-License-Identifier: MIT
// How much expected control is lost by following the advice every Monday.
//   soilclock_obey [--quick] [--check] [--threads N] [--cases FILE]
//   soilclock_obey --steps [--threads N]
#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iostream>
#include <string>

#include "obey/printing.hpp"
#include "obey/steps.hpp"
#include "studies/workers.hpp"

namespace {

using namespace soilclock;
using namespace soilclock::obey;
using studies::worked_off;

struct Options {
  bool quick = false;
  bool check = false;
  bool steps = false;
  unsigned threads = 2;
  std::string cases_file;
};

std::optional<Options> read_options(int count, char** words) {
  Options options;
  for (int i = 1; i < count; ++i) {
    const std::string word = words[i];
    if (word == "--quick")
      options.quick = true;
    else if (word == "--check")
      options.check = true;
    else if (word == "--steps")
      options.steps = true;
    else if (word == "--threads" && i + 1 < count)
      options.threads = static_cast<unsigned>(std::clamp(std::atoi(words[++i]), 1, 64));
    else if (word == "--cases" && i + 1 < count)
      options.cases_file = words[++i];
    else
      return std::nullopt;
  }
  return options;
}

/// Everything a run draws on.
struct Context {
  Settings settings;
  std::vector<studies::Station> stations;
  advice::Catalogue catalogue;
};

/// The seasons of one station and target to walk.
struct Walk {
  const Station* station;
  const TargetSettings* target;
  std::vector<int> years;
};

bool holds(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

std::vector<Walk> walks(const Context& context, const TargetSettings& target, bool quick) {
  std::vector<int> years = target.quick_seasons;
  if (!quick) {
    years.clear();
    for (int year = target.first_season; year <= target.last_season; ++year) years.push_back(year);
  }
  std::vector<Walk> all;
  for (const Station& station : context.stations) {
    if (station.one_year) {
      if (!quick) all.push_back({&station, &target, {context.settings.one_year_season}});
    } else if (!quick || holds(context.settings.quick_stations, station.name)) {
      all.push_back({&station, &target, years});
    }
  }
  return all;
}

Walked added_up(const std::vector<Walked>& parts) {
  Walked sum;
  for (const Walked& part : parts) {
    sum.cases.insert(sum.cases.end(), part.cases.begin(), part.cases.end());
    sum.seasons += part.seasons;
    sum.refused += part.refused;
    sum.no_single_week += part.no_single_week;
    sum.unsaid += part.unsaid;
    sum.mondays += part.mondays;
  }
  return sum;
}

/// Walks every target; false when a bar is broken.
bool walk(const Context& context, const Options& options) {
  bool good = true;
  std::vector<Case> cases;
  for (const TargetSettings& target : context.settings.targets) {
    const auto parts =
        worked_off(walks(context, target, options.quick), options.threads, [&](const Walk& walk) {
          const int record_from = walk.station->one_year ? walk.years.front() : context.settings.record_from;
          return walk_station(*walk.station, *walk.target, walk.years, record_from, context.catalogue);
        });
    const Walked walked = added_up(parts);
    const auto& bars = options.quick ? context.settings.quick_bars : context.settings.full_bars;
    good = print_target(target, walked, context.settings.aims, bars.at(target.code)) && good;
    cases.insert(cases.end(), walked.cases.begin(), walked.cases.end());
  }
  if (!options.cases_file.empty()) std::ofstream{options.cases_file} << csv_of(cases);
  return good;
}

void take_steps(const Context& context, const Options& options) {
  for (const TargetSettings& target : context.settings.targets) {
    std::vector<const Station*> chosen;
    for (const Station& station : context.stations) {
      if (!station.one_year && holds(context.settings.steps.stations, station.name))
        chosen.push_back(&station);
    }
    StepCounts sum;
    for (const StepCounts& counts : worked_off(chosen, options.threads, [&](const Station* station) {
           return count_steps(*station, target, context.settings.steps, context.catalogue);
         })) {
      sum += counts;
    }
    print_steps(target.code, sum, context.settings.aims);
  }
}

template <class Value>
Value or_throw(Result<Value> result) {
  if (!result) throw std::runtime_error{describe(result.error())};
  return *std::move(result);
}

}  // namespace

int main(int count, char** words) {
  const auto options = read_options(count, words);
  if (!options) {
    std::cerr << "usage: soilclock_obey [--quick] [--check] [--threads N] [--cases FILE] | --steps\n";
    return 2;
  }
  try {
    auto stations = studies::read_stations();
    if (!stations) return 0;
    std::erase_if(*stations, [](const Station& station) { return station.one_year && !is_eastern(station); });
    const Context context{or_throw(read_settings()), *std::move(stations),
                          or_throw(advice::load_catalogue(advice::built_in_files()))};
    if (options->steps) {
      take_steps(context, *options);
      return 0;
    }
    return walk(context, *options) || !options->check ? 0 : 1;
  } catch (const std::exception& mistake) {
    std::cerr << mistake.what() << '\n';
    return 70;
  }
}
