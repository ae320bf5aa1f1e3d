#include <chrono>
#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "server/routes/practice_answers.hpp"
#include "shop/json.hpp"
#include "shop/practice/bench_json.hpp"

/// Practice at the simulated bench: runs, their acts, and what the class is set.
namespace brakewright::server {
namespace {

constexpr std::chrono::minutes kLiveFor{30};
constexpr std::int64_t kRunsAtOnce = 50;
constexpr int kSoundRateHz = 22'050;
constexpr double kSoundSeconds = 2;
constexpr std::int64_t kPictureAngles = 180;
constexpr std::int64_t kPictureRings = 24;

/// Whoever asks and does not lead; nobody with open doors, which hide nothing.
std::optional<shop::Uuid> student_asking(const Call& call, Surroundings& around) {
  const auto at = around.keeper->who(call.request());
  if (!at || shop::leads(at->person.role)) return std::nullopt;
  return at->person.id;
}

/// The run in the path, which a student sees when it is their own.
shop::Uuid run_in(const Call& call, Surroundings& around) {
  const auto run_id = call.id("run_id");
  const auto person_id = around.practice->person_of(run_id);
  const auto student = student_asking(call, around);
  if (student && *student != person_id) {
    throw http::Refusal(403, "not_yours", "run_id", "this is for whose run it is, a lead hand or a teacher");
  }
  return run_id;
}

http::Response run_lines(const Call& call, Surroundings& around) {
  const auto student = student_asking(call, around);
  shop::PracticeWish wish{.person_id = call.optional_id("person_id"),
                          .before = call.optional_id("before"),
                          .most = static_cast<std::size_t>(call.number("limit").value_or(kRunsAtOnce))};
  if (call.flag("live")) wish.live_since = around.now() - kLiveFor;
  Json lines = Json::array();
  // Of others a student is told nothing, as if there were no runs.
  if (student && wish.person_id && *wish.person_id != *student) return json_answer({{"runs", lines}, {"earlier", 0}});
  if (student) wish.person_id = student;
  const shop::PracticePage page = around.practice->runs(wish);
  for (const shop::PracticeLine& line : page.lines) lines.push_back(answer_of(line));
  return json_answer({{"runs", std::move(lines)}, {"earlier", page.earlier}});
}

http::Response act(const Call& call, Surroundings& around) {
  const auto run_id = call.id("run_id");
  if (around.practice->person_of(run_id) != call.by()) {
    throw http::Refusal(403, "not_yours", "run_id", "only whose run it is acts in it");
  }
  const auto wanted = shop::from_json<shop::NewPracticeAct>(call.body());
  return json_answer(answer_of(around.practice->act(run_id, wanted, call.by())));
}

http::Response picture(const Call& call, Surroundings& around) {
  const auto run_id = run_in(call, around);
  const auto side = call.needed_text("side") == "outboard" ? practice::Side::outboard : practice::Side::inboard;
  const auto angles = static_cast<int>(call.number("angles").value_or(kPictureAngles));
  const auto rings = static_cast<int>(call.number("rings").value_or(kPictureRings));
  return json_answer(shop::picture_to_json(around.practice->picture(run_id, side, angles, rings)));
}

http::Response sound(const Call& call, Surroundings& around) {
  const double seconds = call.decimal("seconds").value_or(kSoundSeconds);
  http::Response response;
  response.content_type = "audio/wav";
  response.body = wav_of(around.practice->sound(run_in(call, around), seconds, kSoundRateHz), kSoundRateHz);
  return response;
}

http::Response sets(const Call& call, Surroundings& around) {
  const bool whole = !student_asking(call, around);
  Json told = Json::array();
  for (const shop::PracticeSet& set : around.practice->sets()) {
    if (whole || set.open) told.push_back(answer_of(set, whole));
  }
  return json_answer({{"sets", std::move(told)}});
}

}  // namespace

void add_practice_operations(Operations& operations, Surroundings& around) {
  operations["practice_runs"] = [&](const Call& call) { return run_lines(call, around); };
  operations["begin_practice_run"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::NewPracticeRun>(call.body());
    return json_answer(answer_of(around.practice->begin(wanted, call.by())));
  };
  operations["practice_run"] = [&](const Call& call) {
    return json_answer(answer_of(around.practice->run(run_in(call, around))));
  };
  operations["practice_act"] = [&](const Call& call) { return act(call, around); };
  operations["practice_picture"] = [&](const Call& call) { return picture(call, around); };
  operations["practice_sound"] = [&](const Call& call) { return sound(call, around); };
  operations["practice_sets"] = [&](const Call& call) { return sets(call, around); };
  operations["put_practice_set"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::NewPracticeSet>(call.body());
    return json_answer(answer_of(around.practice->put_set(call.id("set_id"), wanted, call.by()), true));
  };
}

}  // namespace brakewright::server
