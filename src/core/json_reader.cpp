// SPDX-License-Identifier: MIT
#include "core/json_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "core/text.hpp"

namespace soilclock {

using Json = nlohmann::json;

class JsonObject::Impl {
 public:
  Impl(std::shared_ptr<const Json> root, const Json& node, std::string pointer, std::string file,
       Family family)
      : root_{std::move(root)},
        node_{node},
        pointer_{std::move(pointer)},
        file_{std::move(file)},
        family_{family} {}

  [[noreturn]] void refuse(std::string_view key, std::string what, std::string found, std::string expected,
                           std::string remedy) const {
    throw JsonProblem{Problem{family_,
                              std::move(what),
                              {file_, {}, {}, pointer_of(key)},
                              std::move(found),
                              std::move(expected),
                              std::move(remedy)}};
  }

  std::string pointer_of(std::string_view key) const {
    if (key.empty()) return pointer_.empty() ? "/" : pointer_;
    return pointer_ + "/" + std::string{key};
  }

  const Json* find(std::string_view key) const {
    asked_.insert(std::string{key});
    const auto it = node_.find(std::string{key});
    return it == node_.end() ? nullptr : &*it;
  }

  const Json& need(std::string_view key, std::string_view type) const {
    const Json* value = find(key);
    if (value == nullptr) refuse(key, "this key is missing", {}, std::string{type}, {});
    return *value;
  }

  [[noreturn]] void wrong_type(std::string_view key, const Json& value, std::string_view expected) const {
    refuse(key, "this value has the wrong type", value.dump(-1, ' ', false, Json::error_handler_t::replace),
           std::string{expected}, {});
  }

  JsonObject child(const Json& node, std::string pointer) const {
    return JsonObject{std::make_shared<const Impl>(root_, node, std::move(pointer), file_, family_)};
  }

  std::shared_ptr<const Json> root_;
  const Json& node_;
  std::string pointer_;
  std::string file_;
  Family family_;
  mutable std::set<std::string> asked_;
};

JsonObject::JsonObject(std::shared_ptr<const Impl> impl) : impl_{std::move(impl)} {}

bool JsonObject::has(std::string_view key) const {
  const Json* value = impl_->find(key);
  return value != nullptr && !value->is_null();
}

std::string JsonObject::text(std::string_view key) const {
  const Json& value = impl_->need(key, "text");
  if (!value.is_string()) impl_->wrong_type(key, value, "text in quotes");
  return value.get<std::string>();
}

double JsonObject::number(std::string_view key) const {
  const Json& value = impl_->need(key, "a number");
  if (!value.is_number()) impl_->wrong_type(key, value, "a number");
  return value.get<double>();
}

double JsonObject::number(std::string_view key, double least, double most) const {
  const double value = number(key);
  if (value < least || value > most) {
    impl_->refuse(key, "this number is out of range", fmt::format("{}", value),
                  fmt::format("{} to {}", least, most), {});
  }
  return value;
}

int JsonObject::integer(std::string_view key, int least, int most) const {
  const double value = number(key, least, most);
  if (value != std::floor(value))
    impl_->refuse(key, "this must be a whole number", fmt::format("{}", value), {}, {});
  return static_cast<int>(value);
}

bool JsonObject::boolean(std::string_view key) const {
  const Json& value = impl_->need(key, "true or false");
  if (!value.is_boolean()) impl_->wrong_type(key, value, "true or false");
  return value.get<bool>();
}

JsonObject JsonObject::object(std::string_view key) const {
  const Json& value = impl_->need(key, "an object");
  if (!value.is_object()) impl_->wrong_type(key, value, "an object {...}");
  return impl_->child(value, impl_->pointer_of(key));
}

std::vector<JsonObject> JsonObject::objects(std::string_view key) const {
  const Json& value = impl_->need(key, "a list of objects");
  if (!value.is_array()) impl_->wrong_type(key, value, "a list [...] of objects");
  std::vector<JsonObject> result;
  for (std::size_t i = 0; i < value.size(); ++i) {
    const std::string place = fmt::format("{}/{}", key, i);
    if (!value[i].is_object()) impl_->wrong_type(place, value[i], "an object {...}");
    result.push_back(impl_->child(value[i], impl_->pointer_of(place)));
  }
  return result;
}

std::vector<std::string> JsonObject::texts(std::string_view key) const {
  const std::vector<std::string_view> views = text_views(key);
  return {views.begin(), views.end()};
}

std::vector<std::string_view> JsonObject::text_views(std::string_view key) const {
  const Json& value = impl_->need(key, "a list of texts");
  if (!value.is_array()) impl_->wrong_type(key, value, "a list [...] of texts");
  std::vector<std::string_view> result;
  result.reserve(value.size());
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (!value[i].is_string()) impl_->wrong_type(fmt::format("{}/{}", key, i), value[i], "text in quotes");
    result.emplace_back(value[i].get_ref<const std::string&>());
  }
  return result;
}

std::vector<double> JsonObject::numbers(std::string_view key) const {
  const Json& value = impl_->need(key, "a list of numbers");
  if (!value.is_array()) impl_->wrong_type(key, value, "a list [...] of numbers");
  std::vector<double> result;
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (!value[i].is_number()) impl_->wrong_type(fmt::format("{}/{}", key, i), value[i], "a number");
    result.push_back(value[i].get<double>());
  }
  return result;
}

std::vector<double> JsonObject::numbers_or_null(std::string_view key) const {
  const Json& value = impl_->need(key, "a list of numbers");
  if (!value.is_array()) impl_->wrong_type(key, value, "a list [...] of numbers");
  std::vector<double> result;
  result.reserve(value.size());
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (!value[i].is_number() && !value[i].is_null())
      impl_->wrong_type(fmt::format("{}/{}", key, i), value[i], "a number or null");
    result.push_back(value[i].is_null() ? std::nan("") : value[i].get<double>());
  }
  return result;
}

std::vector<double> JsonObject::nested_numbers(std::string_view key) const {
  const Json& value = impl_->need(key, "a list of numbers");
  std::vector<double> result;
  const auto add = [&](const Json& node, const auto& again) -> void {
    if (node.is_number()) {
      result.push_back(node.get<double>());
    } else if (node.is_array()) {
      for (const Json& part : node) again(part, again);
    } else {
      impl_->wrong_type(key, value, "lists [...] of numbers");
    }
  };
  add(value, add);
  return result;
}

std::string JsonObject::choice(std::string_view key, const std::vector<std::string>& offered) const {
  const std::string value = text(key);
  if (std::find(offered.begin(), offered.end(), value) != offered.end()) return value;
  const auto near = nearest(value, offered);
  impl_->refuse(key, "this word is not known here", value, "one of " + listed(offered),
                near ? "did you mean '" + *near + "'?" : "");
}

std::vector<std::string> JsonObject::keys() const {
  std::vector<std::string> result;
  for (const auto& item : impl_->node_.items()) {
    impl_->asked_.insert(item.key());
    result.push_back(item.key());
  }
  return result;
}

std::optional<std::string> JsonObject::optional_text(std::string_view key) const {
  return has(key) ? std::optional{text(key)} : std::nullopt;
}
std::optional<double> JsonObject::optional_number(std::string_view key) const {
  return has(key) ? std::optional{number(key)} : std::nullopt;
}
std::optional<double> JsonObject::optional_number(std::string_view key, double least, double most) const {
  return has(key) ? std::optional{number(key, least, most)} : std::nullopt;
}
std::optional<bool> JsonObject::optional_boolean(std::string_view key) const {
  return has(key) ? std::optional{boolean(key)} : std::nullopt;
}
std::optional<JsonObject> JsonObject::optional_object(std::string_view key) const {
  return has(key) ? std::optional{object(key)} : std::nullopt;
}
std::vector<JsonObject> JsonObject::optional_objects(std::string_view key) const {
  return has(key) ? objects(key) : std::vector<JsonObject>{};
}
std::vector<std::string> JsonObject::optional_texts(std::string_view key) const {
  return has(key) ? texts(key) : std::vector<std::string>{};
}

std::string JsonObject::kind(std::string_view key) const {
  const Json* value = impl_->find(key);
  if (value == nullptr) return "absent";
  return value->type_name();
}

std::string JsonObject::kind_of_items(std::string_view key) const {
  const Json* value = impl_->find(key);
  if (value == nullptr || !value->is_array() || value->empty()) return "absent";
  return value->front().type_name();
}

void JsonObject::finish(std::span<const StrayKey> strays) const {
  for (const auto& item : impl_->node_.items()) {
    if (impl_->asked_.contains(item.key())) continue;
    for (const StrayKey& stray : strays) {
      if (stray.key == item.key())
        impl_->refuse(item.key(), std::string{stray.what}, {}, {}, std::string{stray.remedy});
    }
    const std::vector<std::string> known{impl_->asked_.begin(), impl_->asked_.end()};
    const auto near = nearest(item.key(), known);
    impl_->refuse(item.key(), "this key is not known here", {}, "one of " + listed(known),
                  near ? "did you mean '" + *near + "'?" : "remove it or correct its name");
  }
}

void JsonObject::refuse(std::string_view key, std::string what, std::string expected,
                        std::string remedy) const {
  std::string found;
  if (!key.empty()) {
    if (const Json* value = impl_->find(key))
      found = value->dump(-1, ' ', false, Json::error_handler_t::replace);
  }
  impl_->refuse(key, std::move(what), std::move(found), std::move(expected), std::move(remedy));
}

std::string JsonObject::place() const { return impl_->pointer_of(""); }

namespace {

/// Deeper than anything read here, and shallow enough for walking through a value by recursion.
constexpr std::size_t deepest_nesting = 100;

/// Builds the values of a text as the library reads them. The library's own builder lets the last of two
/// equal keys win without a word, and people who wrote both want to know; asking it about every value takes a
/// third longer.
class StrictBuilder final : public nlohmann::json_sax<Json> {
 public:
  StrictBuilder(const std::string& file, Family family) : file_{file}, family_{family} {}
  Json take() { return std::move(root_); }

  bool null() override { return add(nullptr); }
  bool boolean(bool value) override { return add(value); }
  bool number_integer(Json::number_integer_t value) override { return add(value); }
  bool number_unsigned(Json::number_unsigned_t value) override { return add(value); }
  bool number_float(Json::number_float_t value, const std::string&) override { return add(value); }
  bool string(std::string& value) override { return add(value); }  // a copy leaves the library its buffer
  bool binary(Json::binary_t&) override { return false; }          // no text holds any
  bool start_object(std::size_t) override { return open(Json::object_t{}); }
  bool start_array(std::size_t) override { return open(Json::array_t{}); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

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
  template <class Value>
  bool add(const Value& value) {
    place(value);
    return true;
  }
  template <class Container>
  bool open(Container empty) {
    Json& opened = place(std::move(empty));
    open_.push_back(&opened);
    list_ = opened.get_ptr<Json::array_t*>();
    return true;
  }
  bool close() {
    open_.pop_back();
    list_ = open_.empty() ? nullptr : open_.back()->get_ptr<Json::array_t*>();
    return true;
  }
  template <class Value>
  Json& place(Value&& value) {
    check_depth();
    if (list_ != nullptr) return list_->emplace_back(std::forward<Value>(value));
    return (open_.empty() ? root_ : *value_of_key_) = Json(std::forward<Value>(value));
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
  Json root_;
  std::vector<Json*> open_;        // each stays where it is while it is open
  Json::array_t* list_ = nullptr;  // the innermost, where it is a list
  Json* value_of_key_ = nullptr;   // where the value of the key read last belongs
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

JsonObject parse_json(std::string_view text, const std::string& file, Family family) {
  StrictBuilder builder{file, family};
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
  auto root = std::make_shared<Json>(builder.take());
  if (root->is_array()) {
    Json wrapped = Json::object();
    wrapped["items"] = std::move(*root);
    *root = std::move(wrapped);
  }
  if (!root->is_object()) {
    throw JsonProblem{Problem{
        family, "the file does not hold a JSON object or list", {file, 1, 1, {}}, {}, "{...} or [...]", {}}};
  }
  const Json& node = *root;
  return JsonObject{std::make_shared<const JsonObject::Impl>(std::move(root), node, "", file, family)};
}

}  // namespace soilclock
