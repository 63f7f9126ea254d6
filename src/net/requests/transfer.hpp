// SPDX-License-Identifier: MIT
// What came over the line in one exchange, and what is wrong with it.
#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "core/problem.hpp"
#include "net/requests/http_request.hpp"

namespace soilclock::net {

/// What kept an answer from coming whole. They are distinguished because each has its own remedy.
enum class LineFault {
  none,
  no_name,         ///< nobody knows the host
  no_connection,   ///< refused, or no way there
  proxy,           ///< the proxy on the way refuses
  no_trust,        ///< the certificate is not that of the host, or nobody we trust signed it
  bad_ca_file,     ///< the certificates named in the settings cannot be read
  time_out,        ///< too slow, or silent
  nothing,         ///< closed without a byte
  cut,             ///< ended too early
  damaged,         ///< cannot be unpacked
  too_large,       ///< more than the size limit
  too_many_heads,  ///< headers without end
  not_http,        ///< something else listens there
  other
};

struct Transfer {
  std::string host;  ///< with its port, as in the address
  LineFault fault = LineFault::none;
  std::string detail;  ///< words of the network library on the fault
  int status = 0;
  std::string content_type;
  std::string location;
  std::optional<std::chrono::seconds> retry_after;
  std::string body;
};

/// Whether the same request may do better a little later: 429, 500, 502, 503, 504 and time-outs. All else is
/// final, since asking again would only cost the service.
bool may_pass(const Transfer& transfer);

/// How long the service wants to be left alone: its Retry-After, or, of used-up calls, the minute, hour or
/// day its reason names (wording: source of the public server of Open-Meteo, August 2026). Nothing when it
/// does not say.
std::optional<std::chrono::seconds> wanted_pause(const Transfer& transfer);

/// What is wrong with an exchange that ought to hold data of a kind; nothing for a good answer. A page of
/// HTML under status 200 is no answer, and JSON must begin and end as JSON does, since a service that fails
/// while it writes ends in the middle.
std::optional<Problem> problem_with(const Transfer& transfer, BodyKind expects, std::size_t size_limit);

/// Nothing can be asked on this machine.
Problem no_network_library();

/// What is wrong with an address that may not be asked, and with a header for a host that would end before
/// its time.
Problem bad_address();
Problem bad_header(const std::string& host);

/// What is wrong with a redirect from one host to another (empty: its address is none), or with one too many.
Problem bad_redirect(const std::string& from, const std::string& to);
Problem too_many_redirects(const std::string& from, int most);

/// The reason in the body of a refusal: the text of "reason", "errorMessage" or "detail", or the first of
/// "messages"; empty when there is none.
std::string service_reason(const std::string& body);

}  // namespace soilclock::net
