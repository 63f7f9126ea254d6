// SPDX-License-Identifier: MIT
// What the areas of a course come to: which to treat this week, which to wait on, how far apart they stand.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "advice/answer/answer.hpp"

namespace soilclock::advice {

/// How an area stands with a grass.
struct AreaStanding {
  std::string site;                ///< id of the area: "copper-heron/north tee"
  std::string name;                ///< "north tee"
  std::optional<Problem> refusal;  ///< no answer for it, and why
  bool overseeding_first = false;  ///< see SiteAnswer::priority_warning
  bool before_the_best = false;    ///< its best weeks are still to come
  Decision decision;
  std::optional<Day> half_up;    ///< middle date; empty: none, or the models stand too far apart for one
  double emerged_percent = 0.0;  ///< middle
};

/// What the areas come to for one grass.
struct GrassOnAreas {
  std::string target;                ///< EPPO code; empty where no area got as far as a grass
  std::string title;                 ///< "annual bluegrass"
  std::vector<AreaStanding> areas;   ///< those this grass was asked for in, in the order of the course
  std::optional<int> half_up_apart;  ///< days between the first and the last area half up; empty: not known
  std::string sentence;              ///< what to do where, the most pressing first, and how far apart
  std::vector<std::string> lines;    ///< the same, a sentence a clause
};

struct CourseSummary {
  std::string course;  ///< its id
  std::string name;
  Day on{};
  std::vector<GrassOnAreas> grasses;  ///< at least one
};

/// Gathers what is said of each area while answers are given one after another.
class CourseSummaries {
 public:
  /// An answer for a whole course is passed over.
  void add(const SiteAnswer& answer);
  /// Of the courses all of whose areas were added, in the order of their first: half a course has no summary.
  std::vector<CourseSummary> made() const;

 private:
  struct Gathered {
    CourseSummary summary;
    std::size_t areas = 0;                 ///< of the course
    std::vector<std::string> added;        ///< ids
    std::vector<AreaStanding> unanswered;  ///< failed before any grass
  };
  std::vector<Gathered> courses_;
};

std::vector<CourseSummary> course_summaries(std::span<const SiteAnswer> answers);

}  // namespace soilclock::advice
