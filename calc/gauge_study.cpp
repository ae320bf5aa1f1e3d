#include "core/gauge_study/gauge_study.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"

namespace brakewright::calc {
namespace {

using namespace gauge_study;

Row read_row(Reader& reader) {
  Row row{.part = reader.label("part"), .operator_name = reader.label("operator"), .value = reader.number("value")};
  if (reader.has("instrument")) row.instrument = reader.label("instrument");
  reader.done();
  return row;
}

Reference read_reference(Reader& reader) {
  Reference reference{.part = reader.label("part"), .value = reader.number("value"), .u = reader.number("u")};
  reader.done();
  return reference;
}

Json json_of(const char* source, const Effect& effect) {
  return {{"source", source}, {"ss", effect.ss},        {"df", effect.df},
          {"ms", effect.ms},  {"f", or_null(effect.f)}, {"p", or_null(effect.p)}};
}

/// @param by  whose column: "operator" or "instrument"
Json json_of(const Table& table, const char* by) {
  Json rows = Json::array({json_of("part", table.part)});
  if (table.operators) rows.push_back(json_of(by, *table.operators));
  if (table.interaction) rows.push_back(json_of("interaction", *table.interaction));
  rows.push_back(json_of("repeatability", table.repeatability));
  rows.push_back({{"source", "total"},
                  {"ss", table.ss_total},
                  {"df", table.df_total},
                  {"ms", nullptr},
                  {"f", nullptr},
                  {"p", nullptr}});
  return rows;
}

Json table_of(const std::optional<Model>& model) { return model ? json_of(model->table, "operator") : Json(nullptr); }

Json components_of(const std::optional<Model>& model) {
  if (!model) return nullptr;
  const Components& found = model->components;
  return {{"repeatability", found.repeatability},
          {"operator", or_null(found.operators)},
          {"interaction", or_null(found.interaction)},
          {"reproducibility", or_null(found.reproducibility)},
          {"grr", found.grr},
          {"part", found.part},
          {"total", found.total},
          {"operator_unclipped", or_null(found.operators_unclipped)},
          {"interaction_unclipped", or_null(found.interaction_unclipped)},
          {"part_unclipped", found.part_unclipped}};
}

Json json_of(const std::optional<Interval>& interval) {
  if (!interval) return nullptr;
  return {{"low95", interval->low95}, {"high95", interval->high95}};
}

/// Cut to whole.
Json whole(const std::optional<double>& number) { return number ? Json(std::floor(*number)) : Json(nullptr); }

Json json_of(const Intervals& intervals) {
  Json ndc;
  if (intervals.ndc_uncut) {
    ndc = {{"low95", std::floor(intervals.ndc_uncut->low95)}, {"high95", std::floor(intervals.ndc_uncut->high95)}};
  }
  return {{"repeatability_sd", json_of(intervals.repeatability_sd)},
          {"operator_sd", json_of(intervals.operator_sd)},
          {"interaction_sd", json_of(intervals.interaction_sd)},
          {"reproducibility_sd", json_of(intervals.reproducibility_sd)},
          {"grr_sd", json_of(intervals.grr_sd)},
          {"part_sd", json_of(intervals.part_sd)},
          {"total_sd", json_of(intervals.total_sd)},
          {"percent_grr", json_of(intervals.percent_grr)},
          {"percent_tolerance", json_of(intervals.percent_tolerance)},
          {"ndc", ndc},
          {"ndc_uncut", json_of(intervals.ndc_uncut)}};
}

Json json_of(const Group& group) {
  Json errors = Json::array();
  for (const PartError& error : group.errors) {
    errors.push_back({{"part", error.part},
                      {"mean", error.mean},
                      {"reference", error.reference},
                      {"u_reference", error.u_reference},
                      {"difference", error.difference},
                      {"en", or_null(error.en)}});
  }
  return {{"name", group.name},
          {"readings", group.readings},
          {"mean", group.mean},
          {"repeatability_sd", or_null(group.repeatability_sd)},
          {"dof", group.dof},
          {"repeatability_interval", json_of(group.repeatability_interval)},
          {"spread_ratio", or_null(group.spread_ratio)},
          {"spread_p", or_null(group.spread_p)},
          {"offset", or_null(group.offset)},
          {"offset_interval", json_of(group.offset_interval)},
          {"offset_p", or_null(group.offset_p)},
          {"bias", or_null(group.bias)},
          {"u_bias", or_null(group.u_bias)},
          {"bias_interval", json_of(group.bias_interval)},
          {"bias_p", or_null(group.bias_p)},
          {"errors", errors},
          {"u_reading", group.u_reading},
          {"u_reading_basis", name_of(group.u_reading_basis)}};
}

Json json_of(const std::vector<Group>& groups) {
  Json list = Json::array();
  for (const Group& group : groups) list.push_back(json_of(group));
  return list;
}

Json json_of(const std::optional<ByInstrument>& by) {
  if (!by) return nullptr;
  return {{"anova", by->table ? json_of(*by->table, "instrument") : Json(nullptr)},
          {"instruments", json_of(by->groups)}};
}

Json json_of(const std::vector<gauge_study::Finding>& findings) {
  Json list = Json::array();
  for (const gauge_study::Finding& finding : findings) {
    list.push_back({{"code", name_of(finding.code)},
                    {"who", finding.who ? Json(*finding.who) : Json(nullptr)},
                    {"value", or_null(finding.value)},
                    {"p", or_null(finding.p)}});
  }
  return list;
}

Json json_of(const std::vector<Cell>& cells) {
  Json list = Json::array();
  for (const Cell& cell : cells) {
    list.push_back(
        {{"part", cell.part}, {"operator", cell.operator_name}, {"mean", cell.mean}, {"sd", or_null(cell.sd)}});
  }
  return list;
}

Json p_interaction_of(const Study& study) {
  if (!study.full || !study.full->table.interaction) return nullptr;
  return or_null(study.full->table.interaction->p);
}

}  // namespace

Json to_json(const Study& study) {
  const Figures& figures = study.figures;
  return {{"parts", study.parts},
          {"operators", study.operators},
          {"repeats", study.repeats},
          {"anova", table_of(study.full)},
          {"anova_pooled", table_of(study.pooled)},
          {"p_interaction", p_interaction_of(study)},
          {"interaction_pooled", study.is_pooled},
          {"variance_components", {{"full", components_of(study.full)}, {"pooled", components_of(study.pooled)}}},
          {"repeatability_sd", figures.repeatability_sd},
          {"operator_sd", or_null(figures.operator_sd)},
          {"interaction_sd", or_null(figures.interaction_sd)},
          {"reproducibility_sd", or_null(figures.reproducibility_sd)},
          {"grr_sd", figures.grr_sd},
          {"part_sd", figures.part_sd},
          {"total_sd", figures.total_sd},
          {"percent_grr", or_null(figures.percent_grr)},
          {"percent_tolerance", or_null(figures.percent_tolerance)},
          {"ndc", whole(figures.ndc_uncut)},
          {"ndc_uncut", or_null(figures.ndc_uncut)},
          {"intervals", json_of(study.intervals)},
          {"cells", json_of(study.cells)},
          {"by_operator", json_of(study.by_operator)},
          {"by_instrument", json_of(study.by_instrument)},
          {"findings", json_of(study.findings)},
          {"notes", study.notes}};
}

Json run_gauge_study(const Json& input) {
  Reader reader(input);
  Input in;
  for (auto& row : reader.objects("rows")) in.rows.push_back(read_row(row));
  in.tolerance = reader.optional_number("tolerance");
  in.alpha_pool = reader.number_or("alpha_pool", in.alpha_pool);
  for (auto& reference : reader.optional_objects("references")) in.references.push_back(read_reference(reference));
  in.u_instrument = reader.number_or("u_instrument", in.u_instrument);
  in.seed = static_cast<std::uint64_t>(reader.optional_integer("seed", 0, 9007199254740991).value_or(1));
  in.draws = static_cast<std::size_t>(reader.optional_integer("draws", 1000, 200000).value_or(10000));
  reader.done();
  return to_json(study_gauge(in));
}

}  // namespace brakewright::calc
