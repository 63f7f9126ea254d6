// SPDX-License-Identifier: MIT
#include "core/problem.hpp"

#include "core/text.hpp"

namespace soilclock {

int exit_code(Family family) {
  switch (family) {
    case Family::request:
      return 2;
    case Family::data:
      return 3;
    case Family::environment:
      return 4;
    case Family::fault:
      break;
  }
  return 70;
}

namespace {

std::string place_text(const InputPlace& where) {
  std::string text = where.file;
  if (where.line) text += (text.empty() ? "line " : ":") + std::to_string(*where.line);
  if (where.line && where.column) text += ":" + std::to_string(*where.column);
  if (!where.json_pointer.empty()) text += (text.empty() ? "" : " at ") + where.json_pointer;
  return text;
}

}  // namespace

std::string describe(const Problem& problem) {
  std::string text = place_text(problem.where);
  if (!text.empty()) text += ": ";
  text += problem.what;
  if (!problem.found.empty()) text += "; found '" + printable(problem.found, 60) + "'";
  if (!problem.expected.empty())
    text += (problem.found.empty() ? "; expected " : ", expected ") + problem.expected;
  if (!problem.remedy.empty()) text += "; " + problem.remedy;
  return printable(text, text.size());  // any part may hold what stood in a file: it stays one line
}

}  // namespace soilclock
