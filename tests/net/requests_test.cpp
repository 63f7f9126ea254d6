// SPDX-License-Identifier: MIT
// What is asked, word by word, against the services' documentation and recorded questions.
#include "net/requests/service_requests.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>

#include "net/user_settings.hpp"
#include "support/record_files.hpp"
#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::net;
using Catch::Contains;
using soilclock::tests::source_text;

namespace {

Services services(const std::string& users = "") {
  auto result = read_services(source_text("config/services.json"), users, "mine.json");
  if (!result) FAIL(describe(result.error()));
  return *std::move(result);
}

Service service(const std::string& id) { return services().all.at(id); }

std::string header(const HttpRequest& request, const std::string& name) {
  for (const auto& [key, value] : request.headers) {
    if (key == name) return value;
  }
  return {};
}

/// So many places, no two alike.
std::vector<Place> places(int count, bool heights = true) {
  std::vector<Place> result;
  for (int i = 0; i < count; ++i) {
    result.push_back({30.0 + i * 0.0313, -80.0 - i * 0.0217, {}});
    if (heights) result.back().elevation_m = 100.0 + i;
  }
  return result;
}

const Place one{39.96, -83.0, {}};
const DayRange march{make_day(2024, 3, 1), make_day(2024, 4, 1)};

}  // namespace

TEST_CASE("past hours are asked for in UTC, in named units, with both ends of the days") {
  const HttpRequest request = open_meteo_history(service("open-meteo"), {one}, march);
  CHECK(request.url ==
        "https://archive-api.open-meteo.com/v1/archive?latitude=39.96&longitude=-83&timezone=GMT"
        "&temperature_unit=celsius&precipitation_unit=mm&start_date=2024-03-01&end_date=2024-03-31"
        "&hourly=temperature_2m,precipitation");
  CHECK(request.form.empty());
  CHECK(request.expects == BodyKind::json);
  CHECK(request.secret_headers.empty());
}

TEST_CASE("a forecast asks for what a spray day needs, and for no dates beside counts of days") {
  const HttpRequest request = open_meteo_forecast(service("open-meteo"), {one}, 31, 16);
  CHECK_THAT(request.url, Catch::StartsWith("https://api.open-meteo.com/v1/forecast?"));
  CHECK_THAT(request.url, Contains("&past_days=31&forecast_days=16&"));
  CHECK_THAT(request.url,
             Contains("hourly=temperature_2m,precipitation,relative_humidity_2m,wind_speed_10m"));
  CHECK_THAT(request.url, Contains("&wind_speed_unit=ms"));
  CHECK_THAT(request.url, !Contains("start_date"));
}

TEST_CASE("members are asked of their own host") {
  const HttpRequest request = open_meteo_members(service("open-meteo"), {one}, 14);
  CHECK_THAT(request.url, Catch::StartsWith("https://ensemble-api.open-meteo.com/v1/ensemble?"));
  CHECK_THAT(request.url, Contains("&forecast_days=14&hourly=temperature_2m,precipitation"));
}

TEST_CASE("heights are sent when every place has one, and never made up") {
  const auto url = [](const std::vector<Place>& at) {
    return open_meteo_history(service("open-meteo"), at, march).url;
  };
  CHECK_THAT(url({{40.0, -83.0, 247.4}, {41.0, -84.0, 0.0}}), Contains("&elevation=247,0&"));
  CHECK_THAT(url({{40.0, -83.0, 247.4}, {41.0, -84.0, {}}}), !Contains("elevation"));
}

TEST_CASE("coordinates have no more decimals than the grid needs, and no zeros at the end") {
  const auto url = [](double latitude, double longitude) {
    return nws_point(service("nws"), {latitude, longitude, {}}).url;
  };
  CHECK(url(43.0, -119.0) == "https://api.weather.gov/points/43,-119");
  CHECK(url(40.712776, -74.005974) == "https://api.weather.gov/points/40.713,-74.006");
  CHECK(url(38.5, -90.10) == "https://api.weather.gov/points/38.5,-90.1");
  CHECK(url(-0.00001, 100.0) == "https://api.weather.gov/points/0,100");
}

TEST_CASE("a coarse grid is not told where a course lies to the yard") {
  const Place course{40.712776, -74.005974, {}};
  const Service grid = service("open-meteo");
  const std::string two = "latitude=40.71&longitude=-74.01&";
  const std::string three = "latitude=40.713&longitude=-74.006&";
  CHECK_THAT(open_meteo_history(grid, {course}, march).url, Contains(two));
  CHECK_THAT(open_meteo_members(grid, {course}, 16).url, Contains(two));
  CHECK_THAT(open_meteo_forecast(grid, {course}, 31, 16).url, Contains(three));
  const std::string power = power_days(service("power"), course, march).url;
  CHECK_THAT(power, Contains("longitude=-74.01&latitude=40.71&"));
}

TEST_CASE("more than an address holds goes as a form to the same path") {
  const HttpRequest many = open_meteo_history(service("open-meteo"), places(200), march);
  CHECK(many.url == "https://archive-api.open-meteo.com/v1/archive");
  CHECK_THAT(many.form, Catch::StartsWith("latitude=30,30.03,"));
  CHECK_THAT(many.form, Contains("&elevation=100,101,"));
  CHECK_THAT(many.form, Contains("&end_date=2024-03-31&"));
  CHECK(std::count(many.form.begin(), many.form.end(), '&') == 8);
  const HttpRequest ten = open_meteo_history(service("open-meteo"), places(10), march);
  CHECK(ten.form.empty());
  CHECK(ten.url.size() <= 2000);
}

TEST_CASE("an address of 2000 characters is one, and of one more is a form with the same questions") {
  Service grid = service("open-meteo");
  const auto three = places(3);
  const auto asked = [&](const char* host, std::size_t length) {
    grid.hosts[host] = "https://" + std::string(length, 'h');
    if (host == std::string{"history"}) return open_meteo_history(grid, three, march);
    if (host == std::string{"forecast"}) return open_meteo_forecast(grid, three, 31, 16);
    return open_meteo_members(grid, three, 14);
  };
  for (const char* host : {"history", "forecast", "members"}) {
    INFO(host);
    const std::size_t rest = asked(host, 1).url.size() - 1;
    const HttpRequest longest = asked(host, 2000 - rest);
    CHECK(longest.url.size() == 2000);
    CHECK(longest.form.empty());
    const HttpRequest longer = asked(host, 2001 - rest);
    CHECK(longer.url == longest.url.substr(0, 8) + "h" + longest.url.substr(8, longest.url.find('?') - 8));
    CHECK(longer.form == longest.url.substr(longest.url.find('?') + 1));
    const bool fine = host == std::string{"forecast"};
    CHECK_THAT(longer.form,
               Catch::StartsWith(fine ? "latitude=30,30.031,30.063&longitude=-80,-80.022,-80.043&"
                                      : "latitude=30,30.03,30.06&longitude=-80,-80.02,-80.04&"));
    CHECK(longer.headers == longest.headers);
  }
}

TEST_CASE("680 places come as batches that a form of the service's size holds") {
  // 680 places in one address made the connection break; the public server takes forms up to 128 kB.
  const Service grid = service("open-meteo");
  const auto all = places(680);
  std::size_t asked = 0;
  int batches = 0;
  for (std::size_t begin = 0; begin < all.size(); begin += static_cast<std::size_t>(grid.points_a_call)) {
    const std::size_t end = std::min(all.size(), begin + static_cast<std::size_t>(grid.points_a_call));
    const std::vector<Place> batch{all.begin() + static_cast<std::ptrdiff_t>(begin),
                                   all.begin() + static_cast<std::ptrdiff_t>(end)};
    const HttpRequest request = open_meteo_forecast(grid, batch, 31, 16);
    CHECK(request.url.size() <= 2000);
    CHECK(request.form.size() < std::size_t{128} << 10U);
    const std::string& text = request.form.empty() ? request.url : request.form;
    const std::string list =
        text.substr(text.find("latitude="), text.find("&longitude") - text.find("latitude="));
    asked += static_cast<std::size_t>(std::count(list.begin(), list.end(), ',')) + 1;
    ++batches;
  }
  CHECK(batches == 7);
  CHECK(asked == 680);
}

TEST_CASE("a key goes as a secret header to the user's own hosts and stands in no address") {
  // Those who pay are served under "customer-" and the name of the free host, by the same paths.
  const Service grid = services(R"({"services": {"open-meteo": {"key": "s3cret", "hosts":
    {"history": "https://customer-archive-api.open-meteo.com", "forecast": "https://customer-api.open-meteo.com",
     "members": "https://customer-ensemble-api.open-meteo.com"}}}})")
                           .all.at("open-meteo");
  for (const auto& asked : {places(1), places(100)}) {
    const HttpRequest history = open_meteo_history(grid, asked, march);
    const HttpRequest forecast = open_meteo_forecast(grid, asked, 31, 16);
    const HttpRequest members = open_meteo_members(grid, asked, 14);
    CHECK_THAT(history.url, Catch::StartsWith("https://customer-archive-api.open-meteo.com/v1/archive"));
    CHECK_THAT(forecast.url, Catch::StartsWith("https://customer-api.open-meteo.com/v1/forecast"));
    CHECK_THAT(members.url, Catch::StartsWith("https://customer-ensemble-api.open-meteo.com/v1/ensemble"));
    for (const HttpRequest& request : {history, forecast, members}) {
      using Headers = std::vector<std::pair<std::string, std::string>>;
      CHECK(request.secret_headers == Headers{{"X-Api-Key", "s3cret"}});
      CHECK_THAT(request.url + request.form + header(request, "Accept"), !Contains("s3cret"));
    }
  }
}

TEST_CASE("without a key no request of any service has one, and the free hosts are asked") {
  const Service grid = service("open-meteo");
  for (const HttpRequest& request :
       {open_meteo_history(grid, {one}, march), open_meteo_forecast(grid, {one}, 92, 16),
        open_meteo_members(grid, {one}, 35), nws_point(service("nws"), one),
        nws_grid("https://api.weather.gov/gridpoints/BOI/36,73"),
        ncei_days(service("ncei"), "USW00014821", march), power_days(service("power"), one, march)}) {
    INFO(request.url);
    CHECK(request.secret_headers.empty());
    CHECK(header(request, "X-Api-Key").empty());
    CHECK_THAT(request.url + request.form, !Contains("apikey") && !Contains("customer-"));
  }
}

TEST_CASE("every request says what it accepts") {
  CHECK(header(nws_point(service("nws"), one), "Accept") == "application/geo+json");
  CHECK(header(nws_grid("https://api.weather.gov/gridpoints/BOI/36,73"), "Accept") == "application/geo+json");
  CHECK(header(open_meteo_history(service("open-meteo"), {one}, march), "Accept") == "application/json");
  CHECK(header(power_days(service("power"), one, march), "Accept") == "application/json");
  CHECK_THAT(header(ncei_days(service("ncei"), "USW00014821", march), "Accept"), Contains("text/csv"));
}

TEST_CASE("the grid of a place is read from the recorded answers", "[records]") {
  const auto folder = tests::record_folder("api_samples");
  const auto read = [&](const char* name) {
    std::ifstream file{folder / "nws" / name, std::ios::binary};
    return std::string{std::istreambuf_iterator<char>{file}, {}};
  };
  CHECK(nws_grid_url(service("nws"), read("points_boi.json")).value() ==
        "https://api.weather.gov/gridpoints/BOI/36,73");
  CHECK_THAT(nws_grid_url(service("nws"), read("points_tae.json")).value(),
             Catch::StartsWith("https://api.weather.gov/gridpoints/TAE/"));
}

TEST_CASE("a grid on another host is not asked for, and a missing one is named") {
  const auto refusal = [](const std::string& body) {
    const auto url = nws_grid_url(service("nws"), body);
    REQUIRE_FALSE(url);
    CHECK(url.error().family == Family::data);
    return describe(url.error());
  };
  const auto grid = [](const std::string& url) {
    return R"({"properties": {"forecastGridData": ")" + url + "\"}}";
  };
  for (const char* elsewhere :
       {"https://api.weather.gov.evil.example/x", "http://api.weather.gov/gridpoints/A/1,1",
        "https://api.weather.gov@evil.example/x", "file:///etc/passwd"})
    CHECK_THAT(refusal(grid(elsewhere)),
               Contains("/properties/forecastGridData") && Contains("another host"));
  CHECK_THAT(refusal(R"({"properties": {}})"), Contains("forecastGridData") && Contains("missing"));
  CHECK_THAT(refusal("[]"), Contains("properties"));
  CHECK_THAT(refusal("oops"), Contains("not valid JSON"));
}

TEST_CASE("days of a station are asked for metric, with flags, as CSV") {
  const HttpRequest request = ncei_days(service("ncei"), "USW00014821", march);
  CHECK(
      request.url ==
      "https://www.ncei.noaa.gov/access/services/data/v1?dataset=daily-summaries&stations=USW00014821"
      "&startDate=2024-03-01&endDate=2024-03-31&dataTypes=TMAX,TMIN,PRCP&units=metric&includeAttributes=true"
      "&includeStationLocation=1&format=csv");
  CHECK(request.expects == BodyKind::text);
  CHECK_THAT(ncei_days(service("ncei"), "A&format=pdf #1", march).url,
             Contains("stations=A%26format%3Dpdf%20%231&"));
}

TEST_CASE("days of the coarse grid are asked for in local solar time, with the units of farming") {
  // The shape of the recorded question of its documentation.
  CHECK(power_days(service("power"), one, march).url ==
        "https://power.larc.nasa.gov/api/temporal/daily/"
        "point?parameters=T2M_MAX,T2M_MIN,PRECTOTCORR&community=ag"
        "&longitude=-83&latitude=39.96&start=20240301&end=20240331&format=json&time-standard=lst");
}
