// SPDX-License-Identifier: MIT
#pragma once

#include "app/command.hpp"

namespace soilclock::app {

/// `soilclock models`: what is built in, where it holds, where it comes from.
class ModelsCommand : public Command {
 public:
  std::string name() const override { return "models"; }
  std::string purpose() const override {
    return "the models behind the answers: numbers, validity, sources, check points";
  }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  std::vector<std::string> ids_;
  std::string models_;
  std::string practice_;
  std::string format_ = "text";
};

}  // namespace soilclock::app
