// SPDX-License-Identifier: MIT
#pragma once

#include "advice/hindcast/hindcast_crossing.hpp"
#include "app/command.hpp"
#include "app/site_options.hpp"

namespace soilclock::app {

/// What a hindcast is asked, as written on the command line.
struct HindcastWords {
  std::string event = "both";
  std::string level;
  std::string depth;
  std::string crossing = "falling";
  std::string issue_days;
  std::string with_readings = "yes";
  std::optional<int> known_ahead;
  std::optional<int> earlier;
};

/// `soilclock hindcast`: what would have been forecast in past seasons, and how good that was.
class HindcastCommand : public Command {
 public:
  std::string name() const override { return "hindcast"; }
  std::string purpose() const override {
    return "what would have been forecast in past seasons, and how good that was";
  }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  SiteOptions sites_;
  HindcastWords words_;
  std::string format_ = "text";
  std::string chart_;
};

}  // namespace soilclock::app
