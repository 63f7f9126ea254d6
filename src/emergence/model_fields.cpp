// SPDX-License-Identifier: MIT
#include "emergence/model_fields.hpp"

#include <algorithm>

#include "core/parameter.hpp"
#include "thermal/degree_day_rule.hpp"

namespace soilclock::emergence {

MonthDay read_month_day(const JsonObject& object, std::string_view key) {
  const auto day = MonthDay::parse(object.text(key));
  if (!day) {
    object.refuse(key, "this is not a day of the northern year", "MM-DD with days 01 to 28, as in 02-15",
                  "south of the equator it is read half a year later");
  }
  return *day;
}

ThermalScale read_scale(const JsonObject& object, std::string_view key, Basis of_file) {
  const JsonObject item = object.object(key);
  const auto number = [&](std::string_view name, std::string_view unit) {
    return read_parameter(item, name, unit, {}, of_file).value;
  };
  ThermalScale scale;
  scale.lower = Temperature::from_celsius(number("lower", "C"));
  if (item.has("upper")) {
    scale.upper = Temperature::from_celsius(number("upper", "C"));
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
    scale.depth = Depth::from_cm(number("depth", "cm"));
  } else if (item.has("depth")) {
    item.refuse("depth", "air has no depth");
  }
  item.finish();
  return scale;
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
