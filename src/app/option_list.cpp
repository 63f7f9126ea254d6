// SPDX-License-Identifier: MIT
#include "app/option_list.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soilclock::app {

namespace {

class OptionList : public Options {
 public:
  void under(Heading heading) override { heading_ = heading; }
  void text(const std::string& name, std::string& /*variable*/, const std::string& help) override {
    add(name, help);
  }
  using Options::texts;
  void texts(const std::string& name, std::vector<std::string>& /*variable*/, const std::string& help,
             bool several) override {
    add(name, help_of_several(help, several));
  }
  void number(const std::string& name, std::optional<double>& /*variable*/,
              const std::string& help) override {
    add(name, help);
  }
  void whole(const std::string& name, std::optional<int>& /*variable*/, const std::string& help) override {
    add(name, help);
  }
  void flag(const std::string& name, bool& /*variable*/, const std::string& help) override {
    add(name, help);
  }
  void choice(const std::string& name, std::string& /*variable*/, const std::vector<std::string>& offered,
              const std::string& help) override {
    add(name, help_of_choice(help, offered));
    options_.back().offered = offered;
  }
  void positional(const std::string& name, std::vector<std::string>& /*variable*/,
                  const std::string& help) override {
    options_.push_back({heading_, name, {}, help, {}, true});
  }

  std::vector<ListedOption> sorted() {
    std::stable_sort(options_.begin(), options_.end(),
                     [](const ListedOption& a, const ListedOption& b) { return a.heading < b.heading; });
    return std::move(options_);
  }

 private:
  void add(const std::string& name, std::string help) {
    const auto blank = name.find(' ');
    options_.push_back({heading_,
                        name.substr(0, blank),
                        blank == std::string::npos ? "" : name.substr(blank + 1),
                        std::move(help),
                        {},
                        false});
  }

  Heading heading_ = Heading::answer;
  std::vector<ListedOption> options_;
};

}  // namespace

std::string heading_words(Heading heading) {
  switch (heading) {
    case Heading::site:
      return "Site";
    case Heading::weather_file:
      return "Weather file";
    case Heading::answer:
      return "Answer";
    case Heading::advanced:
      break;
  }
  return "Advanced";
}

std::string help_of_choice(const std::string& help, const std::vector<std::string>& offered) {
  return fmt::format("{}: {}", help, fmt::join(offered, ", "));
}

std::string help_of_several(const std::string& help, bool several) {
  return several ? help + "; may be repeated" : help;
}

std::vector<ListedOption> options_of(Command& command) {
  OptionList list;
  command.declare(list);
  return list.sorted();
}

}  // namespace soilclock::app
