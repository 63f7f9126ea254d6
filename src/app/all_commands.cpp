// SPDX-License-Identifier: MIT
#include "app/command_line.hpp"
#include "app/commands/advise.hpp"
#include "app/commands/compare.hpp"
#include "app/commands/degree_days.hpp"
#include "app/commands/fetch.hpp"
#include "app/commands/hindcast.hpp"
#include "app/commands/inspect.hpp"
#include "app/commands/learned.hpp"
#include "app/commands/log.hpp"
#include "app/commands/mix.hpp"
#include "app/commands/models.hpp"
#include "app/commands/report.hpp"
#include "app/commands/season.hpp"
#include "app/commands/soil.hpp"

namespace soilclock::app {

std::vector<std::unique_ptr<Command>> all_commands() {
  std::vector<std::unique_ptr<Command>> commands;
  commands.push_back(std::make_unique<AdviseCommand>());
  commands.push_back(std::make_unique<ReportCommand>());
  commands.push_back(std::make_unique<SeasonCommand>());
  commands.push_back(std::make_unique<InspectCommand>());
  commands.push_back(std::make_unique<SoilCommand>());
  commands.push_back(std::make_unique<DegreeDaysCommand>());
  commands.push_back(std::make_unique<ModelsCommand>());
  commands.push_back(std::make_unique<FetchCommand>());
  commands.push_back(std::make_unique<LogCommand>());
  commands.push_back(std::make_unique<LearnedCommand>());
  commands.push_back(std::make_unique<MixCommand>());
  commands.push_back(std::make_unique<CompareCommand>());
  commands.push_back(std::make_unique<HindcastCommand>());
  return commands;
}

}  // namespace soilclock::app
