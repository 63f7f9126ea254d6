// SPDX-License-Identifier: MIT
#include "weather/rows/unit_recognition.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "weather/checks.hpp"
#include "weather/columns/unit_conversion.hpp"
#include "weather/rows/unit_questions.hpp"

namespace soilclock::weather {

Result<WantedUnits> wanted_units(const std::string& text) {
  WantedUnits wanted;
  std::string_view rest = text;
  while (!rest.empty()) {
    const auto end = std::min(rest.find(','), rest.size());
    const std::string unit = lowered(trimmed(rest.substr(0, end)));
    rest.remove_prefix(std::min(end + 1, rest.size()));
    if (unit == "c")
      wanted.temperature = Unit::celsius;
    else if (unit == "f")
      wanted.temperature = Unit::fahrenheit;
    else if (unit == "k")
      wanted.temperature = Unit::kelvin;
    else if (unit == "0.1c")
      wanted.temperature = Unit::tenths_celsius;
    else if (unit == "mm")
      wanted.rain = Unit::millimeter;
    else if (unit == "cm")
      wanted.rain = Unit::centimeter;
    else if (unit == "in")
      wanted.rain = Unit::inch;
    else if (unit == "0.1mm")
      wanted.rain = Unit::tenths_millimeter;
    else {
      return fail({Family::request,
                   "the unit option names an unknown unit",
                   {},
                   unit,
                   "C, F, K or 0.1C and mm, cm, in or 0.1mm",
                   "for example --units-in F,in"});
    }
  }
  return wanted;
}

namespace {

/// Usable numbers of some columns, in order of size.
std::vector<double> sorted_numbers(const SectionData& data, const std::vector<Quantity>& quantities) {
  std::vector<double> numbers;
  for (const auto& [column, cells] : data.values) {
    const Quantity quantity = data.plan.quantity(column);
    if (std::find(quantities.begin(), quantities.end(), quantity) == quantities.end()) continue;
    for (const double value : cells.values) {
      if (!std::isnan(value)) numbers.push_back(value);
    }
  }
  std::sort(numbers.begin(), numbers.end());
  return numbers;
}

/// A quantile that a few spikes do not move.
double quantile(const std::vector<double>& sorted, double share) {
  if (sorted.empty()) return std::nan("");
  return sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1))];
}

struct UpperQuantiles {
  double middle;
  double high;  ///< nine in ten are not above it
  double highest;
};

/// The same quantiles of numbers in any order, which are left in another. To sort all of a large file takes
/// longer than to read them.
UpperQuantiles upper_quantiles(std::vector<double>& numbers) {
  const auto at = [&](double share) {
    return numbers.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(numbers.size() - 1));
  };
  const auto high = at(0.9);
  const auto middle = at(0.5);
  std::nth_element(numbers.begin(), high, numbers.end());
  const double highest = *std::max_element(high, numbers.end());
  const double high_value = *high;
  if (middle != high) std::nth_element(numbers.begin(), middle, high);
  return {*middle, high_value, highest};
}

const std::vector<Quantity> air_quantities{Quantity::air, Quantity::air_min, Quantity::air_max,
                                           Quantity::air_mean};
const std::vector<Quantity> rain_quantities{Quantity::rain, Quantity::rain_today};

/// The unit numbers without a unit can only have. Basis: common practice; screen temperatures stay within
/// -60..60 C, and medians of daily maxima between 33 and 42 occur in both scales.
std::optional<Unit> unit_from_numbers(const std::vector<double>& all, double warm_median) {
  const double low = quantile(all, 0.02);
  const double high = quantile(all, 0.98);
  // -60 to 60 C in kelvin; tenths of a hot week fall there too, but spread ten times as far.
  if (low > 213.0 && high < 333.0 && high - low < 75.0) return Unit::kelvin;
  if (high > 140.0 || low < -80.0) return Unit::tenths_celsius;
  if (high > 60.0 || warm_median > 42.0) return Unit::fahrenheit;
  if (warm_median > 33.0) return std::nullopt;
  return Unit::celsius;
}

class UnitSettler {
 public:
  UnitSettler(SectionData& data, ReadingNotes& notes) : data_{data}, notes_{notes} {}

  Checked settle(const WantedUnits& wanted, const WantedUnits& asked) {
    if (const auto known = ask_about_units(data_, wanted, notes_); !known) return known;
    if (asked.temperature) fill_all(is_temperature, *asked.temperature);
    if (asked.rain) fill_all(is_rain, *asked.rain);
    data_.unit_told = wanted.temperature.has_value();
    if (wanted.temperature) set_all(is_temperature, *wanted.temperature);
    if (wanted.rain) set_all(is_rain, *wanted.rain);
    if (const auto done = settle_temperatures(); !done) return done;
    if (const auto done = settle_rain(); !done) return done;
    if (!wanted.temperature) {
      if (const auto done = check_temperatures(); !done) return done;
    }
    if (!wanted.rain) return check_rain();
    return {};
  }

 private:
  /// The user's word goes over the heading, but not in silence.
  void set_all(bool (*wanted)(Quantity), Unit unit) {
    for (std::size_t i = 0; i < data_.plan.columns.size(); ++i) {
      PlannedColumn& column = data_.plan.columns[i];
      if (!wanted(column.meaning.quantity)) continue;
      if (column.meaning.unit != Unit::none && column.meaning.unit != unit) {
        notes_.doubt(fmt::format("the heading '{}' says {}; read as {}, as you said", column.heading,
                                 unit_name(column.meaning.unit), unit_name(unit)),
                     data_.heading_line(), static_cast<int>(i) + 1);
      }
      column.meaning.unit = unit;
    }
  }

  void fill_all(bool (*wanted)(Quantity), Unit unit) {
    for (const std::size_t column : without_unit(wanted)) data_.plan.columns[column].meaning.unit = unit;
  }

  std::vector<std::size_t> without_unit(bool (*wanted)(Quantity)) const {
    std::vector<std::size_t> found;
    for (std::size_t column = 0; column < data_.plan.columns.size(); ++column) {
      const HeadingMeaning& meaning = data_.plan.columns[column].meaning;
      if (wanted(meaning.quantity) && meaning.unit == Unit::none) found.push_back(column);
    }
    return found;
  }

  std::optional<Unit> known_unit(bool (*wanted)(Quantity)) const {
    for (const PlannedColumn& column : data_.plan.columns) {
      if (wanted(column.meaning.quantity) && column.meaning.unit != Unit::none) return column.meaning.unit;
    }
    return std::nullopt;
  }

  std::vector<double> warm_numbers() const {
    for (const Quantity quantity : {Quantity::air_max, Quantity::air, Quantity::air_mean, Quantity::soil}) {
      auto numbers = sorted_numbers(data_, {quantity});
      if (!numbers.empty()) return numbers;
    }
    return sorted_numbers(data_, {Quantity::air_min});
  }

  std::string names(const std::vector<std::size_t>& columns) const {
    std::vector<std::string> all;
    all.reserve(columns.size());
    for (const std::size_t column : columns) all.push_back("'" + data_.plan.columns[column].heading + "'");
    return shortened_list(all, 6);
  }

  Checked settle_temperatures() {
    const auto open = without_unit(is_temperature);
    if (open.empty()) return {};
    std::optional<Unit> unit = known_unit(is_temperature);
    std::string why = "like the other temperature columns";
    if (!unit) {
      std::vector<double> all = sorted_numbers(data_, air_quantities);
      if (all.empty()) all = sorted_numbers(data_, {Quantity::soil});
      if (all.empty())
        unit = Unit::celsius;  // no number at all: nothing can be read wrongly
      else
        unit = unit_from_numbers(all, quantile(warm_numbers(), 0.5));
      if (!unit) {
        return fail(notes_.problem(
            "no heading names the unit of the temperatures, and the numbers fit both Celsius and Fahrenheit",
            data_.heading_line(), static_cast<int>(open.front()) + 1, names(open),
            "a unit in the heading, such as tmin_c", "say it with --units-in C or --units-in F"));
      }
      data_.unit_guessed = !all.empty();
      why = all.empty() ? ""
                        : fmt::format("because the numbers run from {:g} to {:g}", all.front(), all.back());
      if (*unit == Unit::tenths_celsius) why += ", too much for degrees: tenths of a degree are suspected";
    }
    notes_.doubt(fmt::format("no unit is given for {}; read as {} {}", names(open), unit_name(*unit), why),
                 data_.heading_line(), static_cast<int>(open.front()) + 1);
    for (const std::size_t column : open) data_.plan.columns[column].meaning.unit = *unit;
    return {};
  }

  Checked settle_rain() {
    const auto open = without_unit(is_rain);
    if (open.empty()) return {};
    std::optional<Unit> unit = known_unit(is_rain);
    const auto temperature = known_unit(is_temperature);
    if (!unit) {
      unit = temperature == Unit::fahrenheit       ? Unit::inch
             : temperature == Unit::tenths_celsius ? Unit::tenths_millimeter
                                                   : Unit::millimeter;
    }
    for (const std::size_t column : open) data_.plan.columns[column].meaning.unit = *unit;
    const auto amounts = sorted_numbers(data_, rain_quantities);
    if (!amounts.empty() && amounts.back() == 0.0) return {};  // no rain is no rain in every unit
    notes_.doubt(fmt::format("no unit is given for {}; read as {} because the temperatures are in {}",
                             names(open), unit_name(*unit), unit_name(temperature.value_or(Unit::celsius))),
                 data_.heading_line(), static_cast<int>(open.front()) + 1);
    return {};
  }

  Problem contradiction(std::size_t column, std::string what) const {
    const PlannedColumn& planned = data_.plan.columns[column];
    return notes_.problem(
        std::move(what), data_.heading_line(), static_cast<int>(column) + 1, planned.heading,
        "numbers that fit the unit of the heading",
        "say which is right with --units-in, for example --units-in C,mm or --units-in F,in");
  }

  /// Months in which turf of the temperate zones is never frozen all day: May to September, or half a year
  /// later.
  bool warm_month(Day day) const {
    const unsigned month = civil(day).month;
    const bool south = data_.place && data_.place->latitude_deg < 0.0;
    return south ? (month >= 11 || month <= 3) : (month >= 5 && month <= 9);
  }

  /// Read in F, nearly all highs of the warm months are below 45 F (7 C).
  bool frozen_summer(std::size_t column) const {
    if (data_.place && std::abs(data_.place->latitude_deg) > 60.0) return false;
    const auto& values = data_.values.at(column).values;
    int warm = 0;
    int cold = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (std::isnan(values[i]) || !warm_month(data_.rows.moments[i].day)) continue;
      ++warm;
      cold += values[i] < 45.0 ? 1 : 0;
    }
    return warm >= 5 && cold * 10 >= warm * 9;
  }

  Checked check_temperatures() {
    for (const auto& [column, cells] : data_.values) {
      const Quantity quantity = data_.plan.quantity(column);
      if (!is_temperature(quantity)) continue;
      std::vector<double> numbers;
      numbers.reserve(cells.values.size());
      for (const double value : cells.values) {
        if (!std::isnan(value)) numbers.push_back(value);
      }
      if (numbers.empty()) continue;
      const Unit unit = data_.plan.columns[column].meaning.unit;
      const auto [middle, high, highest] = upper_quantiles(numbers);
      // The hottest weeks of the hottest valley have maxima near 53 C and minima near 37 C.
      const bool too_hot = unit == Unit::celsius && numbers.size() >= 3 &&
                           (high > 60.0 || middle > (quantity == Quantity::air_max ? 55.0 : 48.0) ||
                            (quantity == Quantity::air_min && middle > 38.0));
      if (too_hot) {
        return fail(contradiction(
            column,
            fmt::format(
                "they should be in Celsius, but the numbers reach {:g} with a median of {:g}: {} suspected",
                highest, middle,
                middle > 180.0 ? "kelvin or tenths are"
                : high > 140.0 ? "tenths of a degree are"
                               : "Fahrenheit is")));
      }
      if (unit == Unit::kelvin && middle < 180.0) {
        return fail(
            contradiction(column, fmt::format("the heading says kelvin, but the median is {:g}", middle)));
      }
      const bool daytime =
          quantity == Quantity::air_max || (quantity == Quantity::air && !data_.plan.find(Quantity::air_max));
      if (unit == Unit::fahrenheit && daytime && frozen_summer(column)) {
        return fail(contradiction(
            column,
            fmt::format("the heading says Fahrenheit, but then the days of the warm months stay below 45 F "
                        "(median {:g}){}: Celsius is suspected",
                        middle, heavy_rain())));
      }
      if (unit == Unit::fahrenheit && numbers.size() >= 3 && middle > 140.0) {
        return fail(contradiction(
            column, fmt::format("the heading says Fahrenheit, but the median is {:g}", middle)));
      }
      if (const auto hot = hotter_than_weather(cells.values, unit); hot && quantity != Quantity::soil) {
        return fail(contradiction(
            column, fmt::format("read in {}, {:g} would be above the hottest day on record, and the values "
                                "around it are near it, so it is no single slip",
                                unit_name(unit), *hot)));
      }
    }
    return {};
  }

  /// A value above the hottest air measured that its neighbors lead up to: no spike, but another unit.
  static std::optional<double> hotter_than_weather(const std::vector<double>& values, Unit unit) {
    constexpr double step_k = 20.0;  // a spike stands out further than one day or hour does from the next
    std::optional<double> before;
    bool led_up = true;  // to the run of hot values that is open; true where the column starts with it
    std::optional<double> hot;
    for (const double value : values) {
      if (std::isnan(value)) continue;
      const double celsius = to_temperature(value, unit).celsius();
      const bool near = !before || std::abs(celsius - *before) <= step_k;
      if (celsius > hottest_air_c) {
        if (!hot) led_up = near;
        if (!hot) hot = value;
      } else if (hot) {
        if (led_up && near) return hot;
        hot.reset();
      }
      before = celsius;
    }
    return hot && led_up ? hot : std::nullopt;
  }

  /// For a temperature message: rain that does not fit inches either.
  std::string heavy_rain() const {
    const auto column = data_.plan.find(Quantity::rain);
    if (!column || data_.plan.columns[*column].meaning.unit != Unit::inch) return {};
    const auto amounts = sorted_numbers(data_, {Quantity::rain});
    if (amounts.empty() || amounts.back() <= 5.0) return {};
    return fmt::format(" and rain reaches {:g} inches a day", amounts.back());
  }

  /// More than 5 inches on more than one day in twenty rains nowhere.
  Checked check_rain() {
    for (const auto& [column, cells] : data_.values) {
      const Quantity quantity = data_.plan.quantity(column);
      if (quantity != Quantity::rain || data_.plan.columns[column].meaning.unit != Unit::inch) continue;
      const auto heavy =
          std::count_if(cells.values.begin(), cells.values.end(), [](double value) { return value > 5.0; });
      if (heavy >= 2 && heavy * 20 > static_cast<std::ptrdiff_t>(cells.values.size())) {
        return fail(contradiction(
            column,
            fmt::format("rain in inches would be above 5 inches on {} of {} rows: millimeters are suspected",
                        heavy, cells.values.size())));
      }
    }
    return {};
  }

  SectionData& data_;
  ReadingNotes& notes_;
};

}  // namespace

double SectionData::number(std::size_t index, std::optional<std::size_t> column) const {
  if (!column) return std::nan("");
  const auto found = values.find(*column);
  return found == values.end() ? std::nan("") : found->second.values[index];
}

Checked settle_units(SectionData& data, const ReadingOptions& options, ReadingNotes& notes) {
  const auto wanted = wanted_units(options.units_in);
  if (!wanted) return fail(wanted.error());
  const auto asked = wanted_units(options.asked_in);
  if (!asked) return fail(asked.error());
  return UnitSettler{data, notes}.settle(*wanted, *asked);
}

}  // namespace soilclock::weather
