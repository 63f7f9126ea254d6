// SPDX-License-Identifier: MIT
#include "core/json_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/json_tree.hpp"
#include "core/text.hpp"

namespace soilclock {

using Json = nlohmann::json;

class JsonObject::Impl {
 public:
  Impl(std::shared_ptr<const JsonTree> tree, const Json& node, std::string pointer, std::string file,
       Family family)
      : tree_{std::move(tree)},
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
    refuse(key, "this value has the wrong type", shown(value), std::string{expected}, {});
  }

  std::string shown(const Json& value) const {
    return tree_->written_out(value).dump(-1, ' ', false, Json::error_handler_t::replace);
  }

  /// The plain list a value stands for; null where it is another value.
  const PlainList* plain(const Json& value) const { return tree_->list(value); }

  /// A required list, which may be a plain one.
  const Json& need_list(std::string_view key, std::string_view items) const {
    const Json& value = need(key, fmt::format("a list of {}", items));
    if (!value.is_array() && plain(value) == nullptr)
      wrong_type(key, value, fmt::format("a list [...] of {}", items));
    return value;
  }

  [[noreturn]] void wrong_item(std::string_view key, std::size_t index, const Json& item,
                               std::string_view expected) const {
    wrong_type(fmt::format("{}/{}", key, index), item, expected);
  }

  JsonObject child(const Json& node, std::string pointer) const {
    return JsonObject{std::make_shared<const Impl>(tree_, node, std::move(pointer), file_, family_)};
  }

  std::shared_ptr<const JsonTree> tree_;
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
  const Json& value = impl_->need_list(key, "objects");
  if (const PlainList* list = impl_->plain(value))
    impl_->wrong_item(key, 0, list->item(0), "an object {...}");
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
  const Json& value = impl_->need_list(key, "texts");
  const PlainList* list = impl_->plain(value);
  if (list != nullptr && !list->of_texts()) impl_->wrong_item(key, 0, list->item(0), "text in quotes");
  const std::size_t size = list != nullptr ? list->size() : value.size();
  std::vector<std::string_view> result;
  result.reserve(size);
  for (std::size_t i = 0; i < size; ++i) {
    if (list == nullptr && !value[i].is_string()) impl_->wrong_item(key, i, value[i], "text in quotes");
    result.push_back(list != nullptr ? list->text(i) : value[i].get_ref<const std::string&>());
  }
  return result;
}

std::vector<double> JsonObject::numbers(std::string_view key) const {
  const Json& value = impl_->need_list(key, "numbers");
  const PlainList* list = impl_->plain(value);
  const std::size_t size = list != nullptr ? list->size() : value.size();
  std::vector<double> result;
  result.reserve(size);
  for (std::size_t i = 0; i < size; ++i) {
    const Json item = list != nullptr ? list->item(i) : value[i];
    if (!item.is_number()) impl_->wrong_item(key, i, item, "a number");
    result.push_back(item.get<double>());
  }
  return result;
}

std::vector<double> JsonObject::numbers_or_null(std::string_view key) const {
  const Json& value = impl_->need_list(key, "numbers");
  if (const PlainList* list = impl_->plain(value)) {
    if (list->of_texts()) impl_->wrong_item(key, 0, list->item(0), "a number or null");
    return list->numbers;
  }
  std::vector<double> result;
  result.reserve(value.size());
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (!value[i].is_number() && !value[i].is_null()) impl_->wrong_item(key, i, value[i], "a number or null");
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
    } else if (impl_->plain(node) != nullptr) {
      again(impl_->tree_->written_out(node), again);
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
  return impl_->plain(*value) != nullptr ? "array" : value->type_name();
}

std::string JsonObject::kind_of_items(std::string_view key) const {
  const Json* value = impl_->find(key);
  const PlainList* list = value == nullptr ? nullptr : impl_->plain(*value);
  if (list != nullptr) return list->item(0).type_name();
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
    if (const Json* value = impl_->find(key)) found = impl_->shown(*value);
  }
  impl_->refuse(key, std::move(what), std::move(found), std::move(expected), std::move(remedy));
}

std::string JsonObject::place() const { return impl_->pointer_of(""); }

namespace {

[[noreturn]] void refuse_top(const std::string& file, Family family) {
  throw JsonProblem{Problem{
      family, "the file does not hold a JSON object or list", {file, 1, 1, {}}, {}, "{...} or [...]", {}}};
}

/// The top of a tree as an object at a place; a problem there when it is another value.
JsonObject object_of(JsonTree tree, std::string pointer, const std::string& file, Family family) {
  const auto kept = std::make_shared<const JsonTree>(std::move(tree));
  auto object = std::make_shared<const JsonObject::Impl>(kept, kept->root, std::move(pointer), file, family);
  if (!kept->root.is_object()) object->wrong_type("", kept->root, "an object {...}");
  return JsonObject{std::move(object)};
}

/// Items of a list being read, with the first thing that is wrong with each kind of them.
class ListReading {
 public:
  ListReading(const std::string& file, Family family, const std::function<void(const JsonObject&)>& read)
      : file_{file}, family_{family}, read_{read} {}

  void item(JsonTree tree, std::size_t index) {
    if (other_value_) return;
    const bool is_object = tree.root.is_object();
    if (refused_ && is_object) return;
    try {
      read_(object_of(std::move(tree), fmt::format("/{}", index), file_, family_));
    } catch (const JsonProblem& found) {
      (is_object ? refused_ : other_value_) = found;
    }
  }
  void finish() const {
    if (other_value_) throw JsonProblem{*other_value_};
    if (refused_) throw JsonProblem{*refused_};
  }

 private:
  const std::string& file_;
  Family family_;
  const std::function<void(const JsonObject&)>& read_;
  std::optional<JsonProblem> other_value_;
  std::optional<JsonProblem> refused_;
};

}  // namespace

JsonObject parse_json(std::string_view text, const std::string& file, Family family) {
  JsonTree tree = read_tree(text, file, family);
  Json& root = tree.root;
  if (root.is_array() || tree.list(root) != nullptr) {
    Json wrapped = Json::object();
    wrapped["items"] = std::move(root);
    root = std::move(wrapped);
  }
  if (!root.is_object()) refuse_top(file, family);
  return object_of(std::move(tree), "", file, family);
}

Checked read_json_objects(std::string_view text, const std::string& file, Family family,
                          const std::function<void(const JsonObject&)>& read) {
  try {
    ListReading list{file, family, read};
    JsonTree rest = read_tree(text, file, family,
                              [&](JsonTree tree, std::size_t index) { list.item(std::move(tree), index); });
    list.finish();
    if (rest.root.is_array()) return {};
    if (!rest.root.is_object()) refuse_top(file, family);
    read(object_of(std::move(rest), "", file, family));
    return {};
  } catch (const JsonProblem& found) {
    return fail(found.problem);
  }
}

}  // namespace soilclock
