// SPDX-License-Identifier: MIT
#include "emergence/model_fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "thermal/degree_day_rule.hpp"

namespace soilclock::emergence {

namespace {

void demand_unit(const JsonObject& object, const std::string& unit) {
  const std::string found = object.text("unit");
  if (found != unit) {
    object.refuse("unit", "this number must be written in another unit", "'" + unit + "'",
                  "convert the number and its spread; nothing is converted silently");
  }
}

Spread read_spread(const JsonObject& object, double value) {
  Spread spread;
  const std::string kind = object.choice("kind", {"none", "normal", "uniform", "split-uniform"});
  if (kind == "normal") {
    spread.kind = Spread::Kind::normal;
    spread.sd = object.number("sd");
    if (!(spread.sd > 0.0)) object.refuse("sd", "a standard deviation must be above 0");
  }
  if (kind == "uniform" || kind == "split-uniform") {
    spread.kind = kind == "uniform" ? Spread::Kind::uniform : Spread::Kind::split_uniform;
    spread.low = object.number("low");
    spread.high = object.number("high");
    if (!(spread.low < spread.high))
      object.refuse("high", "the spread ends below where it begins", "low < high");
    if (value < spread.low || value > spread.high) {
      object.refuse("low", "the central value lies outside its spread",
                    fmt::format("low <= {} <= high", value));
    }
  }
  spread.least = object.optional_number("least");
  spread.most = object.optional_number("most");
  if ((spread.least && *spread.least > value) || (spread.most && *spread.most < value)) {
    object.refuse(spread.least ? "least" : "most", "the limit cuts off the central value",
                  fmt::format("{}", value));
  }
  spread.opposite_to = object.optional_text("opposite_to").value_or("");
  object.finish();
  return spread;
}

GeographicBox read_box(const JsonObject& object) {
  GeographicBox box{read_words(object, "name"), object.number("south", -90.0, 90.0),
                    object.number("north", -90.0, 90.0), object.number("west", -180.0, 180.0),
                    object.number("east", -180.0, 180.0)};
  if (!(box.south < box.north))
    object.refuse("south", "the box ends south of where it begins", "south < north");
  if (!(box.west < box.east)) object.refuse("west", "the box ends west of where it begins", "west < east");
  object.finish();
  return box;
}

}  // namespace

std::string read_words(const JsonObject& object, std::string_view key) {
  std::string text = object.text(key);
  if (trimmed(text).empty()) object.refuse(key, "this text is empty", "words");
  return text;
}

BasisField read_basis(const JsonObject& object) {
  static const std::vector<std::string> words{"published", "derived", "common practice", "memory",
                                              "invented"};
  const std::string word = object.choice("basis", words);
  const auto at = std::find(words.begin(), words.end(), word) - words.begin();
  return {static_cast<Basis>(at), read_words(object, "basis_note")};
}

std::vector<Citation> read_citations(const JsonObject& object, Basis basis) {
  std::vector<Citation> citations;
  for (const JsonObject& item : object.objects("sources")) {
    citations.push_back({read_words(item, "source"), read_words(item, "where")});
    item.finish();
  }
  if (citations.empty() && (basis == Basis::published || basis == Basis::derived)) {
    object.refuse("sources", "no source is named", "at least one {source, where}",
                  "name one of sources.json, or say that the basis is common practice or memory");
  }
  return citations;
}

std::string read_id(const JsonObject& object, std::string_view key, const std::string& file) {
  const std::string id = read_words(object, key);
  const auto slash = file.find_last_of('/');
  const std::string name = slash == std::string::npos ? file : file.substr(slash + 1);
  if (name != id + ".json") {
    object.refuse(key, "this must be the file's name without .json",
                  "'" + name.substr(0, name.rfind('.')) + "'", "rename one of the two");
  }
  return id;
}

Parameter read_parameter(const JsonObject& object, std::string_view key, const std::string& unit) {
  const JsonObject item = object.object(key);
  Parameter parameter;
  parameter.value = item.number("value");
  demand_unit(item, unit);
  parameter.unit = unit;
  if (const auto spread = item.optional_object("spread"))
    parameter.spread = read_spread(*spread, parameter.value);
  parameter.note = item.optional_text("note").value_or("");
  item.finish();
  return parameter;
}

double read_quantity(const JsonObject& object, std::string_view key, const std::string& unit) {
  const JsonObject item = object.object(key);
  const double value = item.number("value");
  demand_unit(item, unit);
  item.finish();
  return value;
}

MonthDay read_month_day(const JsonObject& object, std::string_view key) {
  const auto day = MonthDay::parse(object.text(key));
  if (!day) {
    object.refuse(key, "this is not a day of the northern year", "MM-DD with days 01 to 28, as in 02-15",
                  "south of the equator it is read half a year later");
  }
  return *day;
}

Validity read_validity(const JsonObject& object) {
  const JsonObject item = object.object("validity");
  Validity validity;
  for (const JsonObject& box : item.optional_objects("boxes")) validity.boxes.push_back(read_box(box));
  const std::string hemisphere = item.choice("hemisphere", {"both", "north", "south"});
  if (hemisphere == "north") validity.hemisphere = Hemisphere::north;
  if (hemisphere == "south") validity.hemisphere = Hemisphere::south;
  validity.condition = read_words(item, "condition");
  validity.weight_zero_outside = item.choice("outside", {"remark", "weight zero"}) == "weight zero";
  item.finish();
  return validity;
}

ThermalScale read_scale(const JsonObject& object, std::string_view key) {
  const JsonObject item = object.object(key);
  ThermalScale scale;
  scale.lower = Temperature::from_celsius(read_quantity(item, "lower", "C"));
  if (item.has("upper")) {
    scale.upper = Temperature::from_celsius(read_quantity(item, "upper", "C"));
    if (*scale.upper <= scale.lower) item.refuse("upper", "the upper threshold is not above the lower one");
  }
  scale.method = item.text("method");
  if (scale.method != "daily-mean" && scale.method != "cooling") {
    if (const auto known = thermal::parse_method(scale.method); !known) {
      item.refuse("method", "this way of summing is not known",
                  "daily-mean, cooling or a degree-day method: " + known.error().expected);
    }
  }
  scale.cutoff = item.choice("cutoff", {"none", "horizontal", "intermediate", "vertical"});
  if (scale.cutoff != "none" && !scale.upper) item.refuse("cutoff", "a cutoff needs an upper threshold");
  scale.start = item.text("start");
  if (scale.start != "season") (void)read_month_day(item, "start");
  scale.driver = item.choice("driver", {"soil", "air"}) == "soil" ? ThermalDriver::soil : ThermalDriver::air;
  if (scale.driver == ThermalDriver::soil) {
    scale.depth = Depth::from_cm(read_quantity(item, "depth", "cm"));
  } else if (item.has("depth")) {
    item.refuse("depth", "air has no depth");
  }
  item.finish();
  return scale;
}

CheckPointsField read_check_points(const JsonObject& object) {
  CheckPointsField field;
  for (const JsonObject& item : object.objects("check_points")) {
    CheckPoint point;
    point.quantity = read_words(item, "quantity");
    if (const auto input = item.optional_object("input")) {
      for (const std::string& name : input->keys()) point.input.emplace(name, input->number(name));
    }
    point.expected = item.number("expected");
    point.tolerance = item.number("tolerance");
    if (!(point.tolerance > 0.0)) item.refuse("tolerance", "a tolerance must be above 0");
    point.origin = read_words(item, "origin");
    item.finish();
    field.points.push_back(std::move(point));
  }
  field.none_because = object.optional_text("no_check_points_because").value_or("");
  if (field.points.empty() == trimmed(field.none_because).empty()) {
    object.refuse(field.points.empty() ? "check_points" : "no_check_points_because",
                  field.points.empty() ? "no check point is given" : "check points are given all the same",
                  "check points, or a text no_check_points_because instead");
  }
  return field;
}

void demand_check_points(const JsonObject& object, const std::vector<CheckPoint>& points,
                         const std::function<std::optional<double>(const CheckPoint&)>& value_of) {
  for (std::size_t i = 0; i < points.size(); ++i) {
    const CheckPoint& point = points[i];
    const auto refuse = [&](std::string_view key, const std::string& what, const std::string& remedy) {
      const JsonObject item = object.objects("check_points")[i];
      item.refuse(key, what, {}, remedy);
    };
    const auto value = value_of(point);
    if (!value)
      refuse("quantity", "this form cannot compute this quantity from this input", "see models/README.md");
    if (!(std::abs(*value - point.expected) <= point.tolerance)) {
      refuse("expected",
             fmt::format("the numbers of this file give {:.6g} here (tolerance {})", *value, point.tolerance),
             "correct the numbers or the check point");
    }
  }
}

std::string read_eppo_code(const JsonObject& object, std::string_view key) {
  const std::string code = object.text(key);
  const bool fits = code.size() == 5 && std::all_of(code.begin(), code.end(), [](char c) {
                      return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
                    });
  if (!fits)
    object.refuse(key, "this is not an EPPO code of a plant", "five capital letters or digits, as POAAN");
  return code;
}

}  // namespace soilclock::emergence
