#include "core/dials/dial_check.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

/// A value with its uncertainty, both or neither.
std::optional<dials::Estimate> read_estimate(Reader& reader, const std::string& name) {
  const auto value = reader.optional_number(name);
  const auto u = reader.optional_number("u_" + name);
  if (value.has_value() == u.has_value()) {
    return value ? std::optional(dials::Estimate{.um = *value, .u_um = *u}) : std::nullopt;
  }
  throw InputError("missing", reader.path_of(value ? "u_" + name : name),
                   "both the value and its uncertainty, or neither");
}

dials::FaceCut read_face(Reader reader) {
  dials::FaceCut face{.marks = reader.number("marks"), .dial_um_per_mark = reader.number("dial_um_per_mark")};
  face.touch_loss = read_estimate(reader, "touch_loss_um");
  face.removed = read_estimate(reader, "removed_um");
  if (reader.has("touched_all")) face.touched_all = reader.boolean_or("touched_all", true);
  reader.done();
  return face;
}

Json written(const dials::Balance& balance) {
  const auto& measured = balance.measured;
  return {{"dialled_um", balance.dialled_um},
          {"touch_loss_um", balance.touch_loss.um},
          {"u_touch_loss_um", balance.touch_loss.u_um},
          {"expected_um", balance.expected.um},
          {"u_expected_um", balance.expected.u_um},
          {"measured_um", measured ? Json(measured->um) : Json(nullptr)},
          {"u_measured_um", measured ? Json(measured->u_um) : Json(nullptr)},
          {"difference_um", or_null(balance.difference_um)},
          {"z", or_null(balance.z)}};
}

Json written(const dials::DialFinding& finding) {
  return {{"code", finding.code},
          {"p", finding.p},
          {"side", finding.side.empty() ? Json(nullptr) : Json(finding.side)},
          {"marks", finding.marks ? Json(*finding.marks) : Json(nullptr)},
          {"amount_um", or_null(finding.amount_um)},
          {"text", finding.text},
          {"check", finding.check},
          {"basis", finding.basis}};
}

}  // namespace

Json to_json(const dials::DialCheck& check) {
  Json findings = Json::array(), priors = Json::array();
  for (const auto& finding : check.findings) findings.push_back(written(finding));
  for (const auto& prior : check.priors) {
    priors.push_back({{"code", prior.code}, {"p", prior.p}, {"meaning", prior.meaning}});
  }
  return {{"sum", written(check.sum)},
          {"outboard", written(check.outboard)},
          {"inboard", written(check.inboard)},
          {"temperature_shift_um", check.temperature_shift_um},
          {"chi_squared", check.chi_squared},
          {"dof", check.dof},
          {"agrees", check.agrees},
          {"findings", findings},
          {"cannot_tell_apart", check.cannot_tell_apart},
          {"priors", priors},
          {"priors_basis", "our own, no source"},
          {"notes", check.notes}};
}

Json run_dialcheck(const Json& input) {
  Reader reader(input);
  dials::DialCheckInput in;
  in.outboard = read_face(reader.object("outboard"));
  in.inboard = read_face(reader.object("inboard"));
  in.dial_sd_um = reader.number_or("dial_sd_um", in.dial_sd_um);
  in.settings = static_cast<int>(reader.optional_integer("settings", 1, 1000).value_or(1));
  in.removed = {.um = reader.number("removed_sum_um"), .u_um = reader.number("u_removed_sum_um")};
  in.temperature_rise_k = reader.optional_number("temperature_rise_k");
  in.u_temperature_rise_k = reader.number_or("u_temperature_rise_k", in.u_temperature_rise_k);
  in.thickness_mm = reader.number_or("thickness_mm", in.thickness_mm);
  reader.done();
  return to_json(dials::check_dials(in));
}

}  // namespace brakewright::calc
