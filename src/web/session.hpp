// SPDX-License-Identifier: MIT
// Files that were handed over and questions answered from them: what stands behind soilclock.h.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "advice/data/catalogue.hpp"
#include "site/read_files.hpp"
#include "site/site_answer.hpp"
#include "web/question.hpp"

namespace soilclock::web {

/// What a question gave: an exit code as the command line's, the result, and problems as lines for people.
struct Outcome {
  int code = 0;
  std::string result;
  std::string problems;
};

class Session {
 public:
  /// Puts a file's bytes under a name; refused is one that is too large, which is not kept.
  Outcome put_file(const std::string& name, std::string_view bytes);
  /// Puts the answer of a service, as it came with an HTTP status (0: none came), under a name; what is no
  /// answer is refused and not kept.
  Outcome put_answer(const std::string& name, int status, std::string_view bytes);
  void drop_files();

  Outcome advice(std::string_view sites, std::string_view options);
  Outcome course(std::string_view sites, std::string_view options);
  Outcome courses(std::string_view sites, std::string_view options);
  Outcome what_if(std::string_view sites, std::string_view options);
  Outcome cases(std::string_view sites, std::string_view options);
  Outcome comparison(std::string_view sites, std::string_view options);
  Outcome inspection(std::string_view options) const;
  static Outcome weather_request(std::string_view options);

 private:
  /// Sites with the question asked about them.
  struct Inquiry {
    Question question;
    std::vector<Site> sites;
  };

  Result<Inquiry> inquire(std::string_view sites, std::string_view options);
  Result<std::string> read(const std::string& path) const;
  Result<SiteRequest> request_of(const Site& site, const Asked& asked);
  /// An answer with its day tables, and whether it holds past seasons.
  struct PageAnswer {
    advice::SiteAnswer answer;
    bool past_seasons = false;
  };

  /// The answer with at least what is asked for; asked again of the same site it is not worked out again.
  const advice::SiteAnswer& page_answer(const Site& site, const Question& question);

  /// The answer in a case that is asked about.
  advice::SiteAnswer case_answer(const Site& site, const Question& question, const WhatIfQuestion& what_if);

  /// What the page shows of the grass that a case is about; null where there is nothing.
  const advice::TargetAnswer* target_as_read(const Site& site, const Question& question,
                                             const advice::SiteAnswer& asked);

  /// Drops the answers to other questions, so that those left are of this one.
  void forget_others(std::string_view sites, const Question& question);

  std::optional<advice::Catalogue> catalogue_;
  std::map<std::string, std::string> files_;
  ReadFiles read_;                             ///< of the files above
  std::string answered_for_;                   ///< site file and question of the answers below
  std::map<std::string, PageAnswer> answers_;  ///< by site id
};

}  // namespace soilclock::web
