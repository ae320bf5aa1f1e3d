#include "core/diagnosis/diagnose.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

using namespace diagnosis;

Signs read_signs(Reader reader) {
  Signs signs;
  for (std::size_t s = 0; s < kSigns; ++s) {
    const SignInfo& info = about(static_cast<Sign>(s));
    if (!info.yes_no) {
      signs.values[s] = reader.optional_number(info.name);
    } else if (reader.has(info.name)) {
      signs.values[s] = reader.boolean_or(info.name, false) ? 1 : 0;
    }
  }
  reader.done();
  try {
    check(signs);
  } catch (const InputError& error) {
    throw error.within("signs");
  }
  return signs;
}

Json witnesses(const std::vector<Witness>& heard) {
  Json list = Json::array();
  for (const Witness& witness : heard) {
    list.push_back({{"sign", about(witness.sign).name}, {"factor", witness.factor}, {"text", witness.text}});
  }
  return list;
}

}  // namespace

Json to_json(const diagnosis::Diagnosis& found) {
  Json causes = Json::array();
  for (const Suspect& suspect : found.causes) {
    const CauseInfo& info = about(suspect.cause);
    causes.push_back({{"cause", name_of(suspect.cause)},
                      {"words", info.words},
                      {"p", suspect.p},
                      {"for", witnesses(suspect.speaks_for)},
                      {"against", witnesses(suspect.speaks_against)},
                      {"check", info.check},
                      {"correction", info.correction},
                      {"basis", info.basis}});
  }
  Json next = nullptr;
  if (found.next_check) {
    next = {{"sign", about(found.next_check->sign).name},
            {"text", found.next_check->text},
            {"gain_bits", found.next_check->gain_bits}};
  }
  return {{"causes", std::move(causes)},
          {"doubt_bits", found.doubt_bits},
          {"next_check", std::move(next)},
          {"learnt", {{"parts", learnt().parts}, {"seed", learnt().seed}}}};
}

Json run_diagnose(const Json& input) {
  Reader reader(input);
  const Signs signs = read_signs(reader.object("signs"));
  reader.done();
  return to_json(diagnose(signs));
}

}  // namespace brakewright::calc
