// SPDX-License-Identifier: MIT
// What the client sends, where it follows, and to whom it shows a secret.
#include <catch2/catch.hpp>

#include "support/asking.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using Catch::Contains;

namespace {

const std::string key = "s3cret-key";

net::HttpRequest with_key(const std::string& url) {
  net::HttpRequest request;
  request.url = url;
  request.headers = {{"Accept", "application/geo+json"}};
  request.secret_headers = {{"X-Api-Key", key}};
  return request;
}

}  // namespace

TEST_CASE("an answer comes with its status, type and body") {
  LoopbackServer server{
      [](const SeenRequest&) { return always(200, R"({"a": [1, 2]})", "application/geo+json"); }};
  Asker asker;
  const auto answer = asker.ask(server.url() + "/v1/archive?latitude=1,2");
  REQUIRE(answer);
  CHECK(answer->status == 200);
  CHECK(answer->content_type == "application/geo+json");
  CHECK(answer->body == R"({"a": [1, 2]})");
  CHECK(asker.pauses.empty());
  REQUIRE(server.requests().size() == 1);
  CHECK(server.requests()[0].method == "GET");
  CHECK(server.requests()[0].target == "/v1/archive?latitude=1,2");
}

TEST_CASE("every request says who asks and what it takes, packed or not") {
  LoopbackServer server{[](const SeenRequest&) { return always(200, "{}"); }};
  Asker asker;
  REQUIRE(asker.client.send(with_key(server.url())));
  REQUIRE(asker.ask(server.url()));
  const auto seen = server.requests();
  REQUIRE(seen.size() == 2);
  CHECK(seen[0].headers.at("user-agent") == "soilclock/test (turf@club.example)");
  CHECK(seen[0].headers.at("accept") == "application/geo+json");
  CHECK_THAT(seen[0].headers.at("accept-encoding"), Contains("gzip"));
  CHECK(seen[0].headers.at("x-api-key") == key);
  CHECK(seen[1].headers.count("accept") == 1);
  CHECK(seen[1].headers.count("x-api-key") == 0);
}

TEST_CASE("a form is sent as one, without a question beforehand") {
  LoopbackServer server{[](const SeenRequest&) { return always(200, "[]"); }};
  Asker asker;
  net::HttpRequest request = with_key(server.url() + "/v1/forecast");
  request.form = "latitude=" + std::string(3000, '1') + "&hourly=temperature_2m,precipitation";
  REQUIRE(asker.client.send(request));
  REQUIRE(server.requests().size() == 1);
  const SeenRequest seen = server.requests()[0];
  CHECK(seen.method == "POST");
  CHECK(seen.body == request.form);
  CHECK(seen.parameters.at("hourly") == "temperature_2m,precipitation");
  CHECK(seen.headers.at("content-type") == "application/x-www-form-urlencoded");
  CHECK(seen.headers.count("expect") == 0);
}

TEST_CASE("requests to one host share one connection") {
  LoopbackServer server{[](const SeenRequest&) { return always(200, "{}"); }};
  Asker asker;
  for (int i = 0; i < 5; ++i) REQUIRE(asker.ask(server.url() + "/" + std::to_string(i)));
  CHECK(server.requests().size() == 5);
  CHECK(server.connections() == 1);
}

TEST_CASE("a connection that the service closed meanwhile is opened again") {
  Reply last = always(200, "{}");
  last.headers = {{"X", "y"}};
  LoopbackServer server{in_turn({raw("HTTP/1.1 200 OK\r\nContent-Length: 2\r\n\r\n{}"), last})};
  Asker asker;
  REQUIRE(asker.ask(server.url()));
  REQUIRE(asker.ask(server.url()));
  CHECK(server.connections() == 2);
}

TEST_CASE("a packed answer is unpacked") {
  // {"packed": true}, packed by another program.
  const unsigned char bytes[] = {0x1f, 0x8b, 0x08, 0x00, 0x00, 0x00, 0x00, 0x00, 0x02, 0xff, 0xab, 0x56,
                                 0x2a, 0x48, 0x4c, 0xce, 0x4e, 0x4d, 0x51, 0xb2, 0x52, 0x28, 0x29, 0x2a,
                                 0x4d, 0xad, 0x05, 0x00, 0xb9, 0xd0, 0xbb, 0x73, 0x10, 0x00, 0x00, 0x00};
  Reply packed = always(200, std::string{bytes, bytes + sizeof bytes});
  packed.headers = {{"Content-Encoding", "gzip"}};
  LoopbackServer server{[&](const SeenRequest&) { return packed; }};
  Asker asker;
  const auto answer = asker.ask(server.url());
  REQUIRE(answer);
  CHECK(answer->body == R"({"packed": true})");
}

TEST_CASE("JSON is taken under a wrong label, a list as well as an object, and after a byte order mark") {
  LoopbackServer server{in_turn({always(200, "{}", "text/plain"), always(200, "[1]", ""),
                                 always(200, "\xEF\xBB\xBF\n {}\n", "text/html")})};
  Asker asker;
  for (int i = 0; i < 3; ++i) CHECK(asker.refusal(server.url()).empty());
}

TEST_CASE("tables are taken as text") {
  LoopbackServer server{[](const SeenRequest&) { return always(200, "\"STATION\",\"DATE\"\n", "text/csv"); }};
  Asker asker;
  CHECK(asker.ask(server.url(), net::BodyKind::text).value().body == "\"STATION\",\"DATE\"\n");
  CHECK_THAT(asker.refusal(server.url()), Contains("something other than JSON"));
}

TEST_CASE("a redirect is followed, relative or not, and the question goes on as it was") {
  const int status = GENERATE(301, 302, 307, 308);
  LoopbackServer server{[&](const SeenRequest& asked) {
    return asked.path == "/points/40,-74" ? always(200, "{}") : redirect(status, "40,-74?units=si");
  }};
  Asker asker;
  net::HttpRequest request = with_key(server.url() + "/points/40.0000,-74.0000");
  request.form = "a=1";
  REQUIRE(asker.client.send(request));
  const auto seen = server.requests();
  REQUIRE(seen.size() == 2);
  CHECK(seen[1].target == "/points/40,-74?units=si");
  CHECK(seen[1].body == "a=1");
  CHECK(seen[1].headers.at("x-api-key") == key);
}

TEST_CASE("a redirect to look at another page loses the form") {
  LoopbackServer server{in_turn({redirect(303, "/result"), always(200, "{}")})};
  Asker asker;
  net::HttpRequest request = with_key(server.url());
  request.form = "a=1";
  REQUIRE(asker.client.send(request));
  CHECK(server.requests().at(1).method == "GET");
  CHECK(server.requests().at(1).target == "/result");
}

TEST_CASE("a secret and the contact are shown to the first host only, and the secret never in a problem") {
  LoopbackServer other{[](const SeenRequest& asked) {
    return always(400, R"({"reason": "bad request"})", asked.headers.count("x-api-key") != 0 ? "text/x" : "");
  }};
  LoopbackServer first{[&](const SeenRequest&) { return redirect(302, other.url() + "/elsewhere"); }};
  Asker asker;
  const auto answer = asker.client.send(with_key(first.url()));
  REQUIRE_FALSE(answer);
  REQUIRE(first.requests().size() == 1);
  CHECK(first.requests()[0].headers.at("x-api-key") == key);
  CHECK(first.requests()[0].headers.at("user-agent") == "soilclock/test (turf@club.example)");
  REQUIRE(other.requests().size() == 1);
  CHECK(other.requests()[0].headers.count("x-api-key") == 0);
  CHECK(other.requests()[0].headers.at("user-agent") == "soilclock/test");
  CHECK(other.requests()[0].headers.at("accept") == "application/geo+json");
  CHECK_THAT(describe(answer.error()), !Contains(key));
}

TEST_CASE("a secret that the service repeats is hidden") {
  LoopbackServer server{in_turn({always(400, R"({"reason": "the key )" + key + R"( is not valid"})"),
                                 always(200, "unknown key " + key, "text/plain"),
                                 redirect(302, "http://" + key + ".example/")})};
  Asker asker;
  for (int i = 0; i < 3; ++i) {
    const auto answer = asker.client.send(with_key(server.url() + "/?x=" + key));
    REQUIRE_FALSE(answer);
    INFO(describe(answer.error()));
    CHECK_THAT(describe(answer.error()), !Contains(key));
    CHECK_THAT(answer.error().what, Contains("127.0.0.1"));
  }
}

TEST_CASE("a secret is hidden however the service writes it, and also where its text is cut") {
  const std::string given = "ab/cd+EF==\"x&y";
  const std::string long_reason(195, '.');
  for (const Reply& reply : {always(400, R"({"reason": "no key ab\/cd+EF==\"x&y"})"),
                             always(400, R"({"reason": "no key ab/cd+EF==\"x&y"})"),
                             always(403, R"({"detail": "no key \u0061b\u002fcd\u002BEF\u003d=\"x\u0026y"})"),
                             always(403, R"({"errorMessage": "no key ab%2Fcd%2bEF%3D%3D%22x%26y"})"),
                             always(422, R"({"messages": ["no key ab/cd+EF==&quot;x&amp;y"]})"),
                             always(422, R"({"messages": ["no key ab&#47;cd&#x2B;EF==&#34;x&#38;y"]})"),
                             always(400, R"({"reason": "{\"key\": \"ab\\/cd+EF==\\\"x&y\"}"})"),
                             always(400, R"({"reason": ")" + long_reason + R"(ab\/cd+EF==\"x&y"})"),
                             always(200, R"(no key ab\/cd+EF==\"x&y)", "text/plain"),
                             always(200, "no key ab%2Fcd%2bEF%3D%3D%22x%26y", "text/plain"),
                             always(200, std::string(30, '-') + given, "text/plain"),
                             always(200, R"({"a": ")" + given + std::string(55, '.')),
                             redirect(302, "http://AB%2Fcd+EF==%22x&y.example/")}) {
    LoopbackServer server{[&](const SeenRequest&) { return reply; }};
    Asker asker;
    net::HttpRequest request = with_key(server.url());
    request.secret_headers[0].second = given;
    const auto answer = asker.client.send(request);
    REQUIRE_FALSE(answer);
    const std::string text = describe(answer.error());
    INFO(reply.body);
    for (const char* part : {"ab/", "ab\\", "ab%", "ab&", "u0061b", "cd", "EF", "x&", "x%26", "x\\u"})
      CHECK_THAT(text, !Contains(part));
  }
}

TEST_CASE("how often a request was asked is told, whatever came of it") {
  LoopbackServer server{in_turn({always(503, "{}"), always(429, "{}"), redirect(302, "/there"),
                                 always(200, "{}"), always(400, "{}"), always(500, "{}")})};
  Asker asker;
  CHECK(asker.client.attempts() == 0);
  REQUIRE(asker.ask(server.url()));
  CHECK(asker.client.attempts() == 3);  // a redirect is a part of its attempt
  CHECK_FALSE(asker.ask(server.url()));
  CHECK(asker.client.attempts() == 1);
  CHECK_FALSE(asker.ask(server.url()));
  CHECK(asker.client.attempts() == 4);
  CHECK_FALSE(asker.ask("http://elsewhere.example/"));
  CHECK(asker.client.attempts() == 0);
}

TEST_CASE("a header with a line break is not sent") {
  LoopbackServer server{[](const SeenRequest&) { return always(200, "{}"); }};
  Asker asker;
  net::HttpRequest request = with_key(server.url());
  request.secret_headers[0].second = key + "\r\nX-Other: 1";
  const auto answer = asker.client.send(request);
  REQUIRE_FALSE(answer);
  CHECK_THAT(describe(answer.error()), Contains("line break") && !Contains(key));
  CHECK(server.requests().empty());
}
