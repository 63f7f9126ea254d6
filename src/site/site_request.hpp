// SPDX-License-Identifier: MIT
// From what a user says about a site to what the pipeline is asked: words resolved, texts of files attached.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "advice/data/catalogue.hpp"
#include "pipeline.hpp"
#include "site/site_file.hpp"

namespace soilclock {

/// What is asked about sites, over what they say themselves.
struct Asked {
  Day on{};
  std::vector<std::string> targets;  ///< codes or plain names; empty: the site's own
  std::string plan;                  ///< words of --plan; empty: the site's own
  std::string units;                 ///< "us" or "metric"; empty: the site's own, else those of its place
};

/// The bytes of a file a site names, or why there are none.
using FileReader = std::function<Result<std::string>(const std::string& path)>;

/// The EPPO codes asked for: by the question, else by the site, else annual bluegrass.
Result<std::vector<std::string>> target_codes(const std::vector<std::string>& asked, const Site& site,
                                              const advice::Catalogue& catalogue);

/// What the site means to put down: by the words of --plan, else by the site. Actives not known are request
/// problems.
Result<treatment::TankPlan> plan_for(const Site& site, const std::string& plan_words,
                                     const advice::Catalogue& catalogue);

/// The place the first file that names one says it is from.
std::optional<Place> place_of(const std::vector<WeatherText>& files);

/// Weather files as they were read, and whether sentences about them are in US units.
struct Inspection {
  std::vector<weather::ParsedFile> files;
  bool us_units = false;
};

/// Reads each file, once where it can be. `units`: "us", "metric" or, when empty, what belongs to the place
/// that the first file with one names. Problem: as in_united_states.
Result<Inspection> read_for_inspection(std::vector<WeatherText> texts, std::string_view units);

/// A request with all files of the site read and those of its notes that count for it; nothing stored.
Result<SiteRequest> site_request(const Site& site, const Asked& asked, const advice::Catalogue& catalogue,
                                 const FileReader& read);

}  // namespace soilclock
