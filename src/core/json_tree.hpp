// SPDX-License-Identifier: MIT
// A JSON text as values: the library's, but for its long lists.
#pragma once

#include <functional>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "core/problem.hpp"

namespace soilclock {

/// A list of numbers and nulls, or one of texts. Years of hours are such lists, and a value of the library
/// for each item takes longer to make than its text to read.
struct PlainList {
  std::vector<double> numbers;    ///< not-a-number for null
  std::vector<bool> whole;        ///< the number was written as a whole one
  std::string texts;              ///< all texts, one behind the other
  std::vector<std::size_t> ends;  ///< of the texts

  bool of_texts() const { return !ends.empty(); }
  std::size_t size() const { return numbers.size() + ends.size(); }
  std::string_view text(std::size_t index) const {
    const std::size_t begin = index == 0 ? 0 : ends[index - 1];
    return std::string_view{texts}.substr(begin, ends[index] - begin);
  }
  nlohmann::json item(std::size_t index) const;
};

/// The values of a text. Where a long plain list stands, `root` holds the index of it in `lists` as binary
/// data, which no text can hold.
struct JsonTree {
  nlohmann::json root;
  std::vector<PlainList> lists;

  /// The plain list a value stands for; null for every other value.
  const PlainList* list(const nlohmann::json& value) const {
    return value.is_binary() ? &lists[value.get_binary().subtype()] : nullptr;
  }
  /// The value with its plain lists written out, for showing.
  nlohmann::json written_out(const nlohmann::json& value) const;
};

/// Reads a text; see read_json for what is refused. Throws JsonProblem.
JsonTree read_tree(std::string_view text, const std::string& file, Family family);

/// Takes an item of a list with its place in it, counted from 0.
using ItemSink = std::function<void(JsonTree item, std::size_t index)>;

/// The same, but where the text is a list, each of its items goes to `each` as soon as it is read and the
/// list itself comes back empty: a long one takes the room of one item.
JsonTree read_tree(std::string_view text, const std::string& file, Family family, const ItemSink& each);

}  // namespace soilclock
