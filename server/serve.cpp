#include "server/serve.hpp"

#include <fmt/format.h>
#include <pthread.h>
#include <sodium.h>
#include <spdlog/sinks/stdout_color_sinks.h>
#include <spdlog/spdlog.h>

#include <chrono>
#include <csignal>
#include <mutex>
#include <ostream>
#include <stdexcept>

#include "server/backup_schedule.hpp"
#include "server/network.hpp"
#include "server/routes/assessment.hpp"
#include "server/tls/certificate.hpp"
#include "store/open.hpp"
#include "store/practice_file.hpp"
#include "store/secret_table.hpp"
#include "store/session_file.hpp"
#include "store/sqlite_practice.hpp"
#include "store/sqlite_school.hpp"

namespace brakewright::server {
namespace {

constexpr std::chrono::minutes kLookForBackups{30};

shop::UtcTime now() { return std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now()); }

void fill_with_random(std::span<std::uint8_t> bytes) { ::randombytes_buf(bytes.data(), bytes.size()); }

/// What goes wrong is told beside what the program answers, not in it.
void log_to_standard_error() {
  spdlog::set_default_logger(
      std::make_shared<spdlog::logger>("brakewright", std::make_shared<spdlog::sinks::stderr_color_sink_mt>()));
}

/// The end of the program as a call that waits, for this thread and all that begin after it.
class EndSignal {
 public:
  EndSignal() {
    ::sigemptyset(&ends_);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) ::sigaddset(&ends_, signal);
    ::pthread_sigmask(SIG_BLOCK, &ends_, &before_);
  }
  ~EndSignal() { ::pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
  EndSignal(const EndSignal&) = delete;
  EndSignal& operator=(const EndSignal&) = delete;

  void wait() const {
    int signal = 0;
    ::sigwait(&ends_, &signal);
  }

 private:
  sigset_t ends_{};
  sigset_t before_{};
};

std::string address_of(const ServeOptions& options, const std::string& host, std::uint16_t port) {
  return fmt::format("{}://{}:{}", options.https ? "https" : "http", host, port);
}

std::string first_address(const ServeOptions& options, std::uint16_t port) {
  const auto addresses = options.lan ? network_addresses() : std::vector<std::string>();
  return address_of(options, addresses.empty() ? "127.0.0.1" : addresses.front(), port);
}

ShopCertificate certificate_for(const ServeOptions& options) {
  CertificateNames wanted{.names = {"localhost"}, .addresses = {"127.0.0.1", "::1"}};
  wanted.names.insert(wanted.names.end(), options.host_names.begin(), options.host_names.end());
  if (options.lan) {
    for (std::string& name : machine_names()) wanted.names.push_back(std::move(name));
    for (std::string& address : network_addresses()) wanted.addresses.push_back(std::move(address));
  }
  return shop_certificate(options.database.string() + ".certificate.pem", wanted, now());
}

ShopServerOptions server_options(const ServeOptions& options, shop::Shop& shop, std::mutex& one_backup_at_a_time) {
  ShopServerOptions wanted;
  wanted.http.port = options.port;
  wanted.http.addresses =
      options.lan ? std::vector<std::string>{"0.0.0.0", "::"} : std::vector<std::string>{"127.0.0.1", "::1"};
  wanted.http.host_names = options.host_names;
  if (options.lan) {
    for (std::string& name : machine_names()) wanted.http.host_names.push_back(std::move(name));
  }
  wanted.version = options.version;
  wanted.address = [&options](std::uint16_t port) { return first_address(options, port); };
  wanted.web_dir = options.web_dir;
  wanted.now = now;
  wanted.back_up = [&options, &one_backup_at_a_time] {
    const std::lock_guard lock(one_backup_at_a_time);
    return store::back_up(options.database, options.backups, now(), options.keep_backups);
  };
  wanted.backups = [&options] { return store::backups(options.backups); };
  if (options.open_practice_job) {
    wanted.open_practice_job = [&](const shop::Uuid& by) { return options.open_practice_job(shop, by); };
  }
  return wanted;
}

BackupSchedule::Ways backup_ways(const ShopServerOptions& options) {
  return {.now = options.now,
          .newest =
              [backups = options.backups] {
                const auto all = backups();
                return all.empty() ? std::nullopt : std::optional(all.front().at);
              },
          .back_up = [back_up = options.back_up] { spdlog::info("backup {}", back_up().name); }};
}

void tell_certificate(std::ostream& out, const ShopCertificate& certificate) {
  out << "A browser that meets this shop's own certificate warns once. Let it go on only when it shows the\n"
         "SHA-256 fingerprint\n\n  "
      << certificate.fingerprint << "\n\n  valid until " << shop::to_text(certificate.valid_until).substr(0, 10)
      << "\n\n";
}

void tell(std::ostream& out, const ServeOptions& options, const ShopServer& server) {
  const std::string address = server.address();
  out << "\nBrakewright serves " << options.database.string() << "\n\n  " << address << "\n\n";
  if (options.lan && network_addresses().empty()) {
    out << "This machine is on no network, so only it can open that address.\n\n";
  } else if (options.lan) {
    out << "Tablets on this network open it, or read this code:\n\n" << qr_for_terminal(address) << "\n";
    const auto all = network_addresses();
    for (std::size_t i = 1; i < all.size(); ++i) out << "  also " << address_of(options, all[i], server.port()) << "\n";
  } else {
    out << "Only this machine can open it; --lan serves the shop's tablets.\n\n";
  }
}

}  // namespace

void serve(const ServeOptions& options, std::ostream& out) {
  if (::sodium_init() < 0) throw std::runtime_error("no source of random numbers");
  log_to_standard_error();
  const EndSignal end;
  const auto store = store::open_store({.file = options.database, .backups = options.backups, .now = now()});
  shop::Shop shop(*store, {.now = now, .random = fill_with_random, .verdict_json = verdict_json});
  const auto school_store = store::open_school(*store);
  shop::School school(shop, *school_store, now);
  const auto practice_store = store::open_practice(*store);
  const auto practice_book = store::open_practice_book(store::practice_beside(options.database));
  shop::Practice practice(shop, *practice_store, *practice_book, {.now = now, .random = fill_with_random});
  school.practice_from(
      {.best_points = [&practice] { return practice.best_points(); },
       .has_ended = [&practice](const shop::Uuid& run_id,
                                const shop::Uuid& person_id) { return practice.has_ended(run_id, person_id); }});
  std::mutex one_backup_at_a_time;
  ShopServerOptions wanted = server_options(options, shop, one_backup_at_a_time);
  wanted.school = &school;
  wanted.practice = &practice;
  wanted.shop_file = options.database;
  wanted.doors.secrets = store::secrets_of(*store);
  wanted.doors.book = store::open_sessions(store::sessions_beside(options.database));
  wanted.doors.random = fill_with_random;
  const BackupSchedule::Ways ways = backup_ways(wanted);

  std::optional<ShopCertificate> certificate;
  if (options.https) {
    certificate = certificate_for(options);
    wanted.http.identity = certificate->identity;
  }
  ShopServer server(shop, std::move(wanted));
  const BackupSchedule schedule(ways, kLookForBackups);
  tell(out, options, server);
  if (certificate) tell_certificate(out, *certificate);
  out << "Ctrl-C ends it.\n" << std::flush;
  end.wait();
  out << "\nFinishing what is under way ...\n" << std::flush;
  server.stop();
}

}  // namespace brakewright::server
