#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "server/routes/put_operation.hpp"
#include "server/routes/study_answers.hpp"

/// Practice in measuring: reference parts, studies, their readings and answers.
namespace brakewright::server {
namespace {

Json study_view(Surroundings& around, const shop::Uuid& study_id) {
  return answer_of(around.school->study(study_id), around.school->reference_parts());
}

http::Response next_places(const Call& call, Surroundings& around) {
  const auto study_id = call.id("study_id");
  const auto person_id = call.id("person_id");
  const auto open = around.school->open_places(study_id, person_id);
  return json_answer(next_of(around.school->study(study_id), person_id, open, around.school->reference_parts(),
                             around.shop.instruments()));
}

}  // namespace

void add_study_operations(Operations& operations, Surroundings& around) {
  operations["reference_parts"] = [&](const Call&) { return json_answer(list_of(around.school->reference_parts())); };
  operations["put_reference_part"] = put_operation<shop::ReferencePart>(
      "reference_part_id", [&](const shop::ReferencePart& part, const shop::Uuid& by) {
        return around.school->put_reference_part(part, by);
      });
  operations["studies"] = [&](const Call&) {
    Json list = Json::array();
    const auto parts = around.school->reference_parts();
    for (const shop::StudyFile& file : around.school->studies()) list.push_back(answer_of(file, parts));
    return json_answer(list);
  };
  operations["study"] = [&](const Call& call) { return json_answer(study_view(around, call.id("study_id"))); };
  operations["put_study"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::Study>(call.body());
    check_same(call.id("study_id"), wanted.id, "id");
    return json_answer(study_view(around, around.school->put_study(wanted, call.by()).id));
  };
  operations["next_in_study"] = [&](const Call& call) { return next_places(call, around); };
  operations["add_study_reading"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::NewStudyReading>(call.body());
    return json_answer(shop::to_json(around.school->add_study_reading(call.id("study_id"), wanted, call.by())));
  };
  operations["withdraw_study_reading"] = [&](const Call& call) {
    return json_answer(
        shop::to_json(around.school->withdraw_study_reading(call.id("study_id"), call.id("reading_id"), call.by())));
  };
  operations["study_answer"] = [&](const Call& call) {
    const auto study_id = call.id("study_id");
    const auto answer = around.school->study_answer(study_id);
    return json_answer(answer_of(around.school->study(study_id), answer));
  };
}

}  // namespace brakewright::server
