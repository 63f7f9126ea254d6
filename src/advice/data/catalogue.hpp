// SPDX-License-Identifier: MIT
// Everything the program knows as data: read from files, checked one by one and against each other, looked up
// by id.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "advice/data/future_rules.hpp"
#include "advice/data/practice.hpp"
#include "advice/data/scouting_rules.hpp"
#include "core/problem.hpp"
#include "core/source.hpp"
#include "emergence/emergence_model.hpp"
#include "emergence/growth_model.hpp"
#include "emergence/target.hpp"
#include "soil/probe_rules.hpp"
#include "soil/soil_model.hpp"
#include "soil/surface_water.hpp"
#include "treatment/actives.hpp"
#include "treatment/gates.hpp"
#include "treatment/grass_control.hpp"
#include "treatment/mixture.hpp"
#include "treatment/residual.hpp"
#include "treatment/spray_rules.hpp"
#include "treatment/turf_state.hpp"

namespace soilclock::advice {

/// A file by its path below the source folder: "models/emergence/X.json", "config/practice.json". The path
/// decides what the file is.
struct NamedText {
  std::string name;
  std::string text;
  /// As it was compiled in: the tests have looked up the sources it names.
  bool built_in = false;
};

/// The compiled-in files of a catalogue; that of the weather services is none of them.
std::vector<NamedText> built_in_files();

/// The compiled-in rules of single probe readings alone, for texts of help: loading all takes longer.
Result<soil::ProbeRules> built_in_probe_rules();

/// Files with a user's own laid over them: a file of the same name replaces, a new name is added. Models are
/// found by file name, which is their id, so this is how a model is replaced.
std::vector<NamedText> overlaid(std::vector<NamedText> files, std::span<const NamedText> own);

/// All data, consistent. Maps are keyed by id (targets by EPPO code).
struct Catalogue {
  std::map<std::string, Source, std::less<>> sources;
  soil::SoilModels soil;
  soil::ProbeRules probe;
  soil::SurfaceWaterRules surface_water;
  FutureRules futures;  ///< its usual year is taken from the soil rules
  ScoutingRules scouting;
  std::map<std::string, emergence::EmergenceModel, std::less<>> emergence;
  std::map<std::string, emergence::GrowthModel, std::less<>> growth;
  std::map<std::string, emergence::Target, std::less<>> targets;
  std::map<std::string, treatment::GrassControl, std::less<>> control;
  treatment::MixtureRule mixture;
  treatment::ResidualRule residual;
  treatment::Actives actives{{}};
  treatment::SprayRules spray;
  treatment::TurfRules turf;   ///< how long a look stands is taken from the practice file
  treatment::GateRules gates;  ///< the coldest days for foliar work are taken from the spray rules
  Practice practice;

  /// The target of an EPPO code or a plain name, case ignored; nothing when unknown.
  const emergence::Target* find_target(std::string_view code_or_name) const;
  /// What treatments do to a target, by EPPO code; every target of the catalogue has exactly one.
  const treatment::GrassControl& control_of(std::string_view target) const;
};

/// Reads and checks all files. Problems (request family, with file and JSON place): whatever the readers
/// refuse, a file in a place that holds nothing known, an id used twice, a source, model, growth model or
/// target that is not there, a member that answers for another target, a model that follows one whose scale
/// is not the one stated, a missed check point, and a missing part (practice, a treatment file, the soil
/// set, the probe's and the first sight's).
Result<Catalogue> load_catalogue(std::span<const NamedText> files);

}  // namespace soilclock::advice
