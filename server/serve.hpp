#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "server/doors/doorkeeper.hpp"
#include "server/http/server.hpp"
#include "shop/practice/practice.hpp"
#include "shop/school/school.hpp"
#include "shop/shop.hpp"
#include "store/backup.hpp"

/// Serving a shop to every tablet in it.
namespace brakewright::server {

struct ServeOptions {
  std::filesystem::path database;  ///< the shop's file; made when missing
  std::filesystem::path backups;   ///< folder of backups; made when missing
  std::size_t keep_backups = 30;
  std::uint16_t port = 8520;            ///< 0: any free one
  bool lan = false;                     ///< listen for other machines too; without it nothing outside reaches us
  bool https = false;                   ///< with the shop's own certificate, kept beside the database
  std::vector<std::string> host_names;  ///< further names that this machine is called by
  std::optional<std::filesystem::path> web_dir;  ///< a folder in place of the page inside the program
  std::string version = "0.1.0";

  /// Opens one invented job to practise on. Absent: the API says that this program has none.
  std::function<shop::JobFile(shop::Shop&, const shop::Uuid& by)> open_practice_job;
};

/// Opens the shop, serves it until SIGINT or SIGTERM, and closes it in order. A backup is made at the start when there
/// is none of the last 24 hours, and every 24 hours from then on.
/// @param out  where the addresses are told, in LAN mode with a QR code for tablets
/// @throws shop::StoreError  when the shop's file cannot be used; http::CannotListen  when the port cannot;
///         std::runtime_error  when the certificate cannot be read or kept
void serve(const ServeOptions& options, std::ostream& out);

/// What a server needs to know besides the shop itself.
struct ShopServerOptions {
  http::ServerOptions http;  ///< addresses, port, limits; the names of the loopback are added to its host_names
  std::string version;
  std::function<std::string(std::uint16_t port)> address;  ///< of the shop on its network, for links and codes
  std::optional<std::filesystem::path> web_dir;
  std::function<shop::UtcTime()> now;
  std::function<store::Backup()> back_up;
  std::function<std::vector<store::Backup>()> backups;
  std::function<shop::JobFile(const shop::Uuid& by)> open_practice_job;
  shop::School* school = nullptr;        ///< over the same shop; outlives the server
  shop::Practice* practice = nullptr;    ///< over the same shop; outlives the server
  std::filesystem::path shop_file = {};  ///< of the shop, which records are held against; empty: none are
  DoorOptions doors;  ///< its clock is `now` when it has none of its own; its secrets and dice are needed
};

/// A shop on the network: API, events and page. Listens from its making to its end.
class ShopServer {
 public:
  /// The shop must outlive the server, and gets a listener that tells the events.
  ShopServer(shop::Shop& shop, ShopServerOptions options);
  ~ShopServer();

  std::uint16_t port() const;
  std::string address() const;
  void stop();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace brakewright::server
