// SPDX-License-Identifier: MIT
#include "site/read_files.hpp"

#include <tuple>

#include "weather/read_weather.hpp"

namespace soilclock {

namespace {

/// Everything a file is read by but the place; an option that is added does not compile until it stands here.
auto key_of(const weather::ReadingOptions& options) {
  const auto& [columns, dates, units_in, asked_in, station, time_zone, place, swap, shift, us_units,
               units_said, unit_questions, keep_hours] = options;
  return std::tuple{
      columns, dates, units_in, asked_in,  station, time_zone ? time_zone->name() : std::string{},
      swap,    shift, us_units, keep_hours};
}

}  // namespace

ReadText read_file_text(std::string_view bytes, const std::string& file,
                        const weather::ReadingOptions& options) {
  ReadText reading{options, {}, {}};
  weather::ReadingOptions asking = options;
  asking.unit_questions = &reading.questions;
  reading.file = weather::read_weather_text(bytes, file, asking);
  return reading;
}

const weather::ParsedFile* ReadFiles::known(const std::string& file,
                                            const weather::ReadingOptions& options) const {
  const auto found = known_.find(file);
  if (found == known_.end()) return nullptr;
  const ReadText& reading = found->second;
  if (key_of(reading.options) != key_of(options)) return nullptr;
  if (!weather::read_alike(reading.questions, reading.options.place, options.place)) return nullptr;
  return &reading.file;
}

const weather::ParsedFile& ReadFiles::keep(const std::string& file, ReadText reading) {
  return known_.insert_or_assign(file, std::move(reading)).first->second.file;
}

const weather::ParsedFile& ReadFiles::read(std::string_view bytes, const std::string& file,
                                           const weather::ReadingOptions& options) {
  const weather::ParsedFile* same = known(file, options);
  return same != nullptr ? *same : keep(file, read_file_text(bytes, file, options));
}

}  // namespace soilclock
