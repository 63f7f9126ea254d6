// SPDX-License-Identifier: MIT
#include "app/commands/models.hpp"

#include <ostream>

#include "app/site_options.hpp"
#include "app/site_requests.hpp"
#include "core/text.hpp"
#include "report/models_report.hpp"

namespace soilclock::app {

std::string ModelsCommand::examples() const {
  return "  soilclock models\n"
         "  soilclock models POAAN_soil_crossing --format json\n";
}

void ModelsCommand::declare(Options& options) {
  options.positional("ID", ids_, "ids of models or codes of targets shown in full; none: the list");
  declare_models(options, models_, practice_);
  declare_format(options, format_, {"text", "json"});
}

int ModelsCommand::run(Streams& streams) {
  const auto catalogue = load_models(models_, practice_);
  if (!catalogue) return report(catalogue.error(), streams);
  for (const std::string& id : ids_) {
    if (report::has_model(*catalogue, id)) continue;
    const auto near = nearest(id, report::model_ids(*catalogue));
    return report({Family::request,
                   "no model or target has this id",
                   {},
                   id,
                   {},
                   near ? "did you mean '" + *near + "'?" : "soilclock models lists them"},
                  streams);
  }
  streams.out << (format_ == "json" ? report::models_json(*catalogue, ids_)
                                    : report::models_text(*catalogue, ids_));
  return 0;
}

}  // namespace soilclock::app
