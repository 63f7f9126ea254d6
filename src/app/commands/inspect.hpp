// SPDX-License-Identifier: MIT
#pragma once

#include "app/command.hpp"
#include "app/site_options.hpp"
#include "pipeline.hpp"

namespace soilclock::app {

/// `soilclock inspect FILE...`: how weather files were read.
class InspectCommand : public Command {
 public:
  std::string name() const override { return "inspect"; }
  std::string purpose() const override {
    return "how weather files were read: span, units, gaps, doubts, refusals";
  }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  std::vector<std::string> files_;
  FileOptionWords words_;
  std::string format_ = "text";
  std::string units_;
  bool days_ = false;
};

}  // namespace soilclock::app
