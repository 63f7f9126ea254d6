// SPDX-License-Identifier: MIT
#include "net/requests/transfer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/json_reader.hpp"
#include "core/text.hpp"

namespace soilclock::net {

namespace {

constexpr const char* goes_on = "advise goes on with what is stored, if anything is";
constexpr const char* later = "try again later; advise goes on with what is stored, if anything is";

Problem environment_problem(std::string what, std::string remedy) {
  return {Family::environment, std::move(what), {}, {}, {}, std::move(remedy)};
}

Problem no_way(const Transfer& t) {
  if (t.fault == LineFault::no_name)
    return environment_problem(fmt::format("{} cannot be reached: its name is not found", t.host),
                               fmt::format("check the connection of this machine; {}", goes_on));
  if (t.fault == LineFault::proxy)
    return environment_problem(
        fmt::format("{} cannot be reached: the proxy on the way refuses", t.host),
        fmt::format("check the proxy named in the environment (https_proxy); {}", goes_on));
  return environment_problem(
      fmt::format("{} cannot be reached: no connection", t.host),
      fmt::format("check the connection of this machine and any proxy it uses; {}", goes_on));
}

Problem no_trust(const Transfer& t) {
  if (t.fault == LineFault::bad_ca_file)
    return environment_problem(
        "the file of trusted certificates cannot be read",
        "correct \"ca_file\" in the service settings, or leave it out to trust the system's");
  return environment_problem(
      fmt::format("the certificate of {} is not trusted ({})", t.host, printable(t.detail, 160)),
      "check the clock of this machine, and whether a filter between it and the service puts in a "
      "certificate "
      "of its own; one that is known and wanted can be named as \"ca_file\" in the service settings");
}

Problem line_problem(const Transfer& t, std::size_t size_limit) {
  switch (t.fault) {
    case LineFault::no_name:
    case LineFault::no_connection:
    case LineFault::proxy:
      return no_way(t);
    case LineFault::no_trust:
    case LineFault::bad_ca_file:
      return no_trust(t);
    case LineFault::time_out:
      return environment_problem(fmt::format("{} did not answer in time", t.host), later);
    case LineFault::nothing:
      return environment_problem(fmt::format("{} closed the connection without an answer", t.host), later);
    case LineFault::cut:
      return environment_problem(fmt::format("the answer of {} was cut off", t.host), later);
    case LineFault::damaged:
      return environment_problem(fmt::format("the answer of {} came damaged and cannot be unpacked", t.host),
                                 later);
    case LineFault::too_large:
      return environment_problem(fmt::format("the answer of {} is larger than {} bytes", t.host, size_limit),
                                 "ask for fewer sites or days at once");
    case LineFault::too_many_heads:
      return environment_problem(fmt::format("the answer of {} begins with headers without end", t.host),
                                 later);
    case LineFault::not_http:
      return environment_problem(fmt::format("{} does not speak HTTP", t.host),
                                 "check the hosts in the service settings");
    case LineFault::none:
    case LineFault::other:
      break;
  }
  return environment_problem(fmt::format("asking {} failed ({})", t.host, printable(t.detail, 160)), later);
}

std::string_view without_mark(std::string_view body) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (body.starts_with(byte_order_mark)) body.remove_prefix(byte_order_mark.size());
  return trimmed(body);
}

bool is_web_page(const Transfer& t, std::string_view body) {
  if (body.starts_with("<")) return true;
  // Some servers label everything as HTML; JSON proves itself by its first character.
  const bool labeled = lowered(t.content_type).starts_with("text/html");
  return labeled && !body.starts_with("{") && !body.starts_with("[");
}

std::optional<Problem> body_problem(const Transfer& t, BodyKind expects) {
  const std::string_view body = without_mark(t.body);
  if (body.empty()) return environment_problem(fmt::format("{} sent an empty answer", t.host), later);
  if (is_web_page(t, body)) {
    return environment_problem(fmt::format("{} sent a web page instead of data", t.host),
                               fmt::format("a sign-in page or filter may stand in between; {}", later));
  }
  if (expects == BodyKind::text) return std::nullopt;
  if (body.front() != '{' && body.front() != '[') {
    return environment_problem(fmt::format("{} sent something other than JSON, beginning \"{}\"", t.host,
                                           printable(body.substr(0, 60), 40)),
                               later);
  }
  if (body.back() != (body.front() == '{' ? '}' : ']')) {
    const std::string_view end = body.substr(body.size() - std::min<std::size_t>(body.size(), 60));
    return environment_problem(
        fmt::format("the answer of {} was cut off; it ends with \"{}\"", t.host, printable(end, 60)), later);
  }
  return std::nullopt;
}

Problem status_problem(const Transfer& t) {
  const std::string_view body = without_mark(t.body);
  std::string reason = service_reason(t.body);
  if (reason.empty() && is_web_page(t, body)) reason = "a web page";
  const std::string says =
      reason.empty() ? std::string{} : fmt::format(", and says: \"{}\"", printable(reason, 200));
  const auto what = [&](std::string_view does) {
    return fmt::format("{} {} (status {}){}", t.host, does, t.status, says);
  };
  switch (t.status) {
    case 429: {
      const std::string wait = t.retry_after ? fmt::format("wait {} s", t.retry_after->count())
                                             : "wait for the next full minute, hour or UTC day";
      return environment_problem(what("takes no more calls for now"),
                                 wait + "; calls of others behind the same internet address count, too");
    }
    case 401:
    case 403:
      return environment_problem(
          what("refuses access"),
          "check \"contact\", \"key\" and \"hosts\" in the service settings; a key opens only the "
          "hosts it was given for");
    case 404:
      return environment_problem(what("has nothing at this address"),
                                 "check the place or station: the service may not cover it");
    default:
      break;
  }
  if (t.status >= 500) return environment_problem(what("has trouble of its own"), later);
  if (t.status >= 400)
    return environment_problem(what("does not take the request"),
                               "check the place, station and days that were asked for");
  return environment_problem(what("sent no data"), later);
}

}  // namespace

bool may_pass(const Transfer& transfer) {
  if (transfer.fault != LineFault::none) return transfer.fault == LineFault::time_out;
  constexpr std::array passing{429, 500, 502, 503, 504};
  return std::find(passing.begin(), passing.end(), transfer.status) != passing.end();
}

std::optional<std::chrono::seconds> wanted_pause(const Transfer& transfer) {
  if (transfer.retry_after || transfer.status != 429) return transfer.retry_after;
  const std::string reason = service_reason(transfer.body);
  if (reason.starts_with("Minutely")) return std::chrono::minutes{1};
  if (reason.starts_with("Hourly")) return std::chrono::hours{1};
  if (reason.starts_with("Daily")) return std::chrono::hours{24};
  return std::nullopt;
}

std::optional<Problem> problem_with(const Transfer& transfer, BodyKind expects, std::size_t size_limit) {
  if (transfer.fault != LineFault::none) return line_problem(transfer, size_limit);
  if (transfer.status != 200) return status_problem(transfer);
  return body_problem(transfer, expects);
}

Problem no_network_library() {
  return environment_problem("the network library (libcurl.so.4) cannot be opened",
                             fmt::format("install it (in Debian the package libcurl4); {}", goes_on));
}

Problem bad_address() {
  constexpr const char* expected = "https://..., or http:// on this machine itself";
  constexpr const char* remedy = "check the hosts in the service settings";
  return {Family::request, "this address cannot be asked", {}, {}, expected, remedy};
}

Problem bad_header(const std::string& host) {
  const std::string what = "a header for " + host + " holds a line break or another control character";
  return {Family::request, what, {}, {}, {}, {}};
}

Problem bad_redirect(const std::string& from, const std::string& to) {
  Problem problem =
      environment_problem(fmt::format("{} redirects to an address that may not be asked{}", from,
                                      to.empty() ? "" : " (" + printable(to, 80) + ")"),
                          fmt::format("a sign-in page or filter may stand in between; {}", goes_on));
  problem.expected = "https://...";
  return problem;
}

Problem too_many_redirects(const std::string& from, int most) {
  return environment_problem(fmt::format("{} redirects more than {} times", from, most), later);
}

std::string service_reason(const std::string& body) {
  const auto reason = read_json(body, "", Family::environment, [](const JsonObject& top) -> std::string {
    for (const char* key : {"reason", "errorMessage", "detail"}) {
      if (top.kind(key) == "string") return top.text(key);
    }
    if (top.kind("messages") != "array") return {};
    const auto messages = top.texts("messages");
    return messages.empty() ? std::string{} : messages.front();
  });
  return reason ? *reason : std::string{};
}

}  // namespace soilclock::net
