// SPDX-License-Identifier: MIT
// The open services weather is fetched from: hosts, limits, terms. Data (config/services.json), not code.
#pragma once

#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "core/dates.hpp"
#include "core/problem.hpp"

namespace soilclock::net {

/// Calls a service allows; empty: not published.
struct CallLimits {
  std::optional<double> a_minute;
  std::optional<double> an_hour;
  std::optional<double> a_day;
  std::chrono::seconds least_pause{0};  ///< between the beginnings of two calls; zero: none is asked for
};

/// Cells of a regular grid with points at whole multiples of these, degrees.
struct GridCells {
  double latitude_deg = 0.0;
  double longitude_deg = 0.0;
};

/// How a service is asked and answers; several services may share one.
enum class ServiceApi { open_meteo, nws, ncei, power };

struct Service {
  std::string id;  ///< as sites name it
  ServiceApi api = ServiceApi::open_meteo;
  std::string title;  ///< as people call it
  std::map<std::string, std::string>
      hosts;                ///< "history", "forecast", "members", ...: base URL without slash
  std::string attribution;  ///< the line that stands in every output made with its data
  std::string license;
  std::string terms;            ///< of the free service, to be known before use; empty: none, or a key is set
  std::string key;              ///< the user's own; never shown, sent as a header only
  bool takes_key = false;       ///< has hosts for users with a key
  bool keeps_stations = false;  ///< its weather is that of a named station, not of a place
  bool cuts_days = false;       ///< gives days, cut by an observer or the sun, and not hours for us to cut
  bool takes_height = false;    ///< adjusts its temperatures to the elevation asked for
  bool needs_contact = false;   ///< refuses callers that do not say whom to write to
  CallLimits limits;            ///< of the free service; none are known for users with a key
  int points_a_call = 1;        ///< most places in one request
  int provisional_days = 10;    ///< how long a fetched day may still change
  std::map<std::string, int> coordinate_decimals;  ///< of the places sent to each host; none of stations
  std::optional<GridCells> cells;  ///< where the service answers with the place asked for, not with its cell
  Day history_from{};              ///< first day it has; says nothing when there is no "history" host
};

struct Services {
  std::map<std::string, Service> all;
  std::string contact;  ///< address of the user, for the User-Agent; empty: not said
  std::string ca_file;  ///< certificates to trust instead of the system's; empty: the system's
};

inline constexpr int most_provisional_days = 365;

/// A base address as it is kept: without blanks around it and slashes at its end.
std::string base_address(std::string_view text);

/// Reads the text that the program ships, without contact and certificates. Hosts must be https. A mistake in
/// it is a fault.
Result<Services> read_built_in_services(std::string_view text);

}  // namespace soilclock::net
