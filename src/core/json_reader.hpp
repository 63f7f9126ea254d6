// SPDX-License-Identifier: MIT
// Strict reading of JSON that people write (model files, site files, settings): every problem names its
// place, and a key nobody asked for is a problem too, since a misspelled optional key would otherwise be lost
// without a word.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/problem.hpp"

namespace soilclock {

/// Thrown inside a reader function, caught by read_json; never leaves this floor's callers.
struct JsonProblem {
  Problem problem;
};

/// A key that people write where it does not belong, with what to say to that.
struct StrayKey {
  std::string_view key;
  std::string_view what;
  std::string_view remedy;
};

/// A JSON object being read; remembers which keys were asked for.
class JsonObject {
 public:
  class Impl;
  explicit JsonObject(std::shared_ptr<const Impl> impl);

  bool has(std::string_view key) const;

  /// Required values; a missing key or a wrong type is a problem at the key's place.
  std::string text(std::string_view key) const;
  double number(std::string_view key) const;
  /// A number within [least, most].
  double number(std::string_view key, double least, double most) const;
  int integer(std::string_view key, int least, int most) const;
  bool boolean(std::string_view key) const;
  JsonObject object(std::string_view key) const;
  std::vector<JsonObject> objects(std::string_view key) const;
  std::vector<std::string> texts(std::string_view key) const;
  /// The same without copies, for long lists; valid as long as any object of the same text.
  std::vector<std::string_view> text_views(std::string_view key) const;
  std::vector<double> numbers(std::string_view key) const;
  /// A list of numbers with holes: null gives not-a-number.
  std::vector<double> numbers_or_null(std::string_view key) const;
  /// All numbers of a list of lists in the order they stand in: the coordinates of a shape on a map.
  std::vector<double> nested_numbers(std::string_view key) const;
  /// One of the words offered; the problem lists them.
  std::string choice(std::string_view key, const std::vector<std::string>& offered) const;
  /// The keys of this object whose names are free (a map); marks them all as asked for.
  std::vector<std::string> keys() const;

  /// As above when the key is there (null counts as absent).
  std::optional<std::string> optional_text(std::string_view key) const;
  std::optional<double> optional_number(std::string_view key) const;
  std::optional<double> optional_number(std::string_view key, double least, double most) const;
  std::optional<bool> optional_boolean(std::string_view key) const;
  std::optional<JsonObject> optional_object(std::string_view key) const;
  std::vector<JsonObject> optional_objects(std::string_view key) const;
  std::vector<std::string> optional_texts(std::string_view key) const;

  /// What kind of value a key holds: "absent", "null", "boolean", "number", "string", "array" or "object".
  std::string kind(std::string_view key) const;
  /// The same of the first item of a list; "absent" where there is no list or no item.
  std::string kind_of_items(std::string_view key) const;

  /// Refuses keys that no call above asked for, with a suggestion, or with the words of `strays` where it is
  /// one of those. Call it last on every object.
  void finish(std::span<const StrayKey> strays = {}) const;

  /// Stops reading with a problem at a key of this object (or at the object itself when key is empty).
  [[noreturn]] void refuse(std::string_view key, std::string what, std::string expected = {},
                           std::string remedy = {}) const;

  /// The JSON pointer of this object.
  std::string place() const;

 private:
  std::shared_ptr<const Impl> impl_;
};

/// Parses text and hands its top object (or, for an array, an object with the single key "items") to `read`.
/// Syntax errors carry line and column; lists and objects more than 100 deep are refused. Everything is of
/// the given family.
template <class Read>
auto read_json(std::string_view text, const std::string& file, Family family, Read&& read)
    -> Result<decltype(read(std::declval<const JsonObject&>()))>;

/// Parses text; see read_json. Throws JsonProblem.
JsonObject parse_json(std::string_view text, const std::string& file, Family family);

/// Parses a text that holds a list of objects, or one object, and hands them to `read` one after another:
/// each takes room only until the next is read. What is wrong with the text, and an item that is no object,
/// come before what `read` refuses, wherever they stand; nothing is read after its first refusal.
Checked read_json_objects(std::string_view text, const std::string& file, Family family,
                          const std::function<void(const JsonObject&)>& read);

template <class Read>
auto read_json(std::string_view text, const std::string& file, Family family, Read&& read)
    -> Result<decltype(read(std::declval<const JsonObject&>()))> {
  try {
    return read(parse_json(text, file, family));
  } catch (const JsonProblem& found) {
    return fail(found.problem);
  }
}

}  // namespace soilclock
