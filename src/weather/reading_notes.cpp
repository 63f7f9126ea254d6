// SPDX-License-Identifier: MIT
#include "weather/reading_notes.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "weather/unit_evidence.hpp"

namespace soilclock::weather {

namespace {
constexpr int shown_of_a_kind = 10;
}

void ReadingNotes::doubt(std::string text, std::optional<int> line, std::optional<int> column) {
  doubts_.push_back({line, column, std::move(text)});
}

void ReadingNotes::repeated(const std::string& kind, std::string text, std::optional<int> line,
                            std::optional<int> column) {
  if (++counts_[kind] <= shown_of_a_kind) doubt(std::move(text), line, column);
}

void ReadingNotes::asked(UnitQuestion question) {
  if (unit_questions_ != nullptr) unit_questions_->push_back(std::move(question));
}

Problem ReadingNotes::problem(std::string what, std::optional<int> line, std::optional<int> column,
                              std::string found, std::string expected, std::string remedy) const {
  return {Family::data,     std::move(what),     {file_, line, column, {}},
          std::move(found), std::move(expected), std::move(remedy)};
}

std::vector<Doubt> ReadingNotes::finished() const {
  std::vector<Doubt> all = doubts_;
  for (const auto& [kind, count] : counts_) {
    if (count > shown_of_a_kind) {
      all.push_back(
          {{}, {}, fmt::format("{} {} in all; the first {} are shown", count, kind, shown_of_a_kind)});
    }
  }
  // What concerns the whole file first, then in the order of its lines.
  std::stable_sort(all.begin(), all.end(), [](const Doubt& a, const Doubt& b) { return a.line < b.line; });
  return all;
}

std::string shortened_list(const std::vector<std::string>& items, std::size_t shown) {
  if (items.size() <= shown) return listed(items);
  std::vector<std::string> first(items.begin(), items.begin() + static_cast<std::ptrdiff_t>(shown));
  return fmt::format("{} ... ({} in all)", listed(first), items.size());
}

}  // namespace soilclock::weather
