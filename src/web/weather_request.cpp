// SPDX-License-Identifier: MIT
#include "web/weather_request.hpp"

#include <fmt/format.h>

#include "advice/data/embedded_files.hpp"
#include "core/limits.hpp"
#include "net/requests/query.hpp"
#include "net/requests/service_requests.hpp"
#include "net/requests/services.hpp"
#include "net/requests/transfer.hpp"
#include "report/json_values.hpp"
#include "report/weather_credit.hpp"

namespace soilclock::web {

namespace {

/// The one service a page asks, and the one host of it. It wants neither a key nor a contact, which a browser
/// cannot keep to itself or does not send, and lets pages of any address read its answers (memory). The host
/// of past years answers in every week of the year and for past seasons; that of the forecast has three
/// months behind it, too few once a season has gone on for longer.
constexpr const char* page_service = "open-meteo";
constexpr const char* page_host = "history";

Result<net::Service> service_of_pages() {
  const auto services = net::read_built_in_services(advice::embedded_text("config/services.json"));
  if (!services) return fail(services.error());
  return services->all.at(page_service);
}

}  // namespace

Result<std::string> weather_request(const PlaceQuestion& question) {
  const auto service = service_of_pages();
  if (!service) return fail(service.error());
  const int year = civil(question.on).year;
  // Local days reach into the day of UTC before and after; no archive goes beyond today.
  const DayRange days{make_day(year - net::usual_history_years, 1, 1) - Days{1}, question.on + Days{1}};
  const net::HttpRequest request = net::open_meteo_history(*service, {question.place}, days);
  const int decimals = service->coordinate_decimals.at(page_host);
  return report::dumped({{"service", service->title},
                         {"host", service->hosts.at(page_host)},
                         {"url", request.url},
                         {"file", fmt::format("{}_{}_{}.json", page_service,
                                              net::degrees_text(question.place.latitude_deg, decimals),
                                              net::degrees_text(question.place.longitude_deg, decimals))},
                         {"terms", service->terms},
                         {"credit", report::credit_line(service->attribution, service->license, year)}},
                        2) +
         "\n";
}

std::optional<Problem> answer_problem(int status, std::string_view body) {
  const auto service = service_of_pages();
  if (!service) return service.error();
  net::Transfer transfer;
  transfer.host = service->title;
  transfer.status = status;
  transfer.body = body;
  if (status == 0) transfer.fault = net::LineFault::no_connection;
  auto problem = net::problem_with(transfer, net::BodyKind::json, largest_file_bytes);
  // The remedies of the command line speak of its settings and of what it has stored; only that of calls that
  // are used up is the same here.
  constexpr int too_many_calls = 429;
  if (problem && status != too_many_calls)
    problem->remedy = status == 0
                          ? "check the connection of this device and try again, or open a weather file"
                          : "check the place and try again later, or open a weather file";
  return problem;
}

}  // namespace soilclock::web
