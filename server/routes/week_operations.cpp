#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "core/input_error.hpp"
#include "server/routes/operations.hpp"
#include "shop/school/week.hpp"
#include "shop/times.hpp"
#include "shop/words.hpp"

/// A span of the record in figures.
namespace brakewright::server {
namespace {

constexpr std::chrono::days kUsualSpan{7};

std::string_view word_of(shop::WeekWork work) {
  static constexpr std::string_view kWords[] = {"arrival", "measuring", "deciding",  "mounting",
                                                "cutting", "finishing", "refitting", "closing"};
  return kWords[static_cast<std::size_t>(work)];
}

shop::UtcTime time_in(const std::string& text, const std::string& field) {
  try {
    return shop::parse_time(text);
  } catch (const InputError& refusal) {
    throw refusal.within(field);
  }
}

std::string_view word_of(shop::WeekHelpWith what) {
  static constexpr std::string_view kWords[] = {"reading", "measuring", "deciding",  "cutting",
                                                "safety",  "permit",    "competence"};
  return kWords[static_cast<std::size_t>(what)];
}

Json json_of(const shop::Share& one) {
  return {{"count", one.count}, {"of", one.of}, {"low95", one.low95}, {"high95", one.high95}};
}

Json json_of(const shop::WeekTime& one) {
  return {{"work", word_of(one.work)}, {"minutes", one.minutes}, {"jobs", one.jobs}, {"job_numbers", one.job_numbers}};
}

Json json_of(const shop::WeekWaiting& one) {
  return {{"lathe_id", shop::to_text(one.lathe_id)},
          {"jobs", one.jobs},
          {"minutes", one.minutes},
          {"longest_minutes", one.longest_minutes},
          {"job_numbers", one.job_numbers}};
}

Json json_of(const shop::WeekInstrument& one) {
  return {{"instrument_id", shop::to_text(one.instrument_id)},
          {"readings", one.readings},
          {"questioned", one.questioned},
          {"taken_back", one.taken_back},
          {"zero_error_um", calc::or_null(one.zero_error_um)},
          {"in_doubt", json_of(one.in_doubt)},
          {"stands_out", one.stands_out},
          {"job_numbers", one.job_numbers}};
}

Json json_of(const shop::WeekPiece& one) {
  return {{"piece_id", shop::to_text(one.piece_id)}, {"proofs", one.proofs},      {"over_rule", one.over_rule},
          {"mean_runout_um", one.mean_runout_um},    {"over", json_of(one.over)}, {"stands_out", one.stands_out},
          {"job_numbers", one.job_numbers}};
}

Json json_of(const shop::WeekHelp& one) {
  return {{"what", word_of(one.what)},
          {"text", one.text},
          {"job_numbers", one.job_numbers},
          {"study_id", one.study_id ? Json(shop::to_text(*one.study_id)) : Json()}};
}

Json json_of(const shop::WeekCorner& one) {
  return {{"number", one.number},
          {"condition", shop::word_of(one.condition)},
          {"used_m", one.used_m},
          {"passes", one.passes},
          {"parts", one.parts},
          {"cut_m", one.cut_m},
          {"metal_cm3", calc::or_null(one.metal_cm3)},
          {"job_numbers", one.job_numbers}};
}

Json json_of(const shop::WeekPerson& one);
Json json_of(const shop::WeekInsert& one);

template <class E>
Json listed(const std::vector<E>& all) {
  Json list = Json::array();
  for (const E& one : all) list.push_back(json_of(one));
  return list;
}

Json json_of(const shop::WeekPerson& one) {
  return {{"person_id", shop::to_text(one.person_id)},
          {"jobs", one.jobs},
          {"readings", one.readings},
          {"questioned", one.questioned},
          {"taken_back", one.taken_back},
          {"decided_otherwise", one.decided_otherwise},
          {"stopped_passes", one.stopped_passes},
          {"help", listed(one.help)},
          {"job_numbers", one.job_numbers}};
}

Json json_of(const shop::WeekInsert& one) {
  return {
      {"insert_id", shop::to_text(one.insert_id)}, {"passes", one.passes},   {"used_m", one.used_m},
      {"sharp_corners", one.sharp_corners},        {"corners", one.corners}, {"corner_use", listed(one.corner_use)}};
}

Json json_of(const shop::WeekFigures& figures, std::optional<double> price, std::optional<double> cost) {
  std::optional<double> saved;
  if (price) saved = shop::money_saved(figures, *price, cost.value_or(0));
  return {{"from", shop::to_text(figures.from)},
          {"to", shop::to_text(figures.to)},
          {"jobs", figures.jobs},
          {"sealed_jobs", figures.sealed_jobs},
          {"time", listed(figures.time)},
          {"waiting", listed(figures.waiting)},
          {"instruments", listed(figures.instruments)},
          {"pieces", listed(figures.pieces)},
          {"proofs", figures.proofs},
          {"proofs_over_rule", figures.proofs_over_rule},
          {"people", listed(figures.people)},
          {"inserts", listed(figures.inserts)},
          {"parts_cut", figures.parts_cut},
          {"parts_left", figures.parts_left},
          {"parts_replaced", figures.parts_replaced},
          {"cut_job_numbers", figures.cut_job_numbers},
          {"left_job_numbers", figures.left_job_numbers},
          {"replaced_job_numbers", figures.replaced_job_numbers},
          {"money_saved", calc::or_null(saved)}};
}

}  // namespace

void add_week_operations(Operations& operations, Surroundings& around) {
  operations["week"] = [&](const Call& call) {
    const auto to_text = call.text("to"), from_text = call.text("from");
    const shop::UtcTime to = to_text ? time_in(*to_text, "to") : around.now();
    const shop::UtcTime from = from_text ? time_in(*from_text, "from") : to - kUsualSpan;
    return json_answer(json_of(shop::week_of(around.shop, *around.school, from, to), call.decimal("part_price"),
                               call.decimal("cut_cost")));
  };
}

}  // namespace brakewright::server
