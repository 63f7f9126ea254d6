// SPDX-License-Identifier: MIT
#pragma once

#include "app/command.hpp"
#include "app/site_options.hpp"

namespace soilclock::app {

/// `soilclock compare`: past seasons, sites, rules of thumb and what-ifs side by side.
class CompareCommand : public Command {
 public:
  std::string name() const override { return "compare"; }
  std::string purpose() const override { return "seasons, sites, rules of thumb and what-ifs side by side"; }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  SiteOptions sites_;
  std::string format_ = "text";
};

}  // namespace soilclock::app
