#include <gtest/gtest.h>

#include <future>
#include <regex>
#include <set>

#include "api/description.hpp"
#include "tests/server/running_shop.hpp"

namespace brakewright::server {
namespace {

using test::Answer;
using test::expect_refused;
using test::Json;
using test::RawClient;
using test::RunningShop;

/// Every operation of the description: its method, and its path with something that is no id for each parameter.
std::vector<std::pair<std::string, std::string>> described_operations() {
  std::vector<std::pair<std::string, std::string>> operations;
  for (const auto& [pattern, path] : api::openapi()["paths"].items()) {
    for (const auto& [method, operation] : path.items()) {
      if (method == "parameters") continue;
      std::string upper = method;
      for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
      operations.emplace_back(upper, std::regex_replace(pattern, std::regex("\\{[a-z_]+\\}"), "nothing"));
    }
  }
  return operations;
}

TEST(Api, HasARouteForEveryOperationThatIsDescribed) {
  RunningShop shop;
  for (const auto& [method, path] : described_operations()) {
    if (path == "/events") continue;  // it does not end
    const Answer answer = RawClient(shop.port()).write(method, "/api/v1" + path, method == "GET" ? "" : "{}");
    EXPECT_NE(answer.status, 405) << method << " " << path;
    EXPECT_EQ(answer.body.find("no_such_address"), std::string::npos) << method << " " << path;
  }
}

TEST(Api, RefusesWhatIsNotDescribed) {
  RunningShop shop;
  expect_refused(shop.get("/nothing"), 404, "no_such_address");
  expect_refused(shop.get("/jobs/"), 404, "no_such_address");
  const Answer answer = shop.send("DELETE", "/jobs");
  expect_refused(answer, 405, "wrong_method");
  EXPECT_EQ(answer.headers.at("allow"), "GET, HEAD, POST");
  expect_refused(shop.get("/jobs?wrods=red"), 422, "unknown_parameter");
}

TEST(Api, GivesEveryRefusalTheSameShapeOnEveryRoute) {
  RunningShop shop;
  for (const auto& [method, path] : described_operations()) {
    if (method == "GET") continue;
    const Answer answer = RawClient(shop.port()).write(method, "/api/v1" + path, "{\"unfinished", "application/json");
    const Json body = Json::parse(answer.body, nullptr, false);
    EXPECT_GE(answer.status, 400) << method << " " << path;
    EXPECT_LT(answer.status, 500) << method << " " << path << answer.body;
    ASSERT_TRUE(body.is_object()) << method << " " << path;
    EXPECT_TRUE(body["error"]["code"].is_string() && body["error"]["field"].is_string()) << method << " " << path;
    EXPECT_FALSE(body["error"]["message"].get<std::string>().empty()) << method << " " << path;
  }
}

TEST(Api, TakesJsonAloneWhereJsonIsDescribed) {
  RunningShop shop;
  const std::string path = "/api/v1/jobs?by_person_id=" + shop.teacher();
  for (const char* type : {"text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x"}) {
    expect_refused(RawClient(shop.port()).write("POST", path, "{}", type), 415, "wrong_content_type");
  }
  EXPECT_EQ(RawClient(shop.port()).write("POST", path, "{}", "application/json; charset=utf-8").status, 422);
}

TEST(Api, NamesTheFieldThatIsWrong) {
  RunningShop shop;
  Json job = shop.job_fields(shop.new_id());
  job["vehicle"] = 12;
  const Answer answer = shop.send("POST", "/jobs", {{"job", job}, {"parts", Json::array()}});
  expect_refused(answer, 422, "wrong_type");
  EXPECT_EQ(Json::parse(answer.body)["error"]["field"], "job.vehicle");
}

TEST(Api, NamesTheParameterThatIsWrong) {
  RunningShop shop;
  const auto field_of = [](const Answer& answer) { return Json::parse(answer.body)["error"]["field"]; };
  for (const char* query : {"limit=0", "limit=501", "limit=ten", "limit=-1", "limit=99999999999999999999"}) {
    EXPECT_EQ(field_of(shop.get(std::string("/jobs?") + query)), "limit") << query;
  }
  EXPECT_EQ(field_of(shop.get("/jobs?state=lost")), "state");
  EXPECT_EQ(field_of(shop.get("/zero-checks?instrument_id=x")), "instrument_id");
  EXPECT_EQ(field_of(RawClient(shop.port()).write("POST", "/api/v1/practice-job", "")), "by_person_id");
  EXPECT_EQ(field_of(RawClient(shop.port()).write("POST", "/api/v1/practice-job?by_person_id=me", "")), "by_person_id");
}

TEST(Api, RefusesDeepJson) {
  RunningShop shop;
  const std::string deep = "{\"text\":" + std::string(100'000, '[') + std::string(100'000, ']') + "}";
  expect_refused(RawClient(shop.port()).write("POST", "/api/v1/calc/length", deep), 422, "too_deep");
}

TEST(Api, ComputesWithoutAShop) {
  RunningShop shop;
  const Json answer = shop.write("POST", "/calc/length", {{"text", "836 thou"}, {"default_unit", "mm"}});
  EXPECT_EQ(answer["nm"], 21'234'400);
  const Answer unknown = shop.send("POST", "/calc/nothing", Json::object());
  expect_refused(unknown, 404, "no_such_method");
  EXPECT_NE(unknown.body.find("length"), std::string::npos) << "it says which there are";
  std::set<std::string> names;
  for (const Json& method : shop.read("/calc")) names.insert(method["name"]);
  EXPECT_TRUE(names.contains("length"));
}

TEST(Api, DescribesItself) {
  RunningShop shop;
  EXPECT_EQ(shop.read("/openapi.json"), api::openapi());
  const Answer written = RawClient(shop.port()).get("/api/openapi.yaml");
  EXPECT_EQ(written.body, api::openapi_yaml());
}

TEST(Api, TellsWhoItIs) {
  RunningShop shop;
  const Json health = shop.read("/health");
  EXPECT_EQ(health["store"], "ok");
  EXPECT_EQ(health["version"], "0.0.0");
  const Json view = shop.read("/shop");
  EXPECT_EQ(view["people"][0]["name"], "Ada Oakes");
  EXPECT_EQ(view["seq"], health["seq"]);
  EXPECT_EQ(view["address"], "http://127.0.0.1:" + std::to_string(shop.port()));
}

TEST(Api, GivesAScriptInANameBackAsText) {
  RunningShop shop;
  const std::string name = "<script>alert(1)</script>\"'&\u2028 \xF0\x9F\x98\x80";
  const std::string id = shop.new_id();
  shop.write("PUT", "/people/" + id, {{"id", id}, {"name", name}, {"role", "student"}, {"active", true}});
  const Answer answer = shop.get("/shop");
  EXPECT_EQ(answer.headers.at("content-type"), "application/json");
  EXPECT_EQ(answer.headers.at("x-content-type-options"), "nosniff");
  EXPECT_EQ(Json::parse(answer.body)["people"][1]["name"], name);
}

TEST(Api, RefusesEndlessNamesAndAbsurdDates) {
  RunningShop shop;
  const std::string id = shop.new_id();
  const Json person = {{"id", id}, {"name", std::string(10'000, 'x')}, {"role", "student"}, {"active", true}};
  expect_refused(shop.send("PUT", "/people/" + id, person), 422, "too_long");
  const Json instrument = {{"id", id},
                           {"name", "micrometer 3"},
                           {"kind", "micrometer"},
                           {"serial", ""},
                           {"resolution_nm", 1000},
                           {"mpe_nm", 2000},
                           {"repeatability_nm", 1000},
                           {"default_unit", "mm"},
                           {"calibrated_on", "9999-99-99"},
                           {"active", true}};
  const Answer answer = shop.send("PUT", "/instruments/" + id, instrument);
  expect_refused(answer, 422, "not_a_date");
  EXPECT_EQ(Json::parse(answer.body)["error"]["field"], "calibrated_on");
}

TEST(Api, RefusesABodyThatSpeaksOfAnotherThingThanItsAddress) {
  RunningShop shop;
  const Json person = {{"id", shop.new_id()}, {"name", "x"}, {"role", "student"}, {"active", true}};
  expect_refused(shop.send("PUT", "/people/" + shop.new_id(), person), 422, "not_the_same");
}

TEST(Api, FindsAJobByTheNumberThatPeopleSay) {
  RunningShop shop;
  const Json file = shop.open_job();
  const std::string number = std::to_string(file["job"]["number"].get<int>());
  EXPECT_EQ(shop.read("/jobs/" + number)["job"], file["job"]);
  EXPECT_EQ(shop.get("/jobs/" + number + "/assessment").status, 200);
  EXPECT_EQ(shop.get("/jobs/999").status, 404);
  EXPECT_EQ(shop.get("/jobs/" + shop.new_id()).status, 404);
  EXPECT_EQ(shop.get("/jobs/twelve").status, 422);
}

TEST(Api, StoresAReadingThatIsSentTwiceOnce) {
  RunningShop shop;
  const Json file = shop.open_job();
  const std::string path = "/jobs/" + RunningShop::id_of(file) + "/readings";
  const Json reading = shop.reading(file, 0, "21.234");
  const Json first = shop.write("POST", path, reading);
  const std::int64_t seq = shop.read("/health")["seq"];
  EXPECT_EQ(shop.write("POST", path, reading), first);
  EXPECT_EQ(shop.read("/health")["seq"], seq) << "the second time changed nothing";
  EXPECT_EQ(shop.read("/jobs/" + RunningShop::id_of(file))["readings"].size(), 1U);
  EXPECT_EQ(first["state"], "current");
  EXPECT_EQ(first["value"]["nm"], 21'234'000);
}

TEST(Api, AsksAboutAReadingThatLooksWrongAndStoresItWhenConfirmed) {
  RunningShop shop;
  const Json file = shop.open_job();
  const std::string path = "/jobs/" + RunningShop::id_of(file) + "/readings";
  shop.write("POST", path, shop.reading(file, 0, "21.234"));
  Json lost_turn = shop.reading(file, 1, "20.734");
  const Answer answer = shop.send("POST", path, lost_turn);
  expect_refused(answer, 422, "doubtful_reading");
  const Json doubts = Json::parse(answer.body)["error"]["doubts"];
  ASSERT_FALSE(doubts.empty());
  EXPECT_FALSE(doubts[0]["message"].get<std::string>().empty());
  EXPECT_EQ(shop.read("/jobs/" + RunningShop::id_of(file))["readings"].size(), 1U);
  lost_turn["confirmed"] = true;
  EXPECT_FALSE(shop.write("POST", path, lost_turn)["confirmed_doubts"].empty());
}

TEST(Api, ShowsWhatStandsWhenSomebodyElseChangedItMeanwhile) {
  RunningShop shop;
  const Json file = shop.open_job();
  const std::string path = "/jobs/" + RunningShop::id_of(file);
  Json mine = file["job"];
  Json theirs = file["job"];
  mine["vehicle"] = "blue estate";
  theirs["vehicle"] = "green saloon";
  shop.write("PUT", path, mine);
  const Answer answer = shop.send("PUT", path, theirs);
  expect_refused(answer, 409, "changed_meanwhile");
  EXPECT_EQ(Json::parse(answer.body)["error"]["current"]["vehicle"], "blue estate");
}

TEST(Api, RefusesToChangeASealedJob) {
  RunningShop shop;
  const Json file = shop.open_job();
  const std::string path = "/jobs/" + RunningShop::id_of(file);
  for (int point = 0; point < 4; ++point) shop.write("POST", path + "/readings", shop.reading(file, point, "19.5"));
  shop.write("POST", path + "/findings",
             {{"id", shop.new_id()},
              {"part_id", file["parts"][0]["id"]},
              {"kind", "nothing_found"},
              {"judgement", "noted"},
              {"note", ""}});
  shop.write("POST", path + "/decisions", {{"id", shop.new_id()}, {"action", "replace"}, {"reason", "under discard"}});
  shop.write("POST", path + "/seal");
  EXPECT_EQ(shop.send("POST", path + "/readings", shop.reading(file, 0, "21.2")).status, 409);
  EXPECT_EQ(shop.write("POST", path + "/amendments", {{"id", shop.new_id()}, {"text", "seen again"}})["text"],
            "seen again");
}

TEST(Api, ImportsAndExportsReadingsAsATable) {
  RunningShop shop;
  const Json file = shop.open_job();
  const std::string path = "/api/v1/jobs/" + RunningShop::id_of(file);
  const std::string table = "point number;thickness mm\r\n1;21,234\r\n2;21,240\r\n3;rust\r\n";
  const Answer answer =
      RawClient(shop.port()).write("POST", path + "/readings/import?by_person_id=" + shop.teacher(), table, "text/csv");
  ASSERT_EQ(answer.status, 200) << answer.body;
  const Json report = Json::parse(answer.body);
  EXPECT_EQ(report["added"], 2);
  ASSERT_EQ(report["refused"].size(), 1U);
  EXPECT_EQ(report["refused"][0]["line"], 4);
  const Answer exported = RawClient(shop.port()).get(path + "/export.csv");
  EXPECT_EQ(exported.headers.at("content-type"), "text/csv; charset=utf-8");
  EXPECT_NE(exported.body.find("21,234"), std::string::npos);
  EXPECT_EQ(Json::parse(RawClient(shop.port()).get(path + "/export.json").body)["format"], "brakewright-job-1");
}

TEST(Api, PrintsTheRecord) {
  RunningShop shop;
  const std::string path = "/jobs/" + RunningShop::id_of(shop.open_job());
  const Answer pdf = shop.get(path + "/record.pdf?paper=letter");
  EXPECT_EQ(pdf.headers.at("content-type"), "application/pdf");
  EXPECT_TRUE(pdf.body.starts_with("%PDF-"));
  const Answer svg = shop.get(path + "/record.svg?sheet=1");
  EXPECT_NE(svg.body.find("<svg"), std::string::npos);
  EXPECT_NE(svg.headers.at("content-security-policy").find("default-src 'none'"), std::string::npos);
  EXPECT_TRUE(shop.get(path + "/record.png").body.starts_with("\x89PNG"));
  expect_refused(shop.get(path + "/record.svg?sheet=4"), 422, "no_such_sheet");
}

TEST(Api, MakesAndListsBackups) {
  RunningShop shop;
  EXPECT_EQ(shop.write("POST", "/backups")["bytes"], 4096);
  EXPECT_EQ(shop.read("/backups")[0]["name"], "a.sqlite");
}

TEST(Api, OpensAPracticeJob) {
  RunningShop shop;
  EXPECT_EQ(shop.write("POST", "/practice-job")["job"]["complaint"], "practice");
}

TEST(Api, ShowsTheBoard) {
  RunningShop shop;
  shop.open_job();
  const Json file = shop.open_job();
  const Json board = shop.read("/jobs?state=open&limit=1");
  EXPECT_EQ(board["total"], 2);
  ASSERT_EQ(board["lines"].size(), 1U);
  EXPECT_FALSE(board["lines"][0]["waits_for"].get<std::string>().empty());
  EXPECT_EQ(shop.read("/jobs?words=unheard")["total"], 0);
}

TEST(Api, TakesReadingsFromManyTabletsAtOnce) {
  RunningShop shop;
  const Json file = shop.open_job();
  const std::string target = "/api/v1/jobs/" + RunningShop::id_of(file) + "/readings?by_person_id=" + shop.teacher();
  std::vector<std::future<int>> tablets;
  for (int i = 0; i < 64; ++i) {
    const std::string body = shop.reading(file, i % 4, "21.23" + std::to_string(i % 10)).dump();
    tablets.push_back(std::async(std::launch::async, [&shop, target, body] {
      return RawClient(shop.port()).write("POST", target, body).status;
    }));
  }
  for (auto& tablet : tablets) EXPECT_EQ(tablet.get(), 200);
  EXPECT_EQ(shop.read("/jobs/" + RunningShop::id_of(file))["readings"].size(), 64U);
}

}  // namespace
}  // namespace brakewright::server
