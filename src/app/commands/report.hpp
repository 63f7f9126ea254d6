// SPDX-License-Identifier: MIT
#pragma once

#include "app/command.hpp"
#include "app/site_options.hpp"

namespace soilclock::app {

/// `soilclock report`: the answers as files: a page and a message for each course, a page of all courses, a
/// calendar and a map.
class ReportCommand : public Command {
 public:
  std::string name() const override { return "report"; }
  std::string purpose() const override { return "the advice as pages, calendar, map and messages"; }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  SiteOptions sites_;
  std::string output_;
  bool handouts_ = false;
};

}  // namespace soilclock::app
