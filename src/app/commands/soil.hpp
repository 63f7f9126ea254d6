// SPDX-License-Identifier: MIT
#pragma once

#include "app/command.hpp"
#include "app/site_options.hpp"

namespace soilclock::app {

/// `soilclock soil`: the soil estimate against readings. The estimate never looks at the readings unless
/// --fit is given.
class SoilCommand : public Command {
 public:
  std::string name() const override { return "soil"; }
  std::string purpose() const override {
    return "soil temperature estimated from air, against readings where there are any";
  }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  SiteOptions sites_;
  std::string depth_;
  std::string from_;
  std::string to_;
  bool fit_ = false;
  std::string format_ = "text";
};

}  // namespace soilclock::app
