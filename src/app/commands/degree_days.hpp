// SPDX-License-Identifier: MIT
#pragma once

#include "app/command.hpp"
#include "app/site_options.hpp"

namespace soilclock::app {

/// `soilclock degree-days`: sums by any method, base and start.
class DegreeDaysCommand : public Command {
 public:
  std::string name() const override { return "degree-days"; }
  std::string purpose() const override { return "degree-day sums by a named method, base, cutoff and start"; }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  SiteOptions sites_;
  std::string method_ = "sine";
  std::string cutoff_ = "none";
  std::string lower_ = "10C";
  std::string upper_;
  std::string below_;
  std::string start_;
  std::string from_;
  std::string to_;
  std::string soil_depth_;
  bool negative_allowed_ = false;
  std::string format_ = "text";
};

}  // namespace soilclock::app
