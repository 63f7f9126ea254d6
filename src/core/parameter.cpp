// SPDX-License-Identifier: MIT
#include "core/parameter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/random.hpp"
#include "core/text.hpp"

namespace soilclock {

namespace {

constexpr std::array<std::string_view, 5> basis_names{"published", "derived", "common practice", "memory",
                                                      "invented"};

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

void demand_unit(const JsonObject& object, std::string_view unit) {
  if (object.text("unit") != unit) {
    object.refuse("unit", "this number must be written in another unit", "'" + std::string{unit} + "'",
                  "convert the number and its spread; nothing is converted silently");
  }
}

}  // namespace

double Parameter::drawn(double probability) const {
  double result = value;
  switch (spread.kind) {
    case Spread::Kind::none:
      break;
    case Spread::Kind::normal:
      result = value + spread.sd * normal_quantile(probability);
      break;
    case Spread::Kind::uniform:
      result = spread.low + (spread.high - spread.low) * probability;
      break;
    case Spread::Kind::split_uniform:
      result = probability < 0.5 ? spread.low + (value - spread.low) * 2.0 * probability
                                 : value + (spread.high - value) * (2.0 * probability - 1.0);
      break;
  }
  if (spread.least) result = std::max(result, *spread.least);
  if (spread.most) result = std::min(result, *spread.most);
  return result;
}

std::string_view basis_name(Basis basis) { return basis_names.at(static_cast<std::size_t>(basis)); }

Basis read_basis(const JsonObject& object) {
  const std::string word = object.choice("basis", {basis_names.begin(), basis_names.end()});
  const auto* const at = std::find(basis_names.begin(), basis_names.end(), word);
  return static_cast<Basis>(at - basis_names.begin());
}

Grounds read_grounds(const JsonObject& object, std::optional<Basis> of_file) {
  const bool own = object.has("basis") || !of_file;
  Grounds grounds;
  grounds.basis = own ? read_basis(object) : *of_file;
  grounds.source = object.optional_text("source").value_or("");
  grounds.note = object.optional_text("note").value_or("");
  if (own && grounds.basis == Basis::published && trimmed(grounds.source).empty()) {
    object.refuse("source", "a published number needs its source", "an id of models/sources.json");
  }
  if (own && grounds.basis == Basis::derived && trimmed(grounds.note).empty()) {
    object.refuse("note", "a derived number needs a note saying from what", "one sentence");
  }
  return grounds;
}

Parameter read_parameter(const JsonObject& parent, std::string_view key, std::string_view unit, Limits limits,
                         std::optional<Basis> of_file) {
  const JsonObject object = parent.object(key);
  Parameter parameter;
  parameter.value = object.number("value", limits.least, limits.most);
  demand_unit(object, unit);
  parameter.unit = unit;
  parameter.grounds = read_grounds(object, of_file);
  object.finish();
  return parameter;
}

int read_whole(const JsonObject& parent, std::string_view key, std::string_view unit, Limits limits) {
  const double count = read_parameter(parent, key, unit, limits).value;
  if (count != std::floor(count)) parent.object(key).refuse("value", "this must be a whole number");
  return static_cast<int>(count);
}

Parameter read_drawn_parameter(const JsonObject& parent, std::string_view key, std::string_view unit,
                               std::optional<Basis> of_file) {
  const JsonObject object = parent.object(key);
  Parameter parameter;
  parameter.value = object.number("value");
  demand_unit(object, unit);
  parameter.unit = unit;
  if (const auto spread = object.optional_object("spread"))
    parameter.spread = read_spread(*spread, parameter.value);
  parameter.grounds = read_grounds(object, of_file);
  object.finish();
  return parameter;
}

ParameterSpan read_span(const JsonObject& parent, std::string_view key, std::string_view unit,
                        Limits limits) {
  const JsonObject object = parent.object(key);
  ParameterSpan span;
  span.least = object.number("least", limits.least, limits.most);
  span.most = object.number("most", limits.least, limits.most);
  if (span.most < span.least) object.refuse("most", "the span is reversed", "at least 'least'");
  demand_unit(object, unit);
  span.unit = unit;
  span.grounds = read_grounds(object);
  object.finish();
  return span;
}

}  // namespace soilclock
