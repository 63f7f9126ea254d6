// SPDX-License-Identifier: MIT
#include "weather/services/open_meteo_days.hpp"

#include <fmt/format.h>

#include <cmath>

#include "weather/checks.hpp"

namespace soilclock::weather {

bool fill_printed_days(const AnswerBlock& daily, const RunName& run, const ReadingOptions& options,
                       ParsedFile& reading, ReadingNotes& notes) {
  const AnswerColumn* low = daily.find(Quantity::air_min, run);
  const AnswerColumn* high = daily.find(Quantity::air_max, run);
  const AnswerColumn* mean = daily.find(Quantity::air_mean, run);
  const AnswerColumn* rain = daily.find(Quantity::rain, run);
  if (!(low != nullptr && low->any_number()) && !(high != nullptr && high->any_number())) return false;
  ExtremesCheck check{options.swap_reversed_extremes, notes};
  std::vector<std::string> holed;
  for (std::size_t i = 0; i < daily.days.size(); ++i) {
    const Day day = daily.days[i];
    const auto value = [&](const AnswerColumn* column) {
      return column == nullptr || std::isnan(column->values[i])
                 ? std::nullopt
                 : std::optional{Temperature::from_celsius(column->values[i])};
    };
    DailyExtremes pair{value(low), value(high)};
    if (mean != nullptr && std::isnan(mean->values[i]) && (pair.minimum || pair.maximum)) {
      holed.push_back(iso(day));
      pair = {};
    }
    pair = check.checked(pair, day, {});
    if (pair.minimum) reading.daily.air_min.set(day, *pair.minimum, Quality::modelled);
    if (pair.maximum) reading.daily.air_max.set(day, *pair.maximum, Quality::modelled);
    if (rain == nullptr || std::isnan(rain->values[i])) continue;
    if (const auto usable = check.checked_rain(Rain::from_mm(rain->values[i]), {}))
      reading.daily.rain.set(day, *usable, Quality::modelled);
  }
  if (!holed.empty()) {
    notes.doubt(
        fmt::format("the daily mean is null beside numbers for the extremes, which a day with a hole "
                    "shows; taken as missing: {}",
                    shortened_list(holed, 6)));
  }
  return true;
}

}  // namespace soilclock::weather
