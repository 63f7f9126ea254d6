// SPDX-License-Identifier: MIT
#include "records/entry_line.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/number_text.hpp"
#include "records/entries/field.hpp"

namespace soilclock::records {

namespace {

/// A kept value in the unit it was noted in; Celsius with Fahrenheit beside it, since entries made before
/// units were noted are all in Celsius.
std::string measure_words(double stored, Quantity quantity, std::string_view noted_unit) {
  const auto with_unit = [](double value, std::string_view unit) {
    return fmt::format("{}{}{}", value, unit == "%" ? "" : " ", unit);
  };
  if (const auto noted = in_unit(stored, quantity, noted_unit)) return with_unit(*noted, noted_unit);
  const std::string text =
      fmt::format("{}{}{}", stored, quantity == Quantity::percent ? "" : " ", stored_unit(quantity));
  if (quantity != Quantity::temperature) return text;
  return fmt::format("{} ({} F)", text, number_text(Temperature::from_celsius(stored).fahrenheit(), 1));
}

std::string shown(const Field& field, const Record& record) {
  const Cell cell = field.read(record);
  if (field.quantity) {
    const NotedUnits& units = units_of(record);
    const auto unit = units.find(field.name);
    return field.name + " " +
           measure_words(std::get<double>(cell), *field.quantity, unit == units.end() ? "" : unit->second);
  }
  std::string text = cell_text(cell);
  if (field.is_list) std::replace(text.begin(), text.end(), ';', ',');  // ';' stands between the fields
  return fmt::format("{} {}", field.name, text);
}

}  // namespace

std::string one_line(const Entry& entry) {
  constexpr std::size_t shown_apart = 2;  // site and date stand in front
  const RecordKind kind = kind_of(entry.record);
  const std::vector<Field>& fields = fields_of(kind);
  std::vector<std::string> parts;
  for (std::size_t i = shown_apart; i < fields.size(); ++i) {
    const bool noted = !std::holds_alternative<std::monostate>(fields[i].read(entry.record));
    if (noted) parts.push_back(shown(fields[i], entry.record));
  }
  std::string line = fmt::format("{}  {}  {}  {}  {}", entry.id, iso(date_of(entry.record)),
                                 site_of(entry.record), name(kind), fmt::join(parts, "; "));
  std::replace_if(
      line.begin(), line.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
  return line;
}

}  // namespace soilclock::records
