// SPDX-License-Identifier: MIT
// From what the user named to what the pipeline is asked: files opened, catalogue loaded, targets resolved.
#pragma once

#include <vector>

#include "advice/data/catalogue.hpp"
#include "app/site_options.hpp"
#include "site/site_request.hpp"

namespace soilclock::app {

/// The built-in models with the user's folder and practice file laid over them.
Result<advice::Catalogue> load_models(const std::string& models_folder, const std::string& practice_file);

/// The part of the options that changes what is asked about a site.
Asked asked_with(const SiteOptions& options, Day on);

/// A request with all files of the site read, with what is stored and noted of it.
Result<SiteRequest> request_for(const Site& site, const SiteOptions& options, Day on,
                                const advice::Catalogue& catalogue);

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
