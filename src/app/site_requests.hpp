// SPDX-License-Identifier: MIT
// From what the user named to what the pipeline is asked: files opened, catalogue loaded, targets resolved.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "advice/data/catalogue.hpp"
#include "app/kept_readings.hpp"
#include "app/site_options.hpp"
#include "site/site_request.hpp"

namespace soilclock::app {

/// The built-in models with the user's folder and practice file laid over them.
Result<advice::Catalogue> load_models(const std::string& models_folder, const std::string& practice_file);

/// The part of the options that changes what is asked about a site.
Asked asked_with(const SiteOptions& options, Day on);

class Neighbors;

/// What the sites of a run share; the weather of a course is read and looked up for its first area, and the
/// others take it from here.
struct SharedWeather {
  std::string course{};                        ///< id of the course whose areas are asked for
  std::map<std::string, std::string> bytes{};  ///< of its files, by path
  std::optional<StoredSources> stored{};
  KeptReadings readings{};         ///< of files of all sites
  Neighbors* neighbors = nullptr;  ///< null: each site is by itself
};

/// A request with all files of the site read, with what is stored and noted of it. An area finds in `shared`
/// what was looked up for another one of its course. The request reads its files through `shared`, and must
/// not outlive it.
Result<SiteRequest> request_for(const Site& site, const SiteOptions& options, Day on,
                                const advice::Catalogue& catalogue, SharedWeather* shared = nullptr);

/// The days from --from to --to, both inclusive; an empty text leaves that end open.
Result<DayRange> day_range(const std::string& from, const std::string& to);

/// A catalogue, a day and the sites of a command line; what most commands begin with.
struct Question {
  advice::Catalogue catalogue;
  Day on{};
  std::vector<Site> sites;
};
Result<Question> read_question(const SiteOptions& options, const Streams& streams);

}  // namespace soilclock::app
