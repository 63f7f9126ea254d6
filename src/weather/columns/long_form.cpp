// SPDX-License-Identifier: MIT
#include "weather/columns/long_form.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <vector>

#include "core/text.hpp"
#include "weather/columns/heading_meaning.hpp"

namespace soilclock::weather {

namespace {

/// A sign that stands in no cell.
constexpr char between = '\x1F';
constexpr std::size_t most_elements = 200;

bool is_listed(std::string_view word, std::initializer_list<std::string_view> list) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

bool names_values(std::string_view heading) {
  return is_listed(lowered(heading), {"value", "values", "data value", "datavalue", "data_value", "reading",
                                      "result", "amount", "measurement", "observation", "obs_value", "wert",
                                      "messwert", "valeur", "valor", "valore"});
}

bool names_units(std::string_view heading) {
  return is_listed(lowered(heading), {"unit", "units", "uom", "einheit", "unite", "unit\xC3\xA9", "unidad",
                                      "unidades", "unita", "unit\xC3\xA0", "unidade"});
}

class Widening {
 public:
  Widening(const Table& table, const TableSection& section) : table_{table}, section_{section} {}

  bool find_columns() {
    if (section_.names.empty() || section_.rows.empty()) return false;
    for (std::size_t column = 0; column < section_.names.size(); ++column) {
      const HeadingMeaning meaning = heading_meaning(section_.meanings[column], section_.legends[column]);
      // A temperature in the heading means that the table is of the usual kind.
      if (is_temperature(meaning.quantity) || is_temperature(meaning.unqualified)) return false;
      if (names_units(section_.names[column]))
        unit_ = column;
      else if (names_values(section_.names[column]) && holds_numbers(column))
        value_ = column;
      else if (is_time(meaning.quantity) || meaning.quantity == Quantity::station)
        keys_.push_back(column);
      else if (!element_ && holds_elements(column))
        element_ = column;
      else
        others_.push_back(column);
    }
    if (!element_) take_element_from_keys();
    if (!value_) take_only_numbers();
    return element_ && value_ && !keys_.empty();
  }

  std::unique_ptr<WideTable> widen(ReadingNotes& notes) {
    collect();
    std::string text = row_text(headings());
    std::vector<int> lines{table_.line(section_.heading_record)};
    lines.reserve(rows_.size() + 1);
    for (const Row& row : rows_) {
      text += row_text(row.cells);
      lines.push_back(row.line);
    }
    auto wide = std::make_unique<WideTable>(std::move(text), between);
    wide->table.number_lines(lines);
    wide->section.names = headings();
    wide->section.meanings = wide->section.names;
    wide->section.legends.resize(wide->section.names.size());
    wide->section.rows.reserve(rows_.size());
    for (std::size_t i = 1; i <= rows_.size(); ++i) wide->section.add_row(i);
    notes.doubt(fmt::format("one value a row: '{}' names it and '{}' holds it; columns are counted after the "
                            "rows of one moment are joined",
                            section_.names[*element_], section_.names[*value_]),
                table_.line(section_.heading_record));
    return wide;
  }

 private:
  struct Row {
    int line;
    std::vector<std::string> cells;
  };

  bool holds_numbers(std::size_t column) const {
    std::size_t numbers = 0;
    std::size_t filled = 0;
    for (const std::size_t row : section_.rows) {
      const std::string_view field = table_.field(row, column);
      if (field.empty()) continue;
      ++filled;
      numbers += starts_like_a_number(field) ? 1 : 0;
    }
    return filled > 0 && numbers * 2 > filled;
  }

  std::string element_name(std::size_t row) const {
    const std::string_view name = table_.field(row, *element_);
    const std::string_view unit = unit_ ? table_.field(row, *unit_) : std::string_view{};
    return unit.empty() ? std::string{name} : fmt::format("{} ({})", name, unit);
  }

  /// Few texts, at least one of them the name of a temperature.
  bool holds_elements(std::size_t column) const {
    std::map<std::string_view, bool> texts;
    for (const std::size_t row : section_.rows) {
      const std::string_view field = table_.field(row, column);
      if (field.empty() || texts.contains(field)) continue;
      texts.emplace(field, is_temperature(heading_meaning(field).quantity));
      if (texts.size() > most_elements) return false;
    }
    return std::any_of(texts.begin(), texts.end(), [](const auto& text) { return text.second; });
  }

  /// "name" and "id" may be those of stations or of elements.
  void take_element_from_keys() {
    const auto found = std::find_if(keys_.begin(), keys_.end(), [&](std::size_t column) {
      return heading_meaning(section_.meanings[column]).quantity == Quantity::station &&
             holds_elements(column);
    });
    if (found == keys_.end()) return;
    element_ = *found;
    keys_.erase(found);
  }

  void take_only_numbers() {
    for (const std::size_t column : others_) {
      if (!holds_numbers(column)) continue;
      if (value_) {
        value_.reset();
        return;
      }
      value_ = column;
    }
  }

  std::vector<std::string> headings() const {
    std::vector<std::string> names;
    names.reserve(keys_.size() + elements_.size());
    for (const std::size_t column : keys_) names.push_back(section_.names[column]);
    names.insert(names.end(), elements_.begin(), elements_.end());
    return names;
  }

  static std::string row_text(const std::vector<std::string>& cells) {
    return fmt::format("{}\n", fmt::join(cells, std::string(1, between)));
  }

  std::size_t position(const std::string& element) {
    const auto found = std::find(elements_.begin(), elements_.end(), element);
    const auto at = static_cast<std::size_t>(found - elements_.begin());
    if (found == elements_.end()) elements_.push_back(element);
    return keys_.size() + at;
  }

  void collect() {
    std::map<std::string, std::size_t> row_of_key;
    for (const std::size_t record : section_.rows) {
      const std::string name = element_name(record);
      if (name.empty()) continue;
      if (elements_.size() > most_elements) break;
      const std::size_t at = position(name);
      std::vector<std::string> cells;
      cells.reserve(at + 1);
      for (const std::size_t column : keys_) cells.emplace_back(table_.field(record, column));
      const std::string key = fmt::format("{}", fmt::join(cells, std::string(1, between)));
      const std::string value{table_.field(record, *value_)};
      const auto found = row_of_key.find(key);
      if (found != row_of_key.end() && put(rows_[found->second], at, value)) continue;
      row_of_key[key] = rows_.size();
      rows_.push_back({table_.line(record), std::move(cells)});
      put(rows_.back(), at, value);
    }
    for (Row& row : rows_) row.cells.resize(keys_.size() + elements_.size());
  }

  /// False where another value stands already.
  static bool put(Row& row, std::size_t at, const std::string& value) {
    if (row.cells.size() <= at) row.cells.resize(at + 1);
    if (!row.cells[at].empty() && row.cells[at] != value) return false;
    row.cells[at] = value;
    return true;
  }

  const Table& table_;
  const TableSection& section_;
  std::optional<std::size_t> element_;
  std::optional<std::size_t> value_;
  std::optional<std::size_t> unit_;
  std::vector<std::size_t> keys_;
  std::vector<std::size_t> others_;
  std::vector<std::string> elements_;
  std::vector<Row> rows_;
};

}  // namespace

std::unique_ptr<WideTable> widened(const Table& table, const TableSection& section, ReadingNotes& notes) {
  Widening widening{table, section};
  return widening.find_columns() ? widening.widen(notes) : nullptr;
}

}  // namespace soilclock::weather
