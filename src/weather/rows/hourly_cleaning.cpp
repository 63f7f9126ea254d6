// SPDX-License-Identifier: MIT
#include "weather/rows/hourly_cleaning.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/unit_words.hpp"
#include "weather/checks.hpp"
#include "weather/columns/unit_conversion.hpp"

namespace soilclock::weather {

namespace {

constexpr double spike_k = 20.0;
constexpr long long neighbor_minutes = 180;
constexpr double outage_jump_k = 10.0;
constexpr long long stuck_minutes = 12 * 60;
const double unusable = std::nan("");

class Cleaning {
 public:
  Cleaning(const SectionData& data, const RowList& rows, std::size_t column, ReadingNotes& notes)
      : data_{data}, rows_{rows}, column_{column}, notes_{notes}, raw_{data.values.at(column).values} {}

  std::vector<double> clean() {
    const Unit unit = data_.plan.columns[column_].meaning.unit;
    celsius_.reserve(rows_.size());
    for (const std::size_t row : rows_) {
      celsius_.push_back(std::isnan(raw_[row]) ? unusable : to_temperature(raw_[row], unit).celsius());
    }
    remove_outages();
    remove_impossible();
    flag_stuck();
    return std::move(celsius_);
  }

 private:
  long long instant(std::size_t i) const { return data_.rows.moments[rows_[i]].instant; }
  int line(std::size_t i) const { return data_.line(rows_[i]); }
  std::string words(double celsius) const {
    return temperature_words(Temperature::from_celsius(celsius), notes_.us_units());
  }
  int shown_column() const { return static_cast<int>(column_) + 1; }

  bool jump(std::size_t a, std::size_t b) const {
    return !std::isnan(celsius_[a]) && !std::isnan(celsius_[b]) &&
           std::abs(celsius_[a] - celsius_[b]) > outage_jump_k;
  }

  void remove_outages() {
    const auto humidity = data_.plan.find(Quantity::humidity);
    const std::vector<double>* damp = humidity ? &data_.values.at(*humidity).values : nullptr;
    for (std::size_t i = 0; i < rows_.size();) {
      if (raw_[rows_[i]] != 0.0) {
        ++i;
        continue;
      }
      std::size_t end = i;
      bool dry = damp != nullptr;
      while (end < rows_.size() && raw_[rows_[end]] == 0.0) {
        dry = dry && (*damp)[rows_[end]] == 0.0;
        ++end;
      }
      const bool torn = (i > 0 && jump(i - 1, i)) || (end < rows_.size() && jump(end - 1, end));
      if (dry || (end - i >= 3 && torn)) {
        notes_.repeated(
            "outages written as zeros",
            fmt::format(
                "{} readings of exactly 0{} (lines {} to {}) look like a power failure; taken as missing",
                end - i, dry ? " together with 0% humidity" : " between much warmer ones", line(i),
                line(end - 1)),
            line(i), shown_column());
        for (std::size_t k = i; k < end; ++k) celsius_[k] = unusable;
      }
      i = end;
    }
  }

  void remove_impossible() {
    std::size_t before = rows_.size();  // index of the last accepted reading
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      const double value = celsius_[i];
      if (std::isnan(value)) continue;
      if (!plausible(Temperature::from_celsius(value))) {
        drop(i, words(value) + " is not weather; taken as missing");
        continue;
      }
      if (before < i && is_spike(before, i)) {
        drop(i, fmt::format("{} is more than {} away from the readings before and after it; taken as missing",
                            words(value),
                            degrees_apart_words(TemperatureDelta::from_kelvin(spike_k), notes_.us_units())));
        continue;
      }
      before = i;
    }
  }

  bool is_spike(std::size_t before, std::size_t i) const {
    if (instant(i) - instant(before) > neighbor_minutes) return false;
    const double up = celsius_[i] - celsius_[before];
    if (std::abs(up) <= spike_k) return false;
    for (std::size_t next = i + 1; next < rows_.size() && instant(next) - instant(i) <= neighbor_minutes;
         ++next) {
      if (std::isnan(celsius_[next]) || !plausible(Temperature::from_celsius(celsius_[next]))) continue;
      const double down = celsius_[i] - celsius_[next];
      return (up > spike_k && down > spike_k) || (up < -spike_k && down < -spike_k);
    }
    return false;
  }

  void drop(std::size_t i, std::string text) {
    notes_.repeated("impossible readings", std::move(text), line(i), shown_column());
    celsius_[i] = unusable;
  }

  void flag_stuck() {
    for (std::size_t i = 0; i < rows_.size();) {
      std::size_t end = i + 1;
      while (end < rows_.size() && celsius_[end] == celsius_[i]) ++end;
      if (end - i >= 10 && instant(end - 1) - instant(i) >= stuck_minutes) {
        notes_.repeated(
            "runs of equal readings",
            fmt::format("{} equal readings of {} (lines {} to {}): the sensor may be stuck; they are kept",
                        end - i, words(celsius_[i]), line(i), line(end - 1)),
            line(i), shown_column());
      }
      i = end;
    }
  }

  const SectionData& data_;
  const RowList& rows_;
  std::size_t column_;
  ReadingNotes& notes_;
  const std::vector<double>& raw_;
  std::vector<double> celsius_;
};

}  // namespace

std::vector<double> clean_temperatures(const SectionData& data, const RowList& rows, std::size_t column,
                                       ReadingNotes& notes) {
  return Cleaning{data, rows, column, notes}.clean();
}

}  // namespace soilclock::weather
