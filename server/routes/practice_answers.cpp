#include "server/routes/practice_answers.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "shop/json.hpp"
#include "shop/or_null.hpp"
#include "shop/practice/bench_json.hpp"

namespace brakewright::server {
namespace {

Json beginning_of(const shop::PracticeLine& line) {
  const shop::PracticeRun& run = line.run;
  return {{"id", shop::to_text(run.id)},
          {"person_id", shop::to_text(run.person_id)},
          {"person_name", line.person_name},
          {"set_id", run.set_id ? Json(shop::to_text(*run.set_id)) : Json(nullptr)},
          {"set_name", shop::or_null(line.set_name)},
          {"difficulty", run.difficulty},
          {"begun_at", shop::to_text(run.begun_at)}};
}

void append_number(std::string& bytes, std::uint32_t number, int count) {
  for (int k = 0; k < count; ++k) bytes += static_cast<char>((number >> (8 * k)) & 0xFFU);
}

}  // namespace

Json answer_of(const shop::PracticeLine& line) {
  Json answer = beginning_of(line);
  Json view = Json::parse(line.run.view_json);
  answer["last_act_at"] = shop::to_text(line.last_act_at);
  answer["ended"] = view.at("ended");
  answer["points"] = shop::or_null(line.run.points);
  answer["safe"] = shop::or_null(line.run.safe);
  answer["view"] = std::move(view);
  return answer;
}

Json answer_of(const shop::PracticeFile& file) {
  Json answer = beginning_of(file.line);
  Json acts = Json::array();
  for (const shop::KeptAct& one : file.acts) {
    acts.push_back(
        {{"number", one.number}, {"act", Json::parse(one.act_json)}, {"outcome", Json::parse(one.outcome_json)}});
  }
  answer["bench"] = shop::bench_to_json(file.bench);
  answer["view"] = Json::parse(file.line.run.view_json);
  answer["acts"] = std::move(acts);
  answer["mark"] = nullptr;
  if (file.mark_json.empty()) return answer;
  answer["mark"] = Json::parse(file.mark_json);
  // What will be wrong at the next bench is for the student to find; the shop knows it by the seed.
  if (answer["mark"].contains("next")) answer["mark"]["next"]["faults"] = nullptr;
  return answer;
}

Json answer_of(const shop::PracticeAnswer& answer) {
  return {{"number", answer.number},
          {"outcome", Json::parse(answer.outcome_json)},
          {"view", Json::parse(answer.view_json)}};
}

Json answer_of(const shop::PracticeSet& set, bool whole) {
  Json answer = shop::to_json(set);
  if (!whole) answer["seed"] = answer["faults"] = nullptr;
  return answer;
}

std::string wav_of(const std::vector<float>& samples, int rate_hz) {
  constexpr std::uint32_t kBytesPerSample = 2, kHeadAfterSize = 36, kFormatBytes = 16, kPlain = 1, kChannels = 1;
  const auto data_bytes = static_cast<std::uint32_t>(samples.size()) * kBytesPerSample;
  const auto rate = static_cast<std::uint32_t>(rate_hz);
  std::string bytes = "RIFF";
  append_number(bytes, kHeadAfterSize + data_bytes, 4);
  bytes += "WAVEfmt ";
  append_number(bytes, kFormatBytes, 4);
  append_number(bytes, kPlain, 2);
  append_number(bytes, kChannels, 2);
  append_number(bytes, rate, 4);
  append_number(bytes, rate * kBytesPerSample, 4);
  append_number(bytes, kBytesPerSample, 2);
  append_number(bytes, 8 * kBytesPerSample, 2);
  bytes += "data";
  append_number(bytes, data_bytes, 4);
  for (const float sample : samples) {
    const long level = std::lround(std::clamp(double{sample}, -1.0, 1.0) * 32767);
    append_number(bytes, static_cast<std::uint32_t>(level), 2);
  }
  return bytes;
}

std::string event_of(const std::set<shop::Uuid>& run_ids) {
  Json ids = Json::array();
  for (const shop::Uuid& id : run_ids) ids.push_back(shop::to_text(id));
  return Json({{"run_ids", std::move(ids)}}).dump();
}

}  // namespace brakewright::server
