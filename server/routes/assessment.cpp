#include "server/routes/assessment.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/drum_answers.hpp"
#include "calc/methods.hpp"
#include "server/routes/operations.hpp"
#include "shop/words.hpp"

namespace brakewright::server {
namespace {

Json written(const CircleFit& fit) { return calc::json_of(fit); }
Json written(const drum::Figures& figures) { return calc::json_of(figures); }
Json written(const drum::CutCheck& check) { return calc::json_of(check); }
Json written(const drum::Drums& drums) { return calc::json_of(drums); }

template <class T>
Json written(const T& answer) {
  return calc::to_json(answer);
}

template <class T>
Json written_or_null(const std::optional<T>& answer) {
  return answer ? written(*answer) : Json(nullptr);
}

Json json_of(const shop::Progress& progress) {
  return {{"thickness_done", progress.thickness_done}, {"thickness_wanted", progress.thickness_wanted},
          {"runout_done", progress.runout_done},       {"runout_wanted", progress.runout_wanted},
          {"diameter_done", progress.diameter_done},   {"diameter_wanted", progress.diameter_wanted}};
}

Json json_of(const shop::MapAssessment& map) {
  return {{"thickness", written_or_null(map.thickness)},
          {"diameter", written_or_null(map.diameter)},
          {"runout_outboard", written_or_null(map.runout_outboard)},
          {"runout_inboard", written_or_null(map.runout_inboard)}};
}

Json json_of(const shop::PartAssessment& part) {
  return {{"part_id", shop::to_text(part.part_id)},
          {"progress_before", json_of(part.progress_before)},
          {"progress_after", json_of(part.progress_after)},
          {"before", json_of(part.before)},
          {"after", json_of(part.after)},
          {"check", written_or_null(part.check)},
          {"dial_check", written_or_null(part.dial_check)},
          {"drum_check", written_or_null(part.drum_check)}};
}

Json json_of(const std::optional<shop::BenchFigures>& bench) {
  if (!bench) return nullptr;
  return {{"dial_um_per_mark", bench->dial_um_per_mark},
          {"dial_inboard_um_per_mark", bench->dial_inboard_um_per_mark},
          {"dial_sd_um", bench->dial_sd_um},
          {"mount_rms_um", bench->mount_rms_um},
          {"basis", bench->basis.empty() ? Json(nullptr) : Json(bench->basis)}};
}

}  // namespace

Json answer_of(const shop::Assessment& assessment) {
  Json parts = Json::array();
  for (const shop::PartAssessment& part : assessment.parts) parts.push_back(json_of(part));
  return {{"job_id", shop::to_text(assessment.job_id)},
          {"seq", assessment.seq},
          {"waits_for", shop::word_of(assessment.waits_for)},
          {"parts", std::move(parts)},
          {"verdict", written_or_null(assessment.verdict)},
          {"drums", written_or_null(assessment.drums)},
          {"bench", json_of(assessment.bench)},
          {"missing", assessment.missing}};
}

std::string verdict_json(const shop::Assessment& assessment) {
  if (assessment.drums) return written(*assessment.drums).dump();
  return assessment.verdict ? calc::to_json(*assessment.verdict).dump() : "";
}

Json assessment_of(const Call& call, Surroundings& around) {
  return answer_of(around.shop.assessment(job_id_of(call, around)));
}

}  // namespace brakewright::server
