// SPDX-License-Identifier: MIT
// What the records file holds of a site's weather, as the pipeline takes it.
#pragma once

#include <optional>
#include <string>

#include "net/requests/services.hpp"
#include "pipeline.hpp"
#include "records/weather_store.hpp"
#include "site/site_file.hpp"

namespace soilclock::app {

/// The series of a site with one service. Grids know it by its place (and height, where the request names
/// it), stations by their id (stored under place 0 0); where the days are cut by us, the site's clock is part
/// of it.
records::SeriesKey series_key(const Site& site, const net::Service& service, const SiteService& wanted,
                              records::WeatherPart part);

/// The series that answers come from: that of series_key, or, as long as nothing of it is stored, one that
/// differs in the cut of its days only (a saved answer of whole days) or in a height the site does not say.
/// Problem (data): the records cannot be read.
Result<records::SeriesKey> series_in_use(const Site& site, const net::Service& service,
                                         const SiteService& wanted, records::WeatherPart part,
                                         records::WeatherStore& store);

/// "Open-Meteo history", "NOAA NCEI daily summaries USW00014821 history": what remarks and origins call a
/// series.
std::string series_name(const net::Service& service, const SiteService& wanted, records::WeatherPart part);

/// Everything stored for a site of the services it names, as it stood on the morning of `on`: a day of a
/// forecast counts as past when its answer was given after that day, else as to come, and days to come of an
/// answer given after `on` are left out (remark "forecast-too-new"). Sites without services have nothing, and
/// the records file is not opened for them. Other remarks: "nothing-fetched", "fetched-otherwise",
/// "shared-cell", "answer-doubt", "members-too-few" (an ensemble forecast of less than `members_least`, at
/// least 2). Problems: an unknown service, a records file that cannot be read, a site
/// that has neither files nor anything stored (data).
Result<StoredSources> stored_sources(const Site& site, const std::string& records_file,
                                     const std::string& settings_file, Day on, int members_least);

}  // namespace soilclock::app
