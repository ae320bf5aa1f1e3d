#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "server/doors/doorkeeper.hpp"
#include "server/http/events.hpp"
#include "server/http/router.hpp"
#include "server/routes/call.hpp"
#include "shop/practice/practice.hpp"
#include "shop/school/school.hpp"
#include "shop/shop.hpp"
#include "store/backup.hpp"

/// The operations of the API over one shop, a file for each kind of thing. Each reads its call, asks the shop, and
/// writes the answer; no rule of the shop stands here.
namespace brakewright::server {

/// What the operations need of their surroundings.
struct Surroundings {
  shop::Shop& shop;
  std::string version;                   ///< of the program
  std::function<std::string()> address;  ///< of this shop on its network, "http://..."
  std::function<shop::UtcTime()> now;
  std::function<store::Backup()> back_up;               ///< makes one
  std::function<std::vector<store::Backup>()> backups;  ///< newest first
  std::function<shop::JobFile(const shop::Uuid& by)> open_practice_job;
  shop::School* school = nullptr;        ///< over the same shop
  Doorkeeper* keeper = nullptr;          ///< of this server
  std::filesystem::path shop_file = {};  ///< of the shop; empty for one that lives in memory
  shop::Practice* practice = nullptr;    ///< over the same shop
};

void add_shop_operations(Operations& operations, Surroundings& around);
void add_iron_operations(Operations& operations, Surroundings& around);
void add_bench_operations(Operations& operations, Surroundings& around);
void add_car_operations(Operations& operations, Surroundings& around);
void add_job_operations(Operations& operations, Surroundings& around);
void add_reading_operations(Operations& operations, Surroundings& around);
void add_decision_operations(Operations& operations, Surroundings& around);
void add_record_operations(Operations& operations, Surroundings& around);
void add_exchange_operations(Operations& operations, Surroundings& around);
void add_permit_operations(Operations& operations, Surroundings& around);
void add_class_operations(Operations& operations, Surroundings& around);
void add_competence_operations(Operations& operations, Surroundings& around);
void add_queue_operations(Operations& operations, Surroundings& around);
void add_week_operations(Operations& operations, Surroundings& around);
void add_study_operations(Operations& operations, Surroundings& around);
void add_practice_operations(Operations& operations, Surroundings& around);
void add_door_operations(Operations& operations, Surroundings& around);
void add_event_operations(Operations& operations, Surroundings& around);
void add_calc_operations(Operations& operations);

/// All of them, under /api/v1, as api/openapi.yaml describes them; and that description itself at /api/openapi.yaml.
http::Router routes_of(Surroundings& around);

/// The shop's journal as events: unnamed, id = seq, data = a Change.
http::EventHub events_of(shop::Shop& shop);

/// A job by its id, or by the number that people say aloud. @throws RuleError  when there is none
shop::JobFile job_file_of(const Call& call, Surroundings& around);
shop::JobFile job_file_of(const Call& call, shop::Shop& shop);
shop::Uuid job_id_of(const Call& call, Surroundings& around);

/// The lines of the board that a call asks for, each with what its job waits for.
Json board_of(const Call& call, Surroundings& around);

/// What the readings of a job mean so far, and the verdict.
Json assessment_of(const Call& call, Surroundings& around);

/// A job as the API shows it, with the journal entry up to which it is true.
Json answer_of(const shop::JobFile& file, std::int64_t seq);

/// Refuses a body that speaks of another thing than the path. @throws InputError "not_the_same"
void check_same(const shop::Uuid& in_path, const shop::Uuid& in_body, const std::string& field);

}  // namespace brakewright::server
