#include "server/routes/study_answers.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "shop/find.hpp"
#include "shop/json.hpp"

namespace brakewright::server {

using calc::or_null;
namespace study = gauge_study;

namespace {

Json json_of(const shop::StudyProgress& progress) {
  return {{"person_id", shop::to_text(progress.person_id)}, {"done", progress.done}, {"of", progress.of}};
}

Json list_of(const std::vector<shop::StudyProgress>& all) {
  Json list = Json::array();
  for (const auto& progress : all) list.push_back(json_of(progress));
  return list;
}

Json json_of(const study::Interval& interval) { return {{"low95", interval.low95}, {"high95", interval.high95}}; }

template <class T>
Json or_nothing(const std::optional<T>& value) {
  return value ? json_of(*value) : Json(nullptr);
}

std::string_view word_of(shop::StudyCause cause) {
  switch (cause) {
    case shop::StudyCause::ratchet:
      return "ratchet";
    case shop::StudyCause::zero:
      return "zero";
    case shop::StudyCause::jaws:
      return "jaws";
    case shop::StudyCause::place:
      return "place";
    case shop::StudyCause::instrument:
      return "instrument";
    case shop::StudyCause::parts:
      return "parts";
    case shop::StudyCause::nothing:
      break;
  }
  return "nothing";
}

Json json_of(const shop::StudyWords& words) {
  const auto id = [](const std::optional<shop::Uuid>& one) { return one ? Json(shop::to_text(*one)) : Json(nullptr); };
  return {{"cause", word_of(words.cause)},
          {"person_id", id(words.person_id)},
          {"instrument_id", id(words.instrument_id)},
          {"text", words.text},
          {"value", or_null(words.value_um)},
          {"p", or_null(words.p)}};
}

Json json_of(const study::PartError& error) {
  return {{"reference_part_id", error.part},
          {"mean_um", error.mean},
          {"reference_um", error.reference},
          {"difference_um", error.difference},
          {"en", or_null(error.en)}};
}

Json json_of(const shop::StudyGroup& group) {
  const study::Group& figures = group.figures;
  Json errors = Json::array();
  for (const auto& error : figures.errors) errors.push_back(json_of(error));
  return {{"id", shop::to_text(group.id)},
          {"readings", figures.readings},
          {"mean_um", figures.mean},
          {"repeatability_sd_um", or_null(figures.repeatability_sd)},
          {"repeatability_interval_um", or_nothing(figures.repeatability_interval)},
          {"spread_ratio", or_null(figures.spread_ratio)},
          {"spread_p", or_null(figures.spread_p)},
          {"offset_um", or_null(figures.offset)},
          {"offset_interval_um", or_nothing(figures.offset_interval)},
          {"offset_p", or_null(figures.offset_p)},
          {"bias_um", or_null(figures.bias)},
          {"bias_interval_um", or_nothing(figures.bias_interval)},
          {"bias_p", or_null(figures.bias_p)},
          {"u_reading_um", figures.u_reading},
          {"u_reading_basis", study::name_of(figures.u_reading_basis)},
          {"parts_within", group.parts_within},
          {"parts_marked", group.parts_marked},
          {"errors", std::move(errors)}};
}

Json list_of(const std::vector<shop::StudyGroup>& groups) {
  Json list = Json::array();
  for (const auto& group : groups) list.push_back(json_of(group));
  return list;
}

Json effect(const std::string& source, const std::optional<study::Effect>& told) {
  if (!told) return nullptr;
  return {{"source", source},   {"ss_um2", told->ss},    {"df", told->df},
          {"ms_um2", told->ms}, {"f", or_null(told->f)}, {"p", or_null(told->p)}};
}

Json table_of(const study::Study& made) {
  const auto& model = made.is_pooled || !made.full ? made.pooled : made.full;
  Json table = Json::array();
  if (!model) return table;
  for (Json line :
       {effect("part", model->table.part), effect("person", model->table.operators),
        effect("interaction", model->table.interaction), effect("repeatability", model->table.repeatability)}) {
    if (!line.is_null()) table.push_back(std::move(line));
  }
  return table;
}

/// A figure with its 95 % interval.
Json figure(const std::optional<double>& value, const std::optional<study::Interval>& interval) {
  if (!value) return nullptr;
  return {{"value", *value}, {"interval", or_nothing(interval)}};
}

Json figures_of(const study::Study& made) {
  const study::Figures& told = made.figures;
  const study::Intervals& within = made.intervals;
  const auto ndc = told.ndc_uncut ? Json(static_cast<std::int64_t>(std::min(*told.ndc_uncut, 1e9))) : Json(nullptr);
  return {{"repeatability_sd_um", figure(told.repeatability_sd, within.repeatability_sd)},
          {"person_sd_um", figure(told.operator_sd, within.operator_sd)},
          {"interaction_sd_um", figure(told.interaction_sd, within.interaction_sd)},
          {"reproducibility_sd_um", figure(told.reproducibility_sd, within.reproducibility_sd)},
          {"grr_sd_um", figure(told.grr_sd, within.grr_sd)},
          {"part_sd_um", figure(told.part_sd, within.part_sd)},
          {"total_sd_um", figure(told.total_sd, within.total_sd)},
          {"percent_grr", figure(told.percent_grr, within.percent_grr)},
          {"percent_tolerance", figure(told.percent_tolerance, within.percent_tolerance)},
          {"ndc", ndc},
          {"ndc_uncut", figure(told.ndc_uncut, within.ndc_uncut)},
          {"is_pooled", made.is_pooled},
          {"table", table_of(made)}};
}

Json cells_of(const study::Study& made) {
  Json cells = Json::array();
  for (const study::Cell& cell : made.cells) {
    cells.push_back({{"reference_part_id", cell.part},
                     {"person_id", cell.operator_name},
                     {"mean_um", cell.mean},
                     {"sd_um", or_null(cell.sd)}});
  }
  return cells;
}

template <class E>
std::string name_of(const std::vector<E>& all, const shop::Uuid& id) {
  const E* found = shop::find(all, id);
  return found == nullptr ? "" : found->name;
}

}  // namespace

Json answer_of(const shop::StudyFile& file, const std::vector<shop::ReferencePart>& parts) {
  Json named = Json::array();
  for (const shop::Uuid& id : file.study.reference_part_ids) {
    const shop::ReferencePart* part = shop::find(parts, id);
    if (part == nullptr) continue;
    named.push_back({{"id", shop::to_text(id)}, {"name", part->name}, {"place_words", part->place_words}});
  }
  return {{"study", shop::to_json(file.study)},
          {"parts", std::move(named)},
          {"progress", list_of(shop::progress_of(file.study, file.readings))}};
}

Json next_of(const shop::StudyFile& file, const shop::Uuid& person_id, const std::vector<shop::StudyPlace>& open,
             const std::vector<shop::ReferencePart>& parts, const std::vector<shop::Instrument>& instruments) {
  Json ahead = Json::array();
  for (const shop::StudyPlace& place : open) {
    const shop::ReferencePart* part = shop::find(parts, place.reference_part_id);
    ahead.push_back({{"reference_part_id", shop::to_text(place.reference_part_id)},
                     {"part_name", part == nullptr ? "" : part->name},
                     {"place_words", part == nullptr ? "" : part->place_words},
                     {"instrument_id", shop::to_text(place.instrument_id)},
                     {"instrument_name", name_of(instruments, place.instrument_id)},
                     {"repeat", place.repeat}});
  }
  Json newest = nullptr;
  for (const shop::StudyReading& reading : file.readings) {
    if (reading.person_id == person_id && !reading.withdrawn_at) newest = shop::to_json(reading);
  }
  const auto of = static_cast<std::int64_t>(shop::order_of(file.study, person_id).size());
  return {{"study_id", shop::to_text(file.study.id)},
          {"person_id", shop::to_text(person_id)},
          {"done", of - static_cast<std::int64_t>(open.size())},
          {"of", of},
          {"ahead", std::move(ahead)},
          {"newest", std::move(newest)}};
}

Json answer_of(const shop::StudyFile& file, const shop::StudyAnswer& answer) {
  Json words = Json::array(), readings = Json::array();
  for (const auto& one : answer.words) words.push_back(json_of(one));
  for (const auto& reading : answer.readings) readings.push_back(shop::to_json(reading));
  const auto& made = answer.figures;
  return {{"study_id", shop::to_text(answer.study_id)},
          {"closed", file.study.closed},
          {"left_out", list_of(answer.left_out)},
          {"missing", answer.missing},
          {"figures", made ? figures_of(*made) : Json(nullptr)},
          {"people", list_of(answer.people)},
          {"instruments", list_of(answer.instruments)},
          {"cells", made ? cells_of(*made) : Json::array()},
          {"words", std::move(words)},
          {"notes", made ? Json(made->notes) : Json::array()},
          {"readings", std::move(readings)}};
}

}  // namespace brakewright::server
