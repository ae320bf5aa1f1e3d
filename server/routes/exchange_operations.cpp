#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "shop/exchange/readings_csv.hpp"
#include "shop/exchange/transfer.hpp"
#include "shop/json.hpp"
#include "shop/times.hpp"

namespace brakewright::server {
namespace {

http::Response as_file(http::Response response, const std::string& name) {
  response.headers.emplace_back("Content-Disposition", "attachment; filename=\"" + name + "\"");
  return response;
}

std::string file_name(const shop::JobFile& file, const std::string& ending) {
  return "brakewright-job-" + std::to_string(file.job.number) + ending;
}

Json json_of(const shop::ImportReport& report) {
  Json refused = Json::array();
  for (const shop::ImportLine& line : report.refused) {
    refused.push_back({{"line", line.line}, {"field", line.field}, {"message", line.message}});
  }
  return {{"added", report.added}, {"known", report.known}, {"refused", std::move(refused)}};
}

Json json_of(const store::Backup& backup) {
  return {{"name", backup.name}, {"bytes", backup.bytes}, {"at", shop::to_text(backup.at)}};
}

http::Response import_readings(const Call& call, Surroundings& around) {
  shop::ImportOptions options;
  options.dry_run = call.flag("dry_run");
  const auto unit = call.text("unit");
  options.default_unit = !unit ? around.shop.settings().default_unit : *unit == "in" ? Unit::in : Unit::mm;
  return json_answer(
      json_of(shop::import_readings(around.shop, job_id_of(call, around), call.request().body, options, call.by())));
}

http::Response export_csv(const Call& call, Surroundings& around) {
  const shop::JobFile file = job_file_of(call, around);
  http::Response response;
  response.content_type = "text/csv; charset=utf-8";
  response.body = shop::readings_csv(file, around.shop.people(), around.shop.instruments());
  return as_file(std::move(response), file_name(file, ".csv"));
}

}  // namespace

void add_exchange_operations(Operations& operations, Surroundings& around) {
  operations["import_readings"] = [&](const Call& call) { return import_readings(call, around); };
  operations["export_job_csv"] = [&](const Call& call) { return export_csv(call, around); };
  operations["export_job"] = [&](const Call& call) {
    const shop::JobFile file = job_file_of(call, around);
    return as_file(json_answer(shop::export_job(around.shop, file.job.id)), file_name(file, ".json"));
  };
  operations["export_shop"] = [&](const Call&) {
    return as_file(json_answer(shop::export_shop(around.shop)), "brakewright-shop.json");
  };
  operations["backups"] = [&](const Call&) {
    Json list = Json::array();
    for (const store::Backup& backup : around.backups()) list.push_back(json_of(backup));
    return json_answer(list);
  };
  operations["back_up"] = [&](const Call&) { return json_answer(json_of(around.back_up())); };
}

}  // namespace brakewright::server
