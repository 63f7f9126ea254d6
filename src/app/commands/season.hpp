// SPDX-License-Identifier: MIT
#pragma once

#include "app/command.hpp"
#include "app/site_options.hpp"

namespace soilclock::app {

/// `soilclock season`: the day table behind an answer.
class SeasonCommand : public Command {
 public:
  std::string name() const override { return "season"; }
  std::string purpose() const override {
    return "the day table behind the advice: soil, rain, share up, juvenile";
  }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  SiteOptions sites_;
  std::string format_ = "text";
};

}  // namespace soilclock::app
