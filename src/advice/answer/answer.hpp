// SPDX-License-Identifier: MIT
// The answer for one site: what every report is made from.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/answer/season_days.hpp"
#include "advice/decision/decision.hpp"
#include "advice/scouting/earlier_season.hpp"
#include "advice/site/soil_rules.hpp"
#include "core/band.hpp"
#include "core/place.hpp"
#include "core/problem.hpp"
#include "core/rain.hpp"
#include "core/remark.hpp"
#include "core/time_zone.hpp"
#include "emergence/stages.hpp"
#include "treatment/gates.hpp"
#include "treatment/turf_state.hpp"
#include "weather/weather_origin.hpp"

namespace soilclock::advice {

/// A component model's say.
struct ModelShare {
  std::string id;
  std::string title;
  double weight = 0.0;               ///< share of the ensemble
  double percent = 0.0;              ///< emerged by this model alone (median of its members)
  std::vector<std::string> sources;  ///< ids of its citations
  std::string why_no_weight;         ///< a clause, where the weight is zero; else empty
};

/// The date by component models that lie close together, where others lie far off.
struct ModelsDate {
  Day date{};
  double weight = 0.0;                   ///< share of the members
  std::vector<std::string> models = {};  ///< their titles
};

/// When a share of the season's emergence is reached.
struct Milestone {
  int percent = 0;
  DateBand date;
  /// Two dates, the earlier first, where the component models stand too far apart for the middle between them
  /// to mean a day; else none.
  std::vector<ModelsDate> either = {};
};

struct Window {
  treatment::Kind kind = treatment::Kind::pre;
  DateBand opens;
  DateBand closes;
  /// As in a milestone, where the component models stand far apart.
  std::vector<ModelsDate> opens_either = {};
  std::vector<ModelsDate> closes_either = {};
};

/// What the answer was before the counts of the field were used.
struct BeforeScouting {
  Band<double> emerged_percent;
  std::vector<Milestone> milestones;
};

/// A row of the weeks table with what stops or cautions in it.
struct WeekRow {
  TreatmentWeek week;
  std::vector<treatment::Gate> gates;
};

/// The plan an answer is for.
struct PlanShown {
  bool given = false;
  std::vector<std::string> entries;  ///< actives and groups as the user named them
  std::optional<Band<double>>
      residual_weeks;  ///< at 20 C, least, middle, most; empty: the plan has no residual
  std::optional<treatment::FoliarClass> foliar;  ///< empty: not said
  bool has_residual = true;
  bool has_foliar = true;
  /// Points of expected control that adding the missing part would gain; empty: nothing is missing.
  std::optional<double> missing_part_gains;
  std::vector<std::string> not_counted;  ///< actives nothing is known of on this grass
  std::vector<std::string> more_sprays;  ///< actives whose figures need more than one spray
  std::string words;                     ///< all of it as one clause; empty where none is given
};

/// What another class of plan would change, where none is given.
struct OtherPlan {
  bool long_residual = false;
  treatment::FoliarClass foliar = treatment::FoliarClass::contact;
  Decision decision;
};

/// A plan decided for beside the site's own, from the same members.
struct ComparedPlan {
  Decision decision;                  ///< knows of passed weeks only where the tables were asked for
  std::vector<TreatmentWeek> weeks;   ///< where asked for: from this week to the last useful one
  std::vector<TreatmentWeek> passed;  ///< where asked for: the season's weeks before this one
};

/// One of the lines below the headline.
struct BriefLine {
  std::string label;  ///< "why", "until", "next", "plan", "doubt", ...
  std::string text;
};

/// A date with its reason.
struct DatedReason {
  Day date{};
  std::string why;
};

/// What the applications noted this season mean for the weeks ahead.
struct AfterApplication {
  std::optional<Day> residual_on;           ///< the latest with a residual part
  std::optional<double> dose_left_percent;  ///< of a full dose, on the day of the answer, middle
  std::optional<Day> residual_ends;         ///< middle; empty: not this season
  std::optional<Day> foliar_on;             ///< the latest with a foliar part
  std::optional<DayRange> look;             ///< when its survivors can be seen, while that is to come
};

/// What of an answer changed against an earlier one.
enum class ChangeKind { newly_urgent, best_weeks_moved, kind_changed, newly_finished };

struct AnswerChange {
  ChangeKind what = ChangeKind::newly_urgent;
  std::string text;  ///< a clause
};

/// The changes since an earlier answer of the same season; none of them where all stands as it stood.
struct ChangesSince {
  Day since{};  ///< issue date of the earlier answer
  std::vector<AnswerChange> changes;
};

/// What a date of an answer is for a calendar.
enum class EventKind { best_weeks, good_through, then, second_pre, next_look };

struct DatedEvent {
  EventKind what = EventKind::best_weeks;
  DayRange days;
};

/// The answer for one target grass at one site.
struct TargetAnswer {
  std::string target;  ///< EPPO code
  std::string title;   ///< "annual bluegrass"
  Day season_start{};
  std::optional<Problem> refusal;  ///< set when no answer can be given; the rest is then empty
  Decision decision;
  std::string headline;          ///< what to do first, without site and grass
  std::string call;              ///< the headline without its figures, one or two sentences
  std::string call_figures;      ///< its figures, one sentence: "Expected control 74%, ..."; may be empty
  std::string lead;              ///< a second sentence: what it rests on
  std::string in_short;          ///< the headline for one line: shorter words, fewer figures
  std::vector<BriefLine> brief;  ///< the few lines that matter below the headline
  std::optional<treatment::Kind>
      by_percent;              ///< what the rules of thumb by percent emerged call for; empty: too early
  std::vector<WeekRow> weeks;  ///< from this week to the last useful one
  std::optional<Day> last_useful_week;
  PlanShown plan;
  std::vector<OtherPlan> other_plans;  ///< the classes of plan, where none is given and none is compared
  std::vector<ComparedPlan> compared_plans;  ///< in the order they were asked for
  std::optional<AfterApplication> after;
  std::optional<DatedReason> next_look;
  std::optional<DatedReason> second_pre;  ///< when a residual noted is spent with seedlings still to come
  std::optional<std::string> models_disagree;  ///< said in the headline
  Band<double> emerged_percent;
  Band<double> juvenile_percent;  ///< of those up
  emergence::StageShares stages;  ///< means over the members
  std::vector<ModelShare> models;
  std::vector<Milestone> milestones;
  std::optional<BeforeScouting> before_scouting;  ///< where counts moved the curve
  std::optional<Learned> learned;                 ///< where earlier seasons were noted
  DateBand main_wave_over;
  std::vector<Window> windows;
  std::vector<SoilRuleStatus> soil_rules;
  std::vector<std::string> reasons;
  std::vector<Remark> remarks;
  std::vector<SeasonDay> season;            ///< the day table, when asked for
  std::vector<SeasonSummary> past_seasons;  ///< the record's own, oldest first, when asked for
  std::optional<UsualSeason> usual;         ///< with past_seasons
  std::vector<NoteShown> notes;             ///< of this season, oldest first
  std::optional<ChangesSince> changed;      ///< where an earlier answer of this season is stored
  std::vector<DatedEvent> withdrawn;        ///< announced by an earlier answer, to come, and not in this one
};

/// Weather and soil as the answer used them.
struct WeatherSummary {
  std::optional<Day> first;
  std::optional<Day> last_measured;
  std::optional<Day> last_forecast;
  int missing_days = 0;
  int filled_days = 0;
  int age_days = 0;                             ///< days since the last measured one; 1: yesterday is known
  std::optional<Instant> fetched_at;            ///< of the newest fetched answer; empty: files only
  std::vector<weather::WeatherOrigin> origins;  ///< services the weather was fetched from
};

struct SoilSummary {
  Depth depth = Depth::from_cm(5.0);
  std::string origin;  ///< "estimated", "measured", "mixed"
  std::optional<Temperature> mean_7d;
  double error_c = 0.0;  ///< standard deviation of the daily value
};

/// One of the coming seven days.
struct DayAhead {
  Day day{};
  std::optional<bool> fit;  ///< empty: not known
  std::string why;          ///< what stands for or against it; may be empty
  std::optional<Rain> rain;
  std::optional<double> wind_m_s;      ///< mean of the usable (else the daylight) hours; empty: not known
  std::optional<double> usable_hours;  ///< empty: not known by the hour
};

/// The coming seven days, judged for what the week calls for.
struct SprayWeek {
  std::optional<int> fit_days;  ///< empty: no day could be judged
  std::vector<DayAhead> days;
  std::vector<Remark> remarks;
};

/// The area of a course that an answer is for: a place of its own under the course's weather.
struct AreaFacts {
  std::string course;              ///< id of the course
  std::string course_name;         ///< its name
  std::string name;                ///< "north tee"
  std::vector<std::string> among;  ///< all areas of the course by name, this one too
};

/// What the site is, as the user gave it.
struct SiteFacts {
  std::optional<treatment::TurfSpecies> turf;
  std::optional<bool> irrigated;
  std::optional<Day> overseed_on;
  bool us_units = false;
  std::string time_zone;          ///< as the site has it; empty: not said
  std::string group;              ///< of the site file, to sort courses by; empty: none
  std::optional<AreaFacts> area;  ///< empty: the site is a whole course
};

/// What the ensemble behind an answer was.
struct RunSettings {
  int members = 0;
  std::uint64_t seed = 0;
  double band_level = 0.8;  ///< of all bands
};

struct SiteAnswer {
  std::string site;
  std::string name;
  Place place;
  Day on{};
  SiteFacts facts;
  RunSettings settings;
  WeatherSummary weather;
  SoilSummary soil;
  std::optional<treatment::TurfAssessment> turf;  ///< bermudagrass and zoysiagrass
  std::optional<SprayWeek> spray;
  std::vector<TargetAnswer> targets;
  std::optional<std::string> priority_warning;  ///< what must be heeded before anything else, one sentence
  std::vector<Remark> remarks;                  ///< about the site as a whole
  std::vector<Problem> problems;                ///< what kept (part of) the answer from being given
};

}  // namespace soilclock::advice
