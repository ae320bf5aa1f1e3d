#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "server/routes/put_operation.hpp"

/// Classes, who is in them, and names that are taken out on request.
namespace brakewright::server {
namespace {

Json json_of(const shop::ClassFile& file) {
  return {{"class", shop::to_json(file.school_class)}, {"memberships", list_of(file.memberships)}};
}

std::string_view word_of(shop::RosterOutcome outcome) {
  switch (outcome) {
    case shop::RosterOutcome::added:
      return "added";
    case shop::RosterOutcome::joins:
      return "joins";
    case shop::RosterOutcome::known:
      return "known";
    case shop::RosterOutcome::refused:
      break;
  }
  return "refused";
}

Json json_of(const shop::RosterReport& report) {
  Json lines = Json::array();
  for (const shop::RosterLine& line : report.lines) {
    lines.push_back(
        {{"line", line.line},
         {"name", line.name},
         {"outcome", word_of(line.outcome)},
         {"person_id", report.stored && line.person_id ? Json(shop::to_text(*line.person_id)) : Json(nullptr)},
         {"has_pin", line.pin.has_value()},
         {"field", line.field},
         {"message", line.message}});
  }
  return {{"stored", report.stored}, {"added", report.added},     {"joins", report.joins},
          {"known", report.known},   {"refused", report.refused}, {"lines", std::move(lines)}};
}

/// The first PINs of who is new. A student's PIN does not close the doors of a shop: a teacher's password does.
void set_pins(const shop::RosterReport& report, shop::Doors& doors, const shop::Uuid& by) {
  if (!doors.closed()) return;
  for (const shop::RosterLine& line : report.lines) {
    const bool is_new = line.outcome == shop::RosterOutcome::added && line.person_id && line.pin;
    if (is_new) doors.set(*line.person_id, shop::SecretKind::pin, *line.pin, by);
  }
}

}  // namespace

void add_class_operations(Operations& operations, Surroundings& around) {
  operations["classes"] = [&](const Call&) {
    Json list = Json::array();
    for (const shop::ClassFile& file : around.school->classes()) list.push_back(json_of(file));
    return json_answer(list);
  };
  operations["put_class"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::SchoolClass>(call.body());
    check_same(call.id("class_id"), wanted.id, "id");
    around.school->put_class(wanted, call.by());
    return json_answer(json_of(around.school->school_class(wanted.id)));
  };
  operations["join_class"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::Membership>(call.body());
    check_same(call.id("class_id"), wanted.class_id, "class_id");
    around.school->join_class(wanted, call.by());
    return json_answer(json_of(around.school->school_class(wanted.class_id)));
  };
  operations["leave_class"] = [&](const Call& call) {
    const auto class_id = call.id("class_id");
    around.school->leave_class(class_id, call.id("person_id"), call.by());
    return json_answer(json_of(around.school->school_class(class_id)));
  };
  operations["import_roster"] = [&](const Call& call) {
    const auto report =
        around.school->import_roster(call.id("class_id"), call.request().body, call.flag("dry_run"), call.by());
    if (report.stored) set_pins(report, around.keeper->doors(), call.by());
    return json_answer(json_of(report));
  };
  operations["erase_person"] = [&](const Call& call) {
    return json_answer(shop::to_json(around.shop.erase_person(call.id("person_id"), call.by())));
  };
}

}  // namespace brakewright::server
