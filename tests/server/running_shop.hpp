#pragma once

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <cstdint>
#include <memory>
#include <nlohmann/json.hpp>
#include <random>
#include <string>

#include "server/routes/assessment.hpp"
#include "server/serve.hpp"
#include "shop/shop.hpp"
#include "store/open.hpp"
#include "store/practice_file.hpp"
#include "store/secret_table.hpp"
#include "store/sqlite_practice.hpp"
#include "store/sqlite_school.hpp"
#include "tests/server/raw_client.hpp"

namespace brakewright::test {

using Json = nlohmann::ordered_json;

/// A shop in memory behind a server on a free port of the loopback, with a clock that ticks a second at each look.
class RunningShop {
 public:
  explicit RunningShop(server::ShopServerOptions options = {})
      : store_(store::open_in_memory()),
        shop_(*store_, {.now = [this] { return now(); },
                        .random = [this](auto bytes) { fill(bytes); },
                        .verdict_json = server::verdict_json}) {
    options.version = "0.0.0";
    options.now = [this] { return now(); };
    options.address = [](std::uint16_t port) { return "http://127.0.0.1:" + std::to_string(port); };
    if (!options.back_up) {
      options.back_up = [] { return store::Backup{.name = "shop-20260304T091500Z.sqlite", .bytes = 4096, .at = {}}; };
    }
    if (!options.backups) {
      options.backups = [] { return std::vector{store::Backup{.name = "a.sqlite", .bytes = 1, .at = {}}}; };
    }
    if (!options.open_practice_job) {
      options.open_practice_job = [this](const shop::Uuid& by) { return open_practice_job(by); };
    }
    options.school = &school_;
    options.practice = &practice_;
    options.doors.secrets = store::secrets_of(*store_);
    options.doors.random = [this](auto bytes) { fill(bytes); };
    options.doors.costs = {.pin = {.passes = 1, .memory_bytes = 8192}, .password = {.passes = 1, .memory_bytes = 8192}};
    server_ = std::make_unique<server::ShopServer>(shop_, std::move(options));
    teacher_ = new_id();
    write("PUT", "/people/" + teacher_,
          {{"id", teacher_}, {"name", "Ada Oakes"}, {"role", "teacher"}, {"active", true}});
  }

  std::uint16_t port() const { return server_->port(); }
  server::ShopServer& server() { return *server_; }
  shop::Shop& shop() { return shop_; }
  const std::string& teacher() const { return teacher_; }

  Answer get(const std::string& path) { return RawClient(port()).get("/api/v1" + path); }
  Json read(const std::string& path) { return Json::parse(get(path).body); }

  /// A write as the teacher, on a connection of its own.
  Answer send(const std::string& method, const std::string& path, const Json& body = nullptr) {
    const std::string by = path.starts_with("/calc") || path.starts_with("/doors") || path == "/backups"
                               ? ""
                               : (path.find('?') == std::string::npos ? "?" : "&") + ("by_person_id=" + teacher_);
    return RawClient(port()).write(method, "/api/v1" + path + by, body.is_null() ? "" : body.dump());
  }

  /// The same, which has to go through.
  Json write(const std::string& method, const std::string& path, const Json& body = nullptr) {
    const Answer answer = send(method, path, body);
    EXPECT_EQ(answer.status, 200) << method << " " << path << "\n" << answer.body;
    return Json::parse(answer.body, nullptr, false);
  }

  std::string new_id() {
    return shop::to_text(shop::make_uuid7(now().time_since_epoch().count(), [this](auto bytes) { fill(bytes); }));
  }

  /// The fields that a tablet sends to open a job.
  Json job_fields(const std::string& id) {
    return {{"id", id},
            {"brought_by", "R. Birch"},
            {"vehicle", "blue saloon"},
            {"complaint", "pulsation"},
            {"complaint_note", ""},
            {"axle", "front"},
            {"odometer_unit", "km"}};
  }

  Json part_fields(const std::string& id, const std::string& side) {
    return {{"id", id}, {"side", side}, {"construction", "hubless"}, {"vented", true}, {"limits", Json::object()}};
  }

  /// An open job with one rotor of known limits and a plan of 4 points on one circle.
  Json open_job() {
    const std::string part = new_id();
    Json fields = part_fields(part, "left");
    const auto limit = [](const char* text) {
      return Json{{"value", {{"text", text}, {"unit", "mm"}}}, {"source", "cast_on_part"}, {"source_note", ""}};
    };
    fields["limits"] = {{"nominal", limit("22.0")},
                        {"machine_to", limit("20.6")},
                        {"discard", limit("20.0")},
                        {"variation", limit("0.015")}};
    const Json file = write("POST", "/jobs", {{"job", job_fields(new_id())}, {"parts", {fields}}});
    write("PUT", "/jobs/" + id_of(file) + "/parts/" + part + "/plans/before",
          {{"part_id", part},
           {"stage", "before"},
           {"points", 4},
           {"turning", "clockwise"},
           {"circles_from_edge_nm", {10'000'000}},
           {"runout_place", "on_car"},
           {"version", plan_version(id_of(file))}});
    return read("/jobs/" + id_of(file));
  }

  /// A thickness before the cut, as typed.
  Json reading(const Json& file, int point, const std::string& text) {
    return {{"id", new_id()},    {"part_id", file["parts"][0]["id"]},
            {"stage", "before"}, {"quantity", "thickness"},
            {"circle", 0},       {"point", point},
            {"text", text},      {"default_unit", "mm"}};
  }

  static std::string id_of(const Json& file) { return file["job"]["id"]; }

 private:
  std::int64_t plan_version(const std::string& job_id) {
    const Json plans = read("/jobs/" + job_id)["plans"];
    return plans.empty() ? 1 : plans[0]["version"].get<std::int64_t>();
  }

  shop::JobFile open_practice_job(const shop::Uuid& by) {
    shop::Job job;
    job.id = shop::parse_uuid(new_id());
    job.vehicle = "practice";
    job.complaint = shop::Complaint::practice;
    shop::Part part;
    part.id = shop::parse_uuid(new_id());
    return shop_.open_job(job, {part}, by);
  }

  shop::UtcTime now() {
    const std::lock_guard lock(guard_);
    return now_ += std::chrono::seconds(1);
  }

  void fill(std::span<std::uint8_t> bytes) {
    const std::lock_guard lock(guard_);
    for (auto& byte : bytes) byte = static_cast<std::uint8_t>(random_());
  }

  std::mutex guard_;
  shop::UtcTime now_{std::chrono::sys_days(std::chrono::year(2026) / 3 / 4)};
  std::mt19937 random_{20261125};
  std::unique_ptr<shop::Store> store_;
  shop::Shop shop_;
  std::unique_ptr<shop::SchoolStore> school_store_ = store::open_school(*store_);
  shop::School school_{shop_, *school_store_, [this] { return now(); }};
  std::unique_ptr<shop::PracticeStore> practice_store_ = store::open_practice(*store_);
  std::unique_ptr<shop::PracticeBook> practice_book_ = store::open_practice_book(":memory:");
  shop::Practice practice_{shop_,
                           *practice_store_,
                           *practice_book_,
                           {.now = [this] { return now(); }, .random = [this](auto bytes) { fill(bytes); }}};
  std::unique_ptr<server::ShopServer> server_;
  std::string teacher_;
};

inline void expect_refused(const Answer& answer, int status, const std::string& code) {
  EXPECT_EQ(answer.status, status) << answer.body;
  const Json body = Json::parse(answer.body, nullptr, false);
  ASSERT_TRUE(body.is_object() && body.contains("error")) << answer.body;
  EXPECT_EQ(body["error"]["code"], code) << answer.body;
  EXPECT_TRUE(body["error"]["field"].is_string());
  EXPECT_FALSE(body["error"]["message"].get<std::string>().empty());
  EXPECT_EQ(answer.headers.at("content-type"), "application/json");
}

}  // namespace brakewright::test
