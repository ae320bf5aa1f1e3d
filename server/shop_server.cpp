#include <chrono>
#include <mutex>
#include <set>
#include <utility>

#include "server/http/events.hpp"
#include "server/page/page.hpp"
#include "server/routes/operations.hpp"
#include "server/routes/practice_answers.hpp"
#include "server/routes/practice_news.hpp"
#include "server/serve.hpp"
#include "shop/school/school.hpp"

namespace brakewright::server {
namespace {

http::ServerOptions with_loopback_names(http::ServerOptions options) {
  for (const char* name : {"127.0.0.1", "localhost", "[::1]"}) options.host_names.emplace_back(name);
  return options;
}

SchoolRules rules_of(shop::School& school) {
  return {.may_cut = [&school](const shop::Uuid& person_id,
                               const shop::Uuid& job_id) { return school.may_cut(person_id, job_id); },
          .is_closed = [&school](const shop::Uuid& study_id) { return school.study(study_id).study.closed; }};
}

/// With what the server has for them.
DoorOptions completed(DoorOptions options, const std::function<shop::UtcTime()>& now, shop::School* school) {
  if (!options.now) options.now = now;
  if (school != nullptr) options.school = rules_of(*school);
  return options;
}

constexpr std::chrono::seconds kPracticeNewsApart{1};

/// Between the shop, which keeps its listeners for ever, and the server, which may end before it.
class Bell {
 public:
  Bell(http::HttpServer& server, PracticeNews& practice) : server_(&server), practice_(&practice) {}
  void ring() {
    const std::lock_guard lock(guard_);
    if (server_ != nullptr) server_->news();
  }
  void ring_for(const shop::Uuid& practice_run_id) {
    const std::lock_guard lock(guard_);
    if (practice_ != nullptr) practice_->changed(practice_run_id);
  }
  void take_down() {
    const std::lock_guard lock(guard_);
    server_ = nullptr;
    practice_ = nullptr;
  }

 private:
  std::mutex guard_;
  http::HttpServer* server_;
  PracticeNews* practice_;
};

}  // namespace

/// In the order in which they need each other.
struct ShopServer::Parts {
  Parts(shop::Shop& shop, ShopServerOptions options)
      : address(std::move(options.address)),
        keeper(shop, completed(std::move(options.doors), options.now, options.school)),
        around{.shop = shop,
               .version = std::move(options.version),
               .address = [this] { return address(server.port()); },
               .now = std::move(options.now),
               .back_up = std::move(options.back_up),
               .backups = std::move(options.backups),
               .open_practice_job = std::move(options.open_practice_job),
               .school = options.school,
               .keeper = &keeper,
               .shop_file = std::move(options.shop_file),
               .practice = options.practice},
        router(routes_of(around)),
        page(std::move(options.web_dir)),
        hub(events_of(shop)),
        server(
            with_loopback_names(std::move(options.http)),
            [this](const http::Request& request) { return answer(request); }, hub),
        practice_news(
            [this](const std::set<shop::Uuid>& run_ids) {
              hub.say("practice", event_of(run_ids));
              server.news();
            },
            kPracticeNewsApart) {}

  http::Response answer(const http::Request& request) const {
    const bool for_the_api = request.path == "/api" || request.path.starts_with("/api/");
    return for_the_api ? router.answer(request) : page.answer(request);
  }

  std::function<std::string(std::uint16_t port)> address;
  Doorkeeper keeper;
  Surroundings around;
  http::Router router;
  Page page;
  http::EventHub hub;
  http::HttpServer server;
  PracticeNews practice_news;
  std::shared_ptr<Bell> bell = std::make_shared<Bell>(server, practice_news);
};

ShopServer::ShopServer(shop::Shop& shop, ShopServerOptions options)
    : parts_(std::make_unique<Parts>(shop, std::move(options))) {
  shop.on_change([bell = parts_->bell](const shop::Change&) { bell->ring(); });
  if (parts_->around.practice != nullptr) {
    parts_->around.practice->on_change([bell = parts_->bell](const shop::Uuid& run_id) { bell->ring_for(run_id); });
  }
  parts_->server.start();
}

ShopServer::~ShopServer() {
  parts_->bell->take_down();
  parts_->practice_news.stop();
  stop();
}

std::uint16_t ShopServer::port() const { return parts_->server.port(); }
std::string ShopServer::address() const { return parts_->around.address(); }
void ShopServer::stop() { parts_->server.stop(); }

}  // namespace brakewright::server
