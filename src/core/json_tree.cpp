// SPDX-License-Identifier: MIT
#include "core/json_tree.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <utility>

#include "core/json_reader.hpp"

namespace soilclock {

using Json = nlohmann::json;

namespace {

/// Deeper than anything read here, and shallow enough for walking through a value by recursion.
constexpr std::size_t deepest_nesting = 100;

/// Builds the values of a text as the library reads them. The library's own builder lets the last of two
/// equal keys win without a word, and people who wrote both want to know; asking it about every value takes a
/// third longer.
class StrictBuilder final : public nlohmann::json_sax<Json> {
 public:
  StrictBuilder(const std::string& file, Family family, const ItemSink& each)
      : file_{file}, family_{family}, each_{each} {}
  JsonTree take() { return std::move(tree_); }

  bool null() override { return add_number(std::nan(""), false, nullptr); }
  bool boolean(bool value) override { return add(value); }
  bool number_integer(Json::number_integer_t value) override {
    return value >= -most_exact ? add_number(static_cast<double>(value), true, value) : add(value);
  }
  bool number_unsigned(Json::number_unsigned_t value) override {
    return value <= most_exact ? add_number(static_cast<double>(value), true, value) : add(value);
  }
  bool number_float(Json::number_float_t value, const std::string&) override {
    return add_number(value, false, value);
  }
  bool string(std::string& value) override {
    if (!plain_ || !list_.numbers.empty()) return add(value);  // a copy leaves the library its buffer
    check_depth();
    list_.texts += value;
    list_.ends.push_back(list_.texts.size());
    return true;
  }
  bool binary(Json::binary_t&) override { return false; }  // no text holds any
  bool start_object(std::size_t) override {
    open(Json::object());
    return true;
  }
  bool start_array(std::size_t) override {
    open(Json::array());
    plain_ = !in_handed_list();
    return true;
  }
  bool end_object() override {
    open_.pop_back();
    hand_over();
    return true;
  }
  bool end_array() override {
    constexpr std::size_t long_list = 64;
    if (list_.size() >= long_list && plain_) {
      *open_.back() = Json::binary({}, tree_.lists.size());
      tree_.lists.push_back(std::exchange(list_, {}));
    }
    write_out();
    open_.pop_back();
    hand_over();
    return true;
  }

  bool key(std::string& name) override {
    check_depth();
    const auto [at, fresh] = open_.back()->get_ref<Json::object_t&>().try_emplace(name, nullptr);
    if (!fresh) refuse("this key stands twice in one object", name, "remove one of the two");
    value_of_key_ = &at->second;
    return true;
  }

  bool parse_error(std::size_t at, const std::string&, const nlohmann::detail::exception& found) override {
    const bool too_large = dynamic_cast<const Json::out_of_range*>(&found) != nullptr;
    (too_large ? number_too_large_ : error_) = at;
    return false;
  }
  /// The byte, counted from 1, up to which the text was read when it proved to be no JSON.
  std::optional<std::size_t> error() const { return error_; }
  bool number_too_large() const { return number_too_large_.has_value(); }

 private:
  static constexpr std::int64_t most_exact = std::int64_t{1} << 53;  // of whole numbers as double

  template <class Value>
  bool add_number(double number, bool whole, const Value& value) {
    if (!plain_ || list_.of_texts()) return add(value);
    check_depth();
    list_.numbers.push_back(number);
    list_.whole.push_back(whole);
    return true;
  }
  template <class Value>
  bool add(const Value& value) {
    place(Json(value));
    hand_over();
    return true;
  }
  /// The innermost open value is a list at the top whose items are handed over.
  bool in_handed_list() const { return each_ && open_.size() == 1 && tree_.root.is_array(); }
  void hand_over() {
    if (!in_handed_list() || tree_.root.empty()) return;
    each_({std::move(tree_.root.front()), std::exchange(tree_.lists, {})}, handed_++);
    tree_.root.clear();
  }
  void open(Json container) { open_.push_back(&place(std::move(container))); }
  Json& place(Json value) {
    check_depth();
    write_out();
    if (open_.empty()) return tree_.root = std::move(value);
    if (open_.back()->is_object()) return *value_of_key_ = std::move(value);
    return open_.back()->emplace_back(std::move(value));
  }
  /// The innermost list is short or not plain after all: what was read of it becomes values like any other.
  void write_out() {
    for (std::size_t i = 0; plain_ && i < list_.size(); ++i) open_.back()->push_back(list_.item(i));
    plain_ = false;
    list_.numbers.clear();
    list_.whole.clear();
    list_.texts.clear();
    list_.ends.clear();
  }
  void check_depth() const {
    if (open_.size() <= deepest_nesting) return;
    refuse(fmt::format("lists and objects stand more than {} deep", deepest_nesting), {}, {});
  }
  [[noreturn]] void refuse(std::string what, std::string found, std::string remedy) const {
    throw JsonProblem{
        Problem{family_, std::move(what), {file_, {}, {}, {}}, std::move(found), {}, std::move(remedy)}};
  }

  const std::string& file_;
  Family family_;
  const ItemSink& each_;
  std::size_t handed_ = 0;
  JsonTree tree_;
  std::vector<Json*> open_;       // each stays where it is while it is open
  Json* value_of_key_ = nullptr;  // where the value of the key read last belongs
  bool plain_ = false;            // the innermost open value is a list, and `list_` holds all of it so far
  PlainList list_;
  std::optional<std::size_t> error_;
  std::optional<std::size_t> number_too_large_;
};

/// How many characters of a text that is no JSON are shown from the place of the mistake on. A text without a
/// key before it may be a private file named by mistake, so only one character is shown.
std::size_t shown_after(std::string_view before) {
  return before.find("\":") != std::string_view::npos || before.find("\" :") != std::string_view::npos ? 20
                                                                                                       : 1;
}

/// What is said of a text that proved to be no JSON at a byte, counted from 1.
Problem not_json(std::string_view text, std::size_t byte, const std::string& file, Family family) {
  const std::size_t at = std::min(byte == 0 ? 0 : byte - 1, text.size());
  const std::string_view before = text.substr(0, at);
  const auto line = std::count(before.begin(), before.end(), '\n') + 1;
  const std::size_t line_start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
  return {family,
          "this is not valid JSON",
          {file, static_cast<int>(line), static_cast<int>(at - line_start) + 1, {}},
          std::string{text.substr(at, shown_after(before))},
          {},
          "check the commas, quotes and brackets just before this place"};
}

}  // namespace

Json PlainList::item(std::size_t index) const {
  if (of_texts()) return text(index);
  const double number = numbers[index];
  if (std::isnan(number)) return nullptr;
  return whole[index] ? Json(static_cast<std::int64_t>(number)) : Json(number);
}

Json JsonTree::written_out(const Json& value) const {
  Json result = value;
  if (const PlainList* plain = list(value)) {
    result = Json::array();
    for (std::size_t i = 0; i < plain->size(); ++i) result.push_back(plain->item(i));
  } else if (value.is_structured()) {
    for (auto& item : result.items()) item.value() = written_out(item.value());
  }
  return result;
}

JsonTree read_tree(std::string_view text, const std::string& file, Family family) {
  return read_tree(text, file, family, {});
}

JsonTree read_tree(std::string_view text, const std::string& file, Family family, const ItemSink& each) {
  StrictBuilder builder{file, family, each};
  Json::sax_parse(text, &builder);
  if (builder.number_too_large()) {
    throw JsonProblem{Problem{family,
                              "a number is too large for any computer number",
                              {file, {}, {}, {}},
                              {},
                              "numbers up to about 1e308",
                              {}}};
  }
  if (builder.error()) throw JsonProblem{not_json(text, *builder.error(), file, family)};
  return builder.take();
}

}  // namespace soilclock
