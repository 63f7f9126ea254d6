// SPDX-License-Identifier: MIT
// Holds the shipped control files to what trials printed: control_anchors.txt, a table that people read, too.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <set>
#include <sstream>

#include "core/text.hpp"
#include "model_files.hpp"
#include "treatment/grass_control.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

const std::vector<std::string> grasses{"crabgrass", "goosegrass", "foxtails"};

std::string control_text(const std::string& grass) { return model_text("control/" + grass + ".json"); }

GrassControl control(const std::string& grass) {
  return taken(read_grass_control(control_text(grass), grass + ".json"));
}

struct Span {
  double least = 0.0;
  double most = 0.0;
};

/// One line of the table.
struct Anchor {
  std::string grass;
  std::string part;   ///< a row, "residual greatest", "weeks of dithiopyr", ...
  std::string stage;  ///< "-" for the residual part
  Span in_file;
  std::string printed;
  std::string source;  ///< empty for extension notes
};

double number(const std::string& text) {
  const auto parsed = parse_number(trimmed(text));
  if (!parsed) FAIL("not a number in control_anchors.txt: " << text);
  return *parsed;
}

/// "81" or "89-100".
Span span_of(const std::string& text) {
  const auto dash = text.find('-');
  if (dash == std::string::npos) return {number(text), number(text)};
  return {number(text.substr(0, dash)), number(text.substr(dash + 1))};
}

std::vector<Anchor> anchors() {
  std::ifstream in{std::string{SOILCLOCK_SOURCE_DIR} + "/tests/treatment/control_anchors.txt"};
  REQUIRE(in.good());
  std::vector<Anchor> all;
  for (std::string line; std::getline(in, line);) {
    if (trimmed(line).empty() || line.front() == '#') continue;
    std::vector<std::string> cells;
    std::istringstream rest{line};
    for (std::string cell; std::getline(rest, cell, '|');) cells.emplace_back(trimmed(cell));
    INFO(line);
    REQUIRE(cells.size() == 7);
    all.push_back({cells[0], cells[1], cells[2], span_of(cells[3]), cells[4],
                   cells[5] == "-" ? std::string{} : cells[5]});
  }
  return all;
}

bool same(double a, double b) { return std::abs(a - b) < 1e-9; }

/// Whether a number agrees with a printed one: within its bound or range, or equal to it or, where it is
/// above the cap, to the cap.
bool agrees(double value, const std::string& printed, double cap) {
  if (printed.starts_with(">=")) return value >= number(printed.substr(2));
  if (printed.starts_with("<=")) return value <= number(printed.substr(2));
  if (printed.starts_with(">")) return value > number(printed.substr(1));
  if (printed.starts_with("<")) return value < number(printed.substr(1));
  const Span range = span_of(printed);
  if (range.least < range.most) return range.least <= value && value <= range.most;
  return same(value, std::min(range.least, cap));
}

std::size_t stage_index(const std::string& stage) {
  for (std::size_t i = 0; i < emergence::stage_count; ++i) {
    if (name(emergence::all_stages[i]) == stage) return i;
  }
  FAIL("no such stage: " << stage);
  return 0;
}

/// What is wrong with a kill cell; empty when nothing is.
std::string kill_problem(const Anchor& anchor, const GrassControl& grass) {
  const KillRow* row = grass.row(anchor.part);
  if (row == nullptr) return "no such row";
  const std::size_t stage = stage_index(anchor.stage);
  const double percent = row->kill[stage].percent();
  const Grounds& grounds = row->grounds[stage];
  const bool in_words = anchor.printed == "in words";
  if (!same(percent, anchor.in_file.least)) return "the number was changed: " + std::to_string(percent);
  if (grounds.source != anchor.source) return "other source: " + grounds.source;
  if ((grounds.basis == Basis::published) == in_words) return "published is what was printed as a figure";
  if (in_words) return grounds.note.starts_with("published in words only") ? "" : "the note must say so";
  return agrees(percent, anchor.printed, grass.cap.percent()) ? "" : "does not agree with what was printed";
}

std::string span_problem(const Anchor& anchor, const ParameterSpan& span) {
  if (!same(span.least, anchor.in_file.least) || !same(span.most, anchor.in_file.most))
    return "the span was changed";
  return span.grounds.source == anchor.source ? "" : "other source: " + span.grounds.source;
}

std::string greatest_problem(const Anchor& anchor, const GrassControl& grass) {
  const std::string problem = span_problem(anchor, grass.greatest);
  if (!problem.empty() || anchor.printed == "in words") return problem;
  return agrees(grass.greatest.least, anchor.printed, 100.0) ? "" : "does not agree with what was printed";
}

std::string weeks_problem(const Anchor& anchor, const GrassControl& grass) {
  const std::string active = anchor.part.substr(std::string{"weeks of "}.size());
  const auto found = std::find_if(grass.residuals.begin(), grass.residuals.end(),
                                  [&](const ResidualAction& known) { return known.active == active; });
  if (found == grass.residuals.end()) return "no weeks of this active";
  const std::string problem = span_problem(anchor, found->weeks);
  if (!problem.empty()) return problem;
  if (!anchor.printed.ends_with(" d")) return "days are expected";
  const double weeks = number(anchor.printed.substr(0, anchor.printed.size() - 2)) / 7.0;
  return found->weeks.least <= weeks && weeks <= found->weeks.most ? "" : "the span leaves out the trial";
}

/// The bad year printed must be among what the failure share can draw, to a point.
std::string failure_problem(const Anchor& anchor, double failure, const ParameterSpan& measured_on) {
  if (!same(failure * 100.0, anchor.in_file.least)) return "the share was changed";
  const std::string figure = anchor.printed.starts_with(">=") ? anchor.printed.substr(2) : anchor.printed;
  return measured_on.most * (1.0 - failure) <= number(figure) + 1.0 ? "" : "the trial is out of reach";
}

std::string problem_of(const Anchor& anchor, const GrassControl& grass) {
  if (anchor.part == "residual greatest") return greatest_problem(anchor, grass);
  if (anchor.part.starts_with("weeks of ")) return weeks_problem(anchor, grass);
  const bool is_short = anchor.part == "residual failure of short";
  if (is_short || anchor.part == "residual failure of long") {
    return failure_problem(anchor, is_short ? grass.failure_most_short : grass.failure_most_long,
                           control("crabgrass").greatest);
  }
  return kill_problem(anchor, grass);
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("the control files say what the trials printed") {
  const std::string sources = model_text("../sources.json");
  for (const Anchor& anchor : anchors()) {
    const std::string problem = problem_of(anchor, control(anchor.grass));
    INFO(anchor.grass << ", " << anchor.part << ", " << anchor.stage << ": " << problem);
    CHECK(problem.empty());
    if (!anchor.source.empty()) {
      CHECK(sources.find("\"id\": \"" + anchor.source + "\"") != std::string::npos);
    }
  }
}

TEST_CASE("every kill figure called published is in the table of anchors") {
  std::set<std::string> in_table;
  for (const Anchor& anchor : anchors())
    in_table.insert(anchor.grass + "/" + anchor.part + "/" + anchor.stage);
  int published = 0;
  for (const std::string& grass : grasses) {
    for (const KillRow& row : control(grass).rows) {
      for (std::size_t i = 0; i < emergence::stage_count; ++i) {
        if (row.grounds[i].basis != Basis::published) continue;
        ++published;
        const std::string place = grass + "/" + row.name + "/" + std::string{name(emergence::all_stages[i])};
        INFO(place);
        CHECK(in_table.contains(place));
      }
    }
  }
  CHECK(published > 0);
}

TEST_CASE("a changed number, basis or source in a control file is found") {
  const auto problem_after = [](const std::string& part, const std::string& from, const std::string& to) {
    const GrassControl changed =
        taken(read_grass_control(replaced(control_text("crabgrass"), from, to), "crabgrass.json"));
    for (const Anchor& anchor : anchors()) {
      if (anchor.grass != "crabgrass" || anchor.part != part) continue;
      if (const std::string problem = problem_of(anchor, changed); !problem.empty()) return problem;
    }
    return std::string{};
  };
  const std::string cell =
      "\"value\": 81, \"unit\": \"%\", \"basis\": \"published\", \"source\": \"yu-mccullough-2016\"";
  CHECK(problem_after("fenoxaprop", cell, cell).empty());
  CHECK(!problem_after("fenoxaprop", cell, replaced(cell, "81", "82")).empty());
  CHECK(!problem_after("fenoxaprop", cell, replaced(cell, "published", "derived")).empty());
  CHECK(!problem_after("fenoxaprop", cell, replaced(cell, "yu-mccullough-2016", "neal-1990")).empty());
  const std::string weeks =
      "\"least\": 10, \"most\": 17, \"unit\": \"weeks\", \"basis\": \"derived\", \"source\"";
  CHECK(!problem_after("weeks of dithiopyr", weeks, replaced(weeks, "10", "9")).empty());
  CHECK(!problem_after("residual greatest", "\"least\": 97, \"most\": 97", "\"least\": 96, \"most\": 97")
             .empty());
  CHECK(!problem_after("residual failure of short", "\"value\": 0.6,", "\"value\": 0.5,").empty());
}

TEST_CASE("an unnamed partner is the middle of the named rows") {
  for (const std::string& grass : grasses) {
    INFO(grass);
    const GrassControl file = control(grass);
    REQUIRE(file.unnamed_rows == std::vector<std::string>{"unnamed"});
    for (std::size_t stage = 0; stage < emergence::stage_count; ++stage) {
      std::vector<double> named;
      for (const KillRow& row : file.rows) {
        if (row.name != "unnamed") named.push_back(row.kill[stage].percent());
      }
      REQUIRE(named.size() % 2 == 1);
      std::sort(named.begin(), named.end());
      CHECK(file.row("unnamed")->kill[stage].percent() == Approx(named[named.size() / 2]));
    }
  }
}

TEST_CASE("goosegrass tillers with leaf 6, two to three weeks after it comes up, before growth is fastest") {
  const emergence::GrowthModel growth = shipped_growth("ELEIN_stage_days");
  // Three phyllochrons to the end of three leaves, five to leaf 6.
  CHECK(growth.juvenile_below == Approx(growth.limits.front() / 3.0 * 5.0));
  CHECK(growth.juvenile_below >= 14.0);
  CHECK(growth.juvenile_below <= 21.0);
  // Kerr et al. 2019: culms and leaves grow fastest 26.5 d after emergence, when the plant has tillers.
  CHECK(growth.limits[emergence::index_of(emergence::StageClass::two_tillers)] < 26.5);
  CHECK(growth.limits[emergence::index_of(emergence::StageClass::three_to_five_tillers)] > 26.5);
}
