// SPDX-License-Identifier: MIT
// One value a day without gaps in the index: a day without data is there, with quality "missing".
#pragma once

#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "core/dates.hpp"
#include "core/quality.hpp"

namespace soilclock {

/// Daily values of one quantity over a contiguous range of days. Value must offer Value::unknown().
template <class Value>
class DailySeries {
 public:
  DailySeries() = default;
  /// All days of the range, all missing.
  explicit DailySeries(DayRange days)
      : first_{days.begin()},
        values_(static_cast<std::size_t>(days.size()), Value::unknown()),
        qualities_(static_cast<std::size_t>(days.size()), Quality::missing) {}

  /// Days from `first` on with their qualities, of one length; a missing day must hold Value::unknown().
  DailySeries(Day first, std::vector<Value> values, std::vector<Quality> qualities)
      : first_{first}, values_{std::move(values)}, qualities_{std::move(qualities)} {}

  bool empty() const { return values_.empty(); }
  int size() const { return static_cast<int>(values_.size()); }
  DayRange days() const { return {first_, first_ + Days{size()}}; }
  Day first() const { return first_; }
  /// The last day of the index; only for a series that is not empty.
  Day last() const { return first_ + Days{size() - 1}; }

  /// The value of a day, or nothing when it is missing or outside the range.
  std::optional<Value> at(Day day) const {
    if (quality(day) == Quality::missing) return std::nullopt;
    return values_[index(day)];
  }
  /// Missing for every day outside the range.
  Quality quality(Day day) const { return days().contains(day) ? qualities_[index(day)] : Quality::missing; }

  /// Sets a day; the range grows to hold it and the days between become missing.
  void set(Day day, Value value, Quality quality) {
    reach(day);
    values_[index(day)] = value;
    qualities_[index(day)] = quality;
  }
  /// Takes a day's value away again.
  void clear(Day day) {
    if (!days().contains(day)) return;
    values_[index(day)] = Value::unknown();
    qualities_[index(day)] = Quality::missing;
  }

  /// The part within a range, cut or padded with missing days to be exactly that range.
  DailySeries slice(DayRange range) const {
    DailySeries part{range};
    for (Day day = range.begin(); day < range.end(); day += Days{1}) {
      if (const auto value = at(day)) part.set(day, *value, quality(day));
    }
    return part;
  }

  int count_missing() const {
    int count = 0;
    for (const Quality quality : qualities_) count += quality == Quality::missing ? 1 : 0;
    return count;
  }

  /// Raw storage for tight loops; a missing day holds Value::unknown().
  std::span<const Value> values() const { return values_; }
  std::span<const Quality> qualities() const { return qualities_; }

 private:
  std::size_t index(Day day) const { return static_cast<std::size_t>((day - first_).count()); }

  void reach(Day day) {
    if (values_.empty()) first_ = day;
    if (day == first_ + Days{size()}) {  // nearly always
      values_.push_back(Value::unknown());
      qualities_.push_back(Quality::missing);
      return;
    }
    if (day < first_) {
      const auto more = static_cast<std::size_t>((first_ - day).count());
      values_.insert(values_.begin(), more, Value::unknown());
      qualities_.insert(qualities_.begin(), more, Quality::missing);
      first_ = day;
    }
    if (day >= first_ + Days{size()}) {
      const auto wanted = static_cast<std::size_t>((day - first_).count()) + 1;
      values_.resize(wanted, Value::unknown());
      qualities_.resize(wanted, Quality::missing);
    }
  }

  Day first_{};
  std::vector<Value> values_;
  std::vector<Quality> qualities_;
};

}  // namespace soilclock
