// SPDX-License-Identifier: MIT
#pragma once

#include "app/command.hpp"
#include "app/site_options.hpp"

namespace soilclock::app {

/// `soilclock learned`: what notes of earlier seasons teach about this one, and from what.
class LearnedCommand : public Command {
 public:
  std::string name() const override { return "learned"; }
  std::string purpose() const override {
    return "what counts and looks of earlier seasons taught about a site";
  }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  SiteOptions sites_;
  std::string format_ = "text";
};

}  // namespace soilclock::app
