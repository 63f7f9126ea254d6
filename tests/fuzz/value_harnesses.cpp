// SPDX-License-Identifier: MIT
// Single values: dates, times, zones, numbers and their units.
#include <cmath>
#include <string>

#include "core/text.hpp"
#include "core/time_zone.hpp"
#include "fuzz/harnesses.hpp"
#include "records/entries/field.hpp"
#include "records/entries/noted_units.hpp"
#include "site/site_file.hpp"
#include "thermal/degree_day_rule.hpp"
#include "thermal/start_rule.hpp"
#include "weather/services/iso_interval.hpp"
#include "weather/table/line_reading.hpp"
#include "weather/table/stamp_parsing.hpp"

namespace soilclock::fuzz {

namespace {

template <class Value>
void demand_good_unless_read(const Result<Value>& result) {
  if (!result) demand_good(result.error());
}

void days_and_instants(std::string_view text) {
  if (const auto day = parse_iso_day(text)) demand(iso(*day) == text, "a day is written as it was read");
  if (const auto at = parse_iso_instant(text))
    demand(parse_iso_instant(iso(*at)) == at, "an instant comes back from its text");
  if (const auto offset = parse_utc_offset(text)) (void)TimeZone::fixed(*offset);
  if (const auto span = weather::parse_time_span(text))
    demand(span->start < span->end(), "a span has a length");
  if (const auto minute = weather::parse_time_of_day(text, true))
    demand(*minute >= 0 && *minute <= 1440, "a time of day");
  if (const auto stamp = weather::parse_stamp(text)) {
    demand(stamp->minute.value_or(0) >= 0 && stamp->minute.value_or(0) <= 1440, "a time of day");
    demand(std::isfinite(stamp->number), "a stamp is a number");
  }
}

void zones(std::string_view text) {
  const auto zone = TimeZone::named(text);
  if (!zone) {
    demand_good(zone.error());
    return;
  }
  for (const int days : {-100'000, 0, 20'000, 900'000}) {
    const Instant at{Days{days}};
    demand(std::chrono::abs(zone->wall_offset(at)) < std::chrono::hours{24},
           "a clock is less than a day off");
    (void)zone->standard_day(at);
  }
}

void measured(std::string_view text) {
  using records::Quantity;
  if (const auto number = parse_number(text)) demand(std::isfinite(*number), "a number is finite");
  for (const auto quantity : {Quantity::temperature, Quantity::water, Quantity::depth, Quantity::speed,
                              Quantity::percent, Quantity::area, Quantity::direction}) {
    const auto value = records::parse_measure(text, quantity, "");
    if (!value) {
      demand_good(value.error());
      continue;
    }
    demand(std::isfinite(*value), "a measure is finite");
    if (const std::string unit = records::other_unit(text, quantity, ""); !unit.empty())
      (void)records::in_unit(*value, quantity, unit);
  }
}

/// Every field of every kind takes the text or says what it expects; what it took it gives back as it was.
void fields(std::string_view text) {
  for (const records::RecordKind kind : records::all_kinds) {
    demand_good_unless_read(records::read_units(text, kind));
    for (const records::Field& field : records::fields_of(kind)) {
      records::Record record = records::empty_record(kind);
      if (const auto written = field.write(record, text, own_unit(field)); !written) {
        demand_good(written.error());
        continue;
      }
      const std::string shown = records::cell_text(field.read(record));
      records::Record again = records::empty_record(kind);
      demand(field.write(again, shown, own_unit(field)).has_value(), "a field reads its own text");
      demand(records::cell_text(field.read(again)) == shown, "a field gives back what it took");
    }
  }
}

void options(std::string_view text) {
  demand_good_unless_read(parse_depth(text));
  demand_good_unless_read(parse_temperature(text));
  demand_good_unless_read(parse_date_order(text));
  demand_good_unless_read(parse_service(text));
  demand_good_unless_read(parse_plan(text));
  demand_good_unless_read(thermal::parse_start(text));
  demand_good_unless_read(thermal::parse_method(text));
  demand_good_unless_read(thermal::parse_cutoff(text));
}

}  // namespace

void dates_and_units(std::string_view bytes) {
  weather::LineReader lines{bytes};
  while (lines.next()) {
    const std::string_view text = lines.line();
    days_and_instants(text);
    zones(text);
    measured(text);
    fields(text);
    options(text);
  }
}

}  // namespace soilclock::fuzz
