// SPDX-License-Identifier: MIT
#include "app/fetcher.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "app/fetch_tally.hpp"
#include "app/service_settings.hpp"
#include "app/stored_weather.hpp"
#include "core/number_text.hpp"
#include "core/text.hpp"
#include "net/call_budget.hpp"
#include "net/http_client.hpp"
#include "net/requests/service_requests.hpp"
#include "net/secrets.hpp"
#include "records/service_calls.hpp"

namespace soilclock::app {

namespace {

using records::WeatherPart;

/// After so many failures in a row the service or the line is down.
constexpr int most_failures = 3;
/// A call that counts more is heavy; the public server is asked to be given a second after it.
constexpr double heavy_call = 10.0;
constexpr std::chrono::milliseconds after_heavy_call{1000};

/// All jobs of one service, one after another.
class ServiceRun {
 public:
  ServiceRun(const net::Service& service, net::CallBudget budget, records::ServiceCalls& calls,
             records::WeatherStore& store, net::HttpClient& client, const Streams& streams, FetchTally& tally)
      : service_{service},
        budget_{std::move(budget)},
        calls_{calls},
        store_{store},
        client_{client},
        streams_{streams},
        tally_{tally} {}

  void run(const std::vector<FetchJob>& jobs) {
    announce(jobs);
    std::size_t done = 0;
    for (const FetchJob& job : jobs) {
      show_progress(++done, jobs.size());
      work(job);
    }
    clear_progress();
    tally_.counted(service_, counted_, budget_.used_today(streams_.now()));
  }

 private:
  /// The weight of what is to come, before anything is sent.
  void announce(const std::vector<FetchJob>& jobs) const {
    double weight = 0.0;
    for (const FetchJob& job : jobs) weight += job.weight;
    if (jobs.empty() || !service_.limits.a_day) return;
    const double used = budget_.used_today(streams_.now());
    streams_.err << fmt::format("{}: {} request{} that count about {} calls of {} a day ({} used today)\n",
                                service_.title, jobs.size(), jobs.size() == 1 ? "" : "s",
                                number_text(weight, 0), number_text(*service_.limits.a_day, 0),
                                number_text(used, 0));
    if (weight <= *service_.limits.a_day - used) return;
    streams_.err << fmt::format(
        "that is more than is left today and takes {} days: run fetch again on each; what came is stored\n",
        number_text(std::ceil((weight + used) / *service_.limits.a_day), 0));
  }

  void show_progress(std::size_t number, std::size_t all) const {
    if (!streams_.watched) return;
    streams_.err << fmt::format("\r{}: request {} of {} ", service_.title, number, all);
    streams_.err.flush();
  }
  void clear_progress() const {
    if (streams_.watched) streams_.err << "\r" << std::string(60, ' ') << "\r";
  }

  void work(const FetchJob& job) {
    if (is_left_alone()) return fail_job(job, left_alone());
    if (const auto problem = wait_for_budget(job.weight)) return fail_job(job, *problem);
    auto came = ask(job);
    if (!came) {
      // A request for many may be too much; one for a single site says that the service is.
      too_slow_ = client_.out_of_time() && job.sites.size() == 1;
      return failed(job, came.error(), client_.refused());
    }
    const AnswerText text{std::move(came->body),
                          streams_.now(),
                          came->host,
                          service_.keeps_stations ? net::ncei_units : "",
                          {}};
    const auto answer = read_job_answer(service_, job, text);
    if (!answer) return failed(job, net::redact(answer.error(), service_), false);
    const auto stored = store_answer(service_, job, text, *answer, store_);
    if (!stored) return failed(job, stored.error(), stored.error().family == Family::data);
    failures_ = 0;
    for (const StoredAnswer& one : *stored) tally_.came(service_, job.part, one);
  }

  /// Tells the sites of a job of its failure, or asks for them one by one when it was for several. What is
  /// wrong with a request (a place the service does not cover) says nothing about the next one.
  void failed(const FetchJob& job, const Problem& problem, bool about_request) {
    if (!about_request) {
      ++failures_;
      last_failure_ = problem;
    }
    if (job.sites.size() == 1 || is_left_alone()) return fail_job(job, problem);
    for (const ServedSite& site : job.sites)
      work({job.part, {site}, job.days, job.weight / static_cast<double>(job.sites.size())});
  }

  bool is_left_alone() const { return too_slow_ || failures_ >= most_failures; }

  Problem left_alone() const {
    const std::string fault =
        too_slow_ ? "was too slow" : fmt::format("failed {} times in a row", most_failures);
    return {
        Family::environment,
        fmt::format("{} {} and was left alone; the last time {}", service_.title, fault, last_failure_->what),
        {},
        {},
        {},
        "what came is stored; run fetch again later, and it goes on from here"};
  }

  void fail_job(const FetchJob& job, Problem problem) {
    // Whatever a service answers, it is the environment that failed, not a file of the user's.
    if (problem.family == Family::data) problem.family = Family::environment;
    tally_.failed(job, problem);
  }

  std::optional<Problem> wait_for_budget(double weight) {
    const net::Waiting waiting = budget_.before(weight, streams_.now());
    if (waiting.tomorrow) {
      return Problem{Family::environment,
                     fmt::format("the calls {} allows in a day are used up", service_.title),
                     {},
                     fmt::format("{} used, {} more needed",
                                 number_text(budget_.used_today(streams_.now()), 0), number_text(weight, 0)),
                     fmt::format("at most {} a day", number_text(service_.limits.a_day.value_or(0.0), 0)),
                     "what came is stored; run fetch again tomorrow, and it goes on from here"};
    }
    if (waiting.used_up) {
      streams_.err << fmt::format("{} allows no more calls for now; going on in {} s\n", service_.title,
                                  waiting.pause.count());
      streams_.err.flush();
    }
    if (waiting.pause.count() > 0) streams_.pause(waiting.pause);
    return std::nullopt;
  }

  /// Counts before anything is sent, so that a run that dies is counted, too.
  Checked count(double weight) {
    budget_.sent(weight, streams_.now());
    counted_ += weight;
    return calls_.add(service_.id, {streams_.now(), weight});
  }

  Result<net::HttpAnswer> send(const net::HttpRequest& request, double weight,
                               std::chrono::milliseconds spent = {}) {
    if (const auto counted = count(weight); !counted) return fail(counted.error());
    const auto answer = client_.send(request, spent);
    // Every attempt before the last was answered with an error, and an error counts one.
    const int failed = client_.attempts() - 1;
    if (failed > 0) {
      if (const auto counted = count(failed); !counted) return fail(counted.error());
    }
    if (!answer) return fail(answer.error());
    if (weight > heavy_call) streams_.pause(after_heavy_call);
    return answer;
  }

  Result<net::HttpAnswer> ask(const FetchJob& job) {
    const ServedSite& first = job.sites.front();
    switch (service_.api) {
      case net::ServiceApi::nws:
        return ask_grid(job);
      case net::ServiceApi::ncei:
        return send(net::ncei_days(service_, first.wanted.station, job.days), job.weight);
      case net::ServiceApi::power:
        return send(net::power_days(service_, first.site->place, job.days), job.weight);
      case net::ServiceApi::open_meteo:
        break;
    }
    return ask_hours(job);
  }

  /// The forecast office names the grid of a place first; both requests share the time of one answer.
  Result<net::HttpAnswer> ask_grid(const FetchJob& job) {
    const auto point = send(net::nws_point(service_, job.sites.front().site->place), 1.0);
    if (!point) return point;
    const auto spent = client_.spent();
    const auto url = net::nws_grid_url(service_, point->body);
    if (!url) return fail(url.error());
    if (const auto problem = wait_for_budget(job.weight)) return fail(*problem);
    return send(net::nws_grid(*url), job.weight, spent);
  }

  Result<net::HttpAnswer> ask_hours(const FetchJob& job) {
    std::vector<Place> places;
    for (const ServedSite& site : job.sites) places.push_back(site.site->place);
    if (job.part == WeatherPart::forecast)
      return send(net::open_meteo_forecast(service_, places, forecast_past_days, forecast_days), job.weight);
    if (job.part == WeatherPart::members)
      return send(net::open_meteo_members(service_, places, forecast_days), job.weight);
    // Local days reach into the days of UTC before and after; no archive goes beyond today.
    const Day end = std::min(job.days.end() + Days{1}, date::floor<Days>(streams_.now()) + Days{1});
    return send(net::open_meteo_history(service_, places, {job.days.begin() - Days{1}, end}), job.weight);
  }

  const net::Service& service_;
  net::CallBudget budget_;
  records::ServiceCalls& calls_;
  records::WeatherStore& store_;
  net::HttpClient& client_;
  const Streams& streams_;
  FetchTally& tally_;
  double counted_ = 0.0;
  int failures_ = 0;
  bool too_slow_ = false;
  std::optional<Problem> last_failure_;
};

/// The sites that name each service.
Result<std::map<std::string, std::vector<ServedSite>>> by_service(const std::vector<Site>& sites,
                                                                  const net::Services& services) {
  std::map<std::string, std::vector<ServedSite>> result;
  for (std::size_t i = 0; i < sites.size(); ++i) {
    for (const SiteService& wanted : sites[i].services) {
      const auto service = find_service(services, wanted);
      if (!service) return fail(of_site(sites[i], service.error()));
      result[wanted.id].push_back({i, &sites[i], wanted});
    }
  }
  return result;
}

/// Says what asks and, to services that want it, whom to write to when something goes wrong with it.
net::HttpClient client_for(const net::Service& service, const net::Services& services,
                           const Streams& streams) {
  net::ClientSettings settings;
  settings.user_agent = "soilclock/" SOILCLOCK_VERSION;
  if (service.needs_contact) settings.contact = printable(services.contact, 200);
  settings.ca_file = services.ca_file;
  return net::HttpClient{std::move(settings), streams.pause};
}

std::vector<WeatherPart> parts_of(const net::Service& service, const FetchOptions& options) {
  std::vector<WeatherPart> parts;
  for (const WeatherPart part : {WeatherPart::history, WeatherPart::forecast, WeatherPart::members}) {
    const bool wanted = part != WeatherPart::members || options.members;
    if (wanted && service.hosts.contains(std::string{records::name(part)})) parts.push_back(part);
  }
  return parts;
}

Problem contact_missing(const net::Service& service) {
  return {Family::request,
          fmt::format("{} asks every caller for a contact, and none is set", service.title),
          {},
          {},
          "{\"contact\": \"turf@your-club.example\"}",
          "write it into soilclock/services.json in your configuration folder, or name a file with "
          "--service-settings"};
}

/// Problems with a saved answer name its file.
Problem in_file(Problem problem, const std::string& file) {
  if (problem.where.file.empty()) problem.where.file = file;
  return problem;
}

Result<net::CallBudget> budget_of(const net::Service& service, records::ServiceCalls& sent, Instant now) {
  const auto past = sent.since(service.id, date::floor<Days>(now));
  if (!past) return fail(past.error());
  std::vector<net::PastCall> calls;
  for (const records::CountedCall& call : *past) calls.push_back({call.at, call.weight});
  return net::CallBudget{service.limits, std::move(calls)};
}

}  // namespace

Result<report::FetchReport> fetch_weather(const std::vector<Site>& sites, const net::Services& services,
                                          records::Store& store, const Streams& streams,
                                          const FetchOptions& options) {
  if (auto lacking = net::network_lacking()) return fail(std::move(*lacking));
  FetchTally tally{sites};
  records::WeatherStore stored{store};
  records::ServiceCalls calls{store};
  const auto served = by_service(sites, services);
  if (!served) return fail(served.error());
  for (const auto& [id, of_service] : *served) {
    const net::Service& service = services.all.at(id);
    if (service.needs_contact && services.contact.empty()) return fail(contact_missing(service));
  }
  for (const auto& [id, of_service] : *served) {
    const net::Service& service = services.all.at(id);
    tally.expect(service, of_service, parts_of(service, options));
    const auto jobs = plan_jobs(service, of_service, stored, options, streams.now());
    if (!jobs) return fail(jobs.error());
    auto budget = budget_of(service, calls, streams.now());
    if (!budget) return fail(budget.error());
    net::HttpClient client = client_for(service, services, streams);
    ServiceRun{service, std::move(*budget), calls, stored, client, streams, tally}.run(*jobs);
    if (const auto described = tally.describe(service, of_service, stored); !described)
      return fail(described.error());
  }
  return tally.report();
}

Result<report::FetchReport> store_saved(const Site& site, const net::Services& services,
                                        records::Store& store, const AnswerText& saved) {
  const auto wanted = service_of_saved(site, saved);
  if (!wanted) return fail(wanted.error());
  const auto service = find_service(services, *wanted);
  if (!service) return fail(service.error());
  const ServedSite served{0, &site, *wanted};
  records::WeatherStore stored{store};
  const auto read = read_job_answer(**service, {WeatherPart::history, {served}, {}, 0.0}, saved);
  if (!read) return fail(in_file(read.error(), saved.origin));
  if (const auto problem = issue_time_conflict(served, saved, *read)) return fail(*problem);
  const WeatherPart part = part_of_saved(served, saved, *read);
  FetchTally tally{{site}};
  tally.expect(**service, {served}, {part});
  const auto answers = store_answer(**service, {part, {served}, {}, 0.0}, saved, *read, stored);
  if (!answers) return fail(in_file(answers.error(), saved.origin));
  for (StoredAnswer answer : *answers) {
    if (const auto remark = given_assumed(saved, *read)) answer.remarks.push_back(*remark);
    tally.came(**service, part, answer);
  }
  if (const auto described = tally.describe(**service, {served}, stored); !described)
    return fail(described.error());
  return tally.report();
}

int fetch_exit_code(const report::FetchReport& report) {
  const Problem* first = nullptr;
  bool any = false;
  for (const report::SiteFetch& site : report.sites) {
    for (const report::FetchedPart& part : site.parts) any = any || part.requests > 0;
    if (first == nullptr && !site.problems.empty()) first = &site.problems.front();
  }
  if (first == nullptr) return 0;
  return any ? 1 : exit_code(first->family);
}

}  // namespace soilclock::app
