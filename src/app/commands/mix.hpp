// SPDX-License-Identifier: MIT
#pragma once

#include <map>

#include "advice/data/catalogue.hpp"
#include "app/command.hpp"
#include "report/mix_report.hpp"
#include "treatment/mix.hpp"

namespace soilclock::app {

/// `soilclock mix`: what the groups of a plan count for, how diverse it is, what repeats. It judges the plan
/// it is given and never proposes an active.
class MixCommand : public Command {
 public:
  std::string name() const override { return "mix"; }
  std::string purpose() const override {
    return "groups in a plan: what counts on plants up, what on plants to come, what repeats";
  }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  /// Everything found out about the plan, or why the request cannot be answered.
  Result<report::MixReport> judged(const advice::Catalogue& catalogue, Day today) const;
  Result<treatment::MixPlan> plan(const advice::Catalogue& catalogue, std::vector<Remark>& remarks) const;
  Result<std::map<int, treatment::GroupStatus>> group_status(const advice::Catalogue& catalogue) const;
  /// Fills sprays and seasons known from the log of the site.
  Result<treatment::SiteHistory> history(const advice::Catalogue& catalogue, report::MixReport& result) const;
  std::optional<Problem> wrong_words() const;

  std::vector<std::string> entries_;
  std::string date_;
  std::string site_;
  std::string records_;
  std::optional<double> latitude_;
  std::string stage_;
  std::string day_maximum_;
  std::vector<std::string> failed_;
  std::vector<std::string> works_;
  std::vector<std::string> region_resistant_;
  std::string seed_on_;
  std::string timing_;
  std::string escapes_;
  std::optional<int> practices_;
  std::optional<int> history_complete_;
  std::string models_;
  std::string practice_;
  std::string format_ = "text";
};

}  // namespace soilclock::app
