// SPDX-License-Identifier: MIT
#include "treatment/cited_value.hpp"

namespace soilclock::treatment {

Grounds read_grounds(const JsonObject& object) {
  const std::string word =
      object.choice("basis", {"published", "derived", "common practice", "memory", "invented"});
  Grounds grounds;
  if (word == "published") grounds.basis = Basis::published;
  if (word == "common practice") grounds.basis = Basis::common_practice;
  if (word == "memory") grounds.basis = Basis::memory;
  if (word == "invented") grounds.basis = Basis::invented;
  grounds.source = object.optional_text("source").value_or("");
  grounds.note = object.optional_text("note").value_or("");
  if (grounds.basis == Basis::published && grounds.source.empty()) {
    object.refuse("source", "a published number needs its source", "an id of models/sources.json");
  }
  if (grounds.basis == Basis::derived && grounds.note.empty()) {
    object.refuse("note", "a derived number needs a note saying from what", "one sentence");
  }
  return grounds;
}

CitedValue read_cited(const JsonObject& parent, std::string_view key, std::string_view unit, double least,
                      double most) {
  const JsonObject object = parent.object(key);
  CitedValue cited;
  cited.value = object.number("value", least, most);
  cited.unit = object.choice("unit", {std::string{unit}});
  cited.grounds = read_grounds(object);
  object.finish();
  return cited;
}

void read_file_head(const JsonObject& top, const std::string& format) {
  top.choice("format", {format});
  if (top.text("id").empty()) top.refuse("id", "a model file needs an id", "a short name");
  if (top.text("title").empty()) top.refuse("title", "a model file needs a title", "one line");
  top.optional_texts("notes");
}

}  // namespace soilclock::treatment
