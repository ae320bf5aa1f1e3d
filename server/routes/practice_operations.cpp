#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "shop/shop.hpp"

/// Practice at the simulated bench: runs, their acts, and what the class is set.
namespace brakewright::server {
namespace {

http::Response no_run(const Call&) {
  throw shop::RuleError("unknown_run", "run_id", "no run of this shop has this id");
}

}  // namespace

void add_practice_operations(Operations& operations, Surroundings&) {
  operations["practice_runs"] = [](const Call&) { return json_answer({{"runs", Json::array()}}); };
  operations["practice_sets"] = [](const Call&) { return json_answer({{"sets", Json::array()}}); };
  for (const char* name : {"begin_practice_run", "practice_run", "practice_act", "practice_picture", "practice_sound",
                           "put_practice_set"}) {
    operations[name] = no_run;
  }
}

}  // namespace brakewright::server
