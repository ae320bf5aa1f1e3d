#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/dials/lathe_study.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

std::optional<dials::Estimate> read_face(Reader& reader, const std::string& name) {
  const auto value = reader.optional_number(name), u = reader.optional_number("u_" + name);
  if (value.has_value() != u.has_value()) {
    throw InputError("missing", reader.path_of(value ? "u_" + name : name),
                     "both the value and its uncertainty, or neither");
  }
  return value ? std::optional(dials::Estimate{.um = *value, .u_um = *u}) : std::nullopt;
}

dials::LatheJob read_job(Reader& reader) {
  dials::LatheJob job;
  job.outboard_marks = reader.number("outboard_marks");
  job.inboard_marks = reader.number("inboard_marks");
  job.settings = static_cast<int>(reader.optional_integer("settings", 1, 1000).value_or(1));
  job.depth = {.um = reader.number("depth_um"), .u_um = reader.number("u_depth_um")};
  job.outboard_depth = read_face(reader, "outboard_depth_um");
  job.inboard_depth = read_face(reader, "inboard_depth_um");
  job.days = reader.number_or("days", 0);
  reader.done();
  return job;
}

Json written(const std::optional<dials::MarkValue>& mark) {
  if (!mark) return nullptr;
  return {{"um_per_mark", mark->um_per_mark},
          {"low95_um", mark->low95_um},
          {"high95_um", mark->high95_um},
          {"nominal_um", mark->nominal_um},
          {"verdict", mark->agrees ? "agrees" : "differs"}};
}

Json written(const std::optional<dials::JobSpread>& spread) {
  if (!spread) return nullptr;
  return {{"job_sd_um", spread->job_sd_um},
          {"dial_sd_um", spread->dial_sd_um},
          {"low95_um", spread->low95_um},
          {"high95_um", spread->high95_um}};
}

Json written(const std::optional<dials::Drift>& drift) {
  if (!drift) return nullptr;
  return {{"um_per_100_days", drift->um_per_100_days},
          {"low95_um", drift->low95_um},
          {"high95_um", drift->high95_um},
          {"differs_from_zero", drift->differs_from_zero},
          {"um_per_mark_at_last_job", drift->um_per_mark_at_last_job}};
}

Json written(const std::optional<dials::OddJob>& odd) {
  if (!odd) return nullptr;
  return {
      {"job", odd->job}, {"depth_um", odd->depth_um}, {"expected_um", odd->expected_um}, {"t", odd->t}, {"p", odd->p}};
}

}  // namespace

Json to_json(const dials::LatheStudy& study) {
  return {{"jobs", study.jobs},
          {"needs", study.needs},
          {"separable", study.separable},
          {"outboard", written(study.outboard)},
          {"inboard", written(study.inboard)},
          {"mean", written(study.mean)},
          {"spread", written(study.spread)},
          {"drift", written(study.drift)},
          {"odd_job", written(study.odd_job)},
          {"notes", study.notes}};
}

Json run_dialstudy(const Json& input) {
  Reader reader(input);
  dials::LatheStudyInput in;
  in.dial_um_per_mark = reader.number("dial_um_per_mark");
  in.dial_inboard_um_per_mark = reader.optional_number("dial_inboard_um_per_mark");
  for (auto& job : reader.objects("jobs")) in.jobs.push_back(read_job(job));
  reader.done();
  return to_json(dials::study_lathe(in));
}

}  // namespace brakewright::calc
