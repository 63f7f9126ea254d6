// SPDX-License-Identifier: MIT
#include "thermal/degree_day_rule.hpp"

#include <array>
#include <string>
#include <utility>
#include <vector>

#include "core/text.hpp"

namespace soilclock::thermal {

namespace {

constexpr std::array<std::pair<Method, std::string_view>, 8> method_words{
    {{Method::average, "average"},
     {Method::clamped, "clamped"},
     {Method::triangle, "triangle"},
     {Method::sine, "sine"},
     {Method::double_triangle, "double-triangle"},
     {Method::double_sine, "double-sine"},
     {Method::hourly, "hourly"},
     {Method::four_case, "four-case"}}};

constexpr std::array<std::pair<Cutoff, std::string_view>, 4> cutoff_words{
    {{Cutoff::none, "none"},
     {Cutoff::horizontal, "horizontal"},
     {Cutoff::intermediate, "intermediate"},
     {Cutoff::vertical, "vertical"}}};

template <class Words, class Value>
std::string_view word_of(const Words& words, Value value) {
  for (const auto& [known, word] : words) {
    if (known == value) return word;
  }
  return "unknown";
}

template <class Value, std::size_t count>
Result<Value> parse_word(const std::array<std::pair<Value, std::string_view>, count>& words,
                         std::string_view text, const char* what) {
  std::vector<std::string> offered;
  for (const auto& [value, word] : words) {
    if (word == text) return value;
    offered.emplace_back(word);
  }
  const auto near = nearest(text, offered);
  return fail({Family::request,
               what,
               {},
               std::string{text},
               "one of " + listed(offered),
               near ? "did you mean '" + *near + "'?" : ""});
}

bool exists(Method method, Cutoff cutoff) {
  switch (method) {
    case Method::average:
    case Method::clamped:
      return cutoff == Cutoff::none || cutoff == Cutoff::horizontal;
    case Method::four_case:
      return cutoff == Cutoff::none;
    default:
      return true;
  }
}

}  // namespace

std::string_view name(Method method) { return word_of(method_words, method); }
std::string_view name(Cutoff cutoff) { return word_of(cutoff_words, cutoff); }

Result<Method> parse_method(std::string_view word) {
  return parse_word(method_words, word, "this degree-day method is not known");
}

Result<Cutoff> parse_cutoff(std::string_view word) {
  return parse_word(cutoff_words, word, "this cutoff is not known");
}

Result<DegreeDayRule> checked(const DegreeDayRule& rule) {
  if (!rule.lower.known()) {
    return fail({Family::request,
                 "degree-days need a lower threshold",
                 {},
                 {},
                 "a temperature such as 10C or 50F",
                 {}});
  }
  if (rule.upper && !(rule.lower < *rule.upper)) {
    return fail({Family::request,
                 "the upper threshold must lie above the lower one",
                 {},
                 {},
                 {},
                 "exchange the two or leave the upper one out"});
  }
  if (rule.cutoff != Cutoff::none && !rule.upper) {
    return fail({Family::request,
                 "a cutoff needs an upper threshold",
                 {},
                 std::string{name(rule.cutoff)},
                 {},
                 "give an upper threshold or the cutoff none"});
  }
  if (!exists(rule.method, rule.cutoff)) {
    return fail({Family::request,
                 "the method " + std::string{name(rule.method)} + " does not exist with this cutoff",
                 {},
                 std::string{name(rule.cutoff)},
                 rule.method == Method::four_case ? "none" : "none or horizontal",
                 "take the method sine or triangle for the other cutoffs"});
  }
  return rule;
}

}  // namespace soilclock::thermal
