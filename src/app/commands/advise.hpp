// SPDX-License-Identifier: MIT
#pragma once

#include "app/command.hpp"
#include "app/site_options.hpp"

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
  int run_lines(Streams& streams);

  SiteOptions sites_;
  std::string format_ = "text";
};

}  // namespace soilclock::app
