// SPDX-License-Identifier: MIT
#include "web/session.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "core/limits.hpp"
#include "core/text.hpp"
#include "pipeline_compare.hpp"
#include "report/inspection.hpp"
#include "report/page/course_page.hpp"
#include "report/page/handout_page.hpp"
#include "report/page/portfolio_page.hpp"
#include "report/page/what_if_part.hpp"
#include "site/site_areas.hpp"
#include "web/weather_request.hpp"

namespace soilclock::web {

namespace {

Outcome refused(const Problem& problem) { return {exit_code(problem.family), {}, problem_line({}, problem)}; }

std::string problem_lines(const std::vector<advice::SiteAnswer>& answers) {
  std::string lines;
  for (const advice::SiteAnswer& answer : answers) {
    for (const Problem& problem : answer.problems) lines += problem_line(answer.site, problem);
  }
  return lines;
}

/// An id as the part of a link behind "#": bytes that are no letters or digits as "%2F".
std::string link_to(const std::string& id) {
  std::string link = "#";
  for (const char c : id) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
    if (plain)
      link += c;
    else
      link += fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return link;
}

}  // namespace

Outcome Session::put_file(const std::string& name, std::string_view bytes) {
  answers_.clear();
  read_.forget(name);
  files_.erase(name);
  if (bytes.size() > largest_file_bytes)
    return refused({Family::request,
                    fmt::format("this file is larger than {} MB", largest_file_bytes / 1'000'000),
                    {name, {}, {}, {}},
                    {},
                    {},
                    "cut it to the years needed"});
  files_.emplace(name, bytes);
  return {};
}

Outcome Session::put_answer(const std::string& name, int status, std::string_view bytes) {
  if (const auto problem = answer_problem(status, bytes)) return refused(*problem);
  return put_file(name, bytes);
}

void Session::drop_files() {
  answers_.clear();
  read_.forget_all();
  files_.clear();
}

Result<std::string> Session::read(const std::string& path) const {
  const auto found = files_.find(path);
  if (found != files_.end()) return found->second;
  return fail({Family::request,
               "this file was not handed over",
               {path, {}, {}, {}},
               {},
               {},
               "add the file the course names as its weather"});
}

Result<Session::Inquiry> Session::inquire(std::string_view sites, std::string_view options) {
  if (!catalogue_) {
    auto loaded = advice::load_catalogue(advice::built_in_files());
    if (!loaded) return fail(loaded.error());
    catalogue_ = std::move(*loaded);
  }
  auto question = read_question(options);
  if (!question) return fail(question.error());
  const std::filesystem::path file{question->sites_file};
  auto read_all = read_sites(sites, question->sites_file, file.parent_path().string());
  if (!read_all) return fail(read_all.error());
  for (const Site& site : *read_all) {
    if (!site.services.empty())
      return fail({Family::request,
                   "weather of a service cannot be used here: nothing is fetched",
                   {question->sites_file, {}, {}, {}},
                   site.services.front().id,
                   "{\"file\": ...}",
                   "use the soilclock program for it"});
  }
  auto wanted = chosen_sites(std::move(*read_all), question->only);
  if (!wanted) return fail(wanted.error());
  return Inquiry{std::move(*question), std::move(*wanted)};
}

Result<SiteRequest> Session::request_of(const Site& site, const Asked& asked) {
  auto request =
      site_request(site, asked, *catalogue_, [this](const std::string& path) { return read(path); });
  if (request)
    request->read_text = [this](std::string_view bytes, const std::string& file,
                                const weather::ReadingOptions& options) {
      return read_.read(bytes, file, options);
    };
  return request;
}

Outcome Session::advice(std::string_view sites, std::string_view options) {
  const auto inquiry = inquire(sites, options);
  if (!inquiry) return refused(inquiry.error());
  const Question& question = inquiry->question;
  std::vector<advice::SiteAnswer> answers;
  answers.reserve(inquiry->sites.size());
  for (const Site& site : inquiry->sites)
    answers.push_back(answered(site, request_of(site, question.asked), question.asked.on, *catalogue_,
                               {.past_seasons = question.past_seasons}));
  const report::AnswerFrame frame = frame_for(answers, question.asked.on, *catalogue_);
  return {exit_code_of(answers), report::advice_json(answers, frame), problem_lines(answers)};
}

const advice::SiteAnswer& Session::page_answer(const Site& site, const Question& question) {
  const auto known = answers_.find(site.id);
  if (known != answers_.end() && (known->second.past_seasons || !question.past_seasons))
    return known->second.answer;
  const Wanted wanted{true, question.past_seasons};
  advice::SiteAnswer answer =
      answered(site, request_of(site, question.asked), question.asked.on, *catalogue_, wanted);
  PageAnswer& kept = answers_[site.id];
  kept = {std::move(answer), question.past_seasons};
  return kept.answer;
}

Outcome Session::course(std::string_view sites, std::string_view options) {
  const auto inquiry = inquire(sites, options);
  if (!inquiry) return refused(inquiry.error());
  forget_others(sites, inquiry->question);
  const std::vector answers{page_answer(inquiry->sites.front(), inquiry->question)};
  const report::AnswerFrame frame = frame_for(answers, inquiry->question.asked.on, *catalogue_);
  return {exit_code_of(answers), report::course_body(answers.front(), frame), problem_lines(answers)};
}

Outcome Session::courses(std::string_view sites, std::string_view options) {
  const auto inquiry = inquire(sites, options);
  if (!inquiry) return refused(inquiry.error());
  forget_others(sites, inquiry->question);
  std::vector<advice::SiteAnswer> answers;
  std::vector<std::string> links;
  answers.reserve(inquiry->sites.size());
  links.reserve(inquiry->sites.size());
  for (const Site& site : inquiry->sites) {
    answers.push_back(page_answer(site, inquiry->question));
    links.push_back(link_to(site.id));
  }
  const report::AnswerFrame frame = frame_for(answers, inquiry->question.asked.on, *catalogue_);
  return {exit_code_of(answers), report::portfolio_body(answers, links, frame), problem_lines(answers)};
}

advice::SiteAnswer Session::case_answer(const Site& site, const Question& question,
                                        const WhatIfQuestion& what_if) {
  Asked asked = question.asked;
  if (!what_if.plan.empty()) asked.plan = what_if.plan;
  if (!what_if.target.empty()) asked.targets = {what_if.target};
  auto request = request_of(site, asked);
  if (request) request = changed(std::move(*request), what_if.change, catalogue_->practice.comparison);
  return answered(site, request, asked.on, *catalogue_, {true, false});
}

const advice::TargetAnswer* Session::target_as_read(const Site& site, const Question& question,
                                                    const advice::SiteAnswer& asked) {
  if (asked.targets.empty()) return nullptr;
  const std::vector<advice::TargetAnswer>& targets = page_answer(site, question).targets;
  const auto found = std::find_if(targets.begin(), targets.end(), [&](const auto& target) {
    return target.target == asked.targets.front().target;
  });
  return found == targets.end() ? nullptr : &*found;
}

Outcome Session::what_if(std::string_view sites, std::string_view options) {
  const auto inquiry = inquire(sites, options);
  if (!inquiry) return refused(inquiry.error());
  const Question& question = inquiry->question;
  forget_others(sites, question);
  const Site& site = inquiry->sites.front();
  const advice::SiteAnswer asked = case_answer(site, question, question.what_if);
  const advice::TargetAnswer* as_read = target_as_read(site, question, asked);
  Outcome outcome{exit_code_of({asked}), {}, problem_lines({asked})};
  if (as_read == nullptr) return outcome;
  outcome.result = report::what_if_part(*as_read, {"What if", &asked, &asked.targets.front()},
                                        question.what_if.weeks_later);
  return outcome;
}

Outcome Session::cases(std::string_view sites, std::string_view options) {
  const auto inquiry = inquire(sites, options);
  if (!inquiry) return refused(inquiry.error());
  const Question& question = inquiry->question;
  if (question.cases.empty())
    return refused({Family::request, "options: no cases are named", {}, {}, "\"cases\": [{...}, {...}]", {}});
  forget_others(sites, question);
  const Site& site = inquiry->sites.front();
  std::vector<advice::SiteAnswer> answers;
  answers.reserve(question.cases.size());
  for (const WhatIfQuestion& one : question.cases) answers.push_back(case_answer(site, question, one));
  const advice::TargetAnswer* as_read = target_as_read(site, question, answers.front());
  Outcome outcome{exit_code_of(answers), {}, problem_lines(answers)};
  std::vector<report::AskedCase> cases;
  for (std::size_t i = 0; i < answers.size(); ++i) {
    if (as_read == nullptr || answers[i].targets.empty()) return outcome;
    const WhatIfQuestion& one = question.cases[i];
    std::vector<std::string> words = change_words(one.change, question.asked.on,
                                                  catalogue_->practice.comparison, answers[i].facts.us_units);
    if (!one.plan.empty()) words.push_back("plan " + one.plan);
    cases.push_back({words.empty() ? "nothing changed" : fmt::format("{}", fmt::join(words, ", ")),
                     &answers[i], &answers[i].targets.front()});
  }
  outcome.result = report::cases_part(*as_read, cases);
  return outcome;
}

Outcome Session::comparison(std::string_view sites, std::string_view options) {
  const auto inquiry = inquire(sites, options);
  if (!inquiry) return refused(inquiry.error());
  const Question& question = inquiry->question;
  const Site& site = inquiry->sites.front();
  auto request = request_of(site, question.asked);
  if (!request) return refused(request.error());
  const advice::SiteComparison compared = compare_site(std::move(*request), *catalogue_);
  const report::AnswerFrame frame = frame_for({compared.answer}, question.asked.on, *catalogue_);
  Outcome outcome{exit_code_of({compared.answer}), {}, problem_lines({compared.answer})};
  for (const advice::TargetComparison& target : compared.targets)
    outcome.result += report::handout_body(compared, target, frame, "section");
  for (const advice::NotCompared& target : compared.not_compared)
    outcome.problems += fmt::format("soilclock: {}: {}\n", target.title, target.why);
  return outcome;
}

void Session::forget_others(std::string_view sites, const Question& question) {
  std::string asked =
      fmt::format("{}\n{}\n{}\n{}\n{}\n", iso(question.asked.on), question.sites_file,
                  fmt::join(question.asked.targets, ","), question.asked.plan, question.asked.units);
  asked += sites;
  if (asked == answered_for_) return;
  answers_.clear();
  answered_for_ = std::move(asked);
}

Outcome Session::weather_request(std::string_view options) {
  const auto question = read_place_question(options);
  if (!question) return refused(question.error());
  auto request = web::weather_request(*question);
  if (!request) return refused(request.error());
  return {0, std::move(*request), {}};
}

Outcome Session::inspection(std::string_view options) const {
  auto question = read_inspection_question(options);
  if (!question) return refused(question.error());
  auto bytes = read(question->file);
  if (!bytes) return refused(bytes.error());
  const auto inspected = read_for_inspection(
      {{question->file, std::move(*bytes), false, question->reading, false}}, question->units);
  if (!inspected) return refused(inspected.error());
  const auto& [files, us_units] = *inspected;
  const std::string result = question->format == "json" ? report::inspection_json(files, false)
                                                        : report::inspection_text(files, false, us_units);
  const auto& refusal = files.front().refusal;
  return {refusal ? exit_code(refusal->family) : 0, result, refusal ? problem_line({}, *refusal) : ""};
}

}  // namespace soilclock::web
