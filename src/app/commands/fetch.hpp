// SPDX-License-Identifier: MIT
#pragma once

#include "app/command.hpp"
#include "app/site_options.hpp"
#include "report/fetch_report.hpp"

namespace soilclock::app {

/// Weather from open services into the records file.
class FetchCommand : public Command {
 public:
  std::string name() const override { return "fetch"; }
  std::string purpose() const override { return "weather from open public services into the records file"; }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  std::optional<Problem> misuse() const;
  Result<report::FetchReport> fetch(const std::vector<Site>& sites, Streams& streams) const;
  Result<report::FetchReport> take_saved(const std::vector<Site>& sites, const Streams& streams) const;

  SiteOptions sites_;
  std::string time_zone_;
  bool shift_morning_ = false;
  std::string saved_;
  std::string saved_on_;
  std::string units_in_;
  std::optional<int> years_;
  bool no_members_ = false;
  std::string format_ = "text";
};

}  // namespace soilclock::app
