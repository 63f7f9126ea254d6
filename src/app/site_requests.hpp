// SPDX-License-Identifier: MIT
// From what the user named to what the pipeline is asked: files opened, catalogue loaded, targets resolved.
#pragma once

#include <vector>

#include "advice/data/catalogue.hpp"
#include "app/site_options.hpp"
#include "pipeline.hpp"

namespace soilclock::app {

/// The built-in models with the user's folder and practice file laid over them.
Result<advice::Catalogue> load_models(const std::string& models_folder, const std::string& practice_file);

/// The EPPO codes asked for: by option, else by the site, else annual bluegrass.
Result<std::vector<std::string>> target_codes(const SiteOptions& options, const Site& site,
                                              const advice::Catalogue& catalogue);

/// A request with all files of the site read.
Result<SiteRequest> request_for(const Site& site, const SiteOptions& options, Day on,
                                const advice::Catalogue& catalogue);

/// What the site means to put down: by --plan, else by the site file. Actives not known are request problems.
Result<treatment::TankPlan> plan_for(const Site& site, const SiteOptions& options,
                                     const advice::Catalogue& catalogue);

/// The place the first file that names one says it is from.
std::optional<Place> place_of(const std::vector<WeatherText>& files);

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
