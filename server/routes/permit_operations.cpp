#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "server/routes/put_operation.hpp"
#include "shop/school/permits.hpp"

/// Who may cut: safety points, the rule, supervised cuts, permits.
namespace brakewright::server {
namespace {

std::string_view word_of(shop::PermitNeedKind what) {
  switch (what) {
    case shop::PermitNeedKind::safety_points:
      return "safety_points";
    case shop::PermitNeedKind::measuring:
      return "measuring";
    case shop::PermitNeedKind::steady_hand:
      return "steady_hand";
    case shop::PermitNeedKind::practice:
      return "practice";
    case shop::PermitNeedKind::supervised_cuts:
      break;
  }
  return "supervised_cuts";
}

Json json_of(const shop::PermitState& state) {
  Json needs = Json::array(), missing = Json::array();
  for (const shop::PermitNeed& need : state.needs) {
    Json told = {{"what", word_of(need.what)}, {"done", need.done}, {"of", need.of}, {"text", need.text}};
    if (!need.is_met()) missing.push_back(told);
    needs.push_back(std::move(told));
  }
  return {{"person_id", shop::to_text(state.person_id)},
          {"leads", state.leads},
          {"stands", state.stands},
          {"lapses_on", state.permit ? Json(shop::to_text(state.permit->lapses_on)) : Json(nullptr)},
          {"permit", state.permit ? shop::to_json(*state.permit) : Json(nullptr)},
          {"needs", std::move(needs)},
          {"missing", std::move(missing)},
          {"is_ready", state.is_ready}};
}

/// The points as they are asked: what is right, and why, is told with an answer alone.
Json questions_for(shop::School& school, const shop::Uuid& person_id) {
  const auto answers = school.safety_answers(person_id);
  Json list = Json::array();
  for (const shop::SafetyPoint& point : school.safety_points()) {
    if (!point.active) continue;
    const shop::SafetyAnswer* given = shop::answer_in_force(answers, person_id, point);
    Json answered = nullptr;
    if (given != nullptr) {
      answered = {{"choice", given->choice},
                  {"was_right", given->was_right},
                  {"at", shop::to_text(given->at)},
                  {"reason", point.reason}};
    }
    list.push_back({{"safety_point_id", shop::to_text(point.id)},
                    {"question", point.question},
                    {"choices", point.choices},
                    {"answered", std::move(answered)}});
  }
  return list;
}

http::Response all_permits(shop::School& school) {
  Json list = Json::array();
  for (const shop::PermitState& state : school.permits()) list.push_back(json_of(state));
  return json_answer(list);
}

}  // namespace

void add_permit_operations(Operations& operations, Surroundings& around) {
  operations["safety_points"] = [&](const Call&) { return json_answer(list_of(around.school->safety_points())); };
  operations["put_safety_point"] = put_operation<shop::SafetyPoint>(
      "safety_point_id",
      [&](const shop::SafetyPoint& point, const shop::Uuid& by) { return around.school->put_safety_point(point, by); });
  operations["safety_questions"] = [&](const Call& call) {
    return json_answer(questions_for(*around.school, call.id("person_id")));
  };
  operations["answer_safety_point"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::NewSafetyAnswer>(call.body());
    return json_answer(shop::to_json(around.school->answer_safety_point(wanted, call.by())));
  };
  operations["permit_rule"] = [&](const Call&) { return json_answer(shop::to_json(around.school->permit_rule())); };
  operations["change_permit_rule"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::PermitRule>(call.body());
    return json_answer(shop::to_json(around.school->change_permit_rule(wanted, call.by())));
  };
  operations["supervised_cuts"] = [&](const Call& call) {
    auto cuts = around.school->supervised_cuts();
    if (const auto of = call.optional_id("person_id")) {
      std::erase_if(cuts, [&](const shop::SupervisedCut& cut) { return cut.person_id != *of; });
    }
    return json_answer(list_of(cuts));
  };
  operations["sign_cut"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::SupervisedCut>(call.body());
    return json_answer(shop::to_json(around.school->sign_cut(wanted, call.by())));
  };
  operations["permits"] = [&](const Call&) { return all_permits(*around.school); };
  operations["permit"] = [&](const Call& call) {
    return json_answer(json_of(around.school->permit_of(call.id("person_id"))));
  };
  operations["give_permit"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::NewPermit>(call.body());
    return json_answer(json_of(around.school->give_permit(call.id("person_id"), wanted, call.by())));
  };
  operations["withdraw_permit"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::EndReason>(call.body());
    return json_answer(
        json_of(around.school->withdraw_permit(call.id("person_id"), call.id("permit_id"), wanted.why, call.by())));
  };
}

}  // namespace brakewright::server
