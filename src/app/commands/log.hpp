// SPDX-License-Identifier: MIT
#pragma once

#include <map>

#include "app/command.hpp"
#include "records/entries/typed_record.hpp"
#include "records/import_csv.hpp"
#include "records/store.hpp"

namespace soilclock::app {

/// `soilclock log add|list|show|correct|remove|export|import`: notes of applications, counts, readings,
/// checks by eye and first seedlings.
class LogCommand : public Command {
 public:
  std::string name() const override { return "log"; }
  std::string purpose() const override {
    return "note an application, a scouting count, the first seedlings, a probe reading or a look at the "
           "turf; "
           "list, correct, export, import";
  }
  std::string examples() const override;
  void declare(Options& options) override;
  int run(Streams& streams) override;

 private:
  int add(Streams& streams);
  int list(Streams& streams, const std::string& default_format);
  int show(Streams& streams);
  int correct(Streams& streams);
  int remove(Streams& streams);
  int import(Streams& streams);

  /// The fields given on the line, a plain name of a target turned into its code.
  Result<std::vector<records::Given>> given() const;
  Result<records::Selection> selection() const;
  Result<records::EntryId> entry_id() const;
  records::Stamp stamp() const;
  /// Refuses options that the chosen action would pass over in silence.
  std::optional<Problem> stray_option() const;

  std::vector<std::string> words_;
  std::map<std::string, std::vector<std::string>> fields_;  // by name; filled for all kinds, most stay empty
  records::Answered answered_;
  std::string records_;
  std::string by_;
  std::string kind_;
  std::string from_;
  std::string to_;
  std::string format_;
};

}  // namespace soilclock::app
