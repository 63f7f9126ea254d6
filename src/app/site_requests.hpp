// SPDX-License-Identifier: MIT
// From what the user named to what the pipeline is asked: files opened, catalogue loaded, targets resolved.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "advice/data/catalogue.hpp"
#include "app/site_options.hpp"
#include "site/read_files.hpp"
#include "site/site_request.hpp"

namespace soilclock::app {

/// The built-in models with the user's folder and practice file laid over them.
Result<advice::Catalogue> load_models(const std::string& models_folder, const std::string& practice_file);

/// The part of the options that changes what is asked about a site.
Asked asked_with(const SiteOptions& options, Day on);

class Neighbors;

/// The weather of one course as it was read for its first area: the others take it from here. Beside it what
/// the sites of a run share.
struct SharedWeather {
  std::string course{};                        ///< its id
  std::map<std::string, std::string> bytes{};  ///< of its files, by path
  ReadFiles read{};
  std::optional<StoredSources> stored{};
  Neighbors* neighbors = nullptr;  ///< null: each site is by itself
};

/// A request with all files of the site read, with what is stored and noted of it. An area finds in `shared`
/// what was read for another one of its course; the request then reads through it, and must not outlive it.
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
