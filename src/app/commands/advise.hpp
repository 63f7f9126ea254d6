// SPDX-License-Identifier: MIT
#pragma once

#include "app/answers.hpp"
#include "app/command.hpp"
#include "app/site_options.hpp"
#include "report/advice_json.hpp"

namespace soilclock::app {

/// `soilclock advise`: the main job, for one site or all.
class AdviseCommand : public Command {
 public:
  std::string name() const override { return "advise"; }
  std::string purpose() const override {
    return "which week to treat and with what kind of treatment, and how sure that is";
  }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  /// Judgment: more cores than the machines this runs on have; a larger number is a slip.
  static constexpr int most_jobs = 256;

  std::optional<Problem> misuse() const;
  int run_lines(Streams& streams);
  int write_document(const Question& question, Streams& streams) const;
  Wanted wanted() const;
  int jobs() const { return jobs_.value_or(1); }
  void write_text(const std::vector<advice::SiteAnswer>& answers, const report::AnswerFrame& frame,
                  Streams& streams) const;

  SiteOptions sites_;
  std::string format_ = "text";
  bool details_ = false;
  bool past_seasons_ = false;
  std::optional<int> jobs_;
};

}  // namespace soilclock::app
